"""Small clashes pushed apart, turns kept: from places on the grid to exact ones."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bickern.geometry.pack.shapes.board import Board, Turned
from bickern.geometry.pack.shapes.pieces import Array, apart_rows

EASE = 0.7  # share of a clash that one push takes away
KEEP = 0.6  # share of its speed that a part keeps from push to push
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
    rows: list[tuple[int, int, Array, Array]] = []
    n = len(laid)
    for a in range(n):
        for b in range(a):
            if _close(laid[a], at[a], laid[b], at[b], near):
                rows += _near(_pair_faces(board, laid[a], laid[b]), a, b, at[a] - at[b], near)
        rows += _near(_wall_faces(board, laid[a], sheet), a, n, at[a], near)
    return _padded(rows)


def _close(a: Turned, pa: Array, b: Turned, pb: Array, near: float) -> bool:
    return all(pa[k] - near < pb[k] + b.size[k] and pb[k] - near < pa[k] + a.size[k] for k in (0, 1))


def _pair_faces(board: Board, a: Turned, b: Turned) -> list[tuple[Array, Array]]:
    key = (a.number, b.number)
    if key not in board.faces:
        board.faces[key] = [apart_rows(one, other) for one in a.pieces for other in b.pieces]
    return board.faces[key]


def _wall_faces(board: Board, a: Turned, sheet: int) -> list[tuple[Array, Array]]:
    key = (a.number, -1 - sheet)
    if key not in board.faces:
        board.faces[key] = [apart_rows(one, other) for one in a.rim for other in board.sheets[sheet].bites]
    return board.faces[key]


def _near(
    faces: list[tuple[Array, Array]], a: int, b: int, shift: Array, near: float
) -> list[tuple[int, int, Array, Array]]:
    return [(a, b, ways, reach) for ways, reach in faces if (reach - ways @ shift).min() > -near]


def _padded(rows: list[tuple[int, int, Array, Array]]) -> Faces:
    most = max((len(r[3]) for r in rows), default=1)
    ways, reach = np.zeros((len(rows), most, 2)), np.full((len(rows), most), 1e9)
    for n, (_, _, w, r) in enumerate(rows):
        ways[n, : len(r)], reach[n, : len(r)] = w, r
    return Faces(
        np.array([r[0] for r in rows], int), np.array([r[1] for r in rows], int), ways, reach, np.arange(len(rows))
    )
