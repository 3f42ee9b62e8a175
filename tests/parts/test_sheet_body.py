"""Solids of sheet pieces against shells made another way, and named places against the solids that they lie on.

Pappus: a shell turned about an axis holds its section times the way of the section's middle. Exact mathematics; trimesh
makes its shells by turning a profile, not from a pattern.
"""

from dataclasses import replace
from math import cos, hypot, pi, sin

import numpy as np
import pytest
import trimesh

from bickern.geometry.develop.rolling import DishRoll, rolled
from bickern.geometry.develop.thick import rolled_thick
from bickern.geometry.solid.solid import Fineness, Solid
from bickern.geometry.solid.weigh import bounds, centre, inertia, is_closed, volume
from bickern.measure.units.words import INCH
from bickern.parts.sheet.allowances import SheetRules
from bickern.parts.sheet.body.body import sheet_body
from bickern.parts.sheet.body.patches import turned
from bickern.parts.sheet.body.profile import eye_middle, eye_profile, flat_length, ramp, standing_at
from bickern.parts.sheet.lay import laid
from bickern.parts.sheet.places import hole_places, lug_places, rim_of, seam_of, wall_places
from bickern.parts.sheet.reckon import reckon_sheet
from bickern.parts.sheet.result import SheetResult
from bickern.parts.sheet.spec import (
    Bowl,
    Cone,
    Cylinder,
    Edge,
    EdgeKind,
    Lug,
    Pan,
    Pyramid,
    Rim,
    RimShape,
    Seam,
    SeamKind,
    SheetHole,
    SheetSpec,
    Sized,
    Surface,
    Transition,
)

RULES = SheetRules()
GA20, GA18, GA16 = 0.0359 * INCH, 0.0478 * INCH, 0.0598 * INCH
HOOD = SheetSpec(
    "hood",
    GA20,
    "S235JR",
    Cone(8 * INCH, 1.5 * INCH, 4 * INCH),
    seam=Seam(SeamKind.RIVETED, INCH / 2, INCH / 8, INCH),
    lugs=(Lug("top", 2, 0.3125 * INCH, INCH / 4, name="lugs"),),
    holes=(SheetHole(INCH / 8, 2.375 * INCH, 4, name="post holes"),),
)
TRAY = SheetSpec(
    "tray", GA18, "S235JR", Pan(5 * INCH, 5 * INCH, INCH / 2, inside_radius=INCH / 16), sized=Sized.OUTSIDE
)
PAN = replace(
    TRAY,
    surface=Pan(7.5 * INCH, 5 * INCH, INCH, ("left", "right", "back"), INCH / 16),
    lugs=(Lug("back", 1, 0.4 * INCH, INCH / 4, name="ear"),),
    holes=(SheetHole(INCH / 8, INCH / 2, 2, name="screws"),),
)
BOWL = SheetSpec(
    "bowl",
    GA16,
    "S235JR",
    Bowl(4 * INCH, 1.25 * INCH),
    lugs=(Lug("rim", 2, 0.3 * INCH, INCH / 4),),
    holes=(SheetHole(INCH / 4, INCH, 3),),
)


def made(spec: SheetSpec) -> SheetResult:
    read = reckon_sheet(spec, RULES, 7850.0)
    assert read.value is not None, read.findings
    return read.value


def body(surface: Surface, thick: float, fineness: Fineness = Fineness.FINE) -> Solid:
    return sheet_body(made(SheetSpec("piece", thick, "S235JR", surface)), RULES, fineness)


def as_trimesh(solid: Solid) -> trimesh.Trimesh:
    return trimesh.Trimesh(solid.points, solid.faces, process=False)


# ---- shells made another way


def cone_shell(cone: Cone, thick: float) -> trimesh.Trimesh:
    """A shell of edges cut square to the wall, turned in 720 steps; in millimetres, for trimesh drops small facets."""
    a, b = cone.base / 2, cone.top / 2
    slant = hypot(a - b, cone.height)
    out = np.array((cone.height / slant, (a - b) / slant)) * thick / 2
    low, high = np.array((a, 0.0)), np.array((b, cone.height))
    profile = np.array((low - out, low + out, high + out, high - out, low - out))
    return trimesh.creation.revolve(1000 * profile, sections=720)


