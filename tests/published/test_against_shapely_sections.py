"""Against Shapely, the general library of plane geometry, 2.2: sections of bars.

Kind: reference library. Every shape of bar is built a second time, of straights alone, and cut into triangles: areas,
girths, balance, second moments, circles round it and squares in it are then read off the pieces. Reckoned another way.
"""

import math
from itertools import pairwise

import numpy as np
import pytest
import shapely
from shapely import affinity
from shapely.geometry import LineString, Point, Polygon, box

from bickern.iron import section as ours
from bickern.iron.section import Section
from bickern.measure.units.words import SectionWords, Shape

FINE = 720
"""Straights in a quarter of a round: short by one part in ten million."""


def regular(sides: int, first: float) -> Polygon:
    """A regular polygon one unit across flats, a corner at the angle `first` [rad]."""
    reach = 0.5 / math.cos(math.pi / sides)
    turns = first + np.arange(sides) * 2 * math.pi / sides
    return Polygon(np.column_stack((reach * np.cos(turns), reach * np.sin(turns))))


DISC = Point(0, 0).buffer(0.5, quad_segs=FINE)
UNIT = {
    Shape.SQUARE: box(-0.5, -0.5, 0.5, 0.5),
    Shape.FLAT: box(-0.5, -0.5, 0.5, 0.5),
    Shape.ROUND: DISC,
    Shape.OVAL: DISC,
    Shape.HEXAGON: regular(6, 0.0),
    Shape.OCTAGON: regular(8, math.pi / 8),
    Shape.HALF_ROUND: affinity.translate(
        affinity.scale(Point(0, 0).buffer(0.5, quad_segs=FINE) & box(-1, 0, 1, 1), 1, 2, origin=(0, 0)), 0, -0.5
    ),
}
"""Each shape in a box of one by one, about the middle of the box; corners of a hexagon stand out of it."""


def drawn(bar: Section) -> Polygon:
    """The outside of a bar, and its hole cut out."""
    shape = {Shape.TUBE: Shape.ROUND, Shape.SQUARE_TUBE: Shape.SQUARE}.get(bar.shape, bar.shape)
    outside = affinity.scale(UNIT[shape], bar.width, bar.thick, origin=(0, 0))
    if not bar.wall:
        return outside
    hole = affinity.scale(UNIT[shape], bar.width - 2 * bar.wall, bar.thick - 2 * bar.wall, origin=(0, 0))
    return outside - hole


def moments(poly: Polygon) -> tuple[float, float]:
    """Second moments about the left-right and the up axis through the balance, triangle by triangle.

    In a triangle the mean of a square is that of its three middles of sides: exact for squares.
    """
    total = np.zeros(2)
    mid = poly.centroid
    for part in shapely.constrained_delaunay_triangles(poly).geoms:
        corners = np.array(part.exterior.coords)[:3] - (mid.x, mid.y)
        middles = (corners + np.roll(corners, 1, axis=0)) / 2
        total += part.area * (middles**2).mean(axis=0)[::-1]
    return float(total[0]), float(total[1])


BARS = [
    Section(Shape.SQUARE, 0.02, 0.02),
    Section(Shape.FLAT, 0.04, 0.01),
    Section(Shape.ROUND, 0.02, 0.02),
    Section(Shape.OVAL, 0.03, 0.012),
    Section(Shape.HEXAGON, 0.02, 0.02),
    Section(Shape.HEXAGON, 0.012, 0.03),
    Section(Shape.OCTAGON, 0.02, 0.02),
    Section(Shape.OCTAGON, 0.03, 0.012),
    Section(Shape.OCTAGON, 0.012, 0.03),
    Section(Shape.HALF_ROUND, 0.03, 0.015),
    Section(Shape.TUBE, 0.03, 0.03, 0.004),
    Section(Shape.SQUARE_TUBE, 0.03, 0.03, 0.003),
]
IDS = [f"{b.shape} {b.width * 1000:g} x {b.thick * 1000:g}" for b in BARS]


@pytest.mark.parametrize("bar", BARS, ids=IDS)
def test_area_girth_and_second_moments(bar: Section) -> None:
    poly = drawn(bar)
    assert ours.area(bar) == pytest.approx(poly.area, rel=1e-5)
    assert ours.perimeter(bar) == pytest.approx(poly.exterior.length, rel=1e-5)
    assert ours.inertia(bar) == pytest.approx(moments(poly), rel=1e-5)
    assert ours.hydraulic(bar) == pytest.approx(poly.area / poly.exterior.length, rel=1e-5)


def test_an_oval_beaten_flat_is_gone_round_twice() -> None:
    thin = LineString([(0, 0), (0.03, 0)])
    assert ours.perimeter(Section(Shape.OVAL, 0.03, 0.0)) == pytest.approx(2 * thin.length, rel=1e-12)


@pytest.mark.parametrize("bar", BARS, ids=IDS)
def test_height_of_the_middle_of_the_metal(bar: Section) -> None:
    poly = drawn(bar)
    assert ours.middle_height(bar) == pytest.approx(poly.centroid.y + bar.thick / 2, rel=1e-5)


@pytest.mark.parametrize("bar", BARS, ids=IDS)
def test_the_least_circle_round(bar: Section) -> None:
    if bar.shape is Shape.HALF_ROUND:  # the circle's middle is that of the flat side, not of the box
        assert shapely.minimum_bounding_radius(drawn(bar)) == pytest.approx(ours.radius_of_circle_round(bar), rel=1e-5)
        return
    assert ours.radius_of_circle_round(bar) == pytest.approx(shapely.minimum_bounding_radius(drawn(bar)), rel=1e-5)


