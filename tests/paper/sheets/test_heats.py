"""The cards of the plan, read back from the PDF: what stands on them, how large, in which order, and for whom."""

import io
import re
from dataclasses import replace

import pdfplumber
import pytest

from bickern.making.heats.lies import done_by
from bickern.making.work.result import Work
from bickern.paper.pens.page import A4, LETTER, compile_pdf
from bickern.paper.sheets.customer import customer_sheet
from bickern.paper.sheets.heat_pictures import drawing_of
from bickern.paper.sheets.heats import heats_parts
from bickern.paper.sheets.lesson import class_sheet
from bickern.paper.sheets.setting import document, fill, keep, lines_to_fill, stack, words
from bickern.paper.sheets.shop import shop_sheet


def pages_of(write, copy, paper=LETTER):
    source, files = write(copy, paper)
    return pdfplumber.open(io.BytesIO(compile_pdf(source, files, 0))).pages


def text_of(write, copy, paper=LETTER):
    return re.sub(r"\s+", " ", " ".join(page.extract_text() or "" for page in pages_of(write, copy, paper)))


def only_cards(copy, paper):
    """A sheet with nothing but the cards."""
    return document(fill(heats_parts(copy, paper), (), (), paper), paper, "x", "")


READ = {}


@pytest.fixture
def text(planned):
    if "shop" not in READ:
        READ["shop"] = text_of(shop_sheet, planned)
    return READ["shop"]


@pytest.mark.parametrize(
    "words",
    [
        "The order of work, one heat at a time", "6 heats (4 to 12)", "Heats 1 to 3", "3 alike (2 to 6)", "Heat 6",
        "Pull at", "2100 °F (1150 °C)", "0 to 1 1/2 in (38 mm) from the datum end", "in the hand", "Keep cold",
        "Taper tip to 1/8 in rd (3.2 mm)", "Check:", "Usual fault:", "Caution:", "Test piece first:",
        "14 3/8 in (365 mm) with what they take", "two irons in the fire", "Make or find first:", "drift 1/4 in",
        "no heats are offered", "the sheet is galvanised", "Joining", "Not proved:",
    ],
)  # fmt: skip
def test_the_shop_sheet_says(text, words):
    assert words.lower() in text.lower()


def test_what_is_not_proved_is_said_once(text):
    assert text.count("not validated by anything printed") == 1
    assert text.count("Something else is not confirmed") == 1


def test_steps_stand_in_the_order_of_the_plan(text):
    cards = text[text.index("The order of work") :]
    order = ["1. arm", "Heats 1 to 3", "Heats 4 and 5", "Heat 6", "Drill upper screw", "2. links", "3. hood", "Joining"]
    places = [cards.index(one) for one in order]
    assert places == sorted(places)


def test_numbers_of_heats_are_large_enough_for_an_arms_length(planned):
    letters = [one for page in pages_of(shop_sheet, planned) for one in page.extract_words(extra_attrs=["size"])]
    heat = [one["size"] for one in letters if one["text"] in ("Heat", "Heats")]
    assert max(heat) >= 16


def test_the_picture_of_a_heat_is_as_wide_as_it_may_be_and_black(planned):
    pages = pages_of(only_cards, planned)
    for page in pages:
        for mark in (*page.curves, *page.lines, *page.rects):
            for colour in (mark.get("stroking_color"), mark.get("non_stroking_color")):
                parts = colour if isinstance(colour, tuple | list) else (colour,)
                shades = {one for one in parts if isinstance(one, int | float)}
                assert len(shades) <= 1  # grey, black or white: nothing is told by colour


@pytest.mark.parametrize("paper", [LETTER, A4], ids=["letter", "a4"])
def test_a_card_is_never_broken_over_a_page(planned, paper):
    arm = planned.plan.pieces[0]
    many = replace(arm, spells=arm.spells * 4)
    copy = replace(planned, plan=replace(planned.plan, pieces=(many,)))
    for page in pages_of(only_cards, copy, paper):
        said = page.extract_text() or ""
        heads, ends = said.count("Pull at"), said.count("Hold ")
        assert heads == ends
        first = said.split("\n")[0]
        assert first.startswith(("The order", "Heat", "Bench", "1. arm", "Joining")), first


