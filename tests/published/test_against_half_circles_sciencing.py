"""Against lessons on circles and half circles, sciencing.com.

Kind: lesson page. Read in the source: pages 4489560 and 8233646. 3.14 on the bow only; 3.142.
"""

from shelf import Printed, book


@book("half_circles_sciencing")
def test_figure(row: Printed) -> None:
    row.holds()
