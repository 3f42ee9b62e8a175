"""The best plan with bars that are given: which are taken, and whether their drops are kept.

Only for those to be filled up are there patterns; cuts go into the others (and go short) one by one.
"""

from dataclasses import dataclass
from typing import Any

import numpy as np

from bickern.geometry.pack.lengths.given import Known, Lower, Taken, dummy, lowest
from bickern.geometry.pack.lengths.patterns import Columns, Floats, Ints, table, tops, walk
from bickern.geometry.pack.lengths.plans import best_filled, longest
from bickern.geometry.pack.lengths.solver import BARE, Aim, Means, quiet, run_whole, whole_bound
from bickern.geometry.pack.lengths.whole import Load, Sharing, Whole, kept_rooms, shared, slack

TURNS = 4
"""Orders of bars and cuts in which bars are filled besides the usual ones, for an effort of 1."""
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
    plan = best_filled(whole, aim, taken, lower.bound, limit, TURNS * max(1, effort))
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


# ---- patterns


def _within(whole: Whole, aim: Aim, lower: Lower, limit: float, taken: Taken, many: int) -> Columns | None:
    """All patterns that a plan under the limit can have; None where there are too many."""
    gap = limit - lower.bound + slack(limit)
    needs = np.where(taken.lost > 0, lower.tops - gap, np.inf)
    bare = taken.to_fill(whole)
    if not taken.kept.any():
        lengths = np.array(whole.cuts, dtype=np.float64)
        values = table(bare, lengths)
        most = tops(bare, values)
        over = float(most @ taken.lost - lengths @ np.array(whole.wants)) + longest(whole, aim.most_short)
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
