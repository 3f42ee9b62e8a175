"""As few cuts short as can be, by all ways to place the others in all bars there are."""

from dataclasses import replace

import pytest

from bickern.geometry.pack.lengths.bounds import least_short
from bickern.geometry.pack.lengths.search import Search
from bickern.geometry.pack.lengths.solve import by_length, search
from bickern.geometry.pack.lengths.solver import Aim
from bickern.geometry.pack.lengths.whole import faults, named, shared

from .shop_cases import case


def asked(seed: int) -> Search:
    """The first section of a shop-size case, bars for nothing."""
    problem = case(seed)[0]
    whole = named(problem.cuts, problem.bars, problem.saw).whole
    bare = replace(whole, costs=(0.0,) * len(whole.costs), worth=0.0, step=1.0)
    least = float(least_short(whole))
    return Search(bare, Aim(1.0, sum(bare.wants)), shared(bare, ()), least, 5.0, lambda at: None)


@pytest.mark.parametrize("seed", [8271, 4628, 8323])
def test_no_more_are_short_than_by_their_lengths_end_to_end(seed: int):
    at = asked(seed)
    least = at.bound
    by_length(at)
    assert at.done
    assert at.plan.missing == least > 0
    assert not faults(at.whole, at.plan)


@pytest.mark.parametrize("seed", [54, 36, 78])
def test_where_one_more_must_be_short_the_linear_programme_says_so_too(seed: int):
    at, other = asked(seed), asked(seed)
    least = at.bound
    by_length(at)
    search(other, 5.0)
    assert other.done
    assert least < at.bound <= other.bound == other.plan.missing
