"""The last bars to be filled, together: all ways to fill each are at hand then, and cuts go into one alone."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate

import numpy as np

from bickern.geometry.pack.lengths.patterns import Ints
from bickern.geometry.pack.lengths.whole import Pattern

WAYS = 2**16
"""Ways to take some of the cuts that are left, at most, for the last bars to be filled together."""
BITS = 62
"""Bits of a number that counts cuts of each sort."""
STEPS = 400
"""Fillings of a bar that are tried, at most."""


def few(wants: Sequence[int]) -> bool:
    """Whether so few cuts are left that all ways to take some of them can be looked at."""
    return math.prod(want + 1 for want in wants) <= WAYS and sum(want.bit_length() + 1 for want in wants) <= BITS


def filled_together(
    cuts: Sequence[int], wants: Sequence[int], rooms: Sequence[int], waste: int
) -> tuple[Pattern, ...] | None:
    """A pattern for each room, in the order given, with so much wasted at most, all together; None: not found."""
    counts = _Counts.of(wants)
    held, sizes = counts.subsets(cuts, max(rooms))
    ways = {}
    for b, room in enumerate(rooms):
        fits = np.flatnonzero((sizes <= room) & (sizes >= room - waste))
        ways[b] = _Ways(held[fits], room - sizes[fits])
    found = _shared(counts, ways, 0, waste, [STEPS])
    return None if found is None else tuple(counts.pattern(found[b]) for b in range(len(rooms)))


@dataclass(frozen=True, slots=True)
class _Counts:
    """How many of each sort of cut, all in one number: a few bits for each, and one above them that says too many."""

    wants: Sequence[int]
    shifts: Sequence[int]
    room: int
    """Added to a number, it fills each sort's bits up to where one more than is wanted is too many."""
    over: int
    """The bits that say so."""

    @classmethod
    def of(cls, wants: Sequence[int]) -> "_Counts":
        widths = [want.bit_length() for want in wants]
        shifts = [0, *accumulate(width + 1 for width in widths)][:-1]
        room = sum(((1 << w) - 1 - want) << at for w, want, at in zip(widths, wants, shifts, strict=True))
        return cls(wants, shifts, room, sum(1 << at + w for at, w in zip(shifts, widths, strict=True)))

    def subsets(self, cuts: Sequence[int], room: int) -> tuple[Ints, Ints]:
        """All ways to take some that fit a room, and how long each is."""
        held, sizes = np.zeros(1, dtype=np.int64), np.zeros(1, dtype=np.int64)
        for cut, want, at in zip(cuts, self.wants, self.shifts, strict=True):
            if want:
                sizes = np.concatenate([sizes + n * cut for n in range(want + 1)])
                held = np.concatenate([held + (n << at) for n in range(want + 1)])
                fits = np.flatnonzero(sizes <= room)
                held, sizes = held[fits], sizes[fits]
        return held, sizes

    def pattern(self, held: int) -> Pattern:
        """Which cuts these are."""
        took = ((held >> at) & ((1 << want.bit_length()) - 1) for at, want in zip(self.shifts, self.wants, strict=True))
        return tuple((i, n) for i, n in enumerate(took) if n)


@dataclass(frozen=True, slots=True)
class _Ways:
    """Which cuts a bar may hold, and what each way wastes."""

    held: Ints
    waste: Ints


def _shared(counts: _Counts, ways: dict[int, _Ways], used: int, waste: int, steps: list[int]) -> dict[int, int] | None:
    """What each bar holds, that with fewest ways first; `steps`: how many more may be tried."""
    if sum(int(one.waste.min()) if len(one.waste) else waste + 1 for one in ways.values()) > waste:
        return None
    first = min(ways, key=lambda b: len(ways[b].held))
    for at in np.argsort(ways[first].waste, kind="stable"):
        held, left = int(ways[first].held[at]), waste - int(ways[first].waste[at])
        if len(ways) == 1:
            return {first: held}
        others = {}
        for b, one in ways.items():
            if b != first:
                can = np.flatnonzero(
                    ((one.held + (used + held + counts.room)) & counts.over == 0) & (one.waste <= left)
                )
                others[b] = _Ways(one.held[can], one.waste[can])
        steps[0] -= 1
        found = _shared(counts, others, used + held, left, steps)
        if found is not None:
            return {**found, first: held}
        if steps[0] < 0:
            return None
    return None
