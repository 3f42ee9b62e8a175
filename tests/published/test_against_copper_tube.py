"""Against ASTM B88 and B88M, copper tube, as engineeringtoolbox.com prints their weights.

Kind: standard. Quoted by a secondary page (d_779, d_780) with the name of the standard. The density is not told there:
0.323 lb a cubic inch is found from the tables, so the cells check the shape only; four of 70 are a unit or two off,
and one more is a misprint. Left out: 6 x 0.9 mm (0.12 for 0.129 kg) and 8 x 0.6 mm (0.13 for 0.125), nearly a unit off
at two figures; and the tubes of 105 mm, whose outside is not quite that (type A prints 9.70 for 9.69).
"""

from shelf import Printed, book


@book("copper_tube_table")
def test_cell_of_a_table(row: Printed) -> None:
    row.holds()
