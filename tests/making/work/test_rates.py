"""Rates of hands at work: guesses, but none out of all reason."""

import pytest

from bickern.making.work.rates import NOT_TIMED, RATES, time_of

REASON = {"each": (1.0, 600.0), "m": (10.0, 900.0), "m2": (500.0, 1e5), "m3": (1e6, 1e10)}
"""Seconds for one of each unit between which any rate lies (a judgement: it catches slips of a figure, no more)."""


@pytest.mark.parametrize("what", sorted(RATES))
def test_a_rate_is_a_guess_within_reason(what: str):
    row = RATES[what]
    low, high = REASON[row.per]
    assert low <= row.seconds <= high
    assert row.source.where


def test_twice_as_much_takes_twice_as_long_half_to_twice():
    one, two = time_of("scribe a line"), time_of("scribe a line", 2.0)
    assert two.value == pytest.approx(2 * one.value)
    assert (one.low, one.high) == pytest.approx((one.value / 2, one.value * 2))
    assert one.why == (NOT_TIMED,)
