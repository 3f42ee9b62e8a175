"""Blows from energy, and how long they last."""

from dataclasses import replace

import pytest

from bickern.making.heats.unproved import HEATS_UNPROVED
from bickern.making.shop import Hand
from bickern.making.work.blows import BLOWS_SPAN, REACHES, WHY_BLOWS, blows_for, struck
from bickern.making.work.result import NO_TIME

ONE_KILO = Hand(hammer=1.0, speed=5.0, useful=0.2)
"""12.5 J a blow, a fifth of it useful."""


def test_blows_are_energy_over_what_a_blow_gives():
    blows = blows_for(250.0, ONE_KILO, "draw")
    assert blows.value == pytest.approx(100)
    assert (blows.low, blows.high) == pytest.approx((100 / BLOWS_SPAN, 100 * BLOWS_SPAN))
    assert blows.why == (WHY_BLOWS,)


def test_a_heavier_or_faster_hammer_wants_fewer_blows():
    one = blows_for(250.0, ONE_KILO, "draw").value
    assert blows_for(250.0, replace(ONE_KILO, hammer=1.5), "draw").value == pytest.approx(one / 1.5)
    assert blows_for(250.0, replace(ONE_KILO, speed=6.0), "draw").value == pytest.approx(one * 25 / 36)
    assert blows_for(250.0, replace(ONE_KILO, useful=0.4), "draw").value == pytest.approx(one / 2)


@pytest.mark.parametrize("does", sorted(REACHES))
def test_what_need_not_be_forged_back_takes_more_of_a_blow(does: str):
    assert blows_for(250.0, Hand(), does).value < blows_for(250.0, Hand(), "draw").value


def test_no_energy_no_blows():
    assert blows_for(0.0, Hand(), "twist") == NO_TIME


def test_hammering_goes_at_the_smiths_pace():
    blows = blows_for(250.0, ONE_KILO, "draw")
    assert struck(blows, Hand(pace=2.0)).value == pytest.approx(50)


def test_the_span_of_blows_is_the_one_that_is_told():
    assert f"blows may be {BLOWS_SPAN:g} times" in HEATS_UNPROVED
