"""Against a Russian list of masses of steel sheets, 1250 x 2500 and 1500 x 6000 mm (sibtrans.net).

Kind: trade page. Read in the source. 7850 kg a cubic metre; the list of galvanised sheets leaves the zinc out. Sheets
of 1250 x 2500 mm go by kilograms a square metre cut to two places, and are held to that and one unit: 9 of 15 lie
outside half a unit. Two lines are slips.
"""

from shelf import Printed, book


@book("sheet_masses_table")
def test_cell_of_a_table(row: Printed) -> None:
    row.holds()
