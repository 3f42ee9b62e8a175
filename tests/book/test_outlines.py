"""Outlines from DXF and SVG, held against drawings made by ezdxf, areas by exact mathematics and by shapely."""

import io
import math
from collections.abc import Callable
from typing import Any

import ezdxf
import pytest
import shapely

from bickern.book.job.read import read_job
from bickern.book.outline.loops import end_of, signed_area, start_of
from bickern.book.outline.read import LARGEST, read_outline
from bickern.geometry.polygon import ArcSeg, Line, Loop
from bickern.measure.finding import stop
from bickern.measure.units.words import INCH, Read
from bickern.parts.sheet.allowances import SheetRules
from bickern.parts.sheet.reckon import reckon_sheet
from bickern.parts.sheet.spec import FlatOutline, SheetSpec

MM = 0.001


def drawn(units: int, draw: Callable[[Any], None]) -> bytes:
    """A DXF drawing made by ezdxf."""
    document = ezdxf.new("R2010", units=units)
    draw(document.modelspace())
    stream = io.StringIO()
    document.write(stream)
    return stream.getvalue().encode()


def outline(read: Read[FlatOutline]) -> FlatOutline:
    assert read.value is not None, read.findings
    for loop in (read.value.outer, *read.value.holes):
        gaps = [
            math.dist(end_of(a), start_of(b)) for a, b in zip(loop.segs, (*loop.segs[1:], loop.segs[0]), strict=True)
        ]
        assert max(gaps) < 5e-5
    return read.value


def names(read: Read[FlatOutline]) -> list[str]:
    return [f.name for f in read.findings]


def polygon(loop: Loop) -> shapely.Polygon:
    points: list[tuple[float, float]] = []
    for seg in loop.segs:
        if isinstance(seg, Line):
            points.append(seg.start)
        else:
            angles = [seg.start_angle + seg.sweep * i / 2000 for i in range(2000)]
            points += [
                (seg.centre[0] + seg.radius * math.cos(a), seg.centre[1] + seg.radius * math.sin(a)) for a in angles
            ]
    return shapely.Polygon(points)


def box(space: Any) -> None:
    """A plate 100 x 60 of loose lines drawn any way round, with a hole of 20 and a slot made by bulges."""
    for a, b in (((0, 0), (100, 0)), ((100, 60), (100, 0)), ((0, 60), (100, 60)), ((0, 60), (0, 0))):
        space.add_line(a, b)
    space.add_circle((30, 30), 10)
    space.add_lwpolyline([(60, 20, 0, 0, 0), (80, 20, 0, 0, 1), (80, 40, 0, 0, 0), (60, 40, 0, 0, 1)], close=True)


@pytest.mark.parametrize(("units", "metres"), [(4, MM), (1, INCH), (5, 0.01), (6, 1.0)])
def test_a_plate_with_a_hole_and_a_slot_in_real_units(units: int, metres: float):
    found = outline(read_outline("p.dxf", drawn(units, box)))
    assert signed_area(found.outer) == pytest.approx(6000 * metres**2, rel=1e-12)
    holes = sorted(-signed_area(h) for h in found.holes)
    assert holes == pytest.approx([math.pi * 100 * metres**2, (400 + math.pi * 100) * metres**2], rel=1e-9)


def test_circles_and_bulges_stay_true_arcs():
    found = outline(read_outline("p.dxf", drawn(4, box)))
    arcs = [s for hole in found.holes for s in hole.segs if isinstance(s, ArcSeg)]
    assert sorted(a.radius for a in arcs) == pytest.approx([0.01] * 3)
    assert sum(abs(a.sweep) for a in arcs) == pytest.approx(4 * math.pi)


def test_the_outer_loop_runs_counter_clockwise_and_holes_clockwise():
    found = outline(read_outline("p.dxf", drawn(4, box)))
    assert polygon(found.outer).exterior.is_ccw
    assert not any(polygon(h).exterior.is_ccw for h in found.holes)
    assert polygon(found.outer).area == pytest.approx(signed_area(found.outer))


def test_an_arc_with_its_chord():
    def half(space: Any) -> None:
        space.add_arc((10, 5), 20, 0, 180)
        space.add_line((-10, 5), (30, 5))

    found = outline(read_outline("p.dxf", drawn(4, half)))
    assert signed_area(found.outer) == pytest.approx(math.pi * 200 * MM**2, rel=1e-9)


