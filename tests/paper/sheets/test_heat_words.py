"""The plan in words: what a smith reads at each heat, in both systems and both kinds of English."""

from dataclasses import replace

import pytest

from bickern.iron.colour import TABLES, colour_word
from bickern.iron.section import Section
from bickern.making.heats.result import End, Lot, Spell, ToolFirst
from bickern.making.heats.unproved import HEATS_UNPROVED
from bickern.making.work.faults import FAULTS
from bickern.making.work.result import Work
from bickern.making.work.ways import WAYS
from bickern.measure.finding import Where, stop
from bickern.measure.spread import Spread, sharp
from bickern.measure.units.words import INCH, Shape, Style, System
from bickern.paper.sheets.english import in_english
from bickern.paper.sheets.heat_amounts import alike, duration, heats, numbered, ranged
from bickern.paper.sheets.heat_words import faults_told, groups, head_lines, lot_says, tool_says
from bickern.paper.sheets.work_words import work_words


def shop_of(copy, **more):
    return replace(copy, shop=replace(copy.shop, **more))


def all_words(copy):
    spells = [one for group in groups(copy, copy.plan) for one in group.spells]
    works = [f"{w.title} {w.tools} {w.how} {w.check} {w.fault} {w.caution}" for one in spells for w in one.works]
    return " ".join([*works, *(f"{one.hold} {one.cold}" for one in spells)])


def spells_of(copy, index=0):
    return groups(copy, copy.plan)[index].spells


@pytest.mark.parametrize(
    ("seconds", "says"),
    [
        (0.4, "1 s"), (7.4, "7 s"), (23, "25 s"), (88, "1 1/2 min"), (150, "2 1/2 min"), (610, "10 min"),
        (2400, "40 min"), (5300, "1 h 30 min"), (5200, "85 min"), (4810, "80 min"), (5400, "1 h 30 min"), (7200, "2 h"),
        (36000, "10 h"), (0.0, "0 s"),
    ],
)  # fmt: skip
def test_times_are_told_as_coarse_as_they_are_long(seconds, says):
    assert duration(seconds) == says


def test_no_time_is_told_more_than_a_third_off():
    for seconds in [x / 7 for x in range(10, 20000)]:
        said = duration(seconds)
        number, _, unit = said.partition(" ")
        whole = float(number)
        if said.startswith(("1 1/2", "2 1/2", "3 1/2", "4 1/2")):
            whole, unit = whole + 0.5, "min"
        told = whole * {"s": 1, "min": 60}.get(unit, 3600)
        if " h " in said:
            told += 60 * float(said.split()[2])
        assert told == pytest.approx(seconds, rel=0.34)


@pytest.mark.parametrize(
    ("spread", "says"),
    [
        (Spread(25, 18, 33), "25 s (18 to 35)"),
        (Spread(60, 40, 96), "60 s (40 to 100)"),
        (Spread(2400, 1500, 4800), "40 min (25 to 80)"),
        (Spread(5000, 3000, 9000), "85 min (50 min to 2 h 30 min)"),
        (sharp(30), "30 s"),
    ],
)
def test_a_range_says_its_unit_once_where_it_is_one(spread, says):
    assert ranged(spread) == says


def test_begun_heats_are_counted_whole():
    assert heats(Spread(8.2, 4.1, 15.5)) == "9 heats (5 to 16)"
    assert heats(sharp(1)) == "1 heat"
    assert heats(sharp(0)) == "no heat"


def test_heats_are_numbered_through_the_job():
    assert numbered(3, sharp(1)) == "Heat 3"
    assert numbered(4, sharp(2)) == "Heats 4 and 5"
    assert numbered(4, Spread(3, 2, 6)) == "Heats 4 to 6"
    assert alike(Spread(3, 2, 6)) == "3 alike (2 to 6)"
    assert alike(Spread(1, 1, 2)) == "perhaps 2 heats"
    assert alike(sharp(1)) == ""


def test_a_heat_says_its_colour_by_the_shops_table_with_both_degrees(planned):
    said = spells_of(planned)[1]
    word = colour_word(planned.shop.hand.colours, 1150 + 273.15)
    assert said.pull == f"{word}, 2100 °F (1150 °C)"
    metric = replace(planned, shop=replace(planned.shop, style=replace(planned.shop.style, first=System.MM)))
    assert spells_of(metric)[1].pull == f"{word}, 1150 °C (2100 °F)"


