"""A sheet with its parts at full size: everything lies where the nest has it, and what is measured is right."""

import io
import math
from itertools import combinations, pairwise

import ezdxf
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import isotonic_regression

from bickern.geometry.pack.shapes.result import Laid
from bickern.geometry.polygon import Line as Straight
from bickern.geometry.polygon import Loop, bounds, disc, flipped, from_points, moved, rectangle, sector, to_shapely
from bickern.making.stock.rack import StockSheet
from bickern.making.stock.sheet_cuts import PartLaid, SheetCuts
from bickern.making.stock.wants import SheetWant
from bickern.measure.units.words import Style, System
from bickern.paper.marks import Dimension, Drawing, Layer, Text, text_corners
from bickern.paper.pens.dxf import dxf
from bickern.paper.pens.recorder import record
from bickern.paper.views.nest import PITCH, NestPart, lowest, nest_drawing, sheet_drawing, spread
from bickern.parts.sheet.result import Pattern, PatternHole, PatternLine

SHEET = from_points(((0, 0), (0.5, 0), (0.5, 0.2), (0.3, 0.2), (0.3, 0.35), (0, 0.35)))
BITE = flipped(disc(0.01, (0.27, 0.3)))
HOOD = Pattern(
    "hood",
    sector(0.16, 0.06, 1.4),
    holes=(PatternHole((0.0, 0.15), 0.006),),
    lines=(PatternLine(Straight((-0.03, 0.07), (-0.03, 0.14)), "bend", "bend up 90"),),
)
FRAME = Pattern("frame", rectangle(0.08, 0.05), (flipped(rectangle(0.06, 0.03, (0.01, 0.01))),))
PARTS = (
    NestPart("A", HOOD, 0.0, 0.12, -0.03),
    NestPart("A", HOOD, math.pi, 0.18, 0.33),
    NestPart("B", FRAME, math.pi / 2, 0.44, 0.01),
)
METRIC = Style(first=System.MM)


def said(picture: Drawing) -> list[str]:
    return [mark.says for mark in picture.marks if isinstance(mark, Text)]


def drawn(picture: Drawing, layer: Layer) -> shapely.Geometry:
    return shapely.union_all([shapely.LineString(one.points) for one in record(picture, 0.02) if one.layer is layer])


def test_parts_are_drawn_where_the_nest_has_them() -> None:
    picture = sheet_drawing(SHEET, (BITE,), PARTS, METRIC)
    cut = drawn(picture, Layer.CUT)
    for part in PARTS:
        holes = [disc(hole.size / 2, hole.centre) for hole in part.pattern.holes]
        for loop in (part.pattern.outline, *part.pattern.cutouts, *holes):
            line = to_shapely(moved(loop, part.x, part.y, part.turn), 1e-6).exterior
            assert line.difference(cut.buffer(2e-5)).length == pytest.approx(0.0, abs=1e-9)
    lengths = sum(to_shapely(p.pattern.outline, 1e-6).length for p in PARTS) + 2 * math.pi * 0.006 + 0.18
    assert cut.length == pytest.approx(lengths, rel=1e-3)
    edge = drawn(picture, Layer.OUTLINE)
    assert edge.length == pytest.approx(1.7 + 0.02 * math.pi, rel=1e-3)


def test_bend_lines_go_with_their_part() -> None:
    bends = drawn(sheet_drawing(SHEET, (), PARTS[1:2], METRIC), Layer.BEND)
    assert bends.bounds == pytest.approx((0.21, 0.19, 0.21, 0.26))
    assert "bend up 90" in said(sheet_drawing(SHEET, (), PARTS[1:2], METRIC))


def test_sizes_run_from_the_sheets_corner_to_each_parts_lowest_point() -> None:
    """By hand: the first hood's inner corners are lowest, 0.06 (sin 0.7, cos 0.7) from its centre; the second's rim."""
    words = said(sheet_drawing(SHEET, (BITE,), PARTS, METRIC))
    left, low = 120 - 60 * math.sin(0.7), -30 + 60 * math.cos(0.7)
    assert (left, low) == (pytest.approx(81.347, abs=1e-3), pytest.approx(15.891, abs=1e-3))
    for size in ("A1: 81.5 mm (3 3/16 in)", "A1: 16 mm (5/8 in)", "A2: 180 mm (7 1/16 in)", "A2: 170 mm (6 11/16 in)"):
        assert size in words
    assert "B: 390 mm (15 3/8 in)" in words
    assert "B: 10 mm (3/8 in)" in words
    assert {"A1", "A2", "B"} <= set(words)


def test_a_sheet_that_does_not_start_at_nothing_is_measured_from_its_own_corner() -> None:
    away = sheet_drawing(
        moved(SHEET, 1.0, -2.0), (), [NestPart(p.letter, p.pattern, p.turn, p.x + 1, p.y - 2) for p in PARTS], METRIC
    )
    assert said(away) == said(sheet_drawing(SHEET, (), PARTS, METRIC))


