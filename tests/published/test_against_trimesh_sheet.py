"""Against trimesh, the general library of meshes, 5.2: skins of sheet and what they hold.

Kind: reference library. Solids are made of their corners and rims as convex hulls or solids of revolution; volume, area
and lengths of edges are read off the mesh. Reckoned another way.
"""

import math

import numpy as np
import pytest
import trimesh
from numpy.typing import NDArray

from bickern.parts.sheet.allowances import SheetRules
from bickern.parts.sheet.reckon import net_area, reckon_sheet
from bickern.parts.sheet.result import SheetResult
from bickern.parts.sheet.solid import Across, across_flats, ends_area, height_under, volume
from bickern.parts.sheet.spec import (
    Bowl,
    Cone,
    Cylinder,
    Pan,
    Pyramid,
    Rim,
    RimShape,
    SheetSpec,
    Sized,
    Surface,
    Transition,
)

THICK = 0.003
Array = NDArray[np.float64]


def reckoned(surface: Surface, sized: Sized = Sized.MEAN, parts: int = 1, thick: float = THICK) -> SheetResult:
    read = reckon_sheet(SheetSpec("piece", thick, "S235JR", surface, sized, parts=parts), SheetRules(), 7850.0)
    assert read.value is not None, read.findings
    return read.value


def figure(result: SheetResult, name: str) -> float:
    return next(f.value for f in result.figures if f.name == name)


def hull(points: Array) -> trimesh.Trimesh:
    return trimesh.convex.convex_hull(points)


def polygon(sides: int, across: float, height: float) -> Array:
    """Corners of a regular polygon: flats so far apart, each twice as far from the middle as half of that."""
    turn = (np.arange(sides) + 0.5) * 2 * math.pi / sides
    at = np.stack([np.cos(turn), np.sin(turn)], axis=1)
    near = np.linalg.norm((at[0] + at[1]) / 2)  # from the middle to a flat, of corners one metre out
    return np.column_stack([at * across / 2 / near, np.full(sides, height)])


def oblong(wide: float, long: float, height: float) -> Array:
    return np.array([[a * wide / 2, b * long / 2, height] for a, b in ((1, -1), (1, 1), (-1, 1), (-1, -1))])


def walls(low: Array, high: Array, thick: float, inner: float, outer: float) -> float:
    """Metal [m3] in flat walls between two rims of corners: each a hull of its faces, so far in and so far out.

    `inner`, `outer`: shares of the thickness inside and outside the told faces. Edges are cut square to each wall, so
    a face moves along the wall's own normal and its corners stay in the planes halfway between neighbours.
    """
    count = len(low)
    normals = []
    for k in range(count):
        a, b, c = low[k], low[(k + 1) % count], high[k]
        n = np.cross(b - a, c - a)
        normals.append(n / np.linalg.norm(n))

    def moved(rim: Array, off: float) -> Array:
        found = []
        for k in range(count):
            pair = np.array([normals[k - 1], normals[k]])
            rise = off * normals[k][2]
            level = np.linalg.solve(pair[:, :2], np.array([off, off]) - pair[:, 2] * rise)
            found.append(rim[k] + np.array([*level, rise]))
        return np.array(found)

    faces = [(moved(low, off * thick), moved(high, off * thick)) for off in (-inner, outer)]
    total = 0.0
    for k in range(count):
        j = (k + 1) % count
        total += hull(np.array([p[i] for face in faces for p in face for i in (k, j)])).volume
    return total


SIDES = {Sized.INSIDE: (0.0, 1.0), Sized.OUTSIDE: (1.0, 0.0), Sized.MEAN: (0.5, 0.5)}


@pytest.mark.parametrize("sized", list(Sized))
@pytest.mark.parametrize(
    ("sides", "base", "top", "height"), [(4, 0.2, 0.1, 0.15), (6, 0.1, 0.06, 0.02), (3, 0.2, 0.1, 0.1)]
)
def test_a_thick_pyramid_holds_the_metal_of_its_pattern(
    sides: int, base: float, top: float, height: float, sized: Sized
) -> None:
    made = reckoned(Pyramid(sides, base, top, height), sized)
    metal = walls(polygon(sides, base, 0.0), polygon(sides, top, height), THICK, *SIDES[sized])
    assert made.mass / 7850.0 == pytest.approx(metal, rel=1e-9)


