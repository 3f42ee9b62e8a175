"""Against Directory of Stationary Engineers of Illinois, Indiana and Wisconsin, 1914, rules for circles.

Kind: book. Read in the source (excerpt at a bookseller). 3.1416; its division by 144 is wrong.
"""

from shelf import Printed, book


@book("stationary_engineers_1914")
def test_figure(row: Printed) -> None:
    row.holds()
