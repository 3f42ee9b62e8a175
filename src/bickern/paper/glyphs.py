"""Dimensions, ticks and hatching spelled out as plain lines, arcs, areas and lettering that any pen can put down."""

import math
from collections.abc import Iterable
from dataclasses import replace

from bickern.paper.marks import (
    Anchor,
    Arc,
    Dimension,
    Filled,
    Layer,
    Line,
    Mark,
    Plain,
    Point,
    Text,
    Tick,
    TickKind,
    Tone,
    circle,
    polar,
    text_width,
)

ARROW = 0.003
"""Length of an arrow head on paper [m]; it is a third as wide."""
GAP = 0.001
"""Air between a point and its extension line, and between a line and its lettering [m]."""
PAST = 0.0015
"""How far an extension line runs past the dimension line [m]."""
HATCH_ANGLE = math.pi / 4
"""Slant of hatching [rad]."""


def plain(marks: Iterable[Mark]) -> tuple[Plain, ...]:
    """The same marks with dimensions, ticks and hatched areas spelled out."""
    return tuple(piece for mark in marks for piece in _spell(mark))


def _spell(mark: Mark) -> tuple[Plain, ...]:
    match mark:
        case Dimension():
            return dimension_strokes(mark)
        case Tick():
            return tick_strokes(mark)
        case Filled(tone=Tone.HATCHED):
            return hatch_lines(mark)
        case _:
            return (mark,)


def dimension_strokes(mark: Dimension) -> tuple[Plain, ...]:
    """Extension lines, dimension line, two arrow heads and the wording, upright for a reader below or to the right."""
    length = math.dist(mark.start, mark.end)
    if length == 0.0:
        return ()
    along = ((mark.end[0] - mark.start[0]) / length, (mark.end[1] - mark.start[1]) / length)
    normal = (-along[1], along[0])
    side = math.copysign(1.0, mark.offset)
    first, last = (_step(point, normal, mark.offset) for point in (mark.start, mark.end))
    lines = (
        Line(_step(mark.start, normal, side * GAP), _step(first, normal, side * PAST), mark.layer),
        Line(_step(mark.end, normal, side * GAP), _step(last, normal, side * PAST), mark.layer),
    )
    tight = length < 3 * ARROW
    return lines + _arrowed(first, last, along, tight, mark.layer) + (_dimension_text(mark, first, last, tight),)


def _step(point: Point, direction: Point, by: float) -> Point:
    return (point[0] + direction[0] * by, point[1] + direction[1] * by)


def _arrowed(first: Point, last: Point, along: Point, tight: bool, layer: Layer) -> tuple[Plain, ...]:
    """The dimension line with its heads: inside, or outside pointing in where the room is tight."""
    back = -1.0 if tight else 1.0
    heads = (arrow_head(first, along, back, layer), arrow_head(last, along, -back, layer))
    if not tight:
        return (Line(first, last, layer), *heads)
    tails = Line(_step(first, along, -2 * ARROW), _step(last, along, 2 * ARROW), layer)
    return (tails, *heads)


def arrow_head(tip: Point, along: Point, side: float, layer: Layer) -> Filled:
    """A black head with its tip at `tip`, its body lying `side` (+1 or -1) along the unit direction `along`."""
    base = _step(tip, along, side * ARROW)
    normal = (-along[1], along[0])
    return Filled((tip, _step(base, normal, ARROW / 6), _step(base, normal, -ARROW / 6)), Tone.BLACK, layer=layer)


def _dimension_text(mark: Dimension, first: Point, last: Point, tight: bool) -> Text:
    angle = upright(math.atan2(last[1] - first[1], last[0] - first[0]))
    above = (-math.sin(angle), math.cos(angle))
    middle = ((first[0] + last[0]) / 2, (first[1] + last[1]) / 2)
    wide = tight or text_width(mark.says, mark.height) > math.dist(first, last)
    # too wide to stand between the extension lines: beyond their ends, on the side away from what is measured
    away = (last[1] - first[1]) * above[0] - (last[0] - first[0]) * above[1]
    below = wide and away * mark.offset > 0
    at = _step(middle, above, -(GAP + PAST + 1.1 * mark.height) if below else GAP + (PAST if wide else 0.0))
    return Text(at, mark.says, mark.height, Anchor.MIDDLE, angle, layer=Layer.TEXT)


