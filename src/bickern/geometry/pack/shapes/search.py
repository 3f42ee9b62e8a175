"""The search: parts lie with clashes, are pushed apart, and whoever still clashes goes where clashes weigh least."""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

import numpy as np

from bickern.geometry.pack.shapes.board import Board, Turned, spun, wall_of
from bickern.geometry.pack.shapes.clash import Clashes, clashes, cost_of, kept_area, reweigh
from bickern.geometry.pack.shapes.lay import Lying, Spot, best_spot, empty, lift, put, relax, spot_of

PUSHES = 40
"""Rounds of pushing after each round of moves."""
START = 0.93
"""Share of the area, big parts first, that is laid before the small parts are put between them."""
STALL = 2500
"""Moves without anything gained until some big parts are thrown elsewhere."""
NEAR_BEST = 0.04
"""Only what is within this share of the whole area of the best is looked at closely."""
TURNS, TRIED = 7, 360
"""Turns tried in one move, and over all copies together; of a part that has more, these are drawn."""
QUICK = 900
"""As `TRIED`, where clashes are counted on one raster."""
FEW = 12
"""Of so few copies, each is turned a little also where that means new maps of depths."""
WIDE = 0.15
"""How far a copy is turned in a small turn, at most about [rad]."""
FIRST = 32
"""After so many copies laid first, what lies without a clash is told."""
OFTEN = 6
"""After so many copies squeezed in, what lies is told."""
TINY = 2e-4
"""Clashes under this [m] are left to the pushing."""


@dataclass(frozen=True, slots=True)
class Settled:
    """A nest without clashes: for each copy its spot and the exact lower left [m]; `area` [m2] of what lies."""

    area: float
    places: tuple[tuple[int, Spot, float, float], ...]
    through: bool = True


Heard = Callable[[Settled | None, int], None]
"""Takes what is better than all before it (None: nothing is), and the moves made."""


@dataclass(slots=True)
class Hunt:
    """A search under way, changed in place: what lies, the copies in play, those that wait, and the best so far."""

    lying: Lying
    area: list[float]
    sheets: list[int]
    rng: np.random.Generator
    heard: Heard
    active: list[int]
    wait: list[int]
    best: Settled
    moves: int = 0
    gained: int = 0


def search(
    board: Board,
    kinds: Sequence[int],
    sheets: Sequence[int],
    moves: int,
    loose: float,
    rng: np.random.Generator,
    keep_going: Callable[[], bool],
    heard: Heard,
) -> tuple[Settled, int]:
    """As much of the copies (kind by number) on these sheets as is found in so many moves, and the moves made.

    `loose`: how freely the order of the first laying is drawn.
    """
    hunt = _started(board, kinds, sheets, loose, rng, keep_going, heard)
    while len(hunt.best.places) < len(kinds) and hunt.moves < moves and keep_going():
        if not _step(hunt):
            break
        heard(None, hunt.moves)
    if not hunt.best.places:
        _keep(hunt, _settled(hunt))
    through = keep_going() or len(hunt.best.places) == len(kinds)
    return Settled(hunt.best.area, hunt.best.places, through), hunt.moves


def _step(hunt: Hunt) -> bool:
    """One round: what is gained is kept, then parts move; False: nothing more can be laid."""
    found = _cleared(hunt)
    clear = not any(hunt.lying.hits)
    if clear or _promising(hunt, found):
        now = _settled(hunt)
        _keep(hunt, now)
        if clear:
            _adopt(hunt, now)
            return _one_more(hunt)
    if hunt.moves - hunt.gained > STALL:
        _shake(hunt)
    _round(hunt)
    return True


# ---- start, and rounds


