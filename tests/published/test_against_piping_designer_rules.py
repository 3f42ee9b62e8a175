"""Against J. Ratzlaff, Weight for Steel Bars, Pipe, and Tubing (piping-designer.com).

Kind: trade page. Read in the source: factors for pounds a foot. Flats, squares and rounds at 3.403 lb a foot for a
square inch (490 lb a cubic foot), tubes at 489.6. Left out: its hexagon (2.945 for 2.947) and disc (0.2225 for
0.2227), which go with no density that it tells, and its octagon, which is that of others.
"""

from shelf import Printed, book


@book("piping_designer_rules")
def test_figure(row: Printed) -> None:
    row.holds()