@pytest.mark.parametrize("table", sorted(TABLES))
def test_the_table_of_colours_is_named_once_and_followed(planned, table):
    copy = shop_of(planned, hand=replace(planned.shop.hand, colours=table))
    lines = dict(head_lines(copy, copy.plan))
    assert table in lines["Heat colours"]
    assert spells_of(copy)[1].pull.startswith(colour_word(table, 1150 + 273.15))
    assert not any(table in one.pull for one in spells_of(copy))


def test_where_and_hold_are_told_on_the_bar_as_it_lies(planned):
    bench, taper, palm, twist, _ = spells_of(planned)
    assert taper.where == "0 to 1 1/2 in (38 mm) from the datum end"
    assert palm.where == "0 to 2 in (51 mm) from the other end"
    assert twist.where == "8 in (203 mm) to 14 in (355.5 mm) from the datum end"
    assert taper.hold == "other end, in the hand"
    assert palm.hold.startswith("datum end, in tongs for 1/2 in sq (12.7 mm), 4 in (101.5 mm) from its end (none on")
    assert twist.hold == "other end, in the vise"
    assert taper.cold == "the mark of the shoulder"
    assert (bench.pull, bench.where, bench.hold) == ("", "", "")


def test_seconds_are_a_range_with_what_is_wanted(planned):
    taper = spells_of(planned)[1]
    assert taper.gives == "each gives 25 s (18 to 35)"
    assert taper.time == "work for 60 s (40 to 90) in all; warms in 1 1/2 min (1 to 2 1/2)"


def test_each_work_says_tool_place_how_size_check_in_both_systems(planned):
    taper = spells_of(planned)[1].works[0]
    text = f"{taper.title} {taper.how} {taper.check}"
    assert "1/8 in rd (3.2 mm)" in text
    assert "4 in (101.5 mm)" in text
    assert "anvil" in taper.tools
    twist = spells_of(planned)[3].works[0]
    assert "1 1/2 turns" in twist.title + twist.how
    assert "-" not in twist.title


def test_the_size_to_stop_at_is_told_even_where_the_way_has_no_gap_for_it(planned):
    leaf = Work("x", "arm", "scroll", name="end", after=planned.pieces[0].stock_section)
    assert "Stop at 1/2 in sq (12.7 mm)." in work_words(leaf, Style(), "US").how


def test_a_fault_is_told_once_and_a_caution_once_for_a_piece(planned):
    every = [work for group in groups(planned, planned.plan) for one in group.spells for work in one.works]
    faults = [one.fault for one in every if one.fault]
    assert len(faults) == len(set(faults))
    bends = [work for work in spells_of(planned)[3].works if "end" in work.title.lower()]
    assert sum("never bend at black heat" in work.caution for work in bends) == 1
    for group in groups(planned, planned.plan):
        cautions = [work.caution for one in group.spells for work in one.works if work.caution]
        assert len(cautions) == len(set(cautions))
    cut = [work for work in every if work.title.startswith("Cut the stock")]
    assert len(cut) == 2
    assert all("Cutting off" in work.caution for work in cut)  # each piece has its own caution


def test_faults_at_a_step_are_those_told(planned):
    text = all_words(planned)
    told = faults_told(planned, planned.plan)
    assert told
    assert all(text.count(fault.cure) == (fault in told) for fault in FAULTS)


def test_a_lot_says_how_many_irons_and_how_long(planned):
    turn = "two irons in the fire, each step for all of them before the next"
    assert lot_says(planned.plan.pieces[0]) == f"3: {turn}, about 80 min for all (the irons wait hot)"
    links = planned.plan.pieces[1]
    assert "fire" not in lot_says(links)
    one_by_one = replace(planned.plan.pieces[0], lot=Lot("arm", 3, 1, False, sharp(7200), ""))
    assert lot_says(one_by_one) == "3: one iron in the fire, piece by piece, about 2 h for all"


