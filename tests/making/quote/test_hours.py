"""Hours of hand and fire out of an order of work: by hand, and with what the hand learns."""

from dataclasses import replace

import pytest

from bickern.making.heats.lots import lot_of
from bickern.making.heats.result import ONE_HEAT, PiecePlan, Plan, Spell
from bickern.making.quote.hours import hours_of
from bickern.making.quote.learning import average
from bickern.making.shop import Fire, Hand, Shop, Terms
from bickern.making.work.result import NO_TIME, Work
from bickern.measure.spread import Spread, sharp

SHOP = Shop(fire=Fire(irons=1), hand=Hand(carry=3.0))
WORK = (Work("bar: taper", "bar", "taper"),)


def spell(seconds: float, hot: bool = True, fire: float = 60.0) -> Spell:
    wants = Spread(seconds, seconds / 2, seconds * 2)
    return Spell(
        "bar", WORK, hot, times=ONE_HEAT, wants=wants, warms=sharp(fire) if hot else NO_TIME, gives=sharp(30.0)
    )


def plan(spells: tuple[Spell, ...], make: int, shop: Shop = SHOP, finish: tuple[Spell, ...] = ()) -> Plan:
    lot = lot_of(make, spells, shop)
    one = PiecePlan("bar", make, spells, sharp(1.0), lot_of(1, spells, shop).seconds, lot)
    return Plan((one,), (), (), finish, sharp(1.0), lot.seconds)


def test_one_iron_by_hand():
    """Four bars, each 60 s in the fire, 3 s to the anvil, 20 s of work, 10 s at the bench; 30 s to wax each set."""
    found = hours_of(plan((spell(20), spell(10, hot=False)), 4, finish=(spell(30, hot=False),)), 4, SHOP)
    assert found.work.value == pytest.approx(4 * (60 + 3 + 20 + 10) + 4 * 30)
    assert found.fire.value == pytest.approx(4 * (60 + 3 + 20))
    assert (found.work.low, found.work.high) == pytest.approx((4 * (63 + 10 + 5) + 60, 4 * (63 + 40 + 20) + 240))
    assert found.irons == 1


def test_cold_work_needs_no_fire():
    found = hours_of(plan((spell(10, hot=False),), 4), 4, SHOP)
    assert (found.work.value, found.fire.value) == (40, 0)


def test_several_irons_are_quicker_than_one():
    spells = (spell(20), spell(10, hot=False))
    four = replace(SHOP, fire=Fire(irons=4))
    assert hours_of(plan(spells, 24, four), 24, four).work.value < hours_of(plan(spells, 24), 24, SHOP).work.value


def test_the_hand_learns_and_the_fire_does_not():
    """One iron: the hand's 20 s and the bench's 10 s shrink, the fire's 60 s and the 3 s of carrying do not."""
    shop = replace(SHOP, terms=Terms(learns=0.8))
    found = hours_of(plan((spell(20), spell(10, hot=False)), 8, shop), 8, shop)
    left = average(8, 0.8)
    assert left == pytest.approx(5.346 / 8, abs=1e-4)
    assert found.work.value == pytest.approx(8 * (63 + 30 * left))
    assert found.fire.value == pytest.approx(8 * (63 + 20 * left))


def test_where_nothing_is_learned_it_is_the_plan_itself():
    spells = (spell(20), spell(10, hot=False))
    asked = plan(spells, 24)
    assert hours_of(asked, 24, SHOP).work == asked.pieces[0].lot.seconds


def test_joining_and_finish_are_learned_by_the_set():
    """Eight sets of four bars: the bars by 32, the waxing by 8; each by hand."""
    shop = replace(SHOP, terms=Terms(learns=0.8))
    found = hours_of(plan((spell(10, hot=False),), 32, shop, finish=(spell(30, hot=False),)), 8, shop)
    assert found.work.value == pytest.approx(32 * 10 * average(32, 0.8) + 8 * 30 * average(8, 0.8))
    assert found.fire.value == 0.0
