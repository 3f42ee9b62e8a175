"""Lines seen of solids: counts and shapes that exact mathematics gives, and nothing of the triangles showing."""

import math
from itertools import pairwise

import numpy as np
import pytest
import trimesh
from numpy.typing import NDArray

from bickern.geometry.solid.combine import without
from bickern.geometry.solid.sight import Sight, seen_lines
from bickern.geometry.solid.solid import Named, Solid
from bickern.geometry.space import Vec, cross, unit

Array = NDArray[np.float64]
FRONT = ((1.0, 0.0, 0.0), (0.0, 0.0, 1.0))
ABOVE = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0))


def solid(mesh: trimesh.Trimesh, at: Vec = (0.0, 0.0, 0.0)) -> Solid:
    return Solid(np.array(mesh.vertices) + at, np.array(mesh.faces, dtype=np.int32))


def box(x: float, y: float, z: float, at: Vec = (0.0, 0.0, 0.0)) -> Solid:
    return solid(trimesh.creation.box((x, y, z)), at)


def from_side(toward: Vec) -> tuple[Vec, Vec]:
    """Right and up for a viewer who stands that way, z up."""
    look = unit(toward)
    right = unit(cross((0.0, 0.0, 1.0), look))
    return right, cross(look, right)


def seen(*solids: Solid, side: tuple[Vec, Vec], dots: int = 1000) -> Sight:
    return seen_lines([Named(str(k), one) for k, one in enumerate(solids)], *side, dots=dots)


def long(lines: tuple[tuple[tuple[float, float], ...], ...]) -> float:
    return sum(math.dist(p, q) for line in lines for p, q in pairwise(line))


def places(lines: tuple[tuple[tuple[float, float], ...], ...], step: float) -> Array:
    """Places along all lines."""
    rows = []
    for line in lines:
        for p, q in pairwise(line):
            shares = np.linspace(0, 1, max(int(math.dist(p, q) / step), 1) + 1)[:, None]
            rows.append((1 - shares) * np.array(p) + shares * np.array(q))
    return np.vstack(rows)


def test_a_cube_from_its_corner_has_nine_edges_and_three_behind() -> None:
    """Along the long diagonal every edge is seen at sqrt(2/3)."""
    sight = seen(box(1, 1, 1), side=from_side((1.0, 1.0, 1.0001)))
    assert len(sight.visible) == 9
    assert long(sight.visible) == pytest.approx(9 * math.sqrt(2 / 3), rel=2e-3)
    side = from_side((1.0, 1.3, 0.7))
    sight = seen(box(1, 1, 1), side=side)
    assert (len(sight.visible), len(sight.hidden)) == (9, 3)
    edges = [math.hypot(side[0][k], side[1][k]) for k in range(3)]
    assert long(sight.visible) == pytest.approx(3 * sum(edges), rel=2e-3)
    assert long(sight.hidden) == pytest.approx(sum(edges), rel=2e-2)


def test_a_cube_from_the_front_is_a_square() -> None:
    sight = seen(box(1, 1, 1), side=FRONT)
    assert sight.hidden == ()
    assert np.abs(places(sight.visible, 0.01)).max(axis=1) == pytest.approx(0.5, abs=1e-6)
    assert long(sight.visible) == pytest.approx(4.0, rel=1e-3)


@pytest.mark.parametrize("sections", [12, 16, 32, 33])
def test_a_round_bar_from_the_side_is_a_rectangle(sections: int) -> None:
    """Two ends and two outlines, no facets; a facet's sag is all that it may be narrower."""
    sight = seen(solid(trimesh.creation.cylinder(0.1, 1.0, sections=sections)), side=FRONT)
    assert sight.hidden == ()
    assert len(sight.visible) == 4
    across = 0.1 * (1 - math.cos(math.pi / sections))
    flat = places(sight.visible, 0.001)
    assert np.abs(flat[:, 1]).max() == pytest.approx(0.5, abs=1e-9)
    sides = flat[np.abs(flat[:, 1]) < 0.499]
    assert np.abs(sides[:, 0]).min() >= 0.1 - across - 1e-6
    assert long(sight.visible) == pytest.approx(2.4, abs=4 * across + 0.003)


def test_a_round_bar_slantwise_shows_one_end_whole_and_half_of_the_other() -> None:
    sight = seen(solid(trimesh.creation.cylinder(0.1, 1.0, sections=64)), side=from_side((1.0, 0.3, 0.6)))
    look = unit((1.0, 0.3, 0.6))
    t = np.linspace(0, 2 * math.pi, 20_001)
    ellipse = float(np.hypot(np.diff(0.1 * np.cos(t)), np.diff(0.1 * look[2] * np.sin(t))).sum())
    sides = 2 * 1.0 * math.hypot(look[0], look[1])
    assert long(sight.visible) == pytest.approx(1.5 * ellipse + sides, rel=3e-3)
    # where the hidden half nears the outlines to a dot or two it is drawn no more
    assert 0.85 * 0.5 * ellipse < long(sight.hidden) <= 0.5 * ellipse


def test_an_octagon_bar_shows_its_edges() -> None:
    """Of eight edges those of the half that faces the viewer: seen along a flat, two inner ones and two outlines."""
    turn = trimesh.transformations.rotation_matrix(math.pi / 8, (0, 0, 1))
    bar = trimesh.creation.cylinder(0.1, 1.0, sections=8).apply_transform(turn)
    sight = seen(solid(bar), side=FRONT)
    upright = [line for line in sight.visible if abs(line[0][0] - line[-1][0]) < 1e-9]
    at = sorted(round(line[0][0], 4) for line in upright)
    wide, narrow = round(0.1 * math.cos(math.pi / 8), 4), round(0.1 * math.sin(math.pi / 8), 4)
    assert sorted(set(at)) == [-wide, -narrow, narrow, wide]


