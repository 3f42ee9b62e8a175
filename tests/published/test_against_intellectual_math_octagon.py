"""Against Intellectual Math, area of regular polygon with side length, intellectualmath.com.

Kind: lesson page. Read in the source: problem 2; its tangent is rounded to .414 first.
"""

from shelf import Printed, book


@book("intellectual_math_octagon")
def test_figure(row: Printed) -> None:
    row.holds()
