"""Against Building Construction vol. 3 (Rivington's series), chestofbooks.com copy.

Kind: book. Read in the source. Table 5 of tin roofing goes by halves of an inch. Of the classes of sheet iron
(singles, doubles, lattens) one thickness is misprinted. The Imperial Standard Wire Gauge and Holtzapffel's Birmingham
gauge are tables by nature, and ours were copied from them: those cells show that they were set down rightly, no more.
"""

from shelf import Printed, book


@book("building_construction")
def test_figure(row: Printed) -> None:
    row.holds()


@book("building_construction_table")
def test_cell_of_a_table(row: Printed) -> None:
    row.holds()
