"""Against Off-Roaders (offroaders.com), sheet metal gauges.

Kind: lesson page. Read in the source. 41.82 lb a square foot and inch.
"""

from shelf import Printed, book


@book("offroaders_gauge")
def test_figure(row: Printed) -> None:
    row.holds()
