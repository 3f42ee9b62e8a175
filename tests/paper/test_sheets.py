"""The sheets as printed, read back from the PDF: what stands on them, how large, how black; and who sees what."""

import io
import re
from dataclasses import replace
from functools import cache

import pdfplumber
import pytest

from bickern.measure.finding import Weight, note, stop, warn
from bickern.measure.units.words import System
from bickern.paper.packet import AUDIENCES, packet
from bickern.paper.pens.page import A4, LETTER, PAPERS, compile_pdf
from bickern.paper.sheets.care import care_lines
from bickern.paper.sheets.customer import customer_sheet
from bickern.paper.sheets.english import in_english
from bickern.paper.sheets.lesson import class_sheet
from bickern.paper.sheets.markout import markout_pages
from bickern.paper.sheets.shop import shop_sheet
from bickern.paper.sheets.tools import tools
from bickern.paper.sheets.wording import to_cut, told
from bickern.parts.bar.result import Mark, MarkKind
from bickern.parts.bar.tracks import Anchor, Branch, Place

NASTY = '"#panic() $x$ ] } \\ `<script>` @a //b /*c*/ \u202e \U0001f525 鉄 \x00\n= head'


def printed(write, copy, paper=LETTER):
    source, files = write(copy, paper)
    return compile_pdf(source, files, 0)


def pages(data):
    return pdfplumber.open(io.BytesIO(data)).pages


@cache
def text_of(data):
    return re.sub(r"\s+", " ", " ".join(page.extract_text() or "" for page in pages(data)))


@pytest.fixture(scope="module")
def sheet():
    @cache
    def made(key):
        from importlib.util import module_from_spec, spec_from_file_location
        from pathlib import Path

        spec = spec_from_file_location("pieces_by_hand", Path(__file__).parent / "conftest.py")
        module = module_from_spec(spec)
        spec.loader.exec_module(module)
        write = {"shop": shop_sheet, "class": class_sheet, "customer": customer_sheet}[key]
        return printed(write, module.lantern_copy())

    return made


def test_the_shop_sheet_says_what_to_cut_large_in_both_systems(sheet):
    words = pages(sheet("shop"))[0].extract_words(extra_attrs=["size"], keep_blank_chars=True)
    large = [word for word in words if word["size"] >= 16]
    said = " ".join(" ".join(word["text"] for word in large).split())
    for length in ("13 in", "7 11/16 in", "4 7/16 in"):
        assert length in said
    text = text_of(sheet("shop"))
    assert "330.5 mm" in text  # 13 in is 330.2 mm: what to cut is rounded up, never down
    assert "CUT THIS" in text


@pytest.mark.parametrize(
    "words",
    [
        "Porch lantern",
        "A lantern for a porch wall",
        "tapers, a scroll, a twist, a cone",
        "punch mark (found by feel after the fire)",
        "shoulder: the taper begins",
        "wall beside the hole",
        "elbow by DIN 6935",
        "3 x D and a thickness",
        "Not confirmed by anything printed",
        "Scale is a range",
        "Everything is hot till proved cold.",
        "No load rating",
        "wax at black heat",
        "common practice",
        "What really happened",
        "Heats",
        "Minutes",
        "mandrel",
        "drift 1/4 in",
        "227°",
        "Seam gap",
        "rivet",
        "Make the scroll first.",
    ],
)
def test_the_shop_sheet_holds(sheet, words):
    assert words in text_of(sheet("shop"))


FINE = ("Cautions", "Faults", "Where published", "How sure")
"""Heads of what is read once, before work: there 9 pt is enough."""


def test_nothing_worked_from_is_printed_smaller_than_can_be_read_at_arms_length(sheet):
    for page in pages(sheet("shop")):
        level = page.filter(lambda mark: mark["object_type"] != "char" or abs(mark["matrix"][1]) < 1e-6)
        lines = level.extract_text_lines(return_chars=True)
        assert all(char["size"] > 8.9 for line in lines for char in line["chars"])
        fine = False
        for line in sorted(lines, key=lambda line: line["top"]):
            if line["chars"][0]["size"] > 12:  # a heading
                fine = line["text"].startswith(FINE)
            worked = [char for char in line["chars"] if not char["fontname"].endswith("It")]
            small = [char for char in worked if char["size"] < 9.9 and char["bottom"] < page.height - 45]
            assert fine or not small, line["text"]


def test_everything_is_black_on_white(sheet):
    black = {(0,), (0.0,), (0, 0, 0), (0.0, 0.0, 0.0), 0, None}
    for page in pages(sheet("shop")):
        for mark in (*page.chars, *page.lines, *page.curves, *page.rects):
            fill, stroke = mark.get("non_stroking_color"), mark.get("stroking_color")
            grey = [c for c in (fill, stroke) if c is not None]
            assert all(len(set(c)) <= 1 if isinstance(c, tuple) else True for c in grey)
        assert {char["non_stroking_color"] for char in page.chars} <= black