def test_a_ball_is_a_circle() -> None:
    sight = seen(solid(trimesh.creation.icosphere(subdivisions=4, radius=1.0)), side=from_side((0.3, 0.5, 0.2)))
    assert sight.hidden == ()
    assert len(sight.visible) == 1
    assert sight.visible[0][0] == pytest.approx(sight.visible[0][-1])
    assert np.linalg.norm(places(sight.visible, 0.01), axis=1) == pytest.approx(1.0, abs=2.5e-3)


def test_a_ring_slantwise_keeps_half_a_wire_from_its_middle_line() -> None:
    """Seen at 37 degrees a ring of 40 and 6 is open: both outlines lie one radius of wire from an ellipse, unbroken."""
    ring = solid(trimesh.creation.torus(0.04, 0.006, major_sections=128, minor_sections=32))
    look = unit((1.0, 0.3, 0.8))
    sight = seen(ring, side=from_side((1.0, 0.3, 0.8)))
    assert (len(sight.visible), len(sight.hidden)) == (2, 0)
    t = np.linspace(0, 2 * math.pi, 8001)
    middle = np.column_stack((0.04 * np.cos(t), 0.04 * look[2] * np.sin(t)))
    for line in sight.visible:
        assert line[0] == pytest.approx(line[-1])
        away = [np.linalg.norm(middle - p, axis=1).min() for p in places((line,), 0.002)]
        assert away == pytest.approx(np.full(len(away), 0.006), abs=6e-5)


def test_a_ring_behind_a_plate_is_hidden_where_the_plate_is() -> None:
    ring = solid(trimesh.creation.torus(0.04, 0.004, major_sections=128, minor_sections=24))
    plate = box(0.2, 0.2, 0.002, (0.1, 0.0, 0.05))  # covers all that lies to the right of the middle
    sight = seen(ring, plate, side=ABOVE)
    circles = 2 * math.pi * (0.044 + 0.036)
    assert long(sight.visible) == pytest.approx(0.8 + circles / 2, rel=3e-3)
    assert long(sight.hidden) == pytest.approx(circles / 2, rel=2e-2)
    assert places(sight.hidden, 0.001)[:, 0].min() == pytest.approx(0.0, abs=1e-3)
    assert len(sight.hidden) == 2
    under = seen(ring, box(0.2, 0.2, 0.002, (0.1, 0.0, -0.05)), side=ABOVE)
    assert long(under.hidden) == pytest.approx(2 * 0.008, rel=0.1)  # the plate's edge under the wire on either side


def test_a_hole_in_a_plate_shows_its_rim() -> None:
    plate = without(box(0.1, 0.1, 0.01), solid(trimesh.creation.cylinder(0.02, 1.0, sections=96)))
    sight = seen(plate, side=ABOVE)
    assert sight.hidden == ()
    assert long(sight.visible) == pytest.approx(0.4 + 2 * math.pi * 0.02, rel=3e-3)


def test_a_bore_is_told_as_hidden_lines() -> None:
    pipe = solid(trimesh.creation.annulus(0.02, 0.03, 0.2, sections=64))
    sight = seen(pipe, side=FRONT)
    assert {round(abs(line[0][0] - line[-1][0]), 4) for line in sight.visible} == {0.0, 0.04, 0.06}
    upright = sorted(line[0][0] for line in sight.hidden)
    assert upright == pytest.approx([-0.02, 0.02], abs=0.02 * (1 - math.cos(math.pi / 64)) + 1e-6)
    assert long(sight.hidden) == pytest.approx(0.4, rel=0.02)


@pytest.mark.parametrize("toward", [(1.0, 0.3, 0.6), (1.0, 0.3, 2.0), (0.01, 1.0, 5.0)])
def test_a_hollow_shows_no_line_where_it_turns_away(toward: Vec) -> None:
    """A pipe slantwise: both rims on top, half of the outer one below, two outlines; its bore has none to be seen."""
    pipe = solid(trimesh.creation.annulus(0.02, 0.022, 0.2, sections=48))
    sight = seen(pipe, side=from_side(toward))
    look = unit(toward)
    t = np.linspace(0, 2 * math.pi, 20_001)
    girth = float(np.hypot(np.diff(np.cos(t)), np.diff(look[2] * np.sin(t))).sum())
    assert len(sight.visible) == 5
    exact = girth * (0.02 + 1.5 * 0.022) + 2 * 0.2 * math.hypot(look[0], look[1])
    assert long(sight.visible) == pytest.approx(exact, rel=6e-3)


@pytest.mark.parametrize("dots", [400, 1000, 2500])
def test_a_finer_picture_tells_the_same(dots: int) -> None:
    ring = solid(trimesh.creation.torus(0.04, 0.004, major_sections=96, minor_sections=24))
    rod = solid(trimesh.creation.cylinder(0.003, 0.2, sections=24), (0.04, 0.0, 0.02))
    sight = seen(ring, rod, side=from_side((1.0, -0.4, 0.9)), dots=dots)
    best = seen(ring, rod, side=from_side((1.0, -0.4, 0.9)), dots=4000)
    assert long(sight.visible) == pytest.approx(long(best.visible), rel=8 / dots)


def test_nothing_shows_nothing() -> None:
    assert seen_lines((), *FRONT) == Sight((), ())
