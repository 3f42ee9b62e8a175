"""Gaps between solids: exact mathematics of boxes, balls and rings, and convex bodies against scipy's minimum."""

import math

import numpy as np
import pytest
import trimesh
from numpy.typing import NDArray
from scipy.optimize import linprog, minimize

from bickern.geometry.pose import Pose, put, turning
from bickern.geometry.solid.apart import clash, gap, ready
from bickern.geometry.solid.combine import NOTHING, gathered
from bickern.geometry.solid.solid import Solid, moved

Array = NDArray[np.float64]


def solid(mesh: trimesh.Trimesh) -> Solid:
    return Solid(np.array(mesh.vertices), np.array(mesh.faces, dtype=np.int32))


def box(x: float, y: float, z: float, at: tuple[float, float, float] = (0.0, 0.0, 0.0)) -> Solid:
    return solid(trimesh.creation.box((x, y, z)).apply_translation(at))


RING = ready(solid(trimesh.creation.torus(0.04, 0.006, major_sections=96, minor_sections=32)))
CUBE = box(1, 1, 1)


def test_faces_that_look_at_each_other() -> None:
    found = gap(CUBE, box(1, 1, 1, (1.25, 0.3, -0.2)))
    assert found.distance == pytest.approx(0.25, abs=1e-12)
    assert found.on_a[0] == pytest.approx(0.5)
    assert found.on_b[0] == pytest.approx(0.75)
    assert math.dist(found.on_a, found.on_b) == pytest.approx(0.25)


def test_edge_across_edge() -> None:
    """Two square bars on their edges, crossed: half a diagonal each from line to line."""
    first = moved(box(2, 0.1, 0.1), turning((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), math.pi / 4))
    second = moved(box(0.1, 2, 0.1, (0, 0, 0)), turning((0.0, 0.0, 0.0), (0.0, 1.0, 0.0), math.pi / 4))
    found = gap(first, second, pose=Pose((0.3, 0.2, 0.5)))
    assert found.distance == pytest.approx(0.5 - 0.1 * math.sqrt(2), abs=1e-12)
    assert found.on_a == pytest.approx((0.3, 0.0, 0.05 * math.sqrt(2)), abs=1e-9)


def test_corner_to_corner_and_corner_to_face() -> None:
    assert gap(CUBE, box(1, 1, 1, (2, 2, 2))).distance == pytest.approx(math.sqrt(3))
    tip = solid(trimesh.convex.convex_hull(np.array([(0, 0, 0.7), (1, 1, 2), (-1, 1, 2), (0, -1, 2.0)])))
    found = gap(CUBE, tip)
    assert found.distance == pytest.approx(0.2)
    assert found.on_b == pytest.approx((0, 0, 0.7))


def test_two_balls_stay_within_the_sag_of_their_facets() -> None:
    ball = solid(trimesh.creation.icosphere(subdivisions=4, radius=0.01))
    sag = 0.01 * (1 - math.cos(0.5 * 1.1 / 2**4))  # an icosahedron's edge spans 1.107 rad, halved four times
    found = gap(ball, ball, pose=Pose((0.021, 0.005, -0.004)))
    exact = math.dist((0, 0, 0), (0.021, 0.005, -0.004)) - 0.02
    assert exact - 1e-12 <= found.distance <= exact + 3 * sag


@pytest.mark.parametrize("turn", [0.0, 0.2, 0.5])
def test_link_in_link(turn: float) -> None:
    """Two rings hung in each other: the second swings on the first, the wires always one clearance apart."""
    free, wire, middle = 0.003, 0.006, 0.04
    # the second ring stands in the plane of x and z, its lowest wire inside the first ring's right-hand side
    up = turning((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), math.pi / 2)
    swung = turning((middle, 0.0, 0.0), (0.0, 1.0, 0.0), turn)
    at = (2 * middle - 2 * wire - free, 0.0, 0.0)
    pose = Pose(put(swung, at), swung.x, swung.y)
    second = ready(moved(solid(trimesh.creation.torus(0.04, 0.006, major_sections=96, minor_sections=32)), up))
    found = gap(RING, second, 0.02, pose)
    # a chord lies inside the wire, but on the hollow side of a ring nearer to its middle
    sag = 2 * (0.006 * (1 - math.cos(math.pi / 32)) + 0.046 * (1 - math.cos(math.pi / 96)))
    assert found.distance == pytest.approx(free, abs=sag)
    assert not clash(RING, second, pose)


def test_what_overlaps_has_no_gap_and_clashes() -> None:
    for other in (box(1, 1, 1, (0.9, 0, 0)), box(0.1, 0.1, 5), box(0.1, 0.1, 0.1), box(3, 3, 3)):
        found = gap(CUBE, other)
        assert found.distance == 0.0
        assert found.on_a == found.on_b
        assert all(abs(x) <= 1.5 for x in found.on_a)
        assert clash(CUBE, other)
    assert not clash(CUBE, box(1, 1, 1, (1.001, 0, 0)))


