"""Against engineeringhardware.com, clearance hole sizes by ISO 273.

Kind: standard. Quoted by a secondary page: sizes of screw that the other figures from ISO 273 leave out. The rows are
data here: the checks show that each one stands as it is printed. Left out: M1 to M1.6 and above M16, which have no row.
"""

from shelf import Printed, book


@book("engineering_hardware_table")
def test_cell_of_a_table(row: Printed) -> None:
    row.holds()
