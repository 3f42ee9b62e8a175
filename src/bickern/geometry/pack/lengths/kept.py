"""The whole-number programme where it is given which bars are taken, and whether their drops are kept.

Only for those to be filled up are there patterns; cuts go into the others (and go short) one by one.
"""

from typing import Any

import numpy as np

from bickern.geometry.pack.lengths.given import Taken
from bickern.geometry.pack.lengths.patterns import Columns, Ints
from bickern.geometry.pack.lengths.solver import BARE, Aim, Means, add_columns, quiet, run_whole, whole_bound
from bickern.geometry.pack.lengths.whole import Load, Sharing, Whole, kept_rooms, shared, slack


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


def whole_numbers(
    whole: Whole, aim: Aim, taken: Taken, columns: Columns, limit: float, means: Means
) -> tuple[Sharing | None, float, bool]:
    """The best plan of these patterns under a limit, the bound, and whether the search was through."""
    highs = _model(whole, aim, taken)
    first = highs.getNumCol()
    add_columns(highs, columns, np.zeros(len(columns)), len(whole.cuts))
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
