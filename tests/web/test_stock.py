"""The stock of a job on the page, with a real database: planned, drawn, taken; and nothing taken twice."""

import json
import sqlite3
from collections.abc import Callable, Iterator
from contextlib import closing
from pathlib import Path
from typing import Any

import ezdxf
import pdfplumber
import pytest
from playwright.sync_api import expect
from served import EXAMPLES, Served, serving

from bickern.desk.rack.rack import add_to_rack, import_data, keeper

SHOP = EXAMPLES / "shop" / "bridge-forge.yaml"
LATE = 120_000
"""Milliseconds that a plan may take on a busy machine."""


@pytest.fixture(scope="module")
def forge(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Served]:
    """A server with a shop file, the example rack and two jobs."""
    with serving(tmp_path_factory.mktemp("stock"), "--shop", str(SHOP)) as there:
        there.job("leaf-coat-hook")
        there.job("porch-lantern")
        done = import_data(keeper(there.rack, SHOP), (EXAMPLES / "rack.csv").read_bytes(), "rack.csv")
        assert not done.stops
        yield there


def asked(rack: Path, sql: str) -> list[tuple[Any, ...]]:
    """Rows of the database, read beside the server."""
    with closing(sqlite3.connect(f"file:{rack}?mode=ro", uri=True)) as there:
        return there.execute(sql).fetchall()


def plan(page: Any) -> None:
    page.get_by_role("button", name="Plan the cuts").click()
    page.get_by_role("button", name="Take it").wait_for(timeout=LATE)


def take(page: Any) -> None:
    page.get_by_role("button", name="Take it").click()
    page.get_by_role("button", name="Yes, take it").click()


def saved(page: Any, button: str) -> Path:
    with page.expect_download(timeout=LATE) as download:
        page.get_by_role("button", name=button, exact=True).click()
    return Path(download.value.path())


def test_planned_drawn_taken_and_not_taken_twice(
    forge: Served, opened: Callable[..., Any], visit: Any, axe: Any
) -> None:
    page, other = (visit(opened(), forge.at("leaf-coat-hook.yaml", "stock")) for _ in range(2))
    expect(page.get_by_role("heading", name="hook: 24 of")).to_be_visible()
    for window in (page, other):
        plan(window)
    bars = page.locator("section.cut-of")
    expect(bars).to_have_count(3)
    drawn = bars.first.locator(".at-bench svg")
    expect(drawn).to_be_visible()
    assert drawn.locator("text", has_text="A").count() == 9
    assert "A, mark at 7 1/16 in" in (bars.first.get_by_role("img").first.get_attribute("aria-label") or "")
    axe(page)

    before = asked(forge.rack, "select count(*) from rack_piece")
    page.get_by_role("button", name="Take it").click()
    told = page.get_by_role("region", name="Taking it")
    expect(told).to_contain_text("B10 is cut: 9 of hook")
    expect(told).to_contain_text("back into the rack as an offcut: the 7 5/8 in (193 mm) of B10, left wall")
    assert asked(forge.rack, "select count(*) from rack_piece") == before  # asked first, nothing written
    told.get_by_label("Your name").fill("Ann")
    page.get_by_role("button", name="Yes, take it").click()
    expect(told).to_contain_text("mark the 7 5/8 in (193 mm) of B10 as B18")
    expect(bars.first).to_contain_text("Paint on it: B18")
    gone = asked(forge.rack, "select id, gone from rack_piece where gone != '' order by number")
    assert gone == [("B10", "cut"), ("B11", "cut"), ("B12", "cut")]
    drops = asked(forge.rack, "select id, of, offcut, place from rack_piece where number > 17 and kind = 'bar'")
    assert drops == [("B18", "B10", 1, "left wall"), ("B19", "B11", 1, "left wall"), ("B20", "B12", 1, "left wall")]
    (who, jobs), *_ = asked(forge.rack, "select who, jobs from rack_change where what = 'cut'")
    assert (who, json.loads(jobs)) == ("Ann", ["Leaf coat hook"])

    with pdfplumber.open(saved(page, "Cut list (PDF)")) as pdf:
        text = "\n".join(sheet.extract_text() for sheet in pdf.pages)
    assert "Paint on it: B18" in text
    assert saved(page, "Lengths (CSV)").read_text().splitlines()[1].startswith("B10,left wall,")

    take(other)
    expect(other.get_by_text("B10 is not as this plan has seen it: it was cut by Ann")).to_be_visible()
    assert asked(forge.rack, "select count(*) from rack_piece where number > 17 and kind = 'bar'") == [(3,)]
    other.get_by_role("button", name="Plan again").click()
    expect(other.get_by_text("short", exact=False).first).to_be_visible(timeout=LATE)
    expect(other.get_by_role("heading", name="To buy")).to_be_visible()


