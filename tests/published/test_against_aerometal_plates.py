"""Against Aero Metal, formulas for the weight of steel plate, aerometal.co.th.

Kind: maker's page. Read in the source (Thai). Sheets by the foot at 0.73 kg a square foot and millimetre, which is
0.7293 at 7850; cut plate at 7850. One cut plate is wrong there.
"""

from shelf import Printed, book


@book("aerometal_plates")
def test_figure(row: Printed) -> None:
    row.holds()
