"""How often each pattern is used: the whole-number programme over patterns that are there."""

from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from bickern.geometry.pack.lengths.patterns import Columns
from bickern.geometry.pack.lengths.solver import Aim, Means, add_columns, column_costs, quiet, run_whole, whole_bound
from bickern.geometry.pack.lengths.whole import Whole, kept_rooms, slack


@dataclass(frozen=True, slots=True)
class Chosen:
    """How often each pattern is used (None: nothing better), the bound, and whether the search was through."""

    times: tuple[int, ...] | None
    bound: float
    through: bool


def chosen(whole: Whole, columns: Columns, aim: Aim, below: float, means: Means) -> Chosen:
    """The whole-number use of these patterns that costs least, and less than `below`.

    Bars are counted by variables of their own, those whose drop is kept apart, and all bars together must be long
    enough: the solver finds its best cuts there, since what is taken decides the cost.
    """
    highs = quiet()
    _rows(highs, whole, aim)
    drops = column_costs(replace(whole, costs=(0.0,) * len(whole.costs)), columns)
    of_kind = Columns(columns.bars + len(whole.rooms) * (drops < 0.0), columns.counts)
    add_columns(highs, of_kind, drops, len(whole.cuts))
    _counters(highs, whole)
    if aim.most_short:
        _shorts(highs, whole, aim)
    gap = 0.5 * whole.step if whole.step else slack(below)
    state = run_whole(highs, range(highs.getNumCol()), gap, below, means)
    if state in ("kInfeasible", "kObjectiveBound"):
        return Chosen(None, float("inf"), True)
    if highs.getInfo().primal_solution_status != 2:
        return Chosen(None, whole_bound(highs), False)
    times = np.rint(np.array(highs.getSolution().col_value[: len(columns)])).astype(int)
    return Chosen(tuple(int(n) for n in times), whole_bound(highs), state == "kOptimal")


def _rows(highs: Any, whole: Whole, aim: Aim) -> None:
    """Cuts, bars by kind, bars of each kind with drops kept, bars together, cuts short, and length."""
    for want in whole.wants:
        highs.addRow(float(want), highs.inf, 0, [], [])
    for _ in range(2 * len(whole.rooms)):
        highs.addRow(0.0, 0.0, 0, [], [])
    for count in whole.counts:
        highs.addRow(-highs.inf, float(count), 0, [], [])
    highs.addRow(-highs.inf, float(aim.most_short), 0, [], [])
    need = sum(cut * want for cut, want in zip(whole.cuts, whole.wants, strict=True)) / max(whole.rooms)
    highs.addRow(need * (1.0 - 1e-12), highs.inf, 0, [], [])


def _counters(highs: Any, whole: Whole) -> None:
    """How many bars of each kind are taken, drops lost, then drops kept."""
    cuts, bars = len(whole.wants), len(whole.rooms)
    last = cuts + 3 * bars + 1
    for b, room in enumerate(whole.rooms + kept_rooms(whole)):
        index = [cuts + b, cuts + 2 * bars + b % bars, last]
        most = float(whole.counts[b % bars]) if room >= 0 else 0.0
        highs.addCol(whole.costs[b % bars], 0.0, most, 3, index, [-1.0, 1.0, room / max(whole.rooms)])


def _shorts(highs: Any, whole: Whole, aim: Aim) -> None:
    """How many of each cut are short."""
    row = len(whole.wants) + 3 * len(whole.rooms)
    for i, (cut, want) in enumerate(zip(whole.cuts, whole.wants, strict=True)):
        highs.addCol(aim.short_cost, 0.0, float(want), 3, [i, row, row + 1], [1.0, 1.0, cut / max(whole.rooms)])
