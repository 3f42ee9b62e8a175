"""Straights for arcs: always on the side that was asked, and never farther off than was asked."""

import math

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from bickern.geometry.pack.shapes.chords import polygon_round, polygon_within
from bickern.geometry.polygon import ArcSeg, Line, Loop, disc, flipped, moved, rectangle, sector, to_shapely

FINE = 1e-8
BITTEN = Loop(
    (
        Line((0.0, 0.0), (0.2, 0.0)),
        Line((0.2, 0.0), (0.2, 0.1)),
        Line((0.2, 0.1), (0.15, 0.1)),
        ArcSeg((0.1, 0.1), 0.05, 0.0, -math.pi),
        Line((0.05, 0.1), (0.0, 0.1)),
        Line((0.0, 0.1), (0.0, 0.0)),
    )
)
SHAPES = (disc(0.05), sector(0.2, 0.05, 1.3), sector(0.2, 0.0, 4.0), BITTEN, rectangle(0.1, 0.2), flipped(BITTEN))


@pytest.mark.parametrize("shape", SHAPES)
@settings(max_examples=40)
@given(turn=st.floats(0, 6.3), tolerance=st.sampled_from([1e-3, 5e-5, 2e-6]))
def test_round_holds_the_shape_and_within_is_held(shape: Loop, turn: float, tolerance: float) -> None:
    loop = moved(shape, 0.3, -0.1, turn)
    true = to_shapely(loop, FINE)
    around, inside = polygon_round(loop, tolerance), polygon_within(loop, tolerance)
    assert around.buffer(2 * FINE).covers(true)
    assert true.buffer(2 * FINE).covers(inside)
    for polygon in (around, inside):
        assert polygon.is_valid
        assert shapely.hausdorff_distance(polygon.exterior, true.exterior) <= tolerance * 1.001 + 2 * FINE


def test_holes_go_the_other_way() -> None:
    hole = flipped(disc(0.03, (0.1, 0.05)))
    outer = rectangle(0.2, 0.1)
    around, inside = polygon_round(outer, 1e-3, [hole]), polygon_within(outer, 1e-3, [hole])
    truth = 0.02 - math.pi * 0.03**2
    assert inside.area < truth < around.area
    assert to_shapely(outer, FINE, [hole]).buffer(1e-7).covers(inside)


def test_straights_are_left_as_they_are() -> None:
    assert polygon_round(rectangle(0.1, 0.2), 1e-4).equals(to_shapely(rectangle(0.1, 0.2)))
