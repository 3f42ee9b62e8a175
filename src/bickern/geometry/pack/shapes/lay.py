"""Where parts lie on a board, and the best place for one more among them."""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bickern.geometry.pack.shapes import field
from bickern.geometry.pack.shapes.board import Board, Turned, lay_over, pair_of, wall_of
from bickern.geometry.pack.shapes.pieces import Array
from bickern.geometry.pack.shapes.settle import settle

FREE = 0.1
"""Clashes less than this share of a cell are none."""
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


@dataclass(slots=True)
class Lying:
    """All copies of a search: what lies where, which clashes there are, and how much each weighs.

    `kinds[c]` of copy c; `spots[c]` (None: nowhere) and the exact lower left `at[c]` [m]; copies `on` each sheet;
    `hits` left on each sheet (copy, copy or -1 for the edge, depth). This value is changed in place: the search
    makes a thousand moves a second.
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
    stamps: list[tuple[object, field.Stamp, int, int] | None]


def empty(board: Board, kinds: Sequence[int], keep_going: Callable[[], bool]) -> Lying:
    """Nothing lies anywhere, every clash weighs alike."""
    n, sheets = len(kinds), len(board.sheets)
    on: list[list[int]] = [[] for _ in range(sheets)]
    hits: list[list[tuple[int, int, float]]] = [[] for _ in range(sheets)]
    weights, wall_weights = np.ones((n, n)), np.ones(n)
    return Lying(board, tuple(kinds), [None] * n, np.zeros((n, 2)), on, hits, weights, wall_weights, keep_going, [None] * n)


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
) -> Spot | None:
    """The place of least weighted clashes among all cells of these sheets in these turns; None: none `under`.

    `known`: a place that was tried, with the cost that pushing could not take away: the cells about it cost no less.
    Where the search is told to stop, the best place seen so far.
    """
    if lying.board.raster is not None:
        return _best_in_field(lying, lying.board.raster, copy, turned, sheets, under, known)
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


def _best_in_field(
    lying: Lying,
    raster: field.Field,
    copy: int,
    turned: Sequence[Turned],
    sheets: Sequence[int],
    under: float,
    known: Spot | None,
) -> Spot | None:
    """As `best_spot`; of places without clash the one where the part touches most."""
    occupied, scale = _occupied(lying, copy, raster)
    there = np.fft.rfft2(occupied)
    best: Spot | None = None
    most = -1.0
    for shape in turned:
        if not lying.keep_going():
            return best
        cover, touched, cells = field.spectra(raster, shape)
        clash = field.clash_map(raster, there, cover)
        contact = None
        for sheet in sheets:
            room = _room(raster, lying.board, shape, sheet)
            if room is None:
                continue
            here = clash[room] * np.float32(scale * raster.cell / math.sqrt(cells))
            if known is not None and known.sheet == sheet and _as_large(known.turned, shape, raster.cell):
                about = here[max(0, known.i - ABOUT) : known.i + ABOUT + 1, max(0, known.j - ABOUT) : known.j + ABOUT + 1]
                np.maximum(about, np.float32(known.cost), out=about)
            free = here < np.float32(FREE * raster.cell * min(scale, 5.0))
            if free.any():
                if contact is None:
                    contact = field.clash_map(raster, there, touched)
                score = np.where(free, contact[room], np.float32(-1))
                i, j = divmod(int(score.argmax()), score.shape[1])
                if score[i, j] > most:
                    best, most = Spot(shape, sheet, i, j, 0.0), float(score[i, j])
            elif most < 0:
                i, j = divmod(int(here.argmin()), here.shape[1])
                cost = float(here[i, j])
                if cost < (best.cost if best else under):
                    best = Spot(shape, sheet, i, j, cost)
    return best


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


def _as_large(one: Turned, other: Turned, cell: float) -> bool:
    return all(abs(one.size[k] - other.size[k]) < cell for k in (0, 1))


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
