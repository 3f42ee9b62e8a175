"""Lots against times worked by hand, and against what must hold of any lot: not faster than the hands, not slower than
one by one. The counting itself is exact mathematics; how many seconds a heat takes is checked elsewhere."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bickern.iron.heat.body import ROOM, Body, Chamber
from bickern.iron.heat.warming import warming_seconds
from bickern.making.heats.lots import MOST_IRONS, REHEAT, lot_of
from bickern.making.heats.result import Spell
from bickern.making.shop import Fire, Shop
from bickern.making.work.result import Work
from bickern.measure.spread import Spread, sharp, within
from bickern.measure.units.words import ZERO_C

SHOP = Shop()
CARRY = SHOP.hand.carry


def heat(wants: float, warms: float, *, times: float = 1.0, thin: float = 0.003, gives: float = 40.0) -> Spell:
    """A spell in the fire, all its seconds sharp."""
    works = (Work("arm: taper tip", "arm", "taper", hot=True, thin=thin),)
    return Spell("arm", works, hot=True, times=sharp(times), wants=sharp(wants), warms=sharp(warms), gives=sharp(gives))


def bench(wants: float) -> Spell:
    return Spell("arm", (Work("arm: mark", "arm", "mark"),), hot=False, wants=sharp(wants))


def test_a_shop_takes_three_seconds_from_fire_to_anvil():
    assert CARRY == 3.0


def test_one_piece_waits_for_the_fire_each_time():
    """Two heats: 3 + 27 and 3 + 17 s of hands, 60 and 40 s of fire; 100 s at the bench: 250 s."""
    lot = lot_of(1, (bench(100), heat(27, 60), heat(17, 40)), SHOP)
    assert (lot.irons, lot.together) == (1, False)
    assert lot.seconds == sharp(250)
    assert lot.why == "only one is made"


def test_the_hand_works_one_iron_while_the_others_warm():
    """A heat is 30 s of hands and 75 s of fire: 75 / 30 = 2.5, so 1 + 2 irons. Each then comes every
    (30 + 75)/3 = 35 s; six copies take 75 + 6 x 35 = 285 s. One by one it were 6 x 105 = 630 s."""
    lot = lot_of(6, (heat(27, 75),), SHOP)
    assert (lot.irons, lot.together) == (3, True)
    assert lot.seconds.value == pytest.approx(285)
    assert "30 s in the hand and 75 s in the fire" in lot.why


def test_no_iron_is_longer_in_the_fire_than_it_must():
    """By the figures an iron comes round after the others were worked: (irons - 1) x hands <= its warming."""
    for warms in (10, 29, 30, 31, 59, 61, 200):
        lot = lot_of(12, (heat(27, warms),), SHOP)
        assert (lot.irons - 1) * 30 <= warms


def test_the_second_heat_of_a_place_starts_from_the_heat_it_stopped_at():
    """Three heats: 3 x 3 + 60 s of hands, 50 x (1 + 2 x 0.6) = 110 s of fire."""
    assert REHEAT == 0.6
    assert lot_of(1, (heat(60, 50, times=3),), SHOP).seconds.value == pytest.approx(69 + 110)


@pytest.mark.parametrize("across", [0.005, 0.010, 0.025, 0.050])
def test_the_share_of_a_reheat_is_what_the_curves_of_warming_say(across):
    """From 700 C instead of from 20 C to 1150 C, in a fire of 1250 C: reckoned with the room's own curves, so this only
    keeps the constant and the curves together."""
    body, hot = Body(across / 4), 1150 + ZERO_C
    again, first = (warming_seconds(body, start, hot, Chamber()) for start in (700 + ZERO_C, ROOM))
    assert again / first == pytest.approx(REHEAT, abs=0.05)


def test_a_fire_holds_what_the_shop_says_and_four_where_it_does_not():
    slow = (heat(7, 100),)
    assert lot_of(20, slow, SHOP).irons == MOST_IRONS.value == 4
    assert "4 at most" in lot_of(20, slow, SHOP).why
    told = replace(SHOP, fire=Fire(irons=2))
    assert lot_of(20, slow, told).irons == 2
    assert "the fire holds 2" in lot_of(20, slow, told).why
    assert lot_of(3, slow, SHOP).irons == 3


def test_thin_iron_does_not_wait_in_the_fire():
    """3 mm square has 0.75 mm of area over girth."""
    assert lot_of(20, (heat(7, 100, thin=0.00075),), SHOP).irons == 2
    short = lot_of(20, (heat(7, 100, thin=0.00075, gives=4),), SHOP)
    assert short.irons == 1
    assert short.seconds.value == pytest.approx(20 * 110)


def test_each_heat_has_its_own_number_of_irons():
    """A thick heat in turns of three (75 + 6 x 35 s) and a thin one by itself (6 x (10 + 20) s); the most are told."""
    lot = lot_of(6, (heat(27, 75), heat(7, 20, gives=4)), SHOP)
    assert lot.irons == 3
    assert lot.seconds.value == pytest.approx(75 + 6 * 35 + 6 * 30)
    assert "fewer where the iron is thin" in lot.why


def test_three_alike_are_taken_through_each_heat_in_turn_and_two_only_where_both_lie_in_the_fire():
    quick = (heat(57, 30),)
    assert lot_of(3, quick, SHOP).together
    assert not lot_of(2, quick, SHOP).together
    assert lot_of(2, (heat(27, 60),), SHOP).together


def test_what_sees_no_fire_is_one_after_the_other_and_takes_its_bench():
    lot = lot_of(5, (bench(100),), SHOP)
    assert (lot.irons, lot.together, lot.seconds) == (0, False, sharp(500))
    assert lot_of(2, (), SHOP).seconds == sharp(0)


seconds = st.floats(1, 500).flatmap(lambda v: st.just(within(v, 0.5, 1.8, "hand")))
spells = st.builds(
    lambda wants, warms, times, hot: Spell(
        "it", (), hot=hot, times=times if hot else sharp(1), wants=wants, warms=warms if hot else sharp(0)
    ),
    seconds,
    seconds,
    st.integers(1, 9).map(lambda n: Spread(n, max(1, n // 2), 2 * n)),
    st.booleans(),
)


@given(st.integers(1, 30), st.lists(spells, min_size=1, max_size=8), st.integers(0, 6))
def test_a_lot_is_not_quicker_than_the_hands_and_not_slower_than_one_by_one(make, spells, irons):
    shop = replace(SHOP, fire=Fire(irons=irons))
    lot, alone = lot_of(make, spells, shop), lot_of(1, spells, shop)
    for end in ("low", "value", "high"):
        hands = sum(getattr(s.wants, end) + (getattr(s.times, end) * CARRY if s.hot else 0) for s in spells)
        lasts, one = getattr(lot.seconds, end), getattr(alone.seconds, end)
        assert make * hands - 1e-6 <= lasts <= make * one + 1e-6
    assert lot.irons <= max(1, make)
    assert lot.seconds.low <= lot.seconds.value <= lot.seconds.high


@given(st.lists(spells, min_size=1, max_size=5), st.integers(1, 12))
def test_more_copies_take_longer(spells, make):
    assert lot_of(make + 1, spells, SHOP).seconds.value >= lot_of(make, spells, SHOP).seconds.value - 1e-6


def on_a_longer_bar() -> Spell:
    cut = Work("arm: cut off", "arm", "cut off", hot=True, thin=0.003)
    return replace(heat(7, 60), works=(cut,))


def test_from_longer_bars_each_piece_is_taken_to_its_cut_off():
    """One bar carries one piece at a time: not the same step for all, but a bar for each iron."""
    lot = lot_of(12, (heat(27, 75), on_a_longer_bar()), SHOP)
    assert lot.irons > 1
    assert not lot.together
    assert lot.why.startswith("as many longer bars as irons")
    one = lot_of(12, (heat(27, 10), heat(27, 10), replace(on_a_longer_bar(), wants=sharp(27), warms=sharp(10))), SHOP)
    assert (one.irons, one.together) == (1, False)
    assert one.why.startswith("on one longer bar")


def test_a_single_piece_on_a_longer_bar_is_told_nothing_of_others():
    assert lot_of(1, (on_a_longer_bar(),), SHOP).why == "only one is made"


def test_a_limb_cut_off_its_own_bar_does_not_part_the_lot():
    limb = replace(on_a_longer_bar().works[0], child=("limb",))
    assert lot_of(12, (replace(heat(27, 75), works=(limb,)),), SHOP).together


def test_as_many_longer_bars_as_copies_take_each_step_in_turn():
    lot = lot_of(2, (heat(27, 75), on_a_longer_bar()), SHOP)
    assert (lot.irons, lot.together) == (2, True)
    assert lot.why.startswith("each on a longer bar of its own")
