"""Plans with bars that are given, found by filling them up: no solver, and no proof of anything."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from bickern.geometry.pack.lengths.bounds import shortest
from bickern.geometry.pack.lengths.fill import Looks, filled
from bickern.geometry.pack.lengths.given import Taken
from bickern.geometry.pack.lengths.search import SMALL
from bickern.geometry.pack.lengths.solver import Aim
from bickern.geometry.pack.lengths.sums import grain
from bickern.geometry.pack.lengths.whole import Load, Pattern, Sharing, Whole, kept_rooms, shared, slack, without

LOOKS = 60
"""Fillings of bars that are looked at, at most, for one order of bars and cuts."""
BLUR = 0.4
"""Share by which bars and cuts may be taken for shorter than they are when they are put in order."""
COARSE = 100_000
"""Lengths that are told apart, at most, each second time: that is quick, and rounded lengths are more often alike."""
GOALS = (1.0, 0.5, 0.25)
"""Shares of what a plan may cost over the bound that are aimed at in turn, where drops are kept."""
PACKED = 4
"""Orders that are tried besides the usual one, where nothing but such plans is looked for."""


def packed(whole: Whole, aim: Aim, taken: Taken, limit: float) -> Sharing | None:
    """The first plan found with just these bars that costs at most `limit`."""
    return best_filled(whole, aim, taken, limit, limit, PACKED if sum(whole.wants) > SMALL else 1)


def best_filled(whole: Whole, aim: Aim, taken: Taken, bound: float, limit: float, turns: int) -> Sharing | None:
    """The best plan found that costs at most `limit`; it ends where one comes to the bound.

    `turns`: orders of bars and cuts that are tried besides the usual ones.
    """
    draw = np.random.default_rng(turns)
    singles = np.repeat(np.arange(len(taken.lost)), taken.lost)[::-1]
    rooms, cuts = np.array(whole.rooms, dtype=np.float64), np.array(whole.cuts, dtype=np.float64)
    bars, sorts = singles, np.arange(len(cuts))
    usual = len(GOALS) if taken.kept.any() else 1
    best: Sharing | None = None
    for turn in range(usual + turns):
        if turn >= usual:
            bars = singles[np.argsort(rooms[singles] * draw.uniform(1.0 - BLUR, 1.0, len(singles)))]
            sorts = np.argsort(-cuts * draw.uniform(1.0 - BLUR, 1.0, len(cuts)))
        order = _Order([int(b) for b in bars], [int(i) for i in sorts], turn % 2 == 0)
        plan = _one_by_one(whole, aim, taken, order, bound + (limit - bound) * GOALS[turn % len(GOALS)])
        if plan is not None and plan.cost <= limit + slack(limit):
            best, limit = plan, plan.cost - (0.5 * whole.step or slack(plan.cost))
            if limit < bound:
                break
    return best


@dataclass(frozen=True, slots=True)
class _Order:
    """The bars one by one, and the sorts of cuts, in the order they are filled and taken."""

    bars: Sequence[int]
    sorts: Sequence[int]
    coarse: bool
    """Whether few lengths are told apart, and the longest cuts go short where some must."""


def _one_by_one(whole: Whole, aim: Aim, taken: Taken, order: _Order, goal: float) -> Sharing | None:
    """The plan with bars filled up one after another in an order; `goal`: what it may cost where drops are kept."""
    bars, sorts = order.bars, order.sorts
    rooms = [whole.rooms[b] for b in bars]
    wants = shortest(whole, sum(whole.wants) - aim.most_short) if order.coarse else whole.wants
    longest_room = max(rooms, default=0)
    unit = longest_room // COARSE + 1 if order.coarse else grain(longest_room)
    sizes = [-(-whole.cuts[i] // unit) for i in sorts]
    rounded = 0 if unit == 1 else sum(whole.wants) + len(rooms)
    waste = _waste(whole, aim, taken, rooms, goal) // unit + rounded

    def rest(left: Sequence[int]) -> bool:
        wanting = [all_ - some for all_, some in zip(whole.wants, wants, strict=True)]
        for i, n in zip(sorts, left, strict=True):
            wanting[i] += n
        return placed(whole, aim, taken, wanting) is not None

    found = filled(sizes, [wants[i] for i in sorts], [room // unit for room in rooms], waste, Looks(LOOKS), rest)
    if found is None:
        return None
    return rested(whole, aim, taken, bars, [tuple(sorted((sorts[i], n) for i, n in pattern)) for pattern in found])


def wanted(whole: Whole, aim: Aim) -> int:
    """All cuts end to end but those that may be short, the longest of them."""
    return sum(cut * n for cut, n in zip(whole.cuts, whole.wants, strict=True)) - longest(whole, aim.most_short)


def _waste(whole: Whole, aim: Aim, taken: Taken, rooms: list[int], goal: float) -> int:
    """What may be wasted of these rooms: so much that a cost is reached, or, with no drop kept, what no cut needs."""
    more = (goal - taken.fixed(whole)) / whole.worth if taken.kept.any() else 0.0
    return int(sum(rooms) - wanted(whole, aim) + more + 1e-6)


def longest(whole: Whole, count: int) -> int:
    """The longest cuts end to end."""
    total = 0
    for cut, want in zip(whole.cuts, whole.wants, strict=True):
        total += cut * min(want, count)
        count -= min(want, count)
    return total


def rested(whole: Whole, aim: Aim, taken: Taken, bars: Sequence[int], patterns: Sequence[Pattern]) -> Sharing | None:
    """The plan where what is left goes short, longest first, or into the bars kept; None: not found."""
    left = without(whole.wants, *patterns)
    held = placed(whole, aim, taken, left)
    if held is None and not hopeless(whole, aim, taken, patterns):
        held = filled_in(whole, aim, taken, left)
    loads = [Load(b, pattern) for b, pattern in zip(bars, patterns, strict=True)]
    return None if held is None else shared(whole, (*loads, *held))


def filled_in(whole: Whole, aim: Aim, taken: Taken, left: Sequence[int]) -> list[Load] | None:
    """Cuts left, in bars kept, filled up one after another: that takes longer than `placed`, and finds more."""
    rooms = kept_rooms(whole)
    bars = sorted(taken.bins(), key=lambda b: rooms[b])
    unit = grain(rooms[bars[-1]])
    sizes = [-(-cut // unit) for cut in whole.cuts]
    wants = shortest(replace(whole, wants=tuple(left)), sum(left) - aim.most_short)
    free = [rooms[b] // unit for b in bars]
    spare = sum(free) - sum(size * want for size, want in zip(sizes, wants, strict=True))
    found = filled(sizes, wants, free, spare, Looks(LOOKS), lambda others: not any(others)) if spare >= 0 else None
    if found is None or not all(found):
        return None
    return [Load(b, pattern) for b, pattern in zip(bars, found, strict=True)]


def hopeless(whole: Whole, aim: Aim, taken: Taken, patterns: Sequence[Pattern]) -> bool:
    """Whether what is left beside these patterns goes into no bars kept, a cut at least in each."""
    left = without(whole.wants, *patterns)
    sizes = [whole.cuts[i] for i, n in enumerate(left) for _ in range(n)][aim.most_short :]
    kept = kept_rooms(whole)
    rooms = sorted(kept[b] for b in taken.bins())
    return (
        len(sizes) < len(rooms)
        or sum(sizes) > sum(rooms)
        or any(size > room for size, room in zip(reversed(sizes), rooms, strict=False))
    )


def placed(whole: Whole, aim: Aim, taken: Taken, wants: Sequence[int]) -> list[Load] | None:
    """Cuts that are left, in bars kept, the longest of them short: first the shortest, so that each bar has one.

    Then the longest first, each into the fullest bar that has room. None: that way they have no room.
    """
    left = [i for i, n in enumerate(wants) for _ in range(n)][aim.most_short :]
    rooms = kept_rooms(whole)
    order = sorted(taken.bins(), key=lambda b: rooms[b])
    free = [rooms[b] for b in order]
    held: list[list[int]] = [[] for _ in order]
    one_each = left[::-1][: len(order)]
    for own, i in [*enumerate(one_each), *((None, i) for i in left[: len(left) - len(one_each)])]:
        fits = [k for k, room in enumerate(free) if room >= whole.cuts[i] and own in (k, None)]
        if not fits:
            return None
        at = min(fits, key=lambda k: free[k])
        free[at] -= whole.cuts[i]
        held[at].append(i)
    return [Load(b, tuple(sorted(Counter(cuts).items()))) for b, cuts in zip(order, held, strict=True) if cuts]
