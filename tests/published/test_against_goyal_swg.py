"""Against Goyal Metal, SWG to mm conversion table, goyalmetal.com.

Kind: maker's page. Read in the source: wires of SWG 0 to 13, size, area and kilograms a kilometre. Copper at 8890,
steel at 7850 kg a cubic metre. Areas are of the size in inches or of the millimetres already rounded, weights of
either area: both are held to one unit of the last place, 8 of 42 lie outside half a unit. One size is cut off.
"""

from shelf import Printed, book


@book("goyal_swg_table")
def test_cell_of_a_table(row: Printed) -> None:
    row.holds()
