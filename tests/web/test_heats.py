"""The fire: cards turned and ticked off by keys and by one thumb, the seconds of a heat, and what really happened."""

import os
import re
import sqlite3
import subprocess
import sys
from collections.abc import Callable
from contextlib import closing
from typing import Any

import pytest
from playwright.sync_api import expect
from served import ROOT, Served

RING = "ring-pull"
LONG = 20_000
"""Milliseconds to wait for what is reckoned first, on a machine that does much else."""
SUITED = 28.0
"""Pixels: what is to be done now is told in no smaller letters."""


@pytest.fixture
def ring(served: Served) -> str:
    """A job that nothing was ever ticked off of: each test has a file of its own."""
    name = f"ring {len(list(served.folder.iterdir()))}.yaml"
    return served.job(RING, name)


def fire(visit: Callable[..., Any], page: Any, served: Served, job: str) -> Any:
    """The cards of a job, alive."""
    visit(page, served.at(job, "heats"))
    expect(page.locator(".dock .next")).to_be_visible()
    return page


def tab_to(page: Any, says: str) -> None:
    """Goes by the tab key to what is called so."""
    for _ in range(60):
        page.keyboard.press("Tab")
        at = "document.activeElement"
        name = page.evaluate(f"{at}.labels?.[0]?.innerText || {at}.getAttribute('aria-label') || {at}.innerText || ''")
        if name.strip().startswith(says):
            return
    raise AssertionError(f"no way by keys to {says}")


def told(served: Served, *words: str) -> str:
    """What the terminal says of the same rack."""
    own = os.environ | {"XDG_DATA_HOME": str(served.home / "data"), "PYTHONPATH": str(ROOT / "src"), "COLUMNS": "200"}
    command = [sys.executable, "-m", "bickern.cli", *words, "--rack", str(served.rack)]
    return subprocess.run(command, cwd=served.folder, env=own, capture_output=True, text=True, check=False).stdout


def kept(served: Served) -> list[tuple[Any, ...]]:
    """The records in the file itself, and why they were struck."""
    with closing(sqlite3.connect(served.rack)) as book:
        join = "day_book LEFT JOIN day_book_struck AS struck ON struck.number = day_book.number WHERE what = 'record'"
        return book.execute(f"SELECT job, piece, made, because FROM {join}").fetchall()


def ticked(page: Any, says: str) -> None:
    expect(page.locator(".far b")).to_have_text(says)


@pytest.fixture
def cut_off(faults: Any) -> None:
    """The line to the server breaks in this test."""
    faults.allow(r"socket\.io|ERR_CONNECTION_REFUSED|WebSocket")


@pytest.mark.usefixtures("cut_off")
def test_keys_alone_turn_tick_and_note_and_a_power_cut_loses_nothing(
    served: Served, page: Any, visit: Any, ring: str, axe: Any
):
    fire(visit, page, served, ring)
    expect(page.locator("#now")).to_have_text("Before the fire is lit")
    expect(page.locator(".heat")).to_contain_text("Everything is hot until proved cold.")
    expect(page.locator(".heat")).to_contain_text("not validated by anything printed")
    page.keyboard.press("ArrowRight")
    expect(page.locator("#now")).to_contain_text("Mark out boss")
    page.keyboard.press(" ")
    expect(page.locator("#now")).to_contain_text("Set down tail")
    page.keyboard.press("ArrowLeft")
    expect(page.locator("#now")).to_contain_text("Mark out boss")
    tab_to(page, "Done")
    page.keyboard.press("Enter")
    expect(page.locator("#now")).to_contain_text("Set down tail")
    ticked(page, "1 of 13")
    expect(page.locator(".dock .done")).to_be_focused()
    page.keyboard.press("Shift+Tab")
    page.keyboard.press("Shift+Tab")
    page.keyboard.press("Shift+Tab")
    expect(page.get_by_label("What happened")).to_be_focused()
    page.keyboard.type("slipped once")
    expect(page.locator(".overview .noted")).to_be_visible()
    axe(page)
    served.stop(kill=True)
    page.goto("about:blank")
    served.start()
    fire(visit, page, served, ring)
    ticked(page, "1 of 13")
    expect(page.locator("#now")).to_contain_text("Set down tail")
    expect(page.get_by_label("What happened")).to_have_value("slipped once")
    expect(page.locator(".overview .whole")).to_have_count(1)
    expect(page.locator(".overview .whole .state")).to_have_text("done")
    page.keyboard.press("ArrowLeft")
    tab_to(page, "Take back")
    page.keyboard.press("Enter")
    ticked(page, "0 of 13")


