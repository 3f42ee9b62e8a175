"""A drawing at real size over the paper that is there, with marks to join the pages by."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from bickern.paper.clip import clip, text_middle
from bickern.paper.furniture import (
    FOOT,
    Imprint,
    cross,
    diamond,
    foot,
    frame,
    letters,
    quarter_places,
    shape_of,
)
from bickern.paper.glyphs import plain, righted
from bickern.paper.marks import Box, Drawing, Mark, Point, Text, bounds, moved, turned
from bickern.paper.pens.page import Paper, Sheet, on_paper, sideways
from bickern.paper.pens.recorder import record

OVERLAP = 0.010
"""What neighbouring pages both show [m]."""
STEPS = 5
"""How many places of the grid are tried along each side."""
TURNS = tuple(math.radians(angle) for angle in (0, 90, 15, 30, 45, 60, 75, 105, 120, 135, 150, 165))
"""Ways of laying the drawing on the grid, the plain ones first; a slanting one is taken only where it saves a page."""


@dataclass(frozen=True, slots=True)
class Tile:
    """One piece of paper: `label` as printed; `window` is the part of the laid drawing that it shows.

    A place in the laid drawing moved by `shift` [m] is its place on the printed side number `page` (from 0).
    """

    label: str
    row: int
    column: int
    window: Box
    shift: Point
    page: int


@dataclass(frozen=True, slots=True)
class Tiling:
    """Pieces of paper that together show a drawing at real size.

    `turn` [rad] is how the drawing was turned about its origin to lie on them; `sheets` are the printed sides.
    """

    overlap: float
    turn: float
    tiles: tuple[Tile, ...]
    sheets: tuple[Sheet, ...]


@dataclass(frozen=True, slots=True)
class _Grid:
    """A way to lay pages over a turned drawing; `cells` are (row, column), row 0 the uppermost."""

    paper: Paper
    turn: float
    corner: Point  # upper left corner of the window of row 0, column 0
    wide: float
    high: float
    overlap: float
    cells: tuple[tuple[int, int], ...]

    def window(self, row: int, column: int) -> Box:
        left = self.corner[0] + column * (self.wide - self.overlap)
        top = self.corner[1] - row * (self.high - self.overlap)
        return Box(left, top - self.high, left + self.wide, top)


def drawing_area(paper: Paper) -> Box:
    """What a page has for the drawing itself, above the check rule at its foot [m]."""
    full = paper.printable
    return replace(full, bottom=full.bottom + FOOT)


def tile(
    picture: Drawing,
    paper: Paper,
    title: str = "",
    overlap: float = OVERLAP,
    turns: Sequence[float] = TURNS,
    name: str = "",
) -> Tiling:
    """The drawing at real size on as few pages as can be found, each with its check rule, label and match marks.

    Both ways of feeding the paper, each of `turns` [rad] and several places of the grid are tried; blank pages are
    left out. This is a search among these, not a proof that no smaller number exists. `name` goes before each page's
    label: it tells the pages of one drawing from those of another, and from the letters in it.
    """
    if not picture.marks:
        return Tiling(overlap, 0.0, (), ())
    grid = _fewest(picture, paper, overlap, turns)
    flat = turned(picture, grid.turn)
    marks = tuple(righted(mark) if isinstance(mark, Text) else mark for mark in plain(flat.marks))
    laid = Drawing(marks, flat.bounds)
    grid = replace(grid, cells=tuple(cell for cell in _all_cells(grid) if clip(laid, _core(grid, cell)).marks))
    tiles = tuple(_tile(grid, number) for number in range(len(grid.cells)))
    sheets = tuple(_sheet(laid, grid, each, tiles, (name, title)) for each in tiles)
    return Tiling(overlap, grid.turn, tiles, sheets)


def _fewest(picture: Drawing, paper: Paper, overlap: float, turns: Sequence[float]) -> _Grid:
    """The way of laying the pages that needs the fewest of them."""
    points = _samples(picture)
    best: _Grid | None = None
    for turn in turns:
        for fed in (paper, sideways(paper)):
            grid = _best_corner(points, _plan(fed, turn, overlap))
            if best is None or len(grid.cells) < len(best.cells):
                best = grid
    assert best is not None
    return best


def _plan(paper: Paper, turn: float, overlap: float) -> _Grid:
    area = drawing_area(paper)
    return _Grid(paper, turn, (0.0, 0.0), area.width, area.height, overlap, ())


def _samples(picture: Drawing) -> tuple[Point, ...]:
    """Places along every stroke, near enough to one another to tell which pages they fall on."""
    places: list[Point] = []
    for mark in plain(picture.marks):
        if isinstance(mark, Text):
            places.append(text_middle(mark))
            continue
        for stroke in record(Drawing((mark,), picture.bounds)):
            for start, end in pairwise(stroke.points):
                count = max(1, math.ceil(math.dist(start, end) / 0.004))
                places += [_part(start, end, step / count) for step in range(count + 1)]
    return tuple(places)


def _part(start: Point, end: Point, share: float) -> Point:
    return (start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1]))


def _best_corner(points: Sequence[Point], plan: _Grid) -> _Grid:
    """The plan with the place of its corner that leaves most pages blank."""
    import numpy as np

    c, s = math.cos(plan.turn), math.sin(plan.turn)
    laid = np.asarray(points) @ np.array([[c, s], [-s, c]])
    (left, bottom), (right, top) = laid.min(axis=0).tolist(), laid.max(axis=0).tolist()
    pitch_x, pitch_y = plan.wide - plan.overlap, plan.high - plan.overlap
    columns = max(1, math.ceil((right - left - plan.overlap) / pitch_x - 1e-9))
    rows = max(1, math.ceil((top - bottom - plan.overlap) / pitch_y - 1e-9))
    slack_x = columns * pitch_x + plan.overlap - (right - left)
    slack_y = rows * pitch_y + plan.overlap - (top - bottom)
    grids = []
    for share_x, share_y in _shares(columns, rows):
        x, y = left - share_x * slack_x, top + share_y * slack_y
        column = np.clip((laid[:, 0] - x - plan.overlap / 2) // pitch_x, 0, columns - 1)
        row = np.clip((y - laid[:, 1] - plan.overlap / 2) // pitch_y, 0, rows - 1)
        used = np.flatnonzero(np.bincount((row * columns + column).astype(int))).tolist()
        grids.append(replace(plan, corner=(x, y), cells=tuple(divmod(cell, columns) for cell in used)))
    return min(grids, key=lambda grid: len(grid.cells))


def _shares(columns: int, rows: int) -> list[tuple[float, float]]:
    """Places to try: the middle first; where one page spans a side there is no choice to make."""
    steps = (0.5, *(step / (STEPS - 1) for step in range(STEPS)))
    across, down = ((0.5,) if count == 1 else steps for count in (columns, rows))
    return [(x, y) for x in across for y in down]


def _all_cells(grid: _Grid) -> list[tuple[int, int]]:
    columns = 1 + max(column for _, column in grid.cells)
    rows = 1 + max(row for row, _ in grid.cells)
    return [(row, column) for row in range(rows) for column in range(columns)]


def _core(grid: _Grid, cell: tuple[int, int]) -> Box:
    """The part of a page's window that no other page need show, half of each overlap included."""
    window, half = grid.window(*cell), grid.overlap / 2
    last_row = max(row for row, _ in grid.cells)
    last_column = max(column for _, column in grid.cells)
    return Box(
        window.left + (half if cell[1] > 0 else 0.0),
        window.bottom + (half if cell[0] < last_row else 0.0),
        window.right - (half if cell[1] < last_column else 0.0),
        window.top - (half if cell[0] > 0 else 0.0),
    )


