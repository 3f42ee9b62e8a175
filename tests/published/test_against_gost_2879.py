"""Against GOST 2879-88 and 8560-78, mass of hexagon bar.

Kind: standard. Quoted by a secondary page, Metall Odessa (metallodessa.com): 3 to 20.8 mm across flats, kilograms a
metre to four figures. 7850 kg a cubic metre.
"""

from shelf import Printed, book


@book("gost_2879_table")
def test_cell_of_a_table(row: Printed) -> None:
    row.holds()
