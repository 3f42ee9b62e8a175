"""Against D. Kirk, Contemporary Mathematics, OpenStax, 2023, chapters 9 and 10.

Kind: school book. Read in the source. Two figures are wrong there: a slipped digit in cubic centimetres, an octagon
that cannot be. Left out: an octagon of side 13 and half height 18, which cannot be.
"""

from shelf import Printed, book


@book("openstax_contemporary")
def test_figure(row: Printed) -> None:
    row.holds()
