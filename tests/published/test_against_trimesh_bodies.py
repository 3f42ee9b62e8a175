"""Against trimesh, the general library of meshes, 5.2: solid bars and rings.

Kind: reference library. Rings as its own tori and profiles turned about an axis, bent bars as its own sweeps of a
polygon along a fine line: volume, balance and inertia are then read off its meshes. Made another way, from sizes alone.
"""

import math

import numpy as np
import pytest
import trimesh
from numpy.typing import NDArray
from shapely.geometry import Point, Polygon, box

from bickern.geometry.solid.solid import Fineness, Solid
from bickern.geometry.solid.weigh import centre, inertia, volume
from bickern.iron.section import Section
from bickern.measure.units.words import Shape
from bickern.parts.bar.allowances import BarRules, without_fire
from bickern.parts.bar.body.body import bar_body
from bickern.parts.bar.reckon import reckon_bar
from bickern.parts.bar.tracks import (
    BarSpec,
    BendLeg,
    Blank,
    Corner,
    HoopLeg,
    Metal,
    PathLeg,
    SectionGoal,
    StraightLeg,
)
from bickern.parts.joint.body import rivet_body
from bickern.parts.joint.heads import Head
from bickern.parts.ring.body import ring_body
from bickern.parts.ring.reckon import reckon_ring
from bickern.parts.ring.spec import RingRules, RingSpec

FINENESS = list(Fineness)
NEAR = {Fineness.PREVIEW: 5e-3, Fineness.FINE: 5e-4}
"""Share of inertia: chords that keep the volume of a round still place it a little otherwise."""


def alike(ours: Solid, theirs: trimesh.Trimesh, near: float, size: float) -> None:
    assert theirs.is_watertight
    assert volume(ours) == pytest.approx(theirs.volume, rel=1e-3)
    assert centre(ours) == pytest.approx(tuple(theirs.center_mass), abs=size * near)
    greatest = np.abs(theirs.moment_inertia).max()
    assert inertia(ours) == pytest.approx(theirs.moment_inertia, abs=greatest * near)


def bent(wire: Section, path: tuple[PathLeg, ...], fineness: Fineness) -> Solid:
    spec = BarSpec("bar", wire, "S235JR", (Metal(Blank.REST),), path)
    read = reckon_bar(spec, without_fire(BarRules()), 7850.0)
    assert read.value is not None, read.findings
    return bar_body(read.value, fineness)


@pytest.mark.parametrize("fineness", FINENESS)
@pytest.mark.parametrize(("inside", "wire"), [(0.03, 0.006), (0.02, 0.012), (0.2, 0.01)])
def test_a_round_ring_is_a_torus(inside: float, wire: float, fineness: Fineness) -> None:
    # in millimetres: trimesh takes points less than 1e-8 apart for one
    torus = trimesh.creation.torus((inside + wire) * 500, wire * 500, major_sections=720, minor_sections=180)
    spec = RingSpec("ring", Section(Shape.ROUND, wire, wire), "S235JR", inside)
    made = reckon_ring(spec, RingRules(), 7850.0).value
    assert made is not None
    body = ring_body(made, fineness)
    alike(Solid(body.points * 1000, body.faces), torus, NEAR[fineness], inside * 1000)


@pytest.mark.parametrize("fineness", FINENESS)
@pytest.mark.parametrize(("wide", "thick"), [(0.02, 0.005), (0.005, 0.02), (0.012, 0.012)])
def test_a_flat_hoop_is_a_profile_turned(wide: float, thick: float, fineness: Fineness) -> None:
    rim = np.array(
        [(0.1, -wide / 2), (0.1 + thick, -wide / 2), (0.1 + thick, wide / 2), (0.1, wide / 2), (0.1, -wide / 2)]
    )
    turned = trimesh.creation.revolve(rim, sections=2000)
    spec = BarSpec("hoop", Section(Shape.FLAT, wide, thick), "S235JR", (Metal(Blank.REST),),
                   (HoopLeg(inside_across=0.2, turn=math.pi / 2),), closed=True)  # fmt: skip
    read = reckon_bar(spec, without_fire(BarRules()), 7850.0)
    assert read.value is not None, read.findings
    # the hoop stands on its start in the x-z plane; lay it down about its middle
    turned.apply_transform(trimesh.transformations.rotation_matrix(math.pi / 2, [1, 0, 0]))
    turned.apply_translation([0.0, 0.0, 0.1 + thick / 2])
    alike(bar_body(read.value, fineness), turned, NEAR[fineness], 0.2)


def along(path: tuple[tuple[float, float], ...], steps: int = 400) -> NDArray[np.float64]:
    """A line in the x-y plane from (length, 0) for straights and (radius, angle) for bends to the left."""
    points, at, way = [np.zeros(2)], np.zeros(2), 0.0
    for first, angle in path:
        if not angle:
            at = at + first * np.array((math.cos(way), math.sin(way)))
            points.append(at)
            continue
        middle = at + first * np.array((-math.sin(way), math.cos(way)))
        for turn in np.linspace(way, way + angle, steps + 1)[1:]:
            points.append(middle + first * np.array((math.sin(turn), -math.cos(turn))))
        at, way = points[-1], way + angle
    return np.column_stack((np.array(points), np.zeros(len(points))))


