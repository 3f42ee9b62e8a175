"""Of two skins, one turning about the z axis: the first two triangles that touch.

Pairs of packs of triangles are taken in the order in which they could meet at the earliest. In each the triangles that
can meet before what was found so far are asked exactly; when no pack can meet before that, it is the first touch.
"""

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bickern.geometry.solid.triangles import crossing
from bickern.parts.fit.swing.spans import PACK, Spans, all_pairs, free_turn, meeting, packed, spans_of, that_meet
from bickern.parts.fit.swing.strike import first_strike

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Array = NDArray[np.float64]
    Rows = NDArray[np.intp]

AT_ONCE = 192
"""Pairs of packs looked at before the rest is looked over again."""
ASKED = 2048
"""Pairs of triangles asked at once."""


@dataclass(frozen=True, slots=True, eq=False)
class Skin:
    """Triangles (n, 3, 3) [m] with their spans, neighbours in space neighbours in the list; `owner`: whose each is."""

    corners: "Array"
    spans: Spans
    owner: "Rows"


@dataclass(frozen=True, slots=True)
class Touch:
    """How far it turned [rad] until two owners touched: of what turns, and of what stands."""

    angle: float
    moving: int
    still: int


def skin_of(corners: "list[Array]") -> Skin:
    """One skin of the triangles of several owners, in their order."""
    owner = np.repeat(np.arange(len(corners)), [len(k) for k in corners])
    whole = np.concatenate(corners)
    return Skin(whole, spans_of(whole), owner)


@dataclass(frozen=True, slots=True, eq=False)
class Ahead:
    """What turns and what stands, as far as they can meet, and the pairs (n, 2) of packs that can."""

    moving: Skin
    still: Skin
    pairs: "Rows"
    packs: tuple[Spans, Spans]


def ahead_of(moving: Skin, still: Skin) -> Ahead | None:
    """Two skins made ready to be asked both ways; None where nothing of one can come to where the other is."""
    for _ in range(2):  # what could only have met what is left out is left out too
        if not (len(moving.owner) and len(still.owner)):
            return None
        moving = _some(moving, that_meet(moving.spans, still.spans))
        if len(moving.owner):
            still = _some(still, that_meet(still.spans, moving.spans))
    if not (len(moving.owner) and len(still.owner)):
        return None
    packs = packed(moving.spans), packed(still.spans)
    return Ahead(moving, still, all_pairs(*packs), packs)


def _some(skin: Skin, rows: "Rows") -> Skin:
    return Skin(skin.corners[rows], skin.spans.of(rows), skin.owner[rows])


def crossed(ahead: Ahead) -> Touch | None:
    """Two that run through one another as they are."""
    turn = free_turn(ahead.packs[0].of(ahead.pairs[:, 0]), ahead.packs[1].of(ahead.pairs[:, 1]), 1.0)
    pairs = ahead.pairs[turn <= 0.0]
    for start in range(0, len(pairs), AT_ONCE):
        rows, turns = _opened(ahead, pairs[start : start + AT_ONCE], 1.0)
        rows = rows[turns <= 0.0]
        if len(rows) and (found := _crossing(ahead, rows)) is not None:
            return Touch(0.0, int(ahead.moving.owner[found[0]]), int(ahead.still.owner[found[1]]))
    return None


def _crossing(ahead: Ahead, rows: "Rows") -> "Rows | None":
    """The first pair that crosses, by halving what holds one."""

    def holds(some: "Rows") -> bool:
        return crossing(ahead.moving.corners[some[:, 0]], ahead.still.corners[some[:, 1]]) is not None

    if not holds(rows):
        return None
    while len(rows) > 1:
        first = rows[: len(rows) // 2]
        rows = first if holds(first) else rows[len(rows) // 2 :]
    found: Rows = rows[0]
    return found


def first_touch(ahead: Ahead, way: float, limit: float) -> Touch | None:
    """The first touch before the limit [rad]. `way`: 1 by the right-hand rule about z, -1 against it."""
    turn = free_turn(ahead.packs[0].of(ahead.pairs[:, 0]), ahead.packs[1].of(ahead.pairs[:, 1]), way)
    order = np.argsort(turn)
    order = order[turn[order] < limit]
    best, found, start = limit, None, 0
    while start < len(order) and turn[order[start]] < best:
        rows, turns = _opened(ahead, ahead.pairs[order[start : start + AT_ONCE]], way)
        start += AT_ONCE
        touch = _asked(ahead, rows[np.argsort(turns)], np.sort(turns), way, best)
        best, found = (touch.angle, touch) if touch else (best, found)
    return found


def _opened(ahead: Ahead, pairs: "Rows", way: float) -> "tuple[Rows, Array]":
    """The pairs of triangles in pairs of packs that can meet, and how far each can turn before that [rad]."""
    inner = np.indices((PACK, PACK)).reshape(2, -1).T
    rows = (pairs[:, None] * PACK + inner).reshape(-1, 2)
    rows = rows[(rows[:, 0] < len(ahead.moving.owner)) & (rows[:, 1] < len(ahead.still.owner))]
    some, others = ahead.moving.spans, ahead.still.spans
    rows = rows[meeting(some.of(rows[:, 0]), others.of(rows[:, 1]))]
    return rows, free_turn(some.of(rows[:, 0]), others.of(rows[:, 1]), way)


def _asked(ahead: Ahead, rows: "Rows", turns: "Array", way: float, best: float) -> Touch | None:
    """The first touch of pairs of triangles, the likeliest first."""
    found = None
    for start in range(0, len(rows), ASKED):
        if turns[start] >= best:
            break
        some = rows[start : start + ASKED][turns[start : start + ASKED] < best]
        strike = first_strike(ahead.moving.corners[some[:, 0]], ahead.still.corners[some[:, 1]], way, best)
        if strike.angle < best:
            best = strike.angle
            one, two = some[strike.pair]
            found = Touch(best, int(ahead.moving.owner[one]), int(ahead.still.owner[two]))
    return found
