"""A plan made better a few bars at a time: their cuts are shared out anew, the bars left over at hand."""

from collections.abc import Sequence

import numpy as np

from bickern.geometry.pack.lengths.dive import fitting, left
from bickern.geometry.pack.lengths.linear import Relaxed
from bickern.geometry.pack.lengths.patterns import table, walk
from bickern.geometry.pack.lengths.search import Search
from bickern.geometry.pack.lengths.solver import Aim, Means
from bickern.geometry.pack.lengths.use import chosen
from bickern.geometry.pack.lengths.whole import Load, Sharing, Whole, load_cost, shared, slack

FEW = 500
"""Patterns that one sharing out anew may look at."""
MEANS = Means(50, 1.0)
"""What one may use up."""
IDLE = 10
"""Tries without gain after which no more are made."""
MOST = 9
"""Bars that are shared out anew at once, at most."""


def mended(at: Search, lower: Relaxed, tries: int) -> None:
    """Keeps every better plan that so many tries find; another number of tries draws other bars."""
    whole, aim, plan = at.whole, at.aim, at.plan
    draw = np.random.default_rng(tries)
    bars, idle = 4, 0
    for _ in range(tries):
        singles = [Load(load.bar, load.pattern) for load in plan.loads for _ in range(load.times)]
        size = min(bars, len(singles))
        chance = np.array([_waste(whole, lower, load) for load in singles])
        chance += chance.mean() + 1e-12
        picked = draw.choice(len(singles), size, replace=False, p=chance / chance.sum())
        found = _anew(whole, aim, plan, singles, {int(k) for k in picked}, lower)
        idle += 1
        if found is None:
            bars = max(2, bars - 1)
        elif found.better_than(plan):
            plan, idle = found, 0
            at.better(plan)
            if at.enough:
                return
        elif idle % 4 == 0:
            bars = min(bars + 1, MOST)
        if idle >= max(IDLE, tries // 4) or (found is not None and size == len(singles)):
            return


def _waste(whole: Whole, lower: Relaxed, load: Load) -> float:
    """What a load costs more than its cuts are worth."""
    surplus = max(0.0, float(lower.tops[load.bar]) - whole.costs[load.bar])
    worth = sum(float(lower.worths[i]) * n for i, n in load.pattern)
    return max(0.0, load_cost(whole, load.bar, load.pattern) + surplus - worth)


def _anew(
    whole: Whole, aim: Aim, plan: Sharing, singles: Sequence[Load], picked: set[int], lower: Relaxed
) -> Sharing | None:
    """The plan with the picked bars shared out anew; None where there are too many ways."""
    kept = [load for k, load in enumerate(singles) if k not in picked]
    taken = [load for k, load in enumerate(singles) if k in picked]
    counts, wants = np.array(whole.counts), np.array(plan.short)
    for load in kept:
        counts[load.bar] -= 1
    for load in taken:
        for i, n in load.pattern:
            wants[i] += n
    rest = left(whole, wants, counts)
    below = sum(load_cost(whole, load.bar, load.pattern) for load in taken) - (0.5 * whole.step or slack(plan.cost))
    gap = sum(_waste(whole, lower, load) for load in taken) - (0.5 * whole.step or slack(plan.cost))
    gap -= sum((float(lower.worths[i]) + lower.short) * n for i, n in enumerate(plan.short))
    needs = lower.within(whole, gap)
    needs[counts <= 0] = np.inf
    columns = walk(rest, table(rest, lower.worths), needs, most=FEW, lean=not whole.worth)
    if columns is None:
        return None
    found = chosen(rest, columns, aim, below, MEANS)
    if found.times is None:
        return plan
    return shared(whole, [*kept, *fitting(columns, enumerate(found.times), wants, counts)])
