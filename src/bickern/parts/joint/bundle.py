"""The girth of a bundle of bars that a collar or a wrap goes round."""

from collections.abc import Sequence
from math import hypot

from bickern.iron.section import Section, outline

_POINTS = 480
"""Points on the outline of a bar: a round's girth is then short by 7 parts in a million."""
Point = tuple[float, float]


def bundle_girth(bars: Sequence[Section]) -> float:
    """Girth [m] of a taut string round bars laid in one row, wide faces together, middles in line.

    Corners are sharp and the bars touch. Bars laid otherwise have another girth: then measure with a string.
    """
    points: list[Point] = []
    at = 0.0
    for bar in bars:
        thick = min(bar.width, bar.thick)
        points += _lying_flat(bar, at + thick / 2)
        at += thick
    return _around(_hull(points))


def _lying_flat(bar: Section, up: float) -> list[Point]:
    """Its outline with the wide side lying flat, the middle of its box at height `up` [m]."""
    on_edge = bar.width < bar.thick
    points = [(float(x), float(y)) for x, y in outline(bar, _POINTS)]
    return [(y, up + x) if on_edge else (x, up + y) for x, y in points]


def _hull(points: list[Point]) -> list[Point]:
    """The convex hull, counter-clockwise (monotone chain)."""
    ordered = sorted(set(points))
    if len(ordered) < 3:
        return ordered
    return _half(ordered)[:-1] + _half(ordered[::-1])[:-1]


def _half(ordered: list[Point]) -> list[Point]:
    chain: list[Point] = []
    for point in ordered:
        while len(chain) > 1 and _turn(chain[-2], chain[-1], point) <= 0:
            chain.pop()
        chain.append(point)
    return chain


def _turn(a: Point, b: Point, c: Point) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def _around(loop: list[Point]) -> float:
    return sum(hypot(b[0] - a[0], b[1] - a[1]) for a, b in zip(loop, loop[1:] + loop[:1], strict=True))
