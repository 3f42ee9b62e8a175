"""Solids joined and cut: volumes of boxes, exact mathematics; what is cut stays closed."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bickern.geometry.pose import Pose, turning
from bickern.geometry.solid.combine import NOTHING, gathered, joined, overlap, shared, without
from bickern.geometry.solid.solid import Solid, moved
from bickern.geometry.solid.sweep import revolved
from bickern.geometry.solid.weigh import bounds, is_closed, volume

CORNERS = np.array([(x, y, z) for z in (0, 1) for x, y in ((0, 0), (1, 0), (1, 1), (0, 1))], dtype=float)
FACES = np.array([(0, 2, 1), (0, 3, 2), (4, 5, 6), (4, 6, 7), (0, 1, 5), (0, 5, 4), (1, 2, 6), (1, 6, 5), (2, 3, 7),
                  (2, 7, 6), (3, 0, 4), (3, 4, 7)], dtype=np.int32)  # fmt: skip


def box(low: tuple[float, float, float], high: tuple[float, float, float]) -> Solid:
    return Solid(np.array(low) + CORNERS * (np.array(high) - np.array(low)), FACES)


CUBE = box((0, 0, 0), (1, 1, 1))
HALF_IN = box((0.5, 0.5, 0.5), (1.5, 1.5, 1.5))


def test_two_cubes_that_share_an_eighth() -> None:
    assert overlap(CUBE, HALF_IN) == pytest.approx(0.125, rel=1e-12)
    for made, exact in (
        (joined(CUBE, HALF_IN), 1.875),
        (without(CUBE, HALF_IN), 0.875),
        (shared(CUBE, HALF_IN), 0.125),
    ):
        assert volume(made) == pytest.approx(exact, rel=1e-12)
        assert is_closed(made)


def test_a_plate_of_real_size_with_square_holes() -> None:
    """A 1 mm sheet of 200 mm with two holes of 5 mm, one punch just through, one far through."""
    plate = box((0, 0, 0), (0.2, 0.2, 0.001))
    holes = box((0.05, 0.05, -1e-6), (0.055, 0.055, 0.001 + 1e-6)), box((0.1, 0.1, -1), (0.105, 0.105, 1))
    cut = without(plate, *holes)
    assert is_closed(cut)
    assert volume(cut) == pytest.approx(0.001 * (0.04 - 2 * 0.005**2), rel=1e-9)


def test_what_touches_shares_nothing_and_joins_to_one_skin() -> None:
    beside = box((1, 0, 0), (2, 1, 1))
    assert overlap(CUBE, beside) == pytest.approx(0.0, abs=1e-12)
    both = joined(CUBE, beside)
    assert volume(both) == pytest.approx(2.0)
    assert is_closed(both)


def test_a_tool_beside_cuts_nothing_and_one_all_round_leaves_nothing() -> None:
    assert volume(without(CUBE, box((2, 2, 2), (3, 3, 3)))) == pytest.approx(1.0)
    left = without(CUBE, box((-1, -1, -1), (2, 2, 2)))
    assert len(left.faces) == 0
    assert overlap(CUBE, left) == 0.0
    assert without(CUBE) is CUBE


def test_gathered_keeps_both_skins() -> None:
    both = gathered(CUBE, moved(CUBE, Pose((3.0, 0.0, 0.0))))
    assert volume(both) == pytest.approx(2.0)
    assert is_closed(both)
    assert bounds(both) == ((0.0, 0.0, 0.0), (4.0, 1.0, 1.0))
    assert gathered() is NOTHING


def test_an_open_skin_is_a_fault_of_ours() -> None:
    with pytest.raises(ValueError, match="not closed"):
        joined(CUBE, Solid(CUBE.points, CUBE.faces[1:]))


@settings(deadline=None, max_examples=40)
@given(st.floats(0, 6.3), st.tuples(*[st.floats(-0.8, 0.8)] * 3))
def test_what_two_share_and_what_is_left_make_up_the_whole(angle: float, place: tuple[float, float, float]) -> None:
    tool = moved(moved(CUBE, turning((0.5, 0.5, 0.5), (0.6, 0.64, 0.48), angle)), Pose(place))
    assert volume(without(CUBE, tool)) + overlap(CUBE, tool) == pytest.approx(1.0, abs=1e-9)
    assert volume(joined(CUBE, tool)) + overlap(CUBE, tool) == pytest.approx(2.0, abs=1e-9)


def test_a_skin_that_is_locked_can_be_cut_as_well():
    locked = revolved(np.array(((0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0))), 24)
    locked.points.flags.writeable = locked.faces.flags.writeable = False
    assert volume(without(locked, locked)) == pytest.approx(0.0, abs=1e-9)
