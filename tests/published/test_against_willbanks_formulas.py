"""Against Willbanks Metals (willbanksmetals.com), steel product sizing and calculations.

Kind: maker's page. Read in the source: factors for hexagon and octagon of one inch; one has its point slipped.
"""

from shelf import Printed, book


@book("willbanks_formulas")
def test_figure(row: Printed) -> None:
    row.holds()