@pytest.mark.parametrize("sized", list(Sized))
def test_a_thick_oblong_frustum_and_a_transition_alike(sized: Sized) -> None:
    low, high = (0.2, 0.3), (0.1, 0.2)
    metal = walls(oblong(*low, 0.0), oblong(*high, 0.1), THICK, *SIDES[sized])
    frustum = Pyramid(4, low[0], high[0], 0.1, low[1], high[1])
    assert reckoned(frustum, sized).mass / 7850.0 == pytest.approx(metal, rel=1e-9)
    rims = (Rim(RimShape.RECTANGLE, *low), Rim(RimShape.RECTANGLE, *high, (0.0, 0.0, 0.1)))
    assert reckoned(Transition(*rims), sized).mass / 7850.0 == pytest.approx(metal, rel=1e-9)


def test_edges_of_a_pyramid_are_those_of_its_corners() -> None:
    for sides in (3, 4, 6):
        low, high = polygon(sides, 0.2, 0.0), polygon(sides, 0.08, 0.15)
        made = reckoned(Pyramid(sides, 0.2, 0.08, 0.15))
        assert figure(made, "length of a corner") == pytest.approx(np.linalg.norm(low[0] - high[0]), rel=1e-9)
        assert figure(made, "side at the base") == pytest.approx(np.linalg.norm(low[0] - low[1]), rel=1e-9)
        middle = np.linalg.norm((low[0] + low[1] - high[0] - high[1]) / 2)
        assert figure(made, "slant in the middle of a side") == pytest.approx(middle, rel=1e-9)
        skin = hull(np.vstack([low, high]))
        assert net_area(made) == pytest.approx(skin.area - area_of(low) - area_of(high), rel=1e-9)


def area_of(rim: Array) -> float:
    return float(hull(np.vstack([rim, np.add(rim, [0.0, 0.0, 1.0])])).volume)


@pytest.mark.parametrize("top_long", [0.12, None])
def test_edges_of_an_oblong_frustum(top_long: float | None) -> None:
    low, high = oblong(0.2, 0.3, 0.0), oblong(0.08, 0.12 if top_long else 0.08, 0.15)
    made = reckoned(Pyramid(4, 0.2, 0.08, 0.15, 0.3, top_long))
    assert figure(made, "length of a corner") == pytest.approx(np.linalg.norm(low[0] - high[0]), rel=1e-9)
    side = np.linalg.norm((low[0] + low[1] - high[0] - high[1]) / 2)
    end = np.linalg.norm((low[1] + low[2] - high[1] - high[2]) / 2)
    assert figure(made, "slant in the middle of a side") == pytest.approx(side, rel=1e-9)
    assert figure(made, "slant in the middle of an end") == pytest.approx(end, rel=1e-9)


SOLIDS = [
    (Pyramid(5, 0.2, 0.08, 0.15), polygon(5, 0.2, 0.0), polygon(5, 0.08, 0.15)),
    (Pyramid(3, 0.1, 0.0, 0.2), polygon(3, 0.1, 0.0), polygon(3, 1e-6, 0.2)),
    (Pyramid(4, 0.2, 0.08, 0.15, 0.3, 0.05), oblong(0.2, 0.3, 0.0), oblong(0.08, 0.05, 0.15)),
    (Cone(0.2, 0.08, 0.15), polygon(500, 0.2, 0.0), polygon(500, 0.08, 0.15)),
    (Cylinder(0.2, 0.15), polygon(500, 0.2, 0.0), polygon(500, 0.2, 0.15)),
]


@pytest.mark.parametrize(("solid", "low", "high"), SOLIDS)
def test_volume_and_ends_of_a_solid(solid: Cone | Cylinder | Pyramid, low: Array, high: Array) -> None:
    assert volume(solid) == pytest.approx(hull(np.vstack([low, high])).volume, rel=4e-5)
    assert ends_area(solid) == pytest.approx(area_of(low) + area_of(high), rel=4e-5)


