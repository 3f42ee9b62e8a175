"""The cut list on paper: every length with its letter and mark, read back from the page; its files beside it."""

import csv
import io
import json
from collections.abc import Sequence
from dataclasses import replace
from decimal import Decimal
from fractions import Fraction
from itertools import combinations

import ezdxf
import pdfplumber
import pytest
import shapely
from ezdxf import bbox
from hypothesis import given, settings
from hypothesis import strategies as st

from bickern.desk.cut.cut import CutPlan
from bickern.desk.cut.files import not_at_full_size
from bickern.geometry.pack.shapes.result import Laid
from bickern.geometry.polygon import bounds, disc, rectangle
from bickern.iron.section import Section
from bickern.making.shop import Cutting, Shop
from bickern.making.stock.cuts import BarCuts, Buy, Lack, Off, SectionCuts, marked
from bickern.making.stock.rack import StockBar, StockSheet, Taking
from bickern.making.stock.sheet_cuts import GaugeCuts, PartLaid, SheetCuts, SheetLack
from bickern.making.stock.wants import SheetWant, Want
from bickern.making.work.cautions import that_apply
from bickern.measure.finding import warn
from bickern.measure.units.say import other_first, say_length
from bickern.measure.units.words import INCH, Shape, System
from bickern.paper.cut_packet import MOST_PAGES, cut_packet, near_parts, nests, pages_by_area, plan_csv, plan_told
from bickern.paper.marks import Line, Text, Weight, text_corners
from bickern.paper.pens.page import LETTER, MARGIN, PAPERS
from bickern.paper.sheets.cut_list import cut_list
from bickern.paper.sheets.cut_words import (
    CutCopy,
    bar_words,
    buy_rows,
    far_says,
    labels_of,
    letters_of,
    mark_step,
    marks,
    marks_said,
    part_says,
    parts_in_order,
    proof_says,
    saw_says,
    sheet_head,
    short_rows,
    short_says,
)
from bickern.paper.sheets.setting import words
from bickern.paper.views.cut_bar import Length, cut_bar
from bickern.paper.views.scale import trimmed
from bickern.parts.sheet.result import Pattern

SQ = Section(Shape.SQUARE, 3 / 8 * INCH, 3 / 8 * INCH)
KERF = 0.0025


def want(name: str, inches: float, count: int = 1, **more: object) -> Want:
    return Want(f"job/{name}", name, "Rail", SQ, "S235JR", inches * INCH, count, **more)


def bar_cuts(name: str, inches: float, wants: Sequence[Want], kerf: float = KERF, **more: object) -> BarCuts:
    offs, at = [], 0.0
    for one in wants:
        offs.append(Off(one, at, at + one.length))
        at += one.length + kerf
    stock = StockBar(name, SQ, inches * INCH, "S235JR", "none", "left wall", **more)
    drop = stock.length - at
    return BarCuts(stock, tuple(offs), drop, drop > 0.1)


HOOK, PEG, RIVET = want("hook", 7.0625, 5), want("peg", 3.5, 2), want("rivet", 0.5, 4, bought=True)
BARS = SectionCuts(
    SQ,
    "S235JR",
    (bar_cuts("B12", 38.5, [HOOK] * 3 + [PEG]), bar_cuts("B13", 8, [HOOK], offcut=True)),
    (Lack(HOOK, 1), Lack(RIVET, 4)),
    (Buy(6.0, 1),),
    0.2,
    500.0,
    500.0,
    True,
)
PLATE = SheetWant("job/plate", "plate", "Rail", Pattern("plate", rectangle(0.1, 0.05)), 0.0012, "18 ga", "", 2)
LID = SheetWant("job/lid", "lid", "Rail", Pattern("lid", disc(0.04)), 0.0012, "18 ga", "", 3)


def gauge(wide: float = 0.4, high: float = 0.3, turn: float = 0.0) -> GaugeCuts:
    stock = StockSheet("S3", 0.0012, rectangle(wide, high), (), "S235JR", "none", "door", gauge="18 ga")
    parts = (
        PartLaid(PLATE, Laid(PLATE.key, "S3", 0.0, 0.003, 0.003)),
        PartLaid(PLATE, Laid(PLATE.key, "S3", turn, 0.2, 0.1)),
        PartLaid(LID, Laid(LID.key, "S3", 0.0, 0.3, 0.05)),
    )
    return GaugeCuts(0.0012, "18 ga", "", (SheetCuts(stock, parts, (stock,)),), (SheetLack(LID, 2),), False)


