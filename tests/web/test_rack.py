"""The rack on the page, with a real database: a list brought in, looked through, changed, moved, taken out."""

import csv
import io
import sqlite3
from collections.abc import Callable
from contextlib import closing
from pathlib import Path
from typing import Any

import pdfplumber
import pytest
from playwright.sync_api import expect
from served import EXAMPLES, Served

from bickern.desk.rack.rack import import_data, keeper

LIST = EXAMPLES / "rack.csv"
SHOP = EXAMPLES / "shop" / "bridge-forge.yaml"


def asked(rack: Path, sql: str) -> list[tuple[Any, ...]]:
    """Rows of the database, read beside the server."""
    with closing(sqlite3.connect(f"file:{rack}?mode=ro", uri=True)) as there:
        return there.execute(sql).fetchall()


def row(page: Any, name: str) -> Any:
    return page.locator("tr.piece").filter(has=page.get_by_role("rowheader", name=name, exact=True))


def said(page: Any) -> Any:
    return page.locator("p[role=status]").first


def bring(page: Any, button: str, *files: Any) -> None:
    with page.expect_file_chooser() as chooser:
        page.get_by_role("button", name=button).click()
    chooser.value.set_files(list(files))


def test_a_list_is_looked_at_put_in_looked_through_and_changed(
    served: Served, opened: Callable[..., Any], visit: Any, axe: Any
) -> None:
    page = visit(opened(), f"{served.url}/rack")
    expect(said(page)).to_have_text("nothing lies in the rack yet")
    page.get_by_label("Your name").fill("Ann")
    page.get_by_role("button", name="Bring a list in").click()
    bring(page, "Choose the list", LIST)
    expect(page.get_by_text("no units", exact=False).or_(page.get_by_text("bare numbers")).first).to_be_visible()
    expect(page.get_by_role("button", name="Put all 20 in")).to_have_count(0)

    page.get_by_label("Bare numbers mean").select_option("in")
    expect(page.get_by_text("does not say in which currency").first).to_be_visible()
    page.get_by_label("Prices are in").fill("usd")
    page.get_by_role("heading", name="rack.csv would put in: 20 pieces").wait_for()
    expect(page.get_by_text("2 of 20 pieces must never go in a fire")).to_be_visible()
    assert not served.rack.exists()  # looked at, nothing written
    page.get_by_role("button", name="Put all 20 in").click()
    page.get_by_role("heading", name="In the rack now: 20 pieces, B1 to S3").wait_for()
    assert asked(served.rack, "select count(*), sum(gone != '') from rack_piece") == [(20, 0)]
    assert asked(served.rack, "select distinct who, what from rack_change") == [("Ann", "added")]
    # 6 ft of 3/8 square: 72 x 25.4 mm, exact mathematics
    (length, width), *_ = asked(served.rack, "select length, width from rack_piece where id = 'B10'")
    assert (length, width) == pytest.approx((1.8288, 0.009525))
    axe(page)

    page.get_by_label("Find").fill("3/8 sq left wall")
    expect(said(page)).to_contain_text("4 bars of the 20 pieces in the rack")  # and the 10 mm bar, near enough
    page.get_by_label("Find").fill("galvanised")
    expect(row(page, "B15")).to_contain_text("NEVER IN THE FIRE")

    page.get_by_label("Find").fill("B13")
    row(page, "B13").get_by_role("button", name="Open B13").click()
    page.get_by_label("Length").fill("22 parsecs")
    page.get_by_role("button", name="Keep what is changed").click()
    expect(page.locator(".field.wrong")).to_contain_text("22 parsecs")
    page.get_by_label("Length").fill("21 1/2 in")
    page.get_by_role("button", name="Keep what is changed").click()
    expect(row(page, "B13")).to_contain_text("21 1/2 in")
    assert asked(served.rack, "select length, version from rack_piece where id = 'B13'")[0] == pytest.approx(
        (0.5461, 2)
    )

    # two windows: what the second has seen is old by then, and it changes nothing
    other = visit(opened(), f"{served.url}/rack?find=B13")
    for window in (page, other):
        row(window, "B13").get_by_role("button", name="Open B13").click()
    page.get_by_label("Where it lies").fill("floor")
    page.get_by_role("button", name="Keep what is changed").click()
    expect(row(page, "B13")).to_contain_text("floor")
    other.get_by_label("Where it lies").fill("loft")
    other.get_by_role("button", name="Keep what is changed").click()
    expect(other.get_by_text("B13 was changed by somebody else meanwhile")).to_be_visible()
    assert asked(served.rack, "select place from rack_piece where id = 'B13'") == [("floor",)]
    assert asked(served.rack, "select what from rack_change where piece = 'B13' order by version")[-1] == ("moved",)

    row(page, "B13").get_by_role("button", name="Open B13").click()
    page.get_by_role("button", name="What happened to it").click()
    history = page.get_by_role("table", name="What happened to B13")
    expect(history.get_by_role("row")).to_have_count(4)
    expect(history).to_contain_text("place floor (was short ends)")
    axe(page)
    page.get_by_text("Take it out of the rack").click()
    page.get_by_role("button", name="Take B13 out").click()
    expect(page.locator(".field.wrong")).to_contain_text("say why")
    page.get_by_label("Why").fill("sold to the neighbour")
    page.get_by_role("button", name="Take B13 out").click()
    expect(said(page)).to_contain_text("nothing of the 19 pieces")
    assert asked(served.rack, "select gone from rack_piece where id = 'B13'") == [("removed",)]