@pytest.mark.parametrize("bar", [b for b in BARS if not b.wall], ids=IDS[:10])
def test_the_largest_round_inside(bar: Section) -> None:
    """A hexagon stretched higher than wide holds a little more than is told: its corners stand out of its box."""
    across = 2 * shapely.maximum_inscribed_circle(drawn(bar), tolerance=1e-7).length
    if bar.shape is Shape.HEXAGON and bar.thick > bar.width:
        assert ours.largest_round_inside(bar) < across
        return
    assert ours.largest_round_inside(bar) == pytest.approx(across, rel=3e-4)


def largest_square(poly: Polygon) -> float:
    """The side of the largest square about the middle, at any turn: each side of the polygon holds off its corners."""
    ring = np.array(poly.exterior.coords)
    along = np.diff(ring, axis=0)
    out = np.column_stack((along[:, 1], -along[:, 0])) / np.hypot(*along.T)[:, None]
    far = (out * ring[:-1]).sum(axis=1)
    out, far = (out, far) if far.min() > 0 else (-out, -far)
    best = 0.0
    for turn in np.linspace(0, math.pi / 2, 721):
        corners = np.array([(math.cos(turn + k * math.pi / 2), math.sin(turn + k * math.pi / 2)) for k in range(4)])
        best = max(best, float((far / (out @ corners.T).max(axis=1)).min()) * math.sqrt(2))
    return best


@pytest.mark.parametrize("bar", [b for b in BARS if b.width == b.thick and not b.wall])
def test_the_largest_square_inside(bar: Section) -> None:
    assert ours.largest_square_inside(bar) == pytest.approx(largest_square(drawn(bar)), rel=1e-4)


def test_the_largest_square_in_a_flat_and_over_a_square_tube() -> None:
    assert ours.largest_square_inside(Section(Shape.FLAT, 0.04, 0.01)) == pytest.approx(0.01, rel=1e-12)
    outside = Polygon(drawn(Section(Shape.SQUARE_TUBE, 0.03, 0.03, 0.003)).exterior)
    told = ours.largest_square_inside(Section(Shape.SQUARE_TUBE, 0.03, 0.03, 0.003))
    assert told == pytest.approx(largest_square(outside), rel=1e-4)


@pytest.mark.parametrize("bar", BARS, ids=IDS)
def test_the_outline_runs_along_the_bar(bar: Section) -> None:
    """Every corner is a point of it, and between corners it strays from a round by less than a thousandth."""
    solid = Polygon(drawn(bar).exterior)
    line = Polygon(ours.outline(bar))
    assert line.exterior.is_ccw
    assert line.hausdorff_distance(solid) < 1.5e-3 * bar.width
    sharp = bar.shape not in (Shape.ROUND, Shape.OVAL, Shape.TUBE, Shape.HALF_ROUND)
    assert line.area == pytest.approx(solid.area, rel=1e-9 if sharp else 2e-3)


def test_a_finer_outline_has_as_many_points_as_are_asked_for() -> None:
    for asked in (1, 48, 49, 480):
        points = ours.outline(Section(Shape.ROUND, 0.02, 0.02), asked)
        assert len(points) == len(np.unique(points.round(12), axis=0)) >= asked
        steps = [math.dist(a, b) for a, b in pairwise([*points, points[0]])]
        assert steps == pytest.approx([steps[0]] * len(steps), rel=1e-9)
        assert len(points) < asked + 48


@pytest.mark.parametrize("share", [0.5, 0.9])
def test_corners_that_are_not_full_draw_the_outline_in(share: float) -> None:
    bar = Section(Shape.SQUARE, 0.02, 0.02, fullness=share)
    assert Polygon(ours.outline(bar)).area == pytest.approx(ours.area(bar), rel=1e-9)
    full = drawn(bar)
    drawn_in = affinity.scale(full, *(2 * [math.sqrt(ours.area(bar) / full.area)]), origin=(0, 0))
    assert drawn_in.area == pytest.approx(share * full.area, rel=1e-9)


def test_a_half_round_of_another_size_stays_half_a_round() -> None:
    wide = ours.with_sizes(Section(Shape.HALF_ROUND, 0.02, 0.01), 0.05)
    half = Point(0, 0).buffer(0.025, quad_segs=FINE) & box(-1, 0, 1, 1)
    assert (wide.width, wide.thick) == pytest.approx((half.bounds[2] - half.bounds[0], half.bounds[3]), rel=1e-12)
    assert ours.area(wide) == pytest.approx(half.area, rel=1e-5)


def test_a_tube_is_hollow_as_long_as_its_walls_do_not_meet() -> None:
    """The hole is what is left of a disc drawn in by the wall."""
    for outside, wall in ((0.03, 0.0149), (0.03, 0.0151)):
        left = Point(0, 0).buffer(outside / 2).buffer(-wall)
        read = ours.section_from(SectionWords(Shape.TUBE, (outside, wall)))
        assert (read.value is None) is left.is_empty


def test_the_triangles_cover_the_shape() -> None:
    """The peer is held too: its pieces make the whole."""
    for poly in UNIT.values():
        assert sum(t.area for t in shapely.constrained_delaunay_triangles(poly).geoms) == pytest.approx(poly.area)
