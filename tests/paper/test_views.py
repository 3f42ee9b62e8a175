"""Drawings of pieces against plain geometry: areas and extents that can be worked out by hand, true distances."""

import math
from dataclasses import replace
from itertools import pairwise
from pathlib import Path

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from bickern.desk.reckon import reckon_file
from bickern.geometry.path import Arc, Kink, Straight
from bickern.iron.section import Section
from bickern.measure.spread import sharp
from bickern.measure.units.words import INCH, Shape, Style
from bickern.paper import marks as mk
from bickern.paper.pens.recorder import lettering
from bickern.paper.sheets.markout import bars_of
from bickern.paper.sheets.patterns import patterns_of
from bickern.paper.views.bar import bar_side
from bickern.paper.views.gauges import ALLOWED, bend_card, cards, scroll_forms, taper_card, thickness_card, twist_card
from bickern.paper.views.line import stations
from bickern.paper.views.looking import views
from bickern.paper.views.outline import bend_pictures, bent, bent_outline, bent_outlines, bent_sizes, bent_views
from bickern.paper.views.profile import necked, size_in, stoutest, widening
from bickern.paper.views.ring import ring_outline, ring_view
from bickern.paper.views.ruler import levels, ruler
from bickern.paper.views.scale import SCALES, fitting, say_scale
from bickern.paper.views.sheet import pattern_full, pattern_view
from bickern.paper.views.standing import small, standing
from bickern.paper.views.strip import named_marks, rule_strip, stock_strip
from bickern.parts.bar.result import Mark, MarkKind, MetalRun
from bickern.parts.bar.tracks import Anchor, Branch, EndOutline, EndShape, Place, ScrollLeg

STYLE = Style()
JOBS = Path(__file__).parents[2] / "examples"
FLAT = Section(Shape.FLAT, 0.025, 0.006)


def plain_bar(arm, legs, length, section=FLAT):
    """A bar of one section all along, with nothing on it."""
    one = MetalRun("bar", 0.0, length, section, section, 0.0, sharp(0.0), True)
    bare = {"marks_on_stock": (), "marks_on_drawn": (), "bends": (), "twists": (), "holes": (), "findings": ()}
    return replace(arm, runs=(one,), legs=legs, length=length, stock_section=section, **bare)


def area_of(picture):
    """Area inside the outer edges less the openings [m2]."""
    loops = [shapely.Polygon(m.points) for m in picture.marks if isinstance(m, mk.Polyline) and m.closed]
    big = max(loops, key=lambda loop: loop.area)
    return big.area - sum(loop.area for loop in loops if loop is not big)


def test_a_straight_flat_seen_from_its_broad_side_is_a_rectangle(arm):
    picture = bent_outline(plain_bar(arm, (Straight(0.2),), 0.2))
    assert picture.bounds.width == pytest.approx(0.2, abs=1e-6)
    assert picture.bounds.height == pytest.approx(0.025, abs=1e-6)


def test_a_scale_makes_the_outline_smaller_and_nothing_else(arm):
    bar = plain_bar(arm, (Straight(0.1), Arc(0.03, math.pi / 2), Straight(0.05)), 0.15 + 0.03 * math.pi / 2)
    full, half = bent_outline(bar), bent_outline(bar, 0.5)
    assert half.bounds.width == pytest.approx(full.bounds.width / 2, abs=1e-9)
    assert area_of(half) == pytest.approx(area_of(full) / 4, rel=1e-9)


def test_a_bend_has_the_area_of_straights_and_ring_sector(arm):
    # exact mathematics: width x straight lengths + mean radius x angle x width (Pappus in the plane)
    radius, angle, straight = 0.04, math.radians(120), 0.08
    legs = (Straight(straight), Arc(radius, angle, 0.0), Straight(straight))
    bar = plain_bar(arm, legs, 2 * straight + radius * angle)
    exact = FLAT.width * (2 * straight + radius * angle)
    assert area_of(bent_outline(bar)) == pytest.approx(exact, rel=3e-4)


