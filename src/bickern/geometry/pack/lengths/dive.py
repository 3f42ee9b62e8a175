"""A plan out of the linear programme: the patterns it likes best are fixed, new ones are looked for in what is left."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import replace

import numpy as np

from bickern.geometry.pack.lengths.greedy import bar_by_bar, trimmed
from bickern.geometry.pack.lengths.linear import priced
from bickern.geometry.pack.lengths.patterns import Columns, Floats, Ints
from bickern.geometry.pack.lengths.solver import Duals, Master
from bickern.geometry.pack.lengths.whole import Load, Sharing, Whole, shared

ROUNDS = 4
"""Rounds of new patterns after each that is fixed."""
FEW = 28
"""Cuts that are so few that a plan for them alone is looked for."""
BLUR = 0.8
"""Share by which a pattern may be liked less than it should."""


Finish = Callable[[Whole], Sharing | None]
"""A plan for the few cuts and bars that are left (None: not found)."""


def dive(master: Master, whole: Whole, start: Duals, seed: int = 0, finish: Finish = lambda rest: None) -> Sharing:
    """One plan: what the programme uses whole is fixed, else what it uses most, until every cut has its place.

    With a `seed` the choice is blurred, for another plan. `finish` is asked when few cuts are left.
    """
    blur = np.random.default_rng(seed).uniform(1.0 - BLUR, 1.0, 64) if seed else np.ones(1)
    wants, counts = np.array(whole.wants), np.array(whole.counts)
    loads: list[Load] = []
    duals = start
    while True:
        fixed = _fixed(master.columns, duals.columns, blur, wants, counts)
        for load in fixed:
            counts[load.bar] -= load.times
            for i, n in load.pattern:
                wants[i] -= n * load.times
        loads += fixed
        if not fixed or not wants.any():
            break
        rest = left(whole, wants, counts)
        found = finish(rest) if sum(rest.wants) <= FEW else None
        if found is not None:
            loads += found.loads
            wants *= 0
            break
        master.leave(wants, counts)
        duals = priced(master, rest, ROUNDS)
    loads += bar_by_bar(left(whole, wants, counts))
    master.leave(np.array(whole.wants), np.array(whole.counts))
    return trimmed(whole, shared(whole, loads))


def left(whole: Whole, wants: Ints, counts: Ints) -> Whole:
    """The problem with only so many cuts and bars."""
    return replace(whole, wants=tuple(int(n) for n in wants), counts=tuple(int(n) for n in counts))


def _fixed(columns: Columns, used: Floats, blur: Floats, wants: Ints, counts: Ints) -> list[Load]:
    """The patterns to fix: every one that is used whole, else the one that is used most."""
    times = np.floor(used + 1e-6).astype(np.int64)
    at = np.flatnonzero(times > 0)
    if not len(at) and used.max(initial=0.0) > 1e-6:
        at = np.array([int(np.argmax(used * np.resize(blur, len(used))))])
        times[at] = 1
    return list(fitting(columns, ((int(c), int(times[c])) for c in at), wants, counts))


def fitting(columns: Columns, use: Iterable[tuple[int, int]], wants: Ints, counts: Ints) -> Iterator[Load]:
    """Patterns as loads, as often as asked while cuts are wanted and bars are there; what is too much is left off."""
    wants, counts = wants.copy(), counts.copy()
    for c, times in use:
        bar, row = int(columns.bars[c]), columns.counts[c]
        while times > 0 and counts[bar] > 0:
            taken = np.minimum(row, wants)
            held = np.flatnonzero(taken)
            if not len(held):
                break
            n = int(min(times, counts[bar], *(wants[held] // taken[held])))
            wants -= n * taken
            counts[bar] -= n
            times -= n
            yield Load(bar, tuple((int(i), int(taken[i])) for i in held), n)


def columns_of(whole: Whole, loads: Sequence[Load]) -> Columns:
    """The patterns of loads."""
    counts = np.zeros((len(loads), len(whole.cuts)), dtype=np.int64)
    for row, load in enumerate(loads):
        for i, n in load.pattern:
            counts[row, i] = n
    return Columns(np.array([load.bar for load in loads], dtype=np.int64), counts)