def test_sizes_that_are_alike_are_told_once() -> None:
    row = [NestPart("A", FRAME, 0.0, 0.1 * i, 0.05) for i in range(1, 4)]
    assert "A1 A2 A3: 50 mm (1 15/16 in)" in said(sheet_drawing(SHEET, (), row, METRIC))


@given(st.lists(st.tuples(st.floats(0, 0.4), st.floats(0, 0.3), st.floats(0, 6.3)), min_size=1, max_size=12))
def test_running_sizes_never_cover_each_other_and_nothing_stands_on_its_head(
    places: list[tuple[float, float, float]],
) -> None:
    parts = [NestPart("A", FRAME, turn, x, y) for x, y, turn in places]
    letters = [m for m in sheet_drawing(SHEET, (), parts, METRIC).marks if isinstance(m, Text)]
    assert all(-math.pi / 2 < one.angle <= math.pi / 2 + 1e-9 for one in letters)
    sizes = [shapely.Polygon(text_corners(one)) for one in letters if ": " in one.says]
    assert all(a.intersection(b).area < 1e-12 for a, b in combinations(sizes, 2))


@given(st.lists(st.floats(-1, 1), min_size=1, max_size=30).map(sorted))
def test_spreading_is_the_least_that_keeps_the_pitch(places: list[float]) -> None:
    """Against scipy's isotonic regression of the places less their turn times the pitch."""
    found = spread(places, PITCH, -0.5)
    wanted = [max(x, -0.5) for x in isotonic_regression([p - i * PITCH for i, p in enumerate(places)]).x]
    assert found == pytest.approx([w + i * PITCH for i, w in enumerate(wanted)], abs=1e-12)
    assert all(b - a > PITCH - 1e-12 for a, b in pairwise(found))


@pytest.mark.parametrize("turn", [0.0, 0.4, 2.0, math.pi, 4.5])
@pytest.mark.parametrize("outline", [HOOD.outline, FRAME.outline, disc(0.03, (0.01, 0.02)), SHEET])
def test_the_lowest_point_is_the_lowest(outline: Loop, turn: float) -> None:
    lying = moved(outline, turn=turn)
    x, y = lowest(lying)
    assert y == pytest.approx(bounds(lying)[0][1], abs=5e-5)
    line = to_shapely(lying, 1e-7).exterior
    assert line.distance(shapely.Point(x, y)) < 1e-6
    level = shapely.get_coordinates(line)
    assert x <= min(level[level[:, 1] <= y + 1e-7, 0]) + 1e-3


def test_the_dxf_holds_it_at_full_size() -> None:
    picture = sheet_drawing(SHEET, (BITE,), PARTS, METRIC)
    document = ezdxf.read(io.StringIO(dxf(picture, System.MM).decode()))
    assert not document.audit().errors
    space = document.modelspace()
    lines = [e for e in space.query("LINE") if e.dxf.layer == "OUTLINE"]
    xs = [p.x for e in lines for p in (e.dxf.start, e.dxf.end)]
    assert max(xs) - min(xs) == pytest.approx(500.0, abs=1e-6)
    arcs = [e for e in space.query("ARC") if e.dxf.layer == "CUT"]
    assert sorted(round(e.dxf.radius, 6) for e in arcs) == [60.0, 60.0, 160.0, 160.0]
    assert not [m for m in picture.marks if isinstance(m, Dimension)]


def test_without_sizes_the_crosses_and_the_flag_stand_alone() -> None:
    bare = sheet_drawing(SHEET, (BITE,), PARTS, METRIC, sizes=False)
    assert not [one for one in said(bare) if ": " in one]
    full = sheet_drawing(SHEET, (BITE,), PARTS, METRIC)
    assert drawn(bare, Layer.CUT).equals(drawn(full, Layer.CUT))
    assert drawn(bare, Layer.MARK).equals(drawn(full, Layer.MARK))


def test_a_sheet_of_a_cut_plan_is_drawn_with_its_letters() -> None:
    want = SheetWant("hood-1", "hood", "Hood", HOOD, 0.0015, "16 ga", "mild", 2)
    laid = tuple(PartLaid(want, Laid("hood-1", "S1", one.turn, one.x, one.y)) for one in PARTS[:2])
    cut = SheetCuts(StockSheet("S1", 0.0015, SHEET, (BITE,)), laid, ())
    plain = nest_drawing(cut, style=METRIC)
    assert plain == sheet_drawing(SHEET, (BITE,), PARTS[:2], METRIC)
    assert {"Q1", "Q2"} <= set(said(nest_drawing(cut, {"hood-1": "Q"}, METRIC)))
