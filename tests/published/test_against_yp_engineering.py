"""Against YP Engineering, formulas for the weight of plate and shafts, ypengineering.com.

Kind: maker's page. Read in the source (Thai). Plate at 0.73 kg a square foot and millimetre, shafts at 0.006167 of the
square of the diameter.
"""

from shelf import Printed, book


@book("yp_engineering")
def test_figure(row: Printed) -> None:
    row.holds()
