"""Against SMACNA, galvanized sheet thickness tolerances, after ASTM A924 and A653.

Kind: standard. Read in the source, in a copy (scribd 75416804): numbers 32 to 8, nominal inches. Ours are reckoned
from the weight of the number and of its zinc.
"""

from shelf import Printed, book


@book("smacna_galvanised_table")
def test_cell_of_a_table(row: Printed) -> None:
    row.holds()
