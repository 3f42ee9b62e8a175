"""Against West African Examinations Council, Mathematics, 2011: a sector made into a cone.

Kind: school book. Quoted by a secondary page that works it (schoolupdateshub.com). 22/7; the base radius is 140/33 cm
there.
"""

from shelf import Printed, book


@book("waec")
def test_figure(row: Printed) -> None:
    row.holds()
