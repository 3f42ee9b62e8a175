"""Moving, bounding and clipping marks, checked against shapely (an outside library) and exact geometry."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import LineString, Polygon, box

from bickern.geometry import polygon
from bickern.paper.clip import clip
from bickern.paper.glyphs import dimension_strokes, hatch_lines, plain, tick_strokes, upright
from bickern.paper.marks import (
    STROKES,
    Anchor,
    Arc,
    Box,
    Dimension,
    Filled,
    Layer,
    Line,
    Polyline,
    Text,
    Tick,
    TickKind,
    Tone,
    bounds,
    circle,
    drawing,
    merge,
    moved,
    outline,
    scaled,
    text_width,
    turned,
)
from bickern.paper.pens.recorder import arc_points, lettering, record

level = st.floats(-1, 1).map(lambda x: round(x, 9))  # shapely loses its way among the smallest numbers
place = st.tuples(level, level)
angle = st.floats(-7, 7)
arcs = st.builds(
    Arc, place, st.floats(0.01, 1), angle, st.floats(0.05, 6.2).flatmap(lambda a: st.sampled_from([a, -a]))
)
WINDOW = Box(-0.31, -0.17, 0.42, 0.53)


@given(arcs)
@settings(deadline=None)
def test_bounds_of_an_arc_hold_its_points_and_no_more(arc):
    points = arc_points(arc, math.radians(0.2))
    found = bounds((arc,))
    slack = arc.radius * (1 - math.cos(math.radians(0.1))) + 1e-12
    assert found.left == pytest.approx(min(x for x, _ in points), abs=slack)
    assert found.right == pytest.approx(max(x for x, _ in points), abs=slack)
    assert found.bottom == pytest.approx(min(y for _, y in points), abs=slack)
    assert found.top == pytest.approx(max(y for _, y in points), abs=slack)


@given(arcs)
@settings(deadline=None)
def test_clipped_arcs_are_as_long_as_shapely_says(arc):
    fine = LineString(arc_points(arc, math.radians(0.05))).intersection(
        box(WINDOW.left, WINDOW.bottom, WINDOW.right, WINDOW.top)
    )
    kept = clip(drawing([arc]), WINDOW).marks
    # A touching arc may fall either way; two chord lengths cover it.
    assert sum(abs(m.sweep) * m.radius for m in kept) == pytest.approx(fine.length, abs=0.004)
    assert all(m.centre == arc.centre and m.radius == arc.radius for m in kept)


@given(st.lists(place, min_size=2, max_size=9), st.booleans())
@settings(deadline=None)
def test_clipped_polylines_are_as_long_as_shapely_says(points, closed):
    line = Polyline(tuple(points), closed)
    whole = LineString([*points, points[0]] if closed else points)
    kept = record(clip(drawing([line]), WINDOW))
    # Summed side by side, because shapely dissolves a stretch that is drawn twice.
    pairs = list(zip(whole.coords, whole.coords[1:], strict=False))
    window = box(WINDOW.left, WINDOW.bottom, WINDOW.right, WINDOW.top)
    expected = sum(LineString(pair).intersection(window).length for pair in pairs)
    assert sum(stroke.length for stroke in kept) == pytest.approx(expected, abs=1e-9)


@given(st.lists(st.floats(0.05, 1), min_size=3, max_size=12))
@settings(deadline=None)
def test_clipped_areas_are_as_large_as_shapely_says(reaches):
    points = [
        (r * math.cos(2 * math.pi * i / len(reaches)), r * math.sin(2 * math.pi * i / len(reaches)))
        for i, r in enumerate(reaches)
    ]
    kept = clip(drawing([Filled(tuple(points))]), WINDOW).marks
    expected = Polygon(points).intersection(box(WINDOW.left, WINDOW.bottom, WINDOW.right, WINDOW.top)).area
    assert sum(Polygon(m.points).area for m in kept) == pytest.approx(expected, abs=1e-9)


def test_hatching_times_spacing_is_the_area():
    star = ((0, 0), (0.3, 0.05), (0.1, 0.1), (0.25, 0.3), (0, 0.15))
    lines = hatch_lines(Filled(star, Tone.HATCHED, spacing=0.0005))
    drawn = sum(math.dist(line.start, line.end) for line in lines)
    assert drawn * 0.0005 == pytest.approx(Polygon(star).area, rel=0.005)
    assert all(Polygon(star).buffer(1e-9).covers(LineString([line.start, line.end])) for line in lines)


@given(place, place, st.floats(-0.05, 0.05), st.sampled_from(list(TickKind)))
@settings(deadline=None)
def test_bounds_hold_all_that_a_dimension_and_a_tick_are_made_of(start, end, offset, kind):
    for mark in (Dimension(start, end, offset, "9 27/32 in (250 mm)"), Tick(start, kind, angle=offset * 60)):
        if math.dist(start, end) < 0.001:
            continue
        lines = [piece for piece in plain((mark,)) if not isinstance(piece, Text)]
        outer, inner = bounds((mark,)).grown(0.008), bounds(lines)
        assert outer.left <= inner.left
        assert outer.right >= inner.right
        assert outer.bottom <= inner.bottom
        assert outer.top >= inner.top


@given(angle)
@settings(deadline=None)
def test_lettering_is_read_from_below_or_from_the_right(slope):
    turned_up = upright(slope)
    assert -math.pi / 2 < turned_up <= math.pi / 2 + 1e-9
    assert math.sin(2 * (turned_up - slope)) == pytest.approx(0, abs=1e-9)


def test_a_dimension_stands_at_its_offset_to_the_left_of_start_to_end():
    strokes = dimension_strokes(Dimension((0, 0), (0.1, 0), 0.02, "4 in"))
    line = strokes[2]
    assert isinstance(line, Line)
    assert (line.start, line.end) == ((0, 0.02), (0.1, 0.02))
    assert [s.says for s in strokes if isinstance(s, Text)] == ["4 in"]


def test_every_kind_of_tick_has_its_own_shape_and_every_dashed_layer_its_own_dash():
    shapes = {kind: [type(m).__name__ for m in tick_strokes(Tick((0, 0), kind))] for kind in TickKind}
    assert len({tuple(shape) for shape in shapes.values()}) == len(TickKind)
    dashes = [stroke.dash for stroke in STROKES.values() if stroke.dash]
    assert len(set(dashes)) == len(dashes)
    assert STROKES[Layer.CUT].width > STROKES[Layer.OUTLINE].width > STROKES[Layer.DIMENSION].width


def test_scaling_keeps_lettering_and_turning_turns_it():
    picture = drawing([circle((1, 0), 0.5), Text((1, 0), "ring", 0.004), Tick((1, 0))])
    small = scaled(picture, 0.1)
    assert small.marks[0] == circle((0.1, 0), 0.05)
    assert small.marks[1].height == 0.004
    assert small.marks[2].size == 0.006
    stood = turned(picture, math.pi / 2)
    assert stood.marks[0].centre == (0.0, 1.0)
    assert stood.marks[1].angle == math.pi / 2
    with pytest.raises(ValueError, match="scaled"):
        scaled(picture, 0)


def test_moving_moves_the_bounds_and_merging_encloses_them():
    picture = drawing([Line((0, 0), (1, 2))], margin=0.1)
    assert picture.bounds == Box(-0.1, -0.1, 1.1, 2.1)
    away = moved(picture, 3, 4)
    assert (away.bounds.left, away.bounds.bottom) == pytest.approx((2.9, 3.9))
    assert (away.bounds.right, away.bounds.top) == pytest.approx((4.1, 6.1))
    both = merge(picture, away, drawing([]))
    assert (both.bounds.left, both.bounds.top) == pytest.approx((-0.1, 6.1))
    assert len(both.marks) == 2


def test_an_outline_keeps_its_true_arcs():
    half = polygon.Loop((polygon.Line((-1, 0), (1, 0)), polygon.ArcSeg((0, 0), 1, 0, math.pi)))
    assert outline(half) == (Line((-1, 0), (1, 0), Layer.CUT), Arc((0, 0), 1, 0, math.pi, Layer.CUT))


def test_text_is_given_room_for_what_it_says():
    assert text_width("", 0.003) == 0
    assert text_width("MMM", 0.003) > text_width("iii", 0.003)
    middle = bounds((Text((0, 0), "abc", anchor=Anchor.MIDDLE),))
    assert middle.left == pytest.approx(-middle.right)
    assert lettering(drawing([Text((0, 0), "abc")])) == ("abc",)
