"""Against Chasing Embers (chasing-embers.com), weight of plate iron, 2019.

Kind: trade page. Read in the source. 40 lb a square foot and inch.
"""

from shelf import Printed, book


@book("chasing_embers_plate")
def test_figure(row: Printed) -> None:
    row.holds()
