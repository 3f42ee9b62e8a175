"""All cuts into bars that are given, held against every way there is (exact mathematics)."""

import random
from itertools import pairwise, product

import numpy as np
import pytest

from bickern.geometry.pack.lengths.filling import Room, Steps
from bickern.geometry.pack.lengths.placing import place

AMPLE = 1_000_000


def every_way(cuts, wants, fill, keep, used, short):
    """Whether any way to share out the cuts one by one does."""
    singles = [i for i, want in enumerate(wants) for _ in range(want)]
    rooms = [*fill, *keep]
    for where in product(range(len(rooms) + 1), repeat=len(singles)):
        held = [[cuts[i] for i, at in zip(singles, where, strict=True) if at == k] for k in range(len(rooms) + 1)]
        if (
            len(held[-1]) <= short
            and all(sum(some) <= room.size and len(some) >= room.least for some, room in zip(held, rooms, strict=False))
            and sum(map(sum, held[len(fill) : -1])) <= used
        ):
            return True
    return False


def holds(cuts, wants, fill, keep, used, short, patterns):
    """Whether patterns are what was asked for."""
    rooms = [*fill, *keep]
    lengths = [sum(cuts[i] * n for i, n in pattern) for pattern in patterns]
    taken = [sum(dict(pattern).get(i, 0) for pattern in patterns) for i in range(len(wants))]
    return (
        len(patterns) == len(rooms)
        and all(length <= room.size for length, room in zip(lengths, rooms, strict=True))
        and all(sum(n for _, n in one) >= room.least for one, room in zip(patterns, rooms, strict=True))
        and all(n <= want for n, want in zip(taken, wants, strict=True))
        and sum(wants) - sum(taken) <= short
        and sum(lengths[len(fill) :]) <= used
    )


@pytest.mark.parametrize("block", range(10))
def test_what_is_found_and_what_is_not_is_what_every_way_says(block):
    """Up to six cuts, three bars, some alike, some kept, some cuts short: with what may be used on the edge."""
    found, none = 0, 0
    for seed in range(block * 40, block * 40 + 40):
        draw = random.Random(seed)
        cuts = sorted({draw.randint(2, 12) for _ in range(draw.randint(2, 4))}, reverse=True)
        wants = [draw.choice([1, 1, 2]) for _ in cuts]
        while sum(wants) > 6:
            wants[wants.index(max(wants))] -= 1
        rooms = [draw.choice([8, 12, draw.randint(5, 24)]) for _ in range(draw.randint(1, 3))]
        kept = draw.randint(0, len(rooms))
        fill = [Room(room, draw.choice([0, 0, 1])) for room in rooms[kept:]]
        keep = [Room(room, 1) for room in rooms[:kept]]
        short = draw.choice([0, 0, 1, 2])
        over = sum(c * n for c, n in zip(cuts, wants, strict=True)) - sum(rooms[kept:])
        for used in {sum(rooms)} if short else {max(0, over), max(0, over) + 1, max(0, over) + 3, sum(rooms)}:
            given = place(cuts, wants, fill, keep, used, short, Steps(AMPLE))
            assert given.through
            assert (given.patterns is not None) == every_way(cuts, wants, fill, keep, used, short)
            if given.patterns is None:
                none += 1
            else:
                found += 1
                assert holds(cuts, wants, fill, keep, used, short, given.patterns)
    assert min(found, none) >= 20


def sawn(seed, count, marks):
    """Bars sawn at random at so many places each: their lengths; the cuts, and how many of each."""
    draw = np.random.default_rng(seed)
    rooms = [int(room) for room in draw.integers(4000, 9000, count)]
    sizes = []
    for room in rooms:
        places = sorted({0, room, *(int(m) for m in draw.choice(np.arange(1, room), marks, replace=False))})
        sizes += [b - a for a, b in pairwise(places)]
    cuts = sorted(set(sizes), reverse=True)
    return rooms, cuts, [sizes.count(cut) for cut in cuts]


@pytest.mark.parametrize("seed", range(20))
def test_bars_sawn_up_are_put_together_again(seed):
    """Six bars sawn into four cuts each; not to be had from bars that are a unit shorter, and that is certain."""
    rooms, cuts, wants = sawn(seed, 6, 3)
    placed = place(cuts, wants, [Room(room) for room in rooms], [], 0, 0, Steps(AMPLE))
    assert placed.patterns is not None
    assert [sum(cuts[i] * n for i, n in pattern) for pattern in placed.patterns] == rooms
    shorter = place(cuts, wants, [Room(room) for room in (rooms[0] - 1, *rooms[1:])], [], 0, 0, Steps(AMPLE))
    assert shorter.patterns is None
    assert shorter.through


@pytest.mark.parametrize("seed", range(10))
def test_many_bars_sawn_up_and_none_that_may_be_wasted_more_than_little(seed):
    """Twelve bars of five cuts each, with a little more room in all: filled, with every cut in its place."""
    rooms, cuts, wants = sawn(seed, 12, 4)
    fill = [Room(room + 10) for room in rooms]
    placed = place(cuts, wants, fill, [], 0, 0, Steps(AMPLE))
    assert placed.patterns is not None
    assert holds(cuts, wants, fill, [], 0, 0, placed.patterns)


def test_without_steps_nothing_is_certain():
    rooms, cuts, wants = sawn(0, 6, 3)
    placed = place(cuts, wants, [Room(room) for room in rooms], [], 0, 0, Steps(10))
    assert placed.patterns is None
    assert not placed.through


@pytest.mark.parametrize("seed", range(5))
def test_lengths_too_many_to_be_told_apart_are_placed_and_none_found_is_no_proof(seed):
    """In units so small that all lengths up to a bar would take gigabytes."""
    rooms, cuts, wants = sawn(seed, 6, 3)
    small = [cut * 1_000_003 + n * n for n, cut in enumerate(cuts)]  # they share no length
    fill = [Room(room * 1_000_003 + 200_000_000) for room in rooms]
    placed = place(small, wants, fill, [], 0, 0, Steps(AMPLE))
    assert placed.patterns is not None
    assert holds(small, wants, fill, [], 0, 0, placed.patterns)
    tight = [Room(room * 1_000_003 - 1) for room in rooms]
    placed = place(small, [want + 1 for want in wants], tight, tight, 10**12, 0, Steps(1000))
    assert placed.patterns is None
    assert not placed.through


def test_many_bars_are_gone_through_one_within_the_other_but_not_too_many():
    four_hundred = place([10], [400], [Room(10)] * 400, [], 0, 0, Steps(AMPLE))
    assert four_hundred.patterns == (((0, 1),),) * 400
    placed = place([10], [2000], [Room(10)] * 2000, [], 0, 0, Steps(AMPLE))
    assert placed.patterns is None
    assert not placed.through
