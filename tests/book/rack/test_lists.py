"""Lists of stock in CSV: read forgivingly, every fault told with its line, and written so that they read the same."""

import math
import random
import re
from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bickern.book.rack.columns import COLUMN_OF, COLUMNS
from bickern.book.rack.listed import Listed, Meant, read_list
from bickern.book.rack.rows import wrong_piece
from bickern.book.rack.written import list_text
from bickern.geometry.polygon import area, disc, from_points, moved, rectangle, sector
from bickern.iron.section import Section, with_sizes
from bickern.making.stock.rack import Stock, StockBar, StockSheet
from bickern.measure.finding import Finding
from bickern.measure.money import Money
from bickern.measure.units.words import INCH, GaugeSystem, Shape, Style, System

INCHES = Meant(System.INCH, currency="GBP")


def read(text: str | bytes, meant: Meant = INCHES) -> Listed:
    return read_list(text.encode() if isinstance(text, str) else text, "rack.csv", meant)


def pieces(text: str | bytes, meant: Meant = INCHES) -> tuple[Stock, ...]:
    done = read(text, meant)
    assert not [f for f in done.findings if f.stops], done.findings
    return done.pieces


def stops(text: str | bytes, meant: Meant = INCHES) -> list[tuple[int, str, str]]:
    return [(f.where.line, f.where.path, f.name) for f in read(text, meant).findings if f.stops]


def test_a_plain_list():
    bar, sheet = pieces(
        "kind,section,length,thickness,size,count,steel,coating,place,price,remark\n"
        "bar,3/8 sq,72,,,1,S235JR,none,left wall,4.20,straight\n"
        "sheet,,,1/16,48 x 24,1,mild,galvanised,floor,,\n"
    )
    square = Section(Shape.SQUARE, 0.009525, 0.009525)  # 3/8 x 25.4 mm
    assert bar == StockBar(
        "", square, 72 * INCH, "S235JR", "none", "left wall", Money(Decimal("4.20"), "GBP"), remark="straight"
    )
    assert isinstance(sheet, StockSheet)
    assert (sheet.thick, sheet.coating) == (INCH / 16, "galvanised")
    assert area(sheet.outline) == pytest.approx(48 * 24 * INCH**2)


@pytest.mark.parametrize(
    ("section", "length", "shape", "wide", "long"),
    [
        ("3/8 sq", "72", Shape.SQUARE, 0.375 * INCH, 72 * INCH),
        ("1 x 1/4", "38 1/2", Shape.FLAT, INCH, 38.5 * INCH),
        ("20x5 mm", "6 m", Shape.FLAT, 0.020, 6.0),
        ("12 mm rd", "1200 mm", Shape.ROUND, 0.012, 1.2),
        ("1/2 hex", "1' 6\"", Shape.HEXAGON, 0.5 * INCH, 18 * INCH),
        ("1 x 1/8 tube", "10 ft", Shape.TUBE, INCH, 120 * INCH),
    ],
)
def test_sections_and_lengths_in_shop_notation(section: str, length: str, shape: Shape, wide: float, long: float):
    """Exact mathematics: an inch is 0.0254 m."""
    (bar,) = pieces('section;length\n"{}";"{}"\n'.format(section.replace('"', '""'), length.replace('"', '""')))
    assert isinstance(bar, StockBar)
    assert (bar.section.shape, bar.section.width, bar.length) == (shape, pytest.approx(wide), pytest.approx(long))


PLAIN = "section,length,count,steel,place\n3/8 sq,72,2,mild,left wall\n1/2 rd,60,1,A36,floor\n"


@pytest.mark.parametrize(
    "twisted",
    [
        lambda text: text.replace(",", ";"),
        lambda text: text.replace(",", "\t"),
        lambda text: text.replace("\n", "\r\n"),
        lambda text: text.replace("\n", "\r"),
        lambda text: "\ufeff" + text,
        lambda text: text.replace("section,length", " Section , LENGTH "),
        lambda text: text.replace("section,length,count,steel,place", "Bar,Len,Qty,Grade,Location"),
        lambda text: text.replace("length", "length (in)"),
        lambda text: text.replace("length", "Length_in"),
        lambda text: text.replace("\n", "\n\n,,,,\n"),
        lambda text: text.rstrip("\n"),
        lambda text: text.replace("left wall", '"left wall"'),
        lambda text: text.replace("3/8 sq", " 3/8 SQ. "),
        lambda text: text.replace("3/8 sq", "⅜ sq"),
        lambda text: "\n".join(
            ",".join([*reversed(line.split(","))]) for line in text.splitlines()
        ),
        lambda text: text.replace("place", "place,colour").replace("wall", "wall,blue").replace("floor", "floor,red"),
    ],
)  # fmt: skip
def test_however_it_is_written_it_means_the_same(twisted: Callable[[str], str]):
    assert pieces(twisted(PLAIN)) == pieces(PLAIN)


