"""Against Rio Grande (riogrande.com), Measuring a Ring Blank: American ring sizes.

Kind: maker's page. Read in the source. The inch columns; two girths do not belong to their diameters, and two more are
a unit or two off.
"""

from shelf import Printed, book


@book("rio_grande_rings_table")
def test_cell_of_a_table(row: Printed) -> None:
    row.holds()
