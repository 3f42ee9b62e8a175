"""A sheet at full size with the parts that are cut out of it: what to scribe where, measured from two edges."""

import math
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from bickern.geometry import polygon
from bickern.geometry.polygon import Loop, bounds
from bickern.making.stock.sheet_cuts import SheetCuts
from bickern.measure.units.say import say_both
from bickern.measure.units.words import Style
from bickern.paper.furniture import letters
from bickern.paper.glyphs import righted
from bickern.paper.marks import (
    Anchor,
    Drawing,
    Layer,
    Line,
    Mark,
    Point,
    Polyline,
    Text,
    Tick,
    TickKind,
    Weight,
    drawing,
    moved,
    outline,
    turned,
)
from bickern.paper.views.sheet import pattern_full
from bickern.parts.sheet.result import Pattern

SIZE = 0.0026
"""Capitals of the running sizes [m]."""
PITCH = 1.7 * SIZE
"""Least distance of two running sizes side by side [m]."""
STUB, LEADER = 0.003, 0.010
"""From the edge to where a size's line may slant, and to its lettering [m]."""
CROSS = 0.003
"""Half the cross at the point that is measured to [m]."""
SAME = 5e-5
"""Places as near to each other as this are one [m]."""


@dataclass(frozen=True, slots=True)
class NestPart:
    """One part where it lies: its pattern turned by `turn` [rad] about its own origin, then shifted by x, y [m].

    `letter`: what it is called in the cut list; several of one letter are numbered.
    """

    letter: str
    pattern: Pattern
    turn: float
    x: float
    y: float


def nest_drawing(
    cut: SheetCuts, named: Mapping[str, str] | None = None, style: Style | None = None, sizes: bool = True
) -> Drawing:
    """One sheet of a cut plan at full size; `named`: the letter of each want by its key, else A, B, ... in order."""
    called = named or {
        key: letters(i).upper() for i, key in enumerate(dict.fromkeys(one.want.key for one in cut.parts))
    }
    parts = [
        NestPart(called[one.want.key], one.want.pattern, one.laid.turn, one.laid.x, one.laid.y) for one in cut.parts
    ]
    return sheet_drawing(cut.stock.outline, cut.stock.cutouts, parts, style or Style(), sizes)


def sheet_drawing(
    sheet: Loop, cutouts: Sequence[Loop], parts: Sequence[NestPart], style: Style, sizes: bool = True
) -> Drawing:
    """A sheet at full size with its parts, and how far right and up the lowest point of each part lies.

    The sheet's edge is on the layer of outlines, what is cut on that of cuts; each part's bends, marks and holes as on
    its pattern, lettering upright. Sizes run from the sheet's leftmost and lowest point; of several lowest points of a
    part the leftmost is meant, and a cross stands on it. Without `sizes` the crosses stand alone.
    """
    corner, _ = bounds(sheet)
    labels = numbered([part.letter for part in parts])
    marks: list[Mark] = [mark for loop in (sheet, *cutouts) for mark in outline(loop, Layer.OUTLINE)]
    spots: list[tuple[str, Point]] = []
    for label, part in zip(labels, parts, strict=True):
        lying = moved(turned(pattern_full(part.pattern, label), part.turn), part.x, part.y)
        marks += [righted(mark) if isinstance(mark, Text) else mark for mark in lying.marks]
        spots.append((label, lowest(polygon.moved(part.pattern.outline, part.x, part.y, part.turn))))
    marks += [mark for _, at in spots for mark in _cross(at)]
    marks += _edges(sheet)
    for axis in (0, 1) if sizes else ():
        marks += _running(spots, corner, axis, style)
    return drawing(marks)


def lowest(loop: Loop) -> Point:
    """The lowest point of an outline [m]; of several, the leftmost."""
    (_, low), _ = bounds(loop)
    found = [point for seg in loop.segs for point in _low_points(seg)]
    return min(point for point in found if point[1] <= low + SAME)


def _low_points(seg: polygon.Seg) -> Iterator[Point]:
    """Where a segment may be lowest: its start, and the foot of an arc that goes through it."""
    yield polygon.seg_start(seg)
    if isinstance(seg, polygon.ArcSeg):
        first = min(seg.start_angle, seg.start_angle + seg.sweep)
        if (-math.pi / 2 - first) % (2 * math.pi) <= abs(seg.sweep):
            yield (seg.centre[0], seg.centre[1] - seg.radius)


# ---- lettering


def numbered(letters: Sequence[str]) -> list[str]:
    """`A` for the only one of its letter, `A1`, `A2` for several, in the order given."""
    many, seen, found = Counter(letters), Counter[str](), list[str]()
    for letter in letters:
        seen[letter] += 1
        found.append(letter if many[letter] == 1 else f"{letter}{seen[letter]}")
    return found


def _cross(at: Point) -> list[Mark]:
    (x, y), layer = at, Layer.MARK
    return [Line((x - CROSS, y), (x + CROSS, y), layer), Line((x, y - CROSS), (x, y + CROSS), layer)]


def _edges(sheet: Loop) -> list[Mark]:
    """The two lines that sizes run from, and a flag where they meet."""
    (left, low), (right, high) = bounds(sheet)
    lines = Polyline(((left, high), (left, low), (right, low)), layer=Layer.DIMENSION)
    return [lines, Tick((left, low), TickKind.DATUM, 0.006)]


def _running(spots: Sequence[tuple[str, Point]], corner: Point, axis: int, style: Style) -> list[Mark]:
    """Running sizes below the sheet (`axis` 0: how far right) or left of it (1: how far up), clear of each other."""
    named: dict[float, list[str]] = {}
    for label, at in sorted(spots, key=lambda spot: spot[1][axis]):
        size = next((size for size in named if abs(size - at[axis]) <= SAME), at[axis])
        named.setdefault(size, []).append(label)
    marks: list[Mark] = []
    for (size, labels), place in zip(named.items(), spread(list(named), PITCH, corner[axis] - LEADER / 2), strict=True):
        ends = [(size, 0.0), (size, -STUB), (place, -LEADER)]
        marks.append(Polyline(tuple(_on_edge(corner, axis, *end) for end in ends), layer=Layer.DIMENSION))
        says = f"{' '.join(labels)}: {say_both(size - corner[axis], style)}"
        shift = SIZE / 2 if axis == 0 else -SIZE / 2  # a line of lettering stands with its middle at the leader
        at = _on_edge(corner, axis, place + shift, -LEADER - 0.001)
        marks.append(Text(at, says, SIZE, Anchor.END, math.pi / 2 if axis == 0 else 0.0, Weight.REGULAR))
    return marks


def _on_edge(corner: Point, axis: int, along: float, off: float) -> Point:
    """A place `along` an edge (its own coordinate) and `off` it outward where that is negative [m]."""
    return (along, corner[1] + off) if axis == 0 else (corner[0] + off, along)


def spread(places: Sequence[float], pitch: float, least: float = -math.inf) -> list[float]:
    """Rising places moved as little as may be (in squares), so that neighbours are `pitch` [m] apart or more.

    None comes below `least` [m]: what stands under the corner of a sheet keeps clear of what stands beside it.
    """
    blocks: list[tuple[float, int]] = []  # the mean of places less their turn times pitch, and how many share it
    for turn, place in enumerate(places):
        mean, count = place - turn * pitch, 1
        while blocks and blocks[-1][0] >= mean:
            before, many = blocks.pop()
            mean, count = (before * many + mean * count) / (many + count), many + count
        blocks.append((mean, count))
    means = [max(mean, least) for mean, count in blocks for _ in range(count)]
    return [mean + turn * pitch for turn, mean in enumerate(means)]
