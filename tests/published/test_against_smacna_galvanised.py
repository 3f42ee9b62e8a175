"""Against SMACNA, galvanized sheet thickness tolerances, after ASTM A924 and A653.

Kind: standard. Read in the source, in a copy (scribd 75416804): numbers 32 to 8, nominal inches. Ours are reckoned
from the weight of the number and of its zinc. One of 25 is a unit off.
"""

from shelf import Printed, book, rows

from bickern.iron.gauge import GAUGES
from bickern.measure.units.words import GaugeSystem


@book("smacna_galvanised_table")
def test_cell_of_a_table(row: Printed) -> None:
    row.holds()


def test_no_number_of_ours_lacks_its_cell() -> None:
    """A number that the standard does not print would be from memory alone."""
    printed = {int(r.row.ask.removeprefix("gauge ")) for r in rows("smacna_galvanised_table")}
    assert printed == set(GAUGES[GaugeSystem.GALVANISED].metres)