@pytest.mark.parametrize("height", [2.0, 4.0, 9.0])
def test_a_cone_shell_against_one_that_is_turned(height: float) -> None:
    cone, thick = Cone(8 * INCH, 1.5 * INCH, height * INCH), GA16
    ours, theirs = body(cone, thick), cone_shell(cone, thick)
    assert volume(ours) == pytest.approx(theirs.volume * 1e-9, rel=2e-4)
    assert centre(ours) == pytest.approx(tuple(theirs.center_mass * 1e-3), abs=5e-6)
    assert np.allclose(
        inertia(ours), theirs.moment_inertia * 1e-15, rtol=5e-4, atol=1e-5 * theirs.moment_inertia.max() * 1e-15
    )


def test_a_cone_shell_by_pappus() -> None:
    """Section slant x thickness, its middle (a + b)/2 from the axis."""
    cone, thick = Cone(8 * INCH, 1.5 * INCH, 4 * INCH), GA20
    slant = hypot(3.25, 4.0) * INCH
    assert volume(body(cone, thick)) == pytest.approx(slant * thick * 2 * pi * (8 + 1.5) / 4 * INCH, rel=2e-4)
    # the middle of a frustum's skin lies h (a + 2 b)/3 (a + b) up
    assert centre(body(cone, thick))[2] / INCH == pytest.approx(4 * (4 + 2 * 0.75) / (3 * (4 + 0.75)), rel=1e-3)


def test_a_cylinder_and_a_ball_shell_in_closed_form() -> None:
    pipe = body(Cylinder(4 * INCH, 6 * INCH), 2e-3)
    outer, inner = 2 * INCH + 1e-3, 2 * INCH - 1e-3
    assert volume(pipe) == pytest.approx(pi * (outer**2 - inner**2) * 6 * INCH, rel=2e-4)
    assert inertia(pipe)[2, 2] == pytest.approx(pi / 2 * (outer**4 - inner**4) * 6 * INCH, rel=5e-4)
    half = body(Bowl(6 * INCH, 3 * INCH), 2e-3)
    outer, inner = 3 * INCH + 1e-3, 3 * INCH - 1e-3
    assert volume(half) == pytest.approx(2 / 3 * pi * (outer**3 - inner**3), rel=5e-4)
    # the middle of half a ball's skin lies half its radius up
    assert centre(half)[2] / INCH == pytest.approx(1.5, rel=1e-3)


def test_trimesh_calls_them_closed_too() -> None:
    for spec in (HOOD, TRAY, PAN, BOWL):
        mesh = as_trimesh(sheet_body(made(spec), RULES))
        assert mesh.is_watertight
        assert mesh.is_winding_consistent
        assert mesh.volume > 0.0


def test_a_pan_has_its_outside_sizes() -> None:
    low, high = bounds(sheet_body(made(TRAY), RULES))
    assert [(b - a) / INCH for a, b in zip(low, high, strict=True)] == pytest.approx([5.0, 5.0, 0.5], abs=5e-4)
    assert low[2] == pytest.approx(-GA18 / 2, abs=1e-9)


def test_a_lap_stands_one_thickness_out_and_a_groove_four_layers() -> None:
    pipe = SheetSpec("pipe", 1e-3, "S235JR", Cylinder(4 * INCH, 6 * INCH))
    for seam, layers in (
        (Seam(SeamKind.BUTT), 0),
        (Seam(SeamKind.LAP, INCH / 2), 1),
        (Seam(SeamKind.GROOVED, INCH / 4), 3),
    ):
        places = sheet_body(made(replace(pipe, seam=seam)), RULES, Fineness.FINE).points
        far = np.hypot(places[:, 0], places[:, 1]).max()
        assert far == pytest.approx(2 * INCH + 0.5e-3 + layers * 1e-3, abs=6e-5)


