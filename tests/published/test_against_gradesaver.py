"""Against M. Lial, S. Salzman and D. Hestwood, Basic College Mathematics, 9th edition, Pearson.

Kind: school book. Quoted by a secondary page that answers the exercise (gradesaver.com): section 8.7.
"""

from shelf import Printed, book


@book("gradesaver")
def test_figure(row: Printed) -> None:
    row.holds()
