"""The finished, bent bar: its outline at any scale, with shoulders, twist, holes and overall sizes."""

import math
from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import groupby, pairwise
from typing import TYPE_CHECKING

from bickern.geometry.path import START, Frame, Straight, leg_starts, place, run_length
from bickern.geometry.space import Vec, cross, dot, minus, mixed, norm, times, unit
from bickern.measure.units.say import say_both
from bickern.measure.units.words import Style
from bickern.paper import marks as mk
from bickern.paper.marks import (
    Arc,
    Box,
    Dimension,
    Drawing,
    Layer,
    Line,
    Mark,
    Point,
    Polyline,
    Text,
    Weight,
    bounds,
    circle,
    drawing,
    merge,
    scaled,
)
from bickern.paper.views.line import Station, stations
from bickern.paper.views.looking import View, views
from bickern.paper.views.profile import necked, places, run_at, section_points, stoutest
from bickern.parts.bar.result import BarResult, HoleCheck, MetalRun, TwistCheck
from bickern.parts.bar.tracks import Anchor, Face, Overall, Place

if TYPE_CHECKING:
    import numpy as np
    import shapely
    from numpy.typing import NDArray

SIMPLE = 0.000005
"""Points of an outline nearer than this to the straight between their neighbours are left out [m]."""
HAIR = 1e-8
"""How much each part of an outline is grown so that it joins its neighbours [m]."""
RING = 0.0036
"""Radius of the ring round a bend's number, on paper [m]."""
NAME = 0.0024
"""Capitals of a bend's name, on paper [m]."""
SIZE = 0.0026
"""Capitals of a dimension, on paper [m]."""
OFFSET = 0.008
"""How far a dimension line stands off the outline, on paper [m]."""


@dataclass(frozen=True, slots=True)
class Bent:
    """A bar's line as stations, and how line lengths go over into lengths of metal.

    `scale`: the largest that it is drawn at; the stations are no closer than that wants.
    """

    result: BarResult
    row: tuple[Station, ...]
    factor: float
    scale: float = 1.0

    def metal(self, station: Station) -> float:
        """How far along the finished bar a station lies [m]."""
        return station.s * self.factor

    def nearest(self, s: float) -> Station:
        """The station nearest to a place `s` [m] along the finished bar."""
        return min(self.row, key=lambda station: abs(self.metal(station) - s))


def bent(result: BarResult, start: Frame = START, more: Sequence[float] = (), scale: float = 1.0) -> Bent:
    """The bar's line laid out; where a corner rule makes line and metal differ in length, they are matched evenly.

    There are stations at places [m] that are wanted `more`; `scale` is the largest that it is drawn at.
    """
    result = necked(result)
    line = run_length(result.legs) if result.legs else result.length
    factor = result.length / line if line > 0 else 1.0
    middles = [hole.at for hole in result.holes] + [(bend.start + bend.end) / 2 for bend in result.bends]
    zones = [end for twist in result.twists for end in (twist.start, twist.end)]
    cuts = [s / factor for s in (*places(result), *middles, *zones, *more)]
    return Bent(result, stations(result.legs, cuts, result.length, start, scale), factor, scale)


def bent_outline(result: BarResult, scale: float = 1.0, which: int = 0) -> Drawing:
    """The finished bar's outline at `scale`, seen from its broadest side (`which` 0) or at right angles to it (1)."""
    line = bent(result)
    seen = sides(line)
    return _picture(line, seen[min(which, len(seen) - 1)], scale)


def bent_outlines(result: BarResult) -> tuple[Drawing, ...]:
    """The outline at full size from its broadest side, and from the edge too where it is bent in two planes."""
    line = bent(result)
    return tuple(_picture(line, view, 1.0) for view in sides(line))


def bend_pictures(result: BarResult) -> tuple[tuple[Drawing, tuple[tuple[int, Box], ...]], ...]:
    """The outlines at full size that show a bend, each with the numbers of the bends it shows and where they lie [m].

    A second side is left out where the first shows all that it shows.
    """
    line, found, shown = bent(result), [], set[int]()
    for view in sides(line):
        seen = tuple((number, _span_box(line, view, number)) for number, _ in bends_seen(line, view))
        if {number for number, _ in seen} - shown:
            found.append((_picture(line, view, 1.0), seen))
            shown |= {number for number, _ in seen}
    return tuple(found)


