"""Against J. W. Burgess, A Practical Treatise on Coach-Building, Crosby Lockwood, 1881.

Kind: book. Read in the source: chapter VII, wrought bars at 480 lb a cubic foot. Many cells are cut off and not
rounded; one is a slip.
"""

from shelf import Printed, book


@book("burgess_table")
def test_cell_of_a_table(row: Printed) -> None:
    row.holds()