def test_other_signs_than_utf_8_are_read():
    assert pieces(PLAIN.encode("utf-16")) == pieces(PLAIN)
    done = read("section,length,place\n3/8 sq,72,Wand-Süd\n".encode("cp1252"))
    assert done.pieces[0].place == "Wand-Süd"
    assert [f.name for f in done.findings] == ["old-signs"]


def test_each_spelling_of_a_column_is_that_columns():
    for spelling, column in COLUMN_OF.items():
        if column == "place":
            assert pieces(f"section,length,{spelling.upper()}\n3/8 sq,72,floor\n")[0].place == "floor"


def test_the_units_of_a_row_go_before_those_of_the_list():
    text = "section,length,units\n10 sq,2000,mm\n3/8 sq,72,in\n1/2 sq,60,\n"
    lengths = [bar.length for bar in pieces(text) if isinstance(bar, StockBar)]
    assert lengths == pytest.approx([2.0, 72 * INCH, 60 * INCH])


def test_a_bare_number_without_any_units_is_asked_about():
    assert stops("section,length\n3/8 sq,72\n12 mm rd,6 m\n", Meant()) == [
        (2, "section", "no-units"),
        (2, "length", "no-units"),
    ]
    said = [f.try_this for f in read("section,length\n3/8 sq,72\n", Meant()).findings]
    assert all("--units" in way for way in said)


def test_a_decimal_comma_is_read_where_a_semicolon_stands_between():
    (bar,) = pieces("section;length\n12,5 mm rd;1200,5 mm\n")
    assert isinstance(bar, StockBar)
    assert (bar.section.width, bar.length) == pytest.approx((0.0125, 1.2005))
    assert stops("section;length\n12 mm rd;1,200 mm\n") == [(2, "length", "decimal-comma")]


def test_gauges_are_the_shops_or_the_galvanised_ones():
    """16 gauge is 0.064 in by the British standard wire gauge (as tests/iron/test_gauge.py has it)."""
    text = "thickness,size\n16 ga,10 x 10\n"
    (sheet,) = pieces(text, replace(INCHES, gauge=GaugeSystem.SWG))
    assert isinstance(sheet, StockSheet)
    assert (sheet.thick, sheet.gauge) == (pytest.approx(0.064 * INCH), "16 ga")
    (bare,), (zinced,) = pieces(text), pieces("thickness,size,coating\n16 ga,10 x 10,galvanised\n")
    assert isinstance(bare, StockSheet)
    assert isinstance(zinced, StockSheet)
    assert zinced.thick > bare.thick


def test_every_fault_is_told_at_once_with_its_line():
    text = (
        "kind,section,length,thickness,size,count,price,offcut,units\n"
        "bar,3/8 sq,-72,,,,,,\n"
        "bar,3/8 sq,0,,,,,,\n"
        "bar,3/8 sq,nan,,,,,,\n"
        "bar,pudding,72,,,,,,\n"
        "bar,3/8,72,,,,,,\n"
        "bar,,72,,,,,,\n"
        "bar,3/8 sq,,,,,,,\n"
        "sheet,,,16 ga,48,,,,\n"
        "sheet,,,,48 x 24,,,,\n"
        "cloud,3/8 sq,72,,,,,,\n"
        "bar,3/8 sq,72,,,0,,,\n"
        "bar,3/8 sq,72,,,1.5,,,\n"
        "bar,3/8 sq,72,,,,4 USD,,\n"
        "bar,3/8 sq,72,,,,,perhaps,\n"
        "bar,3/8 sq,72,,,,,,cubits\n"
        "bar,3/8 sq,72,,,,,,\n"
    )
    assert stops(text) == [
        (2, "length", "negative-size"),
        (3, "length", "zero-size"),
        (4, "length", "not-a-size"),
        (5, "section", "not-a-size"),
        (6, "section", "no-shape"),
        (7, "section", "stock-not-told"),
        (8, "length", "stock-not-told"),
        (9, "size", "sheet-size"),
        (10, "thickness", "stock-not-told"),
        (11, "kind", "unknown-stock-kind"),
        (12, "count", "count-out-of-range"),
        (13, "count", "not-whole"),
        (14, "price", "other-currency"),
        (15, "offcut", "not-yes-or-no"),
        (16, "units", "unknown-unit"),
    ]


