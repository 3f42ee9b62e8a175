"""Patterns: sizes worked by hand, folds the right way round, and what cannot be laid flat."""

import math

import pytest

from bickern.geometry import polygon
from bickern.geometry.develop import (
    SIDES,
    Development,
    Facing,
    bowl,
    cap_sizes,
    cone,
    cone_sizes,
    cylinder,
    free_outline,
    generators,
    oblique_cone,
    outline_rim,
    pan,
    pan_sizes,
    pyramid,
    rectangle_rim,
    rectangular_frustum,
    roll_up,
    round_rim,
    split,
    square_to_round,
    transition,
)
from bickern.measure.units.words import Read

INCH = 0.0254


def got(read: Read[Development]) -> Development:
    assert read.value is not None, read.findings
    return read.value


def test_a_lantern_hood() -> None:
    # 8 to 1 1/2 across, 4 high: slant sqrt(16 + 3.25^2) = 5.154 in; swing radii 6.343, 1.189; 227.0 degrees
    sizes = cone_sizes(4, 0.75, 4)
    assert (sizes.slant, sizes.outer, sizes.inner) == pytest.approx((5.154, 6.343, 1.189), abs=5e-4)
    assert math.degrees(sizes.angle) == pytest.approx(227.0, abs=0.05)


def test_a_cone_is_two_arcs_and_two_straights() -> None:
    made = got(cone(0.1, 0.02, 0.1))
    assert [edge.name for edge in made.edges] == ["base", "last", "top", "first"]
    assert [type(seg).__name__ for seg in made.outline.segs] == ["ArcSeg", "Line", "ArcSeg", "Line"]
    assert made.stray == 0.0
    assert polygon.area(made.outline) > 0


def test_a_pointed_cone_has_no_top_edge() -> None:
    assert got(cone(0.1, 0.0, 0.1)).edge("top") is None
    assert got(cone(0.0, 0.1, 0.1)).edge("base") is None


def test_a_pattern_shows_the_outside() -> None:
    # seen from outside, right is the way round that is counter-clockwise from above
    for made in (
        got(cone(0.1, 0.02, 0.1)),
        got(cone(0.02, 0.1, 0.1)),
        got(cylinder(0.1, 0.1)),
        got(pyramid(8, 0.2, 0.1, 0.1)),
    ):
        assert made.facing is Facing.OUTSIDE
        low, high = generators(made, 16)[4:6]
        (xa, ya, _), (xb, yb, _) = roll_up(made, [low.start, high.start])
        assert xa * yb - ya * xb > 0
        (ax, ay), (bx, by) = low.start, high.start
        ux, uy = low.end[0] - ax, low.end[1] - ay
        assert ux * (by - ay) - uy * (bx - ax) < 0  # the next generator lies to the right of this one, in the flat too


def test_a_far_swing_point_is_noted_and_still_exact() -> None:
    read = cone(0.1, 0.0995, 0.2)
    assert [f.name for f in read.findings] == ["far-apex"]
    assert not read.findings[0].stops
    assert polygon.area(got(read).outline) == pytest.approx(math.pi * 0.1995 * math.hypot(0.2, 0.0005), rel=1e-9)


@pytest.mark.parametrize(("bases", "noted"), [(19.0, False), (21.0, True)])
def test_twenty_base_diameters_are_as_far_as_a_trammel_goes(bases: float, noted: bool) -> None:
    """Common practice, not a published figure: exact swing radius = slant x base / (base - top)."""
    base, top = 0.2, 0.19
    slant = bases * (base - top)
    read = cone(base / 2, top / 2, math.sqrt(slant**2 - ((base - top) / 2) ** 2))
    assert [f.name for f in read.findings] == (["far-apex"] if noted else [])


def test_equal_ends_are_a_cylinder() -> None:
    made = got(cone(0.1, 0.1, 0.2))
    assert polygon.bounds(made.outline)[1] == pytest.approx((math.pi * 0.1, 0.2))


