"""Against How to Pass the GED, Cylinder, howtopasstheged.com, 2014.

Kind: lesson page. Read in the source: a can, in square inches and square feet.
"""

from shelf import Printed, book


@book("ged_cylinder")
def test_figure(row: Printed) -> None:
    row.holds()