def _span_box(line: Bent, view: View, number: int) -> Box:
    """The box round a bend as seen, iron included [m]."""
    bend = line.result.bends[number - 1]
    row = [station for station in line.row if bend.start - 1e-9 <= line.metal(station) <= bend.end + 1e-9]
    row = row or [line.nearest((bend.start + bend.end) / 2)]
    ends = [p for s in row for p in edges_seen(line, view, s, run_at(line.result.runs, line.metal(s)))]
    xs, ys = [x for x, _ in ends], [y for _, y in ends]
    return Box(min(xs), min(ys), max(xs), max(ys))


def bare_outlines(result: BarResult) -> tuple[Drawing, ...]:
    """The outlines at full size without the numbers of the bends."""
    line = bent(result)
    return tuple(_picture(line, levelled(line, view), 1.0, numbered_bends=False) for view in sides(line))


def bent_views(result: BarResult, scale: float, style: Style, numbers: bool = True) -> tuple[Drawing, ...]:
    """The outline with overall sizes from one side, or from two where the bar is bent in more than one plane."""
    line = bent(result)
    return tuple(sized_view(line, view, scale, style, numbers) for view in sides(line))


def sized_view(line: Bent, view: View, scale: float, style: Style, numbers: bool) -> Drawing:
    """The picture as it is laid on the page, its overall sizes along the axes that they are told in."""
    level = levelled(line, view)
    picture = _picture(line, level, scale, numbers)
    if level is view:
        return merge(picture, drawing(_dimensions(picture, line, view, scale, style)))
    # aslant there is room beside the iron for one size only; both are told in words
    reach, *_ = _dimensions(_picture(line, view, scale, numbered_bends=False), line, view, scale, style)
    angle = math.atan2(dot(view.right, level.upward), dot(view.right, level.right))
    return merge(picture, mk.turned(drawing([reach]), angle))


def levelled(line: Bent, view: View) -> View:
    """The view turned so that the first straight lies along the page, where it is about as long as the longest."""
    straights = [start for start in leg_starts(line.result.legs) if isinstance(start.leg, Straight)]
    first = straights[0] if straights else None
    if first is None or first.length < MAIN * max(start.length for start in straights):
        return view
    along = first.frame.along
    if abs(dot(along, view.toward)) > SQUARE_TO or abs(dot(along, view.upward)) < SQUARE_TO:
        return view
    return View(along, cross(view.toward, along), view.along_right, view.along_up)


MAIN = 0.75
"""Share of the longest straight from which the first is the one to lay level."""
SQUARE_TO = 1e-6
"""Cosine below which two directions are square to one another."""


def bent_from(result: BarResult) -> tuple[str, ...]:
    """For each of `bent_views` where the eye is: `from above`, `from the side`; "" of a hoop, which has no end."""
    seen = sides(bent(result))
    return tuple("" if result.spec.closed else view.seen_from() for view in seen)


def bent_sizes(result: BarResult) -> tuple[float, float, int]:
    """Width and height [m] of the bare outline at full size, views above one another, and how many views there are."""
    line = bent(result)
    boxes = [_outer(_picture(line, levelled(line, view), 1.0, numbered_bends=False)) for view in sides(line)]
    return max(box.width for box in boxes), sum(box.height for box in boxes), len(boxes)


def _outer(picture: Drawing) -> Box:
    """The box round the heavy edges of a picture [m]."""
    return bounds([mark for mark in picture.marks if isinstance(mark, Polyline) and mark.layer is Layer.OUTLINE])


def bare_picture(line: Bent, view: View, scale: float) -> Drawing:
    """The outline with shoulders, twists and holes, seen that way, nothing numbered; places on paper [m]."""
    return _picture(line, view, scale, numbered_bends=False)


