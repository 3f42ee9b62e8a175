"""Cuts into bars one after another, the shortest first: all ways, or as many as there are steps for.

A bar has few fillings that waste little where it is short; and what the bars left waste at least is known from the
lengths that the cuts left add up to (`sums`), so that most steps are given up at once. Only the sum decides what goes
into the last bar but one.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from bickern.geometry.pack.lengths.short import wanted
from bickern.geometry.pack.lengths.sums import bits, grain, more, top
from bickern.geometry.pack.lengths.whole import Pattern, without

LOT = 100_000
"""Lengths that are looked at in one step, for one sort of cut."""


@dataclass(frozen=True, slots=True)
class Room:
    """A bar: what goes into it, and how many cuts must (0 or 1)."""

    size: int
    least: int = 0


@dataclass(slots=True)
class Steps:
    """How many steps may still be taken."""

    left: int

    def take(self, steps: int) -> None:
        """So many fewer."""
        self.left -= steps
        if self.left < 0:
            raise OutOfStepsError


class OutOfStepsError(Exception):
    """Not all ways were looked at."""


def straight_through(cuts: Sequence[int], room: int, bars: int) -> int:
    """Steps that it takes to fill so many bars of a room one after another, with no step back, at most."""
    return bars * len(cuts) * (1 + room // grain(room) // LOT)


class Look:
    """What is looked through: the bars in order, and the steps left."""

    def __init__(self, cuts: Sequence[int], rooms: Sequence[Room], first: int, short: int, steps: Steps) -> None:
        self.cuts = cuts
        self.sizes = [room.size for room in rooms]
        self.least = [room.least for room in rooms]
        self.first = first
        self.short = short
        self.steps = steps
        self.needed = [self.needs(at) for at in range(len(rooms) + 1)]
        self.seen: set[tuple[int, tuple[int, ...]]] = set()
        self.path: list[Pattern] = []
        self.furthest: list[Pattern] = []

    def needs(self, at: int) -> list[tuple[int, int]]:
        """Of the cuts from one on there must be so many left for those bars, from one on, that must hold a cut."""
        rooms = sorted(size for size, least in zip(self.sizes[at:], self.least[at:], strict=True) if least)
        return list({sum(cut > room for cut in self.cuts): n for n, room in enumerate(rooms, 1)}.items())

    def filled(self, wants: tuple[int, ...], at: int, waste: int, most: int) -> list[Pattern] | None:
        """Patterns for all bars from one on, the last bar's first; `most`: what that one may hold (0: all it can)."""
        if at == self.first:  # what is wasted behind it is what has no cut
            waste, most = sum(self.sizes[at:]) - self.end_to_end(wants), 0
        if at >= len(self.sizes) - 1:
            return self.last(wants, at)
        if (at, wants) in self.seen or waste < 0 or any(sum(wants[i:]) < n for i, n in self.needed[at]):
            return None
        self.seen.add((at, wants))
        room, bars = self.sizes[at], self.sizes[at : self.first if at < self.first else len(self.sizes)]
        only = at == len(self.sizes) - 2 and not self.short
        longest = room if only else bars[-1]
        sorts, reach = self.reach(wants, room, longest)
        full = top(reach[0], room)
        if room - full > waste:
            return None
        spare = waste
        if not only:
            added = self.added(reach[0], wants, room, longest)
            spare -= sum(one - top(added, one) for one in bars[1:])
        if room - full > spare:
            return None
        self.steps.take(len(sorts) * (1 + room // LOT) // 2)
        total = top(reach[0], min(room, most or room))
        behind = [bits(one, room) for one in reach]
        while total >= max(self.least[at], room - spare):
            for pattern in _ways(self.cuts, wants, sorts, behind, total):
                self.steps.take(2 + len(wants) // 4)
                alike = total if self.sizes[at + 1] == room else 0
                self.reached(at, pattern)
                found = self.filled(tuple(without(wants, pattern)), at + 1, waste - room + total, alike)
                if found is not None:
                    return [*found, pattern]
                if only:
                    break
            total = top(reach[0], total - 1)
        return None

    def reached(self, at: int, pattern: Pattern) -> None:
        """Remembers the most bars that were ever filled, of those that are to be."""
        self.path[at:] = [pattern]
        if at < self.first and at >= len(self.furthest):
            self.furthest = [*self.path]

    def last(self, wants: tuple[int, ...], at: int) -> list[Pattern] | None:
        """All that is left in the last bar, if it has room; what may be short is, the longest first."""
        if at == len(self.sizes):
            return [] if sum(wants) <= self.short else None
        short, held = min(self.short, max(0, sum(wants) - self.least[at])), []
        for i, want in enumerate(wants):
            out = min(want, short)
            short -= out
            if want > out:
                held.append((i, want - out))
        fits = sum(self.cuts[i] * n for i, n in held) <= self.sizes[at] and len(held) >= self.least[at]
        return [tuple(held)] if fits else None

    def end_to_end(self, wants: Sequence[int]) -> int:
        """What cuts come to end to end, the longest of them short."""
        return wanted(self.cuts, wants, self.short)

    def added(self, reach: int, wants: Sequence[int], room: int, longest: int) -> int:
        """The lengths up to the longest bar's, with the cuts that are longer than a room added to what others reach."""
        longer = [i for i, want in enumerate(wants) if want and room < self.cuts[i] <= longest]
        self.steps.take(len(longer) * (1 + longest // LOT))
        for i in longer:
            reach = more(reach, self.cuts[i], wants[i], longest)
        return reach

    def reach(self, wants: Sequence[int], room: int, longest: int) -> tuple[list[int], list[int]]:
        """The cuts that a bar can hold, and what each and those behind it add up to, up to the longest bar's."""
        sorts = [i for i, want in enumerate(wants) if want and self.cuts[i] <= room]
        self.steps.take(len(sorts) * (1 + longest // LOT))
        reach = [1]
        for i in reversed(sorts):
            reach.append(more(reach[-1], self.cuts[i], wants[i], longest))
        return sorts, reach[::-1]


def _ways(
    cuts: Sequence[int], wants: Sequence[int], sorts: Sequence[int], reach: Sequence[bytes], total: int
) -> Iterator[Pattern]:
    """All ways to add up to a length, as many of the first cuts as can be first."""
    ends = [8 * len(behind) for behind in reach]
    stack: list[tuple[int, int, Pattern]] = []
    if total < ends[0] and reach[0][total >> 3] >> (total & 7) & 1:
        stack.append((0, total, ()))
    while stack:
        at, rest, pattern = stack.pop()
        while rest:
            i = sorts[at]
            at += 1
            cut, behind, end = cuts[i], reach[at], ends[at]
            held = 0 if rest < end and behind[rest >> 3] >> (rest & 7) & 1 else -1
            left, n = rest - cut, 1
            while left >= 0 and n <= wants[i]:
                if left < end and behind[left >> 3] >> (left & 7) & 1:
                    if held >= 0:  # fewer of this cut wait for their turn
                        stack.append((at, rest - held * cut, (*pattern, (i, held)) if held else pattern))
                    held = n
                left, n = left - cut, n + 1
            if held:
                rest -= held * cut
                pattern = (*pattern, (i, held))
        yield pattern
