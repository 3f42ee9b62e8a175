"""A second look at a cutting plan, in exact fractions, that knows nothing of how it was found."""

from collections import Counter
from collections.abc import Sequence
from fractions import Fraction
from itertools import combinations

from bickern.geometry.pack.lengths.asked import Bar, Cut, Saw
from bickern.geometry.pack.lengths.result import Filled, LengthPlan

NANO = Fraction(1, 10**9)
"""Lengths are taken to the nearest of these [m], as the tool says it does."""


def exact(metres: float) -> Fraction:
    return round(Fraction(metres) / NANO) * NANO


def drop(length: Fraction, cuts: Sequence[Fraction], saw: Saw) -> Fraction | None:
    """What is left of a bar; None where the cuts do not fit.

    Cuts are sawn off one end. Behind each there is a kerf, but behind one that leaves less than a kerf the saw only
    takes the rest; where there is a grip the last kerf stays clear of it.
    """
    kerf, grip = exact(saw.kerf), exact(saw.grip)
    left = length - sum(cuts, Fraction(0)) - kerf * (len(cuts) - 1)
    if left < 0:
        return None
    if grip:
        return left - kerf if left - kerf >= grip else None
    return max(Fraction(0), left - kerf)


def faults(cuts: Sequence[Cut], bars: Sequence[Bar], saw: Saw, plan: LengthPlan) -> list[str]:
    """All that is wrong with a plan."""
    lengths = {cut.key: exact(cut.length) for cut in cuts}
    stock = {bar.key: bar for bar in bars}
    says = []
    placed = Counter(key for filled in plan.filled for key in filled.cuts)
    short = Counter(dict(plan.short))
    says += [f"{cut.key} is lost or made up" for cut in cuts if placed[cut.key] + short[cut.key] != cut.count]
    says += [f"{key} was never asked" for key in (placed + short) if key not in lengths]
    taken = Counter(filled.bar for filled in plan.filled)
    says += [f"{k} is taken {n} times" for k, n in taken.items() if stock[k].count is not None and n > stock[k].count]
    cost = 0.0
    for filled in plan.filled:
        says += _bar_faults(filled, stock[filled.bar], lengths, saw)
        kept = saw.keep_from > 0 and filled.drop >= saw.keep_from - 1e-12
        cost += stock[filled.bar].cost - (saw.drop_worth * filled.drop if kept else 0.0)
    if abs(cost - plan.cost) > 1e-9 * max(1.0, abs(cost)):
        says.append(f"its cost is {cost}, not {plan.cost}")
    if plan.bound > plan.cost + 1e-9 * max(1.0, abs(cost)):
        says.append(f"its bound {plan.bound} is above its cost {plan.cost}")
    if plan.proven and (plan.why or plan.bound < plan.cost - 1e-9 * max(1.0, abs(cost))):
        says.append("it is called proven, and bound and cost are apart")
    if not plan.proven and not plan.why:
        says.append("it is not proven and does not say why")
    return says


def _bar_faults(filled: Filled, bar: Bar, lengths: dict[str, Fraction], saw: Saw) -> list[str]:
    if not filled.cuts:
        return [f"{bar.key} carries nothing"]
    sizes = [lengths[key] for key in filled.cuts]
    left = drop(exact(bar.length), sizes, saw)
    if left is None:
        return [f"{bar.key} is too short for its cuts"]
    says = [] if sizes == sorted(sizes, reverse=True) else [f"the cuts of {bar.key} are not longest first"]
    return says if abs(float(left) - filled.drop) < 1e-12 else [*says, f"the drop of {bar.key} is {float(left)}"]


# ---- all plans of a small problem


def best(cuts: Sequence[Cut], bars: Sequence[Bar], saw: Saw) -> tuple[int, float]:
    """Fewest short, and the least cost with so few: every way to share out the cuts is tried."""
    sizes = [exact(cut.length) for cut in cuts for _ in range(cut.count)]
    stock = [bar for bar in bars for _ in range(len(sizes) if bar.count is None else min(bar.count, len(sizes)))]
    plans = {frozenset(range(len(sizes))): 0.0}  # the cuts that are left, and the least cost so far
    for bar in stock:
        plans = _one_more(plans, sizes, bar, saw)
    fewest = min(len(left) for left in plans)
    return fewest, min(cost for left, cost in plans.items() if len(left) == fewest)


def _one_more(
    plans: dict[frozenset[int], float], sizes: Sequence[Fraction], bar: Bar, saw: Saw
) -> dict[frozenset[int], float]:
    more = dict(plans)
    for left, cost in plans.items():
        for n in range(1, len(left) + 1):
            for some in combinations(sorted(left), n):
                rest = drop(exact(bar.length), [sizes[i] for i in some], saw)
                if rest is None:
                    continue
                kept = saw.keep_from > 0 and rest >= exact(saw.keep_from)
                now = cost + bar.cost - (saw.drop_worth * float(rest) if kept else 0.0)
                key = left.difference(some)
                more[key] = min(now, more.get(key, now))
    return more