def sides(line: Bent) -> tuple[View, ...]:
    """The sides that a bar is looked at from, the broadest first."""
    return views(line.result.legs, line.row, stoutest(line.result))


def _picture(line: Bent, view: View, scale: float, numbered_bends: bool = True) -> Drawing:
    marks: list[Mark] = [*_edges(line, view), *_shoulders(line, view)]
    for twist in line.result.twists:
        marks += _twisted(line, view, twist)
    for hole in line.result.holes:
        marks += _hole(line, view, hole)
    plain = scaled(drawing(marks), scale)
    numbers = drawing(_numbers(line, view, plain, scale) if numbered_bends else [])
    children = [_child(line, child, view, scale) for child in line.result.children]
    return merge(plain, numbers, *children)


def _child(line: Bent, child: BarResult, view: View, scale: float) -> Drawing:
    """A split end or a branch, drawn from the place where it leaves its parent."""
    branch = next((b for b in line.result.spec.branches if b.bar.name == child.spec.name), None)
    at = _leaves(line.result, branch.at) if branch is not None and branch.at is not None else line.result.length
    start = place(line.result.legs, at / line.factor, line.row[0].frame)
    return _picture(bent(child, start, scale=line.scale), view, scale, numbered_bends=False)


def _leaves(result: BarResult, spot: Place) -> float:
    """Where a branch is welded on [m]: by distance, or by the name of a stretch of metal or of a bend."""
    if spot.anchor in (Anchor.DATUM, Anchor.END):
        return spot.plus + (result.length if spot.anchor is Anchor.END else 0.0)
    spans = [(run.name, run.start, run.end) for run in result.runs]
    spans += [(bend.name, bend.start, bend.end) for bend in result.bends]
    start, end = next(((a, b) for name, a, b in spans if name == spot.name), (0.0, result.length))
    share = {Anchor.START_OF: 0.0, Anchor.MIDDLE_OF: 0.5, Anchor.END_OF: 1.0}[spot.anchor]
    return start + share * (end - start) + spot.plus


def _edges(line: Bent, view: View) -> list[Mark]:
    """The outer edge and every opening, as closed polylines [m]."""
    loops = covered(line, view, line.row)
    return [Polyline(points, closed=True, layer=Layer.OUTLINE) for points in loops]


def covered(line: Bent, view: View, row: Sequence[Station]) -> list[tuple[Point, ...]]:
    """What the iron along a row of stations covers as seen: its outer edge and every opening [m]."""
    import shapely

    hulls = _hulls(line, view, row)
    # neighbours share a face only up to rounding, and some parts meet in a point: a hair more joins them for certain
    solid = shapely.union_all(shapely.buffer(hulls, HAIR, quad_segs=1, join_style="mitre"))
    shapes = getattr(solid, "geoms", [solid])
    loops = [loop for shape in shapes for loop in (shape.exterior, *shape.interiors)]
    return [tuple((x, y) for x, y in loop.simplify(SIMPLE).coords[:-1]) for loop in loops if loop.length > 1e-4]


def parts_seen(line: Bent, view: View, row: Sequence[Station]) -> list[tuple[Point, ...]]:
    """The iron between each two stations as an area of its own, as seen [m]."""
    areas = [hull for hull in _hulls(line, view, row) if hull.area > 0.0]
    return [tuple((x, y) for x, y in hull.exterior.coords[:-1]) for hull in areas]


def _hulls(line: Bent, view: View, row: Sequence[Station]) -> "Sequence[shapely.Polygon]":
    """The iron between each two stations, both with the section of the run between them: a step stays a step."""
    import numpy as np
    import shapely

    runs = [
        run_at(line.result.runs, (line.metal(before) + line.metal(station)) / 2) for before, station in pairwise(row)
    ]
    pairs, i = [], 0
    for _, same in groupby(runs, key=id):
        many = len(list(same))
        rings = _rings(line, view, row[i : i + many + 1], runs[i])
        pairs.append(np.concatenate([rings[:-1], rings[1:]], axis=1))
        i += many
    # a line through all points has their hull, and is made of one array at once
    found: Sequence[shapely.Polygon] = shapely.convex_hull(shapely.linestrings(np.concatenate(pairs))) if pairs else ()
    return found


