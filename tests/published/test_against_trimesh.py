"""Areas and volumes of surfaces against meshes made by trimesh from the solid's own points, with no pattern in between.

trimesh 5.2, a reference library; certainty: reckoned another way. A mesh of flat triangles lies inside a round
surface, so each check says by how much.
"""

import math
from itertools import pairwise

import numpy as np
import pytest
import trimesh
from numpy.typing import NDArray

from bickern.geometry import polygon
from bickern.geometry.develop import (
    Development,
    Rim,
    bowl,
    cap_sizes,
    cone,
    cylinder,
    oblique_cone,
    oval_rim,
    pyramid,
    rectangle_rim,
    rectangular_frustum,
    round_rim,
    square_to_round,
    transition,
)
from bickern.measure.units.words import Read

Array = NDArray[np.float64]


def got(read: Read[Development]) -> Development:
    assert read.value is not None, read.findings
    return read.value


def skin_of_hull(points: Array) -> float:
    """Area of a convex hull without the faces that lie in the planes of its two ends (z of each end constant)."""
    hull = trimesh.convex.convex_hull(points)
    ends = points[:, 2].min(), points[:, 2].max()
    z = hull.triangles[:, :, 2]
    caps = np.zeros(len(z), dtype=bool)
    for end in ends:
        caps |= (np.abs(z - end) < 1e-9).all(axis=1)
    return float(hull.area_faces[~caps].sum())


def ring(radius: float, height: float, centre: tuple[float, float] = (0.0, 0.0), n: int = 2000) -> Array:
    t = np.linspace(0, 2 * math.pi, n, endpoint=False)
    return np.stack([centre[0] + radius * np.cos(t), centre[1] + radius * np.sin(t), np.full(n, height)], axis=1)


@pytest.mark.parametrize(("r0", "r1", "h"), [(0.1, 0.02, 0.1), (0.03, 0.1, 0.2), (0.1, 0.0, 0.05)])
def test_cone(r0: float, r1: float, h: float) -> None:
    top = ring(r1, h) if r1 else np.array([[0.0, 0.0, h]])
    assert polygon.area(got(cone(r0, r1, h)).outline) == pytest.approx(
        skin_of_hull(np.vstack([ring(r0, 0), top])), rel=1e-5
    )


@pytest.mark.parametrize("cut", [0.0, 0.3, -0.3])
def test_cylinder_cut_at_an_angle(cut: float) -> None:
    r, h, n = 0.05, 0.2, 20_000
    t = np.linspace(0, 2 * math.pi, n, endpoint=False)
    heights = h - r * np.cos(t) * math.tan(cut)  # the upper end lies in this tilted plane
    slices = 2 * r * math.sin(math.pi / n) * (heights + np.roll(heights, -1)) / 2
    assert polygon.area(got(cylinder(r, h, cut)).outline) == pytest.approx(slices.sum(), rel=1e-6)


@pytest.mark.parametrize(
    ("r0", "r1", "h", "offset"),
    [
        (0.1, 0.05, 0.2, (0.06, 0.03)),
        (0.05, 0.1, 0.2, (-0.02, 0.08)),
        (0.1, 0.0, 0.1, (0.2, 0.0)),
        (0.1, 0.1, 0.2, (0.1, 0.0)),
    ],
)
def test_leaning_cone(r0: float, r1: float, h: float, offset: tuple[float, float]) -> None:
    top = ring(r1, h, offset) if r1 else np.array([[*offset, h]])
    skin = skin_of_hull(np.vstack([ring(r0, 0), top]))
    made = got(oblique_cone(r0, r1, h, offset, tolerance=1e-6))
    assert polygon.area(made.outline) == pytest.approx(skin, rel=2e-5)


@pytest.mark.parametrize("sides", [3, 4, 5, 8])
@pytest.mark.parametrize("offset", [(0.0, 0.0), (0.05, -0.02)])
def test_pyramid(sides: int, offset: tuple[float, float]) -> None:
    corner = 0.5 / math.cos(math.pi / sides)
    low = ring(0.2 * corner, 0.0, n=sides)
    high = ring(0.1 * corner, 0.15, n=sides)
    turn = trimesh.transformations.rotation_matrix(math.pi / sides, [0, 0, 1])
    points = trimesh.transform_points(np.vstack([low, high]), turn) + np.vstack(
        [np.zeros((sides, 3)), np.tile([*offset, 0.0], (sides, 1))]
    )
    assert polygon.area(got(pyramid(sides, 0.2, 0.1, 0.15, offset)).outline) == pytest.approx(
        skin_of_hull(points), rel=1e-9
    )