def test_a_piece_says_its_heats_test_and_cuts_and_a_refused_one_why(planned):
    arm, links, hood, joining = groups(planned, planned.plan)
    assert (arm.title, arm.aside) == ("1. arm", "6 heats (4 to 12), about 40 min (25 to 80) each")
    lines = dict(arm.lines)
    assert lines["Cut"].startswith("14 1/4 in (362 mm) reckoned before the heats were counted, 14 3/8 in")
    assert lines["Test piece first"].startswith("The twist")
    assert links.aside.startswith("no heat")
    assert (hood.aside, dict(hood.lines)["Why"]) == ("no heats are offered", "The sheet is galvanised: never heat it.")
    assert joining.title == "Joining"


def test_a_cut_that_the_heats_did_not_change_is_not_told_twice(planned):
    same = replace(planned.plan.pieces[0], last_cut=14.25 * INCH)
    copy = replace(planned, plan=replace(planned.plan, pieces=(same,)))
    assert "Cut" not in dict(groups(copy, copy.plan)[0].lines)


def test_what_is_not_proved_is_said_at_the_head(planned):
    lines = dict(head_lines(planned, planned.plan))
    assert lines["Not proved"] == HEATS_UNPROVED


def test_the_words_are_those_of_the_shop(planned):
    uk = shop_of(planned, english="UK")
    for word, in_uk in (("vise", "vice"), ("hardy", "hardie"), ("Draw out palm", "Draw down palm"), ("horn", "bick")):
        assert word in all_words(planned)
        assert word not in all_words(uk)
        assert in_uk in all_words(uk)


def test_a_piece_named_like_a_tool_keeps_its_name():
    horn = Work("x", "horn", "cut sheet")
    assert "horn" in work_words(horn, Style(), "UK").title
    assert "bick" not in work_words(horn, Style(), "UK").title


def test_what_is_done_as_before_is_told_by_where_that_stands(planned):
    bend, again = spells_of(planned)[3].works[1:]
    assert len(bend.how) > 40
    above = 'As for "Bend elbow sharp to 90°" above.'  # in the same heat
    assert (again.tools, again.how, again.check) == ("", above, "")
    assert "foot" in again.title
    cut = spells_of(planned, 1)[0].works[1]
    assert (cut.tools, cut.how) == ("", "As for arm.")  # at the bench: as for the piece before


def test_turns_at_the_bench_that_follow_one_another_are_one(planned):
    arm = planned.plan.pieces[0]
    bench = arm.spells[0]
    twice = replace(planned.plan, pieces=(replace(arm, spells=(bench, replace(bench, works=bench.works[1:]))),))
    said = groups(replace(planned, plan=twice), twice)[0].spells
    assert [len(one.works) for one in said] == [3]
    assert said[0].time == "10 min (7 to 17)"


@pytest.mark.parametrize(
    ("does", "name", "title"),
    [
        ("bend", "bend", "Bend it"),
        ("bend", "hook bend", "Bend the hook bend"),
        ("twist", "twisted part", "Twist the twisted part"),
        ("scroll", "scroll", "Scroll it"),
        ("taper", "tip", "Taper tip"),
    ],
)
def test_no_title_says_its_verb_twice_without_an_article(does, name, title):
    assert work_words(Work("x", "arm", does, name=name), Style(), "US").title == f"{title}."


def test_two_copies_of_one_piece_are_told_by_their_numbers():
    rivet = Work("x", "half", "rivet", name="half 1", amount=5 / 16 * INCH, with_pieces=("half 2",))
    assert work_words(rivet, Style(), "US").title == "Rivet half 1 to half 2, 5/16 in (8 mm)."


@pytest.mark.parametrize(
    ("case", "check"), [("", "dress the end"), ("bends", "dress the end now"), ("end", "still to be forged")]
)
def test_what_is_cut_off_early_says_so_and_an_end_still_to_be_forged_is_not_dressed(case, check):
    said = work_words(Work("x", "leg", "cut off", hot=True, case=case), Style(), "US")
    assert check in said.check
    assert ("dress" in said.check) == (case != "end")
    assert said.how.startswith("Now, not last: the rest is held by what is made.") == (case != "")


def test_places_are_told_as_words():
    ring = Work(
        "x", "links 1", "thread", with_pieces=("arm", "hood"), says="through arm.scroll, hood.lugs 1 and links 2"
    )
    how = work_words(ring, Style(), "US").how
    assert "Through scroll of arm, lugs 1 of hood and links 2." in how


def test_no_way_holds_a_word_of_the_other_side_of_the_water():
    for way in WAYS:
        text = " ".join((way.title, way.tool, way.place, way.how, way.check))
        said = in_english(text, "UK")
        for word in ("vise", "hardy", "slack tub", "upset ", " horn"):
            assert word not in said