def test_a_hoop_is_two_circles(arm):
    # exact mathematics: outside across = mean across + thickness; area = pi x mean across x thickness
    wire = Section(Shape.ROUND, 0.012, 0.012)
    radius = 0.05
    bar = plain_bar(arm, (Arc(radius, 2 * math.pi, 0.0),), 2 * math.pi * radius, wire)
    picture = bent_outline(bar)
    assert picture.bounds.width == pytest.approx(2 * radius + 0.012, abs=4e-5)
    assert len([m for m in picture.marks if isinstance(m, mk.Polyline) and m.closed]) == 2
    assert area_of(picture) == pytest.approx(2 * math.pi * radius * 0.012, rel=1e-3)


def test_a_bar_bent_in_two_planes_is_seen_from_two_sides(arm):
    legs = (Straight(0.1), Kink(math.pi / 2, 0.0), Straight(0.06), Kink(math.pi / 2, math.pi / 2), Straight(0.05))
    bar = plain_bar(arm, legs, 0.21, Section(Shape.ROUND, 0.006, 0.006))
    assert bent_sizes(bar)[2] == 2
    assert len(bent_views(bar, 0.5, STYLE)) == 2
    flat = plain_bar(arm, legs[:3], 0.16, Section(Shape.ROUND, 0.006, 0.006))
    assert bent_sizes(flat)[2] == 1


def test_overall_sizes_are_told_in_both_systems(arm):
    said = lettering(bent_views(arm, 0.5, STYLE)[0])
    assert any(" in (" in words and " mm)" in words for words in said)


def test_stations_follow_the_line_within_a_fifth_of_the_thinnest_stroke():
    # exact mathematics: the middle of a chord lies R (1 - cos(half the step)) inside its arc
    for radius in (0.005, 0.05, 0.5, 2.0):
        row = stations((Arc(radius, math.pi),))
        step = max(b.s - a.s for a, b in pairwise(row)) / radius
        assert radius * (1 - math.cos(step / 2)) <= 0.00005
        assert all(math.dist(s.at[:2], (0.0, radius)) == pytest.approx(radius, rel=1e-9) for s in row)


@pytest.mark.parametrize(
    ("shape", "share"), [(EndShape.LEAF, 2 / 3), (EndShape.SPADE, 5 / 6), (EndShape.SPOON, math.pi / 4)]
)
def test_an_end_is_drawn_with_the_area_it_is_reckoned_with(shape, share):
    # exact mathematics: two parabolas, half a rectangle and a parabola, an ellipse
    end = EndOutline(shape, 0.02, 0.003)
    steps = 20000
    mean = sum(widening(end, (i + 0.5) / steps, False) for i in range(steps)) / steps
    assert mean == pytest.approx(share, abs=1e-4)


def test_a_spade_at_the_datum_end_has_its_point_there():
    end = EndOutline(EndShape.SPADE, 0.02, 0.003)
    assert widening(end, 0.0, True) == pytest.approx(0.0)
    assert widening(end, 1.0, True) == 1.0


def test_punch_and_chalk_are_told_by_letter_and_by_shape(arm):
    marks = named_marks(arm.marks_on_stock)
    assert [one.name for one in marks] == ["P1", "P2", "C3"]
    picture = stock_strip(arm, 0.19, STYLE)
    kinds = [m.kind for m in picture.marks if isinstance(m, mk.Tick)]
    assert kinds.count(mk.TickKind.PUNCH) == 2
    assert mk.TickKind.DATUM in kinds
    assert mk.TickKind.CHISEL in kinds
    said = lettering(picture)
    assert "P1" in said
    assert "C3" in said
    assert "10 3/8 in" in said
    assert "264 mm" in said


def test_marks_are_numbered_from_the_datum_end_whatever_their_order():
    marks = (Mark(0.2, "b", MarkKind.CHALK), Mark(0.1, "a", MarkKind.PUNCH))
    assert [(one.name, one.mark.says) for one in named_marks(marks, 4)] == [("P4", "a"), ("C5", "b")]


