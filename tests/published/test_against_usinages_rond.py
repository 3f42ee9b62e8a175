"""Against usinages.com, thread 108171: developed length of a bent rod.

Kind: question page. Read in the source: the half circle of it, by the middle line.
"""

from shelf import Printed, book


@book("usinages_rond")
def test_figure(row: Printed) -> None:
    row.holds()
