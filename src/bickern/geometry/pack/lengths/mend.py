"""A plan made better a few bars at a time: their cuts are shared out anew, the bars left over at hand."""

from collections.abc import Callable

import numpy as np

from bickern.geometry.pack.lengths.dive import fitting, left
from bickern.geometry.pack.lengths.linear import Relaxed
from bickern.geometry.pack.lengths.patterns import table, walk
from bickern.geometry.pack.lengths.solver import Aim, chosen, column_costs
from bickern.geometry.pack.lengths.whole import Load, Sharing, Whole, load_cost, shared, slack

FEW = 1500
"""Patterns that one sharing out anew may look at."""
SECONDS = 0.4
"""Time of the solver for one."""
IDLE = 25
"""Tries without gain after which no more are made."""


def mended(whole: Whole, plan: Sharing, lower: Relaxed, seed: int, tries: int, told: Callable[[Sharing], None]) -> Sharing:
    """The plan after so many tries at most."""
    draw = np.random.default_rng(seed)
    bars, idle = 4, 0
    for _ in range(tries):
        singles = [Load(load.bar, load.pattern) for load in plan.loads for _ in range(load.times)]
        if len(singles) < 2:
            return plan
        size = min(bars, len(singles))
        waste = np.array([_waste(whole, lower, load) for load in singles])
        picked = draw.choice(len(singles), size, replace=False, p=(waste + waste.mean() + 1e-12) / (waste + waste.mean() + 1e-12).sum())
        found = _anew(whole, singles, {int(k) for k in picked}, lower)
        if found is None:
            bars = max(2, bars - 1)
            idle += 1
        elif found.better_than(plan):
            plan, idle = found, 0
            told(plan)
        else:
            idle += 1
            bars = min(bars + (idle % 4 == 0), 9)
        if idle >= IDLE:
            break
    return plan


def _waste(whole: Whole, lower: Relaxed, load: Load) -> float:
    """What a load costs more than its cuts are worth."""
    bar = max(whole.costs[load.bar], float(lower.tops[load.bar]))
    worth = sum(float(lower.worths[i]) * n for i, n in load.pattern)
    return max(0.0, bar - (whole.costs[load.bar] - load_cost(whole, load.bar, load.pattern)) - worth)


def _anew(whole: Whole, singles: list[Load], picked: set[int], lower: Relaxed) -> Sharing | None:
    """The plan with the picked bars shared out anew; None where there are too many ways."""
    kept = [load for k, load in enumerate(singles) if k not in picked]
    taken = [load for k, load in enumerate(singles) if k in picked]
    counts = np.array(whole.counts)
    wants = np.zeros(len(whole.wants), dtype=np.int64)
    for load in kept:
        counts[load.bar] -= 1
    for load in taken:
        for i, n in load.pattern:
            wants[i] += n
    rest = left(whole, wants, counts)
    old = sum(load_cost(whole, load.bar, load.pattern) for load in taken)
    gap = sum(_waste(whole, lower, load) for load in taken)
    needs = lower.within(whole, gap - (whole.step * 0.5 or slack(old)))
    needs[counts <= 0] = np.inf
    columns = walk(rest, table(rest, lower.worths), needs, most=FEW, lean=not whole.worth)
    if columns is None:
        return None
    below = old - (whole.step * 0.5 or slack(old))
    found = chosen(rest, columns, Aim(), below, SECONDS)
    if found.times is None:
        return shared(whole, singles)
    loads = list(fitting(columns, enumerate(found.times), wants, counts))
    return shared(whole, [*kept, *loads])