def test_a_paper_rule_has_its_marks_at_true_distances(arm):
    marks = named_marks(arm.marks_on_stock)
    picture = rule_strip("arm", arm.cut_this, marks, STYLE)
    strokes = [m for m in picture.marks if isinstance(m, mk.Line) and m.layer is mk.Layer.MARK]
    found = sorted({round(s.start[0], 12) for s in strokes if s.start[0] > 1e-9})
    assert found == pytest.approx([one.mark.at for one in marks], abs=1e-11)
    # the corner of the paper is the datum end, its lower edge lies on the iron
    assert (picture.bounds.left, picture.bounds.bottom) == pytest.approx((0.0, 0.0), abs=1e-12)
    ends = [m for m in picture.marks if isinstance(m, mk.Line) and m.layer is mk.Layer.CUT]
    assert max(line.start[0] for line in ends) == pytest.approx(arm.cut_this)


def test_the_drawn_bar_names_each_section_and_shows_two_sides_of_a_flat(arm):
    picture = bar_side(arm, named_marks(arm.marks_on_drawn), 0.19, STYLE)
    said = lettering(picture)
    assert {"S1 tip", "S2 stem", "S3", "S4 palm"} <= set(said)
    assert {"top", "side"} <= set(said)
    assert picture.bounds.width < 0.215


def test_a_round_bar_needs_one_side_only(arm):
    bar = plain_bar(arm, (), 0.3, Section(Shape.ROUND, 0.012, 0.012))
    assert "side" not in lettering(bar_side(bar, (), 0.19, STYLE))


@given(
    st.lists(st.floats(0.001, 3.0), min_size=1, max_size=40),
    st.floats(0.02, 4.0),
)
@settings(max_examples=60, deadline=None, derandomize=True)
def test_a_ruler_keeps_order_and_room(places, length):
    wide = 0.17
    rule = ruler(places, length, wide)
    assert rule.at[0] == 0.0
    assert rule.at[-1] <= wide + 1e-9
    assert all(b > a for a, b in pairwise(rule.at))
    count = len(rule.at) - 1
    room = rule.at[-1] / count
    assert min(b - a for a, b in pairwise(rule.at)) >= min(0.011, room) - 1e-9
    assert rule.put(length) == pytest.approx(rule.at[-1])


def test_a_short_bar_is_drawn_at_full_size():
    rule = ruler([0.05], 0.1, 0.17)
    assert rule.to_scale
    assert rule.put(0.05) == pytest.approx(0.05)


@given(st.lists(st.tuples(st.floats(0, 1), st.floats(0.001, 0.2)), max_size=30))
@settings(max_examples=60, deadline=None, derandomize=True)
def test_labels_on_one_level_never_touch(spans):
    boxes = sorted((left, left + wide) for left, wide in spans)
    placed = levels(boxes)
    for level in set(placed):
        row = [box for box, at in zip(boxes, placed, strict=True) if at == level]
        assert all(b[0] >= a[1] for a, b in pairwise(row))


def test_scales_are_whole_ones_and_the_largest_that_fits():
    assert fitting(0.1, 0.1, (0.1, 0.1)) == 1.0
    assert fitting(0.3, 0.1, (0.1, 0.1)) == 1 / 4
    assert fitting(0.3, 0.1, (0.16, 0.1)) == 1 / 2
    assert fitting(100.0, 1.0, (0.1, 0.1)) == pytest.approx(0.001)
    assert [say_scale(scale) for scale in (1.0, 0.5, 0.375, 0.1)] == [
        "full size",
        "half size",
        "3/8 of full size",
        "1/10 of full size",
    ]
    assert all(say_scale(scale) != "not to a whole scale" for scale in SCALES)


def test_a_link_is_two_half_circles_and_two_straights(lantern):
    link = lantern.pieces[2]
    picture = ring_outline(link)
    arcs = [m for m in picture.marks if isinstance(m, mk.Arc)]
    assert sorted({round(arc.radius / INCH, 6) for arc in arcs}) == [0.375, 0.5625]
    assert picture.bounds.width == pytest.approx(link.outside_long)
    assert picture.bounds.height == pytest.approx(link.outside_across)
    said = lettering(ring_view(link, 1.0, STYLE))
    assert any("3/4 in (19 mm)" in words for words in said)


