"""Against H. Pender and K. McIlwain, Electrical Engineers' Handbook, 1936: US standard gauge.

Kind: handbook. Quoted by a secondary page (a letter of M. Miller, team.net shop-talk, January 1997). Steel at 489.6 lb
a cubic foot by its own thicknesses, which are asked here.
"""

from shelf import Printed, book


@book("pender_gauge_table")
def test_cell_of_a_table(row: Printed) -> None:
    row.holds()
