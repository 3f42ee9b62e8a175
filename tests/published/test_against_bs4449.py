"""Against BSI, BS 4449:1997, table 1, area and mass of reinforcing bars.

Kind: standard. Quoted by secondary pages, with its name: Midland Rapid Reinforcements and ff.com.pk. 0.00785 kg a
square millimetre and metre, from areas already rounded: held to one unit of the last place, 4 of 10 masses lie outside
half a unit; the mass of 32 mm is wrong there.
"""

from shelf import Printed, book


@book("bs4449_table")
def test_cell_of_a_table(row: Printed) -> None:
    row.holds()