def copy_of(**more: object) -> CutCopy:
    cautions = that_apply(frozenset(("cut bar", "cut sheet")), frozenset(("mild",)), frozenset())
    told = {
        "jobs": ("Rail",),
        "shop": Shop(cutting=Cutting(kerf=KERF)),
        "bars": (BARS,),
        "sheets": (),
        "cautions": cautions,
    }
    return CutCopy(**(told | more))


def words_on(pdf: bytes) -> str:
    with pdfplumber.open(io.BytesIO(pdf)) as book:
        return " ".join(" ".join(page.extract_text() or "" for page in book.pages).split())


# ---- words


def test_letters_are_one_for_each_want_bars_first():
    assert letters_of(copy_of(sheets=(gauge(),))) == {
        "job/hook": "A",
        "job/peg": "B",
        "job/rivet": "C",
        "job/plate": "D",
        "job/lid": "E",
    }


def test_running_marks_hold_the_kerf_and_go_up_to_half_a_mark_of_the_tape():
    """7 1/16 in, then twice that and .0984 in of kerf, 14.223 in: 14 7/32 in would be short, so 14 1/4 in.

    In millimetres by themselves: 179.39 goes up to 179.5, and with 2.5 and 179.39 more, 361.39, to 361.5.
    """
    copy = copy_of()
    told = bar_words(BARS.bars[0], copy, letters_of(copy))
    assert [line.to for line in told.lines][:2] == ["7 1/16 in (179.5 mm)", "14 1/4 in (361.5 mm)"]
    assert [line.letter for line in told.lines] == ["A", "A", "A", "B"]
    assert told.where == "left wall, S235JR"


@settings(max_examples=60, deadline=None)
@given(
    st.lists(st.floats(0.3, 20.0), min_size=1, max_size=14),
    st.sampled_from([16, 32, 64]),
    st.sampled_from(System),
    st.floats(0.0, 0.004),
)
def test_no_piece_comes_short_by_the_marks_of_either_tape(
    inches: list[float], denominator: int, first: System, kerf: float
):
    """Read back from the words: from the kerf past one mark to the next there is the length that is told, or more."""
    shop = Shop(cutting=Cutting(kerf=kerf))
    shop = replace(shop, style=replace(shop.style, inch_denominator=denominator, first=first))
    wants = [want(f"pin {i}", size) for i, size in enumerate(inches)]
    cut = bar_cuts("B1", sum(inches) + len(inches) * (0.1 + kerf / INCH) + 1.0, wants, kerf)
    (cut,) = marked(replace(BARS, bars=(cut,)), shop.cutting, mark_step(shop.style)).bars
    assert not cut.tight
    copy = copy_of(shop=shop, bars=(replace(BARS, bars=(cut,), lacks=()),))
    for told in zip(*marks_said(cut, copy), strict=True):
        marks = [_metres(says) for says in told]
        for i, one in enumerate(wants):
            before = marks[i - 1] + kerf if i else 0.0
            assert marks[i] - before >= one.length - 1e-8
            assert marks[i] - before <= one.length + 2 * (INCH / 32 + 0.0005)  # and no more than both tapes' marks
    assert [line.to for line in bar_words(cut, copy, letters_of(copy)).lines] == [
        f"{one} ({two})" for one, two in marks_said(cut, copy)
    ]


def _metres(says: str) -> float:
    if says.endswith(" mm"):
        return float(says.removesuffix(" mm")) / 1000
    return float(sum(Fraction(part) for part in says.removesuffix(" in").split())) * INCH


def test_a_bar_too_full_for_such_marks_says_so_and_none_of_its_marks_is_before_its_true_end():
    """Ten of 7 1/16 in and their kerfs leave 1 mm of the bar: ten marks that go up would want up to 8 mm."""
    wants = [HOOK] * 10
    full = bar_cuts("B1", (10 * HOOK.length + 9 * KERF + 0.001) / INCH, wants)
    (cut,) = marked(replace(BARS, bars=(replace(full, drop=0.0),)), Cutting(kerf=KERF), INCH / 32).bars
    assert cut.tight
    assert cut.offs == full.offs
    copy = copy_of(bars=(replace(BARS, bars=(cut,), lacks=()),))
    assert "measure each length anew" in bar_words(cut, copy, letters_of(copy)).drop
    for told in zip(*marks_said(cut, copy), strict=True):
        assert all(_metres(says) >= off.end - 1e-8 for says, off in zip(told, cut.offs, strict=True))