def test_no_number_is_ever_given_as_a_load(sheet):
    for key in ("shop", "class", "customer"):
        text = text_of(sheet(key)).lower()
        assert not re.search(r"(wll|swl|working load|safe load|rated (for|at)|holds up to)", text)
        assert "no load rating" in text


def test_a_class_gets_targets_and_a_box_to_sign(sheet):
    text = text_of(sheet("class"))
    for words in ("Class sheet", "Targets", "Signed off", "Student", "instructor", "drawn length"):
        assert words in text
    assert not re.search(r"price|per hour|margin", text, re.IGNORECASE)


def test_a_customer_sees_no_method_and_no_allowance(sheet):
    text = text_of(sheet("customer"))
    for words in ("CUT THIS", "with what the fire takes", "Faults", "Tools", "heat ", "weld", "punch", "strain"):
        assert words not in text.replace("black heat", "")
    for words in ("Porch lantern", "a cone, 8 in (203 mm)", "Use and care", "wax at black heat"):
        assert words in text


def test_the_shops_rate_is_on_no_sheet(lantern):
    rich = replace(lantern, shop=replace(lantern.shop, rate="123.45", currency="USD"))
    rich = replace(rich, pieces=rich.pieces[2:3])
    for audience in AUDIENCES:
        for name, data in packet(rich, LETTER, audience).items():
            if name.endswith(".pdf"):
                assert "123.45" not in text_of(data)
            elif audience != "shop":
                assert b"123.45" not in data, name


def test_gravest_findings_stand_first_and_each_once(lantern):
    found = (note("n", "A note"), warn("w", "A warning"), stop("s", "A stop"), warn("w", "A warning"))
    text = text_of(printed(shop_sheet, replace(lantern, findings=found)))
    assert text.index("STOP: A stop.") < text.index("Think first: A warning.") < text.index("Note: A note.")
    assert text.count("A warning") == 1


def test_any_words_of_a_persons_are_printed_as_they_stand(lantern):
    job = replace(
        lantern.job, title=NASTY, what_for=NASTY * 20, skill=NASTY, finish=NASTY, notes=(NASTY,) * 3, author=NASTY
    )
    pieces = tuple(
        replace(p, spec=replace(p.spec, name=f"{NASTY}{i}", steel=NASTY)) for i, p in enumerate(lantern.pieces)
    )
    copy = replace(lantern, job=job, pieces=pieces, not_validated=(NASTY,), findings=(warn("x", NASTY, NASTY),))
    files = packet(copy, A4, "shop")
    assert all(re.fullmatch(r"[\w./-]+", name) and ".." not in name for name in files)
    for data in (files["shop-sheet.pdf"], printed(class_sheet, copy, A4), printed(customer_sheet, copy, A4)):
        text = text_of(data)
        assert "#panic()" in text
        assert "$x$ ] } \\ `<script>`" in text


def test_a_long_job_runs_over_pages_and_stays_whole(lantern):
    arm, _, links, hood = lantern.pieces
    many = tuple(replace(p, spec=replace(p.spec, name=f"piece {i}")) for i, p in enumerate((arm, links, hood) * 4))
    copy = replace(lantern, pieces=many)
    data = printed(shop_sheet, copy)
    texts = [page.extract_text() or "" for page in pages(data)]
    assert len(texts) > 4
    assert all(f"piece {i}" in " ".join(texts) for i in range(12))
    assert f"page {len(texts)} of {len(texts)}" in texts[-1]


def test_nothing_is_printed_beyond_the_margins(sheet):
    for key in ("shop", "class", "customer"):
        for page in pages(sheet(key)):
            assert all(char["x1"] <= page.width - 20 and char["x0"] >= 20 for char in page.chars)


def test_a_job_of_one_straight_bar_goes_on_a_sheet_of_paper(lantern, arm):
    spec = replace(arm.spec, path=())
    straight = replace(arm, spec=spec, legs=(), bends=(), twists=(), holes=(), marks_on_drawn=(), also=(), findings=())
    copy = replace(lantern, pieces=(straight,), joints=(), findings=())
    assert len(pages(printed(shop_sheet, copy))) <= 2


def test_a_metric_shop_reads_millimetres_first(lantern):
    style = replace(lantern.shop.style, first=System.MM)
    text = text_of(printed(shop_sheet, replace(lantern, shop=replace(lantern.shop, style=style))))
    assert "330.5 mm" in text
    assert "88.9 mm" not in text
    assert re.search(r"320 mm \(12 5/8 in\)", text)


