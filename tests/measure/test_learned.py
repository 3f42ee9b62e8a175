"""Least squares with a prior, held against closed forms of a textbook and against scipy."""

from math import log, pi, sqrt

import numpy as np
import pytest
from scipy.optimize import lsq_linear, minimize

from bickern.measure.learned import FREEDOM, INFORMS, SET_ASIDE, Belief, Seen, bounded, is_aside, learned, together

PRIOR = {"a": Belief(0.0, 1.0), "b": Belief(2.0, 0.5), "c": Belief(-1.0, 0.1)}
AT = {"a": 0.0, "b": 2.0, "c": -1.0}


def seen(value: float, leans: dict[str, float], noise: float = 0.1, said: float = 0.0) -> Seen:
    return Seen(value, said, leans, AT, noise)


def test_nothing_seen_leaves_the_prior_as_it_is():
    assert learned(PRIOR, []).beliefs == PRIOR


def test_a_figure_that_nothing_leans_on_stays_to_the_last_bit():
    found = learned(PRIOR, [seen(0.3, {"a": 1.0, "c": 0.0})])
    assert found.beliefs["b"] is PRIOR["b"]
    assert found.beliefs["c"] is PRIOR["c"]


def test_one_small_deviation_moves_as_the_conjugate_normal_rule_says():
    """Near its middle Student's t is a normal of variance v/(v + 1): the mean by precisions (exact mathematics)."""
    found = learned(PRIOR, [seen(1e-4, {"a": 1.0})])
    weight = (FREEDOM + 1) / FREEDOM / 0.1**2
    assert found.beliefs["a"].mean == pytest.approx(1e-4 * weight / (1 + weight), rel=1e-4)
    assert found.beliefs["a"].spread == pytest.approx(1 / sqrt(1 + INFORMS / 0.1**2), rel=1e-12)


def test_fishers_information_of_students_t():
    """The integral of (d log p/dx)^2 p, by the trapezium rule (Fisher's definition, exact mathematics)."""
    x = np.linspace(-400, 400, 4_000_001)
    p = 0.375 * (1 + x**2 / 4) ** -2.5  # 4 degrees of freedom
    assert np.trapezoid(p, x) == pytest.approx(1.0, abs=1e-6)
    score = (FREEDOM + 1) * x / (FREEDOM + x**2)
    assert np.trapezoid(score**2 * p, x) == pytest.approx(INFORMS, rel=1e-6)


def cost(x: np.ndarray, observed: list[Seen]) -> float:
    """Minus the logarithm of the posterior density, written out from its definition."""
    names = list(PRIOR)
    at = dict(zip(names, x, strict=True))
    total = sum((at[n] - PRIOR[n].mean) ** 2 / (2 * PRIOR[n].spread ** 2) for n in names)
    for one in observed:
        said = one.said + sum(lean * (at[n] - one.at[n]) for n, lean in one.leans.items())
        total += (FREEDOM + 1) / 2 * log(1 + ((one.value - said) / one.noise) ** 2 / FREEDOM)
    return float(total)


def test_the_answer_is_the_highest_posterior_that_scipy_finds():
    chance = np.random.default_rng(4)
    for _ in range(20):
        observed = [
            seen(float(chance.normal(0.3, 0.3)), dict(zip("abc", chance.normal(0, 1, 3).tolist(), strict=True)), 0.2)
            for _ in range(6)
        ]
        found = learned(PRIOR, observed)
        ours = np.array([found.beliefs[n].mean for n in PRIOR])
        starts = [np.array([PRIOR[n].mean for n in PRIOR]), ours, *(ours + chance.normal(0, 0.5, 3) for _ in range(4))]
        theirs = min((minimize(cost, s, args=(observed,), method="BFGS") for s in starts), key=lambda one: one.fun)
        assert cost(ours, observed) <= theirs.fun + 1e-6


