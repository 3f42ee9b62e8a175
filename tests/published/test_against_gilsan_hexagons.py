"""Against Gilsan, Unit weight of stainless hexagon rods.

Kind: maker's page. Read in the source: page 7-2-3 of its site, as kept in the repository ttmfoqqk/gilsan. 304 at 7.93
and 316 at 7.98, hexagon at 0.866 of the square across flats. Cut off or rounded: held to one unit of the last place, 7
of 36 lie outside half a unit.
"""

from shelf import Printed, book


@book("gilsan_hexagons_table")
def test_cell_of_a_table(row: Printed) -> None:
    row.holds()
