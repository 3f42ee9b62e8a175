"""Against An Act establishing a standard gauge for sheet and plate iron and steel, 3 March 1893 (27 Stat. 746).

Kind: law. Read in the source (15 USC 206): numbers 7/0 to 21, thickness and weights. Iron at 480 lb a cubic foot. The
thickness of this law is not that of the gauge that steel is sold by today, so it is asked by its thickness.
"""

from shelf import Printed, book


@book("us_gauge_law_table")
def test_cell_of_a_table(row: Printed) -> None:
    row.holds()
