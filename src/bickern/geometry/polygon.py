"""Flat outlines of exact lines and arcs: what a pattern is made of."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from shapely.geometry import Polygon

Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Line:
    """A straight from `start` to `end` [m]."""

    start: Point
    end: Point


@dataclass(frozen=True, slots=True)
class ArcSeg:
    """A circular arc about `centre`, from angle `start_angle`, over `sweep` [rad] (positive is counter-clockwise)."""

    centre: Point
    radius: float
    start_angle: float
    sweep: float


Seg = Line | ArcSeg


@dataclass(frozen=True, slots=True)
class Loop:
    """A closed outline: segments end to end, the last ending where the first starts; outer loops counter-clockwise."""

    segs: tuple[Seg, ...]


# ---- segments


def seg_start(seg: Seg) -> Point:
    """Where a segment starts [m]."""
    return seg.start if isinstance(seg, Line) else on_arc(seg, 0.0)


def seg_end(seg: Seg) -> Point:
    """Where a segment ends [m]."""
    return seg.end if isinstance(seg, Line) else on_arc(seg, 1.0)


def on_arc(arc: ArcSeg, share: float) -> Point:
    """The point a `share` (0..1) of the way along an arc."""
    a = arc.start_angle + share * arc.sweep
    return (arc.centre[0] + arc.radius * math.cos(a), arc.centre[1] + arc.radius * math.sin(a))


def on_seg(seg: Seg, share: float) -> Point:
    """The point a `share` (0..1) of the way along a segment."""
    if isinstance(seg, ArcSeg):
        return on_arc(seg, share)
    (x0, y0), (x1, y1) = seg.start, seg.end
    return (x0 + share * (x1 - x0), y0 + share * (y1 - y0))


def seg_length(seg: Seg) -> float:
    """Length of a segment [m]."""
    return math.dist(seg.start, seg.end) if isinstance(seg, Line) else seg.radius * abs(seg.sweep)


def seg_reversed(seg: Seg) -> Seg:
    """The same segment run the other way."""
    if isinstance(seg, Line):
        return Line(seg.end, seg.start)
    return ArcSeg(seg.centre, seg.radius, seg.start_angle + seg.sweep, -seg.sweep)


def seg_points(seg: Seg, tolerance: float) -> tuple[Point, ...]:
    """Points along a segment, both ends included; chords leave an arc by no more than `tolerance` [m]."""
    if isinstance(seg, Line):
        return (seg.start, seg.end)
    step = 2 * math.acos(max(-1.0, 1 - tolerance / seg.radius)) if seg.radius > 0 else math.pi
    count = max(1, math.ceil(abs(seg.sweep) / min(step, math.pi / 6) - 1e-9))
    return tuple(on_arc(seg, i / count) for i in range(count + 1))


# ---- making loops


def from_points(points: Sequence[Point]) -> Loop:
    """A loop of straights through points in order; the last is joined to the first."""
    return Loop(tuple(Line(a, b) for a, b in zip(points, [*points[1:], points[0]], strict=True)))


def rectangle(width: float, height: float, corner: Point = (0.0, 0.0)) -> Loop:
    """A rectangle with its lower left at `corner`, sides along x and y [m]."""
    x, y = corner
    return from_points(((x, y), (x + width, y), (x + width, y + height), (x, y + height)))


def disc(radius: float, centre: Point = (0.0, 0.0)) -> Loop:
    """A full circle, counter-clockwise [m]."""
    return Loop((ArcSeg(centre, radius, 0.0, 2 * math.pi),))


def sector(outer: float, inner: float, angle: float) -> Loop:
    """The part of a ring between radii `inner` (0: a plain sector) and `outer` [m] over `angle` [rad].

    The swing point is the origin and the middle of the sector points along +y. Segments in order: outer arc
    (counter-clockwise), edge inward, inner arc back (left out when `inner` is 0), edge outward.
    """
    a = math.pi / 2 - angle / 2
    rim = ArcSeg((0.0, 0.0), outer, a, angle)
    small = ArcSeg((0.0, 0.0), inner, a + angle, -angle)
    first, last = Line(on_arc(small, 1.0), on_arc(rim, 0.0)), Line(on_arc(rim, 1.0), on_arc(small, 0.0))
    return Loop((rim, last, small, first) if inner > 0 else (rim, last, first))


def moved(loop: Loop, dx: float = 0.0, dy: float = 0.0, turn: float = 0.0) -> Loop:
    """The loop turned by `turn` [rad] about the origin, then shifted by (dx, dy) [m]."""
    return Loop(tuple(seg_moved(seg, dx, dy, turn) for seg in loop.segs))


def seg_moved(seg: Seg, dx: float = 0.0, dy: float = 0.0, turn: float = 0.0) -> Seg:
    """A segment turned by `turn` [rad] about the origin, then shifted by (dx, dy) [m]."""
    if isinstance(seg, Line):
        return Line(point_moved(seg.start, dx, dy, turn), point_moved(seg.end, dx, dy, turn))
    return ArcSeg(point_moved(seg.centre, dx, dy, turn), seg.radius, seg.start_angle + turn, seg.sweep)


def point_moved(p: Point, dx: float = 0.0, dy: float = 0.0, turn: float = 0.0) -> Point:
    """A point turned by `turn` [rad] about the origin, then shifted by (dx, dy) [m]."""
    c, s = math.cos(turn), math.sin(turn)
    return (p[0] * c - p[1] * s + dx, p[0] * s + p[1] * c + dy)


def mirrored(loop: Loop) -> Loop:
    """The loop turned over about the y axis (x becomes -x), run so that it stays counter-clockwise."""
    return Loop(tuple(seg_mirrored(seg) for seg in reversed(loop.segs)))


def seg_mirrored(seg: Seg) -> Seg:
    """A segment turned over about the y axis and run the other way."""
    if isinstance(seg, Line):
        return Line((-seg.end[0], seg.end[1]), (-seg.start[0], seg.start[1]))
    return ArcSeg((-seg.centre[0], seg.centre[1]), seg.radius, math.pi - seg.start_angle - seg.sweep, seg.sweep)


def flipped(loop: Loop) -> Loop:
    """The same outline run the other way round (a hole is an outer loop flipped)."""
    return Loop(tuple(seg_reversed(seg) for seg in reversed(loop.segs)))


# ---- measuring loops


def points(loop: Loop, tolerance: float = 5e-5) -> tuple[Point, ...]:
    """Points round the loop, the first not repeated; chords leave an arc by no more than `tolerance` [m]."""
    return tuple(p for seg in loop.segs for p in seg_points(seg, tolerance)[:-1])


def area(loop: Loop) -> float:
    """Enclosed area [m2], exact with arcs; negative if the loop runs clockwise (Green's theorem)."""
    return math.fsum(_seg_area(seg) for seg in loop.segs)


def perimeter(loop: Loop) -> float:
    """Length round the loop [m]."""
    return math.fsum(seg_length(seg) for seg in loop.segs)


def centroid(loop: Loop) -> Point:
    """Centre of area [m], exact with arcs; of a loop of no area, the middle of its bounds."""
    whole = area(loop)
    low, high = bounds(loop)
    middle = ((low[0] + high[0]) / 2, (low[1] + high[1]) / 2)
    if abs(whole) < 1e-18:
        return middle
    # moments about the middle of the bounds, so that a far origin costs no digits
    local = moved(loop, -middle[0], -middle[1])
    mx = math.fsum(_seg_moment(seg) for seg in local.segs)
    my = math.fsum(_seg_moment(seg_moved(seg, turn=-math.pi / 2)) for seg in local.segs)
    return (middle[0] + mx / whole, middle[1] + my / whole)


def bounds(loop: Loop) -> tuple[Point, Point]:
    """Lower left and upper right [m] of the smallest upright box, exact with arcs."""
    east, north = (reach(loop, a) for a in (0.0, math.pi / 2))
    west, south = (reach(loop, a) for a in (math.pi, 3 * math.pi / 2))
    return (-west, -south), (east, north)


def reach(loop: Loop, direction: float) -> float:
    """How far the loop reaches from the origin in a `direction` [rad]: the greatest x cos + y sin [m], exact."""
    c, s = math.cos(direction), math.sin(direction)
    return max(_seg_reach(seg, direction, c, s) for seg in loop.segs)


def closed_gap(loop: Loop) -> float:
    """The greatest distance [m] between a segment's end and the next one's start: 0 for a loop that closes."""
    return max(
        math.dist(seg_end(a), seg_start(b)) for a, b in zip(loop.segs, loop.segs[1:] + loop.segs[:1], strict=True)
    )


def to_shapely(loop: Loop, tolerance: float = 5e-5, holes: Sequence[Loop] = ()) -> "Polygon":
    """The loop as a shapely polygon; arcs become chords that leave them by no more than `tolerance` [m]."""
    from shapely.geometry import Polygon

    return Polygon(points(loop, tolerance), [points(hole, tolerance) for hole in holes])


def _seg_area(seg: Seg) -> float:
    if isinstance(seg, Line):
        return (seg.start[0] * seg.end[1] - seg.end[0] * seg.start[1]) / 2
    (cx, cy), r = seg.centre, seg.radius
    (x0, y0), (x1, y1) = on_arc(seg, 0.0), on_arc(seg, 1.0)
    return (r * r * seg.sweep + cx * (y1 - y0) - cy * (x1 - x0)) / 2


def _seg_moment(seg: Seg) -> float:
    """The segment's part of the area's moment about the y axis: half the integral of x^2 dy [m3]."""
    if isinstance(seg, Line):
        (x0, y0), (x1, y1) = seg.start, seg.end
        return (x0 * x0 + x0 * x1 + x1 * x1) * (y1 - y0) / 6
    cx, r = seg.centre[0], seg.radius
    a, b = seg.start_angle, seg.start_angle + seg.sweep
    sine = math.sin(b) - math.sin(a)
    square = (b - a) / 2 + (math.sin(2 * b) - math.sin(2 * a)) / 4  # integral of cos^2
    cube = sine - (math.sin(b) ** 3 - math.sin(a) ** 3) / 3  # integral of cos^3
    return r * (cx * cx * sine + 2 * cx * r * square + r * r * cube) / 2


def _seg_reach(seg: Seg, direction: float, c: float, s: float) -> float:
    ends = (seg_start(seg), seg_end(seg))
    far = max(x * c + y * s for x, y in ends)
    if isinstance(seg, ArcSeg) and _sweeps_over(seg, direction):
        far = max(far, seg.centre[0] * c + seg.centre[1] * s + seg.radius)
    return far


def _sweeps_over(arc: ArcSeg, direction: float) -> bool:
    first = arc.start_angle if arc.sweep >= 0 else arc.start_angle + arc.sweep
    return (direction - first) % (2 * math.pi) <= abs(arc.sweep)