def test_a_pattern_keeps_its_arcs_and_its_layers(lantern):
    hood = lantern.pieces[3]
    picture = pattern_full(hood.patterns[0], "hood")
    cut = [m for m in picture.marks if isinstance(m, mk.Arc) and m.layer is mk.Layer.CUT]
    assert {round(arc.radius / INCH, 6) for arc in cut} >= {6.343, 1.189}
    assert any(m.layer is mk.Layer.CENTRE for m in picture.marks)
    assert any("hood" in words for words in lettering(picture))


def test_the_name_on_a_pattern_stays_inside_it(lantern):
    hood = lantern.pieces[3]
    name = next(m for m in pattern_full(hood.patterns[0], "hood").marks if isinstance(m, mk.Text) and "hood" in m.says)
    radius = [math.hypot(x, y) for x, y in mk.text_corners(name)]
    assert all(1.189 * INCH < r < 6.343 * INCH for r in radius)


def test_a_small_pattern_tells_its_own_width_and_height(lantern):
    # a sector of 227 degrees, R 6.343 in: 2 R wide, R + R cos(66.5 degrees) high (exact mathematics): 12.686 x 8.872
    said = lettering(pattern_view(lantern.pieces[3].patterns[0], 0.25, STYLE))
    # what is cut is rounded up, never down: 322.2 mm
    assert "12 11/16 in (322.5 mm)" in said
    assert "8 7/8 in (225.5 mm)" in said


def test_a_scroll_form_has_the_thickness_of_the_bar_taken_off(arm):
    bar = plain_bar(arm, arm.legs[:2], arm.length, Section(Shape.SQUARE, 0.012, 0.012))
    scroll = ScrollLeg(1.25, None, None)
    line = stations(bar.legs)
    end = max(s.s for s in line if s.s < 0.25)
    bar = replace(bar, bends=(replace(arm.bends[0], start=0.0, end=end),), spec=replace(bar.spec, path=(scroll,)))
    bar = replace(bar, length=line[-1].s, runs=(replace(bar.runs[0], end=line[-1].s),))
    form = scroll_forms(bar)[0]
    inner = next(m for m in form.marks if isinstance(m, mk.Polyline) and m.layer is mk.Layer.CUT)
    outer = next(m for m in form.marks if isinstance(m, mk.Polyline) and m.layer is mk.Layer.HIDDEN)
    gaps = [math.dist(a, b) for a, b in zip(inner.points, outer.points, strict=True)]
    assert gaps == pytest.approx([0.012] * len(gaps), abs=1e-6)
    length = [sum(math.dist(a, b) for a, b in pairwise(edge.points)) for edge in (inner, outer)]
    assert length[0] < end < length[1]


def test_a_bend_card_has_the_radius_and_the_angle_of_the_bend(arm):
    card = bend_card(arm, (2,), 0.01, math.radians(60), STYLE)
    arc = next(m for m in card.marks if isinstance(m, mk.Arc))
    assert (arc.radius, arc.sweep) == (0.01, pytest.approx(math.radians(60)))
    legs = [m for m in card.marks if isinstance(m, mk.Line)][:2]
    slopes = [math.atan2(m.end[1] - m.start[1], m.end[0] - m.start[0]) for m in legs]
    assert slopes[1] - slopes[0] == pytest.approx(math.radians(60))
    for line, end in ((legs[0], legs[0].end), (legs[1], legs[1].start)):
        assert math.dist(end, arc.centre) == pytest.approx(0.01), line


def test_a_go_and_no_go_card_has_notches_a_sixty_fourth_either_side(arm):
    card = thickness_card(arm, "tip", 0.006, STYLE)
    notch = next(m for m in card.marks if isinstance(m, mk.Polyline))
    floors = [abs(a[0] - b[0]) for a, b in pairwise(notch.points) if a[1] == b[1] == pytest.approx(0.008)]
    assert sorted(floors) == pytest.approx([0.006 - ALLOWED, 0.006 + ALLOWED])


