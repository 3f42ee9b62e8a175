"""Whether patterns can be cut from a sheet: one alone, and two at once by an honest search."""

from dataclasses import dataclass
from math import degrees, pi
from typing import TYPE_CHECKING

from bickern.geometry.blank import fits_in, sizes_turned
from bickern.geometry.polygon import Loop, area, bounds, moved, to_shapely

if TYPE_CHECKING:
    from shapely.geometry import Polygon

_STEP = pi / 24
_COARSE = 2e-3
_FINE = 2e-5
_KEPT = 6
_ROUNDS = 90
_NOTHING = 1e-12
_TOUCH = 1e-9


@dataclass(frozen=True, slots=True)
class Placed:
    """An outline on a sheet: turned by `turn` [rad], its lower left bound put at (x, y) [m] from the sheet's corner."""

    turn: float
    x: float
    y: float

    def __str__(self) -> str:
        return f"turned {degrees(self.turn) % 360:.1f} degrees"


@dataclass(frozen=True, slots=True)
class Pair:
    """Two outlines on one sheet."""

    first: Placed
    second: Placed


@dataclass(frozen=True, slots=True)
class _Try:
    """How far the second outline's bounds stand from the first's (dx, dy), both turned; `clash` [m2] is the overlap."""

    clash: float
    turns: tuple[float, float]
    shift: tuple[float, float]


def two_at_once(a: Loop, b: Loop, wide: float, high: float, gap: float = 0.0) -> Pair | None:
    """A way to cut both outlines from one sheet [m], `gap` apart, or None where the search found none.

    For each pair of turns the two are pushed apart: if outlines clear each other anywhere within the sheet, then
    (pockets aside) they clear with one of them against a side: only the border of the possible shifts is searched.
    Turns go in even steps, the best are refined. None is no proof that there is no way.
    """
    if area(a) + area(b) > wide * high:
        return None
    tries = sorted(_tries(a, b, wide, high), key=lambda t: t.clash)[:_KEPT]
    for best in tries:
        settled = _settled(best, _Task(a, b, wide, high, gap))
        if settled.clash <= _NOTHING and _clear(settled, a, b, gap):
            return _as_pair(settled)
    return None


@dataclass(frozen=True, slots=True)
class _Task:
    """Two outlines, a sheet, and the gap to keep."""

    a: Loop
    b: Loop
    wide: float
    high: float
    gap: float


def _tries(a: Loop, b: Loop, wide: float, high: float) -> list[_Try]:
    import shapely

    found = []
    for ta in _turns(a, wide, high, pi):
        first = _at_corner(a, ta, _COARSE)
        for tb in _turns(b, wide, high, 2 * pi):
            second = _at_corner(b, tb, _COARSE)
            shifts = _border(_room(a, b, (ta, tb), wide, high))
            moved_all = [shapely.affinity.translate(second, *shift) for shift in shifts]
            clashes = shapely.area(shapely.intersection(first, moved_all))
            k = int(clashes.argmin())
            found.append(_Try(float(clashes[k]), (ta, tb), shifts[k]))
    return found


def _turns(loop: Loop, wide: float, high: float, over: float) -> list[float]:
    """Turns in even steps (and the roomiest one) at which the outline is within the sheet."""
    count = round(over / _STEP)
    best = fits_in(loop, wide, high).turn
    steps = [i * over / count for i in range(count)]
    return [t for t in [*steps, best, best + pi] if _within(loop, t, wide, high)]


def _within(loop: Loop, turn: float, wide: float, high: float) -> bool:
    w, h = sizes_turned(loop, turn)
    return w <= wide + 1e-9 and h <= high + 1e-9


Room = tuple[float, float, float, float]
"""Least and greatest shift along x, then along y [m]."""


def _room(a: Loop, b: Loop, turns: tuple[float, float], wide: float, high: float) -> Room:
    (wa, ha), (wb, hb) = sizes_turned(a, turns[0]), sizes_turned(b, turns[1])
    return wa - wide, wide - wb, ha - high, high - hb


def _border(room: Room, count: int = 10) -> list[tuple[float, float]]:
    left, right, low, high = room
    spots = []
    for i in range(count + 1):
        x, y = left + (right - left) * i / count, low + (high - low) * i / count
        spots += [(x, low), (x, high), (left, y), (right, y)]
    return spots


def _settled(best: _Try, task: _Task) -> _Try:
    """The overlap made less by ever smaller steps of turns and shift, within the sheet."""
    best = _scored(best.turns, best.shift, task)
    turn, step = _STEP / 2, 0.04 * task.wide
    for _ in range(_ROUNDS):
        if best.clash <= _NOTHING or turn < 1e-5:
            break
        least = min((_scored(t, s, task) for t, s in _near(best, turn, step)), key=lambda t: t.clash)
        if least.clash < best.clash:
            best = least
        else:
            turn, step = turn / 2, step / 2
    return best


def _near(t: _Try, turn: float, step: float) -> list[tuple[tuple[float, float], tuple[float, float]]]:
    (a, b), (x, y) = t.turns, t.shift
    turned = [((a + p * turn, b + q * turn), (x, y)) for p, q in ((1, 0), (-1, 0), (0, 1), (0, -1), (1, 1), (-1, -1))]
    return turned + [((a, b), (x + p * step, y + q * step)) for p, q in ((1, 0), (-1, 0), (0, 1), (0, -1))]


def _scored(turns: tuple[float, float], shift: tuple[float, float], task: _Task) -> _Try:
    left, right, low, top = _room(task.a, task.b, turns, task.wide, task.high)
    # The room is left where each outline is within the sheet, and only there.
    if left > 1e-9 or right < -1e-9 or low > 1e-9 or top < -1e-9:
        return _Try(float("inf"), turns, shift)
    if not (_within(task.a, turns[0], task.wide, task.high) and _within(task.b, turns[1], task.wide, task.high)):
        return _Try(float("inf"), turns, shift)
    held = (min(max(shift[0], left), right), min(max(shift[1], low), top))
    first, second = _both(turns, held, task.a, task.b, _FINE * 10)
    grown = first.buffer(task.gap) if task.gap > 0.0 else first
    return _Try(float(grown.intersection(second).area), turns, held)


def _clear(t: _Try, a: Loop, b: Loop, gap: float) -> bool:
    first, second = _both(t.turns, t.shift, a, b, _FINE)
    return float(first.intersection(second).area) <= _TOUCH and float(first.distance(second)) >= gap - 2 * _FINE


def _both(
    turns: tuple[float, float], shift: tuple[float, float], a: Loop, b: Loop, stray: float
) -> "tuple[Polygon, Polygon]":
    from shapely.affinity import translate

    return _at_corner(a, turns[0], stray), translate(_at_corner(b, turns[1], stray), *shift)


def _at_corner(loop: Loop, turn: float, stray: float) -> "Polygon":
    """The outline turned, its lower left bound at the origin."""
    turned = moved(loop, turn=turn)
    (x, y), _ = bounds(turned)
    return to_shapely(moved(turned, -x, -y), stray)


def _as_pair(t: _Try) -> Pair:
    (dx, dy), (ta, tb) = t.shift, t.turns
    return Pair(Placed(ta, max(0.0, -dx), max(0.0, -dy)), Placed(tb, max(0.0, dx), max(0.0, dy)))
