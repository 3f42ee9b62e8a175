"""Against John Bird, Basic Engineering Mathematics, 5th edition, Newnes, 2010.

Kind: school book. Read in the source: chapter 27, page images with text, pages 244 to 255. Three or four figures;
slants are rounded before areas are taken.
"""

from shelf import Printed, book


@book("bird")
def test_figure(row: Printed) -> None:
    row.holds()