def test_a_nest_is_drawn_on_its_sheet_with_another_job_beside_it(
    forge: Served, opened: Callable[..., Any], visit: Any, axe: Any
) -> None:
    phone = visit(opened(phone=True, color_scheme="dark"), forge.at("porch-lantern.yaml", "stock"))
    phone.get_by_text("Other jobs, cut from the same bars").click()
    phone.get_by_label("Leaf coat hook").check()
    phone.get_by_role("button", name="Plan the cuts").click()
    expect(phone.get_by_role("heading", name="Files")).to_be_visible(timeout=LATE)
    sheet = phone.get_by_role("region", name="S1", exact=True)
    expect(sheet.locator(".in-hand svg")).to_be_visible()
    expect(sheet.locator(".drawing:visible")).to_have_count(1)
    expect(phone.get_by_text("for Leaf coat hook").first).to_be_visible()
    assert phone.evaluate("document.documentElement.scrollWidth") <= 390
    axe(phone)
    drawn = ezdxf.readfile(saved(phone, "S1 (DXF)"))
    assert len(drawn.modelspace()) > 10


def test_a_job_changed_meanwhile_is_not_taken(forge: Served, opened: Callable[..., Any], visit: Any) -> None:
    forge.job("rail-s-hook", "changing.yaml")
    by = keeper(forge.rack, SHOP)
    cells = {"kind": "bar", "length": "20 ft", "steel": "S235JR", "coating": "none", "place": "floor"}
    for section in ("1/4 sq", "5/16 rd", "3/8 rd", "1/4 rd", "3/8 sq", "1/2 rd"):
        assert not add_to_rack(by, {**cells, "section": section}).stops
    page = visit(opened(), forge.at("changing.yaml", "stock"))
    plan(page)
    before = asked(forge.rack, "select count(*), sum(version) from rack_piece")
    job = forge.folder / "changing.yaml"
    job.write_text(job.read_text().replace("job:", "# another\njob:", 1))
    take(page)
    expect(page.get_by_text("changing.yaml was changed after this was planned")).to_be_visible()
    assert asked(forge.rack, "select count(*), sum(version) from rack_piece") == before
    page.get_by_role("button", name="Plan again").click()
    page.get_by_role("button", name="Take it").wait_for(timeout=LATE)
    take(page)
    expect(page.get_by_role("heading", name="Taken out of the rack")).to_be_visible()
    assert asked(forge.rack, "select count(*), sum(version) from rack_piece") != before


def test_a_long_search_shows_how_far_it_is_and_stops_when_told(
    forge: Served, opened: Callable[..., Any], visit: Any
) -> None:
    text = (EXAMPLES / "forge-hood.yaml").read_text()
    (forge.folder / "many.yaml").write_text(text.replace("units:", "make: 40\nunits:", 1))
    by = keeper(forge.rack, SHOP)
    sheet = {"kind": "sheet", "size": "96 x 48", "count": "20", "steel": "mild", "coating": "none"}
    for gauge in ("16 US ga", "18 US ga", "20 US ga"):
        assert not add_to_rack(by, {**sheet, "thickness": gauge}).stops
    page = visit(opened(), forge.at("many.yaml", "stock"))
    page.get_by_role("button", name="Plan the cuts").click()
    bar = page.get_by_role("progressbar")
    expect(bar).to_be_visible()
    page.wait_for_function("() => +document.querySelector('[role=progressbar]').getAttribute('aria-valuenow') > 0")
    page.get_by_role("button", name="Stop: the best so far will do").click()
    expect(bar).to_be_hidden(timeout=LATE)
    expect(page.get_by_text("the search was stopped before it was through", exact=False).first).to_be_visible()
