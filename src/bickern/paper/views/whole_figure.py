"""The figure of a whole set: its elevations and its picture on one piece of paper, with plumb line and level line."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from bickern.geometry.solid.solid import Named
from bickern.geometry.space import Vec
from bickern.measure.units.say import say_both
from bickern.measure.units.words import Style
from bickern.paper.marks import (
    Anchor,
    Box,
    Dimension,
    Drawing,
    Filled,
    Layer,
    Line,
    Mark,
    Text,
    Tone,
    drawing,
    merge,
    moved,
    scaled,
    text_width,
)
from bickern.paper.views.scale import SCALES, fitting, say_scale
from bickern.paper.views.whole import DOTS, FRONT, Look, frame, looks, seen

SIZE = 0.0026
"""Capitals of titles and sizes, on paper [m]."""
GAP = 0.007
"""Between two views [m]."""
OVER = 0.004
"""How far plumb line and level line stand out beyond the set [m]."""
BELOW, BELOW_LONG, UNDER = 0.0175, 0.0225, 0.006
"""Room for size and title under the front and what stands in a row with it, the same where the size is longer than the
front is wide, and for a title alone [m]."""
BESIDE = 0.009
"""Room beside the front for its height [m]."""
BOB = 0.0014
"""Half the width of a plumb bob [m]."""
GRAIN, FEWEST = 0.00012, 400
"""Dot of the grain on paper [m]: finer than the line is wide; and the fewest dots of a view."""
TITLE = 0.016
"""Room that a title takes [m]."""
Room = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Rooms:
    """Room for the views over the page, in a row with words beside, and in a square with words beside."""

    broad: Room
    tall: Room
    square: Room


@dataclass(frozen=True, slots=True)
class Way:
    """One way to set the figure: how its views stand, in which room, with words beside or under it."""

    rows: "Rows"
    room: Room
    beside: bool


@dataclass(frozen=True, slots=True)
class Figure:
    """The figure and its scale; `beside` where it leaves room for words beside it."""

    drawing: Drawing
    scale: float
    beside: bool


@dataclass(frozen=True, slots=True)
class View:
    """One way of looking, and the box in which the set is seen so, at full size [m]."""

    look: Look
    box: Box

    @property
    def size(self) -> Room:
        """Wide and high [m]."""
        return (self.box.width, self.box.height)


Rows = tuple[tuple[int, ...], ...]
PICTURE = 3
"""The number of the view that is not to be measured, and has a scale of its own."""
LARGER = (1.5, 1.4, 1.3, 1.2, 1.1, 1.0, 0.9, 0.8, 0.7, 0.6)
"""Scales of the picture, as a share of the elevations' [-]: the largest for which there is room."""
WORDS = 0.025
"""Height of words that stand under a figure [m]; beside it they take none."""
ROW: Rows = ((0, 1, 2, 3),)
SQUARE: Rows = ((2, 3), (0, 1))
"""How the four views may stand, upper row first: front 0, right side 1, top 2, picture 3. In a square the top stands
over the front and the right side beside it, as third-angle projection has them."""


def figures(
    solids: Sequence[Named],
    hangs_from: Vec | None,
    style: Style,
    rooms: Sequence[Rooms],
    face: Vec = (0.0, 0.0, 0.0),
) -> tuple[Figure, ...]:
    """For each of these rooms the set drawn as large as goes into the broad one, or into one with words beside it.

    The first rooms are the largest. `hangs_from` [m]: where the plumb line starts; None for a set that stands. `face`:
    what looks that way is seen from the front.
    """
    views = [View(look, frame(solids, look)) for look in looks(solids, face)]
    ways = [_best(views, one, style) for one in rooms]
    dots = [_dots(view, scale) for view, scale in zip(views, ways[0][1], strict=True)]
    drawn = [seen(solids, view.look, grain) for view, grain in zip(views, dots, strict=True)]
    return tuple(_set(views, drawn, way, scales, hangs_from, style) for way, scales in ways)


def _best(views: Sequence[View], rooms: Rooms, style: Style) -> "tuple[Way, Scales]":
    """The way that lets the elevations be largest; of two alike the less high."""
    broad, tall, square = rooms.broad, rooms.tall, rooms.square
    ways = (Way(ROW, broad, False), Way(SQUARE, broad, False), Way(ROW, tall, True), Way(SQUARE, square, True))
    tried = [(way, _scales(views, way, style)) for way in ways]
    return max(tried, key=lambda one: (one[1][0], -_height(views, one[0], one[1], style)))


def _set(
    views: Sequence[View], drawn: Sequence[Drawing], way: Way, scales: "Scales", hangs_from: Vec | None, style: Style
) -> Figure:
    """The views `drawn` at full size [m] as they stand on paper."""
    below = [_below(views, next(row for row in way.rows if i in row), scales[0], style) for i in range(len(views))]
    small = [scaled(one, scale) for one, scale in zip(drawn, scales, strict=True)]
    cells = [_cell(view, small[i], scales[i], hangs_from, style, below[i]) for i, view in enumerate(views)]
    lefts = [view.box.left * scale for view, scale in zip(views, scales, strict=True)]
    return Figure(_placed(cells, lefts, way.rows), scales[0], way.beside)


Scales = tuple[float, float, float, float]
"""The scale of each view."""


def _dots(view: View, scale: float) -> int:
    """How fine a grain a view wants that is drawn so large."""
    return max(FEWEST, min(DOTS, round(scale * max(view.size) / GRAIN)))