def test_the_seconds_of_a_heat_run_in_the_browser_alone_and_end_in_words(
    served: Served, page: Any, visit: Any, ring: str
):
    sent: list[str] = []
    page.on("websocket", lambda line: line.on("framesent", lambda frame: sent.append(str(frame))))
    page.clock.install()
    fire(visit, page, served, ring)
    page.locator(".overview button", has_text="Set down tail").click()
    expect(page.locator("#now")).to_contain_text("Set down tail")
    gives, least = (
        float(one) for one in re.search(r"gives (\d+)\ss \((\d+) to", page.locator(".lasts").inner_text()).groups()
    )
    page.locator("h1").click()  # nothing is in the hand: Enter pulls the iron out
    page.keyboard.press("Enter")
    dock = page.locator(".dock")
    expect(dock.locator(".says")).to_have_text("to the anvil")
    first = float(dock.locator(".seconds").inner_text())
    assert abs(first - gives) <= 3, "told to the seconds that the card says"
    page.clock.fast_forward(4000)
    expect(dock.locator(".says")).to_have_text("work")
    before = len(sent)
    page.clock.run_for(2000)
    assert float(dock.locator(".seconds").inner_text()) <= first - 2
    assert len(sent) - before <= 1, "nothing is sent while it runs"
    shown = "document.querySelector('.left-bar i').getBoundingClientRect().width"
    whole = "document.querySelector('.left-bar').clientWidth"
    steps = page.evaluate(f"{shown} / {whole}") * page.evaluate("+document.querySelector('.left-bar').ariaValueMax")
    assert abs(steps - round(steps)) < 0.05, "who wants no motion sees the bar go by whole seconds"
    page.clock.fast_forward(1000 * (least - 1))
    expect(dock.locator(".says")).to_have_text("look at the colour")
    page.clock.fast_forward(1000 * (first - least + 2))
    expect(dock.locator(".says")).to_have_text("back in the fire")
    expect(dock.locator(".seconds")).to_have_text("0")
    expect(dock.get_by_role("progressbar")).to_have_attribute("aria-valuetext", "0 s, back in the fire")
    page.keyboard.press("Enter")  # hot again: the next heat begins at once
    expect(dock.locator(".says")).to_have_text("to the anvil")
    dock.get_by_role("button", name="Stop").click()
    expect(dock.locator(".seconds")).to_have_count(0)
    page.get_by_role("button", name="Tell what really happened").click()
    expect(page.locator(".field", has_text="visits to the fire")).to_contain_text(
        "pulled from the fire here, of all of them: 2"
    )


