"""What must always hold of how things hang, whatever is hung and however it was drawn."""

import math
import os
from dataclasses import replace

import numpy as np
import pytest
from hung_sets import of_example, of_job
from hypothesis import given, settings
from hypothesis import strategies as st

from bickern.geometry.pose import Pose, back, facing, put, then
from bickern.geometry.space import cross, dot, turned, unit
from bickern.parts.hang.friction import band
from bickern.parts.hang.hang import hang
from bickern.parts.hang.settle import Hung, Load, lever, settle
from bickern.parts.hang.track import track_of
from bickern.parts.set.result import Seat, SetResult
from bickern.parts.set.spots.seats import moved_seat, ring_seat

OFTEN = 20 if os.environ.get("BICKERN_SOAK") else 1
"""How many times the sample of `make test` is tried in `make soak`."""
LAWS = settings(max_examples=25 * OFTEN, deadline=None)
seeds = st.integers(0, 2**32 - 1)
HUNG = ("rail-s-hook", "dinner-triangle", "crane-chain", "ladle", "porch-lantern")


def any_pose(rng: np.random.Generator) -> Pose:
    one, two = (tuple(rng.normal(size=3).tolist()) for _ in range(2))
    x = unit(one)
    z = unit(cross(x, two))
    return Pose(tuple(rng.normal(size=3).tolist()), x, cross(z, x))


def bend(rng: np.random.Generator, *, hollow: bool) -> Seat:
    """A bend of more than a half circle somewhere on a body, crown up (or hollow up), round or square, even or not."""
    radius, half = rng.uniform(0.01, 0.05), rng.uniform(0.002, 0.008)
    first = rng.uniform(-0.6, 0.2) + (math.pi if hollow else 0.0)
    turns = np.linspace(first, first + rng.uniform(3.4, 4.4), 60)
    points = radius * np.column_stack((np.cos(turns), np.sin(turns), np.zeros(60)))
    along = np.column_stack((-np.sin(turns), np.cos(turns), np.zeros(60)))
    halves = np.column_stack((np.linspace(half, half * rng.uniform(0.6, 1.0), 60),) * 2)
    shift = (0.0, -0.1 if hollow else 0.1, 0.0)
    up = np.tile((0.0, 0.0, 1.0), (60, 1))
    return Seat("bend", points + np.array(shift), along, up, halves, square=bool(rng.integers(2)))


def any_hung(rng: np.random.Generator, loads: int) -> Hung:
    centre = tuple((rng.uniform(-0.03, 0.03, 3) * (1, 1, 0.3)).tolist())
    hung = tuple(Load(rng.uniform(0.1, 3.0), track_of(bend(rng, hollow=True))) for _ in range(loads))
    return Hung(rng.uniform(0.1, 2.0), centre, track_of(bend(rng, hollow=False)), hung)


def height(hung: Hung, up: tuple[float, float, float]) -> float:
    arm = lever(hung, up)
    return math.inf if arm is None else dot(arm, up)


@LAWS
@given(seeds, st.integers(0, 2))
def test_no_direction_beside_the_rest_is_lower(seed, loads):
    rng = np.random.default_rng(seed)
    hung = any_hung(rng, loads)
    rest = settle(hung)
    assert rest is not None
    low = height(hung, rest.up)
    for _ in range(200):
        aside = unit(cross(rest.up, tuple(rng.normal(size=3).tolist())))
        beside = turned(rest.up, aside, rng.uniform(1e-3, 0.15))
        # a taper is read as even between stations: heights agree to a few millionths of the whole
        assert height(hung, beside) >= low - 4e-6 * hung.total * 0.1


@LAWS
@given(seeds, st.integers(0, 2))
def test_friction_holds_it_at_the_rest_and_on_both_sides(seed, loads):
    rng = np.random.default_rng(seed)
    hung = any_hung(rng, loads)
    rest = settle(hung)
    axis = unit(cross(rest.up, rest.carried.along))
    little, much = band(hung, rest, axis, 0.1), band(hung, rest, axis, 0.5)
    assert much.back <= little.back <= 0 <= little.forth <= much.forth
    assert much.forth > 0
    assert much.back < 0


