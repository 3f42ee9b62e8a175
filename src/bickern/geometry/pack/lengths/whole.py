"""Metres made whole numbers, so that what fits and what is proven is exact.

A length becomes whole nanometres (the nearest: every 1/64 in and every micrometre is exact so), less the divisor they
share. The kerf k goes away: m cuts with m - 1 kerfs between them fit a bar of L just where m cuts, each longer by k,
fit L + k. With a grip G behind it the last cut has its kerf too, clear of the grip: they fit L - G.
"""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from bickern.geometry.pack.lengths.asked import Bar, Cut, Saw
from bickern.geometry.pack.lengths.coarse import coarser

NANO = 1e9
"""Whole numbers in a metre, before the divisor they share goes out."""
FINEST = 10**6
"""Steps in a unit of cost that are looked for, at most."""

STEPS = 1_000_000
"""Steps that a bar may cost, at most, for costs to be counted in them: finer ones drown in the solver's rounding."""

Pattern = tuple[tuple[int, int], ...]
"""What comes off one bar: (which cut, how often), by rising index."""


@dataclass(frozen=True, slots=True)
class Whole:
    """Cuts of unlike whole length, longest first, and bars of unlike length or cost; all in whole units.

    `cuts` hold their kerf; `rooms` are the bars without their grip, and one kerf longer where there is none. `spare`
    is what a drop is longer than the room left. A drop of `keep` units or more takes off `worth` a unit (0: none).
    `step`: 1 where every cost is a whole number, else 0. Costs are the asker's in another unit.
    """

    cuts: tuple[int, ...]
    wants: tuple[int, ...]
    rooms: tuple[int, ...]
    counts: tuple[int, ...]
    costs: tuple[float, ...]
    spare: int = 0
    keep: int = 0
    worth: float = 0.0
    step: float = 0.0


@dataclass(frozen=True, slots=True)
class Load:
    """`times` bars of one kind (by index) that carry the same pattern."""

    bar: int
    pattern: Pattern
    times: int = 1


@dataclass(frozen=True, slots=True)
class Sharing:
    """Cuts shared out over bars in whole units; `short`: how many of each cut found none."""

    loads: tuple[Load, ...]
    short: tuple[int, ...]
    cost: float

    @property
    def missing(self) -> int:
        """Cuts short, all together."""
        return sum(self.short)

    def better_than(self, other: "Sharing") -> bool:
        """Fewer short, or as few at less cost."""
        return (self.missing, self.cost) < (other.missing, other.cost - slack(other.cost))


def slack(cost: float) -> float:
    """Costs nearer than this are one cost."""
    return 1e-9 * max(1.0, abs(cost))


@dataclass(frozen=True, slots=True)
class Answer:
    """The best sharing found, and what no other can pass: a cost where as few are short, and how few can be."""

    sharing: Sharing
    bound: float
    fewest: int
    why: str = ""


@dataclass(frozen=True, slots=True)
class Named:
    """A problem in whole units, and the keys it stands for."""

    whole: Whole
    exact: Whole
    """The same in true lengths."""
    cut_keys: tuple[tuple[str, ...], ...]
    bar_keys: tuple[tuple[tuple[str, int | None], ...], ...]
    hopeless: tuple[tuple[str, int], ...]
    """Cuts longer than any bar."""
    unit: int
    """Nanometres in a unit of those."""
    spare: int
    """Nanometres that a drop is longer than the room left."""
    price: float
    """The asker's cost that one of cost is here."""


