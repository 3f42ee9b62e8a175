"""Where parts lie on a board, and the best place for one more among them."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from bickern.geometry.pack.shapes.board import Board, Turned, depth_at, lay_over, pair_of, wall_of


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
    """All copies of a search: `kinds[c]` of copy c, where each lies (None: nowhere) and which clashes weigh how much.

    This one value is changed in place: the search makes thousands of moves a second.
    """

    board: Board
    kinds: tuple[int, ...]
    spots: list[Spot | None]
    on: list[list[int]]
    weights: np.ndarray
    wall_weights: np.ndarray
    strict: np.ndarray
    wall_strict: np.ndarray


def empty(board: Board, kinds: Sequence[int]) -> Lying:
    """Nothing lies anywhere, every clash weighs alike."""
    n = len(kinds)
    return Lying(board, tuple(kinds), [None] * n, [[] for _ in board.sheets], np.ones((n, n)), np.ones(n), np.zeros((n, n), bool), np.zeros(n, bool))


def lift(lying: Lying, copy: int) -> None:
    """Takes a copy off its sheet."""
    spot = lying.spots[copy]
    if spot is not None:
        lying.on[spot.sheet].remove(copy)
        lying.spots[copy] = None


def put(lying: Lying, copy: int, spot: Spot) -> None:
    """Lays a copy that lies nowhere."""
    lying.on[spot.sheet].append(copy)
    lying.spots[copy] = spot


def best_spot(lying: Lying, copy: int, turned: Sequence[Turned], sheets: Sequence[int]) -> Spot | None:
    """The place of least weighted clashes among all cells of these sheets in these turns."""
    best: Spot | None = None
    for shape in turned:
        for sheet in sheets:
            spot = _best_on(lying, copy, shape, sheet, best.cost if best else float("inf"))
            if spot is not None:
                best = spot
                if best.cost <= 0:
                    return best
    return best


def _best_on(lying: Lying, copy: int, shape: Turned, sheet: int, under: float) -> Spot | None:
    wall = wall_of(lying.board, shape, sheet, bool(lying.wall_strict[copy]))
    if wall is None:
        return None
    total = wall * np.float32(lying.wall_weights[copy])
    row, strict = lying.weights[copy].tolist(), lying.strict[copy].tolist()
    for other in lying.on[sheet]:
        if other != copy:
            spot = lying.spots[other]
            lay_over(total, pair_of(lying.board, shape, spot.turned, strict[other]), spot.i, spot.j, row[other])
    at = int(total.argmin())
    i, j = divmod(at, total.shape[1])
    cost = float(total[i, j])
    return Spot(shape, sheet, i, j, cost) if cost < under else None


def clashes(lying: Lying, copy: int, strict: bool = False) -> list[tuple[int, float]]:
    """Copies (-1: the sheet's edge) that a copy clashes with, and how deep."""
    spot = lying.spots[copy]
    if spot is None:
        return []
    wall = wall_of(lying.board, spot.turned, spot.sheet, strict or bool(lying.wall_strict[copy]))
    found = [(-1, float(wall[spot.i, spot.j]))]
    for other in lying.on[spot.sheet]:
        if other != copy:
            there = lying.spots[other]
            pair = pair_of(lying.board, spot.turned, there.turned, strict or bool(lying.strict[copy, other]))
            found.append((other, depth_at(pair, spot.i - there.i, spot.j - there.j)))
    return [(o, d) for o, d in found if d > 0]
