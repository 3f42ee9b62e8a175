"""How a set without a hold is stood for its picture: feet down, and on its broad side rather than its edge."""

import math

import numpy as np
import pytest

from bickern.desk.whole.standing import stood
from bickern.geometry.pose import Pose, put, put_all
from bickern.geometry.space import cross, dot


def circle(radius: float, height: float) -> np.ndarray:
    turns = np.linspace(0, 2 * math.pi, 60, endpoint=False)
    return np.column_stack([radius * np.cos(turns), radius * np.sin(turns), np.full(60, height)])


def trivet() -> tuple[np.ndarray, tuple[float, float, float]]:
    """A band of 3 1/2 in radius between 1 1/2 and 2 1/4 in high, on three feet; it balances high."""
    feet = np.array([(3.7 * math.cos(a), 3.7 * math.sin(a), 0.0) for a in (0.0, 2.1, 4.2)])
    return np.vstack([circle(3.5, 1.5), circle(3.5, 2.25), feet]), (0.0, 0.0, 1.7)


TURNS = [
    Pose(),
    Pose(x=(0.0, 1.0, 0.0), y=(0.0, 0.0, 1.0)),
    Pose(x=(0.0, 0.0, 1.0), y=(1.0, 0.0, 0.0)),
    Pose(x=(1.0, 0.0, 0.0), y=(0.0, -1.0, 0.0)),
    Pose(origin=(5.0, -2.0, 1.0), x=(0.0, 0.0, -1.0), y=(0.0, 1.0, 0.0)),
]


@pytest.mark.parametrize("drawn", TURNS, ids=str)
def test_a_trivet_stands_on_its_feet_however_it_is_drawn(drawn: Pose):
    points, centre = trivet()
    pose = stood(put_all(drawn, points), put(drawn, centre))
    there = put_all(pose, put_all(drawn, points))
    heights = there[:, 2] - there[:, 2].min()
    assert sorted(heights)[:3] == pytest.approx([0, 0, 0], abs=1e-9)
    assert heights.max() == pytest.approx(2.25)
    assert sum(heights < 0.1) == 3  # the feet alone touch the ground


def test_a_stick_on_a_plate_stands_on_its_plate():
    plate, stick = circle(3.0, 0.0), circle(0.2, 9.0)
    upside_down = Pose(x=(1.0, 0.0, 0.0), y=(0.0, -1.0, 0.0))
    points = put_all(upside_down, np.vstack([plate, circle(3.0, 0.25), stick]))
    heights = put_all(stood(points, put(upside_down, (0.0, 0.0, 2.0))), points)[:, 2]
    assert heights[:60] == pytest.approx(heights.min(), abs=1e-9)


def test_a_flat_thing_lies_flat():
    points = np.array([(x, y, z) for x in (0, 10) for y in (0, 0.5) for z in (0, 3)], float)
    heights = put_all(stood(points, (5.0, 0.25, 1.5)), points)[:, 2]
    assert heights.max() - heights.min() == pytest.approx(0.5)


@pytest.mark.parametrize("drawn", TURNS, ids=str)
def test_the_pose_is_a_turn_and_mirrors_nothing(drawn: Pose):
    points, centre = trivet()
    pose = stood(put_all(drawn, points), put(drawn, centre))
    assert dot(pose.x, pose.y) == pytest.approx(0)
    assert dot(cross(pose.x, pose.y), pose.z) == pytest.approx(1)
