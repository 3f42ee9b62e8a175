"""Holes in the solid bar: how the walls stand out beside them, and what is cut away.

A drift parts the bar and its two halves go round it: each side stands out by half of what the opening is wide there, so
that exactly the metal of the opening is kept. Of a punched hole the share that leaves as a slug is not. The bulge runs
out in a smooth wave somewhat past the opening, with the same metal in it.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from math import cos, pi, sin
from typing import TYPE_CHECKING

import numpy as np

from bickern.geometry.path import Frame
from bickern.geometry.solid.solid import Fineness, Solid
from bickern.geometry.solid.sweep import evened, swept
from bickern.geometry.space import Vec, mixed
from bickern.parts.bar.hole import across_and_through, opening_area
from bickern.parts.bar.length import box_at
from bickern.parts.bar.line import Line, centre_at
from bickern.parts.bar.result import BarResult, HoleCheck
from bickern.parts.bar.rules import SLUG_SHARE
from bickern.parts.bar.tracks import Face, HoleBy

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

_KEPT = {HoleBy.DRILL: 0.0, HoleBy.PUNCH: 1.0 - SLUG_SHARE, HoleBy.SLIT: 1.0}
"""Share of the opening's metal that goes into the walls."""
_SIDES = (Face.LEFT, Face.RIGHT)
_STEPS = {Fineness.PREVIEW: 6, Fineness.FINE: 16}
"""Stations on each slope of a bulge."""
_ROUND = {Fineness.PREVIEW: 24, Fineness.FINE: 48}
"""Facets of a round hole."""
_SLOPE = 0.6
"""How far a bulge runs out on either side, in sizes of its hole."""
_THROUGH = 1.3
"""How much longer a cutter is than the bar is thick."""


@dataclass(frozen=True, slots=True)
class Bulge:
    """Walls parted by `apart` [m] over `flat` [m] about the place `at` [m], running out over `slope` [m] either way.

    `upright`: parted up and down (a hole from the side), else left and right.
    """

    at: float
    apart: float
    flat: float
    slope: float
    upright: bool


def bulges(bar: BarResult) -> tuple[Bulge, ...]:
    """The bulges of the bar's punched and drifted holes; none where the bar is hollow."""
    found = []
    for check in bar.holes:
        hole, kept = check.hole, _KEPT[check.hole.by]
        even = opening_area(hole) / hole.size
        slope = min(_SLOPE * hole.size, even)
        if kept and not box_at(bar.runs, check.at)[0].wall:
            found.append(Bulge(check.at, kept * hole.size, even - slope, slope, hole.face in _SIDES))
    if bar.spec.closed:  # what lies over the joint stands out on both sides of it
        found += [replace(b, at=b.at + way * bar.length) for b in found for way in (-1, 1)]
    return tuple(found)


def swollen(found: Iterable[Bulge], fineness: Fineness) -> Iterator[float]:
    """Places [m] at which the bulges must be drawn."""
    count = _STEPS[fineness]
    for bulge in found:
        for way in (-1, 1):
            for i in range(count + 1):
                yield bulge.at + way * (bulge.flat / 2 + bulge.slope * i / count)


def parted(loops: "Array", at: "Array", found: tuple[Bulge, ...]) -> "Array":
    """Sections (k, n, 2) [m] at places `at` (k,) with their sides moved apart by the bulges."""
    if not found:
        return loops
    moved = loops.copy()
    for bulge in found:
        far = np.clip((np.abs(at - bulge.at) - bulge.flat / 2) / bulge.slope, 0.0, 1.0)
        half = bulge.apart * (1 + np.cos(pi * far)) / 4
        axis = 1 if bulge.upright else 0
        moved[:, :, axis] += np.sign(loops[:, :, axis]) * half[:, None]
    return moved


def cutters(bar: BarResult, line: Line, fineness: Fineness) -> tuple[Solid, ...]:
    """What is cut out for the holes: round prisms, and boxes for slots, straight through the wall they stand in."""
    return tuple(_cutter(bar, line, check, fineness) for check in bar.holes)


def _cutter(bar: BarResult, line: Line, check: HoleCheck, fineness: Fineness) -> Solid:
    hole = check.hole
    frame = _face(bar, line, check.at)
    across, through = (frame.up, frame.left) if hole.face in _SIDES else (frame.left, frame.up)
    half = _THROUGH * across_and_through(hole, check.at, bar.runs)[1] / 2
    outline = _opening(hole.size, hole.long, _ROUND[fineness])
    middle = np.array(frame.origin) + outline @ np.array((frame.along, across))
    return swept(np.stack((middle - half * np.array(through), middle + half * np.array(through))))


def _opening(size: float, long: float | None, count: int) -> "Array":
    """The outline (n, 2) [m] of an opening, along and across; the polygon of a round one has the circle's area."""
    if long is not None:
        return np.array(((1, -1), (1, 1), (-1, 1), (-1, -1))) * (long / 2, size / 2)
    turn = (np.arange(count) + 0.5) * (2 * pi / count)
    round_: Array = np.column_stack((np.cos(turn), np.sin(turn))) * (size / 2 * evened(count))
    return round_


def _face(bar: BarResult, line: Line, at: float) -> Frame:
    """The middle of the section at a place [m], and where its own faces look: twists and the run's roll in it."""
    frame = line.frame(at)
    run = next((r for r in bar.runs if at <= r.end), bar.runs[-1])
    long = run.end - run.start
    share = min(1.0, max(0.0, (at - run.start) / long)) if long > 0.0 else 0.0
    inside = sum(
        2 * pi * t.twist.turns * (at - t.start) / (t.end - t.start) for t in bar.twists if t.start < at < t.end
    )
    frame = _faced(frame, inside)
    return _faced(Frame(centre_at(frame, run, share), frame.along, frame.up), run.roll)


def _faced(frame: Frame, angle: float) -> Frame:
    up: Vec = mixed(frame.up, cos(angle), frame.left, -sin(angle))
    return Frame(frame.origin, frame.along, up)
