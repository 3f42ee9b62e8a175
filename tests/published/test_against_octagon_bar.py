"""Against Compra Aço (compraco.com.br), table of octagonal steel bar, 16 to 40 mm across flats.

Kind: maker's page. Read in the source. Reckoned there at 0.0065 of the square of the size, truly 0.006503, and held to
that and half a unit: 2 of 11 lie outside half a unit alone.
"""

from shelf import Printed, book


@book("octagon_bar_table")
def test_cell_of_a_table(row: Printed) -> None:
    row.holds()