def test_an_ellipse_is_within_two_hundredths_of_a_millimetre():
    found = outline(read_outline("p.dxf", drawn(4, lambda s: s.add_ellipse((0, 0), (50, 0), 0.4))))
    assert signed_area(found.outer) == pytest.approx(math.pi * 50 * 20 * MM**2, rel=1e-3)
    for seg in found.outer.segs:
        middle = [(a + b) / 2 for a, b in zip(start_of(seg), end_of(seg), strict=True)]
        # at the middle of a chord the ellipse's own equation says how far inside it lies
        inside = 1 - math.hypot(middle[0] / 0.05, middle[1] / 0.02)
        assert 0 <= inside * 0.05 < 5e-5


def test_a_spline_is_followed():
    points = [(0, 0), (40, 30), (80, 0), (40, -30), (0, 0)]
    found = outline(read_outline("p.dxf", drawn(4, lambda s: s.add_spline(points))))
    curve = ezdxf.math.fit_points_to_cad_cv(points)
    fine = shapely.Polygon([(v.x * MM, v.y * MM) for v in curve.flattening(1e-4)])
    assert polygon(found.outer).symmetric_difference(fine).area < 2e-5 * fine.length


def test_small_gaps_are_closed_with_a_note_and_large_ones_told():
    def gap(width: float) -> Callable[[Any], None]:
        return lambda space: space.add_lwpolyline([(0, 0), (50, 0), (50, 50), (0, 50), (0, width)])

    small, large = read_outline("p.dxf", drawn(4, gap(0.03))), read_outline("p.dxf", drawn(4, gap(0.3)))
    assert (names(small), signed_area(outline(small).outer)) == (["gap-closed"], pytest.approx(2500 * MM**2, rel=1e-3))
    assert names(large) == ["outline-open"]
    assert "0.30 mm" in large.findings[0].says


def test_a_drawing_without_units_is_asked_about_and_may_be_told():
    data = drawn(0, box)
    assert names(read_outline("p.dxf", data)) == ["no-units"]
    assert signed_area(outline(read_outline("p.dxf", data, "in")).outer) == pytest.approx(6000 * INCH**2)


def test_two_plates_in_one_file_are_told():
    def two(space: Any) -> None:
        space.add_circle((0, 0), 10)
        space.add_circle((50, 0), 9)

    assert names(read_outline("p.dxf", drawn(4, two))) == ["two-outlines"]


@pytest.mark.parametrize(
    ("name", "data", "finding"),
    [
        ("p.dxf", b"", "no-outline"),
        ("p.dxf", b"\x00\xff" * 500, "not-a-drawing"),
        ("p.dxf", b"0\nSECTION\n2\nENTITIES\n0\nLINE\n10\nx\n", "no-outline"),
        ("p.svg", b"", "not-a-drawing"),
        ("p.svg", b"<html/>", "not-a-drawing"),
        ("p.svg", b'<!DOCTYPE svg [<!ENTITY a "b">]><svg width="1mm"/>', "not-a-drawing"),
        ("p.svg", b'<svg width="10mm"><path d="M 0 0 L x"/></svg>', "not-a-drawing"),
        ("p.svg", b'<svg width="10mm"><path d="M 0 0 L 1e400 0"/></svg>', "not-a-drawing"),
        ("p.svg", b'<svg width="10mm">' + b"<g>" * 100 + b"</g>" * 100 + b"</svg>", "not-a-drawing"),
        ("p.svg", b'<svg width="10mm"></svg>', "no-outline"),
        ("p.svg", b'<svg width="10"><rect width="5" height="5"/></svg>', "no-units"),
        ("p.png", b"x", "unknown-file"),
        ("p.dxf", b"x" * (LARGEST + 1), "too-large"),
    ],
)
def test_bad_drawings_are_findings(name: str, data: bytes, finding: str):
    found = read_outline(name, data)
    assert found.value is None
    assert finding in names(found)


def svg(inner: str, head: str = 'width="100mm" height="60mm" viewBox="0 0 100 60"') -> bytes:
    return f'<svg xmlns="http://www.w3.org/2000/svg" {head}>{inner}</svg>'.encode()


