"""Where two things that hang in one another bear: the places on their middle lines that come nearest."""

from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np

from bickern.geometry.pose import Pose, put_all, then
from bickern.geometry.space import Vec, dot, minus, mixed, norm, plus, times, unit
from bickern.parts.set.result import Link, Seat, SetResult, Spot, SpotKind

if TYPE_CHECKING:
    from numpy.typing import NDArray

BETWEEN = 16
"""Places looked at between two stations of a seat."""


@dataclass(frozen=True, slots=True)
class Through:
    """A wire in a hole: the hole's `middle` [m] and `axis` in the hanging set, and how far what hangs must be moved
    that the wire runs through the middle, half of its own sag above it [m].
    """

    middle: Vec
    axis: Vec
    lift: Vec
    in_upper: bool


@dataclass(frozen=True, slots=True)
class Contact:
    """Two parts by number, the places on their middle lines where they bear [m] and the way the lines run there.

    `reach` [m]: how far the metal of the upper goes from its middle line there. `spots`: the names of the places.
    """

    upper: int
    lower: int
    on_upper: Vec
    on_lower: Vec
    along_upper: Vec
    along_lower: Vec
    reach: float
    spots: tuple[str, str]
    hole: Through | None = None


@dataclass(frozen=True, slots=True, eq=False)
class _Laid:
    """A seat in the hanging set: places (n, 3) [m], ways the line runs (n, 3), half the mean thickness (n,) [m]."""

    points: "NDArray[np.float64]"
    along: "NDArray[np.float64]"
    half: "NDArray[np.float64]"
    closed: bool


def contact_of(whole: SetResult, poses: tuple[Pose, ...], link: Link, upper: int) -> Contact:
    """Where the two things of a link bear, `upper` being the body that carries."""
    i, j = (0, 1) if link.first == upper else (1, 0)
    bodies = (link.first, link.second)
    above, below = (_laid(link.seats[k], poses[bodies[k]]) for k in (i, j))
    at, on = _nearest(above, below)
    above, below = _finer(above, at), _finer(below, on)
    at, on = _nearest(above, below)
    return Contact(
        link.parts[i],
        link.parts[j],
        _vec(above.points[at]),
        _vec(below.points[on]),
        unit(_vec(above.along[at])),
        unit(_vec(below.along[on])),
        float(np.hypot(*link.seats[i].half.max(axis=0))),
        (link.spots[i].name, link.spots[j].name),
        _through(whole, poses, link, (i, j), (above, below), (at, on)),
    )


def _through(
    whole: SetResult,
    poses: tuple[Pose, ...],
    link: Link,
    order: tuple[int, int],
    laid: tuple[_Laid, _Laid],
    at: tuple[int, int],
) -> Through | None:
    """The hole that one of the two runs through, if it is a hole."""
    for side in (0, 1):
        spot: Spot = link.spots[order[side]]
        if spot.kind is not SpotKind.OPENING:
            continue
        part = whole.parts[link.parts[order[side]]]
        pose = then(then(poses[part.body], part.pose), spot.pose)
        wire, here = laid[1 - side], at[1 - side]
        middle, place = pose.origin, _vec(wire.points[here])
        aim = plus(middle, times(_bow(wire, here), -(spot.plate**2) / 16))
        lift = minus(aim, place) if side == 0 else minus(place, aim)
        return Through(middle if side == 0 else plus(middle, lift), unit(pose.z), lift, side == 0)
    return None


def _bow(laid: _Laid, at: int) -> Vec:
    """How the line bends [1/m], toward the middle of its bow."""
    before, after = max(at - 1, 0), min(at + 1, len(laid.points) - 1)
    turn = minus(unit(_vec(laid.along[after])), unit(_vec(laid.along[before])))
    long = norm(minus(_vec(laid.points[after]), _vec(laid.points[before])))
    along = unit(_vec(laid.along[at]))
    bend = mixed(turn, 1.0, along, -dot(turn, along))
    return times(bend, 1 / long) if long > 0 else (0.0, 0.0, 0.0)


def _laid(seat: Seat, pose: Pose) -> _Laid:
    axes = np.array((pose.x, pose.y, pose.z))
    return _Laid(put_all(pose, seat.points), seat.along @ axes, seat.half.mean(axis=1), seat.closed)


def _nearest(above: _Laid, below: _Laid) -> tuple[int, int]:
    """The stations of both that come nearest to one another, their thickness taken off."""
    apart = np.linalg.norm(above.points[:, None] - below.points[None], axis=2)
    apart -= above.half[:, None] + below.half[None]
    at, on = np.unravel_index(int(apart.argmin()), apart.shape)
    return int(at), int(on)


def _finer(laid: _Laid, at: int) -> _Laid:
    """The line from the station before to the station after, as curves that run the way it runs at the stations."""
    n = len(laid.points)
    near = [at - 1, at, at + 1]
    near = [k % n for k in near] if laid.closed else [k for k in near if 0 <= k < n]
    pieces = [_curve(laid, a, b) for a, b in pairwise(near) if a != b]
    points, along, half = (np.concatenate([p[k] for p in pieces]) for k in range(3))
    return _Laid(points, along, half, closed=False)


def _curve(laid: _Laid, a: int, b: int) -> "tuple[NDArray[np.float64], NDArray[np.float64], NDArray[np.float64]]":
    """Hermite's cubic between two stations."""
    t = np.linspace(0.0, 1.0, BETWEEN + 1)[:, None]
    p, q = laid.points[a], laid.points[b]
    long = float(np.linalg.norm(q - p))
    u, v = laid.along[a] * long, laid.along[b] * long
    points = (2 * t**3 - 3 * t**2 + 1) * p + (t**3 - 2 * t**2 + t) * u + (3 * t**2 - 2 * t**3) * q + (t**3 - t**2) * v
    along = (6 * t**2 - 6 * t) * (p - q) + (3 * t**2 - 4 * t + 1) * u + (3 * t**2 - 2 * t) * v
    half = (1 - t[:, 0]) * laid.half[a] + t[:, 0] * laid.half[b]
    return points, along, half


def _vec(row: "NDArray[np.float64]") -> Vec:
    return (float(row[0]), float(row[1]), float(row[2]))