SECTIONS = [
    (Section(Shape.SQUARE, 0.012, 0.012), box(-0.006, -0.006, 0.006, 0.006)),
    (Section(Shape.ROUND, 0.012, 0.012), Point(0, 0).buffer(0.006, quad_segs=40)),
    (
        Section(Shape.OCTAGON, 0.012, 0.012),
        Polygon([(0.006 / math.cos(math.pi / 8) * math.cos(a), 0.006 / math.cos(math.pi / 8) * math.sin(a))
                 for a in (np.arange(8) + 0.5) * math.pi / 4]),
    ),
]  # fmt: skip


@pytest.mark.parametrize("fineness", FINENESS)
@pytest.mark.parametrize(("wire", "polygon"), SECTIONS, ids=["square", "round", "octagon"])
@pytest.mark.parametrize("angle", [math.radians(60), math.radians(90), math.radians(200)])
def test_a_bent_bar_is_a_polygon_swept_along_its_line(
    wire: Section, polygon: Polygon, angle: float, fineness: Fineness
) -> None:
    radius = 0.02 + wire.thick / 2
    swept = trimesh.creation.sweep_polygon(polygon, along(((0.1, 0.0), (radius, angle), (0.05, 0.0))))
    ours = bent(wire, (StraightLeg(0.1), BendLeg(angle, 0.02), StraightLeg(0.05)), fineness)
    alike(ours, swept, NEAR[fineness], 0.1)


@pytest.mark.parametrize("fineness", FINENESS)
@pytest.mark.parametrize("angle", [math.radians(45), math.radians(90), math.radians(120)])
def test_a_corner_forged_up_is_two_bars_mitred(angle: float, fineness: Fineness) -> None:
    """Sharp inside and out: the outline in plan is a polygon, as thick as the bar."""
    thick, one, two = 0.012, 0.1, 0.05
    tail = thick / 2 * math.tan(angle / 2)
    corner, way = np.array((one + tail, 0.0)), np.array((math.cos(angle), math.sin(angle)))
    out, end = np.array((tail, -thick / 2)), corner + (tail + two) * way
    side = np.array((-way[1], way[0])) * thick / 2
    plan = [
        (0.0, -thick / 2),
        tuple(corner + out),
        tuple(end - side),
        tuple(end + side),
        tuple(corner - out),
        (0.0, thick / 2),
    ]
    solid = trimesh.creation.extrude_polygon(Polygon(plan), thick)
    solid.apply_translation([0.0, 0.0, -thick / 2])
    path = (StraightLeg(one), BendLeg(angle, 0.0, corner=Corner.SQUARE), StraightLeg(two))
    alike(bent(Section(Shape.SQUARE, thick, thick), path, fineness), solid, 1e-9, one)


@pytest.mark.parametrize("fineness", FINENESS)
def test_a_square_taper_bent_is_a_row_of_thin_hulls(fineness: Fineness) -> None:
    """Hulls of neighbouring sections, half a degree apart; volume and balance summed."""
    length, radius, count = 0.06 * math.pi / 2 * 2, 0.06, 360
    size = np.linspace(0.02, 0.006, count + 1)

    def loop(i: int) -> NDArray[np.float64]:
        turn, half = length / radius * i / count, size[i] / 2
        return np.array([
            ((radius - y) * math.sin(turn), radius - (radius - y) * math.cos(turn), z)
            for y in (-half, half) for z in (-half, half)
        ])  # fmt: skip

    hulls = [trimesh.convex.convex_hull(np.vstack((loop(i), loop(i + 1)))) for i in range(count)]
    whole = sum(h.volume for h in hulls)
    middle = sum(h.volume * h.center_mass for h in hulls) / whole
    start, end = (Section(Shape.SQUARE, x, x) for x in (0.02, 0.006))
    metal = (Metal(length, start=SectionGoal(start), end=SectionGoal(end)),)
    # the former is told by the thicker of the two third points of the bend
    thick = 0.02 - 0.014 / 3
    spec = BarSpec("taper", start, "S235JR", metal, (BendLeg(length / radius, radius - thick / 2),))
    read = reckon_bar(spec, without_fire(BarRules()), 7850.0)
    assert read.value is not None, read.findings
    body = bar_body(read.value, fineness)
    assert volume(body) == pytest.approx(whole, rel=1e-3)
    assert centre(body) == pytest.approx(tuple(middle), abs=2e-4 if fineness is Fineness.PREVIEW else 3e-5)


@pytest.mark.parametrize("fineness", FINENESS)
def test_a_rivet_with_two_snap_heads_is_a_shank_and_two_slices_of_a_ball(fineness: Fineness) -> None:
    d, grip = 0.006, 0.012
    ball = ((1.75 * d / 2) ** 2 + (0.6 * d) ** 2) / (2 * 0.6 * d)
    sphere = trimesh.creation.icosphere(subdivisions=6, radius=ball)
    sphere.apply_translation([0.0, 0.0, grip + 0.6 * d - ball])
    cap = trimesh.intersections.slice_mesh_plane(sphere, [0, 0, 1], [0, 0, grip], cap=True)
    shank = trimesh.creation.cylinder(d / 2, grip, sections=2000)
    body = rivet_body(d, grip, Head.SNAP, Head.SNAP, fineness)
    assert volume(body) == pytest.approx(shank.volume + 2 * cap.volume, rel=1e-3)
    far = cap.center_mass[2] - grip / 2
    ours = inertia(body)[0, 0]
    theirs = shank.moment_inertia[0, 0] + 2 * (cap.moment_inertia[0, 0] + cap.volume * far**2)
    assert ours == pytest.approx(theirs, rel=2e-3)
