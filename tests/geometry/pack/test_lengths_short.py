"""Which cuts can be short, held against every way to choose them (exact mathematics)."""

import random
from itertools import combinations, product

import numpy as np
import pytest

from bickern.geometry.pack.lengths.asked import Bar, Cut, Saw
from bickern.geometry.pack.lengths.given import Taken
from bickern.geometry.pack.lengths.short import left_out
from bickern.geometry.pack.lengths.solver import Aim
from bickern.geometry.pack.lengths.ways import Sought, all_ways
from bickern.geometry.pack.lengths.whole import faults, kept_rooms, named


@pytest.mark.parametrize("block", range(5))
def test_the_sets_are_those_of_every_way(block):
    for seed in range(block * 40, block * 40 + 40):
        draw = random.Random(seed)
        cuts = sorted({draw.randint(3, 30) for _ in range(draw.randint(1, 5))}, reverse=True)
        wants = [draw.randint(1, 3) for _ in cuts]
        singles = [i for i, want in enumerate(wants) for _ in range(want)]
        short = draw.randint(0, min(4, len(singles)))
        longest = sum(sorted((cuts[i] for i in singles), reverse=True)[:short])
        least = longest - draw.randint(-1, 25)
        ways = {
            tuple(want - out.count(i) for i, want in enumerate(wants))
            for out in combinations(singles, short)
            if sum(cuts[i] for i in out) >= least
        }
        found = left_out(cuts, wants, short, least, 10_000)
        assert found is not None
        assert len(found) == len(set(found))
        assert set(found) == ways
        if ways:
            kept = [sum(cut * n for cut, n in zip(cuts, left, strict=True)) for left in found]
            assert kept[0] == min(kept)  # the longest are short first
            assert left_out(cuts, wants, short, least, len(ways) - 1) is None


def test_more_short_than_there_are_cuts_is_no_way():
    assert left_out([5, 3], [1, 1], 3, 0, 10) == []


def least_used(whole, taken, short):
    """What is used at least of bars kept, over every way to share out the cuts one by one; None: there is no way."""
    singles = [i for i, want in enumerate(whole.wants) for _ in range(want)]
    lost = [whole.rooms[b] for b in np.repeat(np.arange(len(taken.lost)), taken.lost)]
    kept = [kept_rooms(whole)[b] for b in taken.bins()]
    best = None
    for where in product(range(len(lost) + len(kept) + 1), repeat=len(singles)):
        held = [[whole.cuts[i] for i, at in zip(singles, where, strict=True) if at == k] for k in range(max(where) + 1)]
        held += [[]] * (len(lost) + len(kept) + 1 - len(held))
        used = sum(map(sum, held[len(lost) : -1]))
        if (
            len(held[-1]) <= short
            and all(sum(some) <= room for some, room in zip(held, [*lost, *kept], strict=False))
            and all(held[len(lost) : -1])
            and (best is None or used < best)
        ):
            best = used
    return best


@pytest.mark.parametrize("block", range(4))
def test_with_cuts_short_all_ways_find_what_every_way_says(block):
    """Up to six cuts, up to three bars, some kept, one or two cuts short."""
    found, none = 0, 0
    for seed in range(block * 25, block * 25 + 25):
        draw = random.Random(seed)
        cuts = [Cut(f"c{n}", draw.randint(200, 600) / 1000, draw.choice([1, 2, 2])) for n in range(draw.randint(2, 4))]
        bars = [Bar(f"b{n}", draw.randint(600, 1100) / 1000, 1, 1.0) for n in range(draw.randint(1, 3))]
        whole = named(cuts, bars, Saw(0.003, 0.0, 0.2, draw.choice([0.5, 0.8]))).whole
        short = draw.choice([1, 1, 2])
        if sum(whole.wants) > 6 or sum(whole.wants) <= short:
            continue
        keep = np.array([int(draw.random() < 0.4 and room >= min(whole.cuts)) for room in kept_rooms(whole)])
        taken = Taken(np.array(whole.counts) - keep, keep)
        looked = all_ways(whole, Aim(0.0, short), taken, Sought(None, sum(whole.costs) + 1.0, 0.0), 1_000_000)
        used = least_used(whole, taken, short)
        assert looked.through
        assert (looked.plan is None) == (used is None)
        if looked.plan is None or used is None:
            none += 1
        else:
            found += 1
            assert not faults(whole, looked.plan)
            assert looked.plan.missing <= short
            assert looked.plan.cost <= taken.fixed(whole) + whole.worth * used + 1e-6
    assert min(found, none) >= 2
