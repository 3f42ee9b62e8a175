"""Things hung on a level hoop: friction keeps them where they are put (exact mathematics: moments about a point).

A hoop on equal ties from one point is stiff with them: it hangs with the balance of all plumb below that point.
"""

import math
from dataclasses import replace

import numpy as np
import pytest
from hung_sets import of_example, of_job

from bickern.geometry.pose import HERE, Pose
from bickern.geometry.space import unit
from bickern.parts.hang.hang import hang
from bickern.parts.hang.result import HangResult
from bickern.parts.set.result import Held, Link, SetResult, Spot, SpotKind
from bickern.parts.set.spots.seats import ring_seat

INCH = 0.0254
HIGH = 0.25
"""How far over the middle of the hoop the point is of one that hangs singly [m]."""

RACK = """
job: Rack
units: in
pieces:
  hoop:
    bar: 1/4 x 1
    closed: welded
    metal: [{{keep: rest, name: band}}]
    path: [{{hoop: {{mean across: 12}}, turn: up, way: easy}}]
    holes:
      - {{size: 1/2, by: punch, divide: 3, face: front, name: eyes}}
  side:
    ring: 3/16 rd
    inside across: 1
    inside long: 8
    make: 3
  top ring:
    ring: 3/8 rd
    inside across: 2
    closed: welded
  hook:
    bar: 1/4 rd
    metal: [{{keep: rest, name: all}}]
    path:
      - {{straight: 1/2}}
      - {{bend: 180, inside radius: 5/8, turn: left, name: rail bend}}
      - {{straight: 1 1/2}}
      - {{bend: 180, inside radius: 1/2, turn: right, name: pan bend}}
      - {{straight: 1/2}}
    make: {count}
joins:
  - {{ring: side 1, through: [top ring, hoop.eyes 1]}}
  - {{ring: side 2, through: [top ring, hoop.eyes 2]}}
  - {{ring: side 3, through: [top ring, hoop.eyes 3]}}
{hooks}
hang: {{from: top ring, on: hook}}
"""


def rack(count: int) -> SetResult:
    names = ("hook",) if count == 1 else tuple(f"hook {i}" for i in range(1, count + 1))
    rows = [f"  - {{hook: {name}.rail bend, on: hoop}}" for name in names]
    return of_job(RACK.format(count=count, hooks="\n".join(rows)))


def from_a_point(a_set: SetResult) -> SetResult:
    """The three side rings all on one point instead of the top ring, in which they would slide."""
    return replace(a_set, links=tuple(_pointed(link, a_set) for link in a_set.links))


def _pointed(link: Link, a_set: SetResult) -> Link:
    ends = [a_set.bodies[b].name == "top ring" for b in (link.first, link.second)]
    if not any(ends):
        return link
    point = ring_seat("point", Pose((0.0, -INCH, 0.0), (0.0, 0.0, 1.0), (1.0, 0.0, 0.0)), 0.0, 1e-5, (0.0, 0.0))
    one, other = (point if top else seat for top, seat in zip(ends, link.seats, strict=True))
    return replace(link, seats=(one, other))


def by_a_point(a_set: SetResult) -> SetResult:
    """The hoop alone with its hooks, hung by a point on its axis."""
    n = body_of(a_set, "hoop")
    middle, axis, _ = round_of(a_set)
    side = unit(tuple(np.cross(axis, (0.3, 0.5, 0.8))))
    upright = Pose(tuple(middle + HIGH * axis), side, tuple(axis))
    spot = Spot("point", SpotKind.EYE, HERE, seat=ring_seat("point", upright, 0.0, 1e-5, (0.0, 0.0)))
    links = tuple(
        link for link in a_set.links if "hook" in a_set.bodies[link.first].name + a_set.bodies[link.second].name
    )
    links = tuple(link for link in links if "top ring" not in {a_set.bodies[b].name for b in (link.first, link.second)})
    return replace(a_set, links=links, held=Held(n, a_set.bodies[n].parts[0], spot, "nail"))


def body_of(a_set: SetResult, name: str) -> int:
    return next(i for i, body in enumerate(a_set.bodies) if body.name == name)


def round_of(a_set: SetResult) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """The middle of the hoop, its axis, and its joint: the first place of its middle line."""
    seat = next(s for link in a_set.links for s in link.seats if s.name == "hoop")
    middle = seat.points.mean(axis=0)
    axis = np.cross(seat.points[0] - middle, seat.along[0])
    return middle, axis / np.linalg.norm(axis), seat.points[0]


def tilt_by_moments(a_set: SetResult, place: np.ndarray, load: float, high: float, ties: float = 0.0) -> float:
    """The angle between the hoop's axis and the line from the balance of all up to the point, `high` over its middle.

    `place` [m]: on the upper edge of the band. `ties` [kg]: half their weight, as high as the top of the holes.
    """
    middle, axis, _ = round_of(a_set)
    hoop = a_set.bodies[body_of(a_set, "hoop")]
    weights = [(hoop.mass, np.array(hoop.centre)), (load, place), (ties, middle + axis * INCH / 4)]
    balance = sum(mass * at for mass, at in weights) / sum(mass for mass, _ in weights)
    way = middle + high * axis - balance
    return math.acos(float(way @ axis) / float(np.linalg.norm(way)))


