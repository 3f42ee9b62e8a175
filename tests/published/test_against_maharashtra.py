"""Against Maharashtra State Board, Mathematics part 2, standard X, chapter 7, Mensuration.

Kind: school book. Quoted by secondary pages that work its questions: vidyadip.com (3.14) and, for the bucket of
litres, shaalaa.com (22/7).
"""

from shelf import Printed, book


@book("maharashtra")
def test_figure(row: Printed) -> None:
    row.holds()
