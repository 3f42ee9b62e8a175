"""The best plan with bars that are given: which are taken, and whether their drops are kept.

Only for those to be filled up are there patterns; cuts go into the others (and go short) one by one.
"""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

import numpy as np

from bickern.geometry.pack.lengths.fill import Looks, filled
from bickern.geometry.pack.lengths.given import Known, Lower, Taken, dummy, lowest
from bickern.geometry.pack.lengths.patterns import Columns, Floats, Ints, table, tops, walk
from bickern.geometry.pack.lengths.sums import grain
from bickern.geometry.pack.lengths.solver import BARE, Aim, Means, quiet, run_whole, whole_bound
from bickern.geometry.pack.lengths.tight import tightened
from bickern.geometry.pack.lengths.whole import Load, Pattern, Sharing, Whole, kept_rooms, shared, slack

LOOKS = 1500
"""Bars filled, at most, for a plan without a solver, from one order of bars and cuts."""
FEWEST = 40
COARSE = 100_000
"""Lengths that are told apart there, at most."""
LONG = 800
MOVES = 300
"""Times that a few bars are shared out anew without gain, for an effort of 1."""
MANY = 2500
"""Patterns that a proof may look at, for an effort of 1."""
FEW = 150
"""As many are looked at without an effort."""
NODES = 200
"""Nodes of the solver's tree, for an effort of 1."""


@dataclass(frozen=True, slots=True)
class Inside:
    """The best plan found (None: none under the limit), the bound, whether all was looked through; worths of cuts."""

    plan: Sharing | None
    bound: float
    through: bool
    worths: Floats


def inside(whole: Whole, aim: Aim, taken: Taken, known: Known, limit: float, effort: int) -> tuple[Inside, Known]:
    """The best plan with just these bars that costs at most `limit`; and the patterns known now.

    `effort`: 0 for a first look, more for longer ones.
    """
    lower, known = lowest(whole, aim, taken, known)
    worths = lower.values.worths
    if not taken.kept.any() and lower.bound > taken.fixed(whole) + 1e-4 * dummy(whole):
        return Inside(None, float("inf"), True, worths), known  # worths a hundred times these do as well
    if lower.bound > limit:
        return Inside(None, lower.bound, True, worths), known
    moves = MOVES * effort if effort else LONG if sum(whole.wants) > FEWEST else 0
    plan = _filled(whole, aim, taken, lower.bound, limit, effort, moves)
    if plan is not None:
        if plan.cost <= lower.bound + (0.5 * whole.step or slack(lower.bound)):
            return Inside(plan, lower.bound, True, worths), known
        limit = min(limit, plan.cost - (0.5 * whole.step or slack(plan.cost)))
    columns = _within(whole, aim, lower, limit, taken, MANY * effort or FEW)
    many = columns is None
    if columns is None:
        if not effort:
            return Inside(plan, lower.bound, False, worths), known
        columns = _some(taken.to_fill(whole), lower, limit)
    found, bound, through = _whole_numbers(
        whole, aim, taken, columns, limit, Means(NODES * max(1, effort), 0.5 * max(1, effort))
    )
    if found is not None and (plan is None or found.better_than(plan)):
        plan = found
    bound = lower.bound if many else max(lower.bound, bound)
    return Inside(plan, bound, through and not many, worths), known


# ---- plans


def packed(whole: Whole, aim: Aim, taken: Taken, limit: float) -> Sharing | None:
    """The best plan with just these bars that costs at most `limit`, found by filling them up; no proof of anything."""
    room = sum(room * int(n) for room, n in zip(whole.rooms, taken.lost, strict=True))
    rest = sum(cut * n for cut, n in zip(whole.cuts, whole.wants, strict=True)) - _longest(whole, aim.most_short) - room
    return _filled(whole, aim, taken, taken.fixed(whole) + whole.worth * max(0, rest), limit, 1, LONG)


