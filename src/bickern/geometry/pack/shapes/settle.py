"""Small clashes pushed apart, turns kept: from places on the grid to exact ones."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from bickern.geometry.pack.shapes.board import Board, Turned
from bickern.geometry.pack.shapes.pieces import Array, apart_rows

PUSHES = 120  # rounds of pushing before a sheet is given up


@dataclass(frozen=True, slots=True)
class Faces:
    """Half planes of every two convex pieces that may meet: one row a pair of pieces, padded.

    `first`, `second`: which parts (second = number of parts: the sheet's own bites, which do not move).
    """

    first: np.ndarray
    second: np.ndarray
    ways: Array
    reach: Array


def settle(
    board: Board, number: int, laid: Sequence[Turned], at: Array, near: float, keep_going: Callable[[], bool]
) -> tuple[Array, Array]:
    """Pushes parts at lower lefts `at` (n, 2) [m] apart; gives the new places and how deep each is still in clash [m]."""
    sheet = board.sheets[number]
    faces = _faces(board, number, laid, at, near)
    top = np.array(sheet.size) - np.array([t.size for t in laid])
    x, speed = np.clip(at, 0, top), np.zeros_like(at)
    best, least = x, np.full(len(laid), np.inf)
    for turn in range(PUSHES):
        push, depth = _pushes(faces, x, len(laid))
        if depth.sum() < least.sum():
            best, least = x, depth
        if not depth.any() or (turn % 16 == 15 and not keep_going()):
            break
        speed = 0.6 * speed + push
        x = np.clip(x + speed, 0, top)
    return best, least


def _pushes(faces: Faces, x: Array, n: int) -> tuple[Array, Array]:
    """What each part is pushed by, and how deep it is in clash."""
    push, depth = np.zeros((n + 1, 2)), np.zeros(n + 1)
    if not len(faces.first):
        return push[:n], depth[:n]
    there = np.vstack([x, np.zeros(2)])
    shift = there[faces.first] - there[faces.second]
    room = faces.reach - np.einsum("pkc,pc->pk", faces.ways, shift)
    face = room.argmin(axis=1)
    deep = room[np.arange(len(face)), face]
    hit = np.flatnonzero(deep > 0)
    if not len(hit):
        return push[:n], depth[:n]
    way = faces.ways[hit, face[hit]] * (deep[hit, None] + 1e-7)
    fixed = faces.second[hit] == n
    share = np.where(fixed, 1.0, 0.5)[:, None] * 0.7
    np.add.at(push, faces.first[hit], way * share)
    np.add.at(push, faces.second[hit], -way * share)
    np.maximum.at(depth, faces.first[hit], deep[hit])
    np.maximum.at(depth, faces.second[hit], deep[hit])
    return push[:n], depth[:n]


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


def _near(faces: list[tuple[Array, Array]], a: int, b: int, shift: Array, near: float) -> list[tuple[int, int, Array, Array]]:
    return [(a, b, ways, reach) for ways, reach in faces if (reach - ways @ shift).min() > -near]


def _padded(rows: list[tuple[int, int, Array, Array]]) -> Faces:
    most = max((len(r[3]) for r in rows), default=1)
    ways, reach = np.zeros((len(rows), most, 2)), np.full((len(rows), most), 1e9)
    for n, (_, _, w, r) in enumerate(rows):
        ways[n, : len(r)], reach[n, : len(r)] = w, r
    return Faces(np.array([r[0] for r in rows], int), np.array([r[1] for r in rows], int), ways, reach)