def test_a_class_sees_the_heats_and_no_money_and_a_customer_none_of_it(planned):
    shop = replace(planned.shop, rate="4321", currency="EUR")
    copy = replace(planned, shop=shop)
    taught = text_of(class_sheet, copy)
    assert "Heats 1 to 3" in taught
    assert "4321" not in taught
    sold = text_of(customer_sheet, copy)
    for word in ("Heats 1 to 3", "Pull at", "one heat at a time", "Usual fault"):
        assert word not in sold


def test_without_a_plan_the_sheet_has_no_word_of_heats(lantern):
    assert heats_parts(lantern, LETTER) == ()
    assert "one heat at a time" not in text_of(shop_sheet, lantern)


def test_faults_that_stand_at_a_step_are_not_told_again_at_the_end(text):
    assert text.lower().count("fish mouth") == 1  # of a taper: at its step
    assert text.index("ish mouth") > text.index("Heats 1 to 3")


def test_a_name_that_is_code_for_the_page_setter_is_printed_as_it_stands(planned):
    nasty = '"#panic() $x$ ] } {0} {name} \\ //b'
    arm = planned.plan.pieces[0]
    work = Work("arm: x", "arm", "straighten", name=nasty, hot=True, says=nasty)
    spell = replace(arm.spells[1], works=(work,), cool=(nasty,))
    copy = replace(planned, plan=replace(planned.plan, pieces=(replace(arm, spells=(spell,)),)))
    assert "#panic() $x$" in text_of(shop_sheet, copy)


def test_before_and_after_abreast_make_a_lower_picture_and_a_heat_that_leaves_no_trace_has_none(planned):
    arm = planned.plan.pieces[0]
    taper, twist = arm.spells[1], arm.spells[3]
    under, abreast = (drawing_of(taper, arm, planned, wide, wide > 0.1) for wide in (0.07, 0.12))
    assert abreast.bounds.height < 0.7 * under.bounds.height
    assert under.bounds.width <= 0.0701
    assert abreast.bounds.width <= 0.1201
    straight = replace(twist, works=(Work("x", "arm", "straighten", hot=True),))
    assert drawing_of(straight, arm, planned, 0.07) is None
    assert drawing_of(taper, None, planned, 0.07) is None


def test_what_works_leave_done_is_gathered_by_number():
    works = (
        Work("a", "x", "taper", runs=(0, 1)),
        Work("b", "x", "bend", bends=(2,)),
        Work("c", "x", "drill", holes=(1,)),
    )
    done = done_by(works)
    assert (done.runs, done.bends, done.twists, done.holes) == ({0, 1}, {2}, frozenset(), {1})


def test_a_heat_like_one_before_is_a_row_without_a_picture_and_keeps_its_box_and_size(planned):
    arm = planned.plan.pieces[0]
    twin = replace(arm, piece="twin", spells=(replace(arm.spells[2], piece="twin", number=7),), last_cut=0.0)
    copy = replace(planned, plan=replace(planned.plan, pieces=(arm, twin)))
    alone = replace(planned, plan=replace(planned.plan, pieces=(arm,)))
    said = text_of(only_cards, copy)
    row = said[said.index("2. twin") :]
    for told in ("Heats 7 and 8", "Pull at", "As at heats 4 and 5 (arm).", "Hot", "Hold", "each gives 25 s"):
        assert told in row
    assert len(only_cards(copy, LETTER)[1]) == len(only_cards(alone, LETTER)[1])  # no further picture


def test_a_class_sees_no_lots_on_its_cards(planned):
    assert "irons in the fire" in text_of(shop_sheet, planned)
    taught = text_of(class_sheet, planned)
    assert "irons in the fire" not in taught
    assert "Test piece first" in taught


def lines(many):
    return keep(stack(*[lines_to_fill(["a"])] * many))


def as_page(part, paper):
    return document(part, paper, "x", "")


def test_pieces_are_cut_only_where_that_saves_a_page():
    """Twenty lines take more than half of a page and less than two thirds; five a sixth."""
    whole, fives = [lines(20)] * 3, [lines(5)] * 12
    assert len(pages_of(as_page, fill(whole, (), (), LETTER))) == 3
    assert len(pages_of(as_page, fill(whole, (), (), LETTER, fives))) == 2
    same = fill([words("whole", 12)], (), (), LETTER, [words("in pieces", 12)])
    assert "in pieces" not in text_of(as_page, same)
