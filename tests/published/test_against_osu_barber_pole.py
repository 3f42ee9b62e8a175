"""Against Ohio State University, rich math problem 3470-61, 2016: stripe of a barber pole (u.osu.edu/odmp).

Kind: course. Read in the source: 4 ft tall, 6 in radius, 8 turns. It takes the circumferences up to 302 first.
"""

from shelf import Printed, book


@book("osu_barber_pole")
def test_figure(row: Printed) -> None:
    row.holds()
