"""What turns on a pin hangs by its own weight: closed forms and least heights, worked out beside each (exact)."""

import math
from dataclasses import replace

import numpy as np
import pytest
from hung_sets import of_job
from hypothesis import given, settings
from hypothesis import strategies as st

from bickern.geometry.pose import HERE, Pose, facing, put, seen, turning
from bickern.geometry.space import dot, unit
from bickern.parts.hang.hang import hang, held_at
from bickern.parts.hang.held import fixed_pose, wall_face
from bickern.parts.hang.result import HangResult
from bickern.parts.hang.settle import Hung, Load, settle
from bickern.parts.hang.swung import Pin, Swung, abreast, balanced, turned_down
from bickern.parts.hang.track import track_of
from bickern.parts.set.result import SetResult
from bickern.parts.set.spots.seats import ring_seat

INCH = 0.0254

BRACKET = """
job: Arm on a bracket
units: mm
pieces:
  bracket:
    bar: 12 sq
    metal: [{{keep: 100, name: grip}}, {{keep: 100, name: nose}}]
    holes: [{{size: 6, by: drill, at: 20 from the end, face: {face}, name: hole}}]
  arm:
    bar: 20 x 5
    metal: [{{keep: rest, name: all}}]
    path: [{{straight: 150, name: long}}, {{corner: 90, turn: {turn}}}, {{straight: 60, name: short}}]
    holes:
      - {{size: 6, by: drill, at: 15, face: front, name: hole}}
      - {{size: 6, by: drill, at: 10 from the end, face: front, name: end hole}}
{more}
joins:
  - {{pin: 6, through: [bracket.hole, arm.hole]}}
{joins}
hang: {{from: bracket.grip, on: hand}}
"""
WEIGHT = """
  ring:
    ring: 5 rd
    inside across: 40
    closed: welded
  weight:
    bar: 30 sq
    metal: [{keep: 100, name: all}]
    holes: [{size: 8, by: drill, at: 10, face: front, name: hole}]
"""
HUNG = "  - {ring: ring, through: [arm.end hole, weight.hole]}"


def bracket(face: str = "left", more: str = "", joins: str = "") -> SetResult:
    return of_job(BRACKET.format(face=face, turn="left", more=more, joins=joins))


def numbers(a_set: SetResult, *names: str) -> list[int]:
    return [next(i for i, body in enumerate(a_set.bodies) if body.name == name) for name in names]


def pin_of(a_set: SetResult, found: HangResult, number: int = 0) -> tuple[np.ndarray, np.ndarray]:
    pivot = a_set.pivots[number]
    pose = found.poses[pivot.first]
    return np.array(put(pose, pivot.point)), np.array(facing(pose, pivot.axis))


def aside(a_set: SetResult, found: HangResult, weights: list[tuple[float, np.ndarray]]) -> tuple[float, float]:
    """Of some weights, how far their middle is off the plumb plane of the first pin, and how far below the pin [m]."""
    point, axis = pin_of(a_set, found)
    middle = sum(mass * place for mass, place in weights) / sum(mass for mass, _ in weights)
    square = np.cross(axis, (0.0, 0.0, 1.0))
    return float((middle - point) @ square / np.linalg.norm(square)), float(point[2] - middle[2])


def test_an_arm_on_a_level_pin_balances_plumb_below_it():
    a_set = bracket()
    (arm,) = numbers(a_set, "arm")
    found = hang(a_set, changes=False)
    assert abs(pin_of(a_set, found)[1][2]) < 1e-9
    off, below = aside(a_set, found, [(1.0, np.array(put(found.poses[arm], a_set.bodies[arm].centre)))])
    assert off == pytest.approx(0.0, abs=1e-9)
    assert below > 0.02
    assert a_set.bodies[arm].parts[0] in [t.part for t in found.tilts]
    assert any(says.startswith("on its pin") and says.endswith("arm") for says in found.how)
    assert not found.findings