def _filled(
    whole: Whole, aim: Aim, taken: Taken, bound: float, limit: float, effort: int, moves: int
) -> Sharing | None:
    """The best plan found by filling up bars one after another, from several orders of bars and cuts."""
    singles = np.repeat(np.arange(len(taken.lost)), taken.lost)[::-1]
    sorts = np.arange(len(whole.cuts))
    draw = np.random.default_rng(effort)
    kept, first = bool(taken.kept.any()), 3 if taken.kept.any() else 1
    best: Sharing | None = None
    for turn in range(first + 4 * effort):
        if turn >= first:
            singles, sorts = draw.permutation(singles), draw.permutation(sorts)
        order, with_kept = [int(b) for b in singles], kept and turn % 3 == 1
        rooms, goal = [whole.rooms[b] for b in order], limit if turn % 3 else bound
        rooms += [kept_rooms(whole)[b] for b in taken.bins()] if with_kept else []
        waste = _waste(whole, aim, taken, rooms, goal if kept and not with_kept else None)
        looks = Looks(LOOKS * (1 + effort) // max(1, len(rooms)))
        unit = grain(max(rooms, default=0))
        sizes = [-(-whole.cuts[i] // unit) for i in sorts]
        rounded = 0 if unit == 1 else sum(whole.wants) + len(rooms)
        found = filled(sizes, [whole.wants[i] for i in sorts], [r // unit for r in rooms], waste // unit + rounded, looks)
        if found is None:
            continue
        patterns = [tuple(sorted((int(sorts[i]), n) for i, n in pattern)) for pattern in found]
        plan = _rest(whole, aim, taken, order, patterns)
        if plan is not None and plan.cost <= limit + slack(limit):
            best, limit = plan, plan.cost - (0.5 * whole.step or slack(plan.cost))
            if limit < bound:
                return best
    for plan in _tightened(whole, aim, taken, bound, moves, draw) if moves else ():
        if plan.cost <= limit + slack(limit):
            best, limit = plan, plan.cost - (0.5 * whole.step or slack(plan.cost))
            if limit < bound:
                break
    return best


def _tightened(
    whole: Whole, aim: Aim, taken: Taken, bound: float, moves: int, draw: np.random.Generator
) -> Iterator[Sharing]:
    """Plans with bars filled up ever tighter; what is left over goes short, longest first, or into the bars kept."""
    order = [int(b) for b in np.repeat(np.arange(len(taken.lost)), taken.lost)]
    singles = [i for i, n in enumerate(whole.wants) for _ in range(n)][aim.most_short :]
    if not order or not singles:
        return
    unit = max(1, max(whole.rooms) // COARSE)
    most = int((bound - taken.fixed(whole)) / whole.worth) // unit if taken.kept.any() else 0
    sizes = [-(-whole.cuts[i] // unit) for i in singles]
    for held, left in tightened(sizes, [whole.rooms[b] // unit for b in order], most, moves, draw):
        if left and not taken.kept.any():
            continue
        patterns = [tuple(sorted(Counter(singles[k] for k in cuts).items())) for cuts in held]
        plan = _rest(whole, aim, taken, order, patterns)
        if plan is not None and plan.missing <= aim.most_short:
            yield plan


def _waste(whole: Whole, aim: Aim, taken: Taken, rooms: list[int], goal: float | None) -> int:
    """What may be wasted of these rooms: so much that a cost is reached, or (None) what no cut needs."""
    cut = sum(cut * n for cut, n in zip(whole.cuts, whole.wants, strict=True)) - _longest(whole, aim.most_short)
    more = 0.0 if goal is None else (goal - taken.fixed(whole)) / whole.worth
    return int(sum(rooms) - cut + more + 1e-6)


def _longest(whole: Whole, count: int) -> int:
    """The longest cuts end to end."""
    total = 0
    for cut, want in zip(whole.cuts, whole.wants, strict=True):
        total += cut * min(want, count)
        count -= min(want, count)
    return total


def _rest(whole: Whole, aim: Aim, taken: Taken, order: list[int], patterns: list[Pattern]) -> Sharing | None:
    """The plan where what is left goes short, longest first, or into the bars kept, fullest first; None: no room."""
    bins = taken.bins()
    loads = [Load(b, pattern) for b, pattern in zip((*order, *bins), patterns, strict=False)]
    if len(patterns) > len(order):
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


def _within(whole: Whole, aim: Aim, lower: Lower, limit: float, taken: Taken, many: int) -> Columns | None:
    """All patterns that a plan under the limit can have; None where there are too many."""
    gap = limit - lower.bound + slack(limit)
    needs = np.where(taken.lost > 0, lower.tops - gap, np.inf)
    bare = taken.to_fill(whole)
    if not taken.kept.any():
        lengths = np.array(whole.cuts, dtype=np.float64)
        values = table(bare, lengths)
        most = tops(bare, values)
        over = float(most @ taken.lost - lengths @ np.array(whole.wants)) + _longest(whole, aim.most_short)
        by_length = walk(bare, values, np.where(taken.lost > 0, most - over - 1e-6, np.inf), most=many)
        if by_length is not None:
            return by_length
    return walk(bare, lower.values, needs, most=many)


def _some(bare: Whole, lower: Lower, limit: float) -> Columns:
    """Good patterns, where there are too many to take all."""
    needs = np.where(np.array(bare.counts) > 0, lower.tops - (limit - lower.bound) - slack(limit), np.inf)
    found = walk(bare, lower.values, needs, width=150)
    assert found is not None  # no limit was given
    return found


def _model(whole: Whole, aim: Aim, taken: Taken) -> Any:
    """Rows: cuts, kinds of bars to be filled up, bars kept (length, then at least one cut), cuts short.

    Columns: cuts short, cuts in each bar kept.
    """
    highs = quiet()
    cuts, kinds, bins = len(whole.cuts), len(whole.rooms), taken.bins()
    room = kept_rooms(whole)
    for want in whole.wants:
        highs.addRow(float(want), highs.inf, 0, [], [])
    for n in taken.lost:
        highs.addRow(-highs.inf, float(n), 0, [], [])
    for _ in bins:
        highs.addRow(-highs.inf, 1.0, 0, [], [])
        highs.addRow(1.0, highs.inf, 0, [], [])
    highs.addRow(-highs.inf, float(aim.most_short), 0, [], [])
    last = cuts + kinds + 2 * len(bins)
    for i, want in enumerate(whole.wants):
        if aim.most_short:
            highs.addCol(0.0, 0.0, float(want), 2, [i, last], [1.0, 1.0])
        for k, b in enumerate(bins):
            if whole.cuts[i] <= room[b]:
                at = cuts + kinds + 2 * k
                n = min(want, room[b] // whole.cuts[i])
                part = whole.cuts[i] / room[b]
                highs.addCol(whole.worth * whole.cuts[i], 0.0, float(n), 3, [i, at, at + 1], [1.0, part, 1.0])
    return highs


def _add(highs: Any, whole: Whole, columns: Columns) -> None:
    """Patterns of bars to be filled up."""
    cuts = len(whole.cuts)
    for b, row in zip(columns.bars, columns.counts, strict=True):
        held = np.flatnonzero(row)
        index = np.append(held, cuts + b).astype(np.int32)
        highs.addCol(0.0, 0.0, highs.inf, len(index), index, np.append(row[held], 1).astype(np.float64))


def _whole_numbers(
    whole: Whole, aim: Aim, taken: Taken, columns: Columns, limit: float, means: Means
) -> tuple[Sharing | None, float, bool]:
    """The best plan of these patterns under a limit, the bound, and whether the search was through."""
    highs = _model(whole, aim, taken)
    first = highs.getNumCol()
    _add(highs, whole, columns)
    fixed = taken.fixed(whole)
    state = run_whole(highs, range(highs.getNumCol()), 0.5 * whole.step or slack(limit), limit - fixed, means, **BARE)
    if state in ("kInfeasible", "kObjectiveBound"):
        return None, float("inf"), True
    if highs.getInfo().primal_solution_status != 2:
        return None, whole_bound(highs) + fixed, False
    times = np.rint(np.array(highs.getSolution().col_value)).astype(int)
    plan = _read(whole, aim, taken, columns, times, first)
    return plan, whole_bound(highs) + fixed, state == "kOptimal"


def _read(whole: Whole, aim: Aim, taken: Taken, columns: Columns, times: Ints, first: int) -> Sharing:
    """A plan from the values of the model's columns."""
    wants = np.array(whole.wants)
    loads = []
    for c in np.flatnonzero(times[first:]):
        for _ in range(int(times[first + c])):
            row = np.minimum(columns.counts[c], wants)
            wants = wants - row
            loads.append(Load(int(columns.bars[c]), tuple((int(i), int(row[i])) for i in np.flatnonzero(row))))
    bins, room = taken.bins(), kept_rooms(whole)
    held: list[dict[int, int]] = [{} for _ in bins]
    at = 0
    for i in range(len(whole.wants)):
        at += 1 if aim.most_short else 0
        for k, b in enumerate(bins):
            if whole.cuts[i] <= room[b]:
                n = min(int(times[at]), int(wants[i]))
                at += 1
                if n:
                    held[k][i] = n
                    wants[i] -= n
    return shared(whole, (*loads, *(Load(b, tuple(h.items())) for b, h in zip(bins, held, strict=True))))
