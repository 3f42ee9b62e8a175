"""Plans with bars that are given, found by filling them up: no solver, and no proof of anything."""

from collections import Counter
from collections.abc import Iterator, Sequence

import numpy as np

from bickern.geometry.pack.lengths.fill import Looks, filled
from bickern.geometry.pack.lengths.given import Taken
from bickern.geometry.pack.lengths.solver import Aim
from bickern.geometry.pack.lengths.sums import grain
from bickern.geometry.pack.lengths.tight import tightened
from bickern.geometry.pack.lengths.whole import Load, Pattern, Sharing, Whole, kept_rooms, shared, slack

LOOKS = 1500
"""Bars filled, at most, one after another, from one order of bars and cuts."""
FEW = 40
"""Many cuts of fewer sorts fill no bar to the last unit: not all lengths are told apart then."""
COARSE = 100_000
"""Lengths that are told apart, at most, there and where bars are filled tighter a few at a time."""
MOVES = 800
"""Times that a few bars are shared out anew without gain, where nothing but such plans is looked for."""


def packed(whole: Whole, aim: Aim, taken: Taken, limit: float) -> Sharing | None:
    """The best plan found with just these bars that costs at most `limit`."""
    room = sum(room * int(n) for room, n in zip(whole.rooms, taken.lost, strict=True))
    rest = max(0, wanted(whole, aim) - room)
    return best_filled(whole, aim, taken, taken.fixed(whole) + whole.worth * rest, limit, 1, MOVES)


def best_filled(
    whole: Whole, aim: Aim, taken: Taken, bound: float, limit: float, effort: int, moves: int
) -> Sharing | None:
    """The best plan found that costs at most `limit`; it ends where one comes to the bound.

    `effort`: 0 for the usual orders of bars and cuts, 4 more of them for each step. `moves`: how long bars are filled
    tighter without gain.
    """
    draw = np.random.default_rng(effort)
    best: Sharing | None = None
    for plan in _plans(whole, aim, taken, bound, limit, effort, moves, draw):
        if plan.cost <= limit + slack(limit):
            best, limit = plan, plan.cost - (0.5 * whole.step or slack(plan.cost))
            if limit < bound:
                break
    return best


def _plans(
    whole: Whole,
    aim: Aim,
    taken: Taken,
    bound: float,
    limit: float,
    effort: int,
    moves: int,
    draw: np.random.Generator,
) -> Iterator[Sharing]:
    """Plans from several orders of bars and cuts, then with bars filled ever tighter."""
    bars = np.repeat(np.arange(len(taken.lost)), taken.lost)[::-1]
    sorts = np.arange(len(whole.cuts))
    kept = bool(taken.kept.any())
    usual = 3 if kept else 1
    looks = LOOKS * (1 + effort)
    for turn in range(usual + 4 * effort):
        if turn >= usual:
            bars, sorts = draw.permutation(bars), draw.permutation(sorts)
        with_kept = kept and turn % 3 == 1
        goal = (limit if turn % 3 else bound) if kept and not with_kept else None
        plan = _one_by_one(whole, aim, taken, [int(b) for b in bars], [int(i) for i in sorts], with_kept, goal, looks)
        if plan is not None:
            yield plan
    if moves:
        yield from _tightened(whole, aim, taken, bound, moves, draw)


def _one_by_one(
    whole: Whole,
    aim: Aim,
    taken: Taken,
    bars: Sequence[int],
    sorts: Sequence[int],
    with_kept: bool,
    goal: float | None,
    looks: int,
) -> Sharing | None:
    """The plan with bars filled up one after another in this order; `goal`: what it may cost (None: no matter)."""
    rooms = [whole.rooms[b] for b in bars]
    rooms += [kept_rooms(whole)[b] for b in taken.bins()] if with_kept else []
    longest_room = max(rooms, default=0)
    unit = grain(longest_room) if len(whole.cuts) > FEW or sum(whole.wants) <= FEW else longest_room // COARSE + 1
    sizes = [-(-whole.cuts[i] // unit) for i in sorts]
    rounded = 0 if unit == 1 else sum(whole.wants) + len(rooms)
    waste = _waste(whole, aim, taken, rooms, goal) // unit + rounded
    left = Looks(looks // max(1, len(rooms)))
    found = filled(sizes, [whole.wants[i] for i in sorts], [room // unit for room in rooms], waste, left)
    if found is None:
        return None
    return _rest(whole, aim, taken, bars, [tuple(sorted((sorts[i], n) for i, n in pattern)) for pattern in found])


def _tightened(
    whole: Whole, aim: Aim, taken: Taken, bound: float, moves: int, draw: np.random.Generator
) -> Iterator[Sharing]:
    """Plans with bars filled up ever tighter; what is left over goes short, longest first, or into the bars kept."""
    bars = [int(b) for b in np.repeat(np.arange(len(taken.lost)), taken.lost)]
    singles = [i for i, n in enumerate(whole.wants) for _ in range(n)][aim.most_short :]
    if not bars or not singles:
        return
    unit = max(whole.rooms) // COARSE + 1
    most = int((bound - taken.fixed(whole)) / whole.worth) // unit if taken.kept.any() else 0
    sizes = [-(-whole.cuts[i] // unit) for i in singles]
    for held, left in tightened(sizes, [whole.rooms[b] // unit for b in bars], most, moves, draw):
        if left and not taken.kept.any():
            continue
        plan = _rest(whole, aim, taken, bars, [tuple(sorted(Counter(singles[k] for k in one).items())) for one in held])
        if plan is not None and plan.missing <= aim.most_short:
            yield plan


def wanted(whole: Whole, aim: Aim) -> int:
    """All cuts end to end but those that may be short, the longest of them."""
    return sum(cut * n for cut, n in zip(whole.cuts, whole.wants, strict=True)) - longest(whole, aim.most_short)


def _waste(whole: Whole, aim: Aim, taken: Taken, rooms: list[int], goal: float | None) -> int:
    """What may be wasted of these rooms: so much that a cost is reached, or (None) what no cut needs."""
    more = 0.0 if goal is None else (goal - taken.fixed(whole)) / whole.worth
    return int(sum(rooms) - wanted(whole, aim) + more + 1e-6)


def longest(whole: Whole, count: int) -> int:
    """The longest cuts end to end."""
    total = 0
    for cut, want in zip(whole.cuts, whole.wants, strict=True):
        total += cut * min(want, count)
        count -= min(want, count)
    return total


def _rest(whole: Whole, aim: Aim, taken: Taken, bars: Sequence[int], patterns: Sequence[Pattern]) -> Sharing | None:
    """The plan where what is left goes short, longest first, or into the bars kept, fullest first; None: no room."""
    bins = taken.bins()
    loads = [Load(b, pattern) for b, pattern in zip((*bars, *bins), patterns, strict=False)]
    if len(patterns) > len(bars):
        plan = shared(whole, loads)
        return plan if plan.missing <= aim.most_short else None
    wants = shared(whole, loads).short
    left = [i for i, n in enumerate(wants) for _ in range(n)][aim.most_short :]
    held: list[tuple[int, dict[int, int]]] = [(b, {}) for b in bins]
    free = [kept_rooms(whole)[b] for b in bins]
    for i in left:
        at = min((k for k, room in enumerate(free) if room >= whole.cuts[i]), key=lambda k: free[k], default=None)
        if at is None:
            return None
        free[at] -= whole.cuts[i]
        held[at][1][i] = held[at][1].get(i, 0) + 1
    return shared(whole, (*loads, *(Load(b, tuple(sorted(h.items()))) for b, h in held)))
