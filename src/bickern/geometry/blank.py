"""What rectangle an outline needs, turned any way; and whether it fits in one that is there."""

import math
from collections.abc import Callable
from dataclasses import dataclass

from bickern.geometry.polygon import Line, Loop, reach, seg_end, seg_start

_STEP = math.radians(0.5)
_GOLD = (math.sqrt(5) - 1) / 2


@dataclass(frozen=True, slots=True)
class Blank:
    """A rectangle round an outline: `width` >= `height` [m] once the outline is turned by `turn` [rad]."""

    width: float
    height: float
    turn: float


@dataclass(frozen=True, slots=True)
class Fit:
    """Whether an outline goes into a rectangle; turned by `turn` [rad], by how much it misses along both sides [m]."""

    fits: bool
    short_width: float
    short_height: float
    turn: float


def sizes_turned(loop: Loop, turn: float) -> tuple[float, float]:
    """Width and height [m] of the upright box round the loop once it is turned by `turn` [rad]; exact with arcs."""
    width = reach(loop, -turn) + reach(loop, math.pi - turn)
    height = reach(loop, math.pi / 2 - turn) + reach(loop, -math.pi / 2 - turn)
    return width, height


def min_blank(loop: Loop) -> Blank:
    """The smallest rectangle by area over all rotations.

    Straight-sided outlines touch it along a side (rotating calipers); with arcs the best turn is refined between.
    """

    def size(turn: float) -> float:
        width, height = sizes_turned(loop, turn)
        return width * height

    turn = _least(size, loop, math.pi / 2)
    width, height = sizes_turned(loop, turn)
    if height > width:
        width, height, turn = height, width, turn + math.pi / 2
    return Blank(width, height, turn % math.pi)


def fits_in(loop: Loop, width: float, height: float) -> Fit:
    """Whether the loop goes into a rectangle `width` x `height` [m] turned any way; else the turn that misses by least.

    Least is the smallest sum of what is short along the two sides.
    """

    def short(turn: float) -> float:
        w, h = sizes_turned(loop, turn)
        over = max(w - width, 0.0) + max(h - height, 0.0)
        return over if over > 0 else (w - width) + (h - height)  # where it fits, the roomiest turn

    turn = _least(short, loop, math.pi)
    w, h = sizes_turned(loop, turn)
    misses = (max(w - width, 0.0), max(h - height, 0.0))
    return Fit(max(misses) <= 1e-9, misses[0], misses[1], turn)


def _least(cost: Callable[[float], float], loop: Loop, over: float) -> float:
    """The turn of least cost: every straight laid along a side, and even steps between, the best ones refined."""
    even = [over * i / round(over / _STEP) for i in range(round(over / _STEP))]
    turns = sorted({*even, *(t % over for t in _flush_turns(loop))})
    costs = [cost(t) for t in turns]
    best = sorted(range(len(turns)), key=lambda i: costs[i])[:6]
    found = [(costs[i], turns[i]) for i in best]
    found += [_refined(cost, turns[i] - _STEP, turns[i] + _STEP) for i in best]
    least = min(c for c, _ in found)
    return next(t for c, t in found if c <= least + 1e-12)  # of equals, the plain turn first


def _flush_turns(loop: Loop) -> list[float]:
    """Turns that lay a straight, or the chord of neighbouring straights over a hollow, along a side."""
    turns = []
    for seg in loop.segs:
        if isinstance(seg, Line):
            (x0, y0), (x1, y1) = seg.start, seg.end
            turns.append(-math.atan2(y1 - y0, x1 - x0))
    return turns + [-math.atan2(b[1] - a[1], b[0] - a[0]) for a, b in _hull_sides(loop)]


def _hull_sides(loop: Loop) -> list[tuple[tuple[float, float], tuple[float, float]]]:
    """Sides of the hull of all corners (Andrew's monotone chain)."""
    corners = sorted({p for seg in loop.segs for p in (seg_start(seg), seg_end(seg))})
    if len(corners) < 3:
        return []
    hull = _half_hull(corners)[:-1] + _half_hull(corners[::-1])[:-1]
    return list(zip(hull, hull[1:] + hull[:1], strict=True))


def _half_hull(corners: list[tuple[float, float]]) -> list[tuple[float, float]]:
    chain: list[tuple[float, float]] = []
    for p in corners:
        while len(chain) > 1 and _turns_right(chain[-2], chain[-1], p):
            chain.pop()
        chain.append(p)
    return chain


def _turns_right(a: tuple[float, float], b: tuple[float, float], c: tuple[float, float]) -> bool:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]) <= 0


def _refined(cost: Callable[[float], float], low: float, high: float) -> tuple[float, float]:
    a, b = high - _GOLD * (high - low), low + _GOLD * (high - low)
    fa, fb = cost(a), cost(b)
    while high - low > 1e-8:
        if fa < fb:
            high, b, fb = b, a, fa
            a = high - _GOLD * (high - low)
            fa = cost(a)
        else:
            low, a, fa = a, b, fb
            b = low + _GOLD * (high - low)
            fb = cost(b)
    return min((fa, a), (fb, b))