@pytest.mark.parametrize("kind", [EdgeKind.HEM, EdgeKind.DOUBLE_HEM])
def test_a_hem_lies_on_the_sheet(kind: EdgeKind) -> None:
    """One layer or two, turned to the inside of a pipe; the rim stands past its own line by half the fold's width."""
    pipe = SheetSpec("pipe", 1e-3, "S235JR", Cylinder(4 * INCH, 6 * INCH), edges=(Edge("top", kind, INCH / 4),))
    places = sheet_body(made(pipe), RULES, Fineness.FINE).points
    layers = 1 if kind is EdgeKind.HEM else 2
    assert np.hypot(places[:, 0], places[:, 1]).min() == pytest.approx(2 * INCH - 0.5e-3 - layers * 1e-3, abs=6e-5)
    assert places[:, 2].max() == pytest.approx(6 * INCH + (layers + 1) / 2 * 1e-3, abs=1e-4)


# ---- an eye


@pytest.mark.parametrize(("eye", "thick"), [(6.35e-3, 0.9e-3), (12e-3, 1.5e-3), (4e-3, 1.2e-3)])
def test_an_eye_takes_its_flat_length_and_keeps_its_told_size(eye: float, thick: float) -> None:
    profile = eye_profile(eye, thick, 0.0)
    assert flat_length(profile) == pytest.approx(pi * (eye + thick), rel=1e-12)
    assert sum(turn.length for turn in profile) == pytest.approx(pi * (eye + thick), rel=1e-12)
    forward, up, across = eye_middle(eye, thick, 0.0)
    assert across == pytest.approx(eye, rel=0.03)
    for share in np.linspace(0.4, 1.0, 7):  # round the eye the middle of the sheet keeps its distance
        place = standing_at(profile, share * flat_length(profile))
        assert hypot(place.forward - forward, place.up - up) == pytest.approx((across + thick) / 2, rel=1e-9)


def test_many_places_on_a_profile_are_the_same_as_one_by_one() -> None:
    for profile in (eye_profile(6e-3, 1e-3, 2e-3), ramp(1e-3, 4e-3), ()):
        along = np.linspace(-2e-3, 3e-2, 40)
        forward, up, heading = turned(profile, along)
        for k, s in enumerate(along):
            place = standing_at(profile, s)
            assert (forward[k], up[k], heading[k]) == pytest.approx((place.forward, place.up, place.heading), abs=1e-12)


# ---- many points rolled up at once


@pytest.mark.parametrize(
    "surface",
    [
        Cone(0.2, 0.04, 0.1),
        Cone(0.2, 0.1, 0.15, (0.05, 0.02)),
        Cone(0.2, 0.2 - 1e-13, 0.15, (0.05, 0.02)),
        Cylinder(0.1, 0.2, 0.3),
        Pyramid(5, 0.2, 0.1, 0.2),
        Transition(Rim(RimShape.RECTANGLE, 0.2, 0.2), Rim(RimShape.CIRCLE, 0.1, 0.1, (0.0, 0.0, 0.15))),
    ],
)
def test_rolled_at_once_as_one_by_one(surface: Surface) -> None:
    development = laid(surface).value
    assert development is not None
    corners = [p for edge in development.edges for s in edge.segs for p in (getattr(s, "start", None),) if p]
    low, high = development.seams[0].first, development.seams[0].last
    flat = [
        *corners,
        *((a * low.start[0] + (1 - a) * high.end[0], 0.9 * low.start[1] + 0.1 * high.end[1]) for a in (0.3, 0.7)),
    ]
    flat = [p for p in flat if p]
    many = rolled_thick(development.roll, np.array(flat), np.zeros(len(flat)))
    assert np.allclose(many, rolled(development.roll, flat), atol=1e-9)
    lifted = rolled_thick(development.roll, np.array(flat), np.full(len(flat), 1e-3))
    assert np.linalg.norm(lifted - many, axis=1).min() > 0.99e-3


def test_a_dish_at_once_as_one_by_one() -> None:
    roll, flat = DishRoll(0.1), [(0.02 * k * cos(k), 0.02 * k * sin(k)) for k in range(6)]
    assert np.allclose(rolled_thick(roll, np.array(flat), np.zeros(6)), rolled(roll, flat), atol=1e-12)
    inner = rolled_thick(roll, np.array(flat), np.full(6, 1e-3))
    assert np.allclose(np.linalg.norm(inner - [0.0, 0.0, 0.1], axis=1), 0.099)


# ---- named places


