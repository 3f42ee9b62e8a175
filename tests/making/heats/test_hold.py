"""By which end a bar is held, and what happens where nothing cold is left to hold."""

from dataclasses import replace

import pytest

from bickern.desk.reckon import reckon_text
from bickern.making.heats.hold import HAND_FROM, Handle, hold_for
from bickern.making.heats.lies import Lying
from bickern.making.heats.pack import bench_of, packed
from bickern.making.heats.plan import plan_of
from bickern.making.heats.result import End, Grip, Hold, Plan
from bickern.making.shop import Fire, Shop, hangs_there
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
    assert bench.spells[0].hold == Hold(End.NEITHER, Grip.CLAMP)  # never hot on the bench


def test_tongs_of_the_shop_are_asked_for() -> None:
    assert hangs_there(0.0095, Shop().tongs)
    assert hangs_there(0.0095, (0.0095,))
    assert not hangs_there(0.0095, (0.0127,))
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


def test_a_twist_longer_than_a_small_fire_is_told_where_the_shop_says_nothing() -> None:
    metal = "{{keep: 6, name: a}}, {{keep: {}, name: b}}, {{keep: 6, name: c}}"
    twist = "    twist: [{turns: 3, all of: b}]\n"
    short, long = ({f.name for f in plan(bar_of(metal.format(n), rest=twist)).findings} for n in (6, 12))
    assert "zone-longer-than-fire" in long
    assert "zone-longer-than-fire" not in short


def test_a_twist_that_takes_longer_than_a_heat_is_told() -> None:
    metal = "{{keep: 6, name: a}}, {{keep: 4, name: b}}, {{keep: 6, name: c}}"
    quick, slow = (
        bar_of(metal.format(), stock="1/4 sq", rest=f"    twist: [{{turns: {n}, all of: b}}]\n") for n in (1, 6)
    )
    assert "one-heat-is-short" not in {f.name for f in plan(quick).findings}
    assert "one-heat-is-short" in {f.name for f in plan(slow).findings}


# --- where on the bar the jaws take hold -----------------------------------------------------------------------------


def grips(metal: str, stock: str, rest: str, does: str) -> Hold:
    spells = plan(bar_of(metal, stock, rest)).pieces[0].spells
    return next(s.hold for s in spells if any(w.does == does for w in s.works))


def test_an_eye_that_the_jaws_close_on_is_told() -> None:
    bend = "{bend: 90, inside radius: 1/2}"
    path = f"    path: [{{eye: 1, turn: left, name: loop}}, {{straight: rest}}, {bend}, {{straight: 1}}]\n"
    held = grips("{keep: 7}", "1/2 rd", path, "bend")
    assert (held.grip, held.end, held.by) == (Grip.TONGS, End.DATUM, "the loop")
    assert grips("{keep: 7}", "1/2 rd", path, "curl").by == ""


def test_jaws_close_on_plain_bar_behind_an_eye_where_there_is_any() -> None:
    """Tongs by a finished eye crush it: common practice."""
    bend = "{bend: 90, inside radius: 1/2}"
    path = f"    path: [{{eye: 1, turn: left, name: loop}}, {{straight: rest}}, {bend}, {{straight: 1}}]\n"
    held = grips("{keep: 10}", "1/2 rd", path, "bend")
    assert (held.grip, held.end, held.by) == (Grip.TONGS, End.DATUM, "")
    assert held.at > 3 * INCH


def test_jaws_close_on_the_stout_bar_behind_a_finished_tenon() -> None:
    """The first tenon is as thick as the blade, but a quarter as wide."""
    tenon = "{as: 1/2 x 1/4, over: 1, name: tenon}"
    metal = f"{tenon}, {{as: 2 x 1/4, over: 8, name: blade}}, {{to: 1 x 1/8, over: 2, name: tip}}"
    held = grips(metal, "2 x 1/4", "", "taper")
    assert held.end is End.DATUM
    assert held.section is not None
    assert held.section.width == pytest.approx(2 * INCH)


def test_a_curve_without_a_name_is_told_by_what_it_is() -> None:
    scroll = "{scroll: {turns: 1, inside radius: 1/2, outside radius: 1 1/2}, turn: left}"
    path = f"    path: [{scroll}, {{straight: rest}}, {{bend: 90, inside radius: 1/2, turn: left}}, {{straight: 1}}]\n"
    assert grips("{keep: 11}", "1/2 sq", path, "bend").by == "the scroll"