def test_one_slip_of_a_digit_pulls_no_further_than_a_small_fault():
    honest = [seen(0.5 + 0.02 * k, {"a": 1.0}) for k in (-1, 0, 1)]
    clean = learned(PRIOR, honest).beliefs["a"]
    wild = learned(PRIOR, [*honest, seen(log(10.0), {"a": 1.0})])
    assert abs(wild.beliefs["a"].mean - clean.mean) < 0.01
    assert wild.beliefs["a"].spread == pytest.approx(clean.spread, rel=1e-9)
    assert [is_aside(off) for off in wild.off] == [False, False, False, True]


def test_a_slip_that_comes_first_is_no_better_believed():
    """ln 10 against a prior that holds 0 within 0.25: nine spreads away, so it is the slip."""
    prior = {"a": Belief(0.0, 0.25)}
    alone = learned(prior, [seen(log(10.0), {"a": 1.0}, 0.15)])
    assert abs(alone.beliefs["a"].mean) < 0.05
    assert alone.beliefs["a"].spread == 0.25


def test_three_alike_speak_louder_than_the_prior():
    found = learned({"a": Belief(0.0, 0.3)}, [seen(0.6, {"a": 1.0}) for _ in range(3)])
    assert found.beliefs["a"].mean > 0.5
    assert (found.beliefs["a"].spread / 0.3) ** 2 < 0.1


def test_two_figures_that_only_show_together_share_the_news_by_their_spreads():
    """y = a + c: each moves by its variance's share (exact mathematics of the normal law)."""
    found = learned(PRIOR, [seen(0.02, {"a": 1.0, "c": 1.0}, 0.5)])
    moved = found.beliefs["a"].mean, found.beliefs["c"].mean + 1.0
    assert moved[0] / moved[1] == pytest.approx((1.0 / 0.1) ** 2, rel=1e-6)


def test_noises_put_together():
    assert together(3.0, 4.0) == 5.0
    assert not is_aside(SET_ASIDE)
    assert is_aside(-SET_ASIDE - pi)
    assert [is_aside(far) for far in (5.5, -5.5, 6.5, -6.5)] == [False, False, True, True]  # as the page says: six


def test_least_squares_between_bounds_as_scipy_finds_them():
    """Against `scipy.optimize.lsq_linear` on the Cholesky factor: the same problem, another algorithm."""
    chance = np.random.default_rng(11)
    for size in (1, 2, 3, 6, 12, 30):
        for _ in range(15):
            rows = chance.normal(0, 1, (size + 3, size)) * chance.uniform(0.01, 3, size)
            square, right = rows.T @ rows + np.eye(size), chance.normal(0, 3, size)
            low, high = -chance.exponential(0.3, size), chance.exponential(0.3, size)
            high[chance.random(size) < 0.3] = 0.0
            root = np.linalg.cholesky(square)
            theirs = lsq_linear(root.T, np.linalg.solve(root, right), (low, np.maximum(high, low + 1e-12)), tol=1e-14)
            assert bounded(square, right, low, high) == pytest.approx(theirs.x, abs=1e-6)


def test_a_figure_at_its_bound_does_not_take_news_that_it_cannot_hold():
    """y = a + c, c as far as it goes already: all of it is a's, as if c did not move at all."""
    full = {"a": Belief(0.0, 0.5), "c": Belief(0.0, 1.0, most=0.0)}
    rows = [Seen(0.2, 0.0, {"a": 1.0, "c": 1.0}, {}, 0.1) for _ in range(3)]
    found = learned(full, rows).beliefs
    assert found["c"].mean == 0.0
    alone = learned({"a": full["a"]}, [Seen(0.2, 0.0, {"a": 1.0}, {}, 0.1) for _ in range(3)]).beliefs
    assert found["a"].mean == pytest.approx(alone["a"].mean, rel=1e-9)
    down = learned(full, [Seen(-0.2, 0.0, {"a": 1.0, "c": 1.0}, {}, 0.1)]).beliefs
    assert down["c"].mean < down["a"].mean < 0.0  # the other way it moves, and further than the surer one
