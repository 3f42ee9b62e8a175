"""Against GOST 2590-88, hot rolled round bar: mass of 5 to 53 mm.

Kind: standard. Quoted by a secondary page (600100.ru). 47 mm is wrong there. 7850 kg a cubic metre; three of 25 are a
unit off.
"""

from shelf import Printed, book


@book("gost_2590_table")
def test_cell_of_a_table(row: Printed) -> None:
    row.holds()
