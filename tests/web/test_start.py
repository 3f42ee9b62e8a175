"""The start: the lantern for who comes the first time, jobs on the go, new ones begun, files brought in."""

import re
from collections.abc import Callable
from typing import Any

from playwright.sync_api import expect
from served import Served

JOB = "job: Gate hook\nunits: in\npieces:\n  hook:\n    bar: 3/8 rd\n    metal:\n      - {keep: 6}\n"

MANY = ("trivet", "ladle", "ring-pull", "fire-set", "bolt-tongs", "crane-chain", "forge-hood", "rail-s-hook")
DROP = """([name, text]) => {
  const carried = new DataTransfer();
  carried.items.add(new File([text], name));
  const at = document.querySelector("main section h2");
  for (const kind of ["dragover", "drop"])
    at.dispatchEvent(new DragEvent(kind, { dataTransfer: carried, bubbles: true, cancelable: true }));
}"""


def fits(page: Any) -> bool:
    """Nothing has to be pushed sideways."""
    return bool(page.evaluate("document.documentElement.scrollWidth <= window.innerWidth"))


def test_who_comes_the_first_time_finds_the_lantern_ready(served: Served, page: Any, visit: Any, axe: Any):
    for file in served.folder.iterdir():
        file.unlink()
    visit(page, served.url)
    drawing = page.locator(".first .drawing svg")
    expect(drawing).to_be_visible()
    assert "arm" in page.locator(".first .drawing").get_attribute("aria-label")
    axe(page)
    assert [p.name for p in served.folder.iterdir()] == []  # to look changes nothing
    for _ in range(20):
        page.keyboard.press("Tab")
        if page.evaluate("document.activeElement.innerText") == "Open the lantern":
            break
    page.keyboard.press("Enter")
    page.wait_for_url("**/job/porch-lantern.yaml")
    expect(page.locator("h1")).to_have_text("Porch lantern")
    assert served.text("porch-lantern.yaml").startswith("# A lantern")
    visit(page, served.url)
    expect(page.locator(".first")).to_have_count(0)
    ticket = page.locator(".ticket")
    expect(ticket).to_have_count(1)
    for says in ("Porch lantern", "porch-lantern.yaml", "5 pieces", "today"):
        expect(ticket).to_contain_text(says)


def test_a_blank_one_is_begun_and_its_name_must_do(served: Served, page: Any, visit: Any):
    served.job()
    visit(page, served.url)
    name = page.get_by_label("What is it?")
    page.get_by_role("button", name="Begin", exact=True).click()
    expect(page.get_by_text("give it a name first")).to_be_visible()
    expect(name).to_be_focused()
    name.fill("../hinge")
    page.get_by_role("button", name="Begin", exact=True).click()
    expect(page.get_by_text("which no file name can have everywhere")).to_be_visible()
    page.get_by_label("Bare numbers are").select_option("mm")
    name.fill("Gate hinge")
    name.press("Enter")
    page.wait_for_url("**/job/Gate%20hinge.yaml")
    text = served.text("Gate hinge.yaml")
    assert "job: Gate hinge" in text
    assert "units: mm" in text


def test_an_example_is_begun_again_under_another_name(served: Served, page: Any, visit: Any):
    served.job("trivet")
    before = served.text("trivet.yaml")
    visit(page, served.url)
    page.get_by_role("button", name="Begin from Trivet").click()
    page.wait_for_url("**/job/trivet%202.yaml")
    assert served.text("trivet 2.yaml") == before == served.text("trivet.yaml")


def test_a_file_is_brought_in_or_dropped_and_a_bad_one_is_told(served: Served, page: Any, visit: Any, faults: Any):
    served.job()
    visit(page, served.url)
    chosen = page.locator("input[type=file]")
    chosen.set_input_files({"name": "picture.yaml", "mimeType": "text/plain", "buffer": b"\x89PNG\x00\x00"})
    expect(page.locator(".found .stop")).to_contain_text("not plain text")
    chosen.set_input_files({"name": "run.exe", "mimeType": "text/plain", "buffer": b"MZ"})
    expect(page.locator(".found .stop")).to_contain_text("another ending")
    chosen.set_input_files({"name": "leaf.svg", "mimeType": "image/svg+xml", "buffer": b"<svg/>"})
    expect(page.locator("#said")).to_contain_text("leaf.svg")
    chosen.set_input_files({"name": "hook.yaml", "mimeType": "text/plain", "buffer": JOB.encode()})
    page.wait_for_url("**/job/hook.yaml")
    assert served.text("hook.yaml") == JOB
    visit(page, served.url)
    page.evaluate(DROP, ["hook.yaml", JOB + "# another\n"])
    page.wait_for_url("**/job/hook%202.yaml")
    assert served.text("hook.yaml") == JOB
    assert served.text("hook 2.yaml") == JOB + "# another\n"
    there = sorted(p.name for p in served.folder.iterdir())
    assert "picture.yaml" not in there
    assert "run.exe" not in there


def test_many_jobs_are_looked_through_on_a_phone_in_the_dark(
    served: Served, opened: Callable[..., Any], visit: Any, axe: Any
):
    for example in MANY:
        served.job(example)
    (served.folder / "<b>bold.yaml").write_text("job: [\n")
    page = visit(opened(phone=True, color_scheme="dark"), served.url)
    assert fits(page)
    axe(page)
    page.get_by_role("button", name=re.compile("^All ")).click()
    expect(page.locator(".ticket", has_text="<b>bold")).to_contain_text("cannot be read yet")
    page.get_by_label("Find a job").fill("s-hook rail")
    expect(page.locator(".ticket")).to_have_count(1)
    page.get_by_label("Find a job").fill("no such job")
    expect(page.get_by_text("No job has these words")).to_be_visible()
    page.get_by_label("Find a job").fill("ladle")
    page.locator(".ticket").tap()
    page.wait_for_url("**/job/ladle.yaml")


def test_where_there_is_no_job_and_no_page_there_is_a_way_back(
    served: Served, page: Any, visit: Any, faults: Any, axe: Any
):
    faults.allow("404")
    served.job()
    visit(page, served.at("none.yaml"))
    expect(page.get_by_text("There is no file")).to_be_visible()
    page.get_by_role("link", name="Back to the jobs").click()
    expect(page.locator("h1")).to_have_text("Jobs")
    assert page.goto(f"{served.url}/nowhere").status == 404
    axe(page)
    page.get_by_role("link", name="Back to the jobs").click()
    expect(page.locator(".ticket").first).to_be_visible()