def test_one_thumb_makes_a_piece_and_tells_the_day_book_what_happened(
    served: Served, phone: Any, visit: Any, ring: str, axe: Any
):
    fire(visit, phone, served, ring)
    phone.locator(".dock .next").tap()
    expect(phone.locator("#now")).to_contain_text("Mark out boss")
    phone.get_by_label("What happened").fill("ground square")
    for number in range(1, 8):
        phone.locator(".dock .done").tap()
        ticked(phone, f"{number} of 13")
        if number == 1:
            expect(phone.locator("#now")).to_contain_text("Set down tail")
            sizes = phone.evaluate(
                "[...document.querySelectorAll('#now .does, .pull, .doing .facts, .doing .how, .doing .check')]"
                ".map(one => parseFloat(getComputedStyle(one).fontSize))"
            )
            assert len(sizes) >= 5
            assert min(sizes) >= SUITED
            assert phone.evaluate("document.documentElement.scrollWidth <= window.innerWidth")
            small = (
                "[...document.querySelectorAll('.dock button')].filter(one => one.getBoundingClientRect().height < 56)"
            )
            assert phone.evaluate(f"{small}.length") == 0
            axe(phone)
    phone.locator(".made").get_by_role("button", name="Tell what really happened").tap()
    expect(phone.get_by_label("Of what")).to_have_value("boss")
    expect(phone.get_by_label("Remark")).to_have_value("Mark out boss: ground square")
    expect(phone.locator(".field", has_text="visits to the fire")).to_contain_text("foreseen 5")
    phone.get_by_label("Heats", exact=True).fill("9")
    phone.get_by_label("Minutes", exact=True).fill("long")
    phone.get_by_role("button", name="Write it into the day book").tap()
    expect(phone.get_by_label("Minutes", exact=True)).to_be_focused()
    expect(phone.locator(".field.wrong")).to_contain_text("cannot be read as minutes")
    assert kept(served) == [], "what cannot be read keeps nothing"
    phone.get_by_label("Minutes", exact=True).fill("40")
    phone.wait_for_timeout(1500)  # what is filled in is kept when the keys are still for a moment
    fire(visit, phone, served, ring)
    phone.get_by_role("button", name="Tell what really happened").tap()
    phone.get_by_label("Of what").select_option("boss")
    expect(phone.get_by_label("Heats", exact=True)).to_have_value("9")
    expect(phone.get_by_label("Minutes", exact=True)).to_have_value("40")
    phone.get_by_role("button", name="Write it into the day book").tap()
    expect(phone.locator(".kept")).to_contain_text("is kept: “boss”, 1 made")
    expect(phone.get_by_role("heading", name="What it taught")).to_be_visible()
    expect(phone.get_by_label("Heats", exact=True)).to_have_value("")
    axe(phone)
    said = told(served, "record", ring, "--list")
    assert re.search(r"“boss”\s+heats 9; 40 min in all; “Mark out boss: ground square”", said), said
    rows = (
        sqlite3.connect(served.rack).execute("SELECT job, piece, made FROM day_book WHERE what = 'record'").fetchall()
    )
    assert rows == [("Ring pull", "boss", 1)]
    phone.locator(".records summary").tap()
    phone.get_by_label("Why it was a slip").fill("wrong piece")
    phone.get_by_role("button", name="Strike record").tap()
    expect(phone.locator(".records li")).to_contain_text("STRUCK")
    assert kept(served) == [("Ring pull", "boss", 1, "wrong piece")]


def test_two_windows_tick_off_one_job_and_a_changed_plan_is_shown_when_asked_for(
    served: Served, page: Any, opened: Any, visit: Any, axe: Any
):
    job = served.job("porch-lantern", "two windows.yaml")
    other = fire(visit, opened(color_scheme="dark"), served, job)
    fire(visit, page, served, job)
    page.locator(".overview button", has_text="Spread foot").click()
    page.locator(".dock .done").click()
    page.locator(".dock .done").click()
    expect(page.locator("#now")).to_contain_text("number 3 of 4")
    ticked(other, "2 of 96")
    other.locator(".overview button", has_text="Spread foot").click()
    expect(other.locator(".boxes input:checked")).to_have_count(2)
    other.get_by_label("number 1").click()
    ticked(page, "1 of 96")
    expect(page.locator(".boxes input:checked")).to_have_count(1)
    axe(other)
    bench = visit(opened(), served.at(job))
    bench.locator(".tag", has_text="post").click()
    upright = bench.locator(".field", has_text="keep").locator("input").first
    expect(upright).to_have_value("6")
    upright.fill("6 1/2")
    upright.press("Tab")
    expect(page.locator(".newer")).to_contain_text("The plan has changed.", timeout=LONG)
    ticked(page, "1 of 96")
    page.get_by_role("button", name="Show it").click()
    expect(page.locator(".newer")).to_be_empty()
    expect(page.locator("#now")).to_contain_text("Spread foot")