def _rings(line: Bent, view: View, row: Sequence[Station], run: MetalRun) -> "NDArray[np.float64]":
    """The bar's sections at stations of a run as they fall on the paper [m]: stations by points by 2."""
    import numpy as np

    sections = section_points(run, [min(max(line.metal(station), run.start), run.end) for station in row])
    bases = np.array([(view.put(station.left), view.put(station.up)) for station in row])
    placed: NDArray[np.float64] = sections @ bases + np.array([view.put(station.at) for station in row])[:, None, :]
    return placed


def edges_seen(line: Bent, view: View, station: Station, run: MetalRun) -> tuple[Point, Point]:
    """Both edges of the bar at a station, as seen [m]."""
    import numpy as np

    ring = _rings(line, view, (station,), run)[0]
    ahead = view.put(station.along)
    levels = ring @ np.array([-ahead[1], ahead[0]])
    middle = view.put(station.at)
    size = math.hypot(*ahead) or 1.0
    aside = (-ahead[1] / size, ahead[0] / size)
    base = (middle[0] * aside[0] + middle[1] * aside[1]) * size
    low, high = ((float(level) - base) / size for level in (levels.min(), levels.max()))
    return _beside(middle, aside, low), _beside(middle, aside, high)


def _beside(point: Point, direction: Point, by: float) -> Point:
    return (point[0] + direction[0] * by, point[1] + direction[1] * by)


def _edge_on(view: View, station: Station) -> bool:
    """Whether the bar runs (nearly) straight at the eye here, so that nothing can be drawn across it."""
    return math.hypot(*view.put(station.along)) < 0.2


def _shoulders(line: Bent, view: View) -> list[Mark]:
    """A thin line across the bar wherever one stretch of metal ends and another begins, and where a hoop is joined."""
    marks: list[Mark] = []
    if line.result.spec.closed:
        marks.append(Line(*edges_seen(line, view, line.row[0], line.result.runs[0]), Layer.DIMENSION))
    for before, run in pairwise(line.result.runs):
        station = line.nearest(run.start)
        if (before.kept and run.kept) or _edge_on(view, station):
            continue
        marks.append(Line(*edges_seen(line, view, station, run), Layer.DIMENSION))
    return marks


def _twisted(line: Bent, view: View, twist: TwistCheck) -> list[Mark]:
    """The corners of a twisted stretch where they come round to the eye; the sign of the turns is the hand."""
    zone = [s for s in line.row if twist.start - 1e-9 <= line.metal(s) <= twist.end + 1e-9]
    if len(zone) < 2:
        return []
    count = max(12, math.ceil(abs(twist.twist.turns) * 48 * math.sqrt(min(1.0, line.scale))))
    edges = [_twist_edges(line, view, zone, step / count) for step in range(count + 1)]
    marks: list[Mark] = []
    for corner in range(4):
        drawn: list[Point] = []
        for step, (low, high) in enumerate(edges):
            angle = 2 * math.pi * (twist.twist.turns * step / count + (corner + 0.5) / 4)
            if math.sin(angle) >= 0:
                up = (1 + math.cos(angle)) / 2
                drawn.append((low[0] + (high[0] - low[0]) * up, low[1] + (high[1] - low[1]) * up))
                continue
            marks += _run_of(drawn)
            drawn = []
        marks += _run_of(drawn)
    return marks


def _run_of(points: list[Point]) -> list[Mark]:
    return [Polyline(tuple(points), layer=Layer.DIMENSION)] if len(points) > 1 else []


def _twist_edges(line: Bent, view: View, zone: Sequence[Station], share: float) -> tuple[Point, Point]:
    """Both edges of the bar at a share of the twisted stretch, as seen [m]."""
    s = zone[0].s + (zone[-1].s - zone[0].s) * share
    i = min(max(bisect_right(zone, s, key=lambda station: station.s), 1), len(zone) - 1)
    before, after = zone[i - 1], zone[i]
    part = (s - before.s) / (after.s - before.s) if after.s > before.s else 0.0
    at = mixed(before.at, 1 - part, after.at, part)
    run = run_at(line.result.runs, s * line.factor)
    return edges_seen(line, view, Station(s, replace(before.frame, origin=at)), run)


