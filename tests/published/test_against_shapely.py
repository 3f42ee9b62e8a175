"""Against Shapely 2.2 (GEOS), a general library of plane geometry.

Kind: reference library. Outlines with exact arcs against one that knows only straights: the arcs are cut up very fine.
Reckoned another way.
"""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import affinity, minimum_rotated_rectangle
from shapely.geometry import MultiPoint

from bickern.geometry import develop, polygon
from bickern.geometry.blank import min_blank
from bickern.geometry.develop import Development
from bickern.measure.units.words import Read

FINE = 1e-9

sectors = st.builds(
    lambda outer, share, angle, turn, dx: polygon.moved(polygon.sector(outer, outer * share, angle), dx, -dx, turn),
    st.floats(0.05, 1.0),
    st.floats(0.0, 0.95).map(lambda x: 0.0 if x < 0.05 else x),
    st.floats(0.1, 6.0),
    st.floats(-3.0, 3.0),
    st.floats(-1.0, 1.0),
)


@settings(max_examples=25, deadline=None)
@given(sectors)
def test_area_perimeter_centroid_and_bounds(loop: polygon.Loop) -> None:
    other = polygon.to_shapely(loop, FINE)
    assert polygon.area(loop) == pytest.approx(other.area, rel=1e-5)
    assert polygon.perimeter(loop) == pytest.approx(other.length, rel=1e-6)
    assert polygon.centroid(loop) == pytest.approx((other.centroid.x, other.centroid.y), abs=1e-6)
    low, high = polygon.bounds(loop)
    assert (*low, *high) == pytest.approx(other.bounds, abs=2e-8)


@settings(max_examples=25, deadline=None)
@given(st.lists(st.tuples(st.floats(-1, 1), st.floats(-1, 1)), min_size=3, max_size=9, unique=True))
def test_smallest_rectangle_round_straight_sided_outlines(spots: list[tuple[float, float]]) -> None:
    hull = MultiPoint(spots).convex_hull
    if hull.geom_type != "Polygon" or hull.area < 1e-3:
        return
    other = minimum_rotated_rectangle(hull)
    blank = min_blank(polygon.from_points(list(hull.exterior.coords)[:-1]))
    assert blank.width * blank.height == pytest.approx(other.area, rel=1e-9)


@settings(max_examples=15, deadline=None)
@given(sectors)
def test_no_turn_of_a_sector_needs_less_than_its_blank(loop: polygon.Loop) -> None:
    blank = min_blank(loop)
    shape = polygon.to_shapely(loop, 1e-6)
    least = math.inf
    for step in range(180):
        x0, y0, x1, y1 = affinity.rotate(shape, step / 2, origin=(0, 0)).bounds
        least = min(least, (x1 - x0) * (y1 - y0))
    assert blank.width * blank.height <= least * (1 + 1e-4)
    x0, y0, x1, y1 = affinity.rotate(shape, blank.turn, origin=(0, 0), use_radians=True).bounds
    assert (x1 - x0, y1 - y0) == pytest.approx((blank.width, blank.height), abs=1e-5)


PATTERNS = [
    develop.cone(0.1, 0.02, 0.1),
    develop.cylinder(0.05, 0.2, math.radians(40)),
    develop.oblique_cone(0.1, 0.05, 0.2, (0.06, 0.03)),
    develop.pyramid(6, 0.2, 0.1, 0.15),
    develop.square_to_round(0.2, 0.3, 0.08, 0.2),
    develop.pan(0.127, 0.1905, 0.0254, ("back", "left", "right"), 0.003, 0.003),
]


@pytest.mark.parametrize("read", PATTERNS, ids=["cone", "cylinder", "oblique", "pyramid", "square to round", "pan"])
def test_patterns_are_sound_outlines(read: Read[Development]) -> None:
    assert read.value is not None
    shape = polygon.to_shapely(read.value.outline, 1e-6)
    assert shape.is_valid
    assert shape.exterior.is_ccw
    assert shape.area == pytest.approx(polygon.area(read.value.outline), rel=1e-4)