def test_places_of_the_lantern_hood() -> None:
    """Post holes 2 3/8 up the slant from the rim of 8; eyes over the rim of 1 1/2, their axes round it."""
    result = made(HOOD)
    holes, lugs = hole_places(result, RULES), lug_places(result, RULES)
    assert [h.name for h in holes] == ["post holes"] * 4
    slant = hypot(3.25, 4.0)
    far, up = (4 - 2.375 * 3.25 / slant) * INCH, 2.375 * 4 / slant * INCH
    for hole in holes:
        assert (hypot(*hole.point[:2]), hole.point[2]) == pytest.approx((far, up), abs=1e-9)
        assert hole.out[2] == pytest.approx(3.25 / slant, abs=1e-6)
        assert np.dot(hole.out, hole.along) == pytest.approx(0.0, abs=1e-6)
    assert [lug.name for lug in lugs] == ["lugs", "lugs"]
    assert np.allclose(np.array(lugs[0].point)[:2], -np.array(lugs[1].point)[:2], atol=1e-9)
    for lug in lugs:
        assert lug.across == pytest.approx(INCH / 4, rel=0.01)
        assert lug.point[2] > 4 * INCH
        assert abs(np.dot(lug.along, (lug.point[1], -lug.point[0], 0.0))) == pytest.approx(
            hypot(*lug.point[:2]), rel=1e-6
        )
    assert seam_of(result).along[2] > 0.0
    assert [hypot(*p.point[:2]) for p in rim_of(result, "top", 8)] == pytest.approx([0.75 * INCH] * 8)


@pytest.mark.parametrize("spec", [HOOD, PAN, BOWL])
def test_holes_and_eyes_are_open_where_they_are_told(spec: SheetSpec) -> None:
    """No metal on a line through a hole square to the sheet, or along an eye's axis; metal beside both."""
    result = made(spec)
    mesh = as_trimesh(sheet_body(result, RULES))
    for place in hole_places(result, RULES):
        assert not crossed(mesh, place.point, place.out, 3 * spec.thick)
        beside = np.array(place.point) + 0.75 * place.across * np.array(place.along)
        assert crossed(mesh, tuple(beside), place.out, 3 * spec.thick)
    width = spec.lugs[0].width
    for place in lug_places(result, RULES):
        assert not crossed(mesh, place.point, place.along, width)
        over = np.cross(place.along, place.out)
        for way in (place.out, tuple(over)):
            rim = np.array(place.point) + (place.across + spec.thick) / 2 * np.array(way)
            assert crossed(mesh, tuple(rim), place.along, width)


def crossed(mesh: trimesh.Trimesh, point: tuple[float, ...], way: tuple[float, ...], reach: float) -> bool:
    """Whether a straight through a point, `reach` to both sides, meets a triangle (both sides of each edge agree)."""
    corners, way_ = np.asarray(mesh.triangles) - np.array(point), np.array(way)
    sides = np.stack([np.cross(corners[:, k], corners[:, (k + 1) % 3]) @ way_ for k in range(3)], axis=1)
    hit = (sides > 0.0).all(axis=1) | (sides < 0.0).all(axis=1)
    normal = np.cross(corners[hit, 1] - corners[hit, 0], corners[hit, 2] - corners[hit, 0])
    far = np.einsum("ij,ij->i", normal, corners[hit, 0]) / (normal @ way_)
    return bool((np.abs(far) < reach).any())


def test_walls_of_a_pan() -> None:
    places = {p.name: p for p in wall_places(made(TRAY), RULES)}
    assert set(places) == {"bottom", "front", "right", "back", "left"}
    assert places["front"].point[1] == pytest.approx(-2.5 * INCH + GA18 / 2, abs=1e-9)
    assert places["right"].out == pytest.approx((1.0, 0.0, 0.0))
    assert places["left"].point[2] == pytest.approx(INCH / 2 - GA18 / 2, abs=1e-9)
    assert places["bottom"].out == (0.0, 0.0, -1.0)


def test_preview_is_coarse_enough_to_be_quick() -> None:
    """Faces, not seconds, so that it holds on any machine: hood and tray together."""
    faces = sum(len(sheet_body(made(spec), RULES).faces) for spec in (HOOD, TRAY))
    assert faces < 8000
    assert all(is_closed(sheet_body(made(spec), RULES, Fineness.FINE)) for spec in (HOOD, TRAY))