def test_pieces_short_are_told_with_the_rule_and_what_would_have_to_give_way_for_the_longest():
    """A post of 20 in: two hooks, their kerfs and the drop of 6.32 in give 20.64 in; one hook alone gives 13.48."""
    post = want("post", 20, 1)
    plan = replace(BARS, bars=(bar_cuts("B1", 27.8, [HOOK] * 3),), lacks=(Lack(post, 1), Lack(HOOK, 2)), buy=())
    copy = copy_of(bars=(plan,))
    named = letters_of(copy)
    assert short_says(copy, named) == (
        "The rule was as few pieces short as can be, a long one counted like a short one.",
        "To have one B, leave out 2 of A on B1.",
    )
    longer = replace(plan, lacks=(Lack(want("post", 60), 1), Lack(HOOK, 2)))  # no bar holds that, whatever is left out
    assert len(short_says(copy_of(bars=(longer,)), letters_of(copy_of(bars=(longer,))))) == 1
    assert short_says(copy_of(bars=(replace(plan, bars=()),)), named) == ()  # nothing was cut: there was no choice
    assert short_says(copy_of(bars=(replace(plan, lacks=(Lack(RIVET, 2),)),)), named) == ()
    assert "as few pieces short as can be" in words_on(cut_packet(copy, LETTER)["cut-list.pdf"])


def test_what_is_short_is_told_and_what_is_bought_ready_made_stands_among_what_to_buy():
    copy = copy_of(sheets=(gauge(),))
    assert [(row[0], row[1], row[2]) for row in short_rows(copy, letters_of(copy))] == [
        ("A", "hook", "1 of 5 short"),
        ("E", "lid", "2 of 3 short"),
    ]
    bought = buy_rows(copy)
    assert bought[0][0] == "4 ready made"
    assert bought[1] == ("1 of 236 7/32 in (6000 mm)".replace("7/32", "1/4"), "3/8 in sq (9.5 mm), S235JR")


def test_a_bound_is_told_where_there_is_no_proof():
    copy = copy_of()
    assert proof_says(replace(BARS, lacks=()), copy) == (
        "proven: no plan from this rack loses less bar, a drop that is kept counted at nine tenths"
    )
    assert "leaves fewer short" in proof_says(BARS, copy)
    open_ = replace(BARS, proven=False, bound=460.0, why="the time was up")
    assert proof_says(open_, copy) == (
        "not proven: another plan could lose at most 1 5/8 in (40 mm) of bar less, "
        "a drop that is kept counted at nine tenths; the time was up"
    )


def test_a_hot_cut_and_a_vise_are_told():
    told = saw_says(copy_of(shop=Shop(cutting=Cutting(hot=True, dress=0.003, grip=0.05))))
    assert "Cut hot" in told
    assert "The vise holds the last 1 15/16 in (50 mm)." in told


def test_parts_of_a_letter_are_numbered_and_told_from_the_corner_of_the_sheet():
    (cut,) = gauge(turn=1.5707963267948966).sheets
    copy = copy_of(sheets=(gauge(),))
    assert labels_of(cut, letters_of(copy)) == ("D1", "D2", "E")
    way, at = part_says(cut.parts[1], cut.stock, copy.shop.style)
    assert way == "turned 90°"
    assert at == "5 7/8 in (150 mm) right, 3 15/16 in (100 mm) up"
    assert part_says(cut.parts[0], cut.stock, copy.shop.style)[0] == "as drawn"


# ---- the page


