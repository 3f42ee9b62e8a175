"""The figure of a whole set: true elevations at one scale, plumb and level where they are, all on the paper."""

import math

import numpy as np
import pytest

from bickern.geometry.solid.sight import seen_lines
from bickern.geometry.solid.solid import Named, Solid
from bickern.geometry.space import cross, dot
from bickern.measure.units.words import INCH, Style
from bickern.paper.marks import Dimension, Filled, Layer, Line, Polyline, Text, bounds
from bickern.paper.views.whole import broadest, looks, seen
from bickern.paper.views.whole_figure import Rooms, figures, scale_says

ROOMS = Rooms((0.196, 0.080), (0.138, 0.190), (0.140, 0.176))
SMALLER = Rooms((0.196, 0.040), (0.138, 0.095), (0.140, 0.088))
WIDE, HIGH = 0.196, 0.190


def figure(solids, hangs_from, style=Style(), rooms=ROOMS):  # noqa: B008 - frozen
    """The set drawn as large as goes into these rooms."""
    return figures(solids, hangs_from, style, [rooms])[0]


SIDES = ((0, 3, 2, 1), (4, 5, 6, 7), (0, 1, 5, 4), (1, 2, 6, 5), (2, 3, 7, 6), (3, 0, 4, 7))
FACES = np.array([corner for a, b, c, d in SIDES for corner in ((a, b, c), (a, c, d))], np.int32)


def block(name: str, long: float, deep: float, high: float, turned: float = 0.0, down: float = 0.0) -> Named:
    """A block of these sizes in inches about the z axis, turned about it by degrees, its top so far below nothing."""
    half = np.array([(-1, -1), (1, -1), (1, 1), (-1, 1)]) * (long / 2, deep / 2)
    c, s = math.cos(math.radians(turned)), math.sin(math.radians(turned))
    flat = half @ np.array(((c, s), (-s, c)))
    points = [(x, y, z) for z in (-down - high, -down) for x, y in flat]
    return Named(name, Solid(np.array(points) * INCH, FACES))


SET = (block("top", 6, 1, 2), block("foot", 2, 1, 4, down=2))


@pytest.mark.parametrize("look", looks(SET), ids=lambda look: look.title)
def test_every_view_is_square_and_its_eye_stands_outside(look):
    assert dot(look.right, look.upward) == pytest.approx(0, abs=1e-12)
    assert dot(look.right, look.right) == pytest.approx(1)
    assert dot(look.toward, look.toward) == pytest.approx(1)
    assert look.toward == pytest.approx(cross(look.right, look.upward))


def test_the_elevations_stand_as_third_angle_projection_has_them():
    """Seen from the right, what is in front lies left; seen from above, it lies below (ISO 128, third angle)."""
    front, side, top, aside = looks(SET)
    assert side.right == pytest.approx(tuple(-one for one in front.toward))
    assert side.toward == pytest.approx(front.right)
    assert top.upward == pytest.approx(tuple(-one for one in front.toward))
    assert top.toward == pytest.approx((0, 0, 1))
    assert min(dot(aside.toward, one.toward) for one in (front, side, top)) > 0.3  # it sees all three sides


def test_the_front_shows_the_longest_part_squarely():
    assert broadest(SET) == pytest.approx((1, 0, 0))
    turned = (block("top", 6, 1, 2, turned=30), block("foot", 2, 1, 4, down=2))
    away = math.acos(min(1.0, abs(dot(broadest(turned), (math.cos(math.radians(30)), 0.5, 0.0)))))
    assert math.degrees(away) < 30
    assert broadest(turned[:1]) == pytest.approx((math.cos(math.radians(30)), 0.5, 0))


def test_the_face_is_seen_from_the_front():
    assert looks(SET, (0, 1, 0))[0].toward == pytest.approx((0, 1, 0))
    assert looks(SET, (0, -1, 0))[0].toward == pytest.approx((0, -1, 0))
    assert looks(SET, (0.99, 0.05, 0.1)) == looks(SET)  # it looks neither way


def test_a_tray_is_not_seen_over_its_corner():
    assert broadest((block("tray", 5, 5, 0.5),)) == pytest.approx((1, 0, 0))


def test_parts_crosswise_are_seen_squarely_and_not_at_a_slant():
    crosswise = (block("a", 4, 0.2, 4), block("b", 0.2, 4, 4, down=4))
    assert abs(broadest(crosswise)[0]) in (pytest.approx(1), pytest.approx(0, abs=1e-9))


