"""Flat parts of any shape laid on sheets of any shape, searched for and then checked exactly."""

import math
from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from bickern.geometry.pack.shapes.asked import Part, Remnant, Spacing
from bickern.geometry.pack.shapes.board import Board, Kind, Sheet, kind_of, least_side, sheet_of
from bickern.geometry.pack.shapes.check import faults_of
from bickern.geometry.pack.shapes.choose import Offer, offers
from bickern.geometry.pack.shapes.field import field_of
from bickern.geometry.pack.shapes.gather import gathered
from bickern.geometry.pack.shapes.lay import Spot
from bickern.geometry.pack.shapes.result import Laid, Nest
from bickern.geometry.pack.shapes.search import Settled, search
from bickern.geometry.pack.shapes.turns import turns_of

EFFORT = 30_000
"""Moves of one part that a nest may take, all tries together."""
CELLS = 28_000
"""Places on the grid of all sheets together, about."""
EASY, HARD = 0.72, 0.88
"""Shares of metal filled that are tried lightly first, and at most."""

MANY = 250
RASTER = 60_000
LIGHT = 3
"""Choices of sheets that are tried lightly."""

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
    board = board_of(wanted, remnants, spacing, keep_going)
    if board is None:
        return Nest((), tuple((part.key, part.count) for part in wanted), 0.0, True)
    copies = tuple(n for n, kind in enumerate(board.kinds) for _ in range(kind.count))
    tries = _Tries(board, copies, np.random.default_rng(seed), keep_going, report)
    return _checked(tries, _tried(tries, effort), _Asked(wanted, remnants, spacing))


def board_of(
    parts: Sequence[Part], remnants: Sequence[Remnant], spacing: Spacing, keep_going: KeepGoing = lambda: True
) -> Board | None:
    """Parts and sheets made ready on a grid that suits the smallest part and all the sheets; None: told to stop."""
    sheets = tuple(sheet_of(remnant, spacing) for remnant in remnants)
    kinds: list[Kind] = []
    least = least_side(parts) + 2 * spacing.gap
    for part in parts:
        if not keep_going():
            return None
        first = sum(len(kind.turned) for kind in kinds)
        kinds.append(kind_of(part, spacing, turns_of(part, remnants), first, least))
    cell = cell_of(kinds, sheets)
    board = Board(cell, cell / 2, tuple(kinds), sheets)
    if first_many(kinds) > MANY:
        cell = max(math.sqrt(sum(s.size[0] * s.size[1] for s in sheets) / RASTER), 0.001)
        board = Board(cell, cell / 2, tuple(kinds), sheets)
        board.raster.append(field_of(sheets, cell, spacing.gap, spacing.margin))
    return board


def first_many(kinds):
    return sum(len(k.turned) for k in kinds)


def cell_of(kinds: Sequence[Kind], sheets: Sequence[Sheet]) -> float:
    """The grid's step [m]."""
    room = sum(s.size[0] * s.size[1] for s in sheets)
    small = min(min(k.turned[0].size) for k in kinds)
    return max(math.sqrt(room / (6 * CELLS)), min(math.sqrt(room / CELLS), small / 3))


def _tried(tries: "_Tries", effort: int) -> Settled:
    """The cheap and roomy choices of sheets first, then all the sheets, then cheaper choices with less room."""
    board = tries.board
    every = offers(board.sheets, sum(board.kinds[k].area for k in tries.copies))
    best = Settled(0.0, (), False)
    for offer in [*[o for o in every if o.fill <= EASY][:LIGHT], max(every, key=lambda o: len(o.sheets))]:
        whole = len(offer.sheets) == len(board.sheets)
        found = _searched(tries, offer, effort if whole else effort // 20)
        best = found if found.area >= best.area else best
        if len(best.places) == len(tries.copies):
            return _cheaper(tries, every, best, offer.cost, effort // 20)
    return best


def _cheaper(tries: "_Tries", every: Sequence[Offer], best: Settled, cost: float, effort: int) -> Settled:
    """Everything is laid: does it also go on cheaper sheets? The roomiest choices of those are tried."""
    tight = sorted((o for o in every if EASY < o.fill <= HARD and o.cost < cost * (1 - 1e-9)), key=lambda o: o.fill)
    for offer in tight[:LIGHT]:
        if offer.cost < cost:
            found = _searched(tries, offer, effort)
            if len(found.places) == len(tries.copies):
                best, cost = found, offer.cost
    return gathered(tries.board, tries.copies, best, tries.keep_going)


@dataclass(frozen=True, slots=True)
class _Tries:
    """What all tries have in common."""

    board: Board
    copies: tuple[int, ...]
    rng: np.random.Generator
    keep_going: KeepGoing
    report: Report


def _searched(tries: _Tries, offer: Offer, moves: int) -> Settled:
    return search(tries.board, tries.copies, offer.sheets, moves, tries.rng, tries.keep_going, tries.report)


# ---- what is handed out


def _checked(tries: _Tries, found: Settled, asked: "_Asked") -> Nest:
    """The nest as it is handed out; of copies that an exact check finds in breach, the last is not laid."""
    laid = [_laid(tries, place) for place in found.places]
    made = _nest(laid, asked, found)
    while laid and faults_of(made, asked.parts, asked.remnants, asked.spacing):
        laid.pop()
        made = _nest(laid, asked, found)
    return made


def _laid(tries: _Tries, place: tuple[int, Spot, float, float]) -> Laid:
    copy, spot, x, y = place
    sheet, turned = tries.board.sheets[spot.sheet], spot.turned
    key = tries.board.kinds[tries.copies[copy]].key
    return Laid(key, sheet.key, turned.turn, sheet.corner[0] + x - turned.low[0], sheet.corner[1] + y - turned.low[1])


@dataclass(frozen=True, slots=True)
class _Asked:
    parts: Sequence[Part]
    remnants: Sequence[Remnant]
    spacing: Spacing


def _nest(laid: Sequence[Laid], asked: _Asked, found: Settled) -> Nest:
    counts = Counter(one.part for one in laid)
    short = tuple((p.key, p.count - counts[p.key]) for p in asked.parts if counts[p.key] < p.count)
    used = {one.remnant for one in laid}
    return Nest(tuple(laid), short, math.fsum(r.cost for r in asked.remnants if r.key in used), not found.through)