def named(cuts: Sequence[Cut], bars: Sequence[Bar], saw: Saw) -> Named:
    """The problem in whole units; a cut for which every bar is too short is set apart.

    Raises ValueError for a cut, a bar or a saw that has no measure.
    """
    measures = [c.length for c in cuts] + [m for b in bars for m in (b.length, b.cost)] + [saw.kerf, saw.grip]
    if not all(map(math.isfinite, measures)) or any(c.length <= 0.0 for c in cuts):
        raise ValueError("every cut must be longer than nothing, and every measure a number")
    kerf, grip = nano(saw.kerf), nano(saw.grip)
    spare = grip if grip > 0 else -kerf
    rooms = [(nano(b.length) - spare, b) for b in bars if b.count is None or b.count > 0]
    longest = max((room for room, _ in rooms), default=0)
    wanted = [(nano(c.length) + kerf, c) for c in cuts if c.count > 0]
    fitting = [(length, c) for length, c in wanted if length <= longest]
    hopeless = tuple((c.key, c.count) for length, c in wanted if length > longest)
    least = min((length for length, _ in fitting), default=1)
    total = sum(c.count for _, c in fitting)
    lengths = sorted({length for length, _ in fitting}, reverse=True)
    cut_keys = tuple(tuple(c.key for at, c in fitting if at == length for _ in range(c.count)) for length in lengths)
    kinds = sorted({(room, b.cost) for room, b in rooms if room >= least}, key=lambda k: (-k[0], k[1]))
    bar_keys = tuple(tuple((b.key, b.count) for room, b in rooms if (room, b.cost) == kind) for kind in kinds)
    counts = tuple(min(total, sum(total if n is None else n for _, n in keys)) for keys in bar_keys)
    keeps = saw.keep_from > 0.0 and saw.drop_worth > 0.0
    keep = nano(saw.keep_from) if keeps else 0
    unit = math.gcd(*lengths, *(room for room, _ in kinds), *((spare, keep) if keeps else ())) or 1
    worth = saw.drop_worth * unit / NANO if keeps else 0.0
    step, price = counted([cost for _, cost in kinds], worth)
    whole = Whole(
        tuple(length // unit for length in lengths),
        tuple(len(keys) for keys in cut_keys),
        tuple(room // unit for room, _ in kinds),
        counts,
        tuple(round(cost / price) if step else cost / price for _, cost in kinds),
        spare // unit if keeps else 0,
        keep // unit,
        round(worth / price) if step else worth / price,
        step,
    )
    return Named(whole if keeps else bare(whole), whole, cut_keys, bar_keys, hopeless, unit, spare, price)


def nano(metres: float) -> int:
    """Whole nanometres [nm] of a length [m], the nearest."""
    return round(metres * NANO)


def counted(costs: Sequence[float], worth: float) -> tuple[float, float]:
    """Whether costs can be counted in steps (1, else 0), and the asker's cost that is 1 then.

    A step is the largest that all are whole multiples of, 1 and decimal parts of it looked at.
    """
    given = [cost for cost in (*costs, worth) if cost]
    parts = 1
    while given and parts <= FINEST:
        whole = [round(cost * parts) for cost in given]
        if all(abs(cost * parts - w) <= 1e-9 * w for cost, w in zip(given, whole, strict=True)):
            divisor = math.gcd(*whole)
            if max(whole) <= STEPS * divisor:
                return 1.0, divisor / parts
        parts *= 10
    return 0.0, max(given, default=STEPS) / STEPS


# ---- patterns and what they cost


@lru_cache(8)
def bare(whole: Whole, *, kept: bool = False) -> Whole:
    """The problem with drops worth nothing, or of what may be used where they are `kept`; in a unit as coarse as does.

    No room is less than nothing.
    """
    rooms = kept_rooms(whole) if kept else whole.rooms
    cuts, rooms = coarser(whole.cuts, whole.wants, tuple(max(0, room) for room in rooms))
    return replace(whole, worth=0.0, cuts=cuts, rooms=rooms)


def used(whole: Whole, pattern: Pattern) -> int:
    """Units of a bar that a pattern takes."""
    return sum(whole.cuts[i] * n for i, n in pattern)


def without(wants: Sequence[int], *patterns: Pattern) -> list[int]:
    """How many of each cut are left beside these patterns."""
    left = list(wants)
    for pattern in patterns:
        for i, n in pattern:
            left[i] -= n
    return left


def drop_value(whole: Whole, rest: int) -> float:
    """What the room left in a bar takes off the cost."""
    drop = rest + whole.spare
    return whole.worth * drop if whole.worth and drop >= max(whole.keep, 1) else 0.0


def kept_rooms(whole: Whole) -> tuple[int, ...]:
    """What may be used of each bar with its drop kept; less than nothing where none can be kept."""
    if not whole.worth:
        return (-1,) * len(whole.rooms)
    return tuple(room + min(0, whole.spare - max(whole.keep, 1)) for room in whole.rooms)


def load_cost(whole: Whole, bar: int, pattern: Pattern) -> float:
    """Cost of one bar with a pattern, less the worth of its drop."""
    return whole.costs[bar] - drop_value(whole, whole.rooms[bar] - used(whole, pattern))


def shared(whole: Whole, loads: Iterable[Load]) -> Sharing:
    """A sharing with its shortage and cost reckoned from its loads."""
    kept = tuple(load for load in loads if load.times > 0 and load.pattern)
    left = list(whole.wants)
    for load in kept:
        for i, n in load.pattern:
            left[i] -= n * load.times
    cost = math.fsum(load.times * load_cost(whole, load.bar, load.pattern) for load in kept)
    return Sharing(kept, tuple(left), cost)


def faults(whole: Whole, sharing: Sharing) -> tuple[str, ...]:
    """What is wrong with a sharing; whatever comes from a solver is held against this before it is believed."""
    says = []
    taken = [0] * len(whole.rooms)
    for load in sharing.loads:
        taken[load.bar] += load.times
        if used(whole, load.pattern) > whole.rooms[load.bar]:
            says.append(f"bar {load.bar} is too full")
        if any(n <= 0 for _, n in load.pattern) or load.times <= 0:
            says.append(f"bar {load.bar} carries less than nothing")
    says += [f"too many bars {b}" for b, n in enumerate(taken) if n > whole.counts[b]]
    says += [f"too many cuts {i}" for i, n in enumerate(sharing.short) if n < 0]
    if sharing != shared(whole, sharing.loads):
        says.append("its sums are wrong")
    return tuple(says)
