"""All open sets, and two hundred shop-size cases (`make soak`). Where the sets come from: `bench/bars.py`."""

import sys
from pathlib import Path

import pytest

from bickern.geometry.pack.lengths.plan import plan_lengths

from . import length_judge as judge
from .shop_cases import case

sys.path.insert(0, str(Path(__file__).parents[3] / "bench"))

import bars

PLACE = bars.folder()
ALL = [one for cases in bars.sets(PLACE).values() for one in cases] if PLACE else []
SHOP_PROVEN = {"shop00", "shop01", "shop02", "shop03", "shop05", "shop07", "shop09"}


@pytest.mark.soak
def test_open_sets_are_there():
    if PLACE is None:
        pytest.skip("the open sets are not here: BICKERN_PACKING names their folder")
    assert len(ALL) > 100


@pytest.mark.soak
@pytest.mark.parametrize("one", ALL, ids=lambda one: one.name)
def test_open_set(one):
    """As good as the best known; the shop's own proven, or near its bound."""
    plan = plan_lengths(one.cuts, one.bars, one.saw)
    assert judge.faults(one.cuts, one.bars, one.saw, plan) == []
    if one.name.startswith("shop"):
        assert plan.proven or (one.name not in SHOP_PROVEN and plan.cost - plan.bound <= 6e-4 * plan.bound)
    elif one.best is not None:
        assert plan.cost <= one.best
        assert plan.bound <= one.best


@pytest.mark.soak
@pytest.mark.parametrize("seed", range(200))
def test_shop_size_all(seed):
    """Proven, or with more than 40 cuts within 0.06 % of the bound: all sections side by side in two seconds."""
    problems = case(seed)
    for problem, plan in zip(problems, bars.side_by_side(problems, bars.SECONDS), strict=True):
        assert judge.faults(problem.cuts, problem.bars, problem.saw, plan) == []
        near = bars.cuts_of(problems) > bars.FEW and plan.cost - plan.bound <= bars.NEAR * abs(plan.bound)
        assert plan.proven or near, (plan.cost, plan.bound, plan.why)
