"""At which heat a work is done, by its metal, and how strong the metal is there."""

from dataclasses import replace

import pytest

from bickern.iron.flow import mean_flow_stress
from bickern.iron.forging import carbon_of, forging_range, hot_strength
from bickern.iron.steel import STEELS
from bickern.making.shop import Hand, Shop
from bickern.making.work import fire
from bickern.making.work.fire import (
    BLACK_HEAT,
    RATE,
    RATE_AT_WRENCH,
    STRAIN_OF_A_BLOW,
    STRAIN_PRESSED,
    WELD_FALLS,
    bends_cold,
    hammered,
    heated,
    low_heat,
    metal_of,
    resistance,
    welded,
    window,
)
from bickern.making.work.result import Work
from bickern.measure.spread import sharp

STOUT = Work("lug: draw", "lug", "draw", "", (0.0, 0.05), thin=0.003, seconds=sharp(3.0))
SCARFED = replace(STOUT, does="weld")


@pytest.mark.parametrize("metal", ["S235JR", "1045", "O1"])
def test_carbon_steel_is_as_strong_as_the_formula_half_way_down_its_heat(metal: str):
    row = forging_range(STEELS[metal])
    half_way = (row.start + row.stop) / 2
    ours = mean_flow_stress(carbon_of(STEELS[metal]), half_way, STRAIN_OF_A_BLOW, RATE)
    assert resistance(STEELS[metal], "draw", STOUT.thin) == pytest.approx(ours)


@pytest.mark.parametrize("metal", ["304", "copper", "brass"])
def test_other_metals_are_not_taken_for_steel(metal: str):
    row = forging_range(STEELS[metal])
    half_way = (row.start + row.stop) / 2
    assert resistance(STEELS[metal], "draw", STOUT.thin) == pytest.approx(
        hot_strength(STEELS[metal], half_way, STRAIN_OF_A_BLOW, RATE).value
    )
    as_steel = mean_flow_stress(carbon_of(STEELS[metal]), half_way, STRAIN_OF_A_BLOW, RATE)
    assert not 0.8 < resistance(STEELS[metal], "draw", STOUT.thin) / as_steel < 1.25


def test_no_steel_is_worked_at_black_heat_but_copper_may_be():
    assert all(heated(STOUT, name).stop >= BLACK_HEAT for name in ("S235JR", "wrought iron", "304", "W1"))
    assert heated(STOUT, "copper").stop < BLACK_HEAT


def test_whatever_a_row_says_no_steel_is_worked_at_black_heat(monkeypatch: pytest.MonkeyPatch):
    row = replace(forging_range(STEELS["S235JR"]), stop=700.0)
    monkeypatch.setattr(fire, "forging_range", lambda _: row)
    assert heated(STOUT, "S235JR").stop == BLACK_HEAT
    assert heated(STOUT, "copper").stop == 700.0


def test_a_metal_nobody_knows_is_worked_as_tool_steel():
    assert metal_of("unobtainium") is STEELS["O1"]
    assert not bends_cold(metal_of("unobtainium"))
    assert not bends_cold(STEELS["12L14"])
    assert bends_cold(STEELS["S235JR"])


def test_a_weld_starts_at_its_own_heat_and_what_does_not_weld_at_its_hottest():
    assert welded(SCARFED, "S235JR").start == forging_range(STEELS["S235JR"]).weld
    assert welded(SCARFED, "304").start == forging_range(STEELS["304"]).start
    assert all(w.whole and w.hot and w.start > w.stop for w in (welded(SCARFED, n) for n in ("S235JR", "304")))


def test_brushing_is_done_half_way():
    row, low = forging_range(STEELS["S235JR"]), low_heat(STOUT, "S235JR")
    assert low.start - low.stop == pytest.approx((row.start - row.stop) / 2)


def test_blows_come_on_top_of_what_hands_take():
    """25 J a blow, half of it useful: 100 J are 8 blows, at 2 a second 4 s, after 3 s of hands (exact)."""
    shop = Shop(hand=Hand(hammer=2.0, speed=5.0, useful=0.5, pace=2.0))
    struck = hammered(STOUT, "S235JR", 100.0, shop)
    assert struck.blows.value == pytest.approx(8.0)
    assert struck.seconds.value == pytest.approx(3.0 + 4.0)
    assert struck.energy == 100.0


def test_a_punch_presses_deeper_a_wrench_turns_slower_and_a_weld_is_struck_in_its_first_blows():
    metal = STEELS["S235JR"]

    def half_way(does: str) -> float:
        return sum(window(metal, does, 0.003)) / 2

    punch = hot_strength(metal, half_way("punch"), STRAIN_PRESSED, RATE).value
    twist = hot_strength(metal, half_way("twist"), STRAIN_PRESSED, RATE_AT_WRENCH).value
    first_blows = window(metal, "weld", 0.003)[0] - WELD_FALLS.lower / 2
    assert resistance(metal, "punch", 0.003) == pytest.approx(punch)
    assert resistance(metal, "twist", 0.003) == pytest.approx(twist)
    weld = hot_strength(metal, first_blows, STRAIN_OF_A_BLOW, RATE).value
    assert resistance(metal, "weld", 0.003) == pytest.approx(weld)


def test_a_weld_is_dressed_after_its_blows():
    """Three seconds on top of the three of hands."""
    assert welded(SCARFED, "S235JR").seconds.value == pytest.approx(6.0)
