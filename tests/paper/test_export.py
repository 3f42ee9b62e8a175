"""Files for other tools, read back by other people's readers."""

import csv
import dataclasses
import io
import json
import math
import re
import types
import typing
import xml.etree.ElementTree as ElementTree
from dataclasses import replace
from itertools import pairwise

import ezdxf
import pdfplumber
import pytest

from bickern.geometry.solid.solid import Named
from bickern.measure.spread import Spread
from bickern.measure.units.read import read_length
from bickern.measure.units.words import INCH, System
from bickern.paper import export
from bickern.paper.copy import Copy
from bickern.paper.packet import packet
from bickern.paper.pens.page import A4, LETTER
from bickern.paper.telling import told, unit_of
from bickern.parts.set.result import Seat


@pytest.fixture
def data(lantern):
    return json.loads(export.reckoning(lantern))


UNTOLD = (Seat, Named)
"""Rows of points, which the JSON leaves out."""


def number_fields():
    """Every field of every value a copy can hold that is a number, by class and name."""
    seen, found = set(), set()

    def walk(kind):
        if typing.get_origin(kind) is not None or isinstance(kind, types.UnionType):
            for part in typing.get_args(kind):
                walk(part)
        elif isinstance(kind, type) and dataclasses.is_dataclass(kind) and kind not in (*seen, *UNTOLD):
            seen.add(kind)
            hints = typing.get_type_hints(kind)
            for field in dataclasses.fields(kind):
                if "float" in str(hints[field.name]) or hints[field.name] is Spread:
                    found.add((kind.__name__, field.name))
                walk(hints[field.name])

    walk(Copy)
    return sorted(found - {(owner, "also") for owner, _ in found})


@pytest.mark.parametrize(("owner", "field"), number_fields())
def test_every_number_has_a_unit(owner, field):
    assert unit_of(owner, field) is not None


def test_the_reckoning_names_its_schema_and_is_the_same_each_time(lantern, data):
    assert (data["schema"], data["schema_version"]) == ("bickern reckoning", 1)
    assert export.reckoning(lantern) == export.reckoning(lantern)
    text = export.reckoning(lantern).decode()
    assert list(data) == sorted(data)
    assert "NaN" not in text
    assert "Infinity" not in text


def test_the_reckoning_holds_what_was_reckoned(lantern, data):
    arm, hook, links, hood = data["pieces"]
    assert arm["is"] == "bar result"
    assert arm["stock_bare_m"] == pytest.approx(lantern.pieces[0].stock_bare)
    assert arm["cut_this_said"] == "13 in (330.5 mm)"
    assert arm["stock_m"]["low"] < arm["stock_m"]["value"] < arm["stock_m"]["high"]
    assert arm["marks_on_stock"][0]["kind"] == "punch"
    assert arm["also"][0]["value_m"] == pytest.approx(12.8 * INCH)
    assert len(hook["legs"]) == 5
    assert links["chain"]["links"] == 13
    assert {figure["name"] for figure in hood["figures"]} >= {"angle"}
    assert next(f for f in hood["figures"] if f["name"] == "angle")["value_said"] == "227°"
    assert data["joints"][0]["metal_m"] == pytest.approx(0.4 * INCH)
    assert data["cautions"]
    assert data["not_validated"]
    assert data["mass_kg"] == 1.2


def test_what_is_said_is_what_is_told_as_a_number(data):
    """Lengths in words read back to the number beside them, within half a sixteenth."""
    pairs = []

    def walk(value):
        if isinstance(value, dict):
            for key, held in value.items():
                if key.endswith("_m") and f"{key[:-2]}_said" in value and isinstance(held, float):
                    pairs.append((held, value[f"{key[:-2]}_said"]))
                walk(held)
        elif isinstance(value, list):
            for held in value:
                walk(held)

    walk(data)
    assert len(pairs) > 60
    for number, words in pairs:
        if number > 0:
            read = read_length(words.split(" (")[0], System.INCH).value
            assert read == pytest.approx(number, abs=max(INCH / 32, 0.0) * 1.001)


