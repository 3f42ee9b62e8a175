"""Against an answer on a frustum of a square pyramid, freemathhelp.com forum, thread 40203.

Kind: question page. Read in the source; reckoned there twice, by formula and as the difference of two pyramids.
"""

from shelf import Printed, book


@book("free_math_help")
def test_figure(row: Printed) -> None:
    row.holds()
