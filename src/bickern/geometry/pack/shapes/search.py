"""The search: parts lie with clashes, are pushed apart, and whoever still clashes goes where clashes weigh least."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from bickern.geometry.pack.shapes.board import Board, wall_of
from bickern.geometry.pack.shapes.lay import Lying, Spot, best_spot, empty, lift, put, relax, spot_of
from bickern.geometry.pack.shapes.settle import settle

import os
START = float(os.environ.get("START", ".93"))
STALL = int(os.environ.get("STALL", "1500"))
DECAY = float(os.environ.get("DECAY", ".95"))
PUSHES = int(os.environ.get("PUSHES", "40"))
TOL = 2e-4
GROW = float(os.environ.get("GROW", "1"))
MULT = float(os.environ.get("MULT", "0"))


@dataclass(frozen=True, slots=True)
class Settled:
    """A nest without clashes: for each copy laid its spot and the exact lower left; `area` [m2] of what lies."""

    area: float
    places: tuple[tuple[int, Spot, float, float], ...]
    through: bool = True


class Search:
    def __init__(self, board, kinds, rng, keep_going, say, only=None):
        self.board, self.rng, self.keep_going, self.say = board, rng, keep_going, say
        self.lying = empty(board, kinds)
        self.area = [board.kinds[k].area for k in kinds]
        self.sheets = list(range(len(board.sheets)))
        self.active, self.wait = [], []
        self.best = Settled(0.0, ())
        self.done = 0
        self.total = sum(self.area)

    def turned(self, c):
        t = self.board.kinds[self.lying.kinds[c]].turned
        return t

    def place(self, c):
        spot = best_spot(self.lying, c, self.turned(c), self.sheets)
        self.done += 1
        if spot is None:
            return False
        put(self.lying, c, spot)
        return True

    def bad(self):
        hits = {}
        for h in self.lying.hits:
            for a, b, d in h:
                if d > TOL:
                    hits.setdefault(a, []).append((b, d))
                    if b >= 0: hits.setdefault(b, []).append((a, d))
        return hits

    def reweigh(self, hits):
        L = self.lying
        L.weights += (1 - L.weights) * (1 - DECAY)
        L.wall_weights += (1 - L.wall_weights) * (1 - DECAY)
        most = max((d for f in hits.values() for _, d in f), default=1.0)
        for c, f in hits.items():
            for o, d in f:
                grow = GROW * d / most
                if MULT: grow *= (L.wall_weights[c] if o < 0 else L.weights[c, o])
                if o < 0:
                    L.wall_weights[c] += grow
                else:
                    L.weights[c, o] += grow

    def kept_area(self, hits):
        """Area when the cheapest are left out until none clash."""
        hits = {c: [o for o, _ in f] for c, f in hits.items()}
        gone = {c for c, f in hits.items() if -1 in f}
        while True:
            live = {c: sum(o not in gone for o in f) for c, f in hits.items() if c not in gone}
            bad = [c for c in live if live[c]]
            if not bad:
                return sum(self.area[c] for c in self.active if c not in gone)
            gone.add(min(bad, key=lambda c: (self.area[c] / live[c], c)))

    def settled(self):
        """What can be laid truly from here: who clashes is left out, then whoever fits is put in."""
        L = self.lying
        saved = (list(L.spots), L.at.copy(), [list(o) for o in L.on], list(L.hits))
        for s in self.sheets:
            while L.hits[s]:
                depth = {}
                for a, b, d in L.hits[s]:
                    for c in (a, b):
                        if c >= 0: depth[c] = depth.get(c, 0) + d
                out = min(depth, key=lambda c: (self.area[c] / depth[c] , c)) if max(depth.values()) > 0.003 else None
                if out is None:
                    relax(L, s, 200)
                    if not L.hits[s]: break
                    out = min(depth, key=lambda c: (self.area[c], c))
                lift(L, out)
                relax(L, s, 150)
        out = [c for c in range(len(self.area)) if L.spots[c] is None]
        for c in sorted(out, key=lambda c: -self.area[c]):
            # slack cells: try to squeeze it in
            spot = best_spot(L, c, self.turned(c), self.sheets, 2 * self.board.cell)
            if spot is None: continue
            before = (L.at.copy(), list(L.spots), L.hits[spot.sheet])
            put(L, c, spot)
            relax(L, spot.sheet, 150)
            if L.hits[spot.sheet]:
                lift(L, c)
                L.at[:], L.spots[:], L.hits[spot.sheet] = before
        places = tuple((c, L.spots[c], float(L.at[c][0]), float(L.at[c][1])) for c in range(len(self.area)) if L.spots[c] is not None)
        got = Settled(sum(self.area[c] for c, *_ in places), places)
        L.spots[:], L.at[:], L.hits[:] = saved[0], saved[1], saved[3]
        L.on[:] = saved[2]
        return got

    def run(self, moves):
        order = sorted(range(len(self.area)), key=lambda c: -self.area[c])
        have = 0.0
        for c in order:
            if have < START * self.total and self.place(c):
                self.active.append(c); have += self.area[c]
            else:
                self.wait.append(c)
        for s in self.sheets:
            relax(self.lying, s, PUSHES)
        since = self.done
        import time; t0 = time.process_time()
        L = self.lying
        while True:
            hits = self.bad()
            tiny = any(L.hits)
            if not hits and tiny:
                for s in self.sheets:
                    if L.hits[s]: relax(L, s, 300)
            clear = not any(L.hits)
            if clear or self.kept_area(hits) + sum(self.area[c] for c in self.wait) > self.best.area + 1e-9:
                ka = self.kept_area(hits)
                if clear or ka > self.best.area - 0.04 * self.total:
                    now = self.settled()
                    if now.area > self.best.area + 1e-9:
                        self.best = now; since = self.done
                        if self.say: self.say(f"{time.process_time()-t0:.2f} moves {self.done} active {len(self.active)} bad {len(hits)} kept {ka/self.total:.4f} settled {now.area/self.total:.4f}")
                    if len(now.places) == len(self.area):
                        return self.best
            if self.done >= moves or not self.keep_going():
                return self.best
            if clear:
                got = {p[0]: p for p in now.places}
                new = [c for c in self.wait if c in got]
                c = None
                # adopt the settled nest, then one more
                for c0 in list(self.active): lift(L, c0)
                self.active = sorted(got)
                self.wait = [c0 for c0 in order if c0 not in got]
                for c0, spot, x, y in now.places:
                    put(L, c0, spot); L.at[c0] = x, y
                c = self.wait.pop(0)
                self.active.append(c)
                if not self.place(c): self.active.remove(c); 
                for s in self.sheets: relax(L, s, PUSHES)
                continue
            if self.done - since > STALL:
                since = self.done
                self.shake()
            hits = hits or {a: [(b, d)] for h in L.hits for a, b, d in h}
            self.reweigh(hits)
            changed = set()
            for c in self.rng.permutation(sorted(hits)).tolist():
                changed.add(L.spots[c].sheet)
                old = L.spots[c], L.at[c].copy()
                lift(L, c)
                if not self.place(c):
                    put(L, c, old[0]); L.at[c] = old[1]
                changed.add(L.spots[c].sheet)
            for s in changed:
                relax(L, s, PUSHES)

    def shake(self):
        L = self.lying
        L.weights[:] = 1; L.wall_weights[:] = 1
        big = sorted(self.active, key=lambda c: -self.area[c])[: max(4, len(self.active) // 2)]
        for c in self.rng.choice(big, size=min(len(big), 3), replace=False).tolist():
            shape = self.turned(c)
            shape = shape[int(self.rng.integers(len(shape)))]
            fits = [(s, wall_of(self.board, shape, s)) for s in self.sheets]
            fits = [(s, w.shape) for s, w in fits if w is not None]
            if fits:
                lift(L, c)
                s, (nx, ny) = fits[int(self.rng.integers(len(fits)))]
                put(L, c, Spot(shape, s, int(self.rng.integers(nx)), int(self.rng.integers(ny))))
        for s in self.sheets:
            relax(L, s, PUSHES)


def search(board: Board, kinds: Sequence[int], moves: int, rng: np.random.Generator, keep_going: Callable[[], bool], say=None) -> Settled:
    return Search(board, kinds, rng, keep_going, say).run(moves)
