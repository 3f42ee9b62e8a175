"""Against Shapely, the general library of plane geometry, 2.2: bundles, collars, and rings through plates.

Kind: reference library. A taut string is the edge of the hull of all bars; a band's middle line is the edge of the same
drawn out by half a thickness; a ring in a hole is a ring cut off by the two faces of the plate. Reckoned another way.
"""

import math

import pytest
from shapely import affinity, minimum_bounding_radius, unary_union
from shapely.geometry import Point, Polygon, box

from bickern.iron.section import Section
from bickern.measure.units.words import Shape
from bickern.parts.joint.bundle import bundle_girth
from bickern.parts.joint.holes import hole_for_ring, hole_needed, ring_in_hole
from bickern.parts.joint.rules import collar_length, wrap_length, wrap_width

FINE = 2000


def disc(across: float, up: float) -> Polygon:
    return Point(0, up).buffer(across / 2, quad_segs=FINE)


BUNDLES = [
    ([Section(Shape.SQUARE, 0.012, 0.012)] * 2, [box(-0.006, 0, 0.006, 0.024)]),
    ([Section(Shape.ROUND, 0.012, 0.012)] * 3, [disc(0.012, 0.006), disc(0.012, 0.030)]),
    ([Section(Shape.ROUND, 0.012, 0.012), Section(Shape.ROUND, 0.02, 0.02)], [disc(0.012, 0.006), disc(0.02, 0.022)]),
    (
        [Section(Shape.FLAT, 0.006, 0.03), Section(Shape.ROUND, 0.01, 0.01)],
        [box(-0.015, 0, 0.015, 0.006), disc(0.01, 0.011)],
    ),
    (
        [Section(Shape.FLAT, 0.03, 0.006), Section(Shape.FLAT, 0.02, 0.004), Section(Shape.SQUARE, 0.01, 0.01)],
        [box(-0.015, 0, 0.015, 0.006), box(-0.01, 0.006, 0.01, 0.01), box(-0.005, 0.01, 0.005, 0.02)],
    ),
    (
        [Section(Shape.HALF_ROUND, 0.03, 0.015), Section(Shape.FLAT, 0.03, 0.005)],
        [disc(0.03, 0.0) & box(-1, 0, 1, 1), box(-0.015, 0.015, 0.015, 0.02)],
    ),
    (
        [Section(Shape.OVAL, 0.03, 0.012)],
        [affinity.scale(disc(0.012, 0.006), 30 / 12, 1, origin=(0, 0.006))],
    ),
]
"""Bars as they lie on each other, and the same drawn."""


@pytest.mark.parametrize(("bars", "drawn"), BUNDLES)
def test_a_string_round_a_bundle(bars: list[Section], drawn: list[Polygon]) -> None:
    assert bundle_girth(bars) == pytest.approx(unary_union(drawn).convex_hull.length, rel=2e-5)


@pytest.mark.parametrize(("bars", "drawn"), BUNDLES)
def test_the_middle_line_of_a_band_round_a_bundle(bars: list[Section], drawn: list[Polygon]) -> None:
    thick = 0.004
    middle = unary_union(drawn).convex_hull.buffer(thick / 2, quad_segs=FINE).exterior.length
    girth = bundle_girth(bars)
    assert collar_length("perimeter + pi t", girth, thick) == pytest.approx(middle, rel=2e-5)
    assert wrap_length(3, girth, thick) == pytest.approx(3 * middle, rel=2e-5)


def test_turns_of_a_wrap_side_by_side() -> None:
    turns = unary_union([box(k * 0.006, 0, (k + 1) * 0.006, 1) for k in range(5)])
    assert wrap_width(5, 0.006) == pytest.approx(turns.bounds[2] - turns.bounds[0], rel=1e-12)


def in_the_plate(wire: float, inside: float, plate: float) -> Polygon:
    """A ring cut off by the two faces, its uppermost part."""
    ring = Point(0, 0).buffer(inside + wire, quad_segs=FINE) - Point(0, 0).buffer(inside, quad_segs=FINE)
    return ring & box(-plate / 2, 0, plate / 2, 1)


@pytest.mark.parametrize(
    ("wire", "inside", "plate"), [(0.006, 0.012, 0.012), (0.004, 0.01, 0.018), (0.008, 0.05, 0.006)]
)
def test_a_ring_through_a_plate(wire: float, inside: float, plate: float) -> None:
    _, low, _, high = in_the_plate(wire, inside, plate).bounds
    assert hole_needed(wire, inside, plate) == pytest.approx(high - low, rel=1e-6)


def test_a_plate_as_thick_as_the_ring_is_wide() -> None:
    for thick, part in ((1.99, True), (2.01, False)):
        left = in_the_plate(0.004, 0.01, thick * 0.01)
        # round the plate there must be a hole's edge under the ring on both faces
        under = Point(0, 0).buffer(0.01, quad_segs=FINE) & box(thick * 0.005 - 1e-9, 0, thick * 0.005, 1)
        assert (not under.is_empty) is part
        assert math.isfinite(hole_needed(0.004, 0.01, thick * 0.01)) is part
        assert not left.is_empty


@pytest.mark.parametrize(("wide", "thick"), [(0.006, 0.006), (0.012, 0.004)])
def test_a_ring_of_flat_bar_through_a_round_hole(wide: float, thick: float) -> None:
    _, low, _, high = in_the_plate(thick, 0.012, 0.012).bounds
    seen = box(-wide / 2, low, wide / 2, high)  # along the hole
    hole = 2 * minimum_bounding_radius(seen)
    assert hole_for_ring(Section(Shape.FLAT, wide, thick), 0.012, 0.012) == pytest.approx(hole, rel=1e-6)
    assert hole_for_ring(Section(Shape.ROUND, thick, thick), 0.012, 0.012) == pytest.approx(high - low, rel=1e-6)


def test_what_is_said_of_a_ring_that_does_not_go_round_a_plate() -> None:
    """The inside that is told is the ring's own."""
    (found,) = ring_in_hole(0.004, 0.01, 0.03, 0.02)
    ring = Point(0, 0).buffer(0.01, quad_segs=FINE)
    assert found.name == "ring-too-small-for-plate"
    assert f"{1000 * (ring.bounds[2] - ring.bounds[0]):.0f} mm" in found.says
