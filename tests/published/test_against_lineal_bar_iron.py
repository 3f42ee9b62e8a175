"""Against a pocket-book of about 1850, table of round and square bar iron, Google Books dUHGjuZyPFEC.

Kind: handbook. Read in the source: page 147, in the scan; title page not seen. Weight of a lineal foot, 3/8 to 6
inches by eighths. The density is not told: 476.95 lb a cubic foot is found from the table, so its cells check the
shape only. Held to one unit of the last place; 20 of 87 lie outside half a unit. Left out: five cells out of step with
the others, that the scan may have misread: round 1 in (2.59 for 2.60) and 2 3/4 (19.60 for 19.67), square 5/8 (1.32
for 1.29), 2 1/4 (16.17 for 16.77) and 4 1/8 (56.76 for 56.36).
"""

from shelf import Printed, book


@book("lineal_bar_iron_table")
def test_cell_of_a_table(row: Printed) -> None:
    row.holds()
