"""Against Jiskha (jiskha.com), 18 September 2012: a box of 420 cubic inches from a sheet with its corners cut out.

Kind: question page. Read in the source. Sheet without thickness: a thousandth of an inch here.
"""

from shelf import Printed, book


@book("tin_box_jiskha")
def test_figure(row: Printed) -> None:
    row.holds()