def test_a_mitred_cylinder_is_lowest_at_its_seam() -> None:
    made = got(cylinder(0.1, 0.3, math.radians(45)))
    assert made.seams[0].first.end[1] == pytest.approx(0.2)
    assert polygon.bounds(made.outline)[1][1] == pytest.approx(0.4, abs=1e-6)


@pytest.mark.parametrize(
    ("read", "name"),
    [
        (cone(0.1, 0.05, 0.0), "no-height"),
        (cone(0.1, 0.05, -1.0), "no-height"),
        (cone(0.0, 0.0, 0.1), "no-width"),
        (cone(-0.1, 0.05, 0.1), "no-width"),
        (cone(math.nan, 0.05, 0.1), "not-a-size"),
        (cone(0.1, 0.05, math.inf), "not-a-size"),
        (cylinder(0.0, 0.1), "no-width"),
        (cylinder(0.1, 0.05, math.radians(45)), "cut-through-base"),
        (cylinder(0.1, 0.05, math.radians(90)), "cut-through-base"),
        (oblique_cone(0.1, 0.05, 0.0, (0.1, 0.0)), "no-height"),
        (pyramid(2, 0.1, 0.05, 0.1), "too-few-sides"),
        (pyramid(4, 0.1, 0.05, 0.0), "no-height"),
        (pyramid(4, 0.0, 0.0, 0.1), "no-width"),
        (rectangular_frustum((0.1, 0.0), (0.1, 0.1), 0.1), "no-width"),
        (square_to_round(0.1, 0.1, 0.0, 0.1), "no-transition"),
        (square_to_round(0.1, 0.1, 0.05, math.nan), "no-transition"),
        (transition(rectangle_rim(0.1, 0.1), round_rim(0.02)), "no-height"),
        (transition(rectangle_rim(0.1, 0.1), round_rim(0.0, (0.0, 0.0, 0.1))), "no-transition"),
        (pan(0.1, 0.1, 0.02, ("top",)), "no-such-side"),
        (pan(0.1, 0.0, 0.02), "no-width"),
        (pan(0.1, 0.1, 0.002, SIDES, 0.003, 0.003), "bend-too-wide"),
        (bowl(0.1, 0.0), "no-bowl"),
        (bowl(math.nan, 0.1), "no-bowl"),
        (free_outline(polygon.from_points(((0, 0), (1, 0), (2, 0)))), "no-area"),
    ],
)
def test_what_cannot_be_laid_flat_is_a_finding(read: Read[Development], name: str) -> None:
    assert read.value is None
    assert name in [f.name for f in read.findings]
    assert read.findings[0].stops


def test_a_pan_outside_sizes() -> None:
    # 5 x 7 1/2 x 1 outside, three walls: one bend across, two along; each takes the deduction off
    deduction = 0.1154
    flat = pan_sizes(5, 7.5, 1, ("back", "left", "right"), deduction)
    assert flat.x + 2 * flat.walls[0][1] == pytest.approx(5 + 2 * 1 - 2 * deduction)
    assert flat.y + flat.walls[0][1] == pytest.approx(7.5 + 1 - deduction)


@pytest.mark.parametrize(("deduction", "allowance"), [(0.0, 0.0), (0.0022, 0.0031)])
def test_a_pan_folds_up_to_its_outside_sizes(deduction: float, allowance: float) -> None:
    # rolled on its neutral surface the wall stands where its bend's tangents end: the setback inside the mould line
    made = got(pan(0.127, 0.19, 0.0254, SIDES, deduction, allowance))
    right = made.edge("right")
    assert right is not None
    x, _, z = roll_up(made, [polygon.on_seg(right.segs[1], 0.5)])[0]
    setback = (deduction + allowance) / 2
    radius = allowance / (math.pi / 2)
    assert x == pytest.approx(0.127 / 2 - setback + radius, abs=1e-12)
    assert z == pytest.approx(0.0254 - setback + radius, abs=1e-12)
    assert len(made.bends) == 4
    assert all(bend.angle == pytest.approx(math.pi / 2) for bend in made.bends)
    assert made.facing is Facing.INSIDE


