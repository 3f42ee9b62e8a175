"""Edges of a pattern: segments end to end, read by the length from their start; lines and arcs stay exact."""

from dataclasses import dataclass
from itertools import pairwise
from math import atan2, cos, pi, sin

from bickern.geometry.polygon import (
    ArcSeg,
    Line,
    Point,
    Seg,
    on_seg,
    seg_length,
    seg_points,
    seg_reversed,
)

Chain = tuple[Seg, ...]
"""Segments, each starting where the last ends."""


@dataclass(frozen=True, slots=True)
class Spot:
    """A place on an edge: the point [m] and the direction of travel (a unit vector). Outside is on the right."""

    point: Point
    along: Point

    @property
    def outward(self) -> Point:
        """Unit vector square to the edge, away from the piece."""
        return self.along[1], -self.along[0]

    def off(self, along: float, outward: float) -> Point:
        """The point `along` the edge's direction and `outward` of it [m]."""
        (x, y), (ax, ay), (ox, oy) = self.point, self.along, self.outward
        return x + along * ax + outward * ox, y + along * ay + outward * oy


def chain_length(chain: Chain) -> float:
    """Length [m] of the whole edge."""
    return sum(map(seg_length, chain))


def spot_at(chain: Chain, s: float) -> Spot:
    """The place `s` [m] from the start of the edge; beyond an end the end segment is followed."""
    for seg in chain[:-1]:
        length = seg_length(seg)
        if s < length:
            return _on_seg(seg, s)
        s -= length
    return _on_seg(chain[-1], s)


def part_of(chain: Chain, start: float, end: float) -> Chain:
    """The piece of the edge between two lengths [m]; empty where nothing is left."""
    found: list[Seg] = []
    for seg in chain:
        length = seg_length(seg)
        a, b = max(0.0, start), min(length, end)
        if b - a > 1e-9:
            found.append(_cut(seg, a / length, b / length))
        start, end = start - length, end - length
    return tuple(found)


def backward(chain: Chain) -> Chain:
    """The same edge walked the other way."""
    return tuple(seg_reversed(seg) for seg in reversed(chain))


def shifted(chain: Chain, outward: float) -> Chain:
    """The edge moved `outward` [m] (to the right of travel): arcs about their own centres, lines mitred at corners."""
    if any(isinstance(seg, ArcSeg) for seg in chain):
        return tuple(_shifted_seg(seg, outward) for seg in chain)
    return as_lines(_mitred([s for s in chain if isinstance(s, Line)], outward))


def as_lines(points: list[Point]) -> tuple[Line, ...]:
    """Lines through points."""
    return tuple(Line(a, b) for a, b in pairwise(points))


def fine_lines(chain: Chain, stray: float = 2e-5) -> tuple[Line, ...]:
    """The edge as straight lines that leave it by at most `stray` [m]: to be drawn, never to be cut."""
    lines: list[Line] = []
    for seg in chain:
        lines += as_lines(list(seg_points(seg, stray)))
    return tuple(lines)


def _on_seg(seg: Seg, s: float) -> Spot:
    length = seg_length(seg)
    if isinstance(seg, Line):
        ax, ay = (seg.end[0] - seg.start[0]) / length, (seg.end[1] - seg.start[1]) / length
        return Spot((seg.start[0] + s * ax, seg.start[1] + s * ay), (ax, ay))
    way = 1.0 if seg.sweep >= 0.0 else -1.0
    turn = seg.start_angle + way * s / seg.radius
    return Spot(on_seg(seg, s / length), (-way * sin(turn), way * cos(turn)))


def _cut(seg: Seg, a: float, b: float) -> Seg:
    if isinstance(seg, ArcSeg):
        return ArcSeg(seg.centre, seg.radius, seg.start_angle + a * seg.sweep, (b - a) * seg.sweep)
    (x0, y0), (x1, y1) = seg.start, seg.end
    return Line((x0 + a * (x1 - x0), y0 + a * (y1 - y0)), (x0 + b * (x1 - x0), y0 + b * (y1 - y0)))


def _shifted_seg(seg: Seg, outward: float) -> Seg:
    if isinstance(seg, ArcSeg):
        wider = outward if seg.sweep >= 0.0 else -outward
        return ArcSeg(seg.centre, seg.radius + wider, seg.start_angle, seg.sweep)
    length = seg_length(seg)
    return Line(_on_seg(seg, 0.0).off(0.0, outward), _on_seg(seg, length).off(0.0, outward))


def _mitred(lines: list[Line], outward: float) -> list[Point]:
    spots = [_on_seg(line, 0.0) for line in lines]
    found = [spots[0].off(0.0, outward)]
    for before, after in pairwise(spots):
        turn = _angle_between(before.along, after.along)
        # Halfway round the corner the mitre lies tan(turn/2) back along the new line.
        found.append(after.off(outward * _half_tan(turn) * -1.0, outward))
    return [*found, _on_seg(lines[-1], seg_length(lines[-1])).off(0.0, outward)]


def _half_tan(turn: float) -> float:
    limited = max(-0.8 * pi, min(0.8 * pi, turn))
    return sin(limited) / (1.0 + cos(limited))


def _angle_between(a: Point, b: Point) -> float:
    return atan2(a[0] * b[1] - a[1] * b[0], a[0] * b[0] + a[1] * b[1])
