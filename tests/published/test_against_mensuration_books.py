"""Solids whose volume other people printed, as blends of two sections. Exact mathematics; rounding is the sources'.

- MENS1: 19th-century mensuration (title page not seen), p. 76; it takes 22/7 for pi. Read in the source.
- MENS3: 18th-century mensuration (title page not seen), p. 187. Read in the source.
- MH31: E. Oberg et al., Machinery's Handbook, 31st ed., 2020, p. 89. Read in the source.
- ILG: W. L. Ilgen, Forge Work, 1912, tables 2 and 3. Read in the source.
- TF: theforge mailing list, March 2002 (B. Freeman). Quoted by a secondary page.
- CHF1: P. Ross and D. Wilson, Controlled Hand Forging, lesson 1, Hammer's Blow, winter 2003. Read in the source.
"""

import math

import pytest

from bickern.iron.blend import blend_volume, mixed_area
from bickern.iron.section import POINT, Section, area, largest_square_inside, perimeter
from bickern.measure.units.words import Shape


def round_bar(diameter: float) -> Section:
    return Section(Shape.ROUND, diameter, diameter)


def octagon(side: float) -> Section:
    """An octagon of this side is 1 + sqrt 2 sides across flats."""
    flats = side * (1 + math.sqrt(2))
    return Section(Shape.OCTAGON, flats, flats)


SQUARE = Section(Shape.SQUARE, 1, 1)

SOLIDS = [
    # the old books take their own pi: 22/7 in MENS1, 3.1416 in MENS3 (65.9736 is 21 of them to the last place)
    ("MENS1 frustum 9 and 16, 14 deep", round_bar(9), round_bar(16), 14, 1763.67 / (22 / 7), 0.01),
    ("MENS3 ex. 3 frustum 4 and 2, 9 high", round_bar(4), round_bar(2), 9, 65.9736 / 3.1416, 5e-5),
    ("MENS3 ex. 4 frustum 16 and 9, 38 high", round_bar(16), round_bar(9), 38, 4785.18 / 3.1416, 0.005),
    ("MENS3 ex. 7 octagons of 10 and 6, 20 high", octagon(10), octagon(6), 20, 6309.14, 0.01),
    ("MENS3 ex. 8 mast of 1 1/2 and 1 ft, 72 ft", round_bar(1.5), round_bar(1), 72, 89.5356 / 3.1416, 5e-5),
    ("MH31 p. 89 wedge a=4 b=3 c=5 h=4.5", Section(Shape.FLAT, 4, 3), Section(Shape.FLAT, 5, 0), 4.5, 29.25, 1e-3),
    ("MH31 p. 89 cylinder of 2.5, 20 high", round_bar(2.5), round_bar(2.5), 20, 98.17 / math.pi, 0.0051),
]  # fmt: skip


@pytest.mark.parametrize(("source", "a", "b", "length", "printed", "tolerance"), SOLIDS)
def test_printed_volume(source: str, a: Section, b: Section, length: float, printed: float, tolerance: float) -> None:
    """`printed` is a pure number where the book's pi has been taken out of it, and then ours is taken out of ours."""
    pi = math.pi if Shape.ROUND in (a.shape, b.shape) else 1.0
    assert blend_volume(a, b, length) / pi == pytest.approx(printed, abs=tolerance), source


def test_circles_and_squares_of_one_girth_or_one_inside_the_other() -> None:
    """ILG tables 2 and 3: .3183, .7854, 1.2732, .7071, .07958, to the last printed place."""
    d = 1 / math.pi
    assert perimeter(round_bar(d)) == pytest.approx(1, abs=1e-12)
    assert d == pytest.approx(0.3183, abs=5e-5)
    assert perimeter(round_bar(1)) / perimeter(SQUARE) == pytest.approx(0.7854, abs=5e-5)
    assert perimeter(SQUARE) / perimeter(round_bar(1)) == pytest.approx(1.2732, abs=5e-5)
    assert largest_square_inside(round_bar(1)) == pytest.approx(0.7071, abs=5e-5)
    assert area(round_bar(d)) == pytest.approx(0.07958, abs=5e-6)


def test_tapers_one_way_double_and_two_ways_treble() -> None:
    """TF: the length of a bar doubles as a wedge and trebles as a point."""
    wedge, point = blend_volume(SQUARE, Section(Shape.FLAT, 1, 0), 1), blend_volume(SQUARE, POINT, 1)
    assert area(SQUARE) / wedge == pytest.approx(2)
    assert area(SQUARE) / point == pytest.approx(3)


def test_square_to_the_same_size_of_round_grows_by_about_a_quarter() -> None:
    """TF: x 4/pi, about 1.25, where the corners are full."""
    assert area(SQUARE) / area(round_bar(1)) == pytest.approx(4 / math.pi)
    assert area(SQUARE) / area(round_bar(1)) == pytest.approx(1.25, abs=0.03)


def test_a_three_inch_square_point_takes_an_inch_of_bar() -> None:
    """CHF1 sets a 3 in point on 1/2 sq; a third of it is bar by exact mathematics (the lesson prints no stock)."""
    half = Section(Shape.SQUARE, 0.5, 0.5)
    assert blend_volume(half, POINT, 3) / area(half) == pytest.approx(1.0)


def test_a_conical_point_is_printed_short_of_its_full_length() -> None:
    """ILG s. 70, fig. 50: 1/2 in of 1/4 rd gives a point 1 1/8 long. A point carried to nothing would be 1 1/2 long.

    The printed point is blunt, so the exact length is an upper bound, and a third of it more than covers the gap.
    """
    bar = round_bar(0.25)
    full = 0.5 * area(bar) / blend_volume(bar, POINT, 1)
    assert full == pytest.approx(1.5)
    assert 0.7 * full < 1.125 <= full


def test_a_chisel_point_lies_between_a_square_wedge_and_one_that_starts_round() -> None:
    """ILG s. 68, fig. 48: 1 in of 1/4 rd gives a chisel point 1/4 wide and 1 3/4 long.

    As a full wedge on a square foot of 1/4 it would be 1.571 long; if every slice stayed between the round and the
    edge, 1.922. A forged one is somewhere between.
    """
    bar, edge = round_bar(0.25), Section(Shape.FLAT, 0.25, 0)
    wedge = area(bar) / blend_volume(Section(Shape.SQUARE, 0.25, 0.25), edge, 1)
    from_round = area(bar) / blend_volume(bar, edge, 1)
    assert wedge == pytest.approx(1.5708, abs=5e-5)
    assert wedge < 1.75 < from_round


def test_drawing_edgewise_is_printed_short_of_constant_volume() -> None:
    """ILG s. 73, fig. 53: 2 1/4 in of 1 x 3/16 drawn to 5/8 wide comes out 3 in long; constant volume says 3.6.

    The eye end takes metal, so the exact length is an upper bound only.
    """
    exact = 2.25 * area(Section(Shape.FLAT, 1, 3 / 16)) / area(Section(Shape.FLAT, 5 / 8, 3 / 16))
    assert exact == pytest.approx(3.6)
    assert exact >= 3.0


def test_the_mixed_area_of_similar_sections_is_their_geometric_mean() -> None:
    """Exact mathematics (the prismoid of the old books: two ends and the mean proportional between them)."""
    for a, b in ((octagon(3), octagon(2)), (round_bar(5), round_bar(2)), (SQUARE, Section(Shape.SQUARE, 0.3, 0.3))):
        assert mixed_area(a, b) == pytest.approx(math.sqrt(area(a) * area(b)))