@LAWS
@given(seeds)
def test_a_ring_on_a_body_settles_alike_however_the_body_is_drawn(seed):
    rng = np.random.default_rng(seed)
    hung = any_hung(rng, 1)
    rest = settle(hung)
    pose = any_pose(rng)
    seats = [_drawn(track) for track in (hung.carried, hung.loads[0].track)]
    there = Hung(
        hung.mass,
        put(pose, hung.centre),
        track_of(moved_seat(seats[0], pose)),
        (Load(hung.loads[0].mass, track_of(moved_seat(seats[1], pose))),),
    )
    again = settle(there)
    back = tuple(dot(axis, again.up) for axis in (pose.x, pose.y, pose.z))
    assert math.acos(min(1.0, dot(back, rest.up))) < 1e-4


def _drawn(track) -> Seat:
    return Seat(track.name, track.points, track.along, track.up, track.half, track.square, track.closed)


def redrawn(a_set: SetResult, rng: np.random.Generator) -> SetResult:
    """The same set with every body told in other coordinates."""
    poses = [any_pose(rng) for _ in a_set.bodies]
    parts = tuple(replace(p, pose=then(poses[p.body], p.pose)) for p in a_set.parts)
    bodies = tuple(replace(b, centre=put(pose, b.centre)) for b, pose in zip(a_set.bodies, poses, strict=True))
    links = tuple(
        replace(k, seats=(moved_seat(k.seats[0], poses[k.first]), moved_seat(k.seats[1], poses[k.second])))
        for k in a_set.links
    )
    pivots = tuple(
        replace(
            p,
            point=put(poses[p.first], p.point),
            axis=facing(poses[p.first], p.axis),
            lies=then(poses[p.first], then(p.lies, back(poses[p.second]))),
        )
        for p in a_set.pivots
    )
    return replace(a_set, parts=parts, bodies=bodies, links=links, pivots=pivots)


@pytest.mark.parametrize("name", HUNG)
def test_how_a_set_hangs_does_not_depend_on_where_it_is_drawn(name):
    hangs_alike_redrawn(of_example(name))


ARM = """
job: Hood on an arm
units: in
pieces:
  arm:
    bar: 1/2 rd
    metal: [{{keep: rest, name: all}}]
    path: [{{straight: 3, name: tail}}, {{straight: 3}}, {{bend: 180, inside radius: 3/4, turn: {turn}, name: crook}}, {{straight: 1}}]
  hood:
    sheet: 20 ga
    surface: {{cone: {{base: 8, top: 2, height: 4, sizes: mean}}}}
    seam: {{riveted lap: 1/2, rivets: 1/8, pitch: 1}}
    lugs: [{{eye: 1/4, width: 5/16, on: top, divide: 3, name: lugs}}]
  big:
    ring: 3/16 rd
    inside across: 2
    closed: butted
  links:
    ring: 1/8 rd
    inside across: 1 1/2
    closed: butted
    make: 2
joins:
  - {{ring: big, through: [arm.crook]}}
  - {{ring: links 1, through: [big, hood.lugs 1]}}
  - {{ring: links 2, through: [big, hood.lugs 2]}}
hang: {{from: arm.tail, on: {on}}}
"""  # noqa: E501 - a job's lines
PINNED = """
job: Arm on a bracket
units: mm
pieces:
  bracket:
    bar: 12 sq
    metal: [{{keep: 100, name: tail}}, {{keep: 150, name: nose}}]
    holes: [{{size: 6, by: drill, at: 20 from the end, face: {face}, name: hole}}]
  arm:
    bar: 20 x 5
    metal: [{{keep: rest, name: all}}]
    path: [{{straight: 150, name: long}}, {{corner: 90, turn: left}}, {{straight: 60}}]
    holes: [{{size: 6, by: drill, at: 15, face: front, name: hole}}]
joins:
  - {{pin: 6, through: [bracket.hole, arm.hole]}}
hang: {{from: bracket.tail, on: {on}}}
"""


@pytest.mark.parametrize("on", ["wall", "hand"])
@pytest.mark.parametrize("turn", ["up", "left"])
def test_nor_does_the_side_that_is_up_of_a_tail_or_a_handle(turn, on):
    """A bend that begins level out of its bar is the hardest to tell: it is level there but for rounding."""
    hangs_alike_redrawn(of_job(ARM.format(turn=turn, on=on)))


