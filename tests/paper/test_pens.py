"""SVG and DXF pens, read back by an XML parser, by the arc formulas of the SVG standard, and by ezdxf."""

import io
import math
import os
import re
import subprocess
import sys
import xml.etree.ElementTree as ET
from pathlib import Path

import ezdxf
import pytest
from ezdxf import recover

from bickern.measure.units.words import System
from bickern.paper.marks import (
    Arc,
    Dimension,
    Filled,
    Layer,
    Line,
    Polyline,
    Text,
    Tick,
    TickKind,
    Tone,
    Weight,
    circle,
    drawing,
)
from bickern.paper.pens.dxf import dxf
from bickern.paper.pens.svg import Rounds, chains, svg

SVG = "{http://www.w3.org/2000/svg}"
NASTY = [
    "</text><script>alert(1)</script>",
    "&amp; <b> \" ' ]]>",
    "tab\tline\nfeed\r\x00\x07",
    "\ud800 half a pair",
    "%%c \\U+0041 {\\fArial;x} ^J",
    "½ ⅜ ″ ° ø → Ж 鉄 🔥 \u202e",
]


def cone(inner=0.2, outer=0.45, start=0.3, sweep=1.9198621771937625):
    """A cone's pattern: two arcs and two seams, end to end."""
    a = start + sweep
    ring = lambda r, t: (r * math.cos(t), r * math.sin(t))  # noqa: E731
    return drawing(
        [
            Arc((0, 0), outer, start, sweep, Layer.CUT),
            Line(ring(outer, a), ring(inner, a), Layer.CUT),
            Arc((0, 0), inner, a, -sweep, Layer.CUT),
            Line(ring(inner, start), ring(outer, start), Layer.CUT),
            Line(ring(inner, 0.4), ring(outer, 0.4), Layer.BEND),
            Tick(ring(0.3, 1), TickKind.PUNCH),
            Dimension(ring(inner, start), ring(outer, start), -0.01, "9 27/32 in (250 mm)"),
            Text(ring(0.3, 1.2), "Cone, 16 ga", 0.006, weight=Weight.BOLD),
            Filled((ring(0.3, 0.6), ring(0.35, 0.6), ring(0.35, 0.7)), Tone.HATCHED),
            Filled((ring(0.3, 0.8), ring(0.35, 0.8), ring(0.35, 0.9)), Tone.BLACK),
            Polyline(((0, 0), (0.01, 0), (0.01, 0.01)), layer=Layer.HIDDEN),
        ]
    )


def arc_centre(start, end, radius, sweep_flag):
    """Centre of an arc of at most half a turn, from its ends: W3C, SVG 1.1, 2011, F.6.5 [from memory]."""
    (x1, y1), (x2, y2) = start, end
    xp, yp = (x1 - x2) / 2, (y1 - y2) / 2
    root = math.sqrt(max(0.0, (radius**2 - xp**2 - yp**2) / (xp**2 + yp**2)))
    sign = -1 if sweep_flag == 0 else 1  # large-arc flag is 0
    return (sign * root * yp + (x1 + x2) / 2, -sign * root * xp + (y1 + y2) / 2)


def test_svg_says_its_real_size_and_its_layers():
    picture = cone()
    root = ET.fromstring(svg(picture, title="a cone & its <seam>"))
    assert float(root.get("width").removesuffix("mm")) == pytest.approx(picture.bounds.width * 1000, abs=1e-4)
    assert float(root.get("height").removesuffix("mm")) == pytest.approx(picture.bounds.height * 1000, abs=1e-4)
    assert [float(n) for n in root.get("viewBox").split()][2:] == pytest.approx(
        [picture.bounds.width * 1000, picture.bounds.height * 1000], abs=1e-4
    )
    groups = {g.get("id"): g for g in root.iter(f"{SVG}g")}
    assert set(groups) == {"cut", "bend", "mark", "hidden", "dimension", "text", "hatch"}
    assert float(groups["cut"].get("stroke-width")) > float(groups["dimension"].get("stroke-width"))
    assert groups["cut"].get("stroke-dasharray") is None
    assert groups["bend"].get("stroke-dasharray") != groups["hidden"].get("stroke-dasharray")
    assert root.find(f"{SVG}title").text == "a cone & its <seam>"
    assert {g.get("stroke") for g in groups.values()} == {"#000"}