@pytest.mark.parametrize("degrees", [-60, -20, 35, 75])
def test_on_a_pin_that_is_not_level_it_hangs_in_the_plumb_plane_of_its_pin(degrees: int):
    """About a leaning line a weight is lowest where it lies in the plumb plane of that line, below it.

    The bracket's hole looks along the bracket's own level side, so it is held here by its other face: the pin stands
    up with the bracket and leans as it is raised.
    """
    a_set = bracket(face="front")
    (arm,) = numbers(a_set, "arm")
    found = held_at(a_set, math.radians(degrees))
    lean = abs(pin_of(a_set, found)[1][2])
    assert lean == pytest.approx(math.cos(math.radians(degrees)), abs=1e-9)
    off, _ = aside(a_set, found, [(1.0, np.array(put(found.poses[arm], a_set.bodies[arm].centre)))])
    assert off == pytest.approx(0.0, abs=1e-8)
    point, axis = pin_of(a_set, found)
    centre = np.array(put(found.poses[arm], a_set.bodies[arm].centre))
    foot = point + axis * ((centre - point) @ axis)
    assert centre[2] < foot[2]


def test_on_an_upright_pin_it_stays_as_it_was_put_together():
    a_set = bracket(face="front")
    found = hang(a_set, changes=False)
    pivot = a_set.pivots[0]
    there = put(found.poses[pivot.first], put(pivot.lies, a_set.bodies[pivot.second].centre))
    assert put(found.poses[pivot.second], a_set.bodies[pivot.second].centre) == pytest.approx(there, abs=1e-12)
    assert any("upright" in says for says in found.how)


def test_what_hangs_on_the_arm_turns_it_with_its_own_weight():
    """Arm, ring and weight together balance plumb below the pin; the weight plumb below its ring."""
    a_set = bracket(more=WEIGHT, joins=HUNG)
    arm, ring, weight = numbers(a_set, "arm", "ring", "weight")
    found = hang(a_set, changes=False)
    weights = [
        (a_set.bodies[i].mass, np.array(put(found.poses[i], a_set.bodies[i].centre))) for i in (arm, ring, weight)
    ]
    bears = next(np.array(t.point) for t in found.touches if t.lower == ring)
    for _, place in weights[1:]:
        assert place[:2] == pytest.approx(bears[:2], abs=2e-5)
    off, below = aside(a_set, found, weights)
    assert off == pytest.approx(0.0, abs=2e-5)
    assert below > 0.1
    bare, _ = aside(a_set, found, weights[:1])
    assert abs(bare) > 0.01  # by itself the arm is pulled well aside


CLEVIS = """
job: Clevis
units: in
pieces:
  clevis:
    bar: 1 x 1/4
    metal: [{keep: rest, name: all}]
    path: [{straight: 3, name: left}, {bend: 180, inside radius: 1/2, turn: up, name: crown}, {straight: 3}]
    holes:
      - {size: 7/16, by: drill, at: 1/2, face: front, name: left hole}
      - {size: 7/16, by: drill, at: 1/2 from the end, face: front, name: right hole}
  rod:
    bar: RODBAR
    metal: [{keep: rest, name: all}]
    path: [{eye: 7/16, turn: TURN, name: eye}, {straight: 12, name: shank}]
joins:
  - {pin: 7/16, through: [clevis.left hole, rod.eye, clevis.right hole]}
hang: {from: clevis.crown, on: nail}
"""


def clevis(rod: str) -> SetResult:
    return of_job(CLEVIS.replace("RODBAR", rod).replace("TURN", "up" if "x" in rod else "left"))


def test_an_even_clevis_comes_plumb_with_a_rod_midway_on_its_pin():
    """A rod midway on the pin of an even clevis: all plumb, but for the rod whose eye stands to one side of its line.

    The rod is laid midway between the cheeks here, and the clevis made even: the law is of how it hangs then.
    """
    a_set = clevis("1 x 1/4")
    (pivot,), (cheeks, rod) = a_set.pivots, numbers(a_set, "clevis", "rod")
    middle = 0.625 * INCH
    shift = middle - put(pivot.lies, a_set.bodies[rod].centre)[2]
    lies = Pose((pivot.lies.origin[0], pivot.lies.origin[1], pivot.lies.origin[2] + shift), pivot.lies.x, pivot.lies.y)
    own = a_set.bodies[cheeks]
    even = replace(own, centre=(own.centre[0], own.centre[1], middle))
    bodies = tuple(even if i == cheeks else body for i, body in enumerate(a_set.bodies))
    found = hang(replace(a_set, bodies=bodies, pivots=(replace(pivot, lies=lies),)), changes=False)
    assert seen(found.poses[cheeks], (0.0, 0.0, 1.0)) == pytest.approx((1.0, 0.0, 0.0), abs=1e-6)
    point, axis = pin_of(a_set, found)
    centre = np.array(put(found.poses[rod], a_set.bodies[rod].centre))
    assert np.cross(axis, (0.0, 0.0, 1.0)) @ (centre - point) == pytest.approx(0.0, abs=1e-9)
    assert centre[:2] == pytest.approx((0.0, 0.0), abs=1e-6)


