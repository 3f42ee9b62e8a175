"""Against Masse lineaire des armatures, boutique-genie-civil.blogspot.com, 2014.

Kind: lesson page. Read in the source. 7850 kg a cubic metre.
"""

from shelf import Printed, book


@book("genie_civil_table")
def test_cell_of_a_table(row: Printed) -> None:
    row.holds()
