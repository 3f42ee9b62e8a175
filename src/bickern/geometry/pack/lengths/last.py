"""The last bars to be filled, together: all ways to fill each are at hand then."""

import math
from collections.abc import Callable, Sequence

import numpy as np

from bickern.geometry.pack.lengths.patterns import Ints
from bickern.geometry.pack.lengths.together import Alike, Counts, Found, Tree
from bickern.geometry.pack.lengths.whole import Pattern, without

WAYS = 2**16
"""Ways to take some of the cuts that are left, at most, for the last bars to be filled together."""
BITS = 62
"""Bits of a number that counts cuts of each sort."""
STEPS = 400
"""Fillings of a bar that are tried, at most."""


def few(wants: Sequence[int]) -> bool:
    """Whether so few cuts are left that all ways to take some of them can be looked at."""
    return math.prod(want + 1 for want in wants) <= WAYS and sum(want.bit_length() + 1 for want in wants) <= BITS


Rest = Callable[[Sequence[int]], bool]
"""Whether the cuts that are left, so many of each sort, may be left."""


def filled_together(
    cuts: Sequence[int], wants: Sequence[int], rooms: Sequence[int], waste: int, rest: Rest
) -> tuple[Pattern, ...] | None:
    """A pattern for each room, in the order given, with so much wasted at most, all together; None: not found."""
    counts = Counts.of(wants)
    held, sizes = _subsets(counts, cuts, max(rooms))
    bars = []
    for b, room in enumerate(rooms):
        fits = np.flatnonzero((sizes <= room) & (sizes >= room - waste))
        if not len(fits):
            return None
        fits = fits[np.argsort(-sizes[fits], kind="stable")]
        bars.append(
            Alike(b, 1, [(h, w, 0.0) for h, w in zip(held[fits].tolist(), (room - sizes[fits]).tolist(), strict=True)])
        )
    best: Found = []

    def full(found: Found, wasted: float) -> float:
        left = without(wants, *(counts.pattern(way) for _, way in found))
        if not rest(left):
            return waste
        best.extend(found)
        return -1.0

    Tree(counts, float(waste), 0.0, STEPS, full).look(bars, [])
    return tuple(counts.pattern(way) for _, way in sorted(best)) if best else None


def _subsets(counts: Counts, cuts: Sequence[int], room: int) -> tuple[Ints, Ints]:
    """All ways to take some cuts that fit a room, and how long each is."""
    held, sizes = np.zeros(1, dtype=np.int64), np.zeros(1, dtype=np.int64)
    for cut, want, at in zip(cuts, counts.wants, counts.shifts, strict=True):
        if want:
            sizes = np.concatenate([sizes + n * cut for n in range(want + 1)])
            held = np.concatenate([held + (n << at) for n in range(want + 1)])
            fits = np.flatnonzero(sizes <= room)
            held, sizes = held[fits], sizes[fits]
    return held, sizes
