"""Against Steel Market Update (steelmarketupdate.com), on where sheet gauges come from.

Kind: trade page. Read in the source. Iron at 480 lb a cubic foot, by the law of 1893.
"""

from shelf import Printed, book


@book("steel_market_update")
def test_figure(row: Printed) -> None:
    row.holds()
