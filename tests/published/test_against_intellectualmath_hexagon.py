"""Against Intellectual Math (intellectualmath.com): perimeter of a hexagon.

Kind: lesson page. Read in the source.
"""

from shelf import Printed, book


@book("intellectualmath_hexagon")
def test_figure(row: Printed) -> None:
    row.holds()