@pytest.mark.parametrize(
    ("inner", "square_mm"),
    [
        ('<rect x="1" y="2" width="30" height="20"/>', 600),
        ('<circle cx="20" cy="20" r="10"/>', 100 * math.pi),
        ('<ellipse cx="50" cy="30" rx="40" ry="20"/>', 800 * math.pi),
        ('<polygon points="0,0 30,0 30,40"/>', 600),
        ('<path d="M10 10h30v20h-30z"/>', 600),
        ('<path d="M10 10 40 10 40 30 10 30Z"/>', 600),
        ('<path d="M0 0A15 15 0 0 1 30 0z"/>', 112.5 * math.pi),
        ('<path d="M0 0a15 15 0 1030 0z"/>', 112.5 * math.pi),
        ('<path d="M0 0C0 30 30 30 30 0z"/>', 540),  # 3/5 of the control box's 30 x 30: exact mathematics
        ('<path d="M0 0Q15 30 30 0z"/>', 300),  # a parabola: 2/3 of 30 x 15
        ('<path d="M0 0q15 30 30 0t30 0"/><path d="M60 0H0"/>', None),
        ('<rect width="30" height="20" rx="5"/>', 600 - (4 - math.pi) * 25),
        ('<g transform="translate(5 5) scale(2)"><rect width="10" height="5"/></g>', 200),
        ('<g transform="rotate(30 10 10)"><rect width="10" height="5"/></g>', 50),
        ('<g transform="matrix(0 2 -2 0 50 0)"><circle cx="5" cy="5" r="5"/></g>', 100 * math.pi),
        ('<rect width="30" height="20"/><defs><circle r="500"/></defs><text>hello</text>', 600),
        ('<line x1="0" y1="0" x2="10" y2="0"/><polyline points="10 0 10 10 0 0"/>', 50),
    ],
)
def test_svg_shapes_have_their_exact_area(inner: str, square_mm: float | None):
    read = read_outline("p.svg", svg(inner))
    if square_mm is None:
        assert not read.ok or signed_area(outline(read).outer) > 0
        return
    assert signed_area(outline(read).outer) == pytest.approx(square_mm * MM**2, rel=2e-3)


def test_round_svg_stays_true_arcs():
    for inner in (
        '<circle cx="20" cy="20" r="10"/>',
        '<g transform="rotate(40)scale(1 -1)"><circle cx="9" cy="20" r="10"/></g>',
    ):
        found = outline(read_outline("p.svg", svg(inner)))
        assert all(isinstance(s, ArcSeg) for s in found.outer.segs)
        assert signed_area(found.outer) == pytest.approx(math.pi * 100 * MM**2, rel=1e-9)


def test_svg_in_inches_and_with_a_view_box():
    found = outline(
        read_outline("p.svg", svg('<rect width="50" height="50"/>', 'width="4in" height="4in" viewBox="0 0 100 100"'))
    )
    assert signed_area(found.outer) == pytest.approx((2 * INCH) ** 2)
    told = outline(read_outline("p.svg", svg('<rect width="3" height="2"/>', ""), "in"))
    assert signed_area(told.outer) == pytest.approx(6 * INCH**2)


def test_svg_is_drawn_with_y_up():
    found = outline(read_outline("p.svg", svg('<polygon points="0,0 10,0 0,10"/>')))
    top = max(p[1] for s in found.outer.segs for p in (start_of(s), end_of(s)))
    assert (10 * MM, top) in [pytest.approx(start_of(s)) for s in found.outer.segs]


def test_a_job_takes_an_outline_from_a_file_beside_it():
    text = "job: a\nunits: in\npieces:\n  leaf:\n    sheet: 1/16\n    surface: {outline: {file: leaf.svg}}\n"
    job, found = read_job(text, "t", None, lambda name: svg('<circle cx="20" cy="20" r="10"/>'))
    assert found == ()
    assert isinstance(job.pieces[0], SheetSpec)  # type: ignore[union-attr]
    _, refused = read_job(text, "t", None, lambda name: stop("outside-folder", "it lies elsewhere"))
    assert [(f.name, f.where.line) for f in refused] == [("outside-folder", 6)]


CROSSED = "M0 0L60 40L60 0L0 50z"


@pytest.mark.parametrize(
    ("inner", "name"),
    [
        ('<rect width="60" height="40"/><circle cx="58" cy="20" r="5"/>', "cut-out-off-outline"),
        ('<rect width="60" height="40"/><circle cx="20" cy="20" r="5"/><circle cx="26" cy="20" r="5"/>',
         "cut-outs-overlap"),
        (f'<path d="{CROSSED}"/>', "outline-crosses-itself"),
    ],
)  # fmt: skip
def test_a_drawing_of_no_piece_of_sheet_is_refused(inner: str, name: str):
    """Drawn in SVG, and the same curves in DXF."""
    read = read_outline("p.svg", svg(inner))
    assert name in reckoned(read)