def test_lines_are_counted_through_quoted_cells():
    assert stops('section,length,remark\n3/8 sq,72,"a\nb\nc"\n3/8 sq,-1,\n') == [(5, "length", "negative-size")]


def test_a_coating_nobody_knows_is_warned_of_and_kept():
    done = read("section,length,coating\n3/8 sq,72,moondust\n3/8 sq,72,galvanised\n3/8 sq,72,none\n")
    assert [(f.name, f.where.line) for f in done.findings] == [("coating-unknown", 2)]
    assert [p.coating for p in done.pieces] == ["moondust", "galvanised", "none"]


@pytest.mark.parametrize(
    ("data", "name"),
    [
        (b"", "empty"),
        (b"  \n \n", "empty"),
        (b"\x00\x01\x02\xff" * 100, "not-text"),
        (bytes(random.Random(1).randbytes(5000)), "not-text"),
        (b"\xff\xfe\x00", "not-text"),
        (b"hello world\n", "no-columns"),
        (b"section,section,length\n3/8 sq,3/8 sq,72\n", "column-twice"),
        (b'section,length\n"' + b"x" * 2_100_000 + b'",1\n', "not-a-list"),
        (b"section,length\n" + b"3/8 sq,72\n" * 20_001, "too-many-rows"),
        (b"section,length,count\n" + b"3/8 sq,72,1000\n" * 30, "too-many-pieces"),
        (b"section,length\n" + b"pudding,-3\n" * 500, "too-many-faults"),
    ],
)
def test_rubbish_ends_in_a_finding(data: bytes, name: str):
    assert name in [f.name for f in read(data).findings if f.stops]


def test_an_outline_that_crosses_itself_is_told_by_its_row():
    """A bow tie of 100 x 100 mm; then a square with a hole over its edge [m]."""
    for loops in ("[0,0,0.1,0.1,0.1,0,0,0.08]", "[0,0,0.1,0,0.1,0.1,0,0.1],[0.05,0.05,0.05,0.06,0.2,0.06]"):
        text = f'thickness,size,outline\n1.5 mm,48 x 24,\n1.5 mm,,"[{loops}]"\n'
        assert stops(text) == [(3, "outline", "impossible-outline")]


def no_dxf(name: str) -> bytes | Finding:
    return (
        b'<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="50mm" viewBox="0 0 100 50">'
        b'<path d="M0 0 H100 V50 H0 Z"/></svg>'
    )


def test_an_odd_sheet_from_a_drawing_beside_the_list():
    (sheet,) = pieces("thickness,outline\n1.5 mm,odd.svg\n", replace(INCHES, fetch=no_dxf))
    assert isinstance(sheet, StockSheet)
    assert area(sheet.outline) == pytest.approx(0.1 * 0.05)
    assert stops("thickness,outline\n1.5 mm,odd.svg\n") == [(2, "outline", "no-file")]


@pytest.mark.parametrize(
    "text",
    [
        "[", "[[]]", "[[0,0,1]]", "[[0,0,1,1]]", '["a"]', "[[NaN,0,1,0,1,1]]", "[" * 5000, "[7]", '[{""a"":1}]',
        f"[[{10**400},0,1,0,1,1]]", "[[0,0,1,0,1,1],[5,5,6,5,6,6]]", "[[0,0,1,0,1,1],[0,0,2,0,2,2]]",
    ],
)  # fmt: skip
def test_an_outline_that_is_none_ends_in_a_finding(text: str):
    assert stops(f'thickness,outline\n1.5 mm,"{text}"\n')


