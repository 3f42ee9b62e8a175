"""Small clashes pushed apart, turns kept: from places on the grid to exact ones."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bickern.geometry.pack.shapes.board import Board, Rows, Turned
from bickern.geometry.pack.shapes.pieces import Array, apart_rows

EASE = 0.7  # share of a clash that one push takes away
KEEP = 0.6  # share of its speed that a part keeps from push to push
MOST_FACES = 40_000  # pairs of turned parts whose half planes are kept
NEAR = 4.0  # cells: pieces farther apart than this are not looked at until parts have moved

Hit = tuple[int, int, float]
"""Two parts in clash (the second: number of parts = the sheet's edge) and how deep [m]."""


@dataclass(frozen=True, slots=True)
class Faces:
    """Half planes of every two convex pieces that may meet: one row a pair of pieces, padded.

    `first`, `second`: which parts (second = number of parts: the sheet's own bites, which do not move).
    """

    first: NDArray[np.intp]
    second: NDArray[np.intp]
    ways: Array
    reach: Array
    rows: NDArray[np.intp]


@dataclass(frozen=True, slots=True)
class _Left:
    first: NDArray[np.intp]
    second: NDArray[np.intp]
    depth: Array
    ways: Array


def settle(board: Board, sheet: int, laid: Sequence[Turned], at: Array, pushes: int) -> tuple[Array, list[Hit]]:
    """Pushes parts at lower lefts `at` (n, 2) [m] apart; gives the new places and the clashes that are left."""
    size = np.array([t.size for t in laid])
    top = np.maximum(np.array(board.sheets[sheet].size) - size, 0.0)
    x: Array = np.clip(at, 0, top)
    speed: Array = np.zeros_like(at)
    near = NEAR * board.cell
    faces, seen = _faces(board, sheet, laid, x, near), x
    now = left = _hits(faces, x)
    best, least = x, float(left.depth.sum())
    for _ in range(pushes):
        if not least:
            break
        speed = KEEP * speed + _push(now, len(laid))
        x = np.clip(x + speed, 0, top)
        if np.abs(x - seen).max() > near / 2:
            faces, seen = _faces(board, sheet, laid, x, near), x
        now = _hits(faces, x)
        if now.depth.sum() < least:
            best, left, least = x, now, float(now.depth.sum())
    return best, [*zip(left.first.tolist(), left.second.tolist(), left.depth.tolist(), strict=True)]


def _hits(faces: Faces, x: Array) -> _Left:
    """Which convex pieces lie in each other at places x, how deep, and the short way out."""
    if not len(faces.first):
        return _Left(faces.first, faces.first, np.zeros(0), np.zeros((0, 2)))
    there = np.concatenate([x, np.zeros((1, 2))])
    shift = there[faces.first] - there[faces.second]
    room = faces.reach - faces.ways[:, :, 0] * shift[:, :1] - faces.ways[:, :, 1] * shift[:, 1:]
    face = room.argmin(axis=1)
    deep = room[faces.rows, face]
    hit = np.flatnonzero(deep > 0)
    return _Left(faces.first[hit], faces.second[hit], deep[hit], faces.ways[hit, face[hit]])


def _push(left: _Left, n: int) -> Array:
    """What each part is moved by: half of every clash, the whole of one with the edge, eased."""
    way = left.ways * ((left.depth + 1e-7) * EASE)[:, None]
    share = np.where(left.second == n, 1.0, 0.5)[:, None]
    push: Array = np.zeros((n + 1, 2))
    np.add.at(push, left.first, way * share)
    np.add.at(push, left.second, -way * share)
    return push[:n]


def _faces(board: Board, sheet: int, laid: Sequence[Turned], at: Array, near: float) -> Faces:
    """The rows of all pieces that are nearer to each other than `near` [m]."""
    n = len(laid)
    firsts, seconds = _close(laid, at, near)
    pairs = [_pair_rows(board, laid[a], laid[b]) for a, b in zip(firsts.tolist(), seconds.tolist(), strict=True)]
    walls = [_wall_rows(board, one, sheet) for one in laid] if board.sheets[sheet].bites else []
    first = np.concatenate([firsts, np.arange(len(walls))])
    second = np.concatenate([seconds, np.full(len(walls), n)])
    return _picked([*pairs, *walls], first, second, np.concatenate([at, np.zeros((1, 2))]), near)


def _close(laid: Sequence[Turned], at: Array, near: float) -> tuple[NDArray[np.intp], NDArray[np.intp]]:
    """Every two parts whose boxes are nearer than `near` [m]."""
    low, high = at - near / 2, at + np.array([one.size for one in laid]) + near / 2
    meet = ((low[:, None] < high) & (low < high[:, None])).all(axis=2)
    firsts, seconds = np.nonzero(np.tril(meet, -1))
    return firsts, seconds


def _pair_rows(board: Board, a: Turned, b: Turned) -> Rows:
    return _kept(board, (a.number, b.number), a.pieces, b.pieces)


def _wall_rows(board: Board, a: Turned, sheet: int) -> Rows:
    return _kept(board, (a.number, -1 - sheet), a.rim, board.sheets[sheet].bites)


def _kept(board: Board, key: tuple[int, int], moving: Sequence[Array], fixed: Sequence[Array]) -> Rows:
    found = board.faces.get(key)
    if found is None:
        if len(board.faces) > MOST_FACES:
            board.faces.clear()
        rows = [apart_rows(one, other) for one in moving for other in fixed]
        found = board.faces[key] = Rows(
            np.concatenate([ways for ways, _ in rows]),
            np.concatenate([reach for _, reach in rows]),
            np.array([len(reach) for _, reach in rows]),
        )
    return found


def _picked(rows: Sequence[Rows], first: NDArray[np.intp], second: NDArray[np.intp], at: Array, near: float) -> Faces:
    """Of all rows those of pieces that are near; pieces of fewer rows have their first row again."""
    if not rows:
        none = np.zeros(0, np.intp)
        return Faces(none, none, np.zeros((0, 1, 2)), np.zeros((0, 1)), none)
    counts = np.concatenate([one.counts for one in rows])
    starts = np.cumsum(counts) - counts
    owner = np.repeat(np.arange(len(rows)), [len(one.counts) for one in rows])
    ways, reach = np.concatenate([one.ways for one in rows]), np.concatenate([one.reach for one in rows])
    shift = np.repeat((at[first] - at[second])[owner], counts, axis=0)
    room = reach - ways[:, 0] * shift[:, 0] - ways[:, 1] * shift[:, 1]
    kept = np.flatnonzero(np.minimum.reduceat(room, starts) > -near)
    step = np.arange(counts[kept].max(initial=1))
    index = starts[kept, None] + np.where(step < counts[kept, None], step, 0)
    return Faces(first[owner[kept]], second[owner[kept]], ways[index], reach[index], np.arange(len(kept)))
