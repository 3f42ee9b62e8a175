"""Against Tubes, final English: cold formed circular hollow sections to EN 10219, scribd 338559492.

Kind: maker's page. Read in the source, as the page shows it: mass and area. 7850 kg a cubic metre.
"""

from shelf import Printed, book


@book("chs_en10219_table")
def test_cell_of_a_table(row: Printed) -> None:
    row.holds()
