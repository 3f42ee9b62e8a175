"""Against CSR (csr.ro), catalogue: hot rolled rounds for tubes to STAS 2881/87.

Kind: maker's page. Read in the source. Kilograms a metre; held to one unit of the last place, 3 of 17 lie outside half
a unit.
"""

from shelf import Printed, book


@book("stas_2881_table")
def test_cell_of_a_table(row: Printed) -> None:
    row.holds()
