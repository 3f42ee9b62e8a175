"""What bars carry by length and number of cuts, held against the best plan with any bars: inches and a kerf."""

import random
from itertools import product

import numpy as np
import pytest

from bickern.geometry.pack.lengths.asked import Bar, Cut, Saw
from bickern.geometry.pack.lengths.bars import carried, least_with
from bickern.geometry.pack.lengths.counted import Counted
from bickern.geometry.pack.lengths.given import Taken
from bickern.geometry.pack.lengths.solver import Aim
from bickern.geometry.pack.lengths.ways import Sought, all_ways
from bickern.geometry.pack.lengths.whole import kept_rooms, named

SEEDS = range(40)
INCH = 0.0254


def problem(seed):
    """Up to six cuts in half inches, a kerf that is none; bars in half inches; drops worth something in every other."""
    draw = random.Random(seed)
    cuts = [Cut(f"c{n}", draw.randint(4, 20) / 2 * INCH) for n in range(draw.randint(3, 6))]
    bars = [Bar(f"b{n}", draw.randint(8, 50) / 2 * INCH, 1, draw.uniform(0.5, 2.0)) for n in range(draw.randint(2, 4))]
    return named(cuts, bars, Saw(draw.choice([0.0011, 0.003]), 0.0, *draw.choice([(0.0, 0.0), (0.1, 0.5)]))).whole


def choices(whole):
    """Every choice of bars, drops kept where a cut leaves any."""
    may = [bool(whole.worth) and room >= min(whole.cuts) for room in kept_rooms(whole)]
    for each in product(*([(0, 0), (1, 0)] + [(0, 1)] * keeps for keeps in may)):
        lost, kept = np.array(each).T
        if lost.any() or kept.any():
            yield Taken(lost, kept)


def cost_of(whole, taken, plan):
    """What a plan costs with all bars that were taken, no drops kept but those that were to be: one bar of a kind."""
    used = sum(
        whole.cuts[i] * n for load in plan.loads for i, n in load.pattern if taken.kept[load.bar] and load.times == 1
    )
    return taken.fixed(whole) + whole.worth * used


@pytest.mark.parametrize("short", [0, 1])
def test_no_plan_with_any_bars_costs_less_than_it_says(short):
    said = more = 0
    for whole in map(problem, SEEDS):
        counted, aim = Counted(whole), Aim(0.0, short)
        lengths = carried(whole, np.array(whole.cuts, dtype=np.float64) * (whole.worth or 1.0))
        for taken in choices(whole):
            best = counted.lacking(aim, taken)
            if best is None:
                assert counted.divisor <= 1
                continue
            found = all_ways(whole, aim, taken, Sought(None, 1e9, -1e9), 100_000)
            if found.plan is None:
                assert found.through
                by_length, by_number = (float(least_with(whole, aim, row, taken)) for row in (lengths, best))
                more += by_number > by_length
                continue
            said += 1
            cost = cost_of(whole, taken, found.plan)
            for row in (best, *(counted.row(each * counted.divisor) for each in (-0.4, -0.1, 0.0, 0.05, 0.3))):
                assert float(least_with(whole, aim, row, taken)) <= cost + 1e-6 * abs(cost)
    assert said > 300
    assert more > 20


def test_where_cuts_have_no_length_in_common_numbers_say_nothing():
    whole = named([Cut("a", 0.1001), Cut("b", 0.2007), Cut("c", 0.3002)], [Bar("d", 1.0, 2, 1.0)], Saw(0.0, 0.0)).whole
    counted = Counted(whole)
    assert counted.divisor == 1
    assert counted.lacking(Aim(0.0, 0), Taken(np.array([1]), np.array([0]))) is None
