"""Drops worth keeping, held against every way there is (exact mathematics)."""

import random

import pytest

from bickern.geometry.pack.lengths import plan as room
from bickern.geometry.pack.lengths.asked import Bar, Cut, Saw
from bickern.geometry.pack.lengths.plan import plan_lengths

from . import length_judge as judge


def tiny(seed):
    """Up to five cuts and a few bars; drops are worth keeping, some more than the bar itself."""
    draw = random.Random(seed)
    cuts = [Cut(f"c{n}", draw.randint(90, 700) / 1000, draw.choice([1, 1, 2])) for n in range(draw.randint(2, 3))]
    bars = [
        Bar(f"b{n}", draw.randint(300, 1500) / 1000, draw.choice([1, 1, 2]), draw.choice([0.0, 0.5, 1.0, 1.3]))
        for n in range(draw.randint(1, 4))
    ]
    keep = draw.choice([(0.2, 0.3), (0.4, 1.1), (0.3, 0.5)])
    return cuts, bars, Saw(draw.choice([0.0, 0.003]), draw.choice([0.0, 0.05]), *keep)


def test_drops_worth_keeping_against_every_way_there_is(monkeypatch):
    """Forty small cases: proven only where it is the best, the bound never above it, and nearly all are proven."""
    from bickern.geometry.pack.lengths.solve import solve

    monkeypatch.setattr(room, "in_child", lambda work, asked, seconds, *, report, **more: solve(asked, report))
    proven = 0
    for seed in range(40):
        cuts, bars, saw = tiny(seed)
        plan = plan_lengths(cuts, bars, saw)
        assert judge.faults(cuts, bars, saw, plan) == []
        fewest, least = judge.best(cuts, bars, saw)
        missing = sum(n for _, n in plan.short)
        assert missing >= fewest
        assert missing > fewest or plan.bound <= least + 1e-9
        assert not plan.proven or (missing, plan.cost) == (fewest, pytest.approx(least, abs=1e-9))
        proven += plan.proven
    assert proven >= 38


def test_bars_of_which_no_drop_can_be_left():
    """Each bar is used up by one cut and the saw: nothing is there to keep, and the two cheapest are taken."""
    cuts = (Cut("a", 1.0, 2),)
    bars = (Bar("b", 1.0, 1, 1.0), Bar("c", 1.0005, 1, 0.9), Bar("d", 1.0009, 1, 0.95))
    saw = Saw(kerf=0.001, keep_from=0.3, drop_worth=0.5)
    plan = plan_lengths(cuts, bars, saw)
    assert judge.faults(cuts, bars, saw, plan) == []
    assert sorted(one.bar for one in plan.filled) == ["c", "d"]
    assert plan.proven


def test_bars_worth_less_than_their_drops_are_not_taken_for_cuts_that_others_hold():
    """A free bar with a drop worth keeping would pay for itself again and again: it is taken for a cut that is left."""
    cuts = [Cut("a", 0.096), Cut("b", 0.306, 2), Cut("c", 0.655, 2), Cut("d", 0.587)]
    bars = [
        Bar("e", 0.908, 1, 1.0),
        Bar("f", 0.748, 2, 0.5),
        Bar("g", 0.377, 1, 1.0),
        Bar("h", 0.556, 2, 0.0),
        Bar("i", 1.217, 1, 0.5),
    ]
    saw = Saw(kerf=0.003, keep_from=0.3, drop_worth=0.5)
    plan = plan_lengths(cuts, bars, saw)
    assert judge.faults(cuts, bars, saw, plan) == []
    assert plan.proven
    assert (0, pytest.approx(plan.cost)) == judge.best(cuts, bars, saw)