def test_every_figure_stands_on_the_page():
    copy = copy_of(
        sheets=(gauge(),),
        findings=(warn("stock-refused", "B6 (yard) is refused"),),
        instead=(("job/hook", "B7, 1/2 in sq, drawn down"),),
    )
    said = words_on(cut_packet(copy, LETTER)["cut-list.pdf"])
    named = letters_of(copy)
    for cut in BARS.bars:
        told = bar_words(cut, copy, named)
        assert cut.stock.id in said
        for line in told.lines:
            assert line.long in said
            assert line.to.partition(" (")[0] in said
            assert line.to.partition(" (")[2].rstrip(")") in said
    for one in ("Left over: 13 7/16 in", "hook", "peg", "S3", "D1", "D2", "plate", "lid", "Short", "To buy"):
        assert one in said, one
    for one in ("B6 (yard) is refused", "B7, 1/2 in sq, drawn down", "Eye protection always", "deburr at once"):
        assert one in said, one


def test_two_points_fix_how_a_part_lies_and_the_list_goes_by_letters():
    """By hand: a plate 0.1 x 0.05 turned 90 degrees about (0.2, 0.1) stands from (0.15, 0.1) to (0.2, 0.2)."""
    (cut,) = gauge(turn=1.5707963267948966).sheets
    style = Shop().style
    assert part_says(cut.parts[0], cut.stock, style)[1] == "1/8 in (3 mm) right, 1/8 in (3 mm) up"
    assert far_says(cut.parts[0], cut.stock, style) == "4 1/16 in (103 mm) right, 2 1/16 in (53 mm) up"
    assert part_says(cut.parts[1], cut.stock, style)[1] == "5 7/8 in (150 mm) right, 3 15/16 in (100 mm) up"
    assert far_says(cut.parts[1], cut.stock, style) == "7 7/8 in (200 mm) right, 7 7/8 in (200 mm) up"
    assert far_says(cut.parts[2], cut.stock, style) == "", "a disc lies the same however it is turned"
    mixed = replace(cut, parts=(cut.parts[2], *cut.parts[:2]))
    named = letters_of(copy_of(sheets=(gauge(),)))
    assert [label for label, _ in parts_in_order(mixed, named)] == ["D1", "D2", "E"]


def test_what_is_to_be_seen_to_stands_before_the_first_bar_and_no_heading_stands_alone():
    refused = tuple(warn("stock-refused", f"B{n} (yard) is refused") for n in range(3))
    copy = copy_of(findings=refused, bars=(replace(BARS, bars=tuple([BARS.bars[1]] * 9)),))
    with pdfplumber.open(io.BytesIO(cut_packet(copy, LETTER)["cut-list.pdf"])) as book:
        pages = [page.extract_text() for page in book.pages]
    assert pages[0].index("B2 (yard) is refused") < pages[0].index("B13")
    for page in pages:
        last = page.splitlines()[-2]  # the foot comes after it
        assert not last.startswith(("Before the first cut", "Short", "To buy", "Cautions for cutting")), last


def test_nothing_of_a_bar_with_very_many_lengths_runs_off_the_page():
    wants = [want(f"pin {i}", 0.6) for i in range(100)]
    plan = replace(BARS, bars=(bar_cuts("B1", 80, wants),), lacks=(), buy=())
    with pdfplumber.open(io.BytesIO(cut_packet(copy_of(bars=(plan,)), LETTER)["cut-list.pdf"])) as book:
        low = [word["bottom"] for page in book.pages for word in page.extract_words()]
        said = " ".join(page.extract_text() for page in book.pages)
        assert max(low) < book.pages[0].height
    assert all(f"pin {i} " in said for i in range(100))


def test_once_taken_the_list_says_which_id_is_painted_on_what_is_left():
    copy = copy_of(sheets=(gauge(),))
    assert words_on(cut_packet(copy, LETTER)["cut-list.pdf"]).count("New id: ________") == 2
    said = words_on(cut_packet(replace(copy, drops=(("B12", ("B31",)), ("S3", ("S4",)))), LETTER)["cut-list.pdf"])
    assert "Paint on it: B31" in said
    assert "Paint on it: S4" in said
    assert "New id" not in said


def test_no_line_ends_inside_a_size():
    """`10` at the end of a line and `11/16` on the next would be cut as two sizes."""
    says = words("within 10 11/16 x 7 5/8 in (271 mm) of it").code
    assert r"within 10\u{a0}11/16 x 7\u{a0}5/8\u{a0}in (271\u{a0}mm) of it" in says