def test_a_drift_that_does_not_hang_on_the_wall_is_to_be_made_first(lantern):
    said = [tool.says for tool in tools(lantern) if tool.first]
    assert not any("drift" in says for says in said)
    poor = replace(lantern, shop=replace(lantern.shop, drifts=(0.010,)))
    assert any("drift 1/4 in" in tool.says and "make it first" in tool.says for tool in tools(poor) if tool.first)
    rich = replace(lantern, shop=replace(lantern.shop, drifts=(0.00635,)))
    assert not any("drift" in tool.says for tool in tools(rich) if tool.first)


def test_the_same_copy_gives_the_same_bytes(lantern):
    assert packet(lantern, LETTER, "shop") == packet(lantern, LETTER, "shop")


def test_a_branch_welded_on_is_cut_from_bar_of_its_own_and_a_split_end_is_not(lantern, arm):
    thorn, tine = (
        replace(arm, spec=replace(arm.spec, name=name, make=1), also=(), findings=()) for name in ("thorn", "tine")
    )
    branches = (Branch("tine", tine.spec), Branch("thorn", thorn.spec, Place(Anchor.DATUM, "", 0.1)))
    parent = replace(arm, spec=replace(arm.spec, make=2, branches=branches), children=(tine, thorn))
    copy = replace(lantern, pieces=(parent,), job=replace(lantern.job, make=3))
    assert [(cut.name, cut.count) for cut in to_cut(copy)] == [("arm", 6), ("arm: thorn", 6)]
    text = text_of(printed(shop_sheet, copy))
    assert "split from the end of arm" in text
    assert "welded on to arm" in text


def test_a_job_of_which_nothing_could_be_reckoned_still_prints_its_findings(lantern):
    copy = replace(lantern, pieces=(), joints=(), findings=(stop("s", "Nothing fits"),))
    for audience in AUDIENCES:
        files = packet(copy, A4, audience)
        if audience == "shop":
            assert "STOP: Nothing fits." in text_of(files["shop-sheet.pdf"])


@pytest.mark.parametrize("paper", PAPERS.values(), ids=PAPERS)
def test_every_paper_takes_the_sheet(lantern, paper):
    page = pages(printed(shop_sheet, lantern, paper))[0]
    assert float(page.width) * 25.4 / 72 == pytest.approx(paper.width * 1000, abs=0.05)


def test_a_very_long_bar_with_many_marks_still_prints(lantern, arm):
    marks = tuple(Mark(0.05 * i, f"mark number {i}", MarkKind.PUNCH) for i in range(60))
    long = replace(arm, marks_on_stock=marks, marks_on_drawn=marks, cut_this=6.0)
    copy = replace(lantern, pieces=(long,), joints=())
    assert markout_pages(copy, LETTER)
    text = text_of(printed(shop_sheet, copy))
    assert "mark number 59" in text
    assert "P60" in text


def test_boxes_to_tick_stand_before_what_is_to_be_done_and_nowhere_else(lantern):
    """A box for each thing to cut, join, find, and think of first; plain facts have none."""
    data = printed(shop_sheet, lantern)
    squares = [
        rect
        for page in pages(data)
        for rect in page.rects
        if abs(rect["width"] - 6.5) + abs(rect["height"] - 6.5) < 0.1
    ]
    weighty = {(one.name, one.says) for one in told(lantern) if one.weight > Weight.NOTE}
    wanted = len(to_cut(lantern)) + len(lantern.joints) + len(tools(lantern)) + len(weighty)
    assert len(squares) == wanted


def test_a_uk_shop_reads_its_own_words_and_a_persons_words_stay(lantern):
    uk = replace(lantern.shop, english="UK")
    job = replace(lantern.job, notes=("Hold it in the vise.",))
    text = text_of(printed(shop_sheet, replace(lantern, shop=uk, job=job)))
    assert "Drawn down" in text
    assert "vice and twisting wrench" in text
    assert "Hold it in the vise." in text
    assert "Drawn out" not in text
    plain = text_of(printed(shop_sheet, lantern))
    assert "Drawn out" in plain
    assert "vise and twisting wrench" in plain


@pytest.mark.parametrize(
    ("us", "uk"),
    [
        ("Upsetting: heavy blows", "Jumping up: heavy blows"),
        ("over the edge of the horn", "over the edge of the bick"),
        ("a horned vise", "a horned vice"),
        ('"horn" ends, draw out `vise`', '"horn" ends, draw down `vise`'),
        ("slack tub and hardy", "bosh and hardie"),
    ],
)
def test_shop_words_in_uk_english(us, uk):
    assert in_english(us, "UK") == uk
    assert in_english(us, "US") == us


def test_a_customer_is_told_how_to_care_for_the_piece(sheet):
    text = text_of(sheet("customer"))
    assert "Wax wears off" in text
    assert "No load rating" in text


def test_care_follows_the_finish_and_the_use():
    lines = " ".join(care_lines("Linseed oil", ("food",)))
    assert "oil it thinly" in lines
    assert "dishwasher" in lines
    assert "Wax" not in lines
    assert len(care_lines("", ())) == 1
