"""Against My Math Angels (mymathangels.com), problem 920: surface and volume of a cylinder.

Kind: lesson page. Read in the source. 3.14; radius 3 and height 7 as worked.
"""

from shelf import Printed, book


@book("math_angels")
def test_figure(row: Printed) -> None:
    row.holds()
