"""Against Geometric Formulas, a lesson for welders after the Alberta curriculum 012, period 1, section 2 E.

Kind: course. Read in the source (a public repository). 7.85 g a cubic centimetre, pi 3.1416; one girth is wrong in its
last place.
"""

from shelf import Printed, book


@book("welder_lesson_geometry")
def test_figure(row: Printed) -> None:
    row.holds()
