"""Against Iron and Steel (architecture), art. 224, Galvanized and Black Iron, chestofbooks.com copy.

Kind: handbook. Read in the source: sheets by the Birmingham wire gauge, 30 to 13. Black iron, flat; 485 lb a cubic
foot is not told, it is found from the table, so its weights check the shape only; held to one unit of the last place,
5 of 17 lie outside half a unit; one more is a slip of five.
"""

from shelf import Printed, book


@book("black_iron_bwg_table")
def test_cell_of_a_table(row: Printed) -> None:
    row.holds()