def test_jaws_do_not_close_on_a_twist_while_plain_bar_is_there() -> None:
    """Tongs mark it: common practice."""
    twist = "    twist: [{turns: 1, all of: b}]\n"
    bend = "    path: [{straight: 8}, {bend: 90, inside radius: 1/2, turn: left}, {straight: rest}]\n"
    bar = bar_of("{keep: 3, name: b}, {keep: 7, name: c}", "3/8 sq", bend + twist)
    spell = next(s for s in plan(bar).pieces[0].spells if s.works[0].does == "bend")
    assert spell.hold.end is End.DATUM
    assert spell.hold.at > 3 * INCH


def test_jaws_close_on_metal_as_stout_as_the_bar_and_not_on_the_first_that_is_thick_enough() -> None:
    bar = bar_of("{from: 1/8 rd, to: 3/8 rd, over: 2, name: point}, {keep: 6}", "3/8 rd")
    made = Lying(bar).after((Work("taper", "it", "taper", runs=(0,)),))
    held = hold_for(made, (made.length - 0.075, made.length), (DRAW,), Shop())
    assert held is not None
    assert held.section is not None
    assert held.section.thick >= 0.75 * 3 / 8 * INCH - 1e-9


def test_small_tongs_take_hold_only_where_there_is_no_more_room() -> None:
    bar = Lying(bar_of("{keep: 4}", "3/8 sq"))
    hot = (0.0, 4 * INCH - 0.020)
    assert hold_for(bar, hot, (DRAW,), Shop()) is None
    held = hold_for(bar, hot, (DRAW,), Shop(), small=True)
    assert held is not None
    assert held.small
    assert held.end is End.OTHER
    assert hold_for(bar, (0.0, 4 * INCH - 0.010), (DRAW,), Shop(), small=True) is None


def test_a_short_heat_in_the_middle_takes_in_one_end_so_that_the_other_can_be_held() -> None:
    """5 1/2 in of bar, a hole in the middle: 3 in hot there leave 1 1/4 in at each end, too little for tongs."""
    hole = "    holes: [{size: 1/4, by: punch, at: 2 3/4, face: front, name: hole}]\n"
    made = plan(bar_of("{keep: 5 1/2}", "1 x 1/4", hole))
    (spell,) = [s for s in made.pieces[0].spells if s.hot]
    assert not made.findings
    assert spell.hold.grip is Grip.TONGS
    assert not spell.hold.small
    cold = max(spell.zone[0], 5.5 * INCH - spell.zone[1])
    assert cold >= 0.040
    assert spell.zone[0] < 2.75 * INCH < spell.zone[1]


def test_what_is_cut_off_is_held_by_its_bar_until_then_and_in_tongs_after_it() -> None:
    path = "    path: [{straight: rest}, {eye: 1/2, turn: up, name: loop}]\n"
    bar = bar_of("{leaf: 1 1/4, width: 5/8, thick: 1/16}, {to: 1/8 rd, over: 2}", "1/4 sq", path)
    spells = plan(bar).pieces[0].spells
    cut = next(i for i, s in enumerate(spells) if any(w.does == "cut off" for w in s.works))
    assert spells[cut].works[-1].does == "cut off"
    assert spells[cut].hold.grip is Grip.LONGER
    assert [w.name for w in spells[cut + 1].works] == ["loop"]
    assert spells[cut + 1].hold.grip is Grip.TONGS


def test_a_limb_is_held_by_the_bar_that_it_grows_out_of_and_is_its_share_of_it() -> None:
    limbs = "    split: {one: {metal: [{as: 1/4 sq, over: 3}]}, other: {like: one}}\n"
    bar = bar_of("{keep: 9}, {as: 1 x 1/4, over: 1, name: palm}", "1/2 sq", limbs)
    spell = next(s for s in plan(bar).pieces[0].spells if s.works[0].child == ("one",))
    assert (spell.hold.end, spell.hold.grip) == (End.DATUM, Grip.TONGS)
    assert spell.hold.section is not None
    assert spell.hold.section.width == pytest.approx(INCH / 2)  # the handle, not the palm
    metal = 3 / 16 / (1 / 2 * 1 / 4) * INCH  # 3 in of 1/4 sq out of half of 1 x 1/4
    assert metal <= spell.now[1] - spell.now[0] <= 1.06 * metal
