"""Against The Metal Worker's Assistant: weights of wire and plates by American gauge, by C. H. Haswell.

Kind: book. Read in the source (chestofbooks.com): wrought iron, steel, copper and brass, reckoned for J. R. Brown &
Sharpe. The densities are not told, but found from the table, so its cells check the shape only: wires at 485.87,
490.45, 555 and 524.35 lb a cubic foot, plates (a square foot) at 450, 456, 543.6 and 513.6, which is of cast metal.
Each cell is held to one part in ten thousand and one unit; 61 of 87 lie outside half a unit, three of them outside
this room too.
"""

from shelf import Printed, book


@book("metal_worker_wire_table")
def test_cell_of_a_table(row: Printed) -> None:
    row.holds()
