"""Full-size pages measured in the PDF: check rules, a big circle over many pages, match marks, strips.

What is measured is compared with exact geometry and with the inch and millimetre as ISO 80000-3 defines them.
"""

import io
import itertools
import math

import pdfplumber
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bickern.measure.units.words import INCH
from bickern.paper.furniture import MEASURE_THIS, letters, shortened
from bickern.paper.marks import (
    Anchor,
    Box,
    Dimension,
    Layer,
    Line,
    Text,
    Tick,
    TickKind,
    bounds,
    circle,
    drawing,
    rectangle,
    text_width,
    turned,
)
from bickern.paper.pens.page import A4, LETTER, PAPERS
from bickern.paper.pens.pdf import pdf
from bickern.paper.pens.recorder import lettering, record
from bickern.paper.strips import strips
from bickern.paper.tiling import drawing_area, tile

POINT = 25.4 / 72 / 1000
"""Metres in a PDF point (ISO 32000-1:2008, 8.3.2.3) [from memory]."""
EXACT = 0.00005
"""What a page may be out by [m]."""


def pages(tiling):
    with pdfplumber.open(io.BytesIO(pdf(tiling.sheets))) as book:
        return [(page, [_lines(page), _curves(page)]) for page in book.pages]


def _lines(page):
    """Straights on a page as ((x0, y0), (x1, y1)) [m] from the lower left corner of the paper."""
    high = float(page.height)
    found = []
    for line in page.lines:
        (x0, y0), (x1, y1) = line["pts"][0], line["pts"][-1]
        found.append(((x0 * POINT, (high - y0) * POINT), (x1 * POINT, (high - y1) * POINT)))
    return found


def _curves(page):
    """Points on the cubic curves of a page [m], eleven to a curve."""
    high, found = float(page.height), []
    for curve in page.curves:
        here = None
        for step in curve["path"]:
            points = [(x * POINT, (high - y) * POINT) for x, y in step[1:]]
            if step[0] == "c":
                found += [_bezier((here, *points), t / 10) for t in range(11)]
            here = points[-1] if points else here
    return found


