"""Against Screw Conveyor Design, a discussion of flights (scribd.com 24008487).

Kind: question page. Read in the source. Girths and edges of a flight of one turn cut from a washer, to all the places
of a desk machine; the pipe's girth is 2.785 pi where 2.875 is meant, and what follows from it is off too.
"""

from shelf import Printed, book


@book("screw_flight_washers")
def test_figure(row: Printed) -> None:
    row.holds()