def test_a_taper_card_has_the_taper_cut_out_of_it(arm):
    card = taper_card(arm, arm.runs[0], STYLE)
    notch = next(m for m in card.marks if isinstance(m, mk.Polyline)).points
    assert notch[1][0] - notch[0][0] == pytest.approx(4 * INCH)
    assert notch[0][1] - notch[3][1] == pytest.approx(INCH / 8)
    assert notch[1][1] - notch[2][1] == pytest.approx(INCH / 2)


def test_a_twist_card_has_a_line_at_each_quarter_turn(arm):
    card = twist_card(arm, arm.twists[0], STYLE)
    lines = sorted(m.start[0] for m in card.marks if isinstance(m, mk.Line))
    assert lines == pytest.approx([4 * INCH * i / 6 for i in range(1, 7)])


def test_every_card_of_a_bar_has_words_on_it(arm):
    found = cards(arm, STYLE)
    assert len(found) >= 5
    assert all(lettering(card) for card in found)


EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.yaml"))


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda path: path.stem)
def test_what_is_drawn_is_as_large_as_what_was_reckoned(example):
    """The drawing joins cut sections as polygons; the reckoning finds extremes along each leg: two unlike ways."""
    done = reckon_file(example).copy
    assert done is not None
    for bar in bars_of(done):
        for view, axes in zip(bent_outlines(bar), views(bar.legs, bent(bar).row, stoutest(bar)), strict=True):
            edges = [m for m in view.marks if isinstance(m, mk.Polyline) and m.layer is mk.Layer.OUTLINE]
            if bar.children or any(run.outline for run in bar.runs):
                continue
            box = mk.bounds(edges)
            assert box.width == pytest.approx(bar.sizes.of(axes.along_right), abs=6e-5), bar.spec.name
            assert box.height == pytest.approx(bar.sizes.of(axes.along_up), abs=6e-5), bar.spec.name


def test_left_is_drawn_left_and_right_right(arm):
    """Reference face to the eye, the bar running to the right: a bend to the left goes up the page."""
    for turn, up in ((0.0, True), (math.pi, False)):
        legs = (Straight(0.2), Arc(0.02, math.pi / 2, turn), Straight(0.05))
        bar = plain_bar(arm, legs, 0.25 + 0.01 * math.pi, Section(Shape.ROUND, 0.006, 0.006))
        picture = bent_outline(bar)
        assert (picture.bounds.top > 0.05) is up
        assert (picture.bounds.bottom < -0.05) is not up


def test_a_branch_is_drawn_where_it_is_welded_on(arm):
    wire = Section(Shape.ROUND, 0.006, 0.006)
    thorn = plain_bar(arm, (Kink(math.pi / 2, 0.0), Straight(0.03)), 0.03, wire)
    thorn = replace(thorn, spec=replace(arm.spec, name="thorn"))
    branch = Branch("thorn", thorn.spec, Place(Anchor.DATUM, "", 0.15))
    stem = plain_bar(arm, (Straight(0.2),), 0.2, wire)
    stem = replace(stem, spec=replace(arm.spec, branches=(branch,)), children=(thorn,))
    edges = [m for m in bent_outline(stem).marks if isinstance(m, mk.Polyline)]
    box = mk.bounds([edge for edge in edges if max(y for _, y in edge.points) > 0.02])
    assert box.centre[0] == pytest.approx(0.15, abs=1e-6)
    assert box.top == pytest.approx(0.03, abs=1e-5)


@pytest.mark.parametrize("name", ["porch-lantern", "fire-set", "forge-hood", "ladle"])
def test_a_pattern_is_lettered_once_for_each_thing_and_no_lettering_covers_another(name):
    copy = reckon_file(JOBS / f"{name}.yaml").copy
    for sheet, pattern in patterns_of(copy):
        picture = pattern_full(pattern, sheet.spec.name)
        words = [mark for mark in picture.marks if isinstance(mark, mk.Text)]
        said = [mark.says for mark in words]
        assert len(said) == len(set(said))
        assert said[0] == sheet.spec.name
        boxes = [shapely.Polygon(mk.text_corners(mark)) for mark in words]
        for i, one in enumerate(boxes):
            assert all(one.intersection(other).area < 0.05 * one.area for other in boxes[:i]), said[i]