@pytest.mark.parametrize(("start", "sweep"), [(0.3, 1.9), (2.0, -1.9), (0.0, 2 * math.pi), (5.0, -0.2)])
def test_svg_arcs_are_in_pieces_of_thirty_degrees_about_the_true_centre(start, sweep):
    picture = drawing([Arc((0.7, -0.2), 0.3, start, sweep)])
    path = ET.fromstring(svg(picture)).find(f".//{SVG}path").get("d")
    here = tuple(float(n) for n in re.match(r"M(\S+) (\S+?)A", path).groups())
    pieces = re.findall(r"A(\S+) \S+ 0 (\d) (\d) (\S+) (-?[\d.]+)", path)
    assert len(pieces) == math.ceil(abs(sweep) / (math.pi / 6) - 1e-9)
    total = 0.0
    for radius, large, flag, x, y in pieces:
        end = (float(x), float(y))
        assert large == "0"
        centre = arc_centre(here, end, float(radius), int(flag))
        assert centre[0] + picture.bounds.left * 1000 == pytest.approx(700, abs=0.002)
        assert picture.bounds.top * 1000 - centre[1] == pytest.approx(-200, abs=0.002)
        total += 2 * math.asin(math.dist(here, end) / 2 / float(radius)) * (1 if flag == "0" else -1)
        here = end
    assert total == pytest.approx(sweep, abs=1e-5)
    assert ("Z" in path) == (abs(sweep) > 6.28)


def test_svg_curves_stay_round():
    path = ET.fromstring(svg(drawing([circle((0, 0), 1.0)]), rounds=Rounds.CURVES)).find(f".//{SVG}path").get("d")
    numbers = [float(n) for n in re.findall(r"-?[\d.]+", path)]
    points = list(zip(numbers[::2], numbers[1::2], strict=True))
    assert len(points) == 1 + 3 * 12
    for i in range(0, 36, 3):
        a, b, c, d = points[i : i + 4]
        for t in (0.1, 0.25, 0.5, 0.8):
            at = [
                (1 - t) ** 3 * a[k] + 3 * t * (1 - t) ** 2 * b[k] + 3 * t * t * (1 - t) * c[k] + t**3 * d[k]
                for k in (0, 1)
            ]
            assert math.dist(at, (1000, 1000)) == pytest.approx(1000, abs=0.002)


def test_an_outline_is_one_closed_path():
    cut = next(g for g in ET.fromstring(svg(cone())).iter(f"{SVG}g") if g.get("id") == "cut")
    paths = [p.get("d") for p in cut]
    assert len(paths) == 1
    assert paths[0].endswith("Z")
    assert len(chains([Line((0, 0), (1, 0)), Line((1, 0), (1, 1)), Line((5, 5), (6, 6))])) == 2


@pytest.mark.parametrize("says", NASTY)
def test_svg_takes_any_string_as_lettering(says):
    root = ET.fromstring(svg(drawing([Text((0, 0), says)]), title=says).encode())
    letters = list(root.iter(f"{SVG}text"))
    assert len(letters) == 1
    assert len(letters[0].text) == len(says)
    assert not list(root.iter(f"{SVG}script"))


def test_svg_refers_to_nothing_outside_itself():
    text = svg(cone())
    assert re.findall(r"https?://[^\"]+", text) == ["http://www.w3.org/2000/svg"]
    assert "href" not in text
    assert "url(" not in text
    assert svg(cone()) == text


def read(data: bytes):
    document, auditor = recover.read(io.BytesIO(data))
    assert not auditor.errors
    assert not document.audit().errors
    return document


