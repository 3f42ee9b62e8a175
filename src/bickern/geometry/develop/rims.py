"""Closed rims in space that a skin can start or end in: circles, ovals, oblongs, rectangles, any outline; also tilted.

A rim is read counter-clockwise seen from above, starting at the middle of its +x side.
"""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from bickern.geometry.polygon import ArcSeg, Line, Loop, Point, Seg, on_seg, rectangle, seg_length, seg_points
from bickern.geometry.space import ORIGIN, Vec, between, distance


@dataclass(frozen=True, slots=True)
class Rim:
    """Points round a rim [m], the first repeated at the end; `middles[k]` is on the true rim after point k."""

    places: tuple[Vec, ...]
    middles: tuple[Vec, ...]

    @property
    def sagittas(self) -> tuple[float, ...]:
        """How far the true rim leaves each straight [m]; 0 on straight sides."""
        sides = zip(self.places, self.places[1:], self.middles, strict=False)
        return tuple(distance(between(a, b, 0.5), m) for a, b, m in sides)


def round_rim(radius: float, centre: Vec = ORIGIN, tilt: float = 0.0, tolerance: float = 5e-5) -> Rim:
    """A circle of `radius` [m]; `tilt` [rad] lifts its +x side."""
    return oval_rim(2 * radius, 2 * radius, centre, tilt, tolerance)


def oval_rim(across: float, long: float, centre: Vec = ORIGIN, tilt: float = 0.0, tolerance: float = 5e-5) -> Rim:
    """An ellipse, `across` along x and `long` along y [m]; straights leave it by no more than `tolerance` [m]."""
    a, b = across / 2, long / 2
    # in even steps of its parameter an ellipse leaves its chords by at most its larger half times 1 - cos(step / 2)
    half_step = math.acos(1 - min(0.1, tolerance / max(a, b, tolerance)))
    count = 4 * max(3, math.ceil(math.pi / half_step / 4))

    def on(i: float) -> Point:
        t = 2 * math.pi * i / count
        return (a * math.cos(t), b * math.sin(t))

    flat = [on(i) for i in range(count)]
    return _rim([*flat, flat[0]], [on(i + 0.5) for i in range(count)], centre, tilt)


def rectangle_rim(across: float, long: float, centre: Vec = ORIGIN, tilt: float = 0.0) -> Rim:
    """A rectangle, `across` along x and `long` along y [m]."""
    return outline_rim(rectangle(across, long, (-across / 2, -long / 2)), centre, tilt)


def oblong_rim(across: float, long: float, centre: Vec = ORIGIN, tilt: float = 0.0, tolerance: float = 5e-5) -> Rim:
    """Two straights joined by half circles, `across` along x and `long` along y [m]."""
    r = min(across, long) / 2
    x, y = across / 2 - r, long / 2 - r
    corners = (((x, -y), -math.pi / 2), ((x, y), 0.0), ((-x, y), math.pi / 2), ((-x, -y), math.pi))
    segs: list[Seg] = []
    for (c, turn), (nxt, _) in zip(corners, (*corners[1:], corners[0]), strict=True):
        arc = ArcSeg(c, r, turn, math.pi / 2)
        segs.append(arc)
        end, start = on_seg(arc, 1.0), on_seg(ArcSeg(nxt, r, turn + math.pi / 2, 0.0), 0.0)
        if math.dist(end, start) > 1e-12:
            segs.append(Line(end, start))
    return outline_rim(Loop(tuple(segs)), centre, tilt, tolerance)


def outline_rim(loop: Loop, centre: Vec = ORIGIN, tilt: float = 0.0, tolerance: float = 5e-5) -> Rim:
    """Any outline of lines and arcs as a rim: it starts where it crosses the +x axis from its own origin."""
    ring, middles = _ring(loop.segs, tolerance)
    k, start = _crossing(ring)
    ring, middles = [*ring[k:], *ring[:k]], [*middles[k:], *middles[:k]]
    if math.dist(start, ring[0]) < 1e-9:
        return _rim([*ring, ring[0]], middles, centre, tilt)
    # a new point inside the straight from ring[0] to ring[1]
    far = _half(start, ring[1]) if math.dist(_half(ring[0], ring[1]), middles[0]) < 1e-12 else middles[0]
    return _rim([start, *ring[1:], ring[0], start], [far, *middles[1:], _half(ring[0], start)], centre, tilt)


def _ring(segs: Sequence[Seg], tolerance: float) -> tuple[list[Point], list[Point]]:
    ring: list[Point] = []
    middles: list[Point] = []
    for seg in segs:
        steps = len(seg_points(seg, tolerance)) - 1
        ring.extend(on_seg(seg, i / steps) for i in range(steps) if seg_length(seg) > 1e-12)
        middles.extend(on_seg(seg, (i + 0.5) / steps) for i in range(steps) if seg_length(seg) > 1e-12)
    return ring, middles


def _half(a: Point, b: Point) -> Point:
    return ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)


def _crossing(ring: Sequence[Point]) -> tuple[int, Point]:
    """The straight of the ring that crosses the +x axis upward, farthest out, and the place where it does."""
    found = []
    for k, (a, b) in enumerate(zip(ring, (*ring[1:], ring[0]), strict=True)):
        if a[1] <= 1e-12 < b[1]:
            x = a[0] + (b[0] - a[0]) * (0.0 - a[1]) / (b[1] - a[1])
            found.append((x, k, a if abs(a[1]) <= 1e-12 else (x, 0.0)))
    if not found:
        return 0, ring[0]
    _, k, start = max(found)
    return k, start


def _rim(flat: Sequence[Point], middles: Sequence[Point], centre: Vec, tilt: float) -> Rim:
    there = _placed(centre, tilt)
    return Rim(tuple(map(there, flat)), tuple(map(there, middles)))


def _placed(centre: Vec, tilt: float) -> Callable[[Point], Vec]:
    c, s = math.cos(tilt), math.sin(tilt)
    return lambda p: (centre[0] + p[0] * c, centre[1] + p[1], centre[2] + p[0] * s)
