"""Ways to fill bars that go together: each cut goes into one bar alone, and all bars waste no more than they may.

A tree is looked through: the bar with fewest ways first, those that waste least first. What is wasted is counted in
the caller's own unit.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import accumulate

from bickern.geometry.pack.lengths.patterns import Ints
from bickern.geometry.pack.lengths.whole import Pattern

Way = tuple[int, float, float]
"""Cuts that a bar holds (as `Counts` writes them), what is wasted, and what else is used up."""


@dataclass(frozen=True, slots=True)
class Counts:
    """How many of each sort of cut, all in one number: a few bits for each, and one above them that says too many."""

    wants: Sequence[int]
    shifts: Sequence[int]
    room: int
    """Added to a number, it fills each sort's bits up to where one more than is wanted is too many."""
    over: int
    """The bits that say so."""

    @classmethod
    def of(cls, wants: Sequence[int]) -> "Counts":
        """For so many of each sort."""
        widths = [want.bit_length() for want in wants]
        shifts = [0, *accumulate(width + 1 for width in widths)][:-1]
        room = sum(((1 << w) - 1 - want) << at for w, want, at in zip(widths, wants, shifts, strict=True))
        return cls(wants, shifts, room, sum(1 << at + w for at, w in zip(shifts, widths, strict=True)))

    def numbers(self, counts: Ints) -> list[int]:
        """Rows of counts, each in one number."""
        ones = [1 << at for at in self.shifts]
        return [sum(n * one for n, one in zip(row, ones, strict=True) if n) for row in counts.tolist()]

    def pattern(self, held: int) -> Pattern:
        """Which cuts a number stands for."""
        took = ((held >> at) & ((1 << want.bit_length()) - 1) for at, want in zip(self.shifts, self.wants, strict=True))
        return tuple((i, n) for i, n in enumerate(took) if n)


@dataclass(frozen=True, slots=True)
class Alike:
    """Bars that are all alike, by their key: how many, and their ways, that with least waste first."""

    key: int
    count: int
    ways: Sequence[Way]


LONG = 200
"""Ways of a bar that are sifted with each bar that is filled; more than these only when the bar's turn comes."""

FULL = 20
"""Steps that it takes to look at bars that are all filled."""

Found = list[tuple[int, int]]
"""Bars by their key, and the cuts each holds."""


@dataclass(slots=True)
class Tree:
    """What is looked through, and how far it came.

    `full`: told of bars that are all filled, and what they waste; what may be wasted from then on comes back.
    """

    counts: Counts
    most: float
    """What may be wasted."""
    more: float
    """What else may be used up."""
    steps: int
    """Ways that may still be tried."""
    full: Callable[[Found, float], float]

    @property
    def through(self) -> bool:
        """Whether all was looked at."""
        return self.steps >= 0

    def look(self, bars: Sequence[Alike], found: Found, used: int = 0, waste: float = 0.0, other: float = 0.0) -> None:
        """Fills these bars in all ways that may do, beside those that are filled."""
        if not bars:
            self.steps -= FULL
            self.most = self.full(found, waste)
            return
        least = sum(one.count * one.ways[0][1] for one in bars)
        first = min(bars, key=lambda one: len(one.ways))
        ways = first.ways
        if len(ways) > LONG:
            ways = self.fitting(ways, used, self.most - waste, self.more - other)
            self.steps -= len(first.ways) // LONG
        for at, (held, wasted, else_) in enumerate(ways):
            if waste + least - first.ways[0][1] + wasted > self.most:
                return
            self.steps -= 1
            if self.steps < 0:
                return
            left = self.most - waste - wasted, self.more - other - else_
            others = self.beside(bars, first, ways[at:], used + held, *left)
            if others is not None:
                self.look(others, [*found, (first.key, held)], used + held, waste + wasted, other + else_)

    def beside(
        self, bars: Sequence[Alike], first: Alike, ways: Sequence[Way], used: int, most: float, more: float
    ) -> list[Alike] | None:
        """The bars that are left and the ways that still do; None where one has none. Of alike bars, in one order.

        A long list is left as it is till its turn comes.
        """
        others = []
        for one in sorted(bars, key=lambda one: len(one.ways)):  # where one has none left, it is soon seen
            count, can = (one.count - 1, ways) if one is first else (one.count, one.ways)
            if count:
                can = can if len(can) > LONG else self.fitting(can, used, most, more)
                if not can:
                    return None
                others.append(Alike(one.key, count, can))
        return others

    def fitting(self, ways: Sequence[Way], used: int, most: float, more: float) -> list[Way]:
        """Those ways that hold no cut that is used, and waste no more."""
        taken, over = used + self.counts.room, self.counts.over
        return [way for way in ways if not (way[0] + taken) & over and way[1] <= most and way[2] <= more]