@pytest.mark.parametrize(("units", "code", "one"), [(System.MM, 4, 0.001), (System.INCH, 1, 0.0254)])
def test_dxf_is_sound_and_in_real_units_with_true_arcs(units, code, one):
    picture = cone()
    document = read(dxf(picture, units))
    assert document.dxfversion == "AC1024"  # the format's own name for release 2010
    assert document.header["$INSUNITS"] == code
    space = document.modelspace()
    arcs = space.query('ARC[layer=="CUT"]')
    assert sorted(a.dxf.radius * one for a in arcs) == pytest.approx([0.2, 0.45])
    for arc in arcs:
        assert arc.dxf.center.x * one == pytest.approx(-picture.bounds.left)
        assert (arc.dxf.end_angle - arc.dxf.start_angle) % 360 == pytest.approx(110)
        assert arc.dxf.start_angle == pytest.approx(math.degrees(0.3))
    seams = space.query('LINE[layer=="CUT"]')
    assert sorted(line.dxf.start.distance(line.dxf.end) * one for line in seams) == pytest.approx([0.25, 0.25])
    assert len(space.query('LWPOLYLINE[layer=="HIDDEN"]')) == 1
    assert len(space.query('CIRCLE[layer=="MARK"]')) == 1
    assert len(space.query("HATCH")) == 2  # the black area, the punch mark's dot


def test_dxf_layers_are_told_by_line_and_not_by_colour():
    document = read(dxf(cone()))
    wanted = {layer.name: document.layers.get(layer.name) for layer in Layer}
    assert {layer.dxf.color for layer in wanted.values()} == {7}
    assert wanted["CUT"].dxf.linetype == "Continuous"
    assert wanted["CUT"].dxf.lineweight > wanted["BEND"].dxf.lineweight > wanted["DIMENSION"].dxf.lineweight
    for name in ("BEND", "HIDDEN", "CENTRE"):
        line = document.linetypes.get(wanted[name].dxf.linetype)
        assert line.dxf.name == f"{name}_LINE"


def test_dxf_dimensions_are_real_or_plain_lines_by_choice():
    real = read(dxf(cone())).modelspace().query("DIMENSION")
    assert len(real) == 1
    assert real[0].dxf.text == "9 27/32 in (250 mm)"
    assert real[0].get_measurement() == pytest.approx(250)
    flat = read(dxf(cone(), dimensions=False)).modelspace()
    assert not flat.query("DIMENSION")
    assert "9 27/32 in (250 mm)" in [t.dxf.text for t in flat.query("TEXT")]


def test_dxf_is_the_same_bytes_again_and_leaves_no_setting_behind():
    before = ezdxf.options.write_fixed_meta_data_for_testing
    assert dxf(cone()) == dxf(cone())
    assert ezdxf.options.write_fixed_meta_data_for_testing == before


def test_dxf_is_the_same_bytes_in_another_run():
    """Sets of words come in another order in each run of Python; the file must not."""
    program = (
        f"import sys; sys.path[:] = {[str(Path(__file__).parent), *sys.path]!r}\n"
        "from test_pens import cone, dxf; sys.stdout.buffer.write(dxf(cone()))"
    )
    runs = [
        subprocess.run(
            [sys.executable, "-c", program],
            env=os.environ | {"PYTHONHASHSEED": seed},
            cwd=Path(__file__).parent,
            capture_output=True,
            check=True,
        )
        for seed in ("1", "4")
    ]
    assert runs[0].stdout == runs[1].stdout == dxf(cone())


@pytest.mark.parametrize("says", NASTY)
def test_dxf_takes_any_string_as_lettering(says):
    picture = drawing([Text((0, 0), says), Dimension((0, 0), (0.1, 0), 0.01, says)])
    space = read(dxf(picture)).modelspace()
    assert len(space.query("TEXT")) == 1
    assert len(space.query("DIMENSION")) == 1


def test_an_empty_drawing_is_still_a_document():
    assert ET.fromstring(svg(drawing([]))).tag == f"{SVG}svg"
    assert len(read(dxf(drawing([]))).modelspace()) == 0
