"""Bars that are filled up by their patterns, and all cuts in bars whose drops are kept counted together.

So it is not said which of these cuts lies in which of these bars: they go in by length and by number. That is a bound,
and where they do go in, bar by bar, a plan: the best one, if all patterns were at hand that it could have.
"""

from dataclasses import dataclass
from typing import Any

import numpy as np

from bickern.geometry.pack.lengths.dive import fitting
from bickern.geometry.pack.lengths.given import Taken
from bickern.geometry.pack.lengths.linear import Relaxed
from bickern.geometry.pack.lengths.patterns import Columns, Floats, Table, table, walk
from bickern.geometry.pack.lengths.plans import rested
from bickern.geometry.pack.lengths.solver import BARE, SMALL, Aim, Means, add_columns, quiet, run_whole, whole_bound
from bickern.geometry.pack.lengths.whole import Sharing, Whole, bare, kept_rooms, slack

QUICK = {"mip_pscost_minreliable": 0}
"""The solver's tree is small here, and a look ahead at each of its branches takes longer than the branches."""
FIRST, NEAR = 1e-5, 0.1
"""What patterns may cost more at first, as a share of the bound; and how near the most it is to be in the end."""


@dataclass(frozen=True, slots=True)
class Pooled:
    """The bars of the best that was found (None: nothing under the limit) and its plan (None: not put together).

    And the bound, of all plans that come to no more than the limit.
    """

    taken: Taken | None
    plan: Sharing | None
    bound: float


@dataclass(frozen=True, slots=True)
class Ways:
    """Patterns of bars that are filled up, and what each costs more than it is worth."""

    columns: Columns
    over: Floats
    gap: float
    """What they cost more at most: those are all of them."""

    def within(self, gap: float) -> Columns:
        """Those that cost so little more."""
        some = self.over <= gap
        return Columns(self.columns.bars[some], self.columns.counts[some])


def ways(whole: Whole, lower: Relaxed, least: float, gap: float, many: int) -> Ways | None:
    """Of all that a plan can have which costs so little over the bound (`gap`), or of as much as is not too many.

    None: there are too many within the least of it.
    """
    alone = bare(whole)
    values = table(alone, lower.worths)
    best = _within(alone, lower, values, least, many)
    more, growing = FIRST * abs(lower.bound), True
    while best is not None and best.gap < gap and more > NEAR * (best.gap - least):
        found = _within(alone, lower, values, min(gap, best.gap + more), many)
        growing = growing and found is not None
        more *= 2.0 if growing else 0.5
        best = found or best
    if best is None:
        return None
    lost = best.columns.counts @ np.array(whole.cuts) > np.array(kept_rooms(whole))[best.columns.bars]
    columns = Columns(best.columns.bars[lost], best.columns.counts[lost])
    return Ways(columns, best.over[lost], best.gap)


def _within(alone: Whole, lower: Relaxed, values: Table, gap: float, many: int) -> Ways | None:
    """All patterns that cost so little more than they are worth, no drop kept; None: too many."""
    needs = lower.within(alone, gap)
    columns = walk(alone, values, needs, most=many)
    return None if columns is None else Ways(columns, needs[columns.bars] + gap - columns.counts @ lower.worths, gap)


def pooled(whole: Whole, aim: Aim, columns: Columns, limit: float, means: Means) -> Pooled:
    """The best with these patterns that comes to no more than the limit."""
    highs = _model(whole, aim)
    first = highs.getNumCol()
    add_columns(highs, columns, np.array(whole.costs)[columns.bars], len(whole.cuts))
    gap = 0.5 * whole.step or slack(limit)
    state = run_whole(highs, range(highs.getNumCol()), gap, limit + slack(limit), means, **BARE, **SMALL, **QUICK)
    if state in ("kInfeasible", "kObjectiveBound"):
        return Pooled(None, None, limit)
    bound = min(whole_bound(highs), limit)
    info = highs.getInfo()
    if info.primal_solution_status != 2 or info.objective_function_value > limit + gap:
        return Pooled(None, None, bound)
    values = np.rint(np.array(highs.getSolution().col_value)).astype(np.int64)
    loads = list(fitting(columns, enumerate(values[first:].tolist()), np.array(whole.wants), np.array(whole.counts)))
    singles = [(load.bar, load.pattern) for load in loads for _ in range(load.times)]
    bars = [b for b, _ in singles]
    taken = Taken(np.bincount(bars, minlength=len(whole.rooms)), values[first - len(whole.rooms) : first])
    return Pooled(taken, rested(whole, aim, taken, bars, [pattern for _, pattern in singles]), bound)


def _model(whole: Whole, aim: Aim) -> Any:
    """Rows: cuts, bars of each kind, cuts short; then what says that cuts go into bars kept.

    Columns: cuts short by sort, cuts in bars kept by sort, bars kept by kind.
    """
    highs = quiet()
    cuts, kinds, inf = len(whole.cuts), len(whole.rooms), highs.inf
    room = np.maximum(kept_rooms(whole), 0)
    for want in whole.wants:
        highs.addRow(float(want), inf, 0, [], [])
    for count in whole.counts:
        highs.addRow(-inf, float(count), 0, [], [])
    highs.addRow(-inf, float(aim.most_short), 0, [], [])
    for i, want in enumerate(whole.wants):
        highs.addCol(0.0, 0.0, float(want) if aim.most_short else 0.0, 2, [i, cuts + kinds], [1.0, 1.0])
    for i, want in enumerate(whole.wants):
        highs.addCol(whole.worth * whole.cuts[i], 0.0, float(want), 1, [i], [1.0])
    for b, count in enumerate(whole.counts):
        most = float(count) if room[b] >= min(whole.cuts) else 0.0
        highs.addCol(whole.costs[b] - whole.worth * (whole.rooms[b] + whole.spare), 0.0, most, 1, [cuts + b], [1.0])
    index = np.arange(cuts, 2 * cuts + kinds, dtype=np.int32)
    lengths = np.array(whole.cuts)
    _less(highs, index, np.concatenate((lengths, -room)) / max(whole.rooms))
    for k in range(cuts):  # bars too short for cut k have a shorter one; so many cuts as long as it go into the others
        short = (room < (lengths[k - 1] if k else inf)) & (room >= lengths[-1])
        _less(highs, index, np.concatenate((-1.0 * (np.arange(cuts) >= k), short)))
        _less(highs, index, np.concatenate((np.arange(cuts) <= k, -(room // lengths[k]))))
    return highs


def _less(highs: Any, index: Any, values: Floats) -> None:
    """A row: these come to nothing or less."""
    some = np.flatnonzero(values)
    if (values > 0.0).any():
        highs.addRow(-highs.inf, 0.0, len(some), index[some], values[some])