def upright(angle: float) -> float:
    """The same slope turned so that its lettering is read from below or from the right, in (-pi/2, pi/2] [rad]."""
    turned = math.remainder(angle, math.pi)
    return math.pi / 2 if turned <= -math.pi / 2 + 1e-9 else turned


def righted(text: Text) -> Text:
    """The same lettering in the same place, turned about where it would stand on its head."""
    angle = upright(text.angle)
    if math.cos(angle - text.angle) > 0:
        return replace(text, angle=angle)
    up = (-math.sin(text.angle) * text.height, math.cos(text.angle) * text.height)
    other = {Anchor.START: Anchor.END, Anchor.END: Anchor.START, Anchor.MIDDLE: Anchor.MIDDLE}[text.anchor]
    at = (text.at[0] + up[0], text.at[1] + up[1])
    return replace(text, at=at, angle=angle, anchor=other)


def tick_strokes(mark: Tick) -> tuple[Plain, ...]:
    """A tick's own shape: each kind can be told from the others without colour."""
    half = mark.size / 2
    top, foot = polar(mark.at, half, mark.angle), polar(mark.at, -half, mark.angle)
    stroke = Line(foot, top, mark.layer)
    match mark.kind:
        case TickKind.CHALK:
            return (stroke,)
        case TickKind.PUNCH:
            return (circle(mark.at, half, mark.layer), _dot(mark.at, mark.size / 6, mark.layer))
        case TickKind.CHISEL:
            arms = (Line(top, polar(top, half, mark.angle + side), mark.layer) for side in (0.5, -0.5))
            return (Line(foot, top, mark.layer), *arms)
        case TickKind.DATUM:
            flag = (top, mark.at, polar(polar(mark.at, half / 2, mark.angle), half, mark.angle - math.pi / 2))
            return (stroke, Filled(flag, Tone.BLACK, layer=mark.layer))


def _dot(centre: Point, radius: float, layer: Layer) -> Filled:
    points = tuple(polar(centre, radius, step * math.pi / 8) for step in range(16))
    return Filled(points, Tone.BLACK, layer=layer)


def hatch_lines(mark: Filled) -> tuple[Line, ...]:
    """Slanting lines inside the area, `spacing` apart, laid on one grid so that neighbours line up."""
    c, s = math.cos(HATCH_ANGLE), math.sin(HATCH_ANGLE)
    tipped = [(c * x + s * y, -s * x + c * y) for x, y in mark.points]
    low, high = min(y for _, y in tipped), max(y for _, y in tipped)
    rows = range(math.ceil(low / mark.spacing), math.floor(high / mark.spacing) + 1)
    lines = []
    for row in rows:
        level = row * mark.spacing
        cuts = sorted(_crossings(tipped, level))
        for a, b in zip(cuts[::2], cuts[1::2], strict=False):
            ends = [(c * x - s * level, s * x + c * level) for x in (a, b)]
            lines.append(Line(ends[0], ends[1], mark.layer))
    return tuple(lines)


def _crossings(points: list[Point], level: float) -> list[float]:
    """Where a level line crosses the sides of an area; a corner on the line counts for one of its sides only."""
    found = []
    for (x0, y0), (x1, y1) in zip(points, points[1:] + points[:1], strict=True):
        if (y0 <= level) != (y1 <= level):
            found.append(x0 + (level - y0) / (y1 - y0) * (x1 - x0))
    return found


def arc_pieces(arc: Arc, widest: float = math.pi / 6) -> tuple[Arc, ...]:
    """The arc in equal pieces, none wider than `widest` [rad]."""
    count = max(1, math.ceil(abs(arc.sweep) / widest - 1e-9))
    step = arc.sweep / count
    return tuple(Arc(arc.centre, arc.radius, arc.start + i * step, step, arc.layer) for i in range(count))