def test_an_outline_of_very_many_corners_comes_back():
    """A ring of six thousand straights is one cell of 160,000 signs: more than a list of cells usually may hold."""
    ring = [(0.3 * math.cos(n * math.pi / 3000), 0.3 * math.sin(n * math.pi / 3000)) for n in range(6000)]
    sheet = StockSheet("", 0.001, from_points(ring))
    assert list(pieces(list_text([sheet], Style()))) == [sheet]


@pytest.mark.parametrize("column", ["steel", "coating", "place", "remark"])
def test_of_a_text_that_is_cut_short_it_is_said(column: str):
    done = read(f"section,length,{column}\n3/8 sq,72,{'x' * 201}\n3/8 sq,72,{'x' * 200}\n")
    assert [(f.name, f.where.line, f.where.path) for f in done.findings if f.name == "text-cut-short"] == [
        ("text-cut-short", 2, column)
    ]
    assert [len(getattr(piece, column)) for piece in done.pieces] == [200, 200]


def test_the_layout_in_the_docs_is_what_is_read():
    page = (Path(__file__).parents[3] / "docs" / "rack.md").read_text()
    (block,) = re.findall(r"```csv\n(.*?)```", page, re.DOTALL)
    assert len(pieces(block)) == 10
    told = re.findall(r"^\| (`[a-z`, ]+`) \|", page.split("| column | holds |")[1], re.MULTILINE)
    assert {name.strip("` ") for cell in told for name in cell.split(",")} == set(COLUMNS)


FLOATS = st.floats(0.001, 10.0)
SIZES = st.one_of(FLOATS, st.integers(1, 500).map(lambda n: n * INCH / 64), st.integers(2, 500).map(lambda n: n / 2000))
WORDS = st.text(st.characters(codec="utf-8", exclude_categories=["C", "Z"]), max_size=12)
PRICES = st.none() | st.decimals(0, 10_000, places=2).map(lambda amount: Money(amount, "GBP"))


@st.composite
def sections(draw: st.DrawFn) -> Section:
    shape = draw(st.sampled_from([s for s in Shape if s is not Shape.POINT]))
    one, two = sorted((draw(SIZES), draw(SIZES)))
    one = one / 2 if one == two else one  # a flat as wide as thick is a square
    if shape in (Shape.TUBE, Shape.SQUARE_TUBE):
        return Section(shape, two * 3, two * 3, one)
    plain = Section(shape, two, two)
    return with_sizes(plain, two, one) if shape in (Shape.FLAT, Shape.OVAL) else with_sizes(plain, two)


@st.composite
def outlines(draw: st.DrawFn) -> StockSheet:
    loop = draw(st.sampled_from([rectangle, lambda a, b: sector(a + b, a, min(b, 6.0)), lambda a, _: disc(a)]))(
        draw(SIZES), draw(SIZES)
    )
    holes = tuple(draw(st.lists(st.builds(disc, SIZES), max_size=2)))
    shift = draw(st.sampled_from([0.0, 0.25]))
    grain = draw(st.none() | st.sampled_from([0.0, math.pi / 2, math.pi / 4]) | st.floats(-3.0, 3.0))
    told = moved(loop, shift) if shift else loop
    sheet = StockSheet("", draw(SIZES), told, holes, gauge=draw(WORDS), grain=grain)
    return sheet if wrong_piece(sheet) is None else replace(sheet, cutouts=())  # holes that are more than it, or beside


@st.composite
def stock(draw: st.DrawFn) -> Stock:
    plain = draw(outlines() | st.builds(StockBar, st.just(""), sections(), SIZES))
    steel, coating, place, remark = (draw(WORDS) for _ in range(4))
    told = replace(plain, steel=steel, coating=coating, place=place, remark=remark)
    return replace(told, price=draw(PRICES), offcut=draw(st.booleans()))


@given(some=st.lists(stock(), max_size=4), first=st.sampled_from(System))
def test_law_what_is_written_reads_in_again_the_same(some: list[Stock], first: System):
    text = list_text(some, Style(first=first))
    assert list(pieces(text, Meant(currency="GBP")) if some else ()) == some


@given(data=st.binary(max_size=300) | st.text(max_size=300).map(lambda text: text.encode("utf-8", "surrogatepass")))
def test_law_no_bytes_make_it_fail(data: bytes):
    read(data)
    read(b"section,length,count,price,outline,thickness,grain\n" + data)
