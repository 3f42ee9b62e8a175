"""PDF pages measured with pdfplumber: real size, any string as text, the same bytes again."""

import io
import math

import pdfplumber
import pytest

from bickern.paper.marks import Anchor, Box, Layer, Text, Weight, circle, drawing, rectangle
from bickern.paper.pens.page import (
    A4,
    LETTER,
    PAPERS,
    compile_pdf,
    literal,
    on_paper,
    picture_file,
    placed,
    preamble,
    sideways,
)
from bickern.paper.pens.pdf import pdf

POINT = 25.4 / 72
"""Millimetres in a PDF point (ISO 32000-1:2008, 8.3.2.3: default user space unit 1/72 in) [from memory]."""
NASTY = [
    '#panic("x")',
    "$x^2$ `raw` *b* _i_ = head",
    '"; #import "main.typ" ; "',
    "\\u{41} \\ \\\\ \\n",
    "] ) } # <label> @ref // gone /* gone */",
    "~ -- --- ... - + / 1. :smile:",
    "</text><script>",
    "&amp; &lt;",
]
ODD = ["\x00\x01\x1f\x7f", "\ud800", "\u202e\u2066rtl", "🔥 鉄 ﷽", "a\nb\rc\td\u2028e", "", " " * 300, "x" * 5000]


def test_a_page_has_the_size_of_its_paper_and_a_square_its_own():
    for paper in (*PAPERS.values(), sideways(A4)):
        square = drawing([rectangle(Box(0.02, 0.03, 0.12, 0.13), Layer.CUT)])
        with pdfplumber.open(io.BytesIO(pdf([on_paper(square, paper)]))) as book:
            page = book.pages[0]
            assert float(page.width) * POINT == pytest.approx(paper.width * 1000, abs=0.01)
            assert float(page.height) * POINT == pytest.approx(paper.height * 1000, abs=0.01)
            rect = page.rects[0]
            assert (rect["x1"] - rect["x0"]) * POINT == pytest.approx(100, abs=0.01)
            assert rect["x0"] * POINT == pytest.approx(20, abs=0.01)
            assert (rect["bottom"] - rect["top"]) * POINT == pytest.approx(100, abs=0.01)
            assert rect["bottom"] * POINT == pytest.approx(paper.height * 1000 - 30, abs=0.01)
            assert rect["linewidth"] * POINT == pytest.approx(0.6, abs=0.001)


def test_the_sizes_of_paper_are_the_standard_ones():
    # ISO 216:2007, A4 210 x 297 mm, A3 297 x 420 mm; letter 8 1/2 x 11 in, legal 8 1/2 x 14 in [from memory].
    assert (A4.width, A4.height) == (0.210, 0.297)
    assert (LETTER.width * 1000, LETTER.height * 1000) == pytest.approx((215.9, 279.4))
    assert PAPERS["legal"].height * 1000 == pytest.approx(355.6)
    assert A4.printable == Box(0.010, 0.010, pytest.approx(0.200), pytest.approx(0.287))


def test_the_same_sheets_are_the_same_bytes_and_the_date_is_the_one_given():
    sheets = [on_paper(drawing([circle((0.1, 0.1), 0.05), Text((0.1, 0.1), "a ring")]), A4)]
    assert pdf(sheets, 1_700_000_000) == pdf(sheets, 1_700_000_000)
    with pdfplumber.open(io.BytesIO(pdf(sheets, 1_700_000_000))) as book:
        assert "20231114" in book.metadata["CreationDate"]  # 1.7e9 s after 1970 is 2023-11-14, 22:13:20 UTC


def test_lettering_uses_the_packed_typeface_and_its_capitals_have_the_height_asked_for():
    words = [Text((0.02, 0.2), "HHH", 0.010), Text((0.02, 0.1), "HHH", 0.010, Anchor.START, 0.0, Weight.BOLD)]
    with pdfplumber.open(io.BytesIO(pdf([on_paper(drawing(words), A4)]))) as book:
        chars = book.pages[0].chars
    assert {c["fontname"].split("+")[1] for c in chars} == {"SourceSansPro-Regular", "SourceSansPro-Bold"}
    assert {round(c["size"] * POINT * 0.66, 2) for c in chars} == {10.0}
    assert chars[0]["matrix"][5] * POINT == pytest.approx(200, abs=0.01)


def test_room_kept_for_lettering_is_enough():
    says = ["14 3/4 in (374.65 mm)", "Measure this before you cut", "UPSET THE END", "weld W, 8 off, 1/2 sq"]
    lines = [Text((0.01, 0.02 * i + 0.02), s, 0.003, weight=Weight.BOLD) for i, s in enumerate(says)]
    with pdfplumber.open(io.BytesIO(pdf([on_paper(drawing(lines), A4)]))) as book:
        chars = book.pages[0].chars
    for line in lines:
        row = [c for c in chars if abs(c["matrix"][5] * POINT / 1000 - line.at[1]) < 0.001]
        used = (max(c["x1"] for c in row) - min(c["x0"] for c in row)) * POINT
        kept = drawing([line]).bounds.width * 1000
        assert used <= kept <= 1.35 * used


@pytest.mark.parametrize("says", NASTY)
def test_any_string_is_set_as_it_stands(says):
    source = preamble(A4) + f"#text({literal(says)})\n#text({literal('after')})"
    assert _words(compile_pdf(source, {}, 0)) == _squeezed(says + "after")
    assert _words(pdf([on_paper(drawing([Text((0.01, 0.1), says)]), A4)])) == _squeezed(says)


@pytest.mark.parametrize("says", ODD)
def test_odd_signs_do_not_stop_the_page(says):
    source = preamble(A4) + f"#text({literal(says)})\n#text({literal('after')})"
    assert "after" in _words(compile_pdf(source, {}, 0))
    both = [Text((0.01, 0.1), says), Text((0.01, 0.2), "after")]
    assert "after" in _words(pdf([on_paper(drawing(both), A4)]))


def _words(data: bytes) -> str:
    with pdfplumber.open(io.BytesIO(data)) as book:
        return _squeezed("".join(c["text"] for page in book.pages for c in page.chars))


def _squeezed(says: str) -> str:
    """Without spaces, and with what the page setter may change for looks put back."""
    for nice, plain in (("\ufb01", "fi"), ("\u2019", "'")):
        says = says.replace(nice, plain)
    return "".join(says.split())


def test_a_drawing_among_words_keeps_its_real_size():
    ring = drawing([circle((0, 0), 0.04)], margin=0.005)
    source = preamble(LETTER) + "A ring:\n\n" + placed("ring.svg", ring)
    with pdfplumber.open(io.BytesIO(compile_pdf(source, {"ring.svg": picture_file(ring)}, 0))) as book:
        curve = book.pages[0].curves[0]
    assert (curve["x1"] - curve["x0"]) * POINT == pytest.approx(80, abs=0.01)
    assert (curve["bottom"] - curve["top"]) * POINT == pytest.approx(80, abs=0.01)
    assert curve["x0"] * POINT == pytest.approx(15, abs=0.01)


def test_a_sheet_whose_drawing_is_not_bounded_by_its_paper_is_our_fault():
    from bickern.paper.pens.page import Sheet

    with pytest.raises(ValueError, match="edges"):
        pdf([Sheet(drawing([circle((0, 0), 1)]), A4)])
    assert math.isclose(sideways(A4).width, A4.height)
