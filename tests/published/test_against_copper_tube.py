"""Against ASTM B88 and B88M, copper tube, as engineeringtoolbox.com prints their weights.

Kind: standard. Quoted by a secondary page (d_779, d_780) with the name of the standard. The density is not told there:
0.323 lb a cubic inch fits all but the two figures left out, and two more are kept as misprints. Tubes of 105 mm are
left out where their outside is not quite that.
"""

from shelf import Printed, book


@book("copper_tube_table")
def test_cell_of_a_table(row: Printed) -> None:
    row.holds()