@pytest.mark.parametrize("on", ["wall", "hand"])
@pytest.mark.parametrize("face", ["front", "left"])
def test_nor_does_what_turns_on_a_pin(face, on):
    a_set = of_job(PINNED.format(face=face, on=on))
    assert len(a_set.pivots) == 1
    hangs_alike_redrawn(a_set)


def hangs_alike_redrawn(a_set: SetResult) -> None:
    found = hang(a_set, changes=False)
    assert found.tilts, found.findings
    for seed in range(2 * OFTEN):
        other = hang(redrawn(a_set, np.random.default_rng(seed)), changes=False)
        assert [t.of for t in other.tilts] == [t.of for t in found.tilts]
        for one, two in zip(found.tilts, other.tilts, strict=True):
            assert two.angle == pytest.approx(one.angle, abs=math.radians(0.002)), one.of
            assert two.toward == one.toward
            assert two.least == pytest.approx(one.least, abs=math.radians(0.01))
        assert other.drop == pytest.approx(found.drop, abs=1e-6)
        heights = [sorted(t.point[2] for t in h.touches) for h in (found, other)]
        assert heights[1] == pytest.approx(heights[0], abs=1e-6)


HOOK = """
job: Hook
units: {units}
pieces:
  hook:
    bar: {bar} rd
    metal: [{{from: {tip} rd, to: {bar} rd, over: {over}}}, {{keep: rest, name: all}}]
    path:
      - {{straight: {short}}}
      - {{bend: 180, inside radius: {inside}, turn: left, name: high}}
      - {{straight: {long}}}
      - {{bend: 150, inside radius: {inside}, turn: right, name: low}}
hang: {{from: hook.high, on: rail}}
"""


def test_a_set_in_inches_hangs_as_the_same_set_in_millimetres():
    sizes = {"bar": 0.25, "tip": 0.125, "over": 1.0, "short": 0.5, "inside": 0.5, "long": 2.0}
    inches = hang(of_job(HOOK.format(units="in", **sizes)), changes=False)
    metric = hang(of_job(HOOK.format(units="mm", **{k: v * 25.4 for k, v in sizes.items()})), changes=False)
    assert metric.tilts[0].angle == pytest.approx(inches.tilts[0].angle, abs=1e-9)
    assert metric.tilts[0].least == pytest.approx(inches.tilts[0].least, abs=1e-6)
    assert metric.tilts[0].toward == inches.tilts[0].toward
    assert metric.drop == pytest.approx(inches.drop, rel=1e-9)


def test_a_heavier_thing_below_does_not_tip_what_hangs_plumb_below_it():
    """An even S-hook with any load on its lower bend keeps its bends in line."""
    turns = np.linspace(-0.2, math.pi + 0.2, 60)
    points = np.column_stack((0.016 * np.cos(turns), 0.016 * np.sin(turns), np.zeros(60)))
    along = np.column_stack((-np.sin(turns), np.cos(turns), np.zeros(60)))
    up, half = np.tile((0.0, 0.0, 1.0), (60, 1)), np.full((60, 2), 0.003)
    shift = np.array((0.016, 0.02, 0.0))
    high = Seat("high", points + shift, along, up, half)
    low = Seat("low", -points - shift, -along, up, half)
    rests = [
        settle(Hung(1.0, (0.0, 0.0, 0.0), track_of(high), loads)).up
        for loads in ((), (Load(0.1, track_of(low)),), (Load(50.0, track_of(low)),))
    ]
    assert rests[1] == pytest.approx(rests[0], abs=1e-9)
    assert rests[2] == pytest.approx(rests[0], abs=1e-9)
    assert math.atan2(rests[0][0], rests[0][1]) == pytest.approx(math.atan2(0.016, 0.02), abs=1e-9)


@LAWS
@given(st.floats(0.01, 0.1), st.floats(0.001, 0.005), st.floats(0.01, 10.0))
def test_a_ring_hangs_upright_whatever_it_carries(across, half, load):
    loop = ring_seat("ring", Pose(), 0.0, across / 2 + half, (half, half))
    rest = settle(Hung(1.0, (0.0, 0.0, 0.0), track_of(loop), (Load(load, track_of(loop)),)))
    assert abs(rest.up[2]) < 1e-7
    assert math.dist(rest.carried.point, rest.loads[0].point) == pytest.approx(across, rel=1e-9)
