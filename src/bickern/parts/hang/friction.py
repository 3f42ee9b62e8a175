"""The band in which friction can hold a body off its rest.

Where two bars bear, the push between them may lean from square by the angle of friction, atan(mu). So a body may be
held as long as it bears at a place whose normal leans no more than that from plumb, and is balanced plumb below that
place; what hangs on it may bear as far off its own valley. For a loaded S-hook of inside radius r whose bends' middles
are D apart, that is sin(turn) = 2 r sin(atan mu) / D either way.
"""

import math
from dataclasses import dataclass

from bickern.geometry.space import Vec, cross, dot, minus, norm, plus, times, turned, unit
from bickern.measure.known import Known
from bickern.measure.source import Kind, Source
from bickern.parts.hang.settle import Hung, Rest, borne
from bickern.parts.hang.track import UNDER, bearing

IRON_ON_IRON = Known(
    0.5,
    "1",
    Source(
        "",
        "common tables of friction, steel on steel at rest",
        None,
        "between 0.27 (thick oxide film) and 0.78 (clean and dry), quoted by secondary pages",
        Kind.COMMON,
    ),
)
"""Friction of dry, scaled iron on iron at rest: a middling figure, for a band that is wide."""
_CLOSE = 1e-6
_TRIES = 30


@dataclass(frozen=True, slots=True)
class Band:
    """How far a body may be held turned about an axis from its rest [rad]: `back` (at most 0) and `forth`."""

    back: float
    forth: float


def band(hung: Hung, rest: Rest, axis: Vec, friction: float) -> Band:
    """The turns about a level `axis` (in the body's coordinates) at which friction can hold it."""
    lean = math.atan(friction)
    forth = max(_held(hung, rest, axis, lean, aside) for aside in (lean, -lean, 0.0))
    back = max(_held(hung, rest, times(axis, -1.0), lean, aside) for aside in (lean, -lean, 0.0))
    return Band(-back, forth)


def _held(hung: Hung, rest: Rest, axis: Vec, lean: float, aside: float) -> float:
    """The farthest turn one way about `axis`, the loads bearing `aside` [rad] off their valleys."""
    if not hung.loads and aside:
        return 0.0
    low, high = (0.0, 0.0), math.pi / 2
    guess = lean
    for _ in range(_TRIES):
        found = _balanced(hung, rest, turned(rest.up, axis, guess), axis, aside)
        if found is None or _leans(rest.up, found, axis, guess) > lean:
            high = guess
        else:
            low = (guess, _turn(rest.up, found, axis))
            if _leans(rest.up, found, axis, guess) > lean - _CLOSE:
                break
        if high - low[0] < _CLOSE:
            break
        guess = _next(low[0], high, guess, lean, found, rest.up, axis)
    return max(low[1], 0.0)


def _next(low: float, high: float, guess: float, lean: float, found: Vec | None, up: Vec, axis: Vec) -> float:
    """Where the lean would be all used up if it went on as it has; halfway where that is outside."""
    if found is not None:
        now = _leans(up, found, axis, guess)
        wanted = guess * (lean - 0.3 * _CLOSE) / now if now > 0 else high
        if low < wanted < high:
            return wanted
    return (low + high) / 2


def _turn(up: Vec, there: Vec, axis: Vec) -> float:
    """The turn about an axis from one up direction to another [rad]."""
    return math.atan2(dot(cross(up, there), axis), dot(up, there))


def _leans(up: Vec, there: Vec, axis: Vec, normal: float) -> float:
    """How far the push leans from square: the turn of the metal's normal less that of plumb."""
    return normal - _turn(up, there, axis)


def _balanced(hung: Hung, rest: Rest, normal: Vec, axis: Vec, aside: float) -> Vec | None:
    """Which way is up when it bears where its metal's normal is `normal`, and is balanced plumb below."""
    carried = bearing(hung.carried, normal, UNDER)
    up = rest.up
    for _ in range(8 if hung.loads else 1):
        middle = _balance(hung, turned(up, axis, aside))
        if carried is None or middle is None:
            return None
        arm = minus(carried.point, middle)
        if norm(arm) < 1e-9:
            return None
        arm = minus(arm, times(axis, dot(arm, axis)))
        moved, up = _turn(up, unit(arm), axis), unit(arm)
        if abs(moved) < _CLOSE:
            break
    return up


def _balance(hung: Hung, normal: Vec) -> Vec | None:
    """Where a body and its loads balance, the loads bearing where the metal's normal is `normal`."""
    total = times(hung.centre, hung.mass)
    for load in hung.loads:
        place = borne(load, normal)
        if place is None:
            return None
        total = plus(total, times(place.point, load.mass))
    return times(total, 1 / hung.total)