def test_every_dataclass_of_the_copy_is_told_whole(lantern):
    whole = told(lantern)
    for field in dataclasses.fields(lantern.pieces[0]):
        keys = [key for key in whole["pieces"][0] if key == field.name or key.startswith(f"{field.name}_")]
        assert keys, field.name


def test_the_cut_list_is_rounded_up_and_complete(lantern):
    rows = list(csv.DictReader(io.StringIO(export.cut_list(lantern).decode("utf-8-sig"))))
    assert tuple(rows[0]) == ("piece", "count", "section", "steel", "cut this in", "cut this mm", "note")
    by_name = {row["piece"]: row for row in rows}
    assert by_name["arm"]["cut this in"] == "13"
    assert float(by_name["arm"]["cut this mm"]) >= 13 * 25.4
    assert by_name["links"]["count"] == "13"
    assert by_name["hood"]["cut this in"].count(" x ") == 1
    assert any(name.startswith("rivet") for name in by_name)
    assert len(rows) == len(lantern.pieces) + 1


def test_counts_are_those_of_the_whole_job(lantern):
    copy = replace(lantern, job=replace(lantern.job, make=12))
    rows = list(csv.DictReader(io.StringIO(export.cut_list(copy).decode("utf-8-sig"))))
    assert [row["count"] for row in rows] == ["12", "24", "156", "12", "60"]


@pytest.mark.parametrize("cell", ["=1+1", "+1", "-1", "@A1", "\tx", "\rx"])
def test_no_cell_is_a_formula(cell):
    assert export.plain_cell(cell).startswith("'")


def test_no_name_leaves_its_folder(lantern):
    assert export.file_name("../../etc/passwd") == "etc-passwd"
    assert export.file_name("..") == "unnamed"
    assert export.file_name("") == "unnamed"
    assert export.file_name("C:\\x\x00y") == "C-x-y"
    assert len(export.file_name("a" * 500)) == 60
    assert export.file_name("Füße 鉄") == "Füße-鉄"


def test_pieces_of_one_name_each_get_a_file(lantern):
    arm = lantern.pieces[0]
    twins = (arm, replace(arm, spec=replace(arm.spec, name="ARM")), arm)
    files = export.drawing_files(replace(lantern, pieces=twins))
    assert sorted(name for name in files if name.endswith(".dxf")) == [
        "outlines/ARM-2.dxf",
        "outlines/arm-3.dxf",
        "outlines/arm.dxf",
    ]


@pytest.mark.parametrize(("system", "code", "unit"), [(System.INCH, 1, INCH), (System.MM, 4, 0.001)])
def test_a_pattern_as_dxf_keeps_units_and_true_arcs(lantern, system, code, unit):
    files = export.drawing_files(replace(lantern, job=replace(lantern.job, units=system)))
    document = ezdxf.read(io.StringIO(files["patterns/hood.dxf"].decode()))
    assert document.header["$INSUNITS"] == code
    assert not document.audit().errors
    radii = sorted(arc.dxf.radius for arc in document.modelspace().query('ARC[layer=="CUT"]'))
    assert radii == pytest.approx([1.189 * INCH / unit, 6.343 * INCH / unit])
    angle = {round(arc.dxf.end_angle - arc.dxf.start_angle, 6) % 360 for arc in document.modelspace().query("ARC")}
    assert angle == {227.0}


def test_a_pattern_as_svg_has_its_real_size(lantern):
    # sector of 227 degrees, R 6.343 in: 2 R = 12.686 in wide (exact mathematics)
    root = ElementTree.fromstring(export.drawing_files(lantern)["patterns/hood.svg"].decode())
    assert float(root.get("width").removesuffix("mm")) == pytest.approx(12.686 * 25.4, abs=0.01)
    groups = {group.get("id") for group in root}
    assert {"cut", "centre"} <= groups


