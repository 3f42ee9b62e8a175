"""Against Tubecon (tubecon.co.za), technical information, heat treatment: colours and hardness of steel by
temperature.

Kind: maker's page. Read in the source: degrees Fahrenheit and Celsius side by side, whole degrees.
"""

from shelf import Printed, book


@book("tubecon_heats_table")
def test_cell_of_a_table(row: Printed) -> None:
    row.holds()
