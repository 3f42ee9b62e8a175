"""Skins drawn through loops: closed, the right way out, and exact where exact mathematics says what they hold."""

from math import cos, pi, sin

import numpy as np
import pytest
from numpy.typing import NDArray

from bickern.geometry.solid.solid import Solid
from bickern.geometry.solid.sweep import evened, hollow, revolved, ringed, swept
from bickern.geometry.solid.weigh import centre, is_closed, volume

Array = NDArray[np.float64]
SQUARE = np.array([(1, 0), (1, 1), (0, 1), (-1, 1), (-1, 0), (-1, -1), (0, -1), (1, -1)]) / 2


def level(outline: Array, z: float) -> Array:
    return np.column_stack((outline, np.full(len(outline), z)))


def circle(radius: float, z: float, n: int = 24) -> Array:
    turn = np.arange(n) * 2 * pi / n
    return level(np.column_stack((np.cos(turn), np.sin(turn))) * radius * evened(n), z)


def holds(solid: Solid, wanted: float) -> None:
    assert is_closed(solid)
    assert volume(solid) == pytest.approx(wanted, rel=1e-12)


def test_a_box() -> None:
    box = swept(np.array([level(SQUARE, 0.0), level(SQUARE, 3.0)]))
    holds(box, 3.0)
    assert centre(box) == pytest.approx((0.0, 0.0, 1.5))


def test_either_way_round_the_outside_is_outward() -> None:
    loops = np.array([level(SQUARE, 0.0), level(SQUARE, 1.0)])
    for turned in (loops, loops[::-1], loops[:, ::-1], loops[::-1, ::-1]):
        holds(swept(turned), 1.0)


def test_an_end_run_out_to_a_point_is_one_point() -> None:
    pyramid = swept(np.array([level(SQUARE, 0.0), level(SQUARE * 0.0, 1.0)]))
    holds(pyramid, 1 / 3)
    assert len(pyramid.points) == 8 + 1 + 1


def test_an_end_run_out_to_an_edge_has_no_cap() -> None:
    wedge = swept(np.array([level(SQUARE, 0.0), level(SQUARE * (1.0, 0.0), 1.0)]))
    holds(wedge, 1 / 2)
    assert len(wedge.points) == 8 + 1 + 3


def test_an_edge_whose_sides_do_not_match_is_closed_all_the_same() -> None:
    uneven = np.array([(0.5, 0.0), (0.2, 0.0), (-0.5, 0.0), (-0.1, 0.0)])
    box = np.array([(0.5, -0.5), (0.5, 0.5), (-0.5, 0.5), (-0.5, -0.5)])
    assert is_closed(swept(np.array([level(box, 0.0), level(uneven, 1.0)])))


@pytest.mark.parametrize("divisions", [8, 24, 60])
def test_a_twist_is_split_like_a_chess_board(divisions: int) -> None:
    """Ruled from section to section a square keeps 1 - (1 - cos t)/3 of itself (exact); split one way it does not."""
    step = 2 * pi / divisions
    turns = [np.array([(cos(i * step), sin(i * step)), (-sin(i * step), cos(i * step))]) for i in range(divisions + 1)]
    twisted = swept(np.array([level(SQUARE @ turn, i / divisions) for i, turn in enumerate(turns)]))
    holds(twisted, 1 - (1 - cos(step)) / 3)


def test_a_prism_of_many_sides_has_the_area_of_its_circle() -> None:
    holds(swept(np.array([circle(1.0, 0.0, 7), circle(1.0, 1.0, 7)])), pi)


def test_a_hollow_right_through() -> None:
    tube = hollow(np.array([circle(1.0, 0.0), circle(1.0, 1.0)]), [np.array([circle(0.5, 0.0), circle(0.5, 1.0)])])
    holds(tube, pi - pi / 4)


def test_a_hollow_that_runs_out_to_a_point_inside() -> None:
    outer = np.array([circle(1.0, 0.0), circle(1.0, 1.0)])
    holds(hollow(outer, [np.array([circle(0.5, 0.0), circle(0.0, 0.9)])], True, False), pi - 0.9 * pi / 12)
    holds(hollow(outer, [np.array([circle(0.0, 0.1), circle(0.5, 1.0)])], False, True), pi - 0.9 * pi / 12)


def test_hollows_shut_in() -> None:
    outer = np.array([circle(1.0, 0.0), circle(1.0, 1.0)])
    hollows = [np.array([circle(0.5, z), circle(0.5, z + 0.2)]) for z in (0.2, 0.6)]
    holds(hollow(outer, hollows, False, False), pi - 0.4 * pi / 4)


def test_a_tube_bent_round_has_no_ends() -> None:
    def around(thick: float, n: int = 12) -> Array:
        turn = np.arange(n) * 2 * pi / n
        out = np.column_stack((np.cos(turn), np.sin(turn), np.zeros(n)))
        return np.array([(3 + x) * out + (0.0, 0.0, z) for x, z in SQUARE * thick]).swapaxes(0, 1)

    # a twelfth of a turn keeps sin(d)/d of it (exact)
    kept = sin(pi / 6) / (pi / 6)
    holds(ringed(around(1.0), around(0.5)), 2 * pi * 3 * 0.75 * kept)


def test_a_profile_turned_about_an_axis() -> None:
    holds(revolved(np.array([(0.0, 0.0), (1.0, 0.0), (1.0, 2.0), (0.0, 2.0)]), 12), 2 * pi)
    holds(revolved(np.array([(0.0, 0.0), (1.0, 0.0), (0.0, 3.0)]), 12), pi)
    holds(revolved(np.array([(1.0, 0.0), (2.0, 0.0), (2.0, 1.0), (1.0, 1.0), (1.0, 0.0)]), 12), 3 * pi)


def test_points_that_stay_in_one_place_are_one_point() -> None:
    """A block with a sharp inside corner: its sections fan about one edge, x = y = 0, whose points stay there.

    Welded by their places, as other programs do, the triangles still close (no two points are in one place).
    """
    wide = np.linspace(0.0, 1.0, 3)
    section = np.array(
        [(x, z) for x, z in ((0, 0), (wide[1], 0), (1, 0), (1, 0.5), (1, 1), (wide[1], 1), (0, 1), (0, 0.5))]
    )
    fan = [(section[:, :1] * (cos(a), sin(a))) / max(cos(a), sin(a)) for a in (0.0, pi / 8, pi / 4, 3 * pi / 8, pi / 2)]
    block = swept(np.array([np.column_stack((xy, section[:, 1])) for xy in fan]))
    holds(block, 1.0)
    assert len(np.unique(np.round(block.points, 9), axis=0)) == len(block.points)
