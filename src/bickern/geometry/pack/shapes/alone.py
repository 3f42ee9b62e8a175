"""One search for a nest: the choices of sheets are tried in turn, the cheapest first."""

import math
from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

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

CELLS, RASTER = 28_000, 60_000
"""Places on the grid of all sheets together, about: of few shapes, and of many."""
MANY = 250
"""Of more turned shapes than this, or where shapes may lie any way, clashes are counted on one raster: there are too
many pairs of shapes to keep what is known of each."""
EASY, HARD = 0.72, 0.88
"""Shares of metal filled that are tried lightly first, and at most."""
FINER, LEAST = 3, 5e-4
"""How many times more places there may be where parts are small, and the finest step of the grid [m]."""
SOON = 60
"""Moves a copy by the raster, before maps of depths are turned to."""
LIGHT = 3
"""Choices of sheets that are tried lightly."""

KeepGoing = Callable[[], bool]
Heard = Callable[["Nest | None", int], None]
"""Takes a nest that is better than those before (None: no better yet), and the moves made."""


@dataclass(frozen=True, slots=True)
class Asked:
    """What one search is asked; `loose`: how freely the order of the first laying is drawn (0: by size
    alone); `raster`: clashes are counted on a raster first, even where shapes are few; `last`: moves that all sheets
    together are tried with, where that is to be fewer than `effort`."""

    parts: tuple[Part, ...]
    remnants: tuple[Remnant, ...]
    spacing: Spacing
    seed: int
    effort: int
    loose: float = 0.0
    raster: bool = True
    last: int | None = None


def alone(asked: Asked, keep_going: KeepGoing, heard: Heard) -> tuple[Nest, int]:
    """The nest of one search, and the moves of parts it made."""
    board = board_of(asked.parts, asked.remnants, asked.spacing, keep_going)
    if board is None:
        return nothing(asked.parts, True), 0
    copies = tuple(n for n, kind in enumerate(board.kinds) for _ in range(kind.count))
    many = _many(board)
    tries = _Tries(
        asked, board, copies, np.random.default_rng(asked.seed), keep_going, heard, many or asked.raster, not many
    )
    found = _tried(tries)
    return _checked(tries, found), tries.moves


def nothing(parts: Sequence[Part], cut_short: bool = False) -> Nest:
    """A nest in which nothing lies."""
    return Nest((), tuple((part.key, part.count) for part in parts), 0.0, cut_short)


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
        kinds.append(kind_of(part, spacing, turns_of(part, remnants, spacing.margin), first, least))
    cell = cell_of(kinds, sheets, CELLS)
    return Board(cell, cell / 2, tuple(kinds), sheets)


def rastered(board: Board, chosen: Sequence[int], spacing: Spacing) -> Board:
    """The same board with a raster of the sheets chosen."""
    sheets = {number: board.sheets[number] for number in chosen}
    cell = cell_of(board.kinds, list(sheets.values()), RASTER)
    return replace(board, cell=cell, slack=0.0, raster=field_of(sheets, cell, spacing.gap, spacing.margin))


def cell_of(kinds: Sequence[Kind], sheets: Sequence[Sheet], cells: int) -> float:
    """The grid's step [m]: so many cells, or up to `FINER` times as many where parts are small."""
    small = min(min(k.turned[0].size) for k in kinds)
    room = sum(max(0.0, s.size[0]) * max(0.0, s.size[1]) for s in sheets)
    return max(LEAST, math.sqrt(room / (FINER * cells)), min(math.sqrt(room / cells), small / 3))


# ---- tries


@dataclass(slots=True)
class _Tries:
    """What all tries have in common, the moves they made, and the best of them that was told."""

    asked: Asked
    board: Board
    copies: tuple[int, ...]
    rng: np.random.Generator
    keep_going: KeepGoing
    heard: Heard
    raster: bool
    maps: bool
    moves: int = 0
    told: tuple[float, float] = (0.0, 0.0)

    def hear(self, found: Settled | None, moves: int) -> None:
        """Passes on a nest that is better than all before it, and how many moves were made."""
        better = None
        if found is not None and (worth := (found.area, -self.cost(found))) > self.told:
            self.told, better = worth, nest_of([_laid(self, place) for place in found.places], self.asked, False)
        self.heard(better, self.moves + moves)

    def cost(self, found: Settled) -> float:
        return math.fsum(self.board.sheets[s].cost for s in {spot.sheet for _, spot, _, _ in found.places})

    def whole(self, found: Settled) -> bool:
        return len(found.places) == len(self.copies)


