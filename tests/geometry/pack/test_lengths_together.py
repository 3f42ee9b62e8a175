"""Ways to fill bars that go together, held against every way there is (exact mathematics)."""

import random
from itertools import combinations, product

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from bickern.geometry.pack.lengths.together import Alike, Counts, Tree

WANTS = st.lists(st.integers(1, 5), min_size=1, max_size=12)


# ---- counts in one number


@given(WANTS, st.data())
def test_counts_come_back_out_of_their_number(wants, data):
    took = [data.draw(st.integers(0, want)) for want in wants]
    counts = Counts.of(wants)
    (number,) = counts.numbers(np.array([took]))
    assert counts.pattern(number) == tuple((i, n) for i, n in enumerate(took) if n)


@given(WANTS, st.data())
def test_too_many_of_a_cut_are_seen(wants, data):
    """Two rows of counts, each within what is wanted: together they are too many just where the bit says so."""
    one, two = ([data.draw(st.integers(0, want)) for want in wants] for _ in range(2))
    counts = Counts.of(wants)
    numbers = counts.numbers(np.array([one, two]))
    over = any(a + b > want for a, b, want in zip(one, two, wants, strict=True))
    assert bool(sum(numbers) + counts.room & counts.over) == over


# ---- the tree


def subsets(sizes, room):
    """All sets of single cuts that fit a room, by index."""
    all_ = (some for n in range(1, len(sizes) + 1) for some in combinations(range(len(sizes)), n))
    return [some for some in all_ if sum(sizes[i] for i in some) <= room]


def least_waste(sizes, rooms):
    """The least that is wasted by bars of which each holds a cut at least; None where that cannot be."""
    best = None
    for chosen in product(*(subsets(sizes, room) for room in rooms)):
        taken = [i for some in chosen for i in some]
        if len(taken) == len(set(taken)):
            waste = sum(rooms) - sum(sizes[i] for i in taken)
            best = waste if best is None else min(best, waste)
    return best


@pytest.mark.parametrize("seed", range(30))
def test_the_tree_finds_the_least_waste_and_says_when_it_is_through(seed):
    """Some bars are alike, some cuts are: what is found with a narrowing limit is the least that any way wastes."""
    draw = random.Random(seed)
    sizes = sorted((draw.choice([30, 41, 57, draw.randint(20, 90)]) for _ in range(7)), reverse=True)
    rooms = [draw.choice([100, 100, 137, draw.randint(60, 180)]) for _ in range(3)]
    sorts = sorted(set(sizes), reverse=True)
    counts = Counts.of([sizes.count(size) for size in sorts])
    bars = []
    for room in sorted(set(rooms)):
        rows = {tuple(sum(sizes[i] == size for i in some) for size in sorts) for some in subsets(sizes, room)}
        ways = [(room - sum(n * size for n, size in zip(row, sorts, strict=True)), row) for row in rows]
        numbers = counts.numbers(np.array([row for _, row in sorted(ways)]))
        wastes = [float(waste) for waste, _ in sorted(ways)]
        bars.append(Alike(room, rooms.count(room), [(h, w, w) for h, w in zip(numbers, wastes, strict=True)]))
    found = []

    def full(some, waste):
        found.append(waste)
        return waste - 1.0

    tree = Tree(counts, 1000.0, 1000.0, 100_000, full)
    tree.look(bars, [])
    assert tree.through
    assert (min(found) if found else None) == least_waste(sizes, rooms)
    if found:
        least = min(found)
        for most, more in ((least, 1000.0), (1000.0, least)):  # not a unit more may be wasted, or else be used up
            Tree(counts, most, more, 100_000, full).look(bars, [])
        assert found[-2:] == [least, least]
        Tree(counts, 1000.0, least - 1.0, 100_000, full).look(bars, [])
        assert found.count(least) == 3
    short_of_time = Tree(counts, 1000.0, 1000.0, 0, full)
    short_of_time.look(bars, [])
    assert not short_of_time.through
