"""Against trimesh 5.2, a general library of meshes.

Kind: reference library. Areas and volumes of surfaces against meshes made from the solid's own points, with no pattern
in between: reckoned another way. A mesh of flat triangles lies inside a round surface, so each check says by how much.
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
from bickern.parts.sheet.allowances import SheetRules
from bickern.parts.sheet.reckon import reckon_sheet
from bickern.parts.sheet.spec import Bowl, Cone, Cylinder, SheetSpec, Sized

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


@pytest.mark.parametrize("sized", list(Sized))
@pytest.mark.parametrize(("base", "top", "height"), [(0.2, 0.05, 0.1), (0.1, 0.09, 0.3), (0.3, 0.1, 0.02)])
def test_a_thick_cone_holds_the_metal_of_its_pattern(base: float, top: float, height: float, sized: Sized) -> None:
    """The wall as a solid of revolution, its edges cut square, from the sizes told: no pattern, no middle line.

    Metal neither comes nor goes, so pattern times thickness is the solid's volume; the mesh has 4000 facets round.
    """
    thick = 0.003
    run, slant = (base - top) / 2, math.hypot((base - top) / 2, height)
    out = np.array([height / slant, run / slant])  # square to the wall, outward and upward
    low, high = np.array([base / 2, 0.0]), np.array([top / 2, height])
    near, far = {Sized.INSIDE: (0.0, thick), Sized.OUTSIDE: (-thick, 0.0), Sized.MEAN: (-thick / 2, thick / 2)}[sized]
    wall = np.array([low + near * out, low + far * out, high + far * out, high + near * out, low + near * out])
    solid = trimesh.creation.revolve(wall, sections=4000)
    made = reckon_sheet(SheetSpec("cone", thick, "S235JR", Cone(base, top, height), sized), SheetRules(), 7850.0).value
    assert made is not None
    assert made.mass / 7850.0 == pytest.approx(abs(solid.volume), rel=1e-5)


@pytest.mark.parametrize("sized", list(Sized))
def test_a_thick_pipe_holds_the_metal_of_its_pattern(sized: Sized) -> None:
    thick, across = 0.002, 0.06
    inside = across / 2 + {Sized.INSIDE: 0.0, Sized.OUTSIDE: -thick, Sized.MEAN: -thick / 2}[sized]
    solid = trimesh.creation.annulus(r_min=inside, r_max=inside + thick, height=0.1, sections=4000)
    spec = SheetSpec("pipe", thick, "S235JR", Cylinder(across, 0.1), sized)
    made = reckon_sheet(spec, SheetRules(), 7850.0).value
    assert made is not None
    assert made.mass / 7850.0 == pytest.approx(solid.volume, rel=1e-5)


@pytest.mark.parametrize("sized", list(Sized))
def test_what_a_thick_bowl_holds_and_weighs(sized: Sized) -> None:
    """The shell between two balls, cut by a cone from their common middle: edges square to the wall."""
    thick, rim, depth = 0.002, 0.12, 0.04
    ball = (rim**2 / 4 + depth**2) / (2 * depth)
    opening = math.acos(1 - depth / ball)
    inside = ball + {Sized.INSIDE: 0.0, Sized.OUTSIDE: -thick, Sized.MEAN: -thick / 2}[sized]
    turn = np.linspace(0.0, opening, 200)
    arcs = [[(r * math.sin(t), -r * math.cos(t)) for t in turn] for r in (inside, inside + thick)]
    inner, outer = (trimesh.creation.revolve(np.array([*arc, (0.0, 0.0)]), sections=600) for arc in arcs)
    level = np.array([*arcs[0], (0.0, -inside * math.cos(opening))])
    water = trimesh.creation.revolve(level, sections=600)
    made = reckon_sheet(SheetSpec("bowl", thick, "S235JR", Bowl(rim, depth), sized), SheetRules(), 7850.0).value
    assert made is not None
    # equal area of the middle: a curved shell has a twelfth of (thickness over radius) squared more, 1e-4 here
    assert made.mass / 7850.0 == pytest.approx(abs(outer.volume) - abs(inner.volume), rel=4e-4)
    holds = next(f.value for f in made.figures if f.name == "holds, level full")
    assert holds == pytest.approx(abs(water.volume), rel=1e-4)


def test_what_a_frustum_holds() -> None:
    """Level full to the told sizes' rim: the hull of two circles of the inside."""
    spec = SheetSpec("bucket", 0.001, "S235JR", Cone(0.3, 0.2, 0.25), Sized.INSIDE)
    made = reckon_sheet(spec, SheetRules(), 7850.0).value
    assert made is not None
    hull = trimesh.convex.convex_hull(np.vstack([ring(0.15, 0.0), ring(0.1, 0.25)]))
    assert next(f.value for f in made.figures if f.name == "holds, level full") == pytest.approx(hull.volume, rel=1e-5)
