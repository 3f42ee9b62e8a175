"""Against sheetmetalguy.com, Sheet Metal Layout, Press Brake.

Kind: lesson page. Read in the source: the bracket that it works by hand (thickness 0.036, radius 0.125, line at 0.42).
"""

from shelf import Printed, book


@book("sheetmetalguy")
def test_figure(row: Printed) -> None:
    row.holds()
