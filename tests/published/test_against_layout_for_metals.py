"""Against Introduction to Welding: Layout for Metals, Open Oregon.

Kind: school book. Read in the source: chapter 3, Circumference, what a template for a pipe must be wide.
"""

from shelf import Printed, book


@book("layout_for_metals")
def test_figure(row: Printed) -> None:
    row.holds()