def test_a_thin_rod_in_a_clevis_balances_with_it_below_the_nail():
    """The rod lies to one side on its pin, which leans a little for it: together they balance plumb below the nail."""
    a_set = clevis("3/8 rd")
    found = hang(a_set, changes=False)
    weights = [(b.mass, np.array(put(p, b.centre))) for b, p in zip(a_set.bodies, found.poses, strict=True)]
    middle = sum(m * x for m, x in weights) / sum(m for m, _ in weights)
    assert middle[:2] == pytest.approx((0.0, 0.0), abs=1e-6)
    (rod,) = numbers(a_set, "rod")
    assert aside(a_set, found, [weights[rod]])[0] == pytest.approx(0.0, abs=1e-8)
    assert max(math.degrees(t.angle) for t in found.tilts) < 8  # as drawn, stiff, it would be near 30


LINKED = """
job: Two bars below a bracket
units: mm
pieces:
  bracket:
    bar: 12 sq
    metal: [{keep: 100, name: grip}, {keep: 100, name: nose}]
    holes: [{size: 6, by: drill, at: 20 from the end, face: left, name: hole}]
  one:
    bar: 20 x 5
    metal: [{keep: 150, name: all}]
    holes: [{size: 6, by: drill, at: 10, face: front, name: upper}, {size: 6, by: drill, at: 10 from the end, face: front, name: lower}]
  two:
    bar: 20 x 5
    metal: [{keep: 250, name: all}]
    holes: [{size: 6, by: drill, at: 60, face: front, name: upper}]
joins:
  - {pin: 6, through: [bracket.hole, one.upper]}
  - {pin: 6, through: [one.lower, two.upper]}
hang: {from: bracket.grip, on: hand}
"""  # noqa: E501 - a job's lines


def test_a_bar_on_a_bar_on_a_pin_hang_both_plumb():
    """Their holes are on the line of their balance: a double pendulum at rest is straight and plumb."""
    a_set = of_job(LINKED)
    found = hang(a_set, changes=False)
    (two,) = numbers(a_set, "two")
    (top, axis), (low, _) = pin_of(a_set, found), pin_of(a_set, found, 1)
    centre = np.array(put(found.poses[two], a_set.bodies[two].centre))
    side = np.cross(axis, (0.0, 0.0, 1.0))
    assert (low - top) @ side == pytest.approx(0.0, abs=1e-9)
    assert (centre - low) @ side == pytest.approx(0.0, abs=1e-9)
    assert top[2] - low[2] == pytest.approx(0.130, abs=1e-6)
    # its middle at 125, its hole at 60: without what is drilled out it balances by that much farther off
    drilled = math.pi / 4 * 6**2 / (20 * 250)
    assert low[2] - centre[2] == pytest.approx(0.065 / (1 - drilled), abs=1e-6)


seeds = st.integers(0, 2**32 - 1)


def any_swung(rng: np.random.Generator) -> Swung:
    point, place = (tuple(rng.uniform(-0.1, 0.1, 3).tolist()) for _ in range(2))
    pin = Pin(0, 1, point, unit(tuple(rng.normal(size=3).tolist())), HERE)
    return Swung(pin, place, *abreast(pin, place), (0.0, 0.0, 1.0))


@settings(max_examples=25, deadline=None)
@given(seeds)
def test_turned_down_it_lies_lower_than_at_any_other_turn(seed):
    rng = np.random.default_rng(seed)
    swung, up = any_swung(rng), unit(tuple(rng.normal(size=3).tolist()))
    lies = turned_down(swung, up)
    low = dot(put(lies, swung.drawn), up)
    assert low == pytest.approx(dot(balanced(swung, up), up), abs=1e-12)
    turns = [put(turning(swung.pin.point, swung.pin.axis, a), swung.drawn) for a in np.linspace(0, 2 * math.pi, 720)]
    assert min(dot(place, up) for place in turns) >= low - 1e-12
    assert min(dot(place, up) for place in turns) == pytest.approx(low, abs=1e-5)


