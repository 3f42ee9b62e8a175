"""One body at rest: hung by one track, with loads in the valleys of others.

All weights pull plumb, so each body settles by itself. With u the up direction told in the body's own coordinates, its
height of all weights below the place that carries it is f(u) = W c.u + sum W_j low_j(u) - (W + sum W_j) high(u), and it
rests where f is least: where the moment of all weights about the place it is carried by is nothing. The derivative of f
is that lever itself, W c + sum W_j x_j - (W + sum W_j) x, with x the places on the metal.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

import numpy as np

from bickern.geometry.space import Vec, cross, dot, minus, mixed, norm, plus, times, unit
from bickern.parts.hang.swung import Swung, balanced, balanced_heights
from bickern.parts.hang.track import OVER, UNDER, Bearing, Track, bearing, coarse

if TYPE_CHECKING:
    from numpy.typing import NDArray

WAYS = 400
"""Directions looked at before the settling begins: about 11 degrees apart."""
STARTS = 4
_STEP = 1e-6
_STILL = 1e-10
_NEARLY = 1e-6
"""Levers below this share of the whole are at rest where no step brings it lower, or the rounds are used up."""
_SLACK = 1e-6
"""Heights nearer than this share are alike: between stations a taper is not quite even, and rest decides."""
_ROUNDS = 60
_HALVINGS = 40


@dataclass(frozen=True, slots=True)
class Load:
    """What hangs on a body: its mass [kg] with all below it, on a track, a pin or one place in the body's coordinates.

    On one place (a `Bearing`) it stays whichever way the body turns.
    """

    mass: float
    track: Track | Swung | Bearing


@dataclass(frozen=True, slots=True)
class Hung:
    """A body to settle: its own mass [kg] and centre [m], the track it is carried by, and its loads."""

    mass: float
    centre: Vec
    carried: Track
    loads: tuple[Load, ...] = ()

    @property
    def total(self) -> float:
        """All that it puts on what carries it [kg]."""
        return self.mass + math.fsum(load.mass for load in self.loads)


@dataclass(frozen=True, slots=True)
class Rest:
    """A body at rest: which way is `up` in its own coordinates, where it is carried and where its loads bear."""

    up: Vec
    carried: Bearing
    loads: tuple[Bearing, ...]


Lever = Callable[[Vec], Vec | None]
"""From an up direction to the lever of all weights about the place they are carried by [kg m]; None: slides off."""


def settle(hung: Hung) -> Rest | None:
    """How a body comes to rest; None where it slides off the end of what it hangs by (or what hangs on it does)."""
    return rest_at(hung, up) if (up := least(lambda u: lever(hung, u), _starts(hung), _scale(hung))) else None


def rest_at(hung: Hung, up: Vec) -> Rest | None:
    """Where a body bears with `up` upward, whether it rests there or not."""
    carried = bearing(hung.carried, up, UNDER)
    loads = [borne(load, up) for load in hung.loads]
    there = tuple(b for b in loads if b is not None)
    return Rest(up, carried, there) if carried and len(there) == len(loads) else None


def borne(load: Load, up: Vec) -> Bearing | None:
    """Where a load bears with `up` upward; of what turns on a pin, where it balances then. None: nowhere."""
    if isinstance(load.track, Bearing):
        return load.track
    if isinstance(load.track, Track):
        return bearing(load.track, up, OVER)
    place = balanced(load.track, up)
    return Bearing(place, place, load.track.pin.axis, 0.0, math.inf, 0)


def lever(hung: Hung, up: Vec) -> Vec | None:
    """The lever of all weights about the place that carries them [kg m]; its part along `up` is the height f."""
    rest = rest_at(hung, up)
    return levelled(hung, rest.carried.point, tuple(b.point for b in rest.loads)) if rest else None


def levelled(hung: Hung, carried: Vec, loads: tuple[Vec, ...]) -> Vec:
    """The lever of the weights at given places about another [kg m]."""
    arm = times(minus(hung.centre, carried), hung.mass)
    for load, place in zip(hung.loads, loads, strict=True):
        arm = plus(arm, times(minus(place, carried), load.mass))
    return arm


def _scale(hung: Hung) -> float:
    """Mass times size [kg m]: what a lever is held against."""
    return hung.total * float(np.ptp(np.vstack((hung.carried.points, hung.centre)), axis=0).max() + 1e-6)


@lru_cache(maxsize=1)
def _ways() -> "NDArray[np.float64]":
    """Directions spread evenly over the sphere: a spiral whose turns are the golden angle."""
    k = np.arange(WAYS) + 0.5
    z = 1 - 2 * k / WAYS
    turn = k * math.pi * (3 - math.sqrt(5))
    r = np.sqrt(1 - z * z)
    return np.column_stack((r * np.cos(turn), r * np.sin(turn), z))


def _starts(hung: Hung) -> tuple[Vec, ...]:
    """The lowest directions, well apart, from which to settle: lowest first."""
    ways = _ways()
    f = hung.mass * (ways @ np.array(hung.centre)) - hung.total * coarse(hung.carried, ways, UNDER)
    for load in hung.loads:
        f = f + load.mass * _heights(load, ways)
    order = np.argsort(f)
    found: list[NDArray[np.float64]] = []
    for i in order[: int(np.isfinite(f).sum())]:
        if all(float(ways[i] @ other) < 0.9 for other in found):
            found.append(ways[i])
        if len(found) == STARTS:
            break
    return tuple((float(w[0]), float(w[1]), float(w[2])) for w in found)


def _heights(load: Load, ways: "NDArray[np.float64]") -> "NDArray[np.float64]":
    if isinstance(load.track, Bearing):
        return np.asarray(ways @ np.array(load.track.point))
    return balanced_heights(load.track, ways) if isinstance(load.track, Swung) else coarse(load.track, ways, OVER)


def least(lever_at: Lever, starts: tuple[Vec, ...], scale: float) -> Vec | None:
    """The up direction of least height, sought from each start; the lowest of those that are at rest."""
    found = [up for start in starts[:2] if (up := descend(lever_at, start, scale))]
    if not found:
        found = [up for start in starts[2:] if (up := descend(lever_at, start, scale))]
    return min(found, key=lambda up: _height(lever_at, up), default=None)


def _height(lever_at: Lever, up: Vec) -> float:
    arm = lever_at(up)
    return math.inf if arm is None else dot(arm, up)


def descend(lever_at: Lever, start: Vec, scale: float) -> Vec | None:
    """Downhill from one start by Newton's steps on the sphere; None where it ends anywhere but at rest."""
    up = start
    arm = lever_at(up)
    for _ in range(_ROUNDS):
        if arm is None:
            return None
        east, north = square_to(up)
        slope = (dot(arm, east), dot(arm, north))
        if math.hypot(*slope) < _STILL * scale:
            return up
        step = _newton(lever_at, up, arm, (east, north), slope, scale)
        moved = _lower(lever_at, up, arm, (east, north), step)
        if moved is None:
            return up if math.hypot(*slope) < _NEARLY * scale else None
        up, arm = moved
    return up if arm is not None and norm(cross(arm, up)) < _NEARLY * scale else None


