"""Against Wide Steel (widesteel.com), formulas of calculating the weight of metal materials.

Kind: maker's page. Read in the source: factors for kilograms from millimetres and metres. Copper at 8.9, brass at 8.5
and aluminium at 2.8 g a cubic centimetre; that of the aluminium plate is wrong. Left out: its steel hexagon, which
others here print.
"""

from shelf import Printed, book


@book("widesteel_factors")
def test_figure(row: Printed) -> None:
    row.holds()