def test_farther_than_asked() -> None:
    found = gap(CUBE, box(1, 1, 1, (2, 0, 0)), within=0.9)
    assert math.isinf(found.distance)
    assert all(math.isnan(x) for x in (*found.on_a, *found.on_b))
    assert gap(CUBE, box(1, 1, 1, (2, 0, 0)), within=1.1).distance == pytest.approx(1.0)


def test_no_metal_is_no_distance_away() -> None:
    with pytest.raises(ValueError, match="no metal"):
        gap(CUBE, NOTHING)


def least_of_hulls(a: Array, b: Array) -> float:
    """The least distance of two convex hulls of corners by scipy: shares of corners, each making up one."""
    meet = linprog(
        np.zeros(len(a) + len(b)),
        A_eq=np.vstack([np.hstack([a.T, -b.T]), np.repeat([1.0, 0.0], [len(a), len(b)]),
                        np.repeat([0.0, 1.0], [len(a), len(b)])]),
        b_eq=[0, 0, 0, 1, 1],
    )  # fmt: skip
    if meet.success:
        return 0.0
    best = minimize(
        lambda s: float(np.square(s[: len(a)] @ a - s[len(a) :] @ b).sum()),
        np.concatenate([np.full(len(a), 1 / len(a)), np.full(len(b), 1 / len(b))]),
        bounds=[(0, 1)] * (len(a) + len(b)),
        constraints=[
            {"type": "eq", "fun": lambda s: s[: len(a)].sum() - 1},
            {"type": "eq", "fun": lambda s: s[len(a) :].sum() - 1},
        ],
        method="SLSQP",
        options={"ftol": 1e-14, "maxiter": 500},
    )
    return math.sqrt(best.fun)


@pytest.mark.parametrize("seed", range(12))
def test_convex_bodies_against_a_minimum_found_another_way(seed: int) -> None:
    random = np.random.default_rng(seed)
    a, b = random.normal(size=(9, 3)), random.normal(size=(9, 3)) * (4, 0.3, 0.3)
    pose = turning((0.0, 0.0, 0.0), (0.0, 0.6, 0.8), float(random.uniform(0, 6)))
    pose = Pose(tuple(random.normal(size=3) * 2.5), pose.x, pose.y)
    first, second = (solid(trimesh.convex.convex_hull(points)) for points in (a, b))
    exact = least_of_hulls(a, np.array([put(pose, (float(x), float(y), float(z))) for x, y, z in b]))
    assert gap(first, second, pose=pose).distance == pytest.approx(exact, abs=2e-5)
    assert clash(first, second, pose) == (exact == 0.0)


@pytest.mark.parametrize("seed", range(6))
def test_the_nearest_of_many_bodies(seed: int) -> None:
    """Of thirty small bodies round a bar the nearest counts, however alike the others: each by scipy's minimum."""
    random = np.random.default_rng(seed)
    bar = np.array([(x, y, z) for x in (-1.0, 1.0) for y in (-0.05, 0.05) for z in (-0.05, 0.05)])
    bodies = []
    for _ in range(30):
        turn, at = random.uniform(0, 2 * math.pi), random.uniform(-1, 1)
        middle = (at, (0.4 + random.uniform(0, 0.01)) * math.cos(turn), 0.4 * math.sin(turn))
        bodies.append(random.normal(size=(6, 3)) * 0.05 + middle)
    many = gathered(*(solid(trimesh.convex.convex_hull(points)) for points in bodies))
    exact = min(least_of_hulls(points, bar) for points in bodies)
    found = gap(many, solid(trimesh.convex.convex_hull(bar)))
    assert found.distance == pytest.approx(exact, abs=2e-5)
    assert math.dist(found.on_a, found.on_b) == pytest.approx(found.distance, abs=1e-9)


def test_either_way_round_and_wherever_it_is_drawn() -> None:
    random = np.random.default_rng(3)
    rod = ready(solid(trimesh.creation.cylinder(0.006, 0.5, sections=32)))
    for _ in range(8):
        axis = random.normal(size=3)
        axis /= np.linalg.norm(axis)
        turn = turning((0.0, 0.0, 0.0), tuple(axis), float(random.uniform(0, 3)))
        pose = Pose(tuple(random.normal(size=3) * 0.02), turn.x, turn.y)
        found = gap(RING, rod, pose=pose)
        apart = gap(moved(solid(trimesh.creation.cylinder(0.006, 0.5, sections=32)), pose), RING)
        assert found.distance == pytest.approx(apart.distance, abs=3e-7)
        assert math.dist(found.on_a, found.on_b) == pytest.approx(found.distance, abs=1e-9)
