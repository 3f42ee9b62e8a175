"""Against Steel JRV (steeljrv.com), stainless steel bar: useful formulae and table of rounds, hexagons and squares.

Kind: maker's page. Read in the source, after a stainless maker's data. 7950 kg a cubic metre; a hexagon is taken at
1.1 times the round of the same size (truly 1.1027). Cells that are off by more than their rounding are left out.
"""

from shelf import Printed, book


@book("steel_jrv")
def test_figure(row: Printed) -> None:
    row.holds()


@book("steel_jrv_table")
def test_cell_of_a_table(row: Printed) -> None:
    row.holds()