def _started(
    board: Board,
    kinds: Sequence[int],
    sheets: Sequence[int],
    loose: float,
    rng: np.random.Generator,
    keep_going: Callable[[], bool],
    heard: Heard,
) -> Hunt:
    """Big parts first, each where it clashes least, until most of the area lies."""
    area = [board.kinds[k].area for k in kinds]
    hunt = Hunt(empty(board, kinds, keep_going), area, list(sheets), rng, heard, [], [], Settled(0.0, ()))
    room = sum(board.sheets[s].area for s in sheets)
    enough = min(START * sum(area), room)
    size = [a * math.exp(loose * x) for a, x in zip(area, rng.standard_normal(len(area)).tolist(), strict=True)]
    for n, copy in enumerate(sorted(range(len(kinds)), key=lambda c: (-size[c], c)), 1):
        fits = sum(area[c] for c in hunt.active) < enough and _place(hunt, copy)
        (hunt.active if fits else hunt.wait).append(copy)
        if n % FIRST == 0 and fits:
            _push_apart(hunt)
            _keep(hunt, _now(hunt))  # of many copies, something is told early
    _push_apart(hunt)
    return hunt


def _round(hunt: Hunt) -> None:
    """All who clash, in random order, go to their best places; then all is pushed apart."""
    lying = hunt.lying
    found = clashes(lying, TINY) or clashes(lying, 0.0)
    if not found:
        return
    reweigh(lying, found)
    touched: set[int] = set()
    for copy in hunt.rng.permutation(sorted(found)).tolist():
        old, at = spot_of(lying, copy), lying.at[copy].copy()
        lift(lying, copy)
        if not _place(hunt, copy, replace(old, cost=cost_of(lying, copy, found[copy]))):
            put(lying, copy, old)
            lying.at[copy] = at
        touched |= {old.sheet, spot_of(lying, copy).sheet}
    for sheet in sorted(touched):
        relax(lying, sheet, PUSHES)


def _place(hunt: Hunt, copy: int, known: Spot | None = None) -> bool:
    """Lays a copy where it clashes least; False: it goes on no sheet."""
    hunt.moves += 1
    spot = best_spot(hunt.lying, copy, _turns(hunt, copy, known), hunt.sheets, known=known)
    if spot is not None:
        put(hunt.lying, copy, spot)
    return spot is not None


