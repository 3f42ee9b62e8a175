"""Against answers of tutors to homework questions, algebra.com.

Kind: question page. Read in the source: questions 1043186, 575073, 1189056, 200166, 203267, 80260, 1209347, 1208118
and 1205007. One takes 2 ft 4 in for 2.4 ft and 3 ft 6 in for 3.6 ft; pi is 3.14, 0.7854 or 22/7 where marked. The
bowls are told by the radius of their ball; their rim is reckoned from it. A roll of paper goes by area over thickness,
where ours is the length of the spiral; cast iron is 450 lb a cubic foot. Left out: 1129384, the disc of 1208118 again
with 22/7.
"""

from math import pi

from shelf import Printed, book

from bickern.geometry.curve import Scroll, scroll_length


@book("algebra_com")
def test_figure(row: Printed) -> None:
    row.holds()


@book("algebra_com", by="roll")
def test_roll(row: Printed) -> None:
    """A spiral of 5200 turns: more than may be asked at the terminal."""
    row.holds(scroll_length(Scroll(0.04, 0.3, 2 * pi * 5200)))