def box_ends(x0: float, y0: float, x1: float, y1: float, h: float, offset: tuple[float, float]) -> Array:
    def end(x: float, y: float, z: float, dx: float, dy: float) -> list[list[float]]:
        return [[dx + a * x / 2, dy + b * y / 2, z] for a, b in ((1, 1), (-1, 1), (-1, -1), (1, -1))]

    return np.array(end(x0, y0, 0, 0, 0) + end(x1, y1, h, *offset))


@pytest.mark.parametrize("offset", [(0.0, 0.0), (0.02, 0.01)])
def test_rectangular_frustum(offset: tuple[float, float]) -> None:
    skin = skin_of_hull(box_ends(0.2, 0.3, 0.15, 0.05, 0.2, offset))
    assert polygon.area(got(rectangular_frustum((0.2, 0.3), (0.15, 0.05), 0.2, offset)).outline) == pytest.approx(
        skin, rel=1e-9
    )


@pytest.mark.parametrize("offset", [(0.0, 0.0), (0.02, 0.01), (0.15, 0.0)])
def test_square_to_round_is_the_skin_stretched_over_both(offset: tuple[float, float]) -> None:
    corners = np.array([[a * 0.1, b * 0.15, 0.0] for a in (1, -1) for b in (1, -1)])
    skin = skin_of_hull(np.vstack([corners, ring(0.08, 0.2, offset)]))
    made = got(square_to_round(0.2, 0.3, 0.08, 0.2, offset))
    assert polygon.area(made.outline) == pytest.approx(skin, rel=2e-4)  # stray 0.05 mm on 0.1 m: 5e-4 at most


def hull_stray(low: Rim, high: Rim, fine_low: Rim, fine_high: Rim) -> float:
    """The greatest distance [m] of the pattern's facets' corners and middles from the hull of very fine rims."""
    from bickern.geometry.develop.transition import least_folding

    hull = trimesh.convex.convex_hull(np.array(fine_low.places + fine_high.places))
    spots = []
    steps = least_folding(low, high)
    for (i, j), (k, l) in pairwise(steps):
        third = low.places[k] if k > i else high.places[l]
        spots.append(np.mean([low.places[i], high.places[j], third], axis=0))
        spots.append(np.mean([low.places[i], high.places[j]], axis=0))
    triangles = hull.triangles
    worst = 0.0
    for p in spots:
        near = trimesh.triangles.closest_point(triangles, np.repeat(p[None], len(triangles), axis=0))
        worst = max(worst, float(np.linalg.norm(near - p, axis=1).min()))
    return worst


def tilted(tolerance: float) -> tuple[Rim, Rim]:
    return round_rim(0.1, tolerance=tolerance), round_rim(0.06, (0.02, 0.0, 0.2), 0.5, tolerance)


def oval_to_rectangle(tolerance: float) -> tuple[Rim, Rim]:
    return oval_rim(0.2, 0.1, tolerance=tolerance), rectangle_rim(0.1, 0.16, (0.0, 0.01, 0.15))


@pytest.mark.parametrize("ends", [tilted, oval_to_rectangle])
def test_a_transition_strays_no_more_than_it_says(ends: object) -> None:
    assert callable(ends)
    rough, fine = ends(2e-4), ends(5e-6)
    stray = hull_stray(*rough, *fine)
    said = got(transition(*rough)).stray
    assert 1e-5 < stray <= said + 5e-6
    assert said <= 2.1e-4


def test_the_cap_of_a_ball() -> None:
    rim, depth = 0.05, 0.03
    sizes = cap_sizes(rim, depth)
    ball = trimesh.creation.icosphere(subdivisions=6, radius=sizes.ball)
    cap = trimesh.intersections.slice_mesh_plane(ball, [0, 0, -1], [0, 0, depth - sizes.ball])
    assert cap.area == pytest.approx(sizes.area, rel=1e-3)
    assert polygon.area(got(bowl(rim, depth)).outline) == pytest.approx(sizes.area, rel=1e-12)
    hull = trimesh.convex.convex_hull(cap.vertices)
    assert hull.volume == pytest.approx(sizes.volume, rel=2e-3)