def _tried(tries: _Tries) -> Settled:
    """The cheap and roomy choices of sheets first, then all the sheets, then cheaper choices with less room."""
    board, effort, last = tries.board, tries.asked.effort, tries.asked.last
    every = offers(board.sheets, sum(board.kinds[k].area for k in tries.copies))
    best = Settled(0.0, (), False)
    for offer in [*[o for o in every if o.fill <= EASY][:LIGHT], max(every, key=lambda o: len(o.sheets))]:
        all_of_them = len(offer.sheets) == len(board.sheets)
        found = _searched(tries, offer, (effort if last is None else last) if all_of_them else effort // 20)
        best = found if found.area >= best.area else best
        if tries.whole(best):
            return _cheaper(tries, every, best, offer.cost, effort // 20)
    return best


def _cheaper(tries: _Tries, every: Sequence[Offer], best: Settled, cost: float, effort: int) -> Settled:
    """Everything is laid: does it also go on cheaper sheets? The roomiest choices of those are tried."""
    tight = sorted((o for o in every if EASY < o.fill <= HARD and o.cost < cost * (1 - 1e-9)), key=lambda o: o.fill)
    for offer in tight[:LIGHT]:
        if offer.cost < cost:
            found = _searched(tries, offer, effort)
            if tries.whole(found):
                best, cost = found, offer.cost
    used = sorted({spot.sheet for _, spot, _, _ in best.places})
    board = tries.board if tries.maps else rastered(tries.board, used, tries.asked.spacing)
    return gathered(board, tries.copies, best, tries.keep_going)


def _many(board: Board) -> bool:
    """Whether shapes are many or may lie any way."""
    return sum(len(kind.turned) for kind in board.kinds) > MANY or any(kind.free for kind in board.kinds)


def _searched(tries: _Tries, offer: Offer, moves: int) -> Settled:
    """By the raster, and where shapes are few and are not all laid by it, by maps of depths after that."""
    best, left = Settled(0.0, (), False), moves
    for raster in (True, False):
        if left <= 0 or tries.whole(best) or not (tries.raster if raster else tries.maps):
            continue
        board = rastered(tries.board, offer.sheets, tries.asked.spacing) if raster else tries.board
        most = min(left, SOON * len(tries.copies)) if raster and tries.maps else left
        found, made = search(
            board, tries.copies, offer.sheets, most, tries.asked.loose, tries.rng, tries.keep_going, tries.hear
        )
        tries.moves, left = tries.moves + made, left - made
        best = found if found.area >= best.area else best
    return best


# ---- what is handed out


def _checked(tries: _Tries, found: Settled) -> Nest:
    laid = [_laid(tries, place) for place in found.places]
    return checked(nest_of(laid, tries.asked, not found.through), tries.asked)


def checked(made: Nest, asked: Asked) -> Nest:
    """The nest as it is handed out: of copies that an exact check finds in breach, the most blamed is not laid."""
    while made.laid and (faults := faults_of(made, asked.parts, asked.remnants, asked.spacing)):
        names = [f"{one.part} ({number}) " for number, one in enumerate(made.laid, 1)]
        blamed = [sum(name in f"{fault} " for fault in faults) for name in names]
        worst = len(blamed) - 1 - blamed[::-1].index(max(blamed))
        made = nest_of([*made.laid[:worst], *made.laid[worst + 1 :]], asked, made.cut_short)
    return made


def _laid(tries: _Tries, place: tuple[int, Spot, float, float]) -> Laid:
    copy, spot, x, y = place
    sheet, turned = tries.board.sheets[spot.sheet], spot.turned
    key = tries.board.kinds[tries.copies[copy]].key
    return Laid(key, sheet.key, turned.turn, sheet.corner[0] + x - turned.low[0], sheet.corner[1] + y - turned.low[1])


def nest_of(laid: Sequence[Laid], asked: Asked, cut_short: bool = False) -> Nest:
    """What is laid, with what of it is short and what the sheets cost."""
    counts = Counter(one.part for one in laid)
    short = tuple((p.key, p.count - counts[p.key]) for p in asked.parts if counts[p.key] < p.count)
    used = {one.remnant for one in laid}
    return Nest(tuple(laid), short, math.fsum(r.cost for r in asked.remnants if r.key in used), cut_short)