def _hole(line: Bent, view: View, hole: HoleCheck) -> list[Mark]:
    """A hole looked into is a circle or slot; one that is looked at from the side is two hidden lines."""
    station = line.nearest(hole.at)
    axis = station.up if hole.hole.face in (Face.FRONT, Face.BACK) else station.left
    size, long = hole.hole.size, hole.hole.long or hole.hole.size
    middle, ahead = view.put(station.at), view.put(station.along)
    if _edge_on(view, station):
        return []
    ahead = (ahead[0] / math.hypot(*ahead), ahead[1] / math.hypot(*ahead))
    if abs(dot(axis, view.toward)) > 0.7:
        return _slot(middle, ahead, size, long)
    run = run_at(line.result.runs, hole.at)
    low, high = edges_seen(line, view, station, run)
    return [
        Line(_beside(low, ahead, side * long / 2), _beside(high, ahead, side * long / 2), Layer.HIDDEN)
        for side in (-1, 1)
    ]


def _slot(middle: Point, ahead: Point, size: float, long: float) -> list[Mark]:
    if long - size < 1e-6:
        return [circle(middle, size / 2)]
    aside, half = (-ahead[1], ahead[0]), (long - size) / 2
    heading = math.atan2(ahead[1], ahead[0])
    ends = [_beside(middle, ahead, half), _beside(middle, ahead, -half)]
    rounds = [
        Arc(at, size / 2, heading + turn, math.pi) for at, turn in zip(ends, (-math.pi / 2, math.pi / 2), strict=True)
    ]
    sides = [
        Line(_beside(ends[0], aside, side * size / 2), _beside(ends[1], aside, side * size / 2)) for side in (1, -1)
    ]
    return [rounds[0], sides[0], rounds[1], sides[1]]


