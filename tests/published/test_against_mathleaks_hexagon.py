"""Against Pearson, Geometry, p. 632, no. 22, perimeter of a hexagon.

Kind: school book. Quoted by a secondary page that works it (mathleaks.com). Its 98 for 6 x 16 is a slip; it goes on
with 96.
"""

from shelf import Printed, book


@book("mathleaks_hexagon")
def test_figure(row: Printed) -> None:
    row.holds()
