"""Against Maine Math Talent Search, 1999, problem 8: stripe of a barber pole (oocities.org).

Kind: school book. Read in the source: 3 ft long, 1 ft round, four turns.
"""

from shelf import Printed, book


@book("maine_barber_pole")
def test_figure(row: Printed) -> None:
    row.holds()
