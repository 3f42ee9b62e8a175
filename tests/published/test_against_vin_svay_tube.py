"""Against vin-svay.com: weight of a square tube 40 x 40 x 2.

Kind: trade page. Read in the source. Sharp corners, 7.9 kg a cubic decimetre.
"""

from shelf import Printed, book


@book("vin_svay_tube")
def test_figure(row: Printed) -> None:
    row.holds()
