"""Against Bushwick Metals, Formulas and data: shape weight formulas, bushwickmetals.com.

Kind: maker's page. Read in the source: factors for pounds a foot, by steel of 40.80 lb a square foot and inch. Its
factor for plates is not that of its own squares, and is kept as a slip. Left out: its rounds, squares, hexagons,
octagons and tubes, which others here print to more places.
"""

from shelf import Printed, book


@book("bushwick_formulas")
def test_figure(row: Printed) -> None:
    row.holds()
