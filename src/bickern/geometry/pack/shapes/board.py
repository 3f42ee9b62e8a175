"""The board a nest is searched on: places on a grid, and for any two parts how deep they would lie in each other.

Shapes stay exact, only places are on the grid: a shift that the board calls clear is clear.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from bickern.geometry.pack.shapes.chords import polygon_round, polygon_within
from bickern.geometry.pack.shapes.field import Field
from bickern.geometry.pack.shapes.pieces import Array, apart_rows, bounds_of, convex_pieces
from bickern.geometry.polygon import Loop, area, bounds

if TYPE_CHECKING:
    from shapely.geometry import Polygon

    from bickern.geometry.pack.shapes.asked import Part, Remnant, Spacing

Depths = NDArray[np.float32]
CHORD = 3e-4  # [m] how far a chord may stand out of an arc while searching
TOUCH = 1e-6  # [m] parts are kept this much farther apart than asked, so that rounding never brings them too near
MOST_CACHED = 60_000_000  # depths kept at once (four bytes each)


@dataclass(frozen=True, slots=True)
class Turned:
    """A part turned by `turn`: convex pieces grown by half the gap, and by the margin; lower left of the part at 0.

    `low`: where that lower left lies from the turned part's own origin; `size`: width and height [m].
    """

    number: int
    turn: float
    pieces: tuple[Array, ...]
    rim: tuple[Array, ...]
    low: tuple[float, float]
    size: tuple[float, float]
    reach: float


@dataclass(frozen=True, slots=True)
class Kind:
    """One part of the order with its turns; `area` [m2] of the metal in it; `free`: it may lie any way.

    `unturned`: pieces grown by half the gap, and by the margin, and the corners of the part.
    """

    key: str
    count: int
    area: float
    turned: tuple[Turned, ...]
    free: bool
    unturned: tuple[tuple[Array, ...], tuple[Array, ...], Array]


@dataclass(frozen=True, slots=True)
class Sheet:
    """One remnant: the box that places are counted in (margin taken off), and what of that box is not metal."""

    key: str
    cost: float
    area: float
    corner: tuple[float, float]
    size: tuple[float, float]
    bites: tuple[Array, ...]


@dataclass(frozen=True, slots=True)
class Pair:
    """How deep [m] one part lies in another at shifts of whole cells: `depth[i - i0, j - j0]` at shift (i, j)."""

    i0: int
    j0: int
    depth: Depths


@dataclass(frozen=True, slots=True)
class Rows:
    """Half planes of every two convex pieces of two parts, one after another: `counts` of them for each two pieces."""

    ways: Array
    reach: Array
    counts: NDArray[np.intp]


@dataclass(frozen=True, slots=True)
class Board:
    """Sheets and kinds on a grid of `cell` [m]; clashes up to `slack` [m] are let pass and settled afterwards.

    `raster`: of many shapes, where clashes are counted; the rest is kept so that it is reckoned once. `kept`: how many
    depths, and the number of the last shape that was turned later on.
    """

    cell: float
    slack: float
    kinds: tuple[Kind, ...]
    sheets: tuple[Sheet, ...]
    raster: Field | None = None
    pairs: dict[tuple[int, int], Pair] = field(default_factory=dict)
    walls: dict[tuple[int, int], Depths | None] = field(default_factory=dict)
    faces: dict[tuple[int, int], Rows] = field(default_factory=dict)
    kept: list[int] = field(default_factory=lambda: [0, 1_000_000])


def kind_of(part: "Part", spacing: "Spacing", turns: tuple[float, ...], first: int, least: float = 0.0) -> Kind:
    """A part made ready in each of its turns; turned shapes are numbered from `first` on.

    Holes that are nowhere wider than `least` [m] take no other part, so they are looked at as filled.
    """
    shape = polygon_round(part.outline, CHORD, [cut for cut in part.cutouts if _narrow(cut) > least])
    pieces = convex_pieces(grown(shape, spacing.gap / 2 + TOUCH))
    rim = convex_pieces(grown(shape, spacing.margin + TOUCH))
    corners = np.array(shape.exterior.coords[:-1])
    made: list[Turned] = []
    for turn in turns:
        one = _turned(first + len(made), turn, pieces, rim, corners)
        if not any(_alike(one, other) for other in made):
            made.append(one)
    unturned = (pieces, rim, corners)
    return Kind(part.key, part.count, metal_of(part), tuple(made), part.turns is None and not _round(corners), unturned)


def spun(board: "Board", kind: Kind, turn: float) -> Turned:
    """A part turned a way that it was not made ready for."""
    board.kept[1] += 1
    return _turned(board.kept[1], turn, *kind.unturned)


def _round(corners: Array) -> bool:
    """Whether a shape is a disc: all ways are one."""
    away = np.hypot(*(corners - (corners.min(axis=0) + corners.max(axis=0)) / 2).T)
    return bool(np.ptp(away) < 2 * CHORD)


def _narrow(loop: Loop) -> float:
    (x0, y0), (x1, y1) = bounds(loop)
    return min(x1 - x0, y1 - y0)


def metal_of(part: "Part") -> float:
    """Area of metal in one part [m2]."""
    return abs(area(part.outline)) - sum(abs(area(cut)) for cut in part.cutouts)


def least_side(parts: "Sequence[Part]") -> float:
    """The narrowest box of any part [m]."""
    return min(_narrow(part.outline) for part in parts)


def _alike(one: Turned, other: Turned) -> bool:
    """Whether two turns give the same shape, as half a turn does to a rectangle."""
    if max(abs(one.size[k] - other.size[k]) for k in (0, 1)) > 1e-7:
        return False
    a, b = (np.concatenate(t.pieces) for t in (one, other))
    return bool(a.shape == b.shape and all(np.abs(b - p).sum(axis=1).min() < 1e-7 for p in a))


def _turned(number: int, turn: float, pieces: tuple[Array, ...], rim: tuple[Array, ...], corners: Array) -> Turned:
    c, s = _cos_sin(turn)
    spin = np.array([[c, s], [-s, c]])
    x0, y0, x1, y1 = bounds_of([corners @ spin])
    low = np.array([x0, y0])
    laid, edge = tuple(p @ spin - low for p in pieces), tuple(p @ spin - low for p in rim)
    half = np.array([x1 - x0, y1 - y0]) / 2
    reach = float(np.hypot(*(np.concatenate(laid) - half).T).max())
    return Turned(number, turn, laid, edge, (x0, y0), (x1 - x0, y1 - y0), reach)


def _cos_sin(turn: float) -> tuple[float, float]:
    """Cosine and sine, with no dust at quarter turns."""
    c, s = math.cos(turn), math.sin(turn)
    return (round(c), round(s)) if min(abs(c), abs(s)) < 1e-15 else (c, s)


def sheet_of(remnant: "Remnant", spacing: "Spacing") -> Sheet:
    """A remnant made ready: its box less the margin, and convex pieces of what is missing from the box."""
    import shapely

    metal = polygon_within(remnant.outline, CHORD, remnant.cutouts)
    x0, y0, x1, y1 = metal.bounds
    missing = shapely.box(x0, y0, x1, y1).difference(metal)
    m = spacing.margin
    corner, size = (x0 + m, y0 + m), (x1 - x0 - 2 * m, y1 - y0 - 2 * m)
    bites = tuple(bite - np.array(corner) for bite in convex_pieces(missing))
    return Sheet(remnant.key, remnant.cost, float(metal.area), corner, size, bites)


def grown(polygon: "Polygon", by: float) -> "Polygon":
    """The polygon with everything nearer than `by` [m] added to it; at corners a little more, never less."""
    # sides stay exactly `by` away; a corner is cut off square, 1.2 times as far out as its circle needs (few edges)
    return polygon.buffer(by, join_style="mitre", mitre_limit=1.2 if by > 1e-5 else 3.0)


# ---- depths


def depth_map(board: Board, moving: tuple[Array, ...], fixed: tuple[Array, ...], slack: float) -> Pair:
    """How deep `moving` lies in `fixed` at every shift where they clash by more than the slack."""
    rows = [apart_rows(a, b) for a in moving for b in fixed]
    boxes = [_cells(board.cell, a, b) for a in moving for b in fixed]
    i0, j0 = min(b[0] for b in boxes), min(b[2] for b in boxes)
    i1, j1 = max(b[1] for b in boxes), max(b[3] for b in boxes)
    depth = np.zeros((i1 - i0 + 1, j1 - j0 + 1), np.float32)
    for (ways, reach), (a0, a1, b0, b1) in zip(rows, boxes, strict=True):
        part = depth[a0 - i0 : a1 - i0 + 1, b0 - j0 : b1 - j0 + 1]
        np.maximum(part, _depths(board.cell, ways, reach - slack, (a0, a1, b0, b1)), out=part)
    return Pair(i0, j0, depth)


def _cells(cell: float, moving: Array, fixed: Array) -> tuple[int, int, int, int]:
    low, high = (fixed.min(axis=0) - moving.max(axis=0)) / cell, (fixed.max(axis=0) - moving.min(axis=0)) / cell
    return math.ceil(low[0]), math.floor(high[0]), math.ceil(low[1]), math.floor(high[1])


def _depths(cell: float, ways: Array, reach: Array, box: tuple[int, int, int, int]) -> Depths:
    xs = np.arange(box[0], box[1] + 1) * cell
    ys = np.arange(box[2], box[3] + 1) * cell
    across = (reach[:, None] - ways[:, :1] * xs).astype(np.float32)
    along = (ways[:, 1:] * ys).astype(np.float32)
    least = across[0][:, None] - along[0]
    room = np.empty_like(least)
    for a, b in zip(across[1:], along[1:], strict=True):
        np.subtract(a[:, None], b, out=room)
        np.minimum(least, room, out=least)
    np.maximum(least, np.float32(0), out=least)
    found: Depths = least
    return found


def pair_of(board: Board, moving: Turned, fixed: Turned) -> Pair:
    """The depths of one turned part over another, reckoned once."""
    key = (moving.number, fixed.number)
    found = board.pairs.get(key)
    if found is None:
        found = depth_map(board, moving.pieces, fixed.pieces, board.slack)
        if board.kept[0] > MOST_CACHED:
            board.pairs.clear()
            board.walls.clear()
            board.kept[0] = 0
        board.pairs[key] = found
        board.pairs[fixed.number, moving.number] = Pair(  # the same clash seen from the other part
            1 - found.i0 - found.depth.shape[0], 1 - found.j0 - found.depth.shape[1], found.depth[::-1, ::-1]
        )
        board.kept[0] += found.depth.size
    return found


def wall_of(board: Board, turned: Turned, sheet: int) -> Depths | None:
    """How deep a turned part lies in what is not metal, at every place of a sheet; None: larger than the sheet."""
    key = (turned.number, sheet)
    if key not in board.walls:
        found = board.walls[key] = _wall(board, turned, board.sheets[sheet], board.slack)
        board.kept[0] += 0 if found is None else found.size
    return board.walls[key]


def _wall(board: Board, turned: Turned, sheet: Sheet, slack: float) -> Depths | None:
    nx, ny = (math.floor((sheet.size[k] - turned.size[k]) / board.cell + 1e-6) + 1 for k in (0, 1))
    if nx < 1 or ny < 1:
        return None
    wall = np.zeros((nx, ny), np.float32)
    if sheet.bites:
        lay_over(wall, depth_map(board, turned.rim, sheet.bites, slack), 0, 0, 1.0)
    return wall


def lay_over(board_map: Depths, pair: Pair, i: int, j: int, weight: float) -> None:
    """Adds a pair's weighted depths to the map of all places, the fixed part lying at cell (i, j)."""
    nx, ny = board_map.shape
    mx, my = pair.depth.shape
    a0, b0 = i + pair.i0, j + pair.j0
    a, b = max(a0, 0), max(b0, 0)
    c, d = min(a0 + mx, nx), min(b0 + my, ny)
    if a < c and b < d:
        depth = pair.depth[a - a0 : c - a0, b - b0 : d - b0]
        board_map[a:c, b:d] += depth if weight == 1.0 else depth * np.float32(weight)  # most weigh just 1
