"""The same cuts and bars in a coarser unit: just the same cuts fit each bar together, all ways looked at."""

import random
from itertools import product

import pytest

from bickern.geometry.pack.lengths.asked import Bar, Cut, Saw
from bickern.geometry.pack.lengths.coarse import coarser
from bickern.geometry.pack.lengths.whole import bare, named

INCH = 0.0254


def drawn(seed: int) -> tuple[tuple[int, ...], tuple[int, ...], tuple[int, ...]]:
    """Cuts that are multiples of a length and a rest besides, how many of each, and bars of any length."""
    draw = random.Random(seed)
    divisor = draw.choice([4, 7, 16, 30, 127])
    rest = draw.randint(0, 2 * divisor)
    cuts = sorted({divisor * draw.randint(1, 9) + rest for _ in range(draw.randint(2, 5))}, reverse=True)
    wants = [draw.randint(0, 3) for _ in cuts]
    rooms = [draw.choice([0, draw.randint(1, 12 * divisor + 4 * rest), sum(cuts)]) for _ in range(draw.randint(1, 4))]
    return tuple(cuts), tuple(wants), tuple(rooms)


@pytest.mark.parametrize("seed", range(300))
def test_just_the_same_cuts_fit_each_bar(seed: int):
    cuts, wants, rooms = drawn(seed)
    fewer, smaller = coarser(cuts, wants, rooms)
    assert all(cut > 0 for cut in fewer)
    assert sorted(fewer, reverse=True) == list(fewer)
    for times in product(*(range(want + 1) for want in wants)):
        length, coarse = (sum(n * cut for n, cut in zip(times, of, strict=True)) for of in (cuts, fewer))
        for room, least in zip(rooms, smaller, strict=True):
            assert (length <= room) == (coarse <= least)


def test_most_are_made_coarser():
    """Else the test above would say little."""
    assert sum(max(coarser(*drawn(seed))[0]) < max(drawn(seed)[0]) for seed in range(300)) > 150


@pytest.mark.parametrize("kerf", [0.0, 0.001, 0.0015, 0.003])
def test_sixteenths_and_a_kerf_are_few_units(kerf: float):
    """A 6 m bar is some 480,000 units of a sixteenth and a kerf in millimetres: most of them say nothing."""
    draw = random.Random(1)
    cuts = [Cut(f"c{n}", draw.randint(60, 900) / 16 * INCH, 2) for n in range(30)]
    bars = [Bar("b", 6.0, None, 6.0), *(Bar(f"b{n}", draw.randint(200, 1900) / 16 * INCH, 1, 1.0) for n in range(9))]
    problem = named(cuts, bars, Saw(kerf, 0.05, 0.3, 0.5))
    assert max(problem.whole.rooms) > 400_000
    assert max(bare(problem.whole).rooms) < 60_000
    assert max(bare(problem.whole, kept=True).rooms) < 60_000


def test_millimetres_stay_as_they_are():
    assert coarser((1001, 640, 77), (1, 2, 3), (3000, 1500)) == ((1001, 640, 77), (3000, 1500))
