"""Flat parts of any shape laid on sheets of any shape, searched for and then checked exactly."""

import math
from collections import Counter
from collections.abc import Callable, Sequence

import numpy as np

from bickern.geometry.pack.shapes.asked import Part, Remnant, Spacing
from bickern.geometry.pack.shapes.board import Board, Kind, Sheet, kind_of, sheet_of
from bickern.geometry.pack.shapes.check import faults_of
from bickern.geometry.pack.shapes.choose import Offer, offers
from bickern.geometry.pack.shapes.result import Laid, Nest
from bickern.geometry.pack.shapes.search import Settled, search
from bickern.geometry.pack.shapes.turns import turns_of

EFFORT = 30_000
"""Moves of one part that a nest may take, all tries together."""
CELLS = 28_000
"""Places on the grid of all sheets together, about."""
EASY, HARD = 0.72, 0.88
"""Shares of metal filled that are tried lightly first, and at most."""

KeepGoing = Callable[[], bool]
Report = Callable[[str], None]


def nest(
    parts: Sequence[Part],
    remnants: Sequence[Remnant],
    spacing: Spacing,
    *,
    seed: int = 1,
    effort: int = EFFORT,
    keep_going: KeepGoing = lambda: True,
    report: Report = lambda says: None,
) -> Nest:
    """Lays as much of the parts as it can on the cheapest sheets it can; the same seed gives the same nest.

    `effort` counts moves of a part; `keep_going` is asked many times a second, and a search it ends says so.
    """
    wanted = [part for part in parts if part.count > 0]
    if not wanted or not remnants:
        return Nest((), tuple((part.key, part.count) for part in wanted), 0.0)
    board = board_of(wanted, remnants, spacing)
    found = _tried(board, effort, np.random.default_rng(seed), keep_going, report)
    return _checked(board, found, wanted, remnants, spacing)


def board_of(parts: Sequence[Part], remnants: Sequence[Remnant], spacing: Spacing) -> Board:
    """Parts and sheets made ready on a grid that suits the smallest part and all the sheets."""
    sheets = tuple(sheet_of(remnant, spacing) for remnant in remnants)
    kinds: list[Kind] = []
    for part in parts:
        first = sum(len(kind.turned) for kind in kinds)
        kinds.append(kind_of(part, spacing, turns_of(part, remnants), first))
    cell = cell_of(kinds, sheets)
    return Board(cell, cell / 2, tuple(kinds), sheets)


def cell_of(kinds: Sequence[Kind], sheets: Sequence[Sheet]) -> float:
    """The grid's step [m]."""
    room = sum(s.size[0] * s.size[1] for s in sheets)
    small = min(min(k.turned[0].size) for k in kinds)
    return max(math.sqrt(room / (6 * CELLS)), min(math.sqrt(room / CELLS), small / 3))


def _tried(board: Board, effort: int, rng: np.random.Generator, keep_going: KeepGoing, report: Report) -> Settled:
    """The cheap and roomy choices of sheets first, then all the sheets, then cheaper choices with less room."""
    copies = [n for n, kind in enumerate(board.kinds) for _ in range(kind.count)]
    every = offers(board.sheets, sum(board.kinds[k].area for k in copies))
    whole = max(every, key=lambda o: len(o.sheets))
    best = Settled(0.0, ())
    for offer in [*[o for o in every if o.fill <= EASY][:3], whole]:
        part = effort if offer is whole else effort // 10
        best = max(best, _on(board, copies, offer, part, rng, keep_going, report), key=lambda s: s.area)
        if len(best.places) == len(copies):
            return best
    return best


def _on(
    board: Board, copies: list[int], offer: Offer, moves: int, rng: np.random.Generator, keep_going: KeepGoing, report: Report
) -> Settled:
    return search(board, copies, moves, rng, keep_going, report)


def _checked(board: Board, found: Settled, parts: Sequence[Part], remnants: Sequence[Remnant], spacing: Spacing) -> Nest:
    """The nest as it is handed out; copies that an exact check finds in breach are not laid."""
    laid = [_laid(board, copy_kind, spot, x, y) for copy_kind, spot, x, y in _named(board, found)]
    made = _nest(laid, parts, remnants, found)
    while laid and faults_of(made, parts, remnants, spacing):
        laid = laid[:-1]
        made = _nest(laid, parts, remnants, found)
    return made


def _named(board, found):
    copies = [n for n, kind in enumerate(board.kinds) for _ in range(kind.count)]
    return [(board.kinds[copies[c]].key, spot, x, y) for c, spot, x, y in found.places]


def _laid(board: Board, key: str, spot, x: float, y: float) -> Laid:
    sheet, turned = board.sheets[spot.sheet], spot.turned
    return Laid(key, sheet.key, turned.turn, sheet.corner[0] + x - turned.low[0], sheet.corner[1] + y - turned.low[1])


def _nest(laid: Sequence[Laid], parts: Sequence[Part], remnants: Sequence[Remnant], found: Settled) -> Nest:
    counts = Counter(one.part for one in laid)
    short = tuple((p.key, p.count - counts[p.key]) for p in parts if counts[p.key] < p.count)
    used = {one.remnant for one in laid}
    return Nest(tuple(laid), short, math.fsum(r.cost for r in remnants if r.key in used), not found.through)
