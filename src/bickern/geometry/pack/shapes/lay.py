"""Where parts lie on a board, and the best place for one more among them."""

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bickern.geometry.pack.shapes import field
from bickern.geometry.pack.shapes.board import Board, Turned, lay_over, pair_of, wall_of
from bickern.geometry.pack.shapes.pieces import Array
from bickern.geometry.pack.shapes.settle import settle

FREE, MOST_FREE = 0.1, 5.0
"""Clashes less than this share of a cell are none; where some weigh much, less than so many times as much."""
ABOUT = 2
"""Cells about a place that are as bad as it was found to be."""


@dataclass(frozen=True, slots=True)
class Spot:
    """One part's place: its turned shape, the sheet, and the cell its lower left lies on; `cost` of clashes there."""

    turned: Turned
    sheet: int
    i: int
    j: int
    cost: float = 0.0


_Kept = tuple[tuple[int, int, float, float], field.Stamp, int, int]
"""Of what a raster was made (shape, sheet, lower left), the raster, and the cell of its lower left."""


@dataclass(slots=True)
class Lying:
    """All copies of a search: what lies where, which clashes there are, and how much each weighs.

    `kinds[c]` of copy c; `spots[c]` (None: nowhere) and the exact lower left `at[c]` [m]; copies `on` each sheet;
    `hits` left on each sheet (copy, copy or -1 for the edge, depth); `stamps`: rasters of what lies. This value is
    changed in place: the search makes a thousand moves a second.
    """

    board: Board
    kinds: tuple[int, ...]
    spots: list[Spot | None]
    at: Array
    on: list[list[int]]
    hits: list[list[tuple[int, int, float]]]
    weights: NDArray[np.float64]
    wall_weights: NDArray[np.float64]
    keep_going: Callable[[], bool]
    stamps: list[_Kept | None]


def empty(board: Board, kinds: Sequence[int], keep_going: Callable[[], bool]) -> Lying:
    """Nothing lies anywhere, every clash weighs alike."""
    n, sheets = len(kinds), len(board.sheets)
    on: list[list[int]] = [[] for _ in range(sheets)]
    hits: list[list[tuple[int, int, float]]] = [[] for _ in range(sheets)]
    weights, wall_weights = np.ones((n, n)), np.ones(n)
    at, stamps = np.zeros((n, 2)), list[_Kept | None]([None] * n)
    return Lying(board, tuple(kinds), [None] * n, at, on, hits, weights, wall_weights, keep_going, stamps)


def lift(lying: Lying, copy: int) -> None:
    """Takes a copy off its sheet."""
    spot = lying.spots[copy]
    if spot is not None:
        lying.on[spot.sheet].remove(copy)
        lying.spots[copy] = None


def put(lying: Lying, copy: int, spot: Spot) -> None:
    """Lays a copy that lies nowhere on the middle of a cell's clear place."""
    lying.on[spot.sheet].append(copy)
    lying.spots[copy] = spot
    lying.at[copy] = spot.i * lying.board.cell, spot.j * lying.board.cell


def relax(lying: Lying, sheet: int, pushes: int) -> None:
    """Pushes what lies on a sheet apart, and notes the clashes that are left."""
    here = lying.on[sheet]
    if not here:
        lying.hits[sheet] = []
        return
    at, left = settle(lying.board, sheet, [spot_of(lying, c).turned for c in here], lying.at[here], pushes)
    lying.at[here] = at
    lying.hits[sheet] = [(here[a], here[b] if b < len(here) else -1, d) for a, b, d in left]
    for copy, (i, j) in zip(here, np.rint(at / lying.board.cell).astype(int).tolist(), strict=True):
        spot = spot_of(lying, copy)
        lying.spots[copy] = Spot(spot.turned, sheet, i, j)


def spot_of(lying: Lying, copy: int) -> Spot:
    """Where a copy lies that does lie somewhere."""
    spot = lying.spots[copy]
    assert spot is not None
    return spot


def best_spot(
    lying: Lying,
    copy: int,
    turned: Sequence[Turned],
    sheets: Sequence[int],
    under: float = float("inf"),
    known: Spot | None = None,
    leftward: bool = False,
) -> Spot | None:
    """The place of least weighted clashes among all cells of these sheets in these turns; None: none `under`.

    `known`: a place that was tried, with the cost that pushing could not take away: the cells about it cost no less.
    `leftward`: of places without clash the farthest left. Where the search is told to stop, the best place so far.
    """
    if lying.board.raster is not None:
        occupied, scale = _occupied(lying, copy, lying.board.raster)
        there = field.whole_spectrum(occupied)
        look = _Look(lying.board, lying.board.raster, there, scale, tuple(sheets), known, leftward)
        return _best_in_field(lying, look, turned, under)
    best: Spot | None = None
    for shape in turned:
        for sheet in sheets:
            if not lying.keep_going():
                return best
            spot = _best_on(lying, copy, shape, sheet, best.cost if best else under, known)
            if spot is not None:
                best = spot
                if best.cost <= 0:
                    return best
    return best


