"""The search: all parts lie with clashes, and whoever clashes goes where the weighted clashes are least."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from bickern.geometry.pack.shapes.board import Board
from bickern.geometry.pack.shapes.lay import Lying, Spot, best_spot, clashes, empty, lift, put
from bickern.geometry.pack.shapes.pieces import Array
from bickern.geometry.pack.shapes.settle import settle


@dataclass(frozen=True, slots=True)
class Settled:
    """A nest without clashes: for each copy laid its spot and the exact lower left; `area` [m2] of what lies."""

    area: float
    places: tuple[tuple[int, Spot, float, float], ...]
    through: bool = True


def search(
    board: Board, kinds: Sequence[int], moves: int, rng: np.random.Generator, keep_going: Callable[[], bool], say=None
) -> Settled:
    lying = empty(board, kinds)
    sheets = range(len(board.sheets))
    area = [board.kinds[k].area for k in kinds]
    order = sorted(range(len(kinds)), key=lambda c: -area[c])
    for copy in order:
        spot = best_spot(lying, copy, board.kinds[kinds[copy]].turned, sheets)
        if spot is not None:
            put(lying, copy, spot)
    best = Settled(0.0, ())
    done = 0
    total = sum(area)
    import time

    t0 = time.process_time()
    cache = {}
    while True:
        found = {c: clashes(lying, c) for c in range(len(kinds))}
        bad = [c for c in found if found[c]]
        kept, gone = drop(lying, area, found)
        now = None
        if not bad or sum(area[c] for c in kept) > best.area + 1e-9:
            now = settled(lying, kept, area, keep_going, cache)
            if now.area > best.area:
                best = now
                if say: say(f"{time.process_time()-t0:.2f} moves {done} bad {len(bad)} gone {len(gone)} kept {sum(area[c] for c in kept)/total:.4f} settled {now.area/total:.4f}")
            if len(best.places) == len(kinds):
                return best
        if done >= moves or not keep_going():
            return best
        if not bad:
            ok = {p[0] for p in now.places}
            shut = {lying.spots[c].sheet for c in range(len(kinds)) if c not in ok}
            for s in shut:
                for c in lying.on[s]:
                    for o, d in clashes(lying, c, True):
                        if o < 0:
                            lying.wall_strict[c] = True
                        else:
                            lying.strict[c, o] = lying.strict[o, c] = True
            found = {c: clashes(lying, c) for c in range(len(kinds))}
            bad = [c for c in found if found[c]]
            if say: say(f"{time.process_time()-t0:.2f} moves {done} strict {lying.strict.sum()//2} bad {len(bad)} best {best.area/total:.4f}")
        lying.weights *= 0.97; np.maximum(lying.weights, 1, out=lying.weights)
        lying.wall_weights *= 0.97; np.maximum(lying.wall_weights, 1, out=lying.wall_weights)
        most = max((d for f in found.values() for _, d in f), default=1.0)
        for c, hits in found.items():
            for o, d in hits:
                grow = 1.2 + 0.8 * d / most
                if o < 0:
                    lying.wall_weights[c] *= grow
                else:
                    lying.weights[c, o] *= grow
        for c in rng.permutation(bad):
            c = int(c)
            if not clashes(lying, c):
                continue
            lift(lying, c)
            put(lying, c, best_spot(lying, c, board.kinds[kinds[c]].turned, sheets))
            done += 1


def drop(lying: Lying, area: Sequence[float], found: dict[int, list[tuple[int, float]]]) -> tuple[list[int], list[int]]:
    """Copies kept when the cheapest to leave out are left out until none clash."""
    kept = {c for c in found if lying.spots[c] is not None}
    gone = [c for c in found if c in kept and any(o < 0 for o, _ in found[c])]
    kept -= set(gone)
    while True:
        hits = {c: [o for o, _ in found[c] if o in kept] for c in kept}
        bad = [c for c in kept if hits[c]]
        if not bad:
            return sorted(kept), gone
        worst = min(bad, key=lambda c: (area[c] / len(hits[c]), c))
        kept.discard(worst)
        gone.append(worst)


def settled(lying: Lying, kept: Sequence[int], area: Sequence[float], keep_going: Callable[[], bool], cache) -> Settled:
    """The copies kept, pushed to exact places; who cannot be freed of clashes is left out."""
    board = lying.board
    places: list[tuple[int, Spot, float, float]] = []
    for s, sheet in enumerate(board.sheets):
        here = [c for c in kept if lying.spots[c].sheet == s]
        at = np.array([[lying.spots[c].i, lying.spots[c].j] for c in here], float).reshape(-1, 2) * board.cell
        key = tuple((c, lying.spots[c].turned.number, lying.spots[c].i, lying.spots[c].j) for c in here)
        if key in cache:
            places += cache[key]
            continue
        start = len(places)
        while here:
            at, depth = settle(board, s, [lying.spots[c].turned for c in here], at, 4 * board.cell, keep_going)
            if not depth.any():
                places += [(c, lying.spots[c], float(x), float(y)) for c, (x, y) in zip(here, at, strict=True)]
                break
            out = min((n for n in range(len(here)) if depth[n] > 0), key=lambda n: area[here[n]] / depth[n])
            here.pop(out)
            at = np.delete(at, out, axis=0)
        cache[key] = places[start:]
    return Settled(sum(area[c] for c, *_ in places), tuple(places))
