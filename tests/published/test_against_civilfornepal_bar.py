"""Against Civil for Nepal (civilfornepal.com), weight of steel bars.

Kind: lesson page. Read in the source. By d2 L/162.
"""

from shelf import Printed, book


@book("civilfornepal_bar")
def test_figure(row: Printed) -> None:
    row.holds()
