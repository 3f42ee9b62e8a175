"""Against AllExperts (allexperts.com), August 2015: a box of 168 cubic inches from a sheet with its corners cut out.

Kind: question page. Read in the source. Sheet without thickness: a thousandth of an inch here.
"""

from shelf import Printed, book


@book("tin_box_allexperts")
def test_figure(row: Printed) -> None:
    row.holds()
