"""Against Beside Degree (besidedegree.com), class 10 mathematics of Nepal: surface of pyramids and cones.

Kind: lesson page. Read in the source. Its first question of another set, base 8 and slant 3, is of a pyramid that
cannot be. Left out: that one.
"""

from shelf import Printed, book


@book("nepal_ten")
def test_figure(row: Printed) -> None:
    row.holds()
