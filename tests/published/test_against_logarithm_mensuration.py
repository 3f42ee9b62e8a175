"""Against a treatise of practical mathematics of about 1700, Google Books smlLAAAAMAAJ.

Kind: school book. Read in the source: page 160, scanned text, title page not seen; reckoning by logarithms. The cone is
reckoned there with 1.340422 for the logarithm of 22, which is 1.342423. The height of the frustum is that of the
printed logarithm of its third.
"""

from shelf import Printed, book


@book("logarithm_mensuration")
def test_figure(row: Printed) -> None:
    row.holds()
