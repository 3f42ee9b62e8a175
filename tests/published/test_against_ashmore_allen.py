"""Against Ashmore & Allen, data sheet of sheet by S.W.G.

Kind: maker's page. Quoted by a secondary page: millimetres, and kilograms a square metre reckoned from them. It prints
9 S.W.G. as 3.64 mm, where 0.144 in is 3.658; its weight goes wrong with it. Weights are held to 0.04, the rounding of
those millimetres, and one unit: 6 of 12 lie outside half a unit; two more are kept as wrong in print or in the scan.
Of 15 sizes two are a unit off.
"""

from shelf import Printed, book


@book("ashmore_allen_table")
def test_cell_of_a_table(row: Printed) -> None:
    row.holds()