@settings(max_examples=15, deadline=None)
@given(seeds)
def test_no_turn_of_what_carries_it_comes_lower_with_it(seed):
    """Of a ring with something on a pin, at rest: neither tips the whole lower, whichever way and however it turns."""
    rng = np.random.default_rng(seed)
    swung = any_swung(rng)
    eye = track_of(ring_seat("eye", Pose(), 0.0, 0.02, (0.003, 0.003)))
    hung = Hung(1.0, tuple(rng.uniform(-0.05, 0.05, 3).tolist()), eye, (Load(rng.uniform(0.1, 3.0), swung),))
    rest = settle(hung)
    assert rest is not None

    def height(up) -> float:
        ring = 0.02 * math.hypot(up[0], up[1]) - 0.003  # the highest inside of a ring about z, seen along up
        return dot(hung.centre, up) + hung.loads[0].mass * dot(balanced(swung, up), up) - hung.total * ring

    low = height(rest.up)
    for _ in range(200):
        beside = unit(tuple((np.array(rest.up) + rng.normal(size=3) * rng.uniform(1e-3, 0.2)).tolist()))
        assert height(beside) >= low - 1e-7


PINTLE = """
job: Gate strap
units: in
pieces:
  strap:
    bar: 1 1/2 x 1/4
    metal: [{keep: rest, name: strap}]
    path: [{eye: 5/8, name: eye}, {straight: 14}]
  pintle:
    bar: 3/4 rd
    metal: [{as: 9/16 rd, over: 2 1/2, name: pin}, {keep: rest, name: shank}]
    path: [{straight: 2 1/2}, {corner: 90}, {straight: 6, name: long}]
joins:
  - {pin: 9/16, through: [pintle.pin, strap.eye]}
hang: {from: pintle.long, on: wall}
"""


def test_a_pintle_stands_upright_above_its_tail():
    a_set = of_job(PINTLE)
    found = hang(a_set, changes=False)
    point, axis = pin_of(a_set, found)
    assert abs(axis[2]) == pytest.approx(1.0, abs=1e-9)
    assert point[2] > 0
    (strap,) = numbers(a_set, "strap")
    assert found.poses[strap] != HERE
    assert any("stands its pin upright" in says for says in found.how)


TAIL = """
job: Peg
units: mm
pieces:
  peg:
    bar: 12 rd
    metal: [{keep: rest, name: all}]
    path: [{straight: LONG, name: tail}, {bend: 90, inside radius: 20, turn: up}, {straight: 150}]
hang: {from: peg.tail, on: wall}
"""


@pytest.mark.parametrize(("long", "deep"), [(800, 36), (300, 300), (80, 80)])
def test_a_tail_is_in_the_wall_as_far_as_named_or_where_that_is_most_of_it_three_times_its_thickness(long, deep):
    a_set = of_job(TAIL.replace("LONG", str(long)))
    pose = fixed_pose(a_set, a_set.held)
    end = min(put(pose, tuple(place))[0] for place in a_set.held.spot.seat.points.tolist())
    assert wall_face(a_set, a_set.held, pose) == pytest.approx(end + deep / 1000, abs=1e-6)
    says = hang(a_set).how[0]
    assert ("3 times as deep as it is thick" in says) is (long != deep)


def test_of_two_riveted_to_the_held_one_neither_is_left_out():
    """Whichever is named first in the rivet, the held body carries the others."""
    text = """
job: Three on one rivet
units: mm
pieces:
  one: {bar: 20 x 5, metal: [{keep: 150, name: all}], holes: [{size: 6, by: drill, at: 10, face: front, name: hole}]}
  two:
    bar: 20 x 5
    metal: [{keep: rest, name: all}]
    path: [{straight: 150, name: long}, {bend: 180, inside radius: 10, turn: up, name: top}, {straight: 20}]
    holes: [{size: 6, by: drill, at: 10, face: front, name: hole}]
joins:
  - {rivet: 6, through: [one.hole, two.hole], number: 1}
hang: {from: two.top, on: nail}
"""
    a_set = of_job(text)
    found = hang(a_set, changes=False)
    assert "hangs-on-nothing" not in [f.name for f in found.findings]
    weights = [(b.mass, np.array(put(p, b.centre))) for b, p in zip(a_set.bodies, found.poses, strict=True)]
    middle = sum(m * x for m, x in weights) / sum(m for m, _ in weights)
    assert middle[:2] == pytest.approx((0.0, 0.0), abs=1e-5)
