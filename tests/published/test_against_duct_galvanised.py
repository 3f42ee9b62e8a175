"""Against ASTM A525-80, thickness of galvanised sheet, nominal millimetres.

Kind: standard. Quoted by a secondary page, a duct schedule (scribd 416155965): numbers 30 to 10.
"""

from shelf import Printed, book


@book("duct_galvanised_table")
def test_cell_of_a_table(row: Printed) -> None:
    row.holds()
