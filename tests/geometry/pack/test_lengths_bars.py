"""Which bars are taken, held against all plans of small problems: what is said of all bars holds for each of them."""

import random
from itertools import product

import numpy as np
import pytest

from bickern.geometry.pack.lengths.asked import Bar, Cut, Saw
from bickern.geometry.pack.lengths.bars import carried, choice
from bickern.geometry.pack.lengths.given import Known, Taken
from bickern.geometry.pack.lengths.inside import inside
from bickern.geometry.pack.lengths.linear import relaxed
from bickern.geometry.pack.lengths.plans import placed, rested
from bickern.geometry.pack.lengths.pooled import pooled, ways
from bickern.geometry.pack.lengths.solver import Aim, Master, Means, none_of
from bickern.geometry.pack.lengths.ways import Sought, all_ways
from bickern.geometry.pack.lengths.whole import faults, kept_rooms, load_cost, named

SEEDS = range(25)


def problem(seed):
    """Up to five cuts and four bars, drops worth keeping, in whole units."""
    draw = random.Random(seed)
    cuts = [Cut(f"c{n}", draw.randint(90, 700) / 1000) for n in range(draw.randint(2, 5))]
    bars = [
        Bar(f"b{n}", length / 1000, 1, round(length / 1000 * draw.choice([0.7, 1.0]), 6))
        for n, length in enumerate(draw.randint(250, 1500) for _ in range(draw.randint(2, 4)))
    ]
    return named(cuts, bars, Saw(0.003, draw.choice([0.0, 0.05]), *draw.choice([(0.2, 0.8), (0.3, 0.5)]))).whole


def ways_to_share(whole):
    """Every way to share out the cuts: bars one by one, what each holds, and the cuts that are short."""
    singles = [i for i, want in enumerate(whole.wants) for _ in range(want)]
    stock = [b for b, count in enumerate(whole.counts) for _ in range(count)]
    for where in product(range(len(stock) + 1), repeat=len(singles)):
        held = [[i for i, at in zip(singles, where, strict=True) if at == k] for k in range(len(stock) + 1)]
        if all(sum(whole.cuts[i] for i in some) <= whole.rooms[b] for b, some in zip(stock, held, strict=False)):
            yield stock, held[:-1], held[-1]


def plans(whole):
    """Every plan: how many of each kind are taken by what becomes of their drops, how many cuts are short, the cost."""
    for stock, held, left in ways_to_share(whole):
        used = [sum(whole.cuts[i] for i in some) for some in held]
        lost, kept = np.zeros((2, len(whole.rooms)), dtype=np.int64)
        drops = cost = 0.0
        for b, some, size in zip(stock, held, used, strict=True):
            if some:
                keeps = size <= kept_rooms(whole)[b]
                (kept if keeps else lost)[b] += 1
                drops += whole.worth * (whole.rooms[b] - size + whole.spare) * keeps
                cost += load_cost(whole, b, tuple((i, some.count(i)) for i in sorted(set(some))))
        short = np.bincount(left, minlength=len(whole.cuts))
        yield Taken(lost, kept), short, drops, cost


@pytest.mark.parametrize("seed", SEEDS)
def test_bars_taken_carry_the_cuts_whatever_these_are_worth(seed):
    whole = problem(seed)
    draw = np.random.default_rng(seed)
    per_unit = draw.uniform(0.0, 2.5, (6, len(whole.cuts))) * max(whole.worth, 1e-3)
    rows = [carried(whole, np.array(whole.cuts) * one) for one in per_unit]
    for taken, short, drops, _ in plans(whole):
        for row in rows:
            carries = float(row.lost @ taken.lost + row.kept @ taken.kept) - drops
            assert carries >= float(row.worths @ (np.array(whole.wants) - short)) * (1 - 1e-9) - 1e-6


@pytest.mark.parametrize("seed", SEEDS)
def test_choice_upon_choice_comes_to_the_best_plan_of_all(seed):
    """A choice is looked at, and barred, till none is below the best plan found: that is the best of all plans."""
    whole = problem(seed)
    best = min((cost for _, short, _, cost in plans(whole) if not short.any()), default=None)
    rows = [carried(whole, np.array(whole.cuts) * whole.worth * times) for times in (1000.0, 1.0)]
    known, barred, least = Known(none_of(whole), none_of(whole)), [], 1e12
    for _ in range(200):
        found = choice(whole, Aim(), rows, barred, least, 0.0)
        assert best is None or min(found.bound, least) <= best + 1e-6
        if found.taken is None or found.bound > least - 1e-6:
            break
        looked, known = inside(whole, Aim(), found.taken, known, least, 4)
        assert looked.through
        if looked.plan is not None:
            least = min(least, looked.plan.cost)
        rows.append(carried(whole, looked.worths))
        barred.append(found.taken)
    assert best == (None if least == 1e12 else pytest.approx(least))