def _tile(grid: _Grid, number: int) -> Tile:
    row, column = grid.cells[number]
    window, area = grid.window(row, column), drawing_area(grid.paper)
    shift = (area.left - window.left, area.bottom - window.bottom)
    return Tile(f"{letters(row).upper()}{column + 1}", row, column, window, shift, number)


def one_page(picture: Drawing, paper: Paper, title: str, number: int, count: int) -> Sheet:
    """A drawing that goes on one page, in the middle of it, with its check rule and number; lying as it lies."""
    area = drawing_area(paper)
    (x, y), (u, v) = picture.bounds.centre, area.centre
    shown = moved(Drawing(plain(picture.marks), picture.bounds), u - x, v - y)
    says = Imprint(str(number), number, count, title, "", (), 0, shown)
    around = (*frame(area), *foot(says, paper.printable))
    return on_paper(Drawing((*shown.marks, *around), area), paper)


def _sheet(laid: Drawing, grid: _Grid, tile: Tile, tiles: Sequence[Tile], called: tuple[str, str]) -> Sheet:
    """One page: its part of the drawing, the marks that join it to its neighbours, and its foot (name, title)."""
    shown = lettering_inside(clip(laid, tile.window), tile.window, _core(grid, (tile.row, tile.column)))
    there = Drawing((*shown.marks, *_match_marks(grid, tile)), tile.window)
    joining = "Lay diamond on diamond, same letter on same letter." if len(tiles) > 1 else ""
    windows = tuple(each.window for each in tiles)
    name, title = called
    label = f"{name} {tile.label}".strip()
    says = Imprint(label, tile.page + 1, len(tiles), title, joining, windows, tile.page, shape_of(laid))
    around = (*frame(drawing_area(grid.paper)), *foot(says, grid.paper.printable))
    return on_paper(Drawing((*moved(there, *tile.shift).marks, *around), tile.window), grid.paper)


