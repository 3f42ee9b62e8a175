"""Things that hang side by side on one place: they touch and do not lie in one another (exact mathematics)."""

import itertools
import math

import pytest
from hung_sets import of_job

from bickern.geometry.pose import put
from bickern.parts.hang.hang import hang
from bickern.parts.hang.result import HangResult

KEYS = """
job: Keys on a ring
units: mm
pieces:
  big:
    ring: 6 rd
    inside across: {across}
    closed: welded
  small:
    ring: {wire} rd
    inside across: 30
    closed: welded
    make: {count}
joins:
  - {{ring: big, through: [{names}]}}
hang: {{from: big, on: nail}}
"""


def keys(count: int, across: float = 80, wire: float = 5) -> HangResult:
    names = ", ".join(f"small {i}" for i in range(1, count + 1))
    return hang(of_job(KEYS.format(count=count, across=across, wire=wire, names=names)), changes=False)


@pytest.mark.parametrize("count", [2, 3, 4, 5])
def test_rings_on_one_ring_hang_plumb_and_touch(count: int):
    """Plumb discs 5 thick: their middles lie 5 apart, level, and as many to one side as to the other."""
    found = keys(count)
    small = found.poses[1:]
    for pose in small:
        assert pose.z[2] == pytest.approx(0.0, abs=1e-9)
    ways = sorted(pose.origin[0] for pose in small)
    assert [b - a for a, b in itertools.pairwise(ways)] == pytest.approx([0.005] * (count - 1), abs=1e-7)
    assert sum(ways) == pytest.approx(0.0, abs=1e-7)
    assert any(says.startswith("side by side") for says in found.how)


def test_each_wire_lies_on_the_metal_of_the_ring_it_hangs_on():
    """In the upright plane of the big ring each small ring's wire is a round 5 across, 80 / 2 - 2.5 from the middle."""
    found = keys(4)
    middle = found.poses[0].origin
    for pose in found.poses[1:]:
        top = (pose.origin[0], pose.origin[2] + 0.015 + 0.0025)  # the middle of its wire, where that is highest
        assert math.dist(top, (middle[0], middle[2])) == pytest.approx(0.040 - 0.0025, abs=1e-6)


def test_one_alone_hangs_in_the_middle():
    found = keys(1)
    assert put(found.poses[1], (0.0, 0.0, 0.0))[:2] == pytest.approx((0.0, 0.0), abs=1e-9)
    assert not any(says.startswith("side by side") for says in found.how)


RAIL = """
job: Rings on a level bar
units: mm
pieces:
  bar:
    bar: 10 rd
    metal: [{keep: rest, name: all}]
    path: [{straight: 400, name: rail}]
  thin:
    ring: 4 rd
    inside across: 40
    closed: welded
  thick:
    ring: 8 rd
    inside across: 40
    closed: welded
joins:
  - {ring: thin, through: [bar.rail]}
  - {ring: thick, through: [bar.rail]}
hang: {from: bar.start, on: hand}
"""


def test_on_a_level_bar_a_thin_and_a_thick_one_lie_half_of_each_apart():
    found = hang(of_job(RAIL), changes=False)
    assert abs(found.poses[1].origin[0] - found.poses[2].origin[0]) == pytest.approx(0.006, abs=1e-7)


def test_more_than_the_hollow_holds_do_not_stop_the_reckoning():
    found = keys(9, across=24, wire=5)
    assert len(found.poses) == 10
    assert all(math.isfinite(v) for pose in found.poses for v in pose.origin)
