"""Against DIN 764, round steel link chain, as makers' pages print it.

Kind: standard. Quoted by secondary pages (scic-chain.com among them). Makers round, and a welded link keeps some of its
weld.
"""

from shelf import Printed, book


@book("din_764_table")
def test_cell_of_a_table(row: Printed) -> None:
    row.holds()
