"""Bars filled tighter, a few at a time: their cuts and some that are left over are shared out anew among them.

Each is filled as full as it goes, short ones first, that with most to spare last: what is spare gathers there, till a
cut that is left over finds room.
"""

from collections.abc import Iterator, Sequence

import numpy as np

from bickern.geometry.pack.lengths.sums import more, top

BARS = 4
"""Bars that are shared out anew at once."""
ANYHOW = 0.3
"""Share of moves that take bars in any order."""
KICK = 100
"""Each so manieth move that gains nothing counts all the same, for a way out."""
LEFT = 6
"""Cuts left over that join them, at most."""

Held = list[list[int]]
"""Which cuts lie in each bar."""


def tightened(
    sizes: Sequence[int], rooms: Sequence[int], most: int, moves: int, draw: np.random.Generator
) -> Iterator[tuple[Held, list[int]]]:
    """Ever better ways to fill bars with single cuts; of each, what lies in each bar and what is left over.

    It ends where no more than `most` units are left over, or so many moves have gained nothing.
    """
    held: Held = [[] for _ in rooms]
    left = _refilled(sizes, rooms, held, [int(b) for b in np.argsort(rooms)], [int(i) for i in np.argsort(sizes)[::-1]])
    spare = sum(sizes[i] for i in left)
    yield held, left
    best, idle = spare, 0
    while idle < moves and best > most and len(rooms) > 1:
        idle += 1
        picked = _picked(sizes, rooms, held, draw)
        some = [int(i) for i in draw.permutation(left)]
        before = [list(held[b]) for b in picked]
        pool = some[:LEFT] + [i for cuts in before for i in cuts]
        rest = _refilled(sizes, rooms, held, picked, [int(i) for i in draw.permutation(pool)]) + some[LEFT:]
        now = sum(sizes[i] for i in rest)
        if now > spare and idle % KICK:
            for b, cuts in zip(picked, before, strict=True):
                held[b] = cuts
            continue
        left, spare = rest, now
        if now < best:
            best, idle = now, 0
            yield held, left


def _picked(sizes: Sequence[int], rooms: Sequence[int], held: Held, draw: np.random.Generator) -> list[int]:
    """A few bars, short ones first and among them those with most to spare last; now and then in any order."""
    spares = [room - sum(sizes[i] for i in cuts) for room, cuts in zip(rooms, held, strict=True)]
    picked = [int(b) for b in draw.choice(len(rooms), min(BARS, len(rooms)), replace=False)]
    if draw.random() < ANYHOW:
        return picked
    return sorted(picked, key=lambda b: (rooms[b], spares[b]))


def _refilled(
    sizes: Sequence[int], rooms: Sequence[int], held: Held, picked: Sequence[int], pool: list[int]
) -> list[int]:
    """Fills these bars one after another as full as they go; what of the pool is left over."""
    for b in picked:
        reach = [1]
        for i in reversed(pool):
            reach.append(more(reach[-1], sizes[i], 1, rooms[b]))
        rest, at = top(reach[-1], rooms[b]), len(pool)
        taken, others = [], []
        for i in pool:
            at -= 1
            if rest >= sizes[i] and reach[at] >> (rest - sizes[i]) & 1:
                taken.append(i)
                rest -= sizes[i]
            else:
                others.append(i)
        held[b], pool = taken, others
    return pool
