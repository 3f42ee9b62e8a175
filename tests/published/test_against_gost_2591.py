"""Against GOST 2591-88, hot rolled square bar: area and mass of 6 to 42 mm.

Kind: standard. Quoted by a secondary page (markmet.ru). Its row of 38 mm is wrong twice, those of 19 and 26 mm are one
or two units short. 7850 kg a cubic metre.
"""

from shelf import Printed, book


@book("gost_2591_table")
def test_cell_of_a_table(row: Printed) -> None:
    row.holds()
