"""Straights for arcs on the safe side: polygons that lie wholly round an outline, or wholly within it."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from bickern.geometry.polygon import ArcSeg, Loop, Point, Seg, area, on_arc, seg_start

if TYPE_CHECKING:
    from shapely import Polygon


def polygon_round(loop: Loop, tolerance: float, holes: Sequence[Loop] = ()) -> "Polygon":
    """A polygon that the loop lies in: tangents to its bulges, chords across its hollows; holes the other way.

    It leaves no arc by more than `tolerance` [m].
    """
    return _polygon(loop, tolerance, holes, 1.0)


def polygon_within(loop: Loop, tolerance: float, holes: Sequence[Loop] = ()) -> "Polygon":
    """A polygon that lies in the loop and out of its holes; it leaves no arc by more than `tolerance` [m]."""
    return _polygon(loop, tolerance, holes, -1.0)


def _polygon(loop: Loop, tolerance: float, holes: Sequence[Loop], side: float) -> "Polygon":
    import shapely

    outer = _corners(loop, tolerance, side)
    return shapely.orient_polygons(shapely.Polygon(outer, [_corners(hole, tolerance, -side) for hole in holes]))


def _corners(loop: Loop, tolerance: float, side: float) -> list[Point]:
    """Corners outside a loop (`side` 1) or inside it (-1), whichever way it runs."""
    turning = side if area(loop) >= 0 else -side
    return [point for seg in loop.segs for point in _outer_points(seg, turning, tolerance)]


def _outer_points(seg: Seg, turning: float, tolerance: float) -> Iterator[Point]:
    """Corners along a segment, its end left out: tangents where it turns the way `turning` says, else chords."""
    yield seg_start(seg)
    if not isinstance(seg, ArcSeg) or seg.radius <= 0:
        return
    bend = tolerance / seg.radius  # a tangent's corner is out by r / cos(h) - r, a chord by r - r cos(h): h half a step
    step = 2 * math.acos(1 / (1 + bend)) if seg.sweep * turning > 0 else 2 * math.acos(max(0.5, 1 - bend))
    count = max(1, math.ceil(abs(seg.sweep) / min(step, math.pi / 3) - 1e-9))
    if seg.sweep * turning > 0:
        out = replace(seg, radius=seg.radius / math.cos(seg.sweep / count / 2))
        yield from (on_arc(out, (i + 0.5) / count) for i in range(count))
    else:
        yield from (on_arc(seg, i / count) for i in range(1, count))
