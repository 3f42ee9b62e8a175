"""Against National Open University of Nigeria, MTH 001 Access Mathematics, unit 20, page 147.

Kind: course. Read in the source. The height of the pyramid is rounded to 5.7 before its volume is taken. Left out: its
cone of 10 by 12 cm, the very one of J. Bird here.
"""

from shelf import Printed, book


@book("noun")
def test_figure(row: Printed) -> None:
    row.holds()
