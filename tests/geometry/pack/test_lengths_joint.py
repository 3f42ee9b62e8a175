"""What a few bars waste together, held against every way to fill them, and against every choice that does."""

import random
from functools import cache
from itertools import product

import numpy as np

from bickern.geometry.pack.lengths.asked import Bar, Cut, Saw
from bickern.geometry.pack.lengths.bars import carried, least_with
from bickern.geometry.pack.lengths.given import Taken
from bickern.geometry.pack.lengths.joint import joint
from bickern.geometry.pack.lengths.solver import Aim
from bickern.geometry.pack.lengths.ways import Sought, all_ways
from bickern.geometry.pack.lengths.whole import named

SEEDS = range(60)


def problem(seed):
    """Up to seven cuts, and short bars that want the same short ones of them; drops worth something in every other."""
    draw = random.Random(seed)
    short = [draw.randint(90, 330) for _ in range(draw.randint(2, 3))]
    lengths = [max(short) + draw.randint(0, 9), sum(draw.sample(short, 2)) + draw.randint(0, 9), sum(short[:2]) + 3]
    lengths += [draw.randint(700, 1900) for _ in range(3)]
    cuts = [*short, *(draw.randint(400, 900) for _ in range(draw.randint(2, 4)))]
    bars = [Bar(f"b{n}", length / 1000, 1, round(length / 1000, 6)) for n, length in enumerate(lengths)]
    keep = draw.choice([(0.0, 0.0), (0.2, 0.5)])
    return named([Cut(f"c{n}", cut / 1000) for n, cut in enumerate(cuts)], bars, Saw(0.0, 0.0, *keep)).whole


def row_of(whole):
    """What bars carry by lengths."""
    return carried(whole, np.array(whole.cuts, dtype=np.float64) * (whole.worth or 1.0))


@cache
def least_waste(whole, kinds):
    """What bars waste together at least: each cut in one of them, or in none, all ways looked at."""
    least = sum(whole.rooms[b] for b in kinds)
    cuts = [cut for cut, want in zip(whole.cuts, whole.wants, strict=True) for _ in range(want)]
    for where in product(range(len(kinds) + 1), repeat=len(cuts)):
        left = [whole.rooms[b] for b in kinds] + [sum(cuts)]
        for cut, at in zip(cuts, where, strict=True):
            left[at] -= cut
        if min(left) >= 0:
            least = min(least, sum(left[:-1]))
    return least


def choices(whole):
    """Every choice of bars, no drop kept; what is to be wasted of them."""
    for lost in product(*(range(n + 1) for n in whole.counts)):
        taken = Taken(np.array(lost), np.zeros(len(lost), dtype=np.int64))
        if (waste := taken.wasted(whole, Aim(0.0, 0), 0.0)) >= 0:
            yield taken, waste


def test_a_few_bars_waste_no_less_than_it_says():
    seen = 0
    for whole in map(problem, SEEDS):
        row = row_of(whole)
        for taken, waste in choices(whole):
            found = joint(whole, row, taken, min(waste, 40))
            if found is None:
                continue
            seen += 1
            kinds = np.flatnonzero(found.lost < row.lost)
            besides = (row.lost[kinds] - found.lost[kinds]) / (whole.worth or 1.0)
            assert np.ptp(besides) < 1e-6
            bars = tuple(int(b) for b in kinds for _ in range(whole.counts[b]))
            alone = sum(whole.rooms[b] - row.lost[b] / (whole.worth or 1.0) for b in bars)
            assert min(waste, 40) < alone + besides[0] <= least_waste(whole, bars) + 1e-6
    assert seen > 100


def test_it_rules_out_no_bars_that_do():
    """Whichever bars it was learnt of; and those it was learnt of it does rule out."""
    learnt = 0
    for whole in map(problem, SEEDS):
        row, aim = row_of(whole), Aim(0.0, 0)
        do, rows = [], []
        for taken, waste in choices(whole):
            found = all_ways(whole, aim, taken, Sought(None, 1e9, 0.0), 100_000)
            assert found.through
            if found.plan is not None:
                do.append(taken)
            elif (one := joint(whole, row, taken, waste)) is not None:
                assert float(least_with(whole, aim, one, taken)) > taken.fixed(whole)
                rows.append(one)
        for taken in do:
            for one in rows:
                assert float(least_with(whole, aim, one, taken)) <= taken.fixed(whole) + 1e-6
        learnt += len(rows) * bool(do)
    assert learnt > 100


def test_bars_of_which_not_all_are_taken_are_not_looked_at():
    """Two bars alike, one of them taken: nothing is said of it, as nobody knows which."""
    bars = [Bar("a", 0.300, 2, 1.0), Bar("b", 2.0, 1, 1.0)]
    whole = named([Cut("c", 0.290), Cut("d", 1.0)], bars, Saw(0.0, 0.0, 0.0, 0.0)).whole
    b = whole.rooms.index(min(whole.rooms))
    lost = np.array([2 if n == b else 1 for n in range(2)])
    kept = np.zeros(2, dtype=np.int64)
    row = row_of(whole)
    both = joint(whole, row, Taken(lost, kept), 20 * min(whole.rooms) // 300)
    assert both is not None
    assert both.lost[b] < row.lost[b]
    lost[b] = 1
    assert joint(whole, row, Taken(lost, kept), 0) is None
