"""Choices of bars that are listed, held against every choice there is, and against the solver's best."""

import random
from dataclasses import replace
from itertools import product

import numpy as np
import pytest

from bickern.geometry.pack.lengths import listing as module
from bickern.geometry.pack.lengths.asked import Bar, Cut, Saw
from bickern.geometry.pack.lengths.bars import MEANS, carried, choice
from bickern.geometry.pack.lengths.given import Taken
from bickern.geometry.pack.lengths.listed import MOST_SPARE
from bickern.geometry.pack.lengths.listing import Listing, draw_up
from bickern.geometry.pack.lengths.plan import plan_lengths
from bickern.geometry.pack.lengths.search import Search
from bickern.geometry.pack.lengths.solver import Aim, Master
from bickern.geometry.pack.lengths.taking import Tried
from bickern.geometry.pack.lengths.whole import Load, drop_value, kept_rooms, named, shared, slack, used

from . import length_judge as judge

SEEDS = range(40)


def problem(seed):
    """Up to eight cuts, five kinds of bars, one or two of each; drops worth keeping in three of four."""
    draw = random.Random(seed)
    cuts = [Cut(f"c{n}", draw.randint(90, 700) / 1000, draw.choice([1, 1, 2])) for n in range(draw.randint(2, 4))]
    bars = [
        Bar(f"b{n}", length / 1000, draw.choice([1, 1, 2]), round(length / 1000 * draw.choice([0.7, 1.0]), 6))
        for n, length in enumerate(draw.randint(250, 1500) for _ in range(draw.randint(2, 5)))
    ]
    keep = draw.choice([(0.0, 0.0), (0.2, 0.8), (0.3, 0.5), (0.3, 0.9)])
    whole = named(cuts, bars, Saw(0.003, draw.choice([0.0, 0.05]), *keep)).whole
    aim = Aim(0.0, draw.choice([0, 0, 1]))
    per_unit = np.random.default_rng(seed).uniform(0.3, 2.5, (3, len(whole.cuts))) * (whole.worth or 1.0)
    worths = [np.array(whole.cuts) * one for one in per_unit]
    return whole, aim, [carried(whole, one) for one in (np.array(whole.cuts) * 1000.0 * (whole.worth or 1.0), *worths)]


def all_choices(whole, aim, rows):
    """Every choice of bars by what it costs at least: reckoned here bar by bar, as it is said of all bars."""
    fits = [whole.worth and room >= min(whole.cuts) for room in kept_rooms(whole)]
    keeps = [n if fit else 0 for n, fit in zip(whole.counts, fits, strict=True)]
    each = [
        [(i, k) for i in range(n + 1) for k in range(keep + 1) if i + k <= n]
        for n, keep in zip(whole.counts, keeps, strict=True)
    ]
    for taken in product(*each):
        drops = sum(
            k * whole.worth * max(0, whole.rooms[b] + whole.spare - min(whole.cuts)) for b, (_, k) in enumerate(taken)
        )
        for row in rows:
            dear = sorted((w for w, n in zip(row.worths, whole.wants, strict=True) for _ in range(n)), reverse=True)
            carries = sum(i * row.lost[b] + k * row.kept[b] for b, (i, k) in enumerate(taken))
            drops = min(drops, carries - sum(dear[aim.most_short :]))
        rooms = sorted(
            size for b, (i, k) in enumerate(taken) for size in (whole.rooms[b],) * i + (kept_rooms(whole)[b],) * k
        )
        cuts = sorted(cut for cut, n in zip(whole.cuts, whole.wants, strict=True) for _ in range(n))
        a_cut_each = len(rooms) <= len(cuts) and all(cut <= room for cut, room in zip(cuts, rooms, strict=False))
        if a_cut_each and drops >= -1e-6:
            yield (
                taken,
                sum((i + k) * whole.costs[b] for b, (i, k) in enumerate(taken)) - (drops if whole.worth else 0.0),
            )