def edges_at(line: Bent, start: float, end: float) -> tuple[tuple[Point, ...], tuple[Point, ...]]:
    """The inside and the outside edge of a bent stretch [m], seen from the side that it is bent in."""
    row = [station for station in line.row if start - 1e-9 <= line.metal(station) <= end + 1e-9]
    toward = minus(row[len(row) // 2 + 1].along, row[len(row) // 2].along)
    first = row[0].along
    flat = unit(minus(toward, times(first, dot(toward, first))))
    view = View(first, flat, Overall.REACH, Overall.ACROSS)
    inner, outer = [], []
    for station in row:
        low, high = edges_seen(line, view, station, run_at(line.result.runs, line.metal(station)))
        up = _bends_up(line, view, station)
        inner.append(high if up else low)
        outer.append(low if up else high)
    return tuple(inner), tuple(outer)


def _numbers(line: Bent, view: View, drawn: Drawing, scale: float) -> list[Mark]:
    """The number of each bend seen, beside it where neither iron nor a dimension comes, in paper places [m]."""
    import shapely

    edges = [mark.points for mark in drawn.marks if isinstance(mark, Polyline) and mark.layer is Layer.OUTLINE]
    iron = shapely.MultiLineString([(*points, points[0]) for points in edges if len(points) > 2])
    marks: list[Mark] = []
    taken: list[Point] = []
    box = _outer(drawn)
    for number, _ in bends_seen(line, view):
        tried = [at for station in _spread_over(line, number) for at in _around(line, view, station, scale)]
        clear = shapely.distance(iron, shapely.points(tried)).tolist()
        costs = [_cost(at, gap, box, taken) + i for i, (at, gap) in enumerate(zip(tried, clear, strict=True))]
        at = tried[costs.index(min(costs))]
        taken.append(at)
        marks += numbered(at, f"B{number}")
    return marks


def bends_seen(line: Bent, view: View) -> list[tuple[int, Station]]:
    """The bends that are seen from this side as bends, numbered along the bar, each with the station in its middle."""
    middles = [(i, line.nearest((b.start + b.end) / 2)) for i, b in enumerate(line.result.bends, start=1)]
    return [(i, station) for i, station in middles if not _edge_on(view, station) and _bend_seen(line, view, station)]


def _spread_over(line: Bent, number: int) -> list[Station]:
    """The middle of a bend, then places to both hands of it."""
    bend = line.result.bends[number - 1]
    return [line.nearest(bend.start + share * (bend.end - bend.start)) for share in (0.5, 0.35, 0.65, 0.2, 0.8)]


def _around(line: Bent, view: View, station: Station, scale: float) -> list[Point]:
    """Places for a number, the nearest first: outside the bend, inside it, farther, and aside to both hands."""
    low, high = edges_seen(line, view, station, run_at(line.result.runs, line.metal(station)))
    outer, inner = (low, high) if _bends_up(line, view, station) else (high, low)
    (x0, y0), (x1, y1) = ((x * scale, y * scale) for x, y in (outer, inner))
    size = math.hypot(x1 - x0, y1 - y0) or 1.0
    way = ((x0 - x1) / size, (y0 - y1) / size)
    middle = ((x0 + x1) / 2, (y0 + y1) / 2)
    turns = (0.0, math.pi, 0.6, -0.6, 1.2, -1.2, math.pi - 0.6, math.pi + 0.6)
    return [
        mk.polar(middle, size / 2 + RING * reach, math.atan2(way[1], way[0]) + turn)
        for reach in (1.3, 1.8, 2.5)
        for turn in turns
    ]


def _cost(at: Point, clear: float, box: Box, taken: Sequence[Point]) -> float:
    """How ill a number stands there: on the iron, on another number, or where a dimension's lines run."""
    cost = 1000.0 if clear < RING * 1.1 else 0.0
    cost += 1000.0 if any(math.dist(at, other) < 2.2 * RING for other in taken) else 0.0
    return cost + (100.0 if at[0] - RING < box.left or at[1] - RING < box.bottom else 0.0)


def numbered(at: Point, name: str, radius: float = RING) -> list[Mark]:
    """A short name in a ring."""
    letters = Text((at[0], at[1] - NAME / 2), name, NAME, mk.Anchor.MIDDLE, weight=Weight.BOLD)
    return [circle(at, radius, Layer.DIMENSION), letters]


def _turning(line: Bent, station: Station) -> Vec:
    """The change of direction about a station."""
    index = line.row.index(station)
    before, after = line.row[max(index - 1, 0)], line.row[min(index + 1, len(line.row) - 1)]
    return minus(after.along, before.along)


def _bend_seen(line: Bent, view: View, station: Station) -> bool:
    """Whether the bar bends across the line of sight here, and not along it."""
    axis = cross(station.along, _turning(line, station))
    return abs(dot(axis, view.toward)) > 0.5 * norm(axis) > 0


def _bends_up(line: Bent, view: View, station: Station) -> bool:
    """Whether the bend's centre lies on the `high` side of the bar as seen."""
    change = view.put(_turning(line, station))
    ahead = view.put(station.along)
    return change[0] * -ahead[1] + change[1] * ahead[0] > 0


def _dimensions(picture: Drawing, line: Bent, view: View, scale: float, style: Style) -> list[Dimension]:
    """Two overall sizes of a picture, below and to the left: those of the bar itself, without what branches off."""
    result = line.result
    box = scaled(drawing(_edges(line, view)), scale).bounds if result.children else _outer(picture)
    wide = say_both(result.sizes.of(view.along_right), style)
    high = say_both(result.sizes.of(view.along_up), style)
    lower = Dimension((box.left, box.bottom), (box.right, box.bottom), -OFFSET, wide, SIZE)
    side = Dimension((box.left, box.bottom), (box.left, box.top), OFFSET, high, SIZE)
    slim = result.sizes.of(view.along_up) < 1.05 * stoutest(result)
    return [lower] if slim else [lower, side]