def _bezier(points, t):
    weights = ((1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3)
    return tuple(sum(w * p[k] for w, p in zip(weights, points, strict=True)) for k in (0, 1))


def rule_of(page, lines):
    """The check rule's baseline and the places of its ticks above and below, as measured on the page [m from zero]."""
    flat = [line for line in lines if abs(line[0][1] - line[1][1]) < 1e-6 and line[0][1] < 0.030]
    base = max(flat, key=lambda line: abs(line[0][0] - line[1][0]))
    y, zero = base[0][1], min(base[0][0], base[1][0])
    upright = [line for line in lines if abs(line[0][0] - line[1][0]) < 1e-6 and abs(line[0][1] - y) < 1e-6]
    above = sorted(a[0] - zero for a, b in upright if b[1] > y)
    below = sorted(a[0] - zero for a, b in upright if b[1] < y)
    return max(base[0][0], base[1][0]) - zero, above, below


@pytest.mark.parametrize("paper", PAPERS.values(), ids=list(PAPERS))
def test_every_page_has_a_check_rule_of_four_inches_and_a_hundred_millimetres(paper):
    tiling = tile(drawing([circle((0, 0), 0.3)]), paper, "ring")
    assert len(tiling.sheets) > 1
    for page, (lines, _) in pages(tiling):
        length, above, below = rule_of(page, lines)
        assert length == pytest.approx(4 * INCH, abs=EXACT)
        assert above == pytest.approx([i * INCH / 4 for i in range(17)], abs=EXACT)
        assert below == pytest.approx([i * 0.005 for i in range(21)], abs=EXACT)
        assert "".join(MEASURE_THIS.split()) in "".join(c["text"] for c in page.chars).replace(" ", "")


@pytest.mark.parametrize("paper", [LETTER, A4], ids=["letter", "a4"])
@pytest.mark.parametrize("radius", [0.3, 1.0])
def test_a_big_circle_keeps_its_radius_over_the_pages_and_none_of_it_is_lost(paper, radius):
    tiling = tile(drawing([circle((0.1, -0.2), radius)]), paper)
    seen = []
    for each, (_, (_, points)) in zip(tiling.tiles, pages(tiling), strict=True):
        inside = [(x - each.shift[0], y - each.shift[1]) for x, y in points]
        seen += [(x, y) for x, y in inside if each.window.grown(1e-6).meets(Box(x, y, x, y))]
    centre = _turned((0.1, -0.2), tiling.turn)
    far = [math.dist(point, centre) for point in seen]
    assert max(far) == pytest.approx(radius, abs=EXACT)
    assert min(far) == pytest.approx(radius, abs=EXACT)
    angles = sorted(math.atan2(y - centre[1], x - centre[0]) for x, y in seen)
    gaps = [b - a for a, b in itertools.pairwise([*angles, angles[0] + 2 * math.pi])]
    assert max(gaps) < math.radians(3.001)  # a curve spans 30 degrees at most and is sampled in tenths


def _turned(point, angle):
    c, s = math.cos(angle), math.sin(angle)
    return (c * point[0] - s * point[1], s * point[0] + c * point[1])


def test_match_marks_fall_on_one_another():
    tiling = tile(drawing([circle((0, 0), 0.3)]), A4)
    places = {}
    for each in tiling.tiles:
        for mark in tiling.sheets[each.page].drawing.marks:
            if isinstance(mark, Text) and mark.anchor is Anchor.MIDDLE and mark.says in "abcdefghijkl":
                at = (mark.at[0] - each.shift[0], mark.at[1] - each.shift[1])
                places.setdefault(mark.says, []).append((each.label, at))
    assert places
    for found in places.values():
        labels = sorted({label for label, _ in found})
        assert len(labels) == 2
        first, last = (sorted(at for label, at in found if label == which) for which in labels)
        assert len(first) == 2
        for one, two in zip(first, last, strict=True):
            assert one == pytest.approx(two, abs=1e-9)
        inside = [tile.window for tile in tiling.tiles if tile.label in labels]
        assert all(w.left < x < w.right and w.bottom < y < w.top for w in inside for x, y in first)


def test_pages_carry_a_label_a_count_and_a_map_with_this_page_marked():
    tiling = tile(drawing([circle((0, 0), 0.3)]), LETTER, "ring of #8 wire & more")
    labels = [each.label for each in tiling.tiles]
    assert len(set(labels)) == len(labels)
    assert labels == sorted(labels)
    for number, (each, sheet) in enumerate(zip(tiling.tiles, tiling.sheets, strict=True), start=1):
        said = lettering(sheet.drawing)
        assert each.label in said
        assert f"page {number} of {len(labels)}" in said
        heavy = [s for s in record(sheet.drawing) if s.layer is Layer.CUT and len(s.points) == 5]
        assert len(heavy) == 1  # the border of this page in the map


@pytest.mark.parametrize("says", ["read me", "a rather long line of lettering"])
@pytest.mark.parametrize("anchor", list(Anchor))
def test_lettering_is_never_on_its_head_however_the_pages_are_turned(says, anchor):
    """A strip 3 m long is laid upright on the pages: what stood level reads from the right, in the same room."""
    level = Text((1.5, 0.02), says, 0.004, anchor)
    tiling = tile(drawing([rectangle(Box(0.0, 0.0, 3.0, 0.04)), level]), A4, turns=(-math.pi / 2,))
    assert tiling.turn == -math.pi / 2
    laid = turned(drawing([level]), tiling.turn).bounds
    found = [(mark, t) for s, t in zip(tiling.sheets, tiling.tiles, strict=True) for mark in s.drawing.marks
             if isinstance(mark, Text) and mark.says == says]  # fmt: skip
    assert found
    for mark, on in found:
        assert mark.angle == pytest.approx(math.pi / 2)
        box = bounds([mark])
        assert box.width == pytest.approx(laid.width)
        assert (box.left - on.shift[0], box.right - on.shift[0]) == pytest.approx((laid.left, laid.right), abs=0.004)


def test_pages_are_named_by_what_they_show_where_it_has_a_name():
    tiling = tile(drawing([circle((0.0, 0.0), 0.2)]), LETTER, "Hood", name="S12")
    for sheet, one in zip(tiling.sheets, tiling.tiles, strict=True):
        assert f"S12 {one.label}" in [mark.says for mark in sheet.drawing.marks if isinstance(mark, Text)]


def test_everything_printed_lies_on_what_a_printer_can_print():
    for paper in (LETTER, A4):
        long_title = "A very long title indeed " * 8
        plate = [rectangle(Box(0, 0, 0.5, 0.4), Layer.CUT), Text((0.2, 0.2), "rather a long line of lettering", 0.008)]
        plate.append(Dimension((0, 0), (0.5, 0), -0.01, "19 11/16 in (500 mm)"))
        for tiling in (tile(drawing(plate), paper, long_title), strips(drawing(plate), paper, long_title)):
            for sheet in tiling.sheets:
                printed, room = bounds(sheet.drawing.marks), sheet.paper.printable
                assert printed.left >= room.left - 0.001
                assert printed.bottom >= room.bottom - 0.001
                assert printed.right <= room.right + 0.001
                assert printed.top <= room.top + 0.001


@pytest.mark.parametrize("paper", [LETTER, A4], ids=["letter", "a4"])
def test_what_fits_one_page_is_one_page_whichever_way_it_lies(paper):
    area = drawing_area(paper)
    for wide, high in ((area.width, area.height), (area.height, area.width), (0.01, 0.01)):
        tiling = tile(drawing([rectangle(Box(3, 4, 3 + wide, 4 + high))]), paper)
        assert len(tiling.tiles) == 1
    slanted = drawing([Line((0, 0), (0.290, 0))])  # longer than either side of the paper, shorter than its diagonal
    assert len(tile(slanted, paper).tiles) == 1


def test_blank_pages_are_left_out():
    far_apart = drawing([circle((0, 0), 0.02), circle((1.5, 1.2), 0.02)])
    assert len(tile(far_apart, A4).tiles) == 2
    assert tile(drawing([]), A4).sheets == ()


@given(st.floats(0.05, 0.8), st.floats(0.05, 0.8), st.sampled_from([LETTER, A4]))
@settings(max_examples=25, deadline=None)
def test_pages_together_show_the_whole_drawing(wide, high, paper):
    tiling = tile(drawing([rectangle(Box(0, 0, wide, high), Layer.CUT)]), paper)
    for t in range(200):
        along = t / 200 * 4
        side, share = int(along), along % 1
        corners = [(0, 0), (wide, 0), (wide, high), (0, high), (0, 0)]
        (x0, y0), (x1, y1) = corners[side], corners[side + 1]
        x, y = _turned((x0 + share * (x1 - x0), y0 + share * (y1 - y0)), tiling.turn)
        assert any(each.window.grown(1e-9).meets(Box(x, y, x, y)) for each in tiling.tiles)
    area = drawing_area(paper)
    plain = math.ceil((wide - 0.01) / (area.width - 0.01)) * math.ceil((high - 0.01) / (area.height - 0.01))
    assert len(tiling.tiles) <= max(1, plain)  # never worse than laying pages from one corner


def bar_rule(length=1.2):
    """A rule with a tick each 50 mm, lettered beside."""
    ticks = [Tick((x * 0.05, 0.015), TickKind.CHALK, 0.02) for x in range(round(length / 0.05) + 1)]
    words = [Text((x * 0.05 + 0.002, 0.02), f"{x * 50} mm", 0.003) for x in range(round(length / 0.05))]
    return drawing([rectangle(Box(0, 0, length, 0.03)), *ticks, *words])


@pytest.mark.parametrize("paper", [LETTER, A4], ids=["letter", "a4"])
def test_ticks_on_strips_measured_in_the_pdf_are_where_they_belong(paper):
    tiling = strips(bar_rule(), paper)
    read = pages(tiling)
    found = set()
    for each in tiling.tiles:
        lines = read[each.page][1][0]
        for (x0, y0), (x1, y1) in lines:
            x, low, high = x0 - each.shift[0], min(y0, y1) - each.shift[1], max(y0, y1) - each.shift[1]
            if abs(x0 - x1) > 1e-6 or abs(low - 0.005) > EXACT or abs(high - 0.025) > EXACT:
                continue
            if each.window.left - 1e-6 <= x <= each.window.right + 1e-6:
                assert x == pytest.approx(round(x / 0.05) * 0.05, abs=EXACT)
                found.add(round(x / 0.05))
    assert found == set(range(25))


def test_strips_overlap_and_their_joints_carry_the_same_letter_at_the_same_place():
    tiling = strips(bar_rule(), A4)
    assert len(tiling.tiles) > 1
    assert len(tiling.sheets) < len(tiling.tiles)
    joints = {}
    for each in tiling.tiles:
        for mark in tiling.sheets[each.page].drawing.marks:
            if isinstance(mark, Text) and len(mark.says) == 1 and mark.says.isalpha():
                top = mark.at[1] - each.shift[1]
                if each.window.top < top < each.window.top + 0.004:
                    joints.setdefault(mark.says, []).append(mark.at[0] - each.shift[0])
    assert len(joints) == len(tiling.tiles) - 1
    for places in joints.values():
        assert len(places) == 2
        assert places[0] == pytest.approx(places[1], abs=1e-9)
    for one, two in itertools.pairwise(tiling.tiles):
        assert one.window.right - two.window.left == pytest.approx(0.010)


def test_a_joint_does_not_run_through_lettering_where_it_can_be_helped():
    tiling = strips(bar_rule(), A4)
    words = [bounds((mark,)) for mark in bar_rule().marks if isinstance(mark, Text)]
    for one, two in itertools.pairwise(tiling.tiles):
        assert not any(word.left < one.window.right and word.right > two.window.left for word in words)


def test_an_upright_rule_is_laid_down_and_a_wide_drawing_is_tiled():
    upright = drawing([rectangle(Box(0, 0, 0.02, 0.5))])
    assert strips(upright, A4).turn == pytest.approx(math.pi / 2)
    wide = drawing([rectangle(Box(0, 0, 0.9, 0.6))])
    assert strips(wide, A4) == tile(wide, A4)
    assert strips(drawing([]), A4).sheets == ()


def test_letters_go_on_after_z_and_long_titles_are_cut():
    assert [letters(n) for n in (0, 25, 26, 27, 701, 702)] == ["a", "z", "aa", "ab", "zz", "aaa"]
    cut = shortened("a long title that does not fit", 0.003, 0.03)
    assert cut.endswith("…")
    assert text_width(cut, 0.003) <= 0.03
    assert shortened("ok", 0.003, 0.03) == "ok"
