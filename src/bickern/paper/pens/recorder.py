"""The recorder pen: puts nothing on paper, but tells every stroke that another pen would draw."""

import math
from dataclasses import dataclass
from itertools import pairwise

from bickern.paper.glyphs import arc_pieces, plain
from bickern.paper.marks import Arc, Drawing, Filled, Layer, Line, Plain, Point, Polyline, Text, Tone, polar


@dataclass(frozen=True, slots=True)
class Recorded:
    """One stroke: the `points` the pen passes through [m] (arcs stepped), what is lettered, and the fill."""

    layer: Layer
    points: tuple[Point, ...]
    says: str = ""
    tone: Tone | None = None

    @property
    def length(self) -> float:
        """Length of the stroke as stepped [m]."""
        return sum(math.dist(a, b) for a, b in pairwise(self.points))


def record(picture: Drawing, step: float = math.radians(2)) -> tuple[Recorded, ...]:
    """Every stroke of the drawing in the order given; arcs are stepped by at most `step` [rad]."""
    return tuple(_recorded(mark, step) for mark in plain(picture.marks))


def _recorded(mark: Plain, step: float) -> Recorded:
    match mark:
        case Line():
            return Recorded(mark.layer, (mark.start, mark.end))
        case Arc():
            return Recorded(mark.layer, arc_points(mark, step))
        case Polyline():
            points = (*mark.points, mark.points[0]) if mark.closed else mark.points
            return Recorded(mark.layer, points)
        case Filled():
            return Recorded(mark.layer, (*mark.points, mark.points[0]), tone=mark.tone)
        case Text():
            return Recorded(mark.layer, (mark.at,), says=mark.says)


def arc_points(arc: Arc, step: float) -> tuple[Point, ...]:
    """Points on the arc from its start to its end, at most `step` [rad] apart."""
    starts = [piece.start for piece in arc_pieces(arc, step)]
    return tuple(polar(arc.centre, arc.radius, angle) for angle in (*starts, arc.start + arc.sweep))


def lettering(picture: Drawing) -> tuple[str, ...]:
    """All that is lettered, in the order given."""
    return tuple(stroke.says for stroke in record(picture) if stroke.says)