def square_to(up: Vec) -> tuple[Vec, Vec]:
    """Two unit vectors square to `up` and to each other."""
    side = (1.0, 0.0, 0.0) if abs(up[0]) < 0.6 else (0.0, 1.0, 0.0)
    east = unit(cross(side, up))
    return east, cross(up, east)


def _turned(up: Vec, axes: tuple[Vec, Vec], step: tuple[float, float]) -> Vec:
    return unit(plus(up, mixed(axes[0], step[0], axes[1], step[1])))


def _newton(
    lever_at: Lever, up: Vec, arm: Vec, axes: tuple[Vec, Vec], slope: tuple[float, float], scale: float
) -> tuple[float, float]:
    """The step to where the slope would be nothing; always downhill, and none along what lies neutral."""
    rows = []
    for axis in axes:
        beside = lever_at(unit(mixed(up, 1.0, axis, _STEP)))
        change = times(minus(beside, arm), 1 / _STEP) if beside else (0.0, 0.0, 0.0)
        rows.append((dot(change, axes[0]), dot(change, axes[1])))
    f = dot(arm, up)
    a, b, c = rows[0][0] - f, (rows[0][1] + rows[1][0]) / 2, rows[1][1] - f
    return _downhill((a, b, c), slope, 1e-7 * scale)


def _downhill(bend: tuple[float, float, float], slope: tuple[float, float], least_bend: float) -> tuple[float, float]:
    """Minus the slope over the size of the bend, along each of the two main directions of a 2 by 2 symmetric bend."""
    a, b, c = bend
    middle, off = (a + c) / 2, math.hypot((a - c) / 2, b)
    turn = 0.5 * math.atan2(2 * b, a - c)
    step = (0.0, 0.0)
    for value, angle in ((middle + off, turn), (middle - off, turn + math.pi / 2)):
        way = (math.cos(angle), math.sin(angle))
        push = slope[0] * way[0] + slope[1] * way[1]
        long = -push / max(abs(value), least_bend)
        step = (step[0] + long * way[0], step[1] + long * way[1])
    long = math.hypot(*step)
    return step if long < 0.4 else (step[0] * 0.4 / long, step[1] * 0.4 / long)


def _lower(
    lever_at: Lever, up: Vec, arm: Vec, axes: tuple[Vec, Vec], step: tuple[float, float]
) -> tuple[Vec, Vec] | None:
    """The whole step, or as much of it as comes lower and no farther than where it turns uphill: found by halving.

    Where a flat lies on a straight the bend is a thousand times what it is beside it, and whole steps jump over.
    """
    f, way = dot(arm, up), mixed(axes[0], step[0], axes[1], step[1])
    fall, low, high, best = dot(arm, way), 0.0, 1.0, None
    share = 1.0
    for _ in range(_HALVINGS):
        there = _turned(up, axes, (step[0] * share, step[1] * share))
        found = lever_at(there)
        slope = dot(found, minus(way, times(there, dot(way, there)))) if found else 0.0
        if found is None or dot(found, there) > f + _SLACK * abs(f) or slope > -0.3 * fall:
            high = share
        else:
            best = (there, found)
            if slope > 0.3 * fall or share == 1.0:
                break
            low = share
        share = (low + high) / 2
    return best
