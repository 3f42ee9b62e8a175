"""Paper: what is shown is what is printed; every file comes whole, and nothing else comes at all."""

import io
import json
import re
import zipfile
from typing import Any

import pdfplumber
import pytest
from served import Served

BROKEN = """\
job: Half a hood
units: mm
pieces:
  hood:
    sheet: 2 mm
    surface: {cone: {base: 100, top: 500, height: -3}}
  hook: {bar: 10 mm sq, metal: [{keep: 100 mm}]}
"""


def text_of(pdf: bytes) -> str:
    """What is written on the first page of a PDF, every gap between words a single blank."""
    with pdfplumber.open(io.BytesIO(pdf)) as file:
        return re.sub(r"\s+", " ", file.pages[0].extract_text())


def kept(page: Any, press: Any) -> tuple[str, bytes]:
    """The name and the bytes of what a press brings."""
    with page.expect_download() as got:
        press()
    return got.value.suggested_filename, got.value.path().read_bytes()


def at_paper(page: Any, served: Served, job: str, query: str = "") -> None:
    page.goto(f"{served.at(job, 'paper')}{query}")
    page.wait_for_selector(".zip a", timeout=60_000)


@pytest.fixture(scope="module")
def job(served: Served) -> str:
    return served.job()


def test_the_shop_sheet_is_taken_away_and_says_what_the_page_says(page: Any, served: Served, job: str):
    at_paper(page, served, job, "?on=letter")
    title = page.locator("h1").inner_text()
    cuts = page.get_by_role("region", name="what to cut").locator("tbody td:nth-child(2)").all_inner_texts()
    name, data = kept(page, page.get_by_label("Keep the PDF: Shop sheet").click)
    assert name == "shop-sheet.pdf"
    told = text_of(data)
    assert title == "Porch lantern"
    assert title in told
    # shown in one system first, the other in brackets; the sheet has them one below the other
    inches = [re.match(r"[\d/ ]+ in", cut) for cut in cuts]
    assert len(inches) == 5
    assert [found[0] for found in inches if found and found[0] not in told] == []
    assert all(inches)
    pages = page.locator(".doc", has=page.get_by_role("heading", name="Shop sheet")).locator(".leaves img")
    with pdfplumber.open(io.BytesIO(data)) as file:
        assert len(file.pages) == pages.count()
        assert (float(file.pages[0].width), float(file.pages[0].height)) == pytest.approx((612.0, 792.0), abs=0.5)


def test_it_is_printed_beside_the_page(page: Any, served: Served, job: str):
    at_paper(page, served, job)
    link = page.get_by_role("link", name="Print shop sheet")
    assert link.get_attribute("target") == "_blank"
    got = page.request.get(served.url + link.get_attribute("href"))
    assert got.headers["content-type"] == "application/pdf"
    assert got.headers["content-disposition"].startswith("inline")
    assert got.headers["x-content-type-options"] == "nosniff"
    assert got.body()[:5] == b"%PDF-"


def test_the_one_file_holds_every_file_that_is_offered(page: Any, served: Served, job: str):
    at_paper(page, served, job)
    name, data = kept(page, page.get_by_role("link", name="The whole packet in one ZIP").click)
    assert name == "porch-lantern-shop-letter.zip"
    with zipfile.ZipFile(io.BytesIO(data)) as folder:
        assert folder.testzip() is None
        inside = {one: folder.read(one) for one in folder.namelist()}
    links = page.locator("a[download]").evaluate_all("all => all.map(a => a.getAttribute('href'))")
    names = {link.split("/letter/", 1)[1].partition("?")[0] for link in links} - {"all.zip"}
    assert names == set(inside)
    assert {one.rpartition(".")[2] for one in names} == {"pdf", "dxf", "svg", "glb", "3mf", "csv", "json"}
    for link in [link for link in links if "all.zip" not in link]:
        got = page.request.get(served.url + link)
        one = link.split("/letter/", 1)[1].partition("?")[0]
        assert got.body() == inside[one], one
        assert got.headers["content-disposition"].startswith("attachment"), one
    assert json.loads(inside["reckoning.json"])["findings"] is not None


def test_a_page_is_looked_at_large_and_turned_with_the_keys(page: Any, served: Served, job: str, axe: Any):
    at_paper(page, served, job)
    axe(page)
    leaf = page.get_by_role("button", name="Shop sheet, page 2 of")
    leaf.focus()
    page.keyboard.press("Enter")
    large = page.get_by_role("dialog")
    named = large.get_by_role("heading")
    named.wait_for()
    assert named.inner_text().startswith("Shop sheet, page 2 of")
    page.wait_for_function(
        "() => { const i = document.querySelector('dialog img'); return i && i.naturalWidth > 1000 }"
    )
    axe(page)
    page.keyboard.press("ArrowRight")
    large.get_by_role("heading", name="Shop sheet, page 3").wait_for()
    page.keyboard.press("ArrowLeft")
    large.get_by_role("heading", name="Shop sheet, page 2").wait_for()
    large.get_by_role("button", name="Page before").click()
    large.get_by_role("heading", name="Shop sheet, page 1").wait_for()
    assert large.get_by_role("button", name="Page before").is_disabled()
    page.keyboard.press("Escape")
    large.wait_for(state="hidden")
    assert "page 2 of" in page.evaluate("document.activeElement.getAttribute('aria-label')")


