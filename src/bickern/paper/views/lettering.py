"""Lettering set where it covers nothing: for each line of words the best of several places."""

import math
from collections.abc import Sequence
from typing import TYPE_CHECKING

from bickern.paper.glyphs import upright
from bickern.paper.marks import Anchor, Arc, Layer, Line, Mark, Point, Polyline, Text, text_corners, text_width

if TYPE_CHECKING:
    import shapely

OFF = 0.001
"""From a line to the lettering along it [m]."""
SHARES = (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.1, 0.9)
"""How far along a line its lettering may have its middle."""


def along(says: str, start: Point, end: Point, height: float) -> list[Text]:
    """Places for words along a line, on both sides of it; beyond its ends where it is too short for them."""
    angle = upright(math.atan2(end[1] - start[1], end[0] - start[0]))
    above, way = (-math.sin(angle), math.cos(angle)), (math.cos(angle), math.sin(angle))
    places = [(start[0] + s * (end[0] - start[0]), start[1] + s * (end[1] - start[1])) for s in SHARES]
    sides = [OFF, -OFF - 1.1 * height]
    found = [Text(_step(p, above, off), says, height, Anchor.MIDDLE, angle) for p in places for off in sides]
    if text_width(says, height) > math.dist(start, end):
        ends = sorted((start, end), key=lambda p: p[0] * way[0] + p[1] * way[1])
        drop = -0.4 * height
        beyond = [(ends[1], Anchor.START, 2 * OFF), (ends[0], Anchor.END, -2 * OFF)]
        found = [Text(_step(_step(p, way, by), above, drop), says, height, a, angle) for p, a, by in beyond] + found
    return found


def round_about(says: str, centre: Point, off: float, height: float) -> list[Text]:
    """Places for words round a point, `off` [m] from it: level, to the right first."""
    drop = -0.4 * height
    sides = [(off, drop, Anchor.START), (-off, drop, Anchor.END), (0.0, off, Anchor.MIDDLE)]
    sides += [(0.0, -off - height, Anchor.MIDDLE), (off, off, Anchor.START), (-off, off, Anchor.END)]
    return [Text((centre[0] + x, centre[1] + y), says, height, anchor) for x, y, anchor in sides]


def settled(wanted: Sequence[Sequence[Text]], there: Sequence[Mark], inside: Sequence[Point]) -> list[Text]:
    """For each of `wanted` one of its places: clear of other lettering, then inside the outline, then of lines."""
    import shapely

    area = shapely.Polygon(inside).buffer(0)
    strokes = shapely.union_all([_stroke(mark) for mark in there])
    cuts = shapely.union_all([_stroke(mark) for mark in there if mark.layer is Layer.CUT])
    found: list[Text] = []
    taken: list[shapely.Polygon] = []
    for places in wanted:
        boxes = [shapely.Polygon(text_corners(place)) for place in places]
        costs = [_cost(box, taken, (strokes, cuts), area) + 0.01 * i for i, box in enumerate(boxes)]
        best = costs.index(min(costs))
        found.append(places[best])
        taken.append(boxes[best])
    return found


def _cost(
    box: "shapely.Polygon",
    taken: "Sequence[shapely.Polygon]",
    strokes: "Sequence[shapely.Geometry]",
    area: "shapely.Geometry",
) -> float:
    """Other lettering is never covered if it can be helped; lines are crossed rather than that, cut lines least."""
    share = sum(box.intersection(other).area for other in taken) / box.area
    crossed = sum(box.intersection(one).length for one in strokes) / math.sqrt(box.area)
    outside = box.difference(area).area / box.area
    return float(100.0 * share + 1.5 * outside + 2.0 * crossed)


def _stroke(mark: Mark) -> "shapely.Geometry":
    import shapely

    from bickern.paper.pens.recorder import arc_points

    match mark:
        case Line():
            return shapely.LineString([mark.start, mark.end])
        case Arc():
            return shapely.LineString(arc_points(mark, math.radians(5)))
        case Polyline():
            return shapely.LineString([*mark.points, *mark.points[: 1 if mark.closed else 0]])
    return shapely.Point()


def _step(point: Point, way: Point, by: float) -> Point:
    return (point[0] + way[0] * by, point[1] + way[1] * by)
