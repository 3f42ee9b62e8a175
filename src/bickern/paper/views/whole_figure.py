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
)
from bickern.paper.views.scale import SCALES, fitting, say_scale
from bickern.paper.views.whole import DOTS, FRONT, Look, frame, looks, seen

SIZE = 0.0026
"""Capitals of titles and sizes, on paper [m]."""
GAP = 0.007
"""Between two views [m]."""
OVER = 0.004
"""How far plumb line and level line stand out beyond the set [m]."""
BELOW, UNDER = 0.0225, 0.006
"""Room for size and title under the front and what stands in a row with it, and for a title alone [m]."""
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
    """Room for the views in a row over the page, in a row with words beside, and in a square with words beside."""

    broad: Room
    tall: Room
    square: Room


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
ROW: Rows = ((0, 1, 2, 3),)
SQUARE: Rows = ((2, 3), (0, 1))
"""How the four views may stand, upper row first: front 0, right side 1, top 2, picture 3. In a square the top stands
over the front and the right side beside it, as third-angle projection has them."""


def figure(
    solids: Sequence[Named],
    hangs_from: Vec | None,
    style: Style,
    rooms: Rooms,
    face: Vec = (0.0, 0.0, 0.0),
) -> Figure:
    """The set drawn as large as goes into the broad room, or into one that leaves room beside it.

    `hangs_from` [m]: where the plumb line starts; None for a set that stands. `face`: what looks that way is seen from
    the front.
    """
    views = [View(look, frame(solids, look)) for look in looks(solids, face)]
    places = ((rooms.broad, ROW, False), (rooms.tall, ROW, True), (rooms.square, SQUARE, True))
    tried = [(_scale(views, rows, room), rows, beside) for room, rows, beside in places]
    scale, rows, beside = max(tried, key=lambda one: one[0])
    below = [_below(next(row for row in rows if i in row)) for i in range(len(views))]
    drawn = [scaled(seen(solids, view.look, _dots(view, scale)), scale) for view in views]
    cells = [_cell(view, drawn[i], scale, hangs_from, style, below[i]) for i, view in enumerate(views)]
    return Figure(_placed(cells, [view.box.left * scale for view in views], rows), scale, beside)


def _dots(view: View, scale: float) -> int:
    """How fine a grain a view wants that is drawn so large."""
    return max(FEWEST, min(DOTS, round(scale * max(view.size) / GRAIN)))


def _scale(views: Sequence[View], rows: Rows, room: Room) -> float:
    """The largest scale at which these rows of views go into the room, titles and sizes beside them."""
    best = fitting(max(view.size[0] for view in views), max(view.size[1] for view in views), room)
    return next(one for one in _downward(best) if _goes(views, rows, one, room))


def _downward(scale: float) -> Iterator[float]:
    """The scale and all smaller ones, the last so small that everything goes."""
    yield from (one for one in (scale, *SCALES) if one <= scale)
    yield from (SCALES[-1] / 2**n for n in range(1, 20))
    yield 0.0


def _goes(views: Sequence[View], rows: Rows, scale: float, room: Room) -> bool:
    """Whether the views go into the room at a scale."""
    columns = [max(scale * views[i].size[0] + 2 * OVER for i in column) for column in zip(*rows, strict=True)]
    wide = sum(max(one, TITLE) for one in columns) + GAP * (len(columns) - 1) + BESIDE
    high = sum(scale * max(views[i].size[1] for i in row) + _below(row) + OVER + GAP for row in rows) - GAP
    return scale == 0.0 or (wide <= room[0] and high <= room[1])


def _below(row: Sequence[int]) -> float:
    """Room under the views of one row [m]."""
    return BELOW if 0 in row else UNDER


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
