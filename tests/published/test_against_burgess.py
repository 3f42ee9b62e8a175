"""Against J. W. Burgess, A Practical Treatise on Coach-Building, Crosby Lockwood, 1881.

Kind: book. Read in the source: chapter VII, wrought bars at 480 lb a cubic foot. Cells are cut off or rounded and held
to one unit of the last place: 17 of 47 lie outside half a unit; one more is off by five.
"""

from shelf import Printed, book


@book("burgess_table")
def test_cell_of_a_table(row: Printed) -> None:
    row.holds()