def test_a_packet_holds_every_file(lantern):
    names = set(packet(lantern, LETTER, "shop"))
    assert names >= {
        "shop-sheet.pdf",
        "patterns.pdf",
        "mark-out.pdf",
        "templates.pdf",
        "cut-list.csv",
        "reckoning.json",
        "patterns/hood.dxf",
        "patterns/hood.svg",
        "outlines/arm.dxf",
        "outlines/arm.svg",
        "outlines/links.svg",
    }
    assert set(packet(lantern, LETTER, "customer")) == {"customer-sheet.pdf"}
    assert "reckoning.json" not in packet(lantern, LETTER, "class")


def test_files_that_would_be_empty_are_left_out(lantern, arm):
    plain = replace(arm, spec=replace(arm.spec, path=()), legs=(), bends=(), twists=(), holes=())
    bare = replace(plain, marks_on_drawn=(), marks_on_stock=(), runs=arm.runs[1:2])
    names = set(packet(replace(lantern, pieces=(bare,), joints=()), LETTER, "shop"))
    assert "patterns.pdf" not in names
    assert "mark-out.pdf" not in names


@pytest.mark.parametrize("paper", [LETTER, A4], ids=lambda paper: paper.name)
def test_the_printed_rule_lies_true_on_the_bar(lantern, paper):
    """Distances between the marks of the printed paper rule, measured in the PDF, within 0.05 mm."""
    hook = lantern.pieces[1]
    book = packet(replace(lantern, pieces=(hook,), joints=()), paper, "shop")["mark-out.pdf"]
    page = pdfplumber.open(io.BytesIO(book)).pages[0]
    strokes = [list(pairwise(stroke["pts"])) for stroke in (*page.lines, *page.curves)]
    upright = [a[0] for pieces in strokes for a, b in pieces if abs(a[0] - b[0]) < 0.01 and a != b]
    at = sorted({round(x * 25.4 / 72, 3) for x in upright})
    datum = next(x for x in at if any(abs(x + hook.cut_this * 1000 - y) < 0.05 for y in at))
    assert any(abs(x - datum - hook.marks_on_stock[0].at * 1000) < 0.05 for x in at)
    assert any(abs(x - datum - hook.marks_on_drawn[0].at * 1000) < 0.05 for x in at)


def test_a_full_size_outline_is_printed_at_its_size(lantern, arm):
    """The hook's reach, measured across the heavy outline in templates.pdf, against the drawing, within 0.1 mm."""
    from bickern.paper import marks as mk
    from bickern.paper.views.outline import bend_pictures

    hook = lantern.pieces[1]
    book = packet(replace(lantern, pieces=(hook,), joints=()), LETTER, "shop")["templates.pdf"]
    page = pdfplumber.open(io.BytesIO(book)).pages[0]
    edges = [m for m in bend_pictures(hook)[0][0].marks if isinstance(m, mk.Polyline) and m.layer is mk.Layer.OUTLINE]
    xs = [x for edge in edges for x, _ in edge.points]
    ys = [y for edge in edges for _, y in edge.points]
    wide, high = sorted(((max(xs) - min(xs)) * 1000, (max(ys) - min(ys)) * 1000))
    curves = [c for c in page.curves if math.isclose(c["linewidth"] * 25.4 / 72, 0.5, abs_tol=0.01)]
    sizes = sorted(
        (
            (max(c["x1"] for c in curves) - min(c["x0"] for c in curves)) * 25.4 / 72,
            (max(c["bottom"] for c in curves) - min(c["top"] for c in curves)) * 25.4 / 72,
        )
    )
    assert sizes == pytest.approx([wide, high], abs=0.1)


def test_the_foot_of_a_sheet_names_no_folder_of_this_machine(lantern):
    copy = replace(lantern, job=replace(lantern.job, file="/home/smith/jobs/lantern.yaml"))
    text = pdfplumber.open(io.BytesIO(packet(copy, LETTER, "shop")["shop-sheet.pdf"])).pages[0].extract_text()
    assert "lantern.yaml" in text
    assert not re.search(r"/home|smith/jobs", text)


def test_a_finding_has_its_weight_as_a_word(data):
    assert {finding["weight"] for finding in data["findings"]} <= {"note", "warn", "stop"}
    assert data["findings"]