@pytest.mark.parametrize("name", ["porch-lantern", "fire-set", "crane-chain", "trivet", "dinner-triangle"])
def test_numbers_of_bends_stand_off_the_iron_off_one_another_and_inside_the_drawing(name):
    copy = reckon_file(JOBS / f"{name}.yaml").copy
    for bar in bars_of(copy):
        for picture in bent_outlines(bar):
            rings = [m for m in picture.marks if isinstance(m, mk.Arc) and m.layer is mk.Layer.DIMENSION]
            edges = [m for m in picture.marks if isinstance(m, mk.Polyline) and m.layer is mk.Layer.OUTLINE]
            iron = shapely.union_all([shapely.LinearRing(edge.points) for edge in edges])
            box = picture.bounds
            for i, ring in enumerate(rings):
                x, y = ring.centre
                assert shapely.distance(iron, shapely.Point(x, y)) >= ring.radius
                assert all(math.dist(ring.centre, other.centre) > 2 * ring.radius for other in rings[:i])
                assert box.left <= x - ring.radius + 1e-9
                assert x + ring.radius - 1e-9 <= box.right
                assert box.bottom <= y - ring.radius + 1e-9
                assert y + ring.radius - 1e-9 <= box.top


def test_words_of_a_narrow_dimension_stand_beyond_its_extension_lines():
    from bickern.paper.glyphs import plain

    for start, end, offset in (((0, 0), (0.02, 0), -0.006), ((0, 0), (0.02, 0), 0.006), ((0, 0), (0, 0.02), 0.006),
                               ((0, 0), (0, 0.02), -0.006)):  # fmt: skip
        marks = plain([mk.Dimension(start, end, offset, "inside 7/8 in (22 mm)")])
        words = next(m for m in marks if isinstance(m, mk.Text))
        room = shapely.Polygon(mk.text_corners(words))
        lines = [shapely.LineString([m.start, m.end]) for m in marks if isinstance(m, mk.Line)]
        assert not any(room.intersects(line) for line in lines)


def test_a_leaf_is_drawn_as_wide_as_the_stem_where_it_joins_it():
    copy = reckon_file(JOBS / "leaf-coat-hook.yaml").copy
    hook = copy.pieces[0]
    leaf, stem = necked(hook).runs[:2]
    assert leaf.outline is not None
    assert size_in(leaf, leaf.end).width == pytest.approx(stem.a.width)
    assert size_in(leaf, (leaf.start + leaf.end) / 2).width == pytest.approx(leaf.outline.width)
    assert size_in(leaf, leaf.start).width == pytest.approx(0.0, abs=1e-9)


@pytest.mark.parametrize("name", ["porch-lantern", "fire-set", "ladle", "ring-pull", "crane-chain", "forge-hood"])
def test_every_piece_has_a_small_picture_that_keeps_to_its_room(name):
    copy = reckon_file(JOBS / f"{name}.yaml").copy
    for piece in copy.pieces:
        picture = small(piece, (0.030, 0.016))
        assert picture.marks
        assert picture.bounds.width <= 0.0301
        assert picture.bounds.height <= 0.0161


def test_a_hood_from_the_side_has_the_sizes_of_its_cone():
    copy = reckon_file(JOBS / "porch-lantern.yaml").copy
    hood = next(piece for piece in copy.pieces if piece.spec.name == "hood")
    picture = standing(hood)
    assert picture.bounds.width == pytest.approx(8 * INCH)
    assert picture.bounds.height == pytest.approx(4 * INCH)


def test_a_bend_in_two_planes_is_shown_from_the_sides_that_show_it_and_no_others():
    copy = reckon_file(JOBS / "porch-lantern.yaml").copy
    seen = [[number for number, _ in shown] for _, shown in bend_pictures(copy.pieces[0])]
    assert sorted(number for numbers in seen for number in numbers) == [1, 2]
    arm = copy.pieces[0]
    straight = replace(arm, spec=replace(arm.spec, path=()), bends=())
    assert bend_pictures(straight) == ()