def _turns(hunt: Hunt, copy: int, old: Spot | None = None) -> Sequence[Turned]:
    """Some of the turns that a copy may have; of one that may lie any way also some near the one it has."""
    board = hunt.lying.board
    kind = board.kinds[hunt.lying.kinds[copy]]
    most = max(2, min(TURNS, (TRIED if board.raster is None else QUICK) // len(hunt.area)))
    near = most // 2 if old is not None and kind.free and (board.raster is not None or len(hunt.area) <= FEW) else 0
    every: Sequence[Turned] = kind.turned
    if len(every) > most - near:
        every = [every[n] for n in sorted(hunt.rng.choice(len(every), most - near, replace=False).tolist())]
    if old is None or not near:
        return every
    by = hunt.rng.normal(size=near) * WIDE * 4.0 ** -hunt.rng.integers(4, size=near)
    return [old.turned, *(spun(board, kind, old.turned.turn + turn) for turn in by.tolist()), *every]


def _shake(hunt: Hunt) -> None:
    """Forgets what weighs how much, and throws three of the bigger parts anywhere."""
    lying = hunt.lying
    hunt.gained = hunt.moves
    lying.weights[:], lying.wall_weights[:] = 1.0, 1.0
    big = sorted(hunt.active, key=lambda c: (-hunt.area[c], c))[: max(4, len(hunt.active) // 2)]
    for copy in hunt.rng.choice(big, min(3, len(big)), replace=False).tolist():
        turned = _turns(hunt, copy)
        shape = turned[int(hunt.rng.integers(len(turned)))]
        sheet = hunt.sheets[int(hunt.rng.integers(len(hunt.sheets)))]
        room = wall_of(lying.board, shape, sheet)
        if room is not None:
            lift(lying, copy)
            i, j = (int(hunt.rng.integers(n)) for n in room.shape)
            put(lying, copy, Spot(shape, sheet, i, j))
    for sheet in hunt.sheets:
        relax(lying, sheet, PUSHES)


# ---- what is gained


def _cleared(hunt: Hunt) -> Clashes:
    """The clashes; where only tiny ones are left, after a longer push."""
    found = clashes(hunt.lying, TINY)
    if not found:
        for sheet in hunt.sheets:
            if hunt.lying.hits[sheet]:
                relax(hunt.lying, sheet, 8 * PUSHES)
    return found


def _promising(hunt: Hunt, found: Clashes) -> bool:
    """Whether leaving out who clashes, and putting in who waits, may beat the best."""
    whole = sum(hunt.area)
    kept = kept_area(hunt.area, hunt.active, found)
    more = kept + sum(hunt.area[c] for c in hunt.wait) > hunt.best.area * (1 + 1e-9)
    return more and kept > hunt.best.area - NEAR_BEST * whole


def _settled(hunt: Hunt) -> Settled:
    """What can truly be laid from here: who clashes is left out, then whoever fits is put in. All lies as before."""
    lying = hunt.lying
    before = (list(lying.spots), lying.at.copy(), [list(on) for on in lying.on], list(lying.hits))
    for sheet in hunt.sheets:
        _freed(hunt, sheet)
    lifted = [c for c, spot in enumerate(lying.spots) if spot is None]
    for n, copy in enumerate(sorted(lifted, key=lambda c: (-hunt.area[c], c))):
        if n % OFTEN == 0:
            _keep(hunt, _now(hunt))  # whoever stops the search meanwhile has this much
        _squeeze_in(hunt, copy)
    now = _now(hunt)
    lying.spots[:], lying.at[:], lying.on[:], lying.hits[:] = before
    return now


def _push_apart(hunt: Hunt) -> None:
    for sheet in hunt.sheets:
        relax(hunt.lying, sheet, PUSHES)


def _now(hunt: Hunt) -> Settled:
    """What lies and clashes with nothing."""
    every = enumerate(zip(hunt.lying.spots, hunt.lying.at, strict=True))
    found = clashes(hunt.lying, 0.0)
    places = tuple((c, spot, float(x), float(y)) for c, (spot, (x, y)) in every if spot is not None and c not in found)
    return Settled(sum(hunt.area[c] for c, *_ in places), places)


def _freed(hunt: Hunt, sheet: int) -> None:
    """Leaves copies out, the cheapest for what it clashes first, until none clash on a sheet."""
    lying = hunt.lying
    while lying.hits[sheet]:
        depth: dict[int, float] = {}
        for a, b, d in lying.hits[sheet]:
            for copy in (a, b):
                depth[copy] = depth.get(copy, 0.0) + d
        depth.pop(-1, None)
        lift(lying, min(depth, key=lambda c: (hunt.area[c] / depth[c], c)))
        relax(lying, sheet, 4 * PUSHES if lying.keep_going() else 0)


def _squeeze_in(hunt: Hunt, copy: int) -> None:
    """Lays a copy if it can be laid with no more clash than pushing takes away."""
    lying = hunt.lying
    under = lying.board.cell * (2.0 if lying.board.raster is None else 0.5)
    spot = best_spot(lying, copy, _turns(hunt, copy), hunt.sheets, under)
    if spot is None:
        return
    before = (lying.at.copy(), list(lying.spots), lying.hits[spot.sheet])
    put(lying, copy, spot)
    relax(lying, spot.sheet, 4 * PUSHES)
    if lying.hits[spot.sheet]:
        lift(lying, copy)
        lying.at[:], lying.spots[:], lying.hits[spot.sheet] = before


def _keep(hunt: Hunt, now: Settled) -> None:
    if now.area > hunt.best.area * (1 + 1e-9):
        hunt.best, hunt.gained = now, hunt.moves
        hunt.heard(now, hunt.moves)


def _adopt(hunt: Hunt, now: Settled) -> None:
    """What is settled is what lies; the rest waits, the biggest first."""
    lying = hunt.lying
    for copy in hunt.active:
        lift(lying, copy)
    hunt.active = [c for c, *_ in now.places]
    for copy, spot, x, y in now.places:
        put(lying, copy, spot)
        lying.at[copy] = x, y
    laid = set(hunt.active)
    hunt.wait = sorted((c for c in range(len(hunt.area)) if c not in laid), key=lambda c: (-hunt.area[c], c))


def _one_more(hunt: Hunt) -> bool:
    """Lays the first of those that wait, clash or no clash; False: none of them goes on any sheet."""
    for copy in list(hunt.wait):
        if _place(hunt, copy):
            hunt.wait.remove(copy)
            hunt.active.append(copy)
            for sheet in hunt.sheets:
                relax(hunt.lying, sheet, PUSHES)
            return True
    return False
