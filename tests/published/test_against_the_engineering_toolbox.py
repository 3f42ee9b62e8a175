"""Against The Engineering ToolBox (engineeringtoolbox.com), tables of mild steel rounds, wire gauge and steel tubing.

Kind: trade page. Read in the source. Rounds by 0.0062 of the square of the size; gauge 1/0 has a slip; tubing (d_774),
outside 1/2 to 3 in, by 10.68 (D - t) t, which is 489.6 lb a cubic foot to four figures: tubing is held to that and
half a unit, 24 of 59 lie outside half a unit alone. Rounds are held to one unit.
"""

from shelf import Printed, book


@book("the_engineering_toolbox")
def test_figure(row: Printed) -> None:
    row.holds()


@book("the_engineering_toolbox_table")
def test_cell_of_a_table(row: Printed) -> None:
    row.holds()
