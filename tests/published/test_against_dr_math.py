"""Against The Math Forum, Ask Dr. Math, mathforum.org, 1995 to 2007.

Kind: question page. Read in the source: lengths of tape, carpet and reels, millimetres (62477), temperatures (58317).
Rolls by the sum of circles and by area over thickness; the spiral of even pitch differs by some thousandths of an inch.
The reel of 2007 is a wrong answer, kept.
"""

from shelf import Printed, book


@book("dr_math")
def test_figure(row: Printed) -> None:
    row.holds()