def test_a_drawn_file_with_crossing_lines_is_refused_too():
    def off(space: Any) -> None:
        space.add_lwpolyline([(0, 0), (60, 0), (60, 40), (0, 40)], close=True)
        space.add_circle((58, 20), 5)
        space.add_circle((20, 20), 5)
        space.add_circle((26, 20), 5)

    def bow(space: Any) -> None:
        space.add_lwpolyline([(0, 0), (60, 40), (60, 0), (0, 50)], close=True)

    assert {"cut-out-off-outline", "cut-outs-overlap"} <= reckoned(read_outline("p.dxf", drawn(4, off)))
    assert "outline-crosses-itself" in reckoned(read_outline("p.dxf", drawn(4, bow)))


def reckoned(read: Read[FlatOutline]) -> set[str]:
    """Names of what stops a piece of that outline."""
    found = reckon_sheet(SheetSpec("p", 0.001, "S235JR", outline(read)), SheetRules(), 7850.0)
    assert found.value is None
    return {f.name for f in found.findings if f.stops}


@pytest.mark.parametrize(
    ("words", "name"),
    [
        ("points: [[0, 0], [10, 0], [10, 6], [0, 6]], cut out: [{round: 2, at: [4, 2]}, {round: 5, at: [9, 9]}]",
         "cut-out-off-outline"),
        ("points: [[0, 0], [10, 0], [10, 6], [0, 6]], cut out: [{round: 2, at: [4, 2]}, {round: 2, at: [5, 3]}]",
         "cut-outs-overlap"),
        ("points: [[0, 0], [10, 6], [10, 0], [0, 7]]", "outline-crosses-itself"),
        ("points: [[0, 0], [10, 6], [10, 0], [0, 6]]", "outline-crosses-itself"),  # a bow tie that encloses no area
    ],
)  # fmt: skip
def test_an_outline_told_in_a_job_that_is_no_piece_of_sheet(words: str, name: str):
    text = f"job: a\nunits: in\npieces:\n  leaf:\n    sheet: 1/16\n    surface: {{outline: {{{words}}}}}\n"
    job, found = read_job(text, "t")
    assert job is not None, found
    piece = job.pieces[0]
    assert isinstance(piece, SheetSpec)
    read = reckon_sheet(piece, SheetRules(), 7850.0)
    assert read.value is None
    assert name in {f.name for f in read.findings if f.stops}


def test_numbers_that_the_library_guesses_at_are_told_of_and_nothing_is_printed(capfd: pytest.CaptureFixture[str]):
    """What stands in a file would else reach the terminal as it is, signs that it obeys among it."""
    plain = drawn(4, lambda space: space.add_lwpolyline([(0, 0), (100, 0), (100, 50), (0, 50)], close=True))
    assert read_outline("plain.dxf", plain).findings == ()
    before, _, after = plain.partition(b"AcDbPolyline")
    bad = before + b"AcDbPolyline" + after.replace(b"\n50.0\n", b"\n\x1b[31m50.0\n", 1)
    found = read_outline("bad.dxf", bad).findings
    assert "drawing-damaged" in [f.name for f in found]
    assert all(f.says.isprintable() for f in found)
    assert capfd.readouterr() == ("", "")


def test_drawings_put_wrong_never_raise():
    import random

    def all_kinds(space: Any) -> None:
        box(space)
        space.add_arc((10, 5), 2, 0, 180)
        space.add_ellipse((50, 30), (5, 0), 0.4)
        space.add_spline([(40, 30), (45, 35), (40, 38), (40, 30)])

    shapes = svg(
        '<g transform="rotate(30)"><path d="M0 0C0 30 30 30 30 0A5 5 0 0 1 0 0z"/>'
        '<rect rx="2" width="9" height="9"/></g>'
    )
    for seed in range(120):
        dice = random.Random(seed)
        name, whole = dice.choice([("p.dxf", drawn(4, all_kinds)), ("p.svg", shapes), ("p.svg", shapes)])
        data = bytearray(whole)
        for _ in range(dice.randint(1, 12)):
            at = dice.randrange(len(data))
            data[at : at + dice.randint(0, 3)] = dice.choice([b"", b"9", b"-", b"e9", b"\xff", b"\n", b"0", b".", b" "])
        found = read_outline(name, bytes(data))
        assert found.value is not None or found.findings
