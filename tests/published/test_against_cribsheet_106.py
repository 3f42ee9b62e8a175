"""Against PMPA, Craftsman's Cribsheet 106: Weights of Bars, Production Machining, productionmachining.com.

Kind: trade page. Read in the source. Factors of the square of the size in inches, in pounds a foot, at 489.6 lb a cubic
foot.
"""

from shelf import Printed, book


@book("cribsheet_106")
def test_figure(row: Printed) -> None:
    row.holds()
