"""Against J. Hamilton and M. Hamilton, Math to Build On, 1993, Cutting Elbows.

Kind: school book. Read in the source, a copy of the lesson (mathforum.org): an elbow of 2 in pipe, inside arc of 2 in,
outside arc of 4 in; four places.
"""

from shelf import Printed, book


@book("math_to_build_on")
def test_figure(row: Printed) -> None:
    row.holds()
