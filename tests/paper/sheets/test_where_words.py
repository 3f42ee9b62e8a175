"""Where a heat is and how it is held, in words that are true of rings, joints, long stretches and longer bars."""

from dataclasses import replace

import pytest

from bickern.iron.section import Section
from bickern.making.heats.result import End, Grip, Hold, Spell
from bickern.making.shop import Fire, Shop
from bickern.making.work.result import Work
from bickern.measure.units.words import INCH, Shape, Style, System
from bickern.paper.sheets.where_words import bit_of, bit_says, hold_says, lengths_of, where_says

SQ = Section(Shape.SQUARE, INCH / 2, INCH / 2)
SHOP = Shop()
TONGS = Hold(End.OTHER, Grip.TONGS, SQ, 0.01)
RING = Hold(End.NEITHER, Grip.TONGS, SQ)


def spell(does="draw", case="", zone=(0.0, 0.0), now=(0.0, 0.0), told=End.DATUM, hold=TONGS, **work):
    made = Work(f"arm: {does}", "arm", does, case=case, zone=zone, hot=True, **work)
    return Spell("arm", (made,), True, 1, zone=zone, now=now, told_from=told, hold=hold)


def says(one, long=0.0, shop=SHOP):
    return where_says(one, shop, {("arm",): long})


def test_a_stretch_is_told_from_its_end():
    assert says(spell(zone=(0, 0.05), now=(0, 0.0508)), 0.3) == "0 to 2 in (51 mm) from the datum end"
    # no fire leaves some millimetres at the end cold
    assert says(spell(zone=(0.004, 0.05), now=(0.004, 0.0508)), 0.3) == "0 to 2 in (51 mm) from the datum end"
    middle = spell(zone=(0.1, 0.15), now=(0.1016, 0.1524), told=End.NEITHER)
    assert says(middle, 0.3) == "4 in (101.5 mm) to 6 in (152.5 mm) along it"


def test_a_short_bar_is_hot_all_over_and_on_a_longer_bar_up_to_that():
    whole = spell(zone=(0.0, 0.07), now=(0.0, 0.06))
    assert says(whole, 0.07) == "all of it"
    assert says(replace(whole, hold=Hold(End.OTHER, Grip.LONGER, SQ)), 0.07) == "all of it, up to the longer bar"
    assert says(whole, 0.12) == "0 to 2 3/8 in (60 mm) from the datum end"


def test_a_limb_is_as_long_as_it_is_itself():
    limb = spell(zone=(0.0, 0.07), now=(0.0, 0.07), child=("left",))
    assert where_says(limb, SHOP, {("arm",): 0.03, ("arm", "left"): 0.2}).startswith("0 to ")
    assert where_says(limb, SHOP, {("arm",): 0.3, ("arm", "left"): 0.07}) == "all of it"


@pytest.mark.parametrize(
    ("does", "case", "there"),
    [
        ("scarf", "ring", "both ends"),
        ("scarf", "link", "both ends"),
        ("weld", "ring", "the joint, both ends"),
        ("weld", "link", "the joint, both ends"),
        ("weld", "", "both, where they are joined"),
        ("bend", "link", "the middle"),
        ("bend", "ring", "all of it"),
        ("bend", "collar", "the middle of the collar"),
        ("collar", "", "the collar, all of it; the bundle stays cold"),
        ("shoulder", "tenon", "the tenon and its shoulder"),
        ("rivet hot", "tenon", "the end of the tenon"),
        ("rivet hot", "", "the rivet, from end to end; the parts stay cold"),
    ],
)
def test_what_has_no_place_on_a_bar_is_told_by_what_is_done(does, case, there):
    assert says(spell(does, case, hold=RING, told=End.NEITHER)) == there


def test_a_bar_bent_round_is_welded_where_its_ends_lie_together():
    assert says(spell("weld", zone=(0, 0.075), now=(0, 0.075), hold=RING), 0.6) == "the joint, both ends"


def test_a_long_stretch_is_heated_bit_by_bit():
    long = spell(zone=(0.0, 0.6), now=(0.0, 0.29))
    assert says(long, 0.7).endswith("from the datum end, bit by bit: 6 in (152.5 mm) at a time")
    assert says(long, 0.7, Shop(style=Style(System.MM))).endswith("bit by bit: 150 mm (5 7/8 in) at a time")
    told = Shop(fire=Fire(longest=0.2))
    assert says(long, 0.7, told).endswith("bit by bit: 7 7/8 in (200 mm) at a time")
    assert bit_of(long, Shop(fire=Fire(longest=0.6))) == 0.0
    ring = spell("bend", "ring", hold=RING, told=End.NEITHER)
    assert says(ring, 0.6) == "all of it, bit by bit: 6 in (152.5 mm) at a time"


def test_a_short_stretch_that_comes_out_long_is_heated_bit_by_bit_as_it_grows():
    grows = spell(zone=(0.0, 0.35), now=(0.0, 0.1))
    assert says(grows, 0.7).endswith("from the datum end; as it grows, 6 in (152.5 mm) at a time")


def test_iron_that_will_grow_beside_a_short_work_makes_it_no_long_one():
    """A hole beside metal that is drawn out later: short work, though the finished stretch that is hot is long."""
    hole = spell("punch", zone=(0.06, 0.07), now=(0.04, 0.11))
    hole = replace(hole, zone=(0.04, 0.3))
    assert "at a time" not in says(hole, 0.5)
    assert bit_of(hole, SHOP) == 0.0


def test_what_is_done_in_one_heat_is_never_told_bit_by_bit_and_a_red_is_drawn_through_the_fire():
    assert "at a time" not in says(spell("twist", zone=(0, 0.3), now=(0, 0.3), whole=True), 0.5)
    assert says(spell("brush", zone=(0, 0.5), now=(0, 0.5)), 0.5) == "all of it, drawn through the fire"
    assert says(spell("brush", zone=(0, 0.1), now=(0, 0.1)), 0.1) == "all of it"


def test_tongs_say_what_they_hold_by_and_small_ones_how_they_are_kept():
    assert hold_says(RING, Style()) == "in tongs for 1/2 in sq (12.7 mm)"
    assert hold_says(TONGS, Style()) == "other end, in tongs for 1/2 in sq (12.7 mm), 3/8 in (10 mm) from its end"
    by = hold_says(replace(TONGS, by="the loop"), Style())
    assert by == "other end, in tongs for 1/2 in sq (12.7 mm), by the loop"
    small = hold_says(replace(TONGS, small=True), Style())
    assert small.startswith("other end, in small tongs for 1/2 in sq")
    assert small.endswith("close to the heat: cool them in water between heats")
    assert "(none on the wall: make or find them first)" in hold_says(replace(TONGS, tongs_there=False), Style())


def test_lengths_are_those_of_bars_and_of_the_bar_in_a_ring(lantern):
    lengths = lengths_of(lantern.pieces)
    arm, links = (next(p for p in lantern.pieces if p.spec.name == name) for name in ("arm", "links"))
    assert lengths["arm",] == arm.length
    assert lengths["links",] == links.bare
    assert ("tray",) not in lengths


def test_a_bit_is_told_as_finely_as_the_fire_is_known():
    assert bit_says(0.150, SHOP) == "6 in (152.5 mm) at a time"
    assert bit_says(0.200, Shop(fire=Fire(longest=0.200))) == "7 7/8 in (200 mm) at a time"
