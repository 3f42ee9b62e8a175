"""Against Math Help Forum (mathhelpforum.com), thread 27028: a box 5 in high from a sheet with its corners cut out.

Kind: question page. Read in the source. Sheet without thickness: a thousandth of an inch here.
"""

from shelf import Printed, book


@book("tin_box_mathhelpforum")
def test_figure(row: Printed) -> None:
    row.holds()
