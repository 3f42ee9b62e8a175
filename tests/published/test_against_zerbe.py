"""Against J. S. Zerbe, Practical Mechanics for Boys, 1914, ch. XVI: flats of steel.

Kind: book. Read in the source. 490 lb a cubic foot. Its column of squares is shifted a row from 1 1/16 down, so none
of its squares or rounds is taken; cells that are off without a reason are left out too.
"""

from shelf import Printed, book


@book("zerbe_table")
def test_cell_of_a_table(row: Printed) -> None:
    row.holds()