def test_for_a_customer_on_a4_with_keys_alone_and_after_a_reload(page: Any, served: Served, job: str):
    at_paper(page, served, job)
    page.get_by_role("radio", name="the shop").focus()
    page.keyboard.press("ArrowLeft")  # round from the first to the last
    page.get_by_role("heading", name="Customer sheet").wait_for(timeout=60_000)
    page.get_by_label("On what paper").select_option("a4")
    page.wait_for_url("**/paper?for=customer&on=a4")
    page.reload()
    page.wait_for_selector(".zip a", timeout=60_000)
    assert page.get_by_role("radio", name="a customer").is_checked()
    assert page.locator(".doc h2").all_inner_texts() == ["Customer sheet"]
    _, data = kept(page, page.get_by_label("Keep the PDF: Customer sheet").click)
    with pdfplumber.open(io.BytesIO(data)) as file:
        # ISO 216: A4 is 210 x 297 mm, exact; a point is 1/72 in
        size = (float(file.pages[0].width), float(file.pages[0].height))
    assert size == pytest.approx((210 / 25.4 * 72, 297 / 25.4 * 72), abs=0.5)
    assert "for=customer" in page.url


def test_a_job_that_changes_meanwhile_is_set_again(page: Any, opened: Any, served: Served, visit: Any):
    name = served.job("ring-pull", "meanwhile.yaml")
    at_paper(page, served, name)
    page.get_by_text("The job has changed since").wait_for(state="hidden")
    path = served.folder / name
    text = path.read_text()
    title = re.search(r"^job: (.*)$", text, re.MULTILINE)
    assert title is not None
    path.write_text(text.replace(title[0], "job: Pull for the back door"))
    visit(opened(), served.at(name))  # another window finds that the file was changed
    page.get_by_text("The job has changed since").wait_for()
    page.get_by_role("button", name="Set again").click()
    page.get_by_text("The job has changed since").wait_for(state="hidden")  # with it go the pages as they were
    page.wait_for_selector(".zip a", timeout=60_000)
    _, data = kept(page, page.get_by_label("Keep the PDF: Shop sheet").click)
    assert "Pull for the back door" in text_of(data)


def test_what_stops_is_told_and_the_rest_can_be_printed(page: Any, served: Served):
    (served.folder / "broken.yaml").write_text(BROKEN)
    at_paper(page, served, "broken.yaml")
    assert page.locator(".found .stop").count() >= 1
    _, data = kept(page, page.get_by_label("Keep the PDF: Shop sheet").click)
    assert "hook" in text_of(data)
    (served.folder / "unread.yaml").write_text("job: [")
    page.goto(served.at("unread.yaml", "paper"))
    page.get_by_text("nothing can be printed").wait_for()
    assert page.locator(".doc").count() == 0


@pytest.mark.parametrize(
    "name",
    [
        "../porch-lantern.yaml",
        "..%2fporch-lantern.yaml",
        "porch-lantern.yaml",
        "/etc/passwd",
        "patterns",
        "shop-sheet.pdf?page=0",
        "shop-sheet.pdf?page=99",
        "shop-sheet.pdf?page=-1",
        "shop-sheet.pdf?small=¹",
        "reckoning.json?page=1",
        "shop-sheet.pdf/",
    ],
)
def test_nothing_but_what_the_packet_names_is_given(page: Any, served: Served, job: str, name: str):
    at = f"{served.at(job, 'paper')}/1/shop/letter/"
    assert page.request.get(at + "shop-sheet.pdf", timeout=60_000).ok
    assert page.request.get(at + name).status >= 400


def test_a_customer_gets_nothing_of_the_shop(page: Any, served: Served, job: str):
    at = f"{served.at(job, 'paper')}/1/customer/letter/"
    assert page.request.get(at + "customer-sheet.pdf", timeout=60_000).ok
    for name in ("reckoning.json", "shop-sheet.pdf", "cut-list.csv"):
        assert page.request.get(at + name).status == 404
    for wrong in ("99/shop/letter", "1/king/letter", "1/shop/napkin", "x/shop/letter"):
        assert page.request.get(f"{served.at(job, 'paper')}/{wrong}/shop-sheet.pdf").status >= 400


def test_on_a_phone_in_the_dark(opened: Any, served: Served, job: str, axe: Any):
    phone = opened(phone=True, color_scheme="dark")
    at_paper(phone, served, job)
    assert phone.evaluate("document.documentElement.scrollWidth") <= 390
    axe(phone)
    small = phone.locator("#main a, #main button, #main .pick label, #main select").evaluate_all(
        "all => all.map(e => e.getBoundingClientRect()).filter(r => r.height > 0 && r.height < 44).length"
    )
    assert small == 0
    phone.get_by_role("button", name="Patterns, page 1 of").click()
    large = phone.get_by_role("dialog")
    large.get_by_role("button", name="Larger").click()
    phone.wait_for_function("() => document.querySelector('dialog img').getBoundingClientRect().width > 700")
    large.get_by_role("button", name="Close").click()
    large.wait_for(state="hidden")
