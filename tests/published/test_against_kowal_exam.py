"""Against questions of the Polish vocational exams MEC.02 (smith) and MEC.06, zawodowe.edu.pl.

Kind: school book. Quoted by a secondary page, with the answers worked; pi taken as 3.14 in the forging stock.
"""

from shelf import Printed, book


@book("kowal_exam")
def test_figure(row: Printed) -> None:
    row.holds()
