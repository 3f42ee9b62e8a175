"""Against Civil Engineering Views, spiral bar cutting length, civilengineeringviews.com.

Kind: lesson page. Read in the source: circumference of a spiral of 4.5 ft; takes 3.14 for pi.
"""

from shelf import Printed, book


@book("civil_engineering_views")
def test_figure(row: Printed) -> None:
    row.holds()