def edge(a_set: SetResult, turn: float) -> np.ndarray:
    """The upper edge of the band so far round from the joint [rad]."""
    middle, axis, joint = round_of(a_set)
    out = joint - middle
    return middle + out * math.cos(turn) + np.cross(axis, out) * math.sin(turn) + axis * INCH / 2


def apex_high() -> float:
    """From the middle of the hoop up to the point: rings 8 in long inside, from holes 1/2 in wide on a round of 12."""
    return (0.25 + math.sqrt(8.0**2 - 6.0**2)) * INCH


def hoop_tilt(found: HangResult) -> float:
    tilt = next(t for t in found.tilts if t.of == "hoop")
    assert tilt.off == "level"
    return tilt.angle


@pytest.mark.parametrize("count", [2, 3, 4])
def test_hooks_evenly_round_a_hoop_leave_it_level(count: int) -> None:
    found = hang(from_a_point(rack(count)))
    assert math.degrees(hoop_tilt(found)) < 0.05
    names = ", ".join(f"hook {i}" for i in range(1, count + 1))
    assert f"{names}: spread evenly round the hoop, where friction keeps them" in found.how
    assert not found.findings


def test_hooks_hang_half_a_share_from_the_joint_and_then_a_share_apart() -> None:
    a_set = rack(3)
    found = hang(from_a_point(a_set), changes=False)
    middle, axis, joint = round_of(a_set)
    hoop = found.poses[body_of(a_set, "hoop")]
    turns = []
    for touch in found.touches:
        if touch.upper_name == "hoop" and touch.lower_name.startswith("hook"):
            inside = np.array([hoop.x, hoop.y, hoop.z]) @ (np.array(touch.point) - np.array(hoop.origin))
            off, out = inside - middle, joint - middle
            turns.append(math.degrees(math.atan2(off @ np.cross(axis, out), off @ out)) % 360)
    assert turns == pytest.approx([60, 180, 300], abs=0.5)


@pytest.mark.parametrize("times", [0.5, 1.0, 2.0])
def test_one_hook_on_a_hoop_of_three_ties_tips_it_by_its_moment(times: float) -> None:
    a_set = rack(1)
    n = body_of(a_set, "hook")
    heavier = tuple(replace(b, mass=b.mass * times) if i == n else b for i, b in enumerate(a_set.bodies))
    a_set = replace(a_set, bodies=heavier)
    found = hang(from_a_point(a_set), changes=False)
    ties = math.fsum(b.mass for b in a_set.bodies if b.name.startswith("side")) / 2
    asked = tilt_by_moments(a_set, edge(a_set, math.pi), a_set.bodies[n].mass, apex_high(), ties)
    assert asked > math.radians(1)
    # the rings shift a little in their holes as it tips
    assert hoop_tilt(found) == pytest.approx(asked, rel=0.03)
    assert "hook: halfway round the hoop from its joint, where friction keeps it" in found.how


def test_all_on_one_side_between_two_ties_tips_it_by_their_moment() -> None:
    a_set = rack(2)
    found = hang(from_a_point(a_set))
    change = next(c for c in found.changes if c.says == "all on one side of the hoop")
    load = 2 * a_set.bodies[body_of(a_set, "hook 1")].mass
    ties = math.fsum(b.mass for b in a_set.bodies if b.name.startswith("side")) / 2
    asked = tilt_by_moments(a_set, edge(a_set, math.pi), load, apex_high(), ties)
    assert change.tilts[0].angle == pytest.approx(asked, rel=0.03)


def test_a_hoop_that_hangs_singly_keeps_them_too() -> None:
    two = by_a_point(rack(2))
    found = hang(two)
    assert math.degrees(hoop_tilt(found)) < 0.05
    change = next(c for c in found.changes if c.says == "all on one side of the hoop")
    load = 2 * two.bodies[body_of(two, "hook 1")].mass
    assert change.tilts[0].angle == pytest.approx(tilt_by_moments(two, edge(two, 1.0), load, HIGH), abs=1e-4)
    one = by_a_point(rack(1))
    asked = tilt_by_moments(one, edge(one, math.pi), one.bodies[body_of(one, "hook")].mass, HIGH)
    assert hoop_tilt(hang(one)) == pytest.approx(asked, abs=1e-4)


def test_heavy_ones_all_on_one_side_slide() -> None:
    a_set = rack(2)
    heavy = tuple(replace(b, mass=b.mass * (500 if b.name.startswith("hook") else 1)) for b in a_set.bodies)
    found = hang(by_a_point(replace(a_set, bodies=heavy)))
    assert math.degrees(hoop_tilt(found)) < 0.05
    assert any(c.says == "all on one side of the hoop: it tips so far that they slide" for c in found.changes)


def test_even_hooks_change_nothing_of_how_a_rack_hangs_on_its_top_ring() -> None:
    """The three ties slide in the top ring, which tips the bare hoop; two even hooks leave it as it is."""
    bare = hang(of_job(RACK.format(count=1, hooks="")), changes=False)
    found = hang(rack(2))
    assert not [f for f in found.findings if f.name in ("finds-no-rest", "slides-off")]
    assert math.degrees(hoop_tilt(found)) == pytest.approx(math.degrees(hoop_tilt(bare)), abs=0.05)


@pytest.mark.parametrize("name", ["porch-lantern", "crane-chain", "rail-s-hook"])
def test_where_nothing_hangs_on_a_level_loop_nothing_is_spread(name: str) -> None:
    assert not [says for says in hang(of_example(name), changes=False).how if "friction keeps" in says]
