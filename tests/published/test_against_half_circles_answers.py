"""Against answers on half circles, math.answers.com.

Kind: question page. Read in the source.
"""

from shelf import Printed, book


@book("half_circles_answers")
def test_figure(row: Printed) -> None:
    row.holds()
