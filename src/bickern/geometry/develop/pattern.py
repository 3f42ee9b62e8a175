"""A surface laid flat: edges by name, bends, seams; rolling the pattern up again, and cutting it into parts."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from itertools import pairwise

from bickern.geometry.develop.rolling import FoldRoll, Roll, roll_moved, rolled, rolled_on
from bickern.geometry.polygon import (
    Line,
    Loop,
    Point,
    Seg,
    on_seg,
    point_moved,
    seg_length,
    seg_moved,
    seg_reversed,
)
from bickern.geometry.space import Vec, distance


class Facing(StrEnum):
    """Which face of the finished piece the pattern shows."""

    OUTSIDE = "outside"
    INSIDE = "inside"


@dataclass(frozen=True, slots=True)
class Edge:
    """A named side of a pattern: `base`, `top`, seam edges `first` and `last`; a pan has sides of its own."""

    name: str
    segs: tuple[Seg, ...]

    @property
    def length(self) -> float:
        """Length along the edge [m]."""
        return math.fsum(seg_length(seg) for seg in self.segs)


@dataclass(frozen=True, slots=True)
class Bend:
    """A line to bend along: `angle` [rad] of the fold, positive toward you; `width` [m] of flat metal in the bend."""

    line: Line
    angle: float
    width: float = 0.0


@dataclass(frozen=True, slots=True)
class Seam:
    """Two edges that meet when the pattern is rolled up, both run from the base to the top."""

    first: Line
    last: Line


@dataclass(frozen=True, slots=True)
class Development:
    """A surface laid flat [m]: its edges counter-clockwise, lines to bend along, seams, and how it rolls up again.

    `stray` [m]: how far the pattern's straights and facets leave the true surface (0: exact lines and arcs).
    """

    edges: tuple[Edge, ...]
    roll: Roll
    bends: tuple[Bend, ...] = ()
    seams: tuple[Seam, ...] = ()
    holes: tuple[Loop, ...] = ()
    stray: float = 0.0
    facing: Facing = Facing.OUTSIDE

    @property
    def outline(self) -> Loop:
        """The outline to cut, counter-clockwise."""
        return Loop(tuple(seg for edge in self.edges for seg in edge.segs))

    def edge(self, name: str) -> Edge | None:
        """The edge of that name, if the pattern has one (the top of a pointed cone has no length, so no edge)."""
        return next((edge for edge in self.edges if edge.name == name), None)


def roll_up(development: Development, flat: Sequence[Point]) -> tuple[Vec, ...]:
    """Where points of the printed pattern [m] come to lie once bent up [m], by the flat's distances and angles."""
    return rolled(development.roll, flat)


def seam_gap(*parts: Development) -> float:
    """The greatest distance [m] between seam edges after rolling up a pattern, or all parts of a split one in order."""
    if len(parts) == 1:
        pairs = [(parts[0], seam.last, parts[0], seam.first) for seam in parts[0].seams]
    else:
        following = parts[1:] + parts[:1]
        pairs = [
            (a, a.seams[0].last, b, b.seams[0].first)
            for a, b in zip(parts, following, strict=True)
            if a.seams and b.seams
        ]
    return max((_edge_gap(*pair) for pair in pairs), default=0.0)


def _edge_gap(a: Development, last: Line, b: Development, first: Line) -> float:
    shares = [i / 8 for i in range(9)]
    on_last = _edge_up(a, [on_seg(last, share) for share in shares], -1)
    on_first = _edge_up(b, [on_seg(first, share) for share in shares], 0)
    return max(distance(p, q) for p, q in zip(on_last, on_first, strict=True))


def _edge_up(part: Development, flat: Sequence[Point], facet: int) -> tuple[Vec, ...]:
    """A seam edge rolled up: on a folded strip, by the facet that it bounds."""
    return rolled_on(part.roll, facet, flat) if isinstance(part.roll, FoldRoll) else roll_up(part, flat)


def moved(development: Development, dx: float = 0.0, dy: float = 0.0, turn: float = 0.0) -> Development:
    """The pattern turned by `turn` [rad] about the origin and shifted [m]; it rolls up to the same place.

    A cylinder's pattern only shifts along x.
    """

    def line(it: Line) -> Line:
        there = seg_moved(it, dx, dy, turn)
        return there if isinstance(there, Line) else it

    return replace(
        development,
        edges=tuple(Edge(e.name, tuple(seg_moved(s, dx, dy, turn) for s in e.segs)) for e in development.edges),
        roll=roll_moved(development.roll, dx, dy, turn),
        bends=tuple(replace(b, line=line(b.line)) for b in development.bends),
        seams=tuple(Seam(line(s.first), line(s.last)) for s in development.seams),
        holes=tuple(Loop(tuple(seg_moved(s, dx, dy, turn) for s in h.segs)) for h in development.holes),
    )


def side(development: Development, name: str) -> tuple[Seg, ...]:
    """The `base` or `top` edge, both run from the first seam edge to the last; empty for a point."""
    edge = development.edge(name)
    segs = edge.segs if edge else ()
    return segs if name == "base" else tuple(seg_reversed(seg) for seg in reversed(segs))


def strip_edges(base: tuple[Seg, ...], last: Line, top: tuple[Seg, ...], first: Line) -> tuple[Edge, ...]:
    """Edges of a pattern between two seam lines; `base` and `top` both run from first to last, empty for a point."""
    back: tuple[Seg, ...] = tuple(seg_reversed(seg) for seg in reversed(top))
    edges = (
        Edge("base", base),
        Edge("last", (last,)),
        Edge("top", back),
        Edge("first", (Line(first.end, first.start),)),
    )
    return tuple(edge for edge in edges if edge.segs)


def joined(places: Sequence[Point]) -> tuple[Seg, ...]:
    """Straights through points in order, points that coincide taken once."""
    return tuple(Line(a, b) for a, b in pairwise(places) if math.dist(a, b) > 1e-12)


def levelled(development: Development) -> Development:
    """A strip turned so that its base (or top, if the base is a point) runs level from the first to the last edge."""
    seam = development.seams[0]
    start, end = seam.first.start, seam.last.start
    if math.dist(start, end) < 1e-9:
        start, end = seam.first.end, seam.last.end
    if math.dist(start, end) < 1e-9:
        return development
    turn = -math.atan2(end[1] - start[1], end[0] - start[0])
    x, y = point_moved(start, turn=turn)
    return moved(development, -x, -y, turn)
