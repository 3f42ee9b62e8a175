"""Against Pelita Jaya Makmur (pelitajayamakmur.co.id), deformed bars (Besi Beton Ulir).

Kind: maker's page. Read in the source. 7850 kg a cubic metre. One area is wrong there.
"""

from shelf import Printed, book


@book("pelita_bars_table")
def test_cell_of_a_table(row: Printed) -> None:
    row.holds()