@pytest.mark.parametrize("seed", SEEDS)
def test_all_ways_with_bars_given_come_to_the_best_of_all_plans_with_them(seed):
    """Limits above what is best, at it and below it; where all was looked at, that is said, and here it always is."""
    whole = problem(seed)
    best = {}
    for taken, short, _, cost in plans(whole):
        if not short.any():
            key = (tuple(taken.lost), tuple(taken.kept))
            best[key] = min(cost, best.get(key, cost))
    every = {
        key for taken, _, _, _ in plans(whole) for key in [(tuple(taken.lost), tuple(taken.kept))] if any(sum(key, ()))
    }
    for key in every:
        taken = Taken(*(np.array(counts, dtype=np.int64) for counts in key))
        least = best.get(key)
        for limit in (1e9, least, None if least is None else least - 1.0):
            if limit is None:
                continue
            found = all_ways(whole, Aim(), taken, Sought(None, limit, 0.0), 100_000)
            assert found.through
            cheaper = min((best[one] for one in best if _within(one, key)), default=None)
            if least is not None and limit >= least:
                assert found.plan is not None
                assert found.plan.cost <= least + 1e-6
            if found.plan is not None:
                assert not faults(whole, found.plan)
                assert not found.plan.missing
                assert cheaper - 1e-6 <= found.plan.cost <= limit + 1e-6


def _within(one, other):
    """Whether one plan's bars are among those of another, drops kept or not."""
    return all(a + b <= c + d for a, b, c, d in zip(*one, *other, strict=True))


@pytest.mark.parametrize("seed", SEEDS)
def test_cuts_in_bars_kept_counted_together_say_no_more_than_every_plan(seed):
    """With all patterns that a plan can have, the bound is no higher than the best, and its plan is one of all."""
    whole = problem(seed)
    costs = {round(cost, 6) for _, short, _, cost in plans(whole) if not short.any()}
    lower = relaxed(Master(whole, Aim()), whole, exact=True)[0]
    limit = max(costs, default=lower.bound + 1.0)
    found = ways(whole, lower, 0.0, limit - lower.bound, 100_000)
    got = pooled(whole, Aim(), found.columns, limit, Means(10_000, 10.0))
    assert found.gap == limit - lower.bound
    assert got.bound <= min(costs, default=limit) + 1e-6
    if got.plan is not None and not got.plan.missing:
        assert round(got.plan.cost, 6) in costs


@pytest.mark.parametrize("seed", SEEDS)
def test_bars_filled_up_in_a_good_plan_are_among_the_ways_to_fill_them(seed):
    whole = problem(seed)
    good = [(stock, held) for stock, held, left in ways_to_share(whole) if not left]
    if not good:
        return

    def cost(stock, held):
        filled = ((b, tuple((i, 1) for i in some)) for b, some in zip(stock, held, strict=True) if some)
        return sum(load_cost(whole, b, pattern) for b, pattern in filled)

    lower = relaxed(Master(whole, Aim()), whole, exact=True)[0]
    limit = np.median([cost(*plan) for plan in good])
    found = ways(whole, lower, 0.0, limit - lower.bound, 100_000).columns
    there = {(int(b), tuple(np.flatnonzero(row))) for b, row in zip(found.bars, found.counts, strict=True)}
    for stock, held in good:
        if cost(stock, held) <= limit:
            for b, some in zip(stock, held, strict=True):
                keeps = sum(whole.cuts[i] for i in some) <= kept_rooms(whole)[b]
                assert not some or keeps or (b, tuple(sorted(some))) in there


def test_cuts_fill_bars_kept_to_the_last_unit_where_longest_first_finds_no_room():
    """Bars that three or four cuts of their own fill: there is a way, by construction."""
    missed = 0
    for seed in range(30):
        draw = random.Random(seed)
        sets = [[draw.randint(80, 600) / 1000 for _ in range(draw.choice([3, 4]))] for _ in range(4)]
        cuts = [Cut(f"c{n}", size) for n, size in enumerate(size for some in sets for size in some)]
        bars = [Bar(f"b{n}", round(sum(some) + 0.3, 6), 1, 1.0) for n, some in enumerate(sets)]
        whole = named(cuts, bars, Saw(0.0, 0.0, 0.3, 0.5)).whole
        taken = Taken(np.zeros(len(whole.rooms), dtype=np.int64), np.array(whole.counts))
        missed += placed(whole, Aim(), taken, whole.wants) is None
        plan = rested(whole, Aim(), taken, [], [])
        assert plan is not None
        assert not faults(whole, plan)
        assert not plan.missing
    assert missed >= 10


def test_cuts_in_bars_kept_counted_together_prove_what_is_small():
    """Of these problems most are proven by that alone; where one is not, a plan of that cost was not put together."""
    proven = 0
    for seed in SEEDS:
        whole = problem(seed)
        best = min((cost for _, short, _, cost in plans(whole) if not short.any()), default=None)
        if best is None:
            continue
        lower = relaxed(Master(whole, Aim()), whole, exact=True)[0]
        some = ways(whole, lower, 0.0, best - lower.bound + 1.0, 100_000)
        got = pooled(whole, Aim(), some.columns, best + 1.0, Means(10_000, 10.0))
        proven += got.plan is not None and got.plan.cost <= got.bound + 1e-6
    assert proven >= 15