def listed(found):
    """The same as all that are listed."""
    return {
        tuple(zip(map(int, lost), map(int, kept), strict=True)): least
        for lost, kept, least in zip(found.lost, found.kept, found.least, strict=True)
        if least < np.inf
    }


@pytest.mark.parametrize("seed", SEEDS)
def test_what_is_listed_is_every_choice_that_costs_no_more(seed):
    whole, aim, rows = problem(seed)
    every = dict(all_choices(whole, aim, rows))
    costs = sorted(every.values())
    for limit in (costs[len(costs) // 4] + 1.0, costs[-1] + 1.0) if costs else (1e9,):
        got = listed(draw_up(whole, aim, rows, limit))
        assert set(got) == {taken for taken, cost in every.items() if cost <= limit}
        for taken, least in got.items():
            assert least == pytest.approx(every[taken], rel=1e-9, abs=1e-6)


@pytest.mark.parametrize("seed", SEEDS)
def test_the_cheapest_is_as_cheap_as_the_solver_finds_it_till_none_is_left(seed):
    whole, aim, rows = problem(seed)
    barred: list[Taken] = []
    listing, below = Listing(whole, aim, rows, barred), 3.0 * sum(whole.costs)
    for _ in range(6):
        got, found = listing.cheapest(-below, below, ()), choice(whole, aim, rows, barred, below, 0.0)
        assert got is not None
        assert got.bound <= found.bound + 0.6  # the solver stops half a step from the best
        assert aim.most_short or got.bound == pytest.approx(found.bound, abs=0.6)
        assert aim.most_short or (got.taken is None) == (found.taken is None)
        if got.taken is None:
            break
        assert not any(got.taken.same(one) for one in barred)
        barred.append(got.taken)


def test_the_cheapest_is_soon_found_from_far_below_and_past_nothing(monkeypatch):
    """A share of a bound near nothing is nothing: a first version went on in steps of that."""
    whole, aim, rows = problem(25)
    drawn = []
    monkeypatch.setattr(module, "draw_up", lambda *asked, **more: drawn.append(1) or draw_up(*asked, **more))
    found = Listing(whole, aim, rows, []).cheapest(-3.0 * sum(whole.costs), 3.0 * sum(whole.costs), ())
    assert found is not None
    assert 0 < len(drawn) < 100


@pytest.mark.parametrize("seed", SEEDS)
def test_bars_with_most_to_spare_cost_no_more_than_they_may(seed):
    whole, aim, rows = problem(seed)
    every = dict(all_choices(whole, aim, rows))
    least = min(every.values(), default=0.0)
    limit = least + 0.1 * abs(least) + 1.0
    barred: list[Taken] = []
    taken, none = Listing(whole, aim, rows, barred).roomiest(limit)
    assert none == (taken is None) == (not every)
    if taken is not None:
        key = tuple(zip(map(int, taken.lost), map(int, taken.kept), strict=True))
        assert every[key] <= limit
        barred.append(taken)
        again, _ = Listing(whole, aim, rows, barred).roomiest(limit)
        assert again is None or not again.same(taken)


@pytest.mark.parametrize("seed", SEEDS)
def test_where_there_are_too_many_the_most_hopeful_are_some_of_all(seed):
    whole, aim, rows = problem(seed)
    every = listed(draw_up(whole, aim, rows, 1e9))
    some = listed(draw_up(whole, aim, rows, 1e9, 3, lossy=True))
    assert len(some) <= 3
    assert set(some) <= set(every)
    assert (draw_up(whole, aim, rows, 1e9, 3) is None) or len(every) <= 3


@pytest.mark.parametrize("seed", SEEDS)
def test_where_few_bars_do_no_fewer_of_those_listed_have_half_as_much_to_spare(seed):
    whole, aim, rows = problem(seed)
    every = dict(all_choices(whole, aim, rows))
    limit = max(every.values(), default=0.0) + 1.0
    taken, _ = Listing(whole, aim, rows, []).roomiest(limit, fewest=True)
    most, _ = Listing(whole, aim, rows, []).roomiest(limit)
    assert (taken is None) == (most is None) == (not every)
    if taken is None:
        return
    spare = {key: to_spare(whole, aim, rows, key, limit) for key in every}
    halves = [key for key, over in spare.items() if over >= 0.5 * max(spare.values()) - 1e-9]
    key = tuple(zip(map(int, taken.lost), map(int, taken.kept), strict=True))
    assert spare[key] >= 0.5 * max(spare.values()) - 1e-9
    assert bars_in(key) <= min(map(bars_in, halves)) + (spare[key] < 0.5 * max(spare.values()) + 1e-9)
    assert max(spare.values()) == pytest.approx(spare[tuple(zip(most.lost.tolist(), most.kept.tolist(), strict=True))])


def to_spare(whole, aim, rows, key, limit):
    """What bars carry more than they must, as a share of it, by the list of worths that leaves least."""
    shares = [MOST_SPARE]
    for row in rows:
        dear = sorted((w for w, n in zip(row.worths, whole.wants, strict=True) for _ in range(n)), reverse=True)
        need = sum(dear[aim.most_short :])
        over = sum(i * row.lost[b] + k * row.kept[b] for b, (i, k) in enumerate(key)) - need
        if whole.worth:
            over -= max(0.0, sum((i + k) * whole.costs[b] for b, (i, k) in enumerate(key)) - limit)
        shares.append(over / max(need, 1e-9))
    return min(shares)


def bars_in(key):
    """How many bars a choice has."""
    return sum(i + k for i, k in key)


def test_none_that_was_looked_at_comes_again():
    whole, aim, rows = problem(3)
    listing, limit, seen = Listing(whole, aim, rows, []), 1e9, []
    while (taken := listing.roomiest(limit, seen)[0]) is not None:
        assert not any(map(taken.same, seen))
        seen.append(taken)
    assert len(seen) == len(dict(all_choices(whole, aim, rows))) > 2


@pytest.mark.parametrize("seed", SEEDS)
def test_the_most_hopeful_are_sifted_by_what_is_learnt_and_not_drawn_up_again(seed, monkeypatch):
    whole, aim, rows = problem(seed)
    drawn, known = [], rows[:1]
    monkeypatch.setattr(module, "draw_up", lambda *asked, **more: drawn.append(1) or draw_up(*asked, **more))
    listing = Listing(whole, aim, known, [])
    first = listed(listing.some_under(1e9))
    known.extend(rows[1:])
    later = listed(listing.some_under(1e9))
    assert set(later) == set(listed(draw_up(whole, aim, rows, 1e9))) & set(first)
    assert len(drawn) == (1 if first else 2)
    assert later == listed(listing.some_under(1e9))


@pytest.mark.parametrize("seed", SEEDS)
def test_what_is_kept_up_where_it_stands_is_as_drawn_up_anew(seed):
    """Lists of worths, bars barred and limits that come one after another: asked each time, or only in the end."""
    whole, aim, rows = problem(seed)
    costs = list(dict(all_choices(whole, aim, rows)).values()) or [1e9]
    most, few = max(costs) + 1.0, min(costs) + 1.0
    known, barred = rows[:1], []
    listing = Listing(whole, aim, known, barred)
    for n, limit in enumerate((most, most, few, most)):
        got, none = listing.roomiest(limit)
        found, nothing = Listing(whole, aim, [*known], [*barred]).roomiest(limit)
        assert none == nothing
        assert (got is None) == (found is None)
        if got is not None:
            assert got.same(found) or to_spare_of(whole, aim, known, got, limit) == pytest.approx(
                to_spare_of(whole, aim, known, found, limit)
            )
            barred.append(got)
        known.extend(rows[n + 1 : n + 2])


def to_spare_of(whole, aim, rows, taken, limit):
    """The same of bars that were found."""
    return to_spare(whole, aim, rows, tuple(zip(taken.lost.tolist(), taken.kept.tolist(), strict=True)), limit)


def test_two_bars_alike_that_are_not_enough_are_proven():
    """Their drops are worth something: the best is found among what becomes of each, with the fewest cuts short."""
    draw = random.Random(5)
    cuts = [Cut(f"c{n}", draw.randint(300, 900) / 1000) for n in range(7)]
    bars, saw = [Bar("b", 1.6, 2, 1.6)], Saw(0.002, 0.0, 0.3, 0.5)
    plan = plan_lengths(cuts, bars, saw)
    assert not judge.faults(cuts, bars, saw, plan)
    few, least = judge.best(cuts, bars, saw)
    assert plan.proven
    assert sum(n for _, n in plan.short) == few
    assert plan.cost == pytest.approx(least)


def test_bars_that_cost_more_than_little_are_not_lost(monkeypatch):
    """The solver may come upon such: what is found with them is kept, and where it is not found they are not barred."""
    cuts, bars = [Cut("c", 0.4, 2)], [Bar("a", 0.41, 1, 1.0), Bar("b", 0.41, 1, 1.0), Bar("long", 1.0, 1, 2.5)]
    whole = named(cuts, [*bars, Bar("dear", 1.0, 1, 9.0)], Saw()).whole
    dear, long = max(range(3), key=lambda b: whole.costs[b]), int(np.argsort(whole.costs)[-2])
    start = shared(whole, [Load(dear, ((0, 2),))])
    at = Search(whole, Aim(0.0, 0), start, 0.0, 1.0, lambda at: None)
    tried = Tried(at, Master(whole, at.aim))
    taken = Taken(np.array([int(b == long) for b in range(3)]), np.zeros(3, dtype=np.int64))
    assert tried.limit < whole.costs[long] < at.below
    monkeypatch.setattr(tried, "roomiest", lambda *looked_at, **how: taken)
    tried.glances(1, MEANS)
    assert at.value == whole.costs[long]


def test_where_drops_are_worth_nothing_those_are_listed_that_keep_none():
    """The list of those alone that keep no drop is the part of the whole list that does not."""
    some = 0
    for seed in range(120):
        whole, aim, rows = problem(seed)
        if not whole.worth:
            continue
        limit = sum(cost * n for cost, n in zip(whole.costs, whole.counts, strict=True)) * 0.8
        listed = Listing(whole, aim, rows, []).under(limit)
        alone = Listing(replace(whole, worth=0.0), aim, rows, []).under(limit)
        assert listed is not None
        assert alone is not None
        listed.only((listed.kept.sum(axis=1) == 0) & (listed.least < np.inf))
        alone.only(alone.least < np.inf)
        assert {tuple(one) for one in listed.lost} == {tuple(one) for one in alone.lost}
        assert not alone.kept.any()
        for n in range(len(listed.least)):
            assert listed.at(n).least(whole) == pytest.approx(float(listed.least[n]))
        some += len(alone.least) > 0
    assert some >= 40


def test_no_plan_costs_less_than_its_bars_do_at_least():
    """Drops kept, some bars lost: what a plan costs, worked out from what is left of each bar."""
    for seed in SEEDS:
        whole, _, _ = problem(seed)
        draw = random.Random(seed)
        loads = []
        for b, room in enumerate(whole.rooms):
            fits = [i for i, cut in enumerate(whole.cuts) if cut <= room]
            if fits:
                loads.append(Load(b, ((draw.choice(fits), 1),)))
        kept = [int(drop_value(whole, whole.rooms[one.bar] - used(whole, one.pattern)) > 0) for one in loads]
        taken = Taken(np.zeros(len(whole.rooms), dtype=np.int64), np.zeros(len(whole.rooms), dtype=np.int64))
        for one, keeps in zip(loads, kept, strict=True):
            (taken.kept if keeps else taken.lost)[one.bar] += 1
        assert shared(whole, loads).cost >= taken.least(whole) - slack(taken.least(whole))
