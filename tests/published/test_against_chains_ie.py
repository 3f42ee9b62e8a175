"""Against ISO 4565 and DIN 766, calibrated chain, as a chain merchant prints it.

Kind: standard. Quoted by a secondary page (chains.ie, CCAW): the outside width is the greatest allowed, so that a link
of just that width comes out up to 3 % heavier. Left out: sizes 7, 14 and 10 x 28, which are 5 to 8 % off, unexplained.
"""

from shelf import Printed, book


@book("chains_ie_table")
def test_cell_of_a_table(row: Printed) -> None:
    row.holds()
