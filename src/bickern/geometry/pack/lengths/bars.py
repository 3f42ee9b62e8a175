"""Which bars to take, before which cut goes where: a bound that knows no bar is taken in part.

Whatever the worths of the cuts, a bar carries no more than its best pattern. So the bars taken must, for each list of
worths, carry the worth of all cuts (less those short, and with what their drops take off the cost): a small
whole-number programme over bars alone, which grows a row with every choice of bars that turns out too small.
"""

from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from bickern.geometry.pack.lengths.patterns import Floats, Ints, table, tops
from bickern.geometry.pack.lengths.solver import Aim, Means, quiet, run_whole, whole_bound
from bickern.geometry.pack.lengths.whole import Whole, kept_rooms, slack

MEANS = Means(3000, 2.0)
"""What one choice may use up."""


@dataclass(frozen=True, slots=True)
class Carried:
    """Worths of the cuts, and the most that a bar of each kind carries, its drop lost or kept with it."""

    worths: Floats
    lost: Floats
    kept: Floats


@dataclass(frozen=True, slots=True)
class Choice:
    """The cheapest bars that may do (None: there are none below the limit), and the bound."""

    counts: Ints | None
    bound: float


def carried(whole: Whole, worths: Floats) -> Carried:
    """What bars carry of such worths.

    Where a drop is kept, each unit used takes its worth off the drop: the worths of the cuts are less by that.
    """
    bare = replace(whole, worth=0.0)
    lost = tops(bare, table(bare, worths))
    if not whole.worth:
        return Carried(worths, lost, lost)
    under = table(bare, np.maximum(worths - whole.worth * np.array(whole.cuts), 0.0))
    kept = [
        whole.worth * (room + whole.spare) + float(under.left[0][rest // under.cell]) if rest >= 0 else 0.0
        for room, rest in zip(whole.rooms, kept_rooms(whole), strict=True)
    ]
    return Carried(worths, lost, np.array(kept))


def choice(whole: Whole, aim: Aim, rows: list[Carried], barred: list[Ints], below: float) -> Choice:
    """The cheapest bars that carry every list of worths, and are no part of any choice that is barred."""
    highs = quiet()
    inf = highs.inf
    bars, cuts = len(whole.rooms), len(whole.cuts)
    keeping = [float(n) if rest >= 0 else 0.0 for n, rest in zip(whole.counts, kept_rooms(whole), strict=True)]
    for cost, count in zip(whole.costs * 2, (*whole.counts, *keeping), strict=True):
        highs.addCol(cost, 0.0, float(count), 0, [], [])
    highs.addCol(-1.0, 0.0, inf if whole.worth else 0.0, 0, [], [])
    for want in whole.wants:
        highs.addCol(0.0, 0.0, float(want) if aim.most_short else 0.0, 0, [], [])
    index = np.arange(2 * bars + 1 + cuts, dtype=np.int32)
    highs.addRow(-inf, float(aim.most_short), cuts, index[2 * bars + 1 :], np.ones(cuts))
    for b, count in enumerate(whole.counts):
        highs.addRow(-inf, float(count), 2, [b, bars + b], [1.0, 1.0])
    for row in rows:
        scale = 1.0 / max(float(row.lost.max()), float(row.kept.max()), 1e-9)
        need = float(row.worths @ np.array(whole.wants)) * scale
        values = np.concatenate((row.lost, row.kept, [-1.0], row.worths)) * scale
        highs.addRow(need - 1e-9 * abs(need), inf, len(index), index, values)
    whole_numbers = list(range(2 * bars))
    for counts in barred:
        whole_numbers += _bar(highs, whole, counts)
    state = run_whole(highs, whole_numbers, 0.5 * whole.step or slack(below), below, MEANS)
    if state in ("kInfeasible", "kObjectiveBound"):
        return Choice(None, below)
    if state != "kOptimal":
        return Choice(None, whole_bound(highs))
    taken = np.rint(np.array(highs.getSolution().col_value[: 2 * bars])).astype(np.int64)
    return Choice(taken[:bars] + taken[bars:], whole_bound(highs))


def _bar(highs: Any, whole: Whole, counts: Ints) -> list[int]:
    """Rows that ask for at least one bar more, of some kind, than a choice that is barred; their new variables."""
    new: list[int] = []
    bars = len(whole.rooms)
    for b, (n, most) in enumerate(zip(counts, whole.counts, strict=True)):
        if n < most:
            new.append(highs.getNumCol())
            highs.addCol(0.0, 0.0, 1.0, 0, [], [])
            highs.addRow(0.0, float(most), 3, [b, bars + b, new[-1]], [1.0, 1.0, -float(n + 1)])
    highs.addRow(1.0, float(max(1, len(new))), len(new), new, np.ones(len(new)))
    return new