def twin_of(planned, **more):
    """The plan with a second arm, whose palm is drawn in the same way but for what is given."""
    arm = planned.plan.pieces[0]
    palm = replace(arm.spells[2], piece="twin", number=7, now=(0.0, 3 * INCH), **more)
    twin = replace(arm, piece="twin", spells=(palm,), last_cut=0.0)
    return replace(planned, plan=replace(planned.plan, pieces=(arm, twin)))


def test_a_heat_as_one_of_a_piece_before_is_told_by_that_with_what_differs(planned):
    copy = twin_of(planned)
    first, palm = spells_of(copy)[2], spells_of(copy, 1)[0]
    assert palm.like == "heats 4 and 5 (arm)"
    assert palm.where == "0 to 3 in (76 mm) from the other end"
    assert palm.hold == first.hold
    assert (palm.works[0].title, palm.works[0].how, palm.works[0].check) == (first.works[0].title, "", "")
    assert not first.like


def test_a_heat_that_measures_otherwise_says_its_check(planned):
    palm = planned.plan.pieces[0].spells[2].works[0]
    longer = replace(palm, zone=(13 * INCH, 17 * INCH))
    said = spells_of(twin_of(planned, works=(longer,)), 1)[0]
    assert said.like
    assert "4 in (101.5 mm)" in said.works[0].check


@pytest.mark.parametrize("other", [{"told_from": End.DATUM}, {"start": 1300.0}, {"cool": ("the tip",)}])
def test_a_heat_from_the_other_end_or_at_another_heat_is_told_in_full(planned, other):
    said = spells_of(twin_of(planned, **other), 1)[0]
    assert not said.like
    assert said.works[0].how


def test_heats_of_one_piece_are_never_told_as_one_another(planned):
    arm = planned.plan.pieces[0]
    twice = replace(arm, spells=(arm.spells[2], replace(arm.spells[2], number=6)))
    copy = replace(planned, plan=replace(planned.plan, pieces=(twice,)))
    first, again = spells_of(copy)
    assert (first.like, again.like) == ("", "")
    assert again.works[0].how == "As at heats 4 and 5."


def test_a_class_is_not_told_how_lots_are_made(planned):
    told = [dict(group.lines) for group in groups(planned, planned.plan)]
    taught = [dict(group.lines) for group in groups(planned, planned.plan, lots=False)]
    assert any("Make" in lines for lines in told)
    assert not any("Make" in lines for lines in taught)
    assert [{**one, "Make": ""} for one in told] == [{**one, "Make": ""} for one in taught]


def test_a_refused_piece_says_what_was_found(planned):
    found = stop("size", "the hole leaves no wall", "a smaller hole", Where("x.yaml", 3, 5, "pieces.hood.holes[1]"))
    other = stop("size", "something else", "", Where("x.yaml", 3, 5, "pieces.hood 2"))
    copy = replace(planned, findings=(other, found))
    assert dict(groups(copy, copy.plan)[2].lines)["Found"] == "The hole leaves no wall."
    assert "Found" not in dict(groups(planned, planned.plan)[2].lines)


def test_the_head_of_the_joining_counts_the_fire_that_is_waited_for(planned):
    hot = Spell(
        "arm", (Work("weld", "arm", "weld", hot=True),), True, times=sharp(2), wants=sharp(20), warms=sharp(120)
    )
    plan = replace(planned.plan, joining=(hot,))
    # two heats: 20 s of hands, 3 s to the anvil each, 120 s of fire and 0.6 of that again
    assert "about 3 1/2 min" in groups(planned, plan)[-1].aside


def test_a_pin_is_told_as_fine_as_a_fit(planned):
    pin = Work("pin", "pintle", "pin", amount=15 / 32 * INCH, case="drawn", with_pieces=("strap",))
    assert "15/32 in" in work_words(pin, planned.shop.style, "US").title


def test_a_tool_for_a_flat_tenon_is_told_by_width_and_thickness(planned):
    flat = Section(Shape.FLAT, 0.5 * INCH, 0.25 * INCH)
    says = tool_says(ToolFirst("monkey tool", 0.25 * INCH, "", "", flat), planned.shop.style)
    assert "1/2 x 1/4 in" in says
