"""Against an American mechanic's handbook of the 1860s, Google Books 76lHAAAAIAAJ.

Kind: handbook. Read in the source: page 44, in a poor scan, title page not seen. Sheet copper at 46.24 lb a square foot
and inch; the thin sheet is 1/16 in.
"""

from shelf import Printed, book


@book("copper_square_foot")
def test_figure(row: Printed) -> None:
    row.holds()
