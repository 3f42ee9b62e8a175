"""Against a table of round and square mild steel bar, gharexpert.com forum, steel formula.

Kind: question page. Read in the source. Kilograms a metre, to two places; one of 14 is cut off and a unit short.
"""

from shelf import Printed, book


@book("gharexpert_table")
def test_cell_of_a_table(row: Printed) -> None:
    row.holds()
