"""Against a Russian list of masses of electric-welded tubes, 219 to 1620 mm (veranda71.ru, table 2).

Kind: trade page. Read in the source. 7850 kg a cubic metre; one line is of another tube. Two of 23 masses are cut off
and a unit short.
"""

from shelf import Printed, book


@book("welded_tube_masses_table")
def test_cell_of_a_table(row: Printed) -> None:
    row.holds()
