"""Outlines as text, exact to the last bit: JSON, a list of loops, the outside first and then the holes; metres.

A loop of straights is the list of its corners' numbers (x, y, x, y ...); any other is a list of its segments, where
four numbers are a line (from x, y to x, y) and five an arc (centre x, y, radius, first angle and sweep [rad]).
"""

import json
import math
from collections.abc import Sequence
from functools import lru_cache
from typing import Any

from bickern.geometry.pack.shapes.check import CHORD
from bickern.geometry.polygon import ArcSeg, Line, Loop, Seg, area, bounds, closed_gap, from_points, to_shapely

CLOSES = 1e-6
"""[m] A loop whose ends lie further apart is open."""


def outline_text(loops: Sequence[Loop]) -> str:
    """The loops as text."""
    return json.dumps([_told(loop) for loop in loops], separators=(",", ":"))


@lru_cache(maxsize=64)
def loops_in(text: str) -> tuple[Loop, ...]:
    """The loops in a text that `outline_text` wrote; ValueError where it is no such text."""
    try:
        told = json.loads(text)
        loops = tuple(_loop(one) for one in told)
    except (TypeError, KeyError, OverflowError, RecursionError) as wrong:
        raise ValueError(str(wrong)) from None
    if not loops or not all(closes(loop) for loop in loops):
        raise ValueError("an outline that does not close")
    return loops


def holds(outer: Loop, holes: Sequence[Loop]) -> bool:
    """Whether holes may be those of an outline: none lies wholly beside it, and together they are less than it."""
    (west, south), (east, north) = bounds(outer) if holes else ((0.0, 0.0), (0.0, 0.0))
    for hole in holes:
        (left, low), (right, high) = bounds(hole)
        if left >= east or right <= west or low >= north or high <= south:
            return False
    return sum(abs(area(hole)) for hole in holes) < abs(area(outer))


def crosses(outer: Loop, holes: Sequence[Loop]) -> bool:
    """Whether nobody can say what is metal: lines cross or run along one another. Measured as a nest is measured."""
    return not to_shapely(outer, CHORD, holes).is_valid


def closes(loop: Loop) -> bool:
    """Whether a loop is one: finite, closed, and round something."""
    numbers = [number for seg in loop.segs for number in _seg_told(seg)]
    if not numbers or not all(math.isfinite(number) for number in numbers):
        return False
    return closed_gap(loop) <= CLOSES and area(loop) != 0


def _told(loop: Loop) -> list[Any]:
    corners = [seg.start for seg in loop.segs if isinstance(seg, Line)]
    if len(corners) == len(loop.segs) and from_points(corners) == loop:
        return [number for corner in corners for number in corner]
    return [_seg_told(seg) for seg in loop.segs]


def _seg_told(seg: Seg) -> list[float]:
    if isinstance(seg, Line):
        return [*seg.start, *seg.end]
    return [*seg.centre, seg.radius, seg.start_angle, seg.sweep]


def _loop(told: list[Any]) -> Loop:
    if told and not isinstance(told[0], list):
        numbers = [float(number) for number in told]
        return from_points(list(zip(numbers[::2], numbers[1::2], strict=True)))
    return Loop(tuple(_seg([float(number) for number in one]) for one in told))


def _seg(told: Sequence[float]) -> Seg:
    if len(told) == 4:
        return Line((told[0], told[1]), (told[2], told[3]))
    x, y, radius, start, sweep = told
    return ArcSeg((x, y), radius, start, sweep)
