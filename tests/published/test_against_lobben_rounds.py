"""Against P. Lobben, Machinists' and Draftsmen's Handbook, Van Nostrand.

Kind: handbook. Read in the source: table 13, page 142, round steel at 489 lb a cubic foot, in the scan's raw text
(runeberg.org); it takes 2.6672 for the foot of one inch, truly 2.66708. Held to that and one unit of the last place;
24 of 46 lie outside half a unit, one outside this room too. Left out: 5/16 and 1 13/16 in, not clear in the scan (the
first reads 0.261 for 0.2605).
"""

from shelf import Printed, book


@book("lobben_rounds_table")
def test_cell_of_a_table(row: Printed) -> None:
    row.holds()
