"""Flat patterns: at full size for cutting, and small with their sizes for the shop sheet."""

import math

from bickern.geometry.polygon import Line as Straight
from bickern.measure.units.say import say_both
from bickern.measure.units.words import Style
from bickern.paper.glyphs import upright
from bickern.paper.marks import (
    Anchor,
    Dimension,
    Drawing,
    Layer,
    Line,
    Mark,
    Text,
    Weight,
    bounds,
    circle,
    drawing,
    merge,
    outline,
    scaled,
    text_width,
)
from bickern.parts.sheet.result import Pattern, PatternHole, PatternLine

LAYERS = {
    "bend": Layer.BEND,
    "lap": Layer.HIDDEN,
    "rivet": Layer.CENTRE,
    "centre": Layer.CENTRE,
    "roll": Layer.CENTRE,
    "mark": Layer.MARK,
}
"""The layer of each kind of line that is not cut."""
LETTER = 0.0025
"""Capitals on a pattern [m]."""
CROSS = 0.004
"""Half the cross at a hole's centre [m]."""


def pattern_full(pattern: Pattern, title: str = "") -> Drawing:
    """One pattern at full size: cut lines, bend, lap and roll lines, holes with centres, lettering; exact arcs stay."""
    return drawing(
        [*_cut(pattern), *_lines(pattern, lettered=True), *_holes(pattern, lettered=True), *_title(pattern, title)]
    )


def bare_pattern(pattern: Pattern) -> Drawing:
    """The pattern's lines at full size without any lettering."""
    return drawing([*_cut(pattern), *_lines(pattern, lettered=False), *_holes(pattern, lettered=False)])


def pattern_view(pattern: Pattern, scale: float, style: Style) -> Drawing:
    """The pattern at `scale` with its width and height."""
    picture = scaled(bare_pattern(pattern), scale)
    full, box = bounds(_cut(pattern)), scaled(drawing(_cut(pattern)), scale).bounds
    wide = Dimension((box.left, box.bottom), (box.right, box.bottom), -0.007, say_both(full.width, style))
    high = Dimension((box.left, box.bottom), (box.left, box.top), 0.007, say_both(full.height, style))
    return merge(picture, drawing([wide, high]))


def _cut(pattern: Pattern) -> list[Mark]:
    return [mark for loop in (pattern.outline, *pattern.cutouts) for mark in outline(loop, Layer.CUT)]


def _lines(pattern: Pattern, lettered: bool) -> list[Mark]:
    marks: list[Mark] = []
    for line in pattern.lines:
        marks.append(Line(line.line.start, line.line.end, LAYERS.get(line.kind, Layer.MARK)))
        if lettered and (line.says or line.kind == "bend"):
            marks.append(_along(line))
    return marks


def _along(line: PatternLine) -> Text:
    """Lettering along a line, just above its middle."""
    a, b = line.line.start, line.line.end
    angle = upright(math.atan2(b[1] - a[1], b[0] - a[0]))
    x, y = (a[0] + b[0]) / 2, (a[1] + b[1]) / 2
    at = (x - 0.001 * math.sin(angle), y + 0.001 * math.cos(angle))
    return Text(at, line.says or line.kind, LETTER, Anchor.MIDDLE, angle)


def _holes(pattern: Pattern, lettered: bool) -> list[Mark]:
    marks: list[Mark] = []
    for hole in pattern.holes:
        x, y = hole.centre
        marks += [circle(hole.centre, hole.size / 2, Layer.CUT)]
        if lettered:
            half = max(CROSS, hole.size / 2 + 0.001)
            marks += [
                Line((x - half, y), (x + half, y), Layer.CENTRE),
                Line((x, y - half), (x, y + half), Layer.CENTRE),
            ]
            marks += _hole_words(hole, half)
    return marks


def _hole_words(hole: PatternHole, half: float) -> list[Mark]:
    if not hole.says:
        return []
    return [Text((hole.centre[0] + half + 0.001, hole.centre[1] + 0.001), hole.says, LETTER)]


def _title(pattern: Pattern, title: str) -> list[Mark]:
    """The pattern's name where there is metal to write on: where the room is widest."""
    says = " - ".join(words for words in (title, pattern.name) if words)
    if not says:
        return []
    at, room = _roomy(pattern)
    height = max(0.0022, min(0.0045, 1.8 * room * 0.0045 / text_width(says, 0.0045)))
    return [Text(at, says, height, Anchor.MIDDLE, weight=Weight.BOLD)]


def _roomy(pattern: Pattern) -> tuple[tuple[float, float], float]:
    """The place farthest from every edge, hole and line, and how far that is [m]."""
    import shapely

    from bickern.paper.pens.recorder import arc_points

    points: list[tuple[float, float]] = []
    for mark in outline(pattern.outline):
        points += [mark.start] if isinstance(mark, Line) else arc_points(mark, math.radians(3))[:-1]
    area = shapely.Polygon(points).buffer(0)
    holes = [shapely.Point(hole.centre).buffer(hole.size) for hole in pattern.holes]
    free = area.difference(shapely.union_all([*holes, *(_band(line.line) for line in pattern.lines)]))
    spot = shapely.maximum_inscribed_circle(free if not free.is_empty else area, tolerance=0.001)
    (x, y), *_ = spot.coords
    return (x, y), spot.length


def _band(line: Straight) -> object:
    import shapely

    return shapely.LineString([line.start, line.end]).buffer(0.002)
