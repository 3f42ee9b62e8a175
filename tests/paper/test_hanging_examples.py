"""The examples' own sheets and solids with the set put together: what a smith reads, and what other tools load."""

import io
import re
from dataclasses import replace
from functools import cache
from pathlib import Path

import numpy as np
import pdfplumber
import pytest
import trimesh

from bickern.desk.reckon import reckon_file
from bickern.desk.whole.assemble import for_packet
from bickern.desk.work.heats import planned
from bickern.paper.copy import Copy
from bickern.paper.export import solid_files
from bickern.paper.pens.page import LETTER, compile_pdf
from bickern.paper.sheets import together
from bickern.paper.sheets.shop import shop_sheet

EXAMPLES = Path(__file__).parents[2] / "examples"
HUNG = ("rail-s-hook", "rail-s-hook-metric", "dinner-triangle", "ladle")
SLOW_LANTERN = pytest.param("porch-lantern", 4, marks=pytest.mark.slow)
SLOW = [pytest.param(name, marks=pytest.mark.slow) for name in ("crane-chain", "porch-lantern")]
RATED = re.compile(
    r"\b(rated (for|to|at)|working load|safe load|will carry|can carry|carries|capacity|strong enough)\b"
)


@cache
def copy_of(name: str) -> Copy:
    copy = for_packet(reckon_file(EXAMPLES / f"{name}.yaml"), "shop").copy
    assert copy is not None
    return copy


def sheet_of(copy: Copy) -> io.BytesIO:
    source, files = shop_sheet(copy, LETTER)
    return io.BytesIO(compile_pdf(source, files, 0))


def count_of(copy: Copy) -> int:
    """Pages of its sheet."""
    with pdfplumber.open(sheet_of(copy)) as book:
        return len(book.pages)


@cache
def count_at(name: str) -> int:
    """Pages of an example's sheet."""
    return count_of(copy_of(name))


def text_of(name: str) -> str:
    """What is written on an example's sheet."""
    with pdfplumber.open(sheet_of(copy_of(name))) as book:
        return " ".join(" ".join((page.extract_text() or "").split()) for page in book.pages)


@pytest.mark.parametrize("name", [*HUNG, *SLOW])
def test_the_sheet_of_what_hangs_says_how_it_hangs_and_never_a_load(name: str):
    text = text_of(name)
    assert "How it hangs" in text
    assert re.search(r"off (plumb|level)|hangs plumb|lies level", text)
    assert re.search(r"balances .* in \(.* mm\) below|balances .* mm \(.* in\) below", text)
    assert "No load rating" in text
    assert not RATED.search(text.replace("No load rating", ""))


@pytest.mark.parametrize("name", [*HUNG, "ring-pull", "trivet", "bolt-tongs", "fire-set", *SLOW])
def test_the_sheet_grows_by_one_page_at_most(name: str):
    plain = planned(reckon_file(EXAMPLES / f"{name}.yaml")).copy
    assert plain is not None
    without = Copy(**{field: getattr(plain, field) for field in Copy.__slots__ if field != "fit"})
    assert count_at(name) <= count_of(without) + 1


@pytest.mark.parametrize(("name", "heats"), [("rail-s-hook", False), ("rail-s-hook", True), ("ladle", True)])
def test_a_figure_is_drawn_smaller_where_that_saves_a_page(name: str, heats: bool, monkeypatch: pytest.MonkeyPatch):
    copy = copy_of(name) if heats else replace(copy_of(name), plan=None)
    chosen = count_of(copy)
    monkeypatch.setattr(together, "SHARES", together.SHARES[:1])
    assert chosen == count_of(copy) - 1


@pytest.mark.parametrize(
    ("name", "more"), [("rail-s-hook", 1), ("rail-s-hook-metric", 2), ("dinner-triangle", 1), SLOW_LANTERN]
)
def test_the_heats_take_few_pages(name: str, more: int):
    assert count_at(name) <= count_of(replace(copy_of(name), plan=None)) + more


def test_lots_of_more_than_one_part_are_drawn_and_single_tools_are_not():
    """The fire set: pan and shovel are one lot, post and feet another; poker, rake and brush stand alone."""
    text = text_of("fire-set")
    assert text.count("Put together") == 2
    assert "Put together shovel, pan" in text
    assert "Put together stand post, stand foot" in text


def test_the_metric_hook_is_told_in_millimetres_first():
    text = text_of("rail-s-hook-metric")
    assert re.search(r"balances [\d.]+ mm \(", text)


@pytest.mark.parametrize("name", ["dinner-triangle", "trivet"])
def test_solids_have_real_units_in_both_files(name: str):
    """trimesh reads both: GLB is in metres (Khronos, glTF 2.0, 2021, 3.4) [from memory], 3MF says its unit."""
    copy = copy_of(name)
    files = solid_files(copy)
    for stem in {one.removesuffix(".glb") for one in files if one.endswith(".glb")}:
        glb = trimesh.load(io.BytesIO(files[f"{stem}.glb"]), file_type="glb", force="scene")
        three = trimesh.load(io.BytesIO(files[f"{stem}.3mf"]), file_type="3mf", force="scene")
        assert sorted(glb.extents * 1000) == pytest.approx(sorted(three.extents), abs=0.01)
        assert three.units in ("millimeter", "mm")


def test_the_set_is_written_part_by_part_under_the_parts_names():
    copy = copy_of("trivet")
    scene = trimesh.load(io.BytesIO(solid_files(copy)["set.glb"]), file_type="glb", force="scene")
    assert set(scene.geometry) == {"hoop", "leg 1", "leg 2", "leg 3", "rivet 1", "rivet 2", "rivet 3"}
    assert all(mesh.is_watertight for mesh in scene.geometry.values())
    low = min(float(np.min(one.solid.points[:, 2])) for one in copy.solids)
    high = max(float(np.max(one.solid.points[:, 2])) for one in copy.solids)
    assert scene.extents[1] == pytest.approx(high - low, abs=1e-5)  # glTF 2.0 has y up [from memory]
