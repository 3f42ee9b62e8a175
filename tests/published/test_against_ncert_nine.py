"""Against NCERT, Mathematics, textbook for class IX, chapter 13, exercises 13.2 to 13.6, and Exemplar Problems.

Kind: school book. Quoted by secondary pages that work its questions, not read in the book: cuemath.com, stepify.in,
thetubeguru.com, maxtute.com, byjus.com, tutorialspoint.com, shaalaa.com. 22/7 but where 3.14 is told.
"""

from shelf import Printed, book


@book("ncert_nine")
def test_figure(row: Printed) -> None:
    row.holds()
