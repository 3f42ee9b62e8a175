"""Against eHow (ehow.com 5568543): area of an octagon.

Kind: lesson page. Read in the source. 2.414 for 1 + root 2, which makes it short.
"""

from shelf import Printed, book


@book("ehow_octagon")
def test_figure(row: Printed) -> None:
    row.holds()