@pytest.mark.parametrize("cut", [0.3, -0.6])
def test_a_pipe_cut_at_an_angle(cut: float) -> None:
    """Sliced from a longer one; standing level it holds what a pipe as high as its short side does."""
    across, height, thick = 0.2, 0.3, 0.002
    pipe = Cylinder(across, height, cut)
    ring = polygon(500, across, 0.0)
    high = ring.copy()
    high[:, 2] = height + ring[:, 0] * math.tan(cut)
    whole = hull(np.vstack([ring, high]))
    assert volume(pipe) == pytest.approx(whole.volume, rel=4e-5)
    normal = np.array([-math.sin(cut), 0.0, math.cos(cut)])
    flat = whole.area_faces[(whole.face_normals @ normal) > 1 - 1e-9].sum()
    assert ends_area(pipe) == pytest.approx(flat + area_of(ring), rel=4e-5)
    made = reckoned(pipe, thick=thick)
    assert figure(made, "height at the short side") == pytest.approx(high[:, 2].min(), rel=2e-5)
    assert figure(made, "height at the long side") == pytest.approx(high[:, 2].max(), rel=2e-5)
    water = hull(np.vstack([polygon(500, across - thick, z) for z in (0.0, high[:, 2].min())]))
    assert figure(made, "holds, level full") == pytest.approx(water.volume, rel=4e-5)


@pytest.mark.parametrize("sides", [3, 4, 7])
def test_flats_from_corners_and_from_sides(sides: int) -> None:
    corners = polygon(sides, 0.2, 0.0)
    across, side = 2 * np.linalg.norm(corners[0]), np.linalg.norm(corners[0] - corners[1])
    assert across_flats(sides, across, Across.CORNERS) == pytest.approx(0.2, rel=1e-12)
    assert across_flats(sides, side, Across.SIDES) == pytest.approx(0.2, rel=1e-12)
    assert across_flats(sides, 0.2, Across.FLATS) == pytest.approx(0.2, rel=1e-12)


def test_height_under_a_slant() -> None:
    wall = hull(np.array([[0.0, 0.0, 0.0], [0.3, 0.0, 0.0], [0.3, 0.0, 0.4], [0.3, 0.01, 0.0]]))
    slant = np.linalg.norm(wall.vertices, axis=1).max()
    assert height_under(slant, 0.3) == pytest.approx(wall.extents[2], rel=1e-12)


@pytest.mark.parametrize("parts", [2, 3, 4])
def test_parts_of_a_cone_are_made_so_often(parts: int) -> None:
    made = reckoned(Cone(0.3, 0.12, 0.2), parts=parts)
    skin = hull(np.vstack([polygon(500, 0.3, 0.0), polygon(500, 0.12, 0.2)]))
    whole = skin.area - area_of(polygon(500, 0.3, 0.0)) - area_of(polygon(500, 0.12, 0.2))
    assert sum(p.make for p in made.patterns) == parts
    assert made.mass == pytest.approx(whole * THICK * 7850.0, rel=4e-5)


def test_the_disc_of_a_bowl_has_the_area_of_its_cap() -> None:
    made = reckoned(Bowl(0.2, 0.05))
    turn = np.linspace(0.0, math.acos(0.075 / 0.125), 300)
    arc = np.stack([0.125 * np.sin(turn), 0.125 - 0.125 * np.cos(turn)], axis=1)
    cap = trimesh.creation.revolve(1000 * arc, sections=300).area / 1e6
    disc = polygon(500, figure(made, "disc"), 0.0)
    assert area_of(disc) == pytest.approx(cap, rel=2e-4)


def test_a_pan_holds_a_box() -> None:
    made = reckoned(Pan(0.3, 0.2, 0.05), Sized.OUTSIDE, thick=0.002)
    inside = trimesh.creation.box(bounds=[[0.002, 0.002, 0.002], [0.198, 0.298, 0.05]])
    assert figure(made, "holds, level full (corners sharp)") == pytest.approx(inside.volume, rel=1e-9)