def lettering_inside(shown: Drawing, window: Box, core: Box) -> Drawing:
    """Lettering that would run over the window's edge is shifted in, on the page whose own part it belongs to."""
    kept: list[Mark] = []
    for mark in shown.marks:
        if not isinstance(mark, Text):
            kept.append(mark)
            continue
        right, up = _shift_in(bounds((mark,)), window)
        middle = Box(*text_middle(mark), *text_middle(mark))
        if (right, up) == (0.0, 0.0) or core.meets(middle):
            kept.append(replace(mark, at=(mark.at[0] + right, mark.at[1] + up)))
    return Drawing(tuple(kept), shown.bounds)


def _shift_in(box: Box, window: Box) -> Point:
    """The shortest shift that brings a box inside a window, its left and lower edges first."""
    right = max(window.left - box.left, min(0.0, window.right - box.right))
    up = max(window.bottom - box.bottom, min(0.0, window.top - box.top))
    return (right, up)


def _match_marks(grid: _Grid, tile: Tile) -> list[Mark]:
    """Diamonds in each overlap with a neighbour, crosses where four pages meet; the same on every page they touch."""
    marks: list[Mark] = []
    for index, (cell, beside) in enumerate(_joints(grid.cells)):
        if (tile.row, tile.column) in (cell, beside):
            for at in _joint_places(grid.window(*cell), grid.window(*beside)):
                marks += diamond(at, letters(index))
    return marks + [mark for at in _meeting_places(grid, tile) for mark in cross(at)]


def _joints(cells: Sequence[tuple[int, int]]) -> list[tuple[tuple[int, int], tuple[int, int]]]:
    """Pairs of pages side by side or one above the other, in reading order."""
    there = set(cells)
    return [
        (cell, beside)
        for cell in cells
        for beside in ((cell[0], cell[1] + 1), (cell[0] + 1, cell[1]))
        if beside in there
    ]


def _joint_places(one: Box, two: Box) -> list[Point]:
    """Two places along the middle of what two windows share."""
    shared = Box(max(one.left, two.left), max(one.bottom, two.bottom), min(one.right, two.right), min(one.top, two.top))
    x, y = shared.centre
    if shared.width < shared.height:
        return [(x, place) for place in quarter_places(shared.bottom, shared.top)]
    return [(place, y) for place in quarter_places(shared.left, shared.right)]


def _meeting_places(grid: _Grid, tile: Tile) -> list[Point]:
    """Where this page meets at least one other at a corner."""
    there, half = set(grid.cells), grid.overlap / 2
    window, places = tile.window, []
    for down, x_to in ((0, 0), (0, 1), (1, 0), (1, 1)):
        rows, columns = (tile.row + down - 1, tile.row + down), (tile.column + x_to - 1, tile.column + x_to)
        if sum((row, column) in there for row in rows for column in columns) > 1:
            x = window.right - half if x_to else window.left + half
            y = window.bottom + half if down else window.top - half
            places.append((x, y))
    return places
