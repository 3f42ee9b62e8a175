"""Against P. Lobben, Machinists' and Draftsmen's Handbook, Van Nostrand.

Kind: handbook. Read in the source: table 13, page 142, round steel at 489 lb a cubic foot, in the scan's raw text
(runeberg.org); the figures of 5/16 and 1 13/16 in are not clear there and are left out. It takes 2.6672 for the foot of
one inch.
"""

from shelf import Printed, book


@book("lobben_rounds_table")
def test_cell_of_a_table(row: Printed) -> None:
    row.holds()
