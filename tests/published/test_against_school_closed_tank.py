"""Against eSaral (esaral.com), question 88143: sheet of a closed tank.

Kind: question page. Read in the source. 22/7.
"""

from shelf import Printed, book


@book("school_closed_tank")
def test_figure(row: Printed) -> None:
    row.holds()