def test_metal_in_a_bend_lies_on_its_arc() -> None:
    made = got(pan(0.1, 0.1, 0.03, ("right",), 0.002, 0.004))
    line = made.bends[0].line
    x, y, z = roll_up(made, [polygon.on_seg(line, 0.5)])[0]
    radius = 0.004 / (math.pi / 2)
    start = line.start[0] - 0.002
    assert (x - start, y, z) == pytest.approx(
        (radius * math.sin(math.pi / 4), 0.0, radius * (1 - math.cos(math.pi / 4)))
    )


def test_a_pan_has_no_generators_to_split_along() -> None:
    read = split(got(pan(0.1, 0.1, 0.03)), 2)
    assert read.findings[0].name == "cannot-split"
    assert generators(got(pan(0.1, 0.1, 0.03)), 4) == ()


def test_a_cube_without_ends() -> None:
    made = got(rectangular_frustum((0.1, 0.1), (0.1, 0.1), 0.1))
    assert polygon.area(made.outline) == pytest.approx(0.04)
    assert [bend.angle for bend in made.bends] == pytest.approx([-math.pi / 2] * 4)  # away from the looker


def test_square_to_round_bends_at_its_flats_and_rolls_its_corners() -> None:
    made = got(square_to_round(0.2, 0.2, 0.08, 0.2))
    total = sum(bend.angle for bend in made.bends)
    assert all(bend.angle < 0 for bend in made.bends)
    assert 8 <= len(made.bends) <= 64
    assert total == pytest.approx(-2 * math.pi * math.cos(math.atan2(0.02, 0.2)), abs=0.4)  # nearly a full turn about z


def test_halves_of_a_hood_are_alike() -> None:
    read = split(got(cone(12 * INCH, 4 * INCH, 14 * INCH)), 2)
    assert read.value is not None
    a, b = read.value
    assert math.degrees(a.outline.segs[0].sweep) == pytest.approx(89.3, abs=0.05)
    for mine, other in zip(polygon.bounds(a.outline), polygon.bounds(b.outline), strict=True):
        assert mine == pytest.approx(other, abs=1e-12)


def test_a_ladle_bowl() -> None:
    # 4 at the rim, 1 1/4 deep (mean): disc 2 sqrt(4 + 1.5625) = 4.717 in; 145 ml
    sizes = cap_sizes(2 * INCH, 1.25 * INCH)
    assert 2 * sizes.disc / INCH == pytest.approx(4.717, abs=5e-4)
    assert sizes.volume * 1e6 == pytest.approx(145, abs=0.5)


def test_a_free_outline_keeps_its_holes_the_other_way_round() -> None:
    made = got(free_outline(polygon.flipped(polygon.rectangle(2, 1)), (polygon.disc(0.1, (0.5, 0.5)),)))
    assert polygon.area(made.outline) == pytest.approx(2.0)
    assert polygon.area(made.holes[0]) < 0
    assert roll_up(made, [(0.3, 0.4)])[0] == (0.3, 0.4, 0.0)


def test_any_outline_makes_a_rim_that_starts_on_its_right_hand_side() -> None:
    rim = outline_rim(polygon.rectangle(0.2, 0.1, (-0.1, -0.05)))
    assert rim.places[0] == pytest.approx((0.1, 0.0, 0.0))
    assert rim.places[0] == rim.places[-1]
    assert max(rim.sagittas) == pytest.approx(0.0, abs=1e-15)
    tilted = outline_rim(polygon.disc(0.1), (0.0, 0.0, 0.3), 0.2)
    assert tilted.places[0] == pytest.approx((0.1 * math.cos(0.2), 0.0, 0.3 + 0.1 * math.sin(0.2)))