def _scales(views: Sequence[View], way: Way, style: Style) -> Scales:
    """The largest scale at which the elevations go into the room, and the picture as large as the rest of it allows."""
    measured = views[:PICTURE]
    best = fitting(max(view.size[0] for view in measured), max(view.size[1] for view in measured), way.room)
    tried = (_shared(scale, LARGER[-1]) for scale in _downward(best))
    scale = next(one for one in tried if _goes(views, way, one, style))[0]
    high = max(view.size[1] for view in measured) / max(views[PICTURE].size[1], 1e-9)
    larger = [one for one in LARGER if way.rows != ROW or one <= max(1.0, high)]
    return next(one for share in larger if _goes(views, way, one := _shared(scale, share), style))


def _shared(scale: float, share: float) -> Scales:
    return (scale, scale, scale, scale * share)


def _downward(scale: float) -> Iterator[float]:
    """The scale and all smaller ones, the last so small that everything goes."""
    yield from (one for one in (scale, *SCALES) if one <= scale)
    yield from (SCALES[-1] / 2**n for n in range(1, 20))
    yield 0.0


def _goes(views: Sequence[View], way: Way, scales: Scales, style: Style) -> bool:
    """Whether the views go into the room at these scales."""
    columns = [max(scales[i] * views[i].size[0] + 2 * OVER for i in column) for column in zip(*way.rows, strict=True)]
    wide = sum(max(one, TITLE) for one in columns) + GAP * (len(columns) - 1) + BESIDE
    high = _height(views, way, scales, style) - (0.0 if way.beside else WORDS)
    return scales[0] == 0.0 or (wide <= way.room[0] and high <= way.room[1])


def _height(views: Sequence[View], way: Way, scales: Scales, style: Style) -> float:
    """How high the figure comes with the words that stand under it [m]."""
    highs = [max(scales[i] * views[i].size[1] for i in row) + _below(views, row, scales[0], style) for row in way.rows]
    return sum(one + OVER + GAP for one in highs) - GAP + (0.0 if way.beside else WORDS)


def _below(views: Sequence[View], row: Sequence[int], scale: float, style: Style) -> float:
    """Room under the views of one row [m]."""
    if 0 not in row:
        return UNDER
    wide = views[0].size[0]
    return BELOW if text_width(say_both(wide, style), SIZE) <= scale * wide else BELOW_LONG


def _cell(view: View, drawn: Drawing, scale: float, hangs_from: Vec | None, style: Style, below: float) -> Drawing:
    """One view on paper with its title and what is laid over it; the front has the sizes."""
    box = drawn.bounds
    upright = abs(view.look.upward[2]) > 1 - 1e-9
    lines = _plumb(view.look, hangs_from, scale, box) if upright else []
    sizes = _sizes(view, box, style) if view.look.title == FRONT else []
    under = box.bottom - below + SIZE * 0.6
    marks: list[Mark] = [*lines, *sizes, Text((box.centre[0], under), view.look.title, SIZE, Anchor.MIDDLE)]
    return merge(drawn, drawing(marks))


def _sizes(view: View, box: Box, style: Style) -> list[Mark]:
    """Width below and height at the left, over all."""
    wide, high = (say_both(one, style) for one in view.size)
    low, left = box.bottom - OVER, box.left - OVER
    across = Dimension((box.left, low), (box.right, low), -0.0064, wide, SIZE)
    return [across, Dimension((left, box.bottom), (left, box.top), 0.0032, high, SIZE)]


def _plumb(look: Look, hangs_from: Vec | None, scale: float, box: Box) -> list[Mark]:
    """A plumb line from where it hangs, its bob below; and the level line that the lowest part touches."""
    if hangs_from is None:
        return []
    x, y = (one * scale for one in look.put(hangs_from))
    low = box.bottom - OVER
    bob = Filled(((x - BOB, low + 2 * BOB), (x + BOB, low + 2 * BOB), (x, low - BOB)), Tone.BLACK)
    level = Line((box.left - OVER, box.bottom), (box.right + OVER, box.bottom), Layer.CENTRE)
    return [Line((x, max(y, box.top) + OVER), (x, low), Layer.CENTRE), bob, level]


def _placed(cells: Sequence[Drawing], lefts: Sequence[float], rows: Rows) -> Drawing:
    """The views in their rows, those of one row on one ground line, those of one column with their left sides in line.

    `lefts` [m]: the left side of each view itself, without what is laid over it.
    """
    put: list[Drawing] = []
    right = 0.0
    for column in zip(*rows, strict=True):
        before = max(lefts[i] - cells[i].bounds.left for i in column)
        put += [moved(cells[i], right + before - lefts[i], _ground(cells, rows, i)) for i in column]
        right += before + max(cells[i].bounds.right - lefts[i] for i in column) + GAP
    return merge(*put)


def _ground(cells: Sequence[Drawing], rows: Rows, number: int) -> float:
    """How far up a view is moved [m], so that its row stands on one line, below the rows before."""
    highs = [max(cells[i].bounds.height for i in row) + GAP for row in rows]
    row = next(k for k, row in enumerate(rows) if number in row)
    return -sum(highs[: row + 1]) - cells[number].bounds.bottom


def scale_says(scale: float) -> str:
    """Which views can be measured, and at which scale."""
    return f"Front, right side and top to measure, {say_scale(scale)}; the picture is not to be measured"
