"""Loops as polygons that err on the safe side: a part never smaller than it is, a sheet never larger."""

import math
from typing import TYPE_CHECKING

from bickern.geometry.pack.shapes.asked import Part, Remnant
from bickern.geometry.polygon import ArcSeg, Line, Loop, Point, area, flipped, on_arc

if TYPE_CHECKING:
    from shapely.geometry import Polygon


def part_polygon(part: Part, tolerance: float) -> "Polygon":
    """The part as a polygon that holds all of it; chords leave an arc by no more than `tolerance` [m]."""
    return _polygon(part.outline, part.cutouts, tolerance, outside=True)


def sheet_polygon(sheet: Remnant, tolerance: float) -> "Polygon":
    """The sheet as a polygon that is all metal; chords leave an arc by no more than `tolerance` [m]."""
    return _polygon(sheet.outline, sheet.cutouts, tolerance, outside=False)


def grown(polygon: "Polygon", by: float) -> "Polygon":
    """The polygon with everything nearer than `by` [m] added to it; at corners a little more, never less."""
    # sides stay exactly `by` away; a corner is cut off square, 1.2 times as far out as its circle needs (few edges)
    return polygon.buffer(by, join_style="mitre", mitre_limit=1.2 if by > 1e-5 else 3.0)


def _polygon(outline: Loop, cutouts: tuple[Loop, ...], tolerance: float, outside: bool) -> "Polygon":
    from shapely.geometry import Polygon

    rim = outline if area(outline) >= 0 else flipped(outline)
    holes = [cut if area(cut) <= 0 else flipped(cut) for cut in cutouts]
    return Polygon(_chords(rim, tolerance, outside), [_chords(hole, tolerance, outside) for hole in holes])


def _chords(loop: Loop, tolerance: float, outside: bool) -> list[Point]:
    """Points of a loop that has its metal on the left; `outside`: chords that add metal, else chords that take it."""
    found: list[Point] = []
    for seg in loop.segs:
        found += [seg.start] if isinstance(seg, Line) else _arc_points(seg, tolerance, outside == (seg.sweep > 0))
    return [p for p, q in zip(found, found[1:] + found[:1], strict=True) if math.dist(p, q) > 1e-9]


def _arc_points(arc: ArcSeg, tolerance: float, tangent: bool) -> list[Point]:
    """Points along an arc, its end left out: on it, or (`tangent`) where its tangents meet."""
    # a tangent's corner stands out by r (1/cos - 1), a chord falls in by r (1 - cos): the first is the larger
    half = math.acos(1 / (1 + tolerance / arc.radius)) if arc.radius > 0 else math.pi
    count = max(1, math.ceil(abs(arc.sweep) / (2 * min(half, math.pi / 6)) - 1e-9))
    if not tangent:
        return [on_arc(arc, i / count) for i in range(count)]
    out = arc.radius / math.cos(arc.sweep / count / 2)
    wide = ArcSeg(arc.centre, out, arc.start_angle, arc.sweep)
    return [on_arc(arc, 0.0), *(on_arc(wide, (i + 0.5) / count) for i in range(count))]
