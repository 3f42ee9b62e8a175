"""Against Seeko Guide (seekoguide.com), class 10 mathematics of Nepal: surface of pyramids, question 2.

Kind: lesson page. Read in the source.
"""

from shelf import Printed, book


@book("seekoguide_pyramid")
def test_figure(row: Printed) -> None:
    row.holds()
