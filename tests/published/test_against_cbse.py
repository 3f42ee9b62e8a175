"""Against CBSE, class 10 mathematics, sample question paper, 2019.

Kind: school book. Quoted by a secondary page (maxtute.com), with the answer worked. 22/7.
"""

from shelf import Printed, book


@book("cbse")
def test_figure(row: Printed) -> None:
    row.holds()
