"""Against J. Ratzlaff, Weight for Steel Bars, Pipe, and Tubing (piping-designer.com).

Kind: trade page. Read in the source: factors for pounds a foot. Flats, squares and rounds at 3.403 lb a foot for a
square inch (490 lb a cubic foot), tubes and octagons at 489.6. Its hexagon and disc go with no density that it tells,
and are left out.
"""

from shelf import Printed, book


@book("piping_designer_rules")
def test_figure(row: Printed) -> None:
    row.holds()
