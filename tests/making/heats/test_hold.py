"""By which end a bar is held, and what happens where nothing cold is left to hold."""

from dataclasses import replace

import pytest

from bickern.desk.reckon import reckon_text
from bickern.making.heats.hold import HAND_FROM, Handle, hold_for, tongs_there
from bickern.making.heats.lies import Lying
from bickern.making.heats.pack import bench_of, packed
from bickern.making.heats.plan import plan_of
from bickern.making.heats.result import End, Grip, Plan
from bickern.making.shop import Fire, Shop
from bickern.making.work.result import Work
from bickern.measure.units.words import INCH
from bickern.parts.bar.result import BarResult

DRAW = Work("draw", "it", "draw", hot=True)
LEAF = """
job: leaf
units: in
pieces:
  it:
    bar: 3/8 sq
    metal:
      - {leaf: 2, width: 1, thick: 1/16, name: leaf}
      - {keep: 5, name: shank}
      - {to: 1/32 rd, over: 2, name: tip}
"""


def bar_of(metal: str, stock: str = "1/2 sq", rest: str = "") -> BarResult:
    text = f"job: it\nunits: in\npieces:\n  it:\n    bar: {stock}\n    metal: [{metal}]\n{rest}"
    bar = reckon_text(text, "job.yaml").copy.pieces[0]  # type: ignore[union-attr]
    assert isinstance(bar, BarResult)
    return bar


def plan(bar: BarResult, shop: Shop | None = None) -> Plan:
    return plan_of((bar,), (), "", shop or Shop())


def test_a_bar_that_is_cold_for_a_foot_is_held_in_the_hand_else_in_tongs() -> None:
    """About 12 in of cold bar: common practice."""
    assert HAND_FROM.value == pytest.approx(12 * INCH, abs=0.01)
    long, short = (Lying(bar_of(f"{{keep: {n}}}")) for n in (20, 10))
    by_hand, by_tongs = (hold_for(bar, (0.0, 0.075), (DRAW,), Shop()) for bar in (long, short))
    assert by_hand is not None
    assert by_tongs is not None
    assert (by_hand.end, by_hand.grip) == (End.OTHER, Grip.HAND)
    assert (by_tongs.end, by_tongs.grip) == (End.OTHER, Grip.TONGS)


def test_what_is_in_the_fire_is_not_held() -> None:
    bar = Lying(bar_of("{keep: 4}"))
    assert hold_for(bar, (0.0, 4 * INCH - 0.030), (DRAW,), Shop()) is None
    other = hold_for(bar, (0.05, 4 * INCH), (DRAW,), Shop())
    assert other is not None
    assert other.end is End.DATUM


def test_a_thin_leaf_is_not_gripped_while_the_bar_behind_it_is_stout() -> None:
    bar = reckon_text(LEAF, "job.yaml").copy.pieces[0]  # type: ignore[union-attr]
    assert isinstance(bar, BarResult)
    spell = next(s for s in plan(bar).pieces[0].spells if any(w.name == "tip" for w in s.works))
    assert spell.hold.end is End.DATUM
    assert spell.hold.section is not None
    assert min(spell.hold.section.width, spell.hold.section.thick) >= 0.003
    assert spell.hold.at > 1.5 * INCH  # in from the leaf


def test_a_twist_stands_in_the_vise_beside_its_mark() -> None:
    bar = bar_of(
        "{keep: 6, name: a}, {keep: 3, name: b}, {keep: 6, name: c}", rest="    twist: [{turns: 1, all of: b}]\n"
    )
    spell = next(s for s in plan(bar).pieces[0].spells if s.works[0].does == "twist")
    assert spell.hold.grip is Grip.VISE
    assert spell.hold.at == pytest.approx(6 * INCH, abs=0.011)


def test_a_short_piece_is_made_on_a_longer_bar_and_cut_off_last() -> None:
    """Stock under about 4 in: common practice."""
    made = plan(bar_of("{as: 3/8 rd, over: 1 1/2}, {keep: 1}"))
    works = [w.does for s in made.pieces[0].spells for w in s.works]
    assert "cut bar" not in works
    assert [d for d in works if d != "straighten"][-1] == "cut off"
    assert [f.name for f in made.findings] == ["short-piece"]
    assert all(s.hold.grip is Grip.LONGER for s in made.pieces[0].spells if s.hot)


