"""A drawing cut to a box: what one page of many shows."""

import math
from collections.abc import Callable, Sequence
from itertools import pairwise

from bickern.paper.glyphs import plain
from bickern.paper.marks import (
    Arc,
    Box,
    Drawing,
    Filled,
    Line,
    Plain,
    Point,
    Polyline,
    Text,
    polar,
    text_corners,
)

NEAR = 1e-12
"""Two places nearer than this are one [m]."""


def clip(picture: Drawing, box: Box) -> Drawing:
    """What of the drawing lies in `box`, its bounds the box; arcs stay true arcs.

    Dimensions, ticks and hatching come back spelled out. Lettering stays whole where its middle lies in the box.
    """
    kept = [piece for mark in plain(picture.marks) for piece in _clipped(mark, box)]
    return Drawing(tuple(kept), box)


def _clipped(mark: Plain, box: Box) -> Sequence[Plain]:
    match mark:
        case Line():
            return _clip_line(mark, box)
        case Arc():
            return _clip_arc(mark, box)
        case Polyline():
            return _clip_polyline(mark, box)
        case Filled():
            return _clip_filled(mark, box)
        case Text():
            return [mark] if _inside(text_middle(mark), box) else []


def text_middle(text: Text) -> Point:
    """The middle of the room kept for a line of lettering [m]."""
    four = text_corners(text)
    return (sum(x for x, _ in four) / 4, sum(y for _, y in four) / 4)


def _inside(point: Point, box: Box) -> bool:
    return box.left <= point[0] <= box.right and box.bottom <= point[1] <= box.top


def _span(start: Point, end: Point, box: Box) -> tuple[float, float] | None:
    """Shares of a straight where it enters and leaves the box, or None where it misses it."""
    enter, leave = 0.0, 1.0
    dx, dy = end[0] - start[0], end[1] - start[1]
    rooms = (
        (-dx, start[0] - box.left),
        (dx, box.right - start[0]),
        (-dy, start[1] - box.bottom),
        (dy, box.top - start[1]),
    )
    for speed, room in rooms:
        if speed == 0.0:
            if room < 0.0:
                return None
        elif speed < 0.0:
            enter = max(enter, room / speed)
        else:
            leave = min(leave, room / speed)
    return (enter, leave) if enter < leave else None


def _between(start: Point, end: Point, share: float) -> Point:
    if share in (0.0, 1.0):
        return end if share else start
    return (start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1]))


def _clip_line(line: Line, box: Box) -> list[Line]:
    span = _span(line.start, line.end, box)
    if span is None:
        return []
    first, last = (_between(line.start, line.end, share) for share in span)
    return [Line(first, last, line.layer)]


def _clip_polyline(mark: Polyline, box: Box) -> list[Polyline]:
    points = (*mark.points, mark.points[0]) if mark.closed else mark.points
    if all(_inside(point, box) for point in points):
        return [mark]
    runs: list[list[Point]] = []
    for start, end in pairwise(points):
        span = _span(start, end, box)
        if span is None:
            continue
        first, last = (_between(start, end, share) for share in span)
        if runs and math.dist(runs[-1][-1], first) < NEAR:
            runs[-1].append(last)
        else:
            runs.append([first, last])
    return [Polyline(tuple(run), layer=mark.layer) for run in runs]


def _clip_arc(arc: Arc, box: Box) -> list[Arc]:
    shares = [0.0, *sorted(_arc_crossings(arc, box)), 1.0]
    kept: list[tuple[float, float]] = []
    for a, b in pairwise(shares):
        if b - a < 1e-12 or not _inside(polar(arc.centre, arc.radius, arc.start + (a + b) / 2 * arc.sweep), box):
            continue
        if kept and kept[-1][1] == a:
            kept[-1] = (kept[-1][0], b)
        else:
            kept.append((a, b))
    return [Arc(arc.centre, arc.radius, arc.start + a * arc.sweep, (b - a) * arc.sweep, arc.layer) for a, b in kept]


def _arc_crossings(arc: Arc, box: Box) -> list[float]:
    """Shares of the sweep at which the arc crosses the lines that the box's sides lie on."""
    angles: list[float] = []
    for level in (box.left, box.right):
        cosine = (level - arc.centre[0]) / arc.radius
        if abs(cosine) <= 1.0:
            angles += [math.acos(cosine), -math.acos(cosine)]
    for level in (box.bottom, box.top):
        sine = (level - arc.centre[1]) / arc.radius
        if abs(sine) <= 1.0:
            angles += [math.asin(sine), math.pi - math.asin(sine)]
    direction = math.copysign(1.0, arc.sweep)
    ahead = (((angle - arc.start) * direction) % (2 * math.pi) for angle in angles)
    return [share for share in (angle / abs(arc.sweep) for angle in ahead) if 0.0 < share < 1.0]


def _clip_filled(mark: Filled, box: Box) -> list[Filled]:
    """One side of the box after the other (an area that leaves and comes back is joined along the side)."""
    depths: tuple[Callable[[Point], float], ...] = (
        lambda point: point[0] - box.left,
        lambda point: box.right - point[0],
        lambda point: point[1] - box.bottom,
        lambda point: box.top - point[1],
    )
    points = list(mark.points)
    for depth in depths:
        points = _cut_side(points, depth)
        if len(points) < 3:
            return []
    return [Filled(tuple(points), mark.tone, mark.spacing, mark.layer)]


def _cut_side(points: list[Point], depth: Callable[[Point], float]) -> list[Point]:
    kept: list[Point] = []
    for before, here in zip(points[-1:] + points[:-1], points, strict=True):
        d0, d1 = depth(before), depth(here)
        if (d0 < 0.0) != (d1 < 0.0):
            kept.append(_between(before, here, d0 / (d0 - d1)))
        if d1 >= 0.0:
            kept.append(here)
    return kept