def test_a_view_has_the_true_size():
    front, side, top, _ = (seen(SET, look).bounds for look in looks(SET))
    assert (front.width, front.height) == (pytest.approx(6 * INCH), pytest.approx(6 * INCH))
    assert (side.width, side.height) == (pytest.approx(1 * INCH), pytest.approx(6 * INCH))
    assert (top.width, top.height) == (pytest.approx(6 * INCH), pytest.approx(1 * INCH))


def test_hidden_lines_are_left_out():
    behind = block("behind", 1, 0.2, 1, down=0.5)
    wide = block("before", 8, 1, 4, down=-1)
    before = Named("before", Solid(wide.solid.points - (0, INCH, 0), FACES))
    front = looks((before, behind))[0]
    assert len(seen((before, behind), front).marks) == len(seen((before,), front).marks)


def test_what_is_seen_does_not_depend_on_whether_hidden_lines_are_looked_for():
    for look in looks(SET):
        both = seen_lines(SET, look.right, look.upward, 400)
        alone = seen_lines(SET, look.right, look.upward, 400, hidden=False)
        assert alone.visible == both.visible
        assert not alone.hidden
    assert both.hidden


def lines_of(drawn):
    return [mark for mark in drawn.marks if isinstance(mark, Line) and mark.layer is Layer.CENTRE]


def test_the_figure_lies_in_its_room_with_its_sizes_in_both_systems():
    made = figure(SET, (0.0, 0.0, 0.0))
    box = bounds(made.drawing.marks)
    assert box.width <= (0.140 if made.beside else WIDE)
    assert box.height <= (HIGH if made.beside else 0.080)
    says = [mark.says for mark in made.drawing.marks if isinstance(mark, Dimension)]
    assert says == ["6 in (152.5 mm)", "6 in (152.5 mm)"]
    titles = [mark.says for mark in made.drawing.marks if isinstance(mark, Text)]
    assert sorted(titles) == ["front", "picture", "right side", "top"]


def test_a_plumb_line_hangs_from_where_the_set_is_held_and_the_level_line_lies_under_it():
    made = figure(SET, (INCH, 0.0, 0.0))
    upright = [one for one in lines_of(made.drawing) if one.start[0] == pytest.approx(one.end[0])]
    level = [one for one in lines_of(made.drawing) if one.start[1] == pytest.approx(one.end[1])]
    assert (len(upright), len(level)) == (2, 2)  # front and right side; not from above
    bobs = [mark for mark in made.drawing.marks if isinstance(mark, Filled)]
    assert len(bobs) == 2
    front = min(upright, key=lambda one: one.start[0])
    shape = [mark for mark in made.drawing.marks if isinstance(mark, Polyline)]
    left = min(x for mark in shape for x, _ in mark.points)
    assert front.start[0] - left == pytest.approx(4 * INCH * made.scale, abs=1e-5)  # 3 in to the middle, 1 in beyond


def test_a_set_that_stands_has_no_plumb_line():
    assert not lines_of(figure(SET, None).drawing)


def test_a_long_chain_stands_beside_its_words_and_is_drawn_larger_so():
    chain = [block(f"links {i}", 1.3, 0.3, 1.8, turned=90 * (i % 2), down=1.4 * i) for i in range(13)]
    made = figure(chain, (0.0, 0.0, 0.0))
    assert made.beside
    assert made.scale >= 0.25  # a link of 1 3/10 is 8 mm wide on paper
    assert "quarter size" in scale_says(0.25)


@pytest.mark.parametrize("size", [0.01, 1.0, 100.0, 10000.0])
def test_a_set_of_any_size_goes_on_the_paper(size):
    box = bounds(figure((block("a", size, size / 3, size / 2),), None).drawing.marks)
    assert box.width <= WIDE
    assert box.height <= HIGH


def test_in_less_room_the_same_set_is_drawn_smaller():
    large, small = figures(SET, None, Style(), [ROOMS, SMALLER])
    assert small.scale < large.scale
    assert bounds(small.drawing.marks).height <= 0.095 < bounds(large.drawing.marks).height
    assert len(small.drawing.marks) == len(large.drawing.marks)


def test_a_long_flat_thing_stands_over_the_page_and_its_picture_fills_the_room_beside():
    """Tongs of 17 1/2 in by 1 in: a row of four views would be a tenth of full size."""
    made = figure((block("tongs", 17.5, 1, 1),), None)
    assert made.scale >= 3 / 16
    assert bounds(made.drawing.marks).width > 0.7 * WIDE
