"""Against DIN 660:2012, round head rivets, as fasten.it prints it.

Kind: standard. Quoted by a secondary page: head 1.75 d across and 0.6 d high, to a tenth either way: what is across is
held to one unit, and only that of 3.5 mm lies outside half of one.
"""

from shelf import Printed, book


@book("din_660_table")
def test_cell_of_a_table(row: Printed) -> None:
    row.holds()
