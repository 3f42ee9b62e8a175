"""Flat patterns: at full size for cutting, and small with their sizes for the shop sheet."""

import math

from bickern.geometry.blank import min_blank
from bickern.geometry.polygon import Line as Straight
from bickern.measure.units.say import say_up_both
from bickern.measure.units.words import Style
from bickern.paper.marks import (
    Anchor,
    Dimension,
    Drawing,
    Layer,
    Line,
    Mark,
    Text,
    Weight,
    circle,
    drawing,
    merge,
    outline,
    rectangle,
    scaled,
    text_width,
    turned,
)
from bickern.paper.views.lettering import along, round_about, settled
from bickern.parts.sheet.result import Pattern

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
SIZE = 0.0026
"""Capitals of a dimension [m]."""
CROSS = 0.004
"""Half the cross at a hole's centre [m]."""


def pattern_full(pattern: Pattern, title: str = "") -> Drawing:
    """One pattern at full size: cut lines, bend, lap and roll lines, holes with centres, lettering; exact arcs stay.

    What several lines or holes say alike is lettered once.
    """
    lines = [*_cut(pattern), *_lines(pattern), *_holes(pattern, crossed=True)]
    named = _title(pattern, title)
    wanted = [named] if named else []
    return drawing([*lines, *settled([*wanted, *_words(pattern)], lines, _corners(pattern))])


def bare_pattern(pattern: Pattern) -> Drawing:
    """The pattern's lines at full size without any lettering."""
    return drawing([*_cut(pattern), *_lines(pattern), *_holes(pattern, crossed=False)])


def pattern_view(pattern: Pattern, scale: float, style: Style) -> Drawing:
    """The pattern at `scale` as it lies in the smallest blank, with the width and height of that blank."""
    blank = min_blank(pattern.outline)
    picture = scaled(turned(bare_pattern(pattern), blank.turn), scale)
    box = scaled(turned(drawing(_cut(pattern)), blank.turn), scale).bounds
    says = [say_up_both(size, style) for size in (blank.width, blank.height)]
    wide = Dimension((box.left, box.bottom), (box.right, box.bottom), -0.005, says[0], SIZE)
    high = Dimension((box.left, box.bottom), (box.left, box.top), 0.005, says[1], SIZE)
    return merge(picture, drawing([rectangle(box, Layer.DIMENSION), wide, high]))


def _cut(pattern: Pattern) -> list[Mark]:
    return [mark for loop in (pattern.outline, *pattern.cutouts) for mark in outline(loop, Layer.CUT)]


def _lines(pattern: Pattern) -> list[Mark]:
    return [Line(one.line.start, one.line.end, LAYERS.get(one.kind, Layer.MARK)) for one in pattern.lines]


def _words(pattern: Pattern) -> list[list[Text]]:
    """For each thing that lines or holes say, all the places where it may be said."""
    said: dict[str, list[Text]] = {}
    for one in pattern.lines:
        says = one.says or (one.kind if one.kind == "bend" else "")
        if says:
            said.setdefault(says, []).extend(along(says, one.line.start, one.line.end, LETTER))
    on_a_line = any(one.kind == "rivet" for one in pattern.lines)  # which says it for all its holes
    for hole in pattern.holes:
        if hole.says and not (on_a_line and hole.says.startswith("rivet")):
            off = max(CROSS, hole.size / 2 + 0.001) + 0.001
            said.setdefault(hole.says, []).extend(round_about(hole.says, hole.centre, off, LETTER))
    return list(said.values())


def _holes(pattern: Pattern, crossed: bool) -> list[Mark]:
    marks: list[Mark] = []
    for hole in pattern.holes:
        (x, y), half = hole.centre, max(CROSS, hole.size / 2 + 0.001)
        marks.append(circle(hole.centre, hole.size / 2, Layer.CUT))
        if crossed:
            marks += [
                Line((x - half, y), (x + half, y), Layer.CENTRE),
                Line((x, y - half), (x, y + half), Layer.CENTRE),
            ]
    return marks


def _title(pattern: Pattern, title: str) -> list[Text]:
    """The pattern's name where there is metal to write on: where the room is widest."""
    says = title or pattern.name
    if not says:
        return []
    at, room = _roomy(pattern)
    height = max(0.0022, min(0.0045, 1.8 * room * 0.0045 / text_width(says, 0.0045)))
    return [Text(at, says, height, Anchor.MIDDLE, weight=Weight.BOLD)]


def _roomy(pattern: Pattern) -> tuple[tuple[float, float], float]:
    """The place farthest from every edge, hole and line, and how far that is [m]."""
    import shapely

    area = shapely.Polygon(_corners(pattern)).buffer(0)
    holes = [shapely.Point(hole.centre).buffer(hole.size) for hole in pattern.holes]
    free = area.difference(shapely.union_all([*holes, *(_band(line.line) for line in pattern.lines)]))
    spot = shapely.maximum_inscribed_circle(free if not free.is_empty else area, tolerance=0.001)
    (x, y), *_ = spot.coords
    return (x, y), spot.length


def _corners(pattern: Pattern) -> list[tuple[float, float]]:
    """The outline as corners, arcs in short straights [m]."""
    from bickern.paper.pens.recorder import arc_points

    points: list[tuple[float, float]] = []
    for mark in outline(pattern.outline):
        points += [mark.start] if isinstance(mark, Line) else arc_points(mark, math.radians(3))[:-1]
    return points


def _band(line: Straight) -> object:
    import shapely

    return shapely.LineString([line.start, line.end]).buffer(0.002)
