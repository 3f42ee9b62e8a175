"""Against Steel JRV (steeljrv.com), stainless steel bar: useful formulae and table of rounds, hexagons and squares.

Kind: maker's page. Read in the source, after a stainless maker's data. 7950 kg a cubic metre; a hexagon is taken at
1.1 times the round of the same size (truly 1.1027). Cells are cut off or rounded and held to one unit of the last
place, hexagons to that rule too: 17 of 48 rounds and squares lie outside half a unit, one of them four units off, and
15 of 24 hexagons.
"""

from shelf import Printed, book


@book("steel_jrv")
def test_figure(row: Printed) -> None:
    row.holds()


@book("steel_jrv_table")
def test_cell_of_a_table(row: Printed) -> None:
    row.holds()