def test_an_odd_sheet_is_told_from_a_whole_one():
    (cut,) = gauge().sheets
    assert sheet_head(cut, Shop().style) == "S3  18 ga, .047 in (1.2 mm), 15 3/4 x 11 13/16 in (400 x 300 mm)"
    holed = replace(cut, stock=replace(cut.stock, cutouts=(disc(0.03, (0.2, 0.2)),)))
    assert "odd, within 15 3/4 x 11 13/16 in (400 x 300 mm)" in sheet_head(holed, Shop().style)


def test_the_same_plan_is_the_same_bytes_and_a_name_is_never_markup():
    copy = copy_of(jobs=("Rail #strong[x] $y$ \\",), sheets=(gauge(),))
    one, two = (cut_packet(copy, PAPERS["a4"]) for _ in range(2))
    assert one == two
    assert "#strong[x] $y$" in words_on(one["cut-list.pdf"])


def test_a_bar_drawn_is_marked_at_each_end_of_a_length_and_lettered():
    (picture,) = cut_bar(
        1.0, [Length("A", 0.0, 0.3, ("1", "2")), Length("B", 0.3025, 0.5, ("3", "4"))], "left 1/2", 0.19
    )
    letters = [mark.says for mark in picture.marks if isinstance(mark, Text)]
    assert letters[:2] == ["A", "B"]
    assert {"1", "2", "3", "4"} <= set(letters)
    assert "left 1/2" in letters
    assert picture.bounds.width <= 0.195


@pytest.mark.parametrize("wide", [LETTER.width - 2 * MARGIN, PAPERS["a4"].width - 2 * MARGIN])
@pytest.mark.parametrize("inches", [0.6, 4.8125, 29.90625])
@pytest.mark.parametrize("count", [1, 9, 10, 11, 22, 40, 100])
def test_no_figure_of_a_bar_is_crossed_by_a_leader_or_stands_on_another(wide: float, inches: float, count: int):
    """Exact, by shapely: the room kept for every line of lettering is clear of all lettering and of every line."""
    pitch, style = inches * INCH + KERF, marks(Shop().style)
    ends = [i * pitch + inches * INCH for i in range(count)]
    said = [(say_length(end, style), say_length(end, other_first(style))) for end in ends]
    cuts = [Length("A", i * pitch, end, mark) for i, (end, mark) in enumerate(zip(ends, said, strict=True))]
    rows = cut_bar(count * pitch + 0.35, cuts, "left 13 3/4 in (350 mm)", wide)
    told = []
    for picture in rows:
        assert trimmed(picture).bounds.width <= wide
        texts = [mark for mark in picture.marks if isinstance(mark, Text)]
        rooms = [shapely.Polygon(text_corners(mark)).buffer(-1e-4) for mark in texts]  # tails kept out
        assert not [(a, b) for a, b in combinations(rooms, 2) if a.intersects(b)]
        lines = [shapely.LineString((m.start, m.end)) for m in picture.marks if isinstance(m, Line)]
        assert not [(room, line) for room in rooms for line in lines if room.intersects(line)]
        told += [mark.says for mark in texts if mark.weight is Weight.BOLD and mark.says != "A"]
    assert list(dict.fromkeys(told)) == [say_length(one.end, style) for one in cuts]
    assert sum(mark.says == "A" for picture in rows for mark in picture.marks if isinstance(mark, Text)) == count


def test_a_bar_of_a_hundred_lengths_still_goes_on_the_page():
    wants = [want(f"pin {i}", 0.6) for i in range(100)]
    plan = replace(BARS, bars=(bar_cuts("B1", 80, wants),), lacks=(), buy=())
    source, files = cut_list(copy_of(bars=(plan,)), LETTER)
    assert source
    assert files
    assert cut_packet(copy_of(bars=(plan,)), LETTER)["cut-list.pdf"]


# ---- the files


def test_json_keys_carry_units_and_every_want_is_there():
    told = plan_told(copy_of(sheets=(gauge(),)))
    assert json.loads(json.dumps(told)) == told
    (section,) = told["bars"]
    assert [len(one["cuts"]) for one in section["bars"]] == [4, 1]
    assert section["bars"][0]["cuts"][1]["start_m"] == pytest.approx(7.0625 * INCH + KERF)
    assert section["short"][1]["bought_ready_made"] is True
    (part, _, _) = told["sheets"][0]["sheets"][0]["parts"]
    assert (part["x_m"], part["y_m"], part["turn_rad"]) == (0.003, 0.003, 0.0)


