"""Against trimesh, the general library of meshes, 5.2: bars.

Kind: reference library. Tapers as convex hulls of their two ends, bent half-rounds as solids of revolution: volume,
balance and overall sizes are then read off the mesh. Reckoned another way.
"""

import math
from functools import cache

import numpy as np
import pytest
import trimesh

from bickern.iron.section import Section
from bickern.measure.units.words import Shape
from bickern.parts.bar.allowances import BarRules, without_fire
from bickern.parts.bar.reckon import reckon_bar
from bickern.parts.bar.result import BarResult
from bickern.parts.bar.tracks import (
    BarSpec,
    BendLeg,
    Blank,
    EyeLeg,
    HoopLeg,
    Metal,
    PathLeg,
    SectionGoal,
    StraightLeg,
)

RULES = without_fire(BarRules())
UP, DOWN = math.radians(90), math.radians(270)


def reckoned(spec: BarSpec) -> BarResult:
    read = reckon_bar(spec, RULES, 7850.0)
    assert read.value is not None, read.findings
    return read.value


def flat(wide: float, thick: float) -> Section:
    return Section(Shape.FLAT, wide, thick)


def ends(first: tuple[float, float], last: tuple[float, float], start: float, end: float) -> trimesh.Trimesh:
    corners = [
        (x, y * w / 2, z * t / 2) for x, (w, t) in ((start, first), (end, last)) for y in (1, -1) for z in (1, -1)
    ]
    return trimesh.convex.convex_hull(np.array(corners))


TAPERS = [((0.03, 0.03), (0.01, 0.01)), ((0.01, 0.01), (0.03, 0.03)), ((0.04, 0.008), (0.01, 0.008)),
          ((0.012, 0.02), (0.03, 0.004))]  # fmt: skip


@pytest.mark.parametrize(("first", "last"), TAPERS)
def test_a_taper_behind_a_length_of_bar(first: tuple[float, float], last: tuple[float, float]) -> None:
    taper = Metal(0.15, start=SectionGoal(flat(*first)), end=SectionGoal(flat(*last)))
    result = reckoned(BarSpec("taper", flat(0.03, 0.03), "S235JR", (Metal(0.1), taper)))
    parts = ends((0.03, 0.03), (0.03, 0.03), 0.0, 0.1), ends(first, last, 0.1, 0.25)
    volume = sum(p.volume for p in parts)
    assert result.mass / 7850.0 == pytest.approx(volume, rel=1e-9)
    balance = sum(p.volume * p.center_mass for p in parts) / volume
    assert result.centre_of_mass == pytest.approx(tuple(balance), abs=1e-9)


@pytest.mark.parametrize(("first", "last"), TAPERS)
def test_overall_sizes_of_a_taper(first: tuple[float, float], last: tuple[float, float]) -> None:
    result = reckoned(BarSpec("taper", flat(*first), "S235JR", (Metal(0.25, end=SectionGoal(flat(*last))),)))
    sizes = (result.sizes.reach, result.sizes.across, result.sizes.rise)
    assert sizes == pytest.approx(tuple(ends(first, last, 0.0, 0.25).extents), rel=1e-9)


WIDE = 0.02
HALF = Section(Shape.HALF_ROUND, WIDE, WIDE / 2)


@cache
def once_round(inside: float, flat_inside: bool) -> float:
    """Bar [m] in a full turn of half-round bar: the volume of the ring over the area of its section, as meshes [mm]."""
    turn = np.linspace(0.0, math.pi, 80)
    up, across = WIDE / 2 * np.sin(turn), WIDE / 2 * np.cos(turn)
    radius = inside + (up if flat_inside else WIDE / 2 - up)
    outline = 1000.0 * np.stack([radius, across], axis=1)
    ring = trimesh.creation.revolve(np.vstack([outline, outline[:1]]), sections=180)
    straight = trimesh.convex.convex_hull(np.vstack([np.insert(outline, 2, z, axis=1) for z in (0.0, 1.0)]))
    return float(abs(ring.volume) / straight.volume) / 1000.0


@pytest.mark.parametrize("turn", [UP, DOWN])
@pytest.mark.parametrize(("inside", "angle"), [(0.01, 90.0), (0.03, 200.0), (0.2, 45.0)])
def test_a_bend_in_half_round_bar(turn: float, inside: float, angle: float) -> None:
    legs: tuple[PathLeg, ...] = (StraightLeg(0.1), BendLeg(math.radians(angle), inside, turn), StraightLeg(0.1))
    result = reckoned(BarSpec("bend", HALF, "S235JR", (Metal(Blank.REST),), legs))
    expected = once_round(inside, turn == DOWN) * angle / 360.0
    assert result.length - 0.2 == pytest.approx(expected, rel=4e-4)


@pytest.mark.parametrize("turn", [UP, DOWN])
def test_a_hoop_and_an_eye_of_half_round_bar(turn: float) -> None:
    hoop = BarSpec("hoop", HALF, "S235JR", (Metal(Blank.REST),), (HoopLeg(inside_across=0.1, turn=turn),), closed=True)
    assert reckoned(hoop).length == pytest.approx(once_round(0.05, turn == DOWN), rel=4e-4)
    eye = BarSpec("eye", HALF, "S235JR", (Metal(Blank.REST),), (StraightLeg(0.1), EyeLeg(0.04, turn)))
    assert reckoned(eye).length - 0.1 == pytest.approx(once_round(0.02, turn == DOWN), rel=4e-4)
