"""Against J. S. Zerbe, Practical Mechanics for Boys, 1914, ch. XVI: flats of steel.

Kind: book. Read in the source. 490 lb a cubic foot. Its column of squares is shifted a row from 1 1/16 down, so none
is taken here. Cells are cut off or rounded and held to one unit of the last place: 36 of 103 lie outside half a unit,
three of them outside a whole one; two more are kept as wrong in print or in the scan. Left out: all squares and
rounds.
"""

from shelf import Printed, book


@book("zerbe_table")
def test_cell_of_a_table(row: Printed) -> None:
    row.holds()
