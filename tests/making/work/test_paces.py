"""How long hands take: guesses, but none out of all reason."""

import pytest

from bickern.making.work.paces import PACES, WHY_HANDS, hands

REASON = {"m": (10.0, 900.0), "m2": (100.0, 1e6), "m3": (1e6, 1e10)}
"""Seconds for one of each unit between which any row lies (a judgement: it catches slips of a figure, no more)."""
ONE = (1.0, 600.0)
"""The same for one hole, one turn, one piece."""


def test_a_row_is_what_is_done_once_and_what_grows():
    twist = PACES["twist"]
    seconds = hands("twist", 2.0)
    assert seconds.value == pytest.approx(twist.once + 2 * twist.each)
    assert (seconds.low, seconds.high) == pytest.approx((twist.low * seconds.value, twist.high * seconds.value))
    assert twist.low != 0.5
    assert seconds.why == (WHY_HANDS,)


@pytest.mark.parametrize("key", sorted(PACES))
def test_every_row_has_a_span_and_a_source(key: str):
    pace = PACES[key]
    assert pace.low < 1 < pace.high
    assert pace.once >= 0
    assert pace.each >= 0
    assert pace.source.where
    assert pace.key == key
    assert not (pace.each and not pace.of)


@pytest.mark.parametrize("key", sorted(PACES))
def test_a_row_is_a_guess_within_reason(key: str):
    pace = PACES[key]
    assert 0.0 <= pace.once <= 60.0
    if pace.each:
        low, high = REASON.get(pace.of.replace(":", " ").split()[0], ONE)
        assert low <= pace.each <= high


def test_twice_as_much_takes_twice_as_long_where_nothing_is_done_only_once():
    one, two = hands("scribe a line"), hands("scribe a line", 2.0)
    assert two.value == pytest.approx(2 * one.value)
    assert (one.low, one.high) == pytest.approx((one.value / 2, one.value * 2))
