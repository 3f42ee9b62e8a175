"""Against Spherical Cap Volume Formula, sample problems, geeksforgeeks.org.

Kind: lesson page. Read in the source, in a copy (aquileo.es). It says 22/7, but reckons problems 2 and 3 with the true
pi; a step of problem 3 is misprinted, its result is right. Rims are reckoned from the told ball.
"""

from shelf import Printed, book


@book("geeks_for_geeks")
def test_figure(row: Printed) -> None:
    row.holds()