def _best_on(lying: Lying, copy: int, shape: Turned, sheet: int, under: float, known: Spot | None) -> Spot | None:
    wall = wall_of(lying.board, shape, sheet)
    if wall is None:
        return None
    total = wall * np.float32(lying.wall_weights[copy])
    row, there = lying.weights[copy].tolist(), lying.on[sheet]
    for n, other in enumerate(there):
        if other != copy:
            spot = spot_of(lying, other)
            lay_over(total, pair_of(lying.board, shape, spot.turned), spot.i, spot.j, row[other])
        if n == len(there) * 2 // 3 and total.min() >= under:
            return None  # what is still to come only adds
    if known is not None and (known.turned.number, known.sheet) == (shape.number, sheet):
        about = total[max(0, known.i - ABOUT) : known.i + ABOUT + 1, max(0, known.j - ABOUT) : known.j + ABOUT + 1]
        np.maximum(about, np.float32(known.cost), out=about)
    i, j = divmod(int(total.argmin()), total.shape[1])
    cost = float(total[i, j])
    return Spot(shape, sheet, i, j, cost) if cost < under else None


# ---- by the raster of all sheets


@dataclass(frozen=True, slots=True)
class _Look:
    """What is looked at for one copy: the transform `there` of what lies, in units of `scale` (see `best_spot`)."""

    board: Board
    raster: field.Field
    there: field.Spectrum
    scale: float
    sheets: tuple[int, ...]
    known: Spot | None
    leftward: bool


def _best_in_field(lying: Lying, look: _Look, turned: Sequence[Turned], under: float) -> Spot | None:
    """As `best_spot`; of places without clash the one where the part has most about it. Where `under`, the first."""
    best, most = None, (0, -under)
    for shape in turned:
        if not lying.keep_going() or (most[0] and under < math.inf):
            break
        for spot, worth in _on_sheets(look, shape):
            if worth > most:
                best, most = spot, worth
    return best


def _on_sheets(look: _Look, shape: Turned) -> Iterator[tuple[Spot, tuple[int, float]]]:
    """The best place on each sheet in one turn, and what it is worth: whether without clash, then how good it is."""
    raster = look.raster
    rooms = [(s, room) for s in look.sheets if (room := _room(raster, look.board, shape, s)) is not None]
    if not rooms:
        return
    cover, cells = field.spectrum_of(raster, shape)
    clash = field.clash_map(raster, look.there, cover) * np.float32(
        look.scale * raster.cell / math.sqrt(max(1.0, cells))
    )
    touch: field.Cover | None = None
    for sheet, room in rooms:
        here = clash[room]
        _mark(here, look.known, shape, sheet, raster.cell)
        free = here < np.float32(FREE * raster.cell * min(look.scale, MOST_FREE))
        if not free.any():
            i, j = divmod(int(here.argmin()), here.shape[1])
            yield Spot(shape, sheet, i, j, float(here[i, j])), (0, -float(here[i, j]))
        elif look.leftward:
            i, j = divmod(int(free.argmax()), here.shape[1])
            yield Spot(shape, sheet, i, j), (1, -i * raster.cell - shape.size[0])
        else:
            touch = field.touch_map(raster, look.there, cover) if touch is None else touch
            i, j = divmod(int(np.where(free, touch[room], -np.inf).argmax()), here.shape[1])
            yield Spot(shape, sheet, i, j), (1, float(touch[room][i, j]))


def _mark(here: field.Cover, known: Spot | None, shape: Turned, sheet: int, cell: float) -> None:
    """Makes the cells about a known place cost what is known of it; the same for a turn that is as wide and high."""
    if known is None or known.sheet != sheet or any(abs(known.turned.size[k] - shape.size[k]) >= cell for k in (0, 1)):
        return
    about = here[max(0, known.i - ABOUT) : known.i + ABOUT + 1, max(0, known.j - ABOUT) : known.j + ABOUT + 1]
    np.maximum(about, np.float32(known.cost), out=about)


def _room(raster: field.Field, board: Board, shape: Turned, sheet: int) -> tuple[slice, slice] | None:
    """The cells of the raster that the lower left of a part may lie on, on one sheet; None: larger than the sheet."""
    size, (a, b) = board.sheets[sheet].size, raster.starts[sheet]
    nx, ny = (math.floor((size[k] - shape.size[k]) / raster.cell + 1e-6) + 1 for k in (0, 1))
    return (slice(a, a + nx), slice(b, b + ny)) if nx > 0 and ny > 0 else None


def _occupied(lying: Lying, copy: int, raster: field.Field) -> tuple[field.Cover, float]:
    """What is covered already, each part by what a clash of this copy with it weighs, in units of the second value."""
    row, wall = lying.weights[copy], float(lying.wall_weights[copy])
    scale = max(1.0, wall / field.HEAVIEST, float(row.max()) / field.HEAVIEST)
    row, total = row / scale, raster.walls * np.float32(wall / scale)
    for other, spot in enumerate(lying.spots):
        if spot is not None and other != copy:
            stamp, i, j = _stamp(lying, other, spot, raster)
            field.lay_stamp(total, stamp, i, j, row[other])
    return total, scale


def _stamp(lying: Lying, copy: int, spot: Spot, raster: field.Field) -> tuple[field.Stamp, int, int]:
    """The raster of a copy where it lies now, and the cell of its lower left."""
    x, y = lying.at[copy].tolist()
    key = (spot.turned.number, spot.sheet, x, y)
    kept = lying.stamps[copy]
    if kept is None or kept[0] != key:
        i, j = round(x / raster.cell), round(y / raster.cell)
        stamp = field.stamp_of(spot.turned, raster.cell, (x - i * raster.cell, y - j * raster.cell))
        a, b = raster.starts[spot.sheet]
        kept = lying.stamps[copy] = (key, stamp, a + i, b + j)
    return kept[1:]
