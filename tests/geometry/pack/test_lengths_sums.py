"""Sums of lengths, held against all subsets (exact mathematics)."""

from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bickern.geometry.pack.lengths.asked import Bar, Cut, Saw
from bickern.geometry.pack.lengths.plan import plan_lengths
from bickern.geometry.pack.lengths.sums import fillings, sums, top

SIZES = st.lists(st.integers(1, 60), min_size=1, max_size=9)


def subsets(sizes):
    return {sum(some) for n in range(len(sizes) + 1) for some in combinations(sizes, n)}


@given(SIZES, st.integers(0, 200))
def test_sums_are_those_of_all_subsets(sizes, room):
    cuts = sorted(set(sizes), reverse=True)
    wants = [sizes.count(cut) for cut in cuts]
    reached = {total for total in subsets(sizes) if total <= room}
    bits = sums(cuts, wants, room)
    assert {n for n in range(bits.bit_length()) if bits >> n & 1} == reached
    assert top(bits, room) == max(reached)
    pattern = fillings(cuts, wants, room).fullest(room)
    assert sum(cuts[i] * n for i, n in pattern) == max(reached)
    assert all(0 < n <= wants[i] for i, n in pattern)


def test_a_room_of_very_many_units_is_filled_all_the_same():
    room = 6_000_000_000  # six metres in nanometres
    cuts, wants = [1_999_999_999, 700_000_001], [2, 3]
    pattern = fillings(cuts, wants, room).fullest(room)
    assert sum(cuts[i] * n for i, n in pattern) == 2 * 1_999_999_999 + 2 * 700_000_001


@pytest.mark.parametrize("length", [0.0, -1.0, float("nan"), float("inf")])
def test_a_cut_without_a_length_is_refused(length):
    with pytest.raises(ValueError, match="longer than nothing"):
        plan_lengths([Cut("a", length, 1)], [Bar("b", 1.0, 1, 1.0)], Saw())
