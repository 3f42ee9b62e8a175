"""What a smith must be able to read off the paper: directions, counts, sizes, and pages without what is of no use."""

import io
from dataclasses import replace
from functools import cache
from pathlib import Path

import pdfplumber
import pytest

import bickern.book
from bickern.desk.reckon import reckon_file
from bickern.measure.finding import note
from bickern.paper.marks import Layer, Line, Text, bounds
from bickern.paper.pens.page import A4, LETTER, compile_pdf
from bickern.paper.sheets.markout import bars_of, markout_pages, rules_of
from bickern.paper.sheets.patterns import pattern_pages
from bickern.paper.sheets.sheetsizes import sheet_size
from bickern.paper.sheets.shop import shop_sheet
from bickern.paper.sheets.templates import template_pages
from bickern.paper.sheets.wording import finding, owners
from bickern.paper.views.gauges import cards, merged

EXAMPLES = Path(bickern.book.__file__).parent / "examples"
NAMES = sorted(path.stem for path in EXAMPLES.glob("*.yaml"))


@cache
def copy_of(name):
    return reckon_file(EXAMPLES / f"{name}.yaml").copy


@cache
def sheet_of(name):
    source, files = shop_sheet(copy_of(name), LETTER)
    data = compile_pdf(source, files, 0)
    with pdfplumber.open(io.BytesIO(data)) as book:
        return tuple(" ".join((page.extract_text() or "").split()) for page in book.pages)


def lettered(sheet):
    return [mark for mark in sheet.drawing.marks if isinstance(mark, Text)]


@pytest.mark.parametrize("name", ["crane-chain", "dinner-triangle", "fire-set"])
def test_the_first_page_says_which_way_is_left_and_up_where_bars_are_bent(name):
    assert "left and right are to its sides, up is toward the front face" in sheet_of(name)[0]


def test_a_job_without_bars_has_no_words_about_bars():
    assert "On drawings of bars" not in " ".join(sheet_of("forge-hood"))


def test_two_halves_are_two_blanks():
    assert "2 blanks" in sheet_of("forge-hood")[0]


def test_a_hood_has_its_sizes_and_holds_nothing():
    copy, text = copy_of("forge-hood"), " ".join(sheet_of("forge-hood"))
    says = sheet_size(copy.pieces[0], copy.shop.style)
    assert says.startswith("a cone, 24 in (609.5 mm) across the base, 8 in (203 mm) across the top, 14 in")
    assert "Finished a cone, 24 in" in text
    assert "Holds" not in text


def test_a_chain_is_told_inside_to_inside_and_over_all():
    copy = copy_of("crane-chain")
    chain = copy.pieces[0].chain
    wire = copy.pieces[0].spec.wire.thick
    assert chain.outside == pytest.approx(chain.length + 2 * wire)  # a bar thickness more at either end
    text = " ".join(sheet_of("crane-chain"))
    assert text.index("inside to inside of the end links") < text.index("over all")


def test_a_finding_names_its_piece_once():
    copy = copy_of("dinner-triangle")
    one = note("x", "The bend is tight.")
    pieces = (replace(copy.pieces[0], findings=(one,)), *copy.pieces[1:])
    named = owners(replace(copy, pieces=pieces))
    assert finding(one, named["x", one.says])[1] == "triangle: The bend is tight."
    assert finding(one)[1] == "The bend is tight."


@pytest.mark.parametrize("name", NAMES)
def test_words_of_the_workings_stay_off_the_paper(name):
    text = " ".join(sheet_of(name))
    for word in ("a prior", "scale law", "reckoning.json"):
        assert word not in text
    if not any(bar.twists for bar in bars_of(copy_of(name))):
        assert "length in a twist" not in text


@pytest.mark.parametrize("paper", [LETTER, A4], ids=["letter", "a4"])
@pytest.mark.parametrize("name", NAMES)
def test_no_template_runs_off_the_page(name, paper):
    for sheet in template_pages(copy_of(name), paper):
        box, room = bounds(sheet.drawing.marks), sheet.paper.printable
        assert box.left >= room.left - 0.001
        assert box.right <= room.right + 0.001
        assert box.top <= room.top + 0.001


@pytest.mark.parametrize("name", NAMES)
def test_nothing_lettered_on_a_strip_is_cut_short_or_lies_under_its_own_stroke(name):
    copy = copy_of(name)
    for rule in (rule for bar in bars_of(copy) for rule in rules_of(bar, copy)):
        assert not [mark for mark in rule.picture.marks if isinstance(mark, Text) and "…" in mark.says]
    for sheet in markout_pages(copy, LETTER):
        strokes = [bounds((m,)) for m in sheet.drawing.marks if isinstance(m, Line) and m.layer is Layer.MARK]
        upright = [box for box in strokes if box.width < 1e-9]
        for mark in lettered(sheet):
            assert "…" not in mark.says
            box = bounds((mark,))
            under = [one for one in upright if one.top > box.bottom and one.bottom < box.top]
            assert not [one for one in under if box.left + 0.0002 < one.left < box.right - 0.0002], mark.says


def test_a_strip_with_nothing_on_it_is_not_printed():
    says = [mark.says for sheet in markout_pages(copy_of("fire-set"), LETTER) for mark in lettered(sheet)]
    assert "poker, drawn out: strip 1 of 4" in says
    assert not [one for one in says if one.startswith("poker, drawn out: strip 2 of 4")]
    assert any(one.startswith("poker, drawn out: strip 3 of 4; no strip before it") for one in says)


@pytest.mark.parametrize("paper", [LETTER, A4], ids=["letter", "a4"])
def test_how_pages_are_joined_stands_whole_on_every_page(paper):
    pages = pattern_pages(copy_of("forge-hood"), paper)
    assert len(pages) > 1
    for sheet in pages:
        text = " ".join(mark.says for mark in lettered(sheet))
        assert "Lay diamond on diamond, same letter on same letter." in text


def test_cards_alike_are_one_card_with_every_name():
    copy = copy_of("fire-set")
    every = [card for bar in bars_of(copy) for card in cards(bar, copy.shop.style)]
    once = merged(every)
    assert len(once) < len(every)
    text = " ".join(mark.says for card in once for mark in card.marks if isinstance(mark, Text))
    for bar in bars_of(copy):
        own = cards(bar, copy.shop.style)
        assert not own or bar.spec.name in text


def test_there_is_no_gauge_for_stock_as_it_comes():
    for name in NAMES:
        copy = copy_of(name)
        for bar in bars_of(copy):
            sizes = {run.a.thick for run in bar.runs if run.kept}
            notched = [c for c in cards(bar, copy.shop.style) if any(getattr(m, "says", "") == "GO" for m in c.marks)]
            for card in notched:
                # the wide notch is a sixty-fourth over the size: the third and fourth corner from the end
                points = card.marks[0].points
                wide = points[-4][0] - points[-2][0]
                assert all(abs(wide - 0.0254 / 64 - size) > 1e-5 for size in sizes)