def test_csv_has_a_row_for_each_length_and_takes_no_formula():
    copy = copy_of(jobs=("=1+1", "Rail"))
    plan = replace(BARS, bars=(bar_cuts("B1", 38.5, [replace(HOOK, job="=1+1", name="@hook")]),))
    rows = list(csv.reader(io.StringIO(plan_csv(replace(copy, bars=(plan,))).decode("utf-8-sig"))))
    assert len(rows) == 2
    row = dict(zip(rows[0], rows[1], strict=True))
    assert (row["piece"], row["job"]) == ("'@hook", "'=1+1")
    assert (row["cut in"], row["cut mm"], row["mark in"]) == ("7 1/16", "179.5", "7 1/16")
    assert Decimal(row["left mm"]) == pytest.approx(Decimal("796"), abs=Decimal("0.5"))


def test_a_nest_in_dxf_is_as_large_as_its_sheet():
    files = cut_packet(copy_of(sheets=(gauge(),)), LETTER)
    document = ezdxf.read(io.StringIO(files["nests/S3.dxf"].decode()))
    cut = [e for e in document.modelspace() if e.dxf.layer.lower() == "cut"]
    outline = [e for e in document.modelspace() if e.dxf.layer.lower() == "outline"]
    box = bbox.extents(outline)
    assert box.size.x == pytest.approx(0.4 / INCH, abs=1e-3)
    assert box.size.y == pytest.approx(0.3 / INCH, abs=1e-3)
    assert cut
    assert files["nests.pdf"]


def test_pages_at_full_size_show_the_parts_and_not_the_bare_sheet():
    """Parts that fill 0.34 x 0.15 m of a sheet of 2.4 x 1.2 m take a few pages; the sheet alone would take sixty."""
    ((_, picture),) = nests(copy_of(sheets=(gauge(2.4, 1.2),)), sizes=False)
    assert pages_by_area(picture, LETTER) > MOST_PAGES
    shown = near_parts(picture)
    assert pages_by_area(shown, LETTER) <= 4
    for part in gauge().sheets[0].parts:
        (left, low), (right, high) = bounds(part.outline)
        box = shown.bounds
        assert box.left < left < right < box.right
        assert box.bottom < low < high < box.top


def test_a_part_is_as_large_on_the_page_as_it_is_and_the_page_is_named_by_its_sheet():
    """The plate is 100 x 50 mm and the check rule 4 in: measured in the PDF, whose unit is 1/72 in by its standard."""
    with pdfplumber.open(io.BytesIO(cut_packet(copy_of(sheets=(gauge(),)), LETTER)["nests.pdf"])) as book:
        shapes = [one for page in book.pages for one in (*page.curves, *page.rects)]
        lines = [one for page in book.pages for one in page.lines]
        said = " ".join(page.extract_text() for page in book.pages)
    point = INCH / 72
    sizes = [((one["x1"] - one["x0"]) * point, (one["bottom"] - one["top"]) * point) for one in shapes]
    assert any(sorted(size) == pytest.approx([0.05, 0.1], abs=2e-5) for size in sizes)
    assert any((one["x1"] - one["x0"]) * point == pytest.approx(4 * INCH, abs=1e-5) for one in lines)
    assert "S3 A1" in said
    assert "mm)" not in said, "running sizes stand in the list and in the DXF"


def test_pages_at_full_size_are_left_out_where_nobody_would_tape_them():
    plate = replace(PLATE, pattern=Pattern("plate", rectangle(2.3, 1.1)))
    stock = StockSheet("S3", 0.0012, rectangle(2.4, 1.2), gauge="18 ga")
    part = PartLaid(plate, Laid(plate.key, "S3", 0.0, 0.003, 0.003))
    copy = copy_of(sheets=(replace(gauge(), sheets=(SheetCuts(stock, (part,), ()),)),))
    assert "nests.pdf" not in cut_packet(copy, LETTER)
    (left_out,) = not_at_full_size(CutPlan(copy, Taking((), ()), ()), "letter")
    assert left_out.name == "nest-pages-left-out"
    assert "S3" in left_out.says
