"""Bounds that need no solver: no plan has fewer cuts short, and none that has so few short costs less.

Each stretches lengths by a function under which what fits a bar still fits it (a dual feasible function that is
superadditive): exact mathematics, on whole numbers. Martello and Toth's L2 is one, that of Fekete and Schepers another.
"""

import math
from collections.abc import Callable, Iterator, Sequence
from functools import partial

from bickern.geometry.pack.lengths.whole import Whole, slack

PARTS = 20
"""Fekete and Schepers' functions that are tried."""


def least_short(whole: Whole) -> int:
    """Cuts that must be short: the shortest ones end to end in all bars as one, and so many in each bar at most."""
    room = sum(r * n for r, n in zip(whole.rooms, whole.counts, strict=True))
    singly = sum(most_in(whole, r) * n for r, n in zip(whole.rooms, whole.counts, strict=True))
    return max(0, sum(whole.wants) - min(singly, most_in(whole, room)))


def most_in(whole: Whole, room: int) -> int:
    """The most cuts that go into a room: the shortest."""
    placed = 0
    for cut, want in zip(reversed(whole.cuts), reversed(whole.wants), strict=True):
        n = min(want, room // cut)
        placed += n
        room -= n * cut
        if n < want:
            break
    return placed


def shortest(whole: Whole, count: int) -> tuple[int, ...]:
    """How many of each cut where only the `count` shortest are wanted."""
    wants = []
    for want in reversed(whole.wants):
        wants.append(min(want, count))
        count -= wants[-1]
    return tuple(reversed(wants))


def least_cost(whole: Whole, short: int = 0) -> float:
    """What a plan with `short` cuts short (the longest, at best) must cost; rounded up to a step."""
    wants = shortest(whole, sum(whole.wants) - short)
    return stepped(whole, max((_enough(whole, wants, stretched) for stretched in _functions(whole)), default=0.0))


def stepped(whole: Whole, bound: float) -> float:
    """A bound rounded up to what a cost can be, where it lies above a step by more than rounding can do."""
    return float(math.ceil(bound - 1e-6 - slack(bound))) if whole.step and math.isfinite(bound) else bound


def met(whole: Whole, cost: float, bound: float) -> bool:
    """Whether nothing can lie between a bound and a cost."""
    return bound >= cost - (0.5 * whole.step or slack(cost))


# ---- functions

Stretched = tuple[Sequence[int], Sequence[int]]
"""Cuts and rooms, stretched."""


def _functions(whole: Whole) -> Iterator[Stretched]:
    """Lengths as they are; each cut as one; and what the functions make of lengths."""
    if not whole.rooms:
        return
    yield whole.cuts, whole.rooms
    yield [1] * len(whole.cuts), [most_in(whole, room) for room in whole.rooms]
    full = max(whole.rooms)
    for k in [c for c in whole.cuts if 2 * c <= full]:
        yield _both(whole, partial(_long, k, full))
    for p in range(1, PARTS):
        yield _both(whole, partial(_parts, p, full))


def _long(k: int, full: int, x: int) -> int:
    """Martello and Toth: what is under k is nothing, what leaves less than k of a full bar is all of it."""
    return full if x > full - k else x if x >= k else 0


def _parts(p: int, full: int, x: int) -> int:
    """Fekete and Schepers: rounded down to parts of p, p + 1 to a full bar; what is a whole part stays."""
    return p * x if (p + 1) * x % full == 0 else (p + 1) * x // full * full


def _both(whole: Whole, stretch: Callable[[int], int]) -> Stretched:
    return [stretch(cut) for cut in whole.cuts], [stretch(room) for room in whole.rooms]


def _enough(whole: Whole, wants: tuple[int, ...], stretched: Stretched) -> float:
    """The least cost of bars that hold all stretched cuts end to end, parts of bars allowed.

    Where drops are worth something, a drop is what is not used: each bar costs less by the worth of all its length, and
    each cut costs what its own length would have been worth.
    """
    need = sum(cut * n for cut, n in zip(stretched[0], wants, strict=True))
    reach = max(whole.spare, 0)
    cost = whole.worth * sum(cut * n for cut, n in zip(whole.cuts, wants, strict=True))
    offers = []
    for at, (count, price) in enumerate(zip(whole.counts, whole.costs, strict=True)):
        net = price - whole.worth * (whole.rooms[at] + reach)
        cost += min(net, 0.0) * count
        offers.append((max(net, 0.0), stretched[1][at], count))
    for net, room, count in sorted((o for o in offers if o[1] > 0), key=lambda o: o[0] / o[1]):
        taken = min(need, room * count)
        cost += net * taken / room
        need -= taken
    return cost
