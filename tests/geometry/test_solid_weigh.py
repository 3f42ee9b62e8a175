"""What is weighed of closed skins: exact mathematics of boxes and bodies of flat faces."""

import math

import numpy as np
import pytest

from bickern.geometry.pose import Pose, turning
from bickern.geometry.solid.solid import Solid, moved
from bickern.geometry.solid.weigh import bounds, centre, inertia, is_closed, volume

SIX = ((0, 2, 1), (0, 3, 2), (4, 5, 6), (4, 6, 7), (0, 1, 5), (0, 5, 4), (1, 2, 6), (1, 6, 5), (2, 3, 7), (2, 7, 6),
       (3, 0, 4), (3, 4, 7))  # fmt: skip


def box(x: float, y: float, z: float) -> Solid:
    """A box about the origin."""
    corners = [(a * x / 2, b * y / 2, c * z / 2) for c in (-1, 1) for a, b in ((-1, -1), (1, -1), (1, 1), (-1, 1))]
    return Solid(np.array(corners), np.array(SIX, dtype=np.int32))


def test_a_box() -> None:
    a, b, c = 0.3, 0.2, 0.05
    solid = moved(box(a, b, c), Pose((1.0, 2.0, -3.0)))
    assert volume(solid) == pytest.approx(a * b * c, rel=1e-12)
    assert centre(solid) == pytest.approx((1.0, 2.0, -3.0), abs=1e-12)
    whole = a * b * c / 12
    exact = np.diag([whole * (b * b + c * c), whole * (a * a + c * c), whole * (a * a + b * b)])
    assert inertia(solid) == pytest.approx(exact, rel=1e-9, abs=1e-15)
    assert bounds(solid) == ((0.85, 1.9, -3.025), (1.15, 2.1, -2.975))


def test_a_corner_cut_off_a_cube() -> None:
    """A tetrahedron of three square edges: volume 1/6, centre 1/4, moment about an edge through the centre 1/80 * 1."""
    solid = Solid(np.vstack([np.zeros(3), np.eye(3)]), np.array([(0, 2, 1), (0, 1, 3), (0, 3, 2), (1, 2, 3)], np.int32))
    assert volume(solid) == pytest.approx(1 / 6)
    assert centre(solid) == pytest.approx((0.25, 0.25, 0.25))
    # integrals over it: x^2 1/60, x y 1/120; the centre's part 1/96 taken off
    own, mixed = 1 / 60 - 1 / 96, 1 / 120 - 1 / 96
    assert inertia(solid) == pytest.approx(np.full((3, 3), -mixed) + np.eye(3) * (2 * own + mixed))


def test_turning_a_solid_turns_its_inertia_and_a_far_one_loses_nothing() -> None:
    solid = box(0.3, 0.2, 0.05)
    pose = turning((50.0, -20.0, 30.0), (0.6, 0.0, 0.8), 1.1)
    turn = np.array((pose.x, pose.y, pose.z)).T
    assert inertia(moved(solid, pose)) == pytest.approx(turn @ inertia(solid) @ turn.T, rel=1e-9, abs=1e-14)


def test_inside_out_is_negative() -> None:
    solid = box(1, 1, 1)
    assert volume(Solid(solid.points, solid.faces[:, ::-1])) == pytest.approx(-1.0)


def test_what_is_closed() -> None:
    solid = box(1, 1, 1)
    assert is_closed(solid)
    assert not is_closed(Solid(solid.points, solid.faces[1:]))
    flipped = solid.faces.copy()
    flipped[0] = flipped[0][::-1]
    assert not is_closed(Solid(solid.points, flipped))
    assert not is_closed(Solid(solid.points, np.vstack([solid.faces, solid.faces])))
    assert not is_closed(Solid(solid.points, solid.faces[:0]))


def test_nothing_balances_nowhere() -> None:
    empty = Solid(np.zeros((0, 3)), np.zeros((0, 3), dtype=np.int32))
    assert volume(empty) == 0.0
    assert math.isclose(volume(Solid(box(1, 1, 1).points, np.zeros((0, 3), dtype=np.int32))), 0.0)
    with pytest.raises(ValueError, match="no metal"):
        centre(empty)