def test_put_in_by_hand_with_an_outline_and_no_file_of_this_machine(
    served: Served, page: Any, visit: Any, tmp_path: Path
) -> None:
    drawn = tmp_path / "leaf.svg"
    drawn.write_text(
        '<svg xmlns="http://www.w3.org/2000/svg" width="200mm" height="100mm" viewBox="0 0 200 100">'
        '<path d="M0 0H200V40H100V100H0Z" fill="none" stroke="black"/></svg>'
    )
    visit(page, f"{served.url}/rack")
    page.get_by_role("button", name="Put a bar in").click()
    form = page.get_by_role("region", name="What is put in")
    form.get_by_label("Section").fill("5/8 sq")
    form.get_by_role("button", name="Put it in").click()
    expect(form.locator(".field.wrong")).to_contain_text("without its length")
    form.get_by_label("Length").fill("1.5 m")
    form.get_by_label("How many alike").fill("2")
    form.get_by_role("button", name="Put it in").click()
    expect(form.get_by_text("In the rack now. Paint on: B")).to_be_visible()
    made = asked(served.rack, "select length from rack_piece where width between 0.0158 and 0.0159 and length > 1.4")
    assert made == [(1.5,), (1.5,)]

    page.get_by_role("button", name="Put a sheet in").click()
    form.get_by_label("Thickness").fill("1.5 mm")
    bring(page, "Outline of an odd sheet", drawn)
    expect(form.get_by_text("leaf.svg is its outline")).to_be_visible()
    form.get_by_role("button", name="Put it in").click()
    expect(form.get_by_text("In the rack now. Paint on: S")).to_be_visible()
    page.get_by_label("Find").fill("1.5 mm")
    expect(page.locator("tr.piece").first).to_contain_text("odd, in")

    # a list that names a file of the machine it is served on gets none
    page.get_by_role("button", name="Bring a list in").click()
    secret = tmp_path / "secret.svg"
    secret.write_text(drawn.read_text())
    text = f"kind,thickness,outline\nsheet,2 mm,{secret}\n"
    bring(page, "Choose the list", {"name": "list.csv", "mimeType": "text/csv", "buffer": text.encode()})
    expect(form.get_by_text("cannot be opened from here")).to_be_visible()
    expect(form.get_by_role("button", name="Put all")).to_have_count(0)
    bring(page, "Choose the list", {"name": "list.exe", "mimeType": "text/csv", "buffer": b"kind\n"})
    expect(form.get_by_text("none that is read here")).to_be_visible()


def test_five_thousand_pieces_a_page_at_a_time_taken_along(served: Served, page: Any, visit: Any) -> None:
    shapes = [f"bar,{size} {shape}" for size in ("1/4", "3/8", "1/2", "5/8", "3/4") for shape in ("sq", "rd")]
    rows = [f"{shapes[i % 10]},{20 + i % 180},,,S235JR,none,wall {i % 17},nr {i}" for i in range(4500)]
    rows += [f"sheet,,,{16 + i % 8} ga,{12 + i % 30} x 10,mild,none,loft,nr {i}" for i in range(4500, 5000)]
    text = "\n".join(["kind,section,length,thickness,size,steel,coating,place,remark", *rows]).encode()
    done = import_data(keeper(served.rack, None, "in", "Ben"), text, "many.csv")
    assert not done.stops
    assert len(done.pieces) == 5000

    visit(page, f"{served.url}/rack")
    expect(said(page)).to_contain_text("1 to 50")
    expect(page.locator("tr.piece")).to_have_count(50)
    first = page.locator("tr.piece").first.inner_text()
    page.get_by_role("button", name="The next 50").press("Enter")
    expect(said(page)).to_contain_text("51 to 100")
    assert page.locator("tr.piece").first.inner_text() != first
    page.get_by_label("Find").press_sequentially("3/8 rd wall 3")
    expect(said(page)).to_contain_text("bars of the")
    page.get_by_label("Find").fill("nr 4321")
    expect(page.locator("tr.piece")).to_have_count(1)

    with page.expect_download() as download:
        page.get_by_role("link", name="List (CSV)").click()
    (one,) = csv.DictReader(io.StringIO(Path(download.value.path()).read_text()))
    assert (one["remark"], one["section"].split(" ")[0]) == ("nr 4321", "1/4")
    with page.expect_download() as download:
        page.get_by_role("link", name="Labels (PDF)").click()
    with pdfplumber.open(download.value.path()) as pdf:
        assert one["id"] in pdf.pages[0].extract_text()
    with page.expect_download() as download:
        page.get_by_role("link", name="Backup").click()
    assert asked(download.value.path(), "select count(*) from rack_piece") == asked(
        served.rack, "select count(*) from rack_piece"
    )


def test_the_rack_in_the_hand_by_keys_and_in_the_dark(
    served: Served, opened: Callable[..., Any], visit: Any, axe: Any
) -> None:
    assert not import_data(keeper(served.rack, SHOP, "in", "Ben"), LIST.read_bytes(), "rack.csv").stops
    phone = visit(opened(phone=True, color_scheme="dark"), f"{served.url}/rack?find=left wall 1/2 sq")
    expect(phone.locator("tr.piece").first).to_be_visible()
    assert phone.evaluate("document.documentElement.scrollWidth") <= 390
    tall = phone.locator("tr.piece button").first.bounding_box()
    assert tall is not None
    assert min(tall["width"], tall["height"]) >= 44
    phone.locator("tr.piece button").first.focus()
    phone.keyboard.press("Enter")
    expect(phone.get_by_label("Section")).to_be_focused()
    axe(phone)
    phone.get_by_role("button", name="Close", exact=True).press("Enter")
    expect(phone.locator("tr.piece button").first).to_be_focused()
