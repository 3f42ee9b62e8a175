"""Against J. Gwilt, Encyclopaedia of Architecture, W. Papworth's edition, Longmans.

Kind: handbook. Read in the source: the page's scan, 2224c table III, copper, a superficial foot in pounds, taken there
from Hunt's Handbook. 46.25 lb a square foot and inch, 555 lb a cubic foot.
"""

from shelf import Printed, book


@book("gwilt_copper_table")
def test_cell_of_a_table(row: Printed) -> None:
    row.holds()
