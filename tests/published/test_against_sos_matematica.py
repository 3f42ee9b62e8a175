"""Against SOS Matematica (sosmatematica.it), forum, question n07 on the frustum of a pyramid.

Kind: question page. Read in the source. The last product is wrong there: 136 times 13 is 1768.
"""

from shelf import Printed, book


@book("sos_matematica")
def test_figure(row: Printed) -> None:
    row.holds()