def test_a_piece_all_of_which_is_worked_is_made_on_a_longer_bar_too() -> None:
    bar = bar_of("{as: 3/8 sq, over: 4 1/2}", stock="1/2 sq")
    made = plan(bar)
    assert bar.stock.value > 0.05
    assert not [f for f in made.findings if f.name == "nothing-to-hold"]


def test_what_cannot_be_held_is_told() -> None:
    """Nobody can hold a bar that is hot from end to end: bickern says so in place of a plan that cannot be followed."""
    bar = bar_of("{as: 3/8 sq, over: 3}")
    whole = Work("it: draw", "it", "draw", zone=(0.0, bar.length), hot=True, start=1400.0, stop=1100.0, thin=0.002)
    bench = packed((whole,), bench_of(bar, Shop()))
    assert len(bench.unheld) == 1


def test_tongs_of_the_shop_are_asked_for() -> None:
    assert tongs_there(0.0095, Shop())
    assert tongs_there(0.0095, Shop(tongs=(0.0095,)))
    assert not tongs_there(0.0095, Shop(tongs=(0.0127,)))
    held = hold_for(Lying(bar_of("{keep: 8}")), (0.0, 0.075), (DRAW,), Shop(tongs=(0.010,)))
    assert held is not None
    assert not held.tongs_there


def test_the_longer_bar_is_the_handle_while_there_is_one() -> None:
    held = hold_for(Lying(bar_of("{keep: 3}")), (0.0, 3 * INCH), (DRAW,), Shop(), Handle(End.OTHER))
    assert held is not None
    assert (held.end, held.grip) == (End.OTHER, Grip.LONGER)


def test_a_heat_between_two_wide_bends_does_not_go_into_a_narrow_fire() -> None:
    metal = "{keep: 30}"
    rest = (
        "    path:\n      - {straight: 8}\n      - {bend: 90, inside radius: 1, turn: left}\n      - {straight: 12}\n"
        "      - {bend: 90, inside radius: 1, turn: left}\n      - {straight: rest}\n"
    )
    bar = bar_of(metal, rest=rest)
    late = Work(
        "it: punch late", "it", "punch", "late", zone=(0.3, 0.32), hot=True, start=1400.0, stop=1100.0, thin=0.003
    )
    from bickern.making.heats.checks import spell_findings

    narrow = Shop(fire=Fire(opening=0.1))
    bends = [w for s in plan(bar).pieces[0].spells for w in s.works if w.bends]
    bench = packed((*bends, late), bench_of(bar, narrow))
    assert [f.name for f in spell_findings(bar, bench, narrow)] == ["will-not-enter-fire"]
    wide = replace(narrow, fire=Fire(opening=1.0))
    assert not list(spell_findings(bar, packed((*bends, late), bench_of(bar, wide)), wide))


def test_a_twist_longer_than_the_fire_is_told() -> None:
    bar = bar_of(
        "{keep: 6, name: a}, {keep: 8, name: b}, {keep: 6, name: c}", rest="    twist: [{turns: 3, all of: b}]\n"
    )
    assert "zone-longer-than-fire" in {f.name for f in plan(bar, Shop(fire=Fire(longest=0.1))).findings}
    assert "zone-longer-than-fire" not in {f.name for f in plan(bar, Shop(fire=Fire(longest=0.4))).findings}


def test_a_twist_that_takes_longer_than_a_heat_is_told() -> None:
    metal = "{{keep: 6, name: a}}, {{keep: 4, name: b}}, {{keep: 6, name: c}}"
    quick, slow = (
        bar_of(metal.format(), stock="1/4 sq", rest=f"    twist: [{{turns: {n}, all of: b}}]\n") for n in (1, 6)
    )
    assert "one-heat-is-short" not in {f.name for f in plan(quick).findings}
    assert "one-heat-is-short" in {f.name for f in plan(slow).findings}
