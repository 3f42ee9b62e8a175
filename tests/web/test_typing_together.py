"""The file and its form typed into from two windows, over a net that fails, with the server killed: nothing is lost."""

import os
import signal
import time
from collections import Counter
from collections.abc import Callable
from typing import Any

from playwright.sync_api import expect
from served import Served

ONE, OTHER = "abcdefghijklmnopqrstuvwxyz", "01234567890123456789012345"
SOON = 30.0
OVER = 'input[name="pieces.hook.metal[1].over"]'
SWALLOW = "() => { window.socket.io.engine.transport.ws.send = () => {}; }"
"""The net has gone, and the browser does not know it yet."""
GONE = "() => window.socket.io.engine.transport.ws.close()"
"""Now it knows."""


def editor(page: Any) -> Any:
    """The text of the file, as a person sees it."""
    return page.get_by_role("textbox", name="The job file")


def at_the_end(page: Any, words: str) -> None:
    editor(page).click()
    page.keyboard.press("Control+End")
    page.keyboard.type(words)


def at_the_head(page: Any, words: str) -> None:
    editor(page).click()
    page.keyboard.press("Control+Home")
    page.keyboard.type(words + "\n")
    page.keyboard.press("ArrowUp")
    page.keyboard.press("End")


def holds(served: Served, job: str, *lines: str) -> None:
    """Waits until the file has these lines, each whole."""
    until = time.monotonic() + SOON
    while time.monotonic() < until:
        if set(lines) <= set(served.text(job).split("\n")):
            return
        time.sleep(0.05)
    held = served.text(job)
    assert set(lines) <= set(held.split("\n")), held[-200:]


def until_text(served: Served, job: str, words: str) -> None:
    """Waits until these words are in the file."""
    until = time.monotonic() + SOON
    while words not in served.text(job) and time.monotonic() < until:
        time.sleep(0.05)
    assert words in served.text(job)


def power_cut(served: Served, page: Any) -> None:
    """The server is killed, started again, and found again by the page itself."""
    served.stop(kill=True)
    served.start()
    page.wait_for_function("() => window.socket && window.socket.connected", timeout=40_000)


def test_two_windows_type_at_once_and_every_letter_of_both_is_there(
    served: Served, opened: Callable[..., Any], visit: Callable[..., Any]
):
    job = served.job("rail-s-hook", "two.yaml")
    begun = served.text(job)
    one, other = (visit(opened(), served.at(job)) for _ in range(2))
    at_the_end(one, "\n# one ")
    at_the_head(other, "# other ")
    for a, b in zip(ONE, OTHER, strict=True):
        one.keyboard.type(a)
        other.keyboard.type(b)
    typed = Counter(f"# one {ONE}\n# other {OTHER}\n")
    until = time.monotonic() + SOON
    while Counter(served.text(job)) - Counter(begun) != typed and time.monotonic() < until:
        time.sleep(0.05)
    # Where a letter meets a change of the other window on the very same frame, the cursor may come to stand before it:
    # each letter is there, each of the two lines is of one window alone, and all see the same.
    assert Counter(served.text(job)) - Counter(begun) == typed
    first, last = served.text(job).strip().split("\n")[0], served.text(job).strip().split("\n")[-1]
    assert (Counter(first), Counter(last)) == (Counter(f"# other {OTHER}"), Counter(f"# one {ONE}"))
    for page in (one, other):
        expect(editor(page)).to_contain_text(last)
        expect(editor(page)).to_contain_text(first)


def test_the_same_line_in_two_windows_is_told_and_the_other_text_kept(
    served: Served, opened: Callable[..., Any], visit: Callable[..., Any]
):
    job = served.job("rail-s-hook", "same.yaml")
    one, other = (visit(opened(), served.at(job)) for _ in range(2))
    os.kill(served.pid, signal.SIGSTOP)  # neither is heard before both have typed
    at_the_end(one, "\n# mine")
    at_the_end(other, "\n# yours")
    os.kill(served.pid, signal.SIGCONT)
    until = time.monotonic() + SOON
    told = None
    while told is None and time.monotonic() < until:
        told = next((page for page in (one, other) if page.get_by_text("your text is kept as state").count()), None)
    assert told is not None
    # the words may stand on the page a frame before the text they are about
    while editor(one).inner_text() != editor(other).inner_text() and time.monotonic() < until:
        time.sleep(0.05)
    assert editor(one).inner_text() == editor(other).inner_text()
    assert sorted(editor(one).inner_text().strip().split("\n")[-1]) in (sorted("# mine"), sorted("# yours"))
    told.get_by_text("Earlier states of this file").click()
    expect(told.get_by_text("set aside").first).to_be_visible()


def test_the_server_is_killed_in_mid_typing_and_nothing_is_lost(
    served: Served, page: Any, visit: Callable[..., Any], faults: Any
):
    faults.allow("ERR_CONNECTION|WebSocket|ERR_EMPTY|not got")
    job = served.job("rail-s-hook", "killed.yaml")
    visit(page, served.at(job))
    at_the_end(page, f"\n# {ONE[:13]}")
    os.kill(served.pid, signal.SIGSTOP)  # it hears no more of it before it ends
    page.keyboard.type(ONE[13:])
    expect(editor(page)).to_contain_text(f"# {ONE}")
    power_cut(served, page)
    holds(served, job, f"# {ONE}")
    expect(editor(page)).to_contain_text(f"# {ONE}")
    page.reload()
    expect(editor(page)).to_contain_text(f"# {ONE}")


def test_the_server_is_killed_while_a_field_is_filled_and_nothing_is_lost(
    served: Served, page: Any, visit: Callable[..., Any], faults: Any
):
    faults.allow("ERR_CONNECTION|WebSocket|ERR_EMPTY|not got")
    job = served.job("rail-s-hook", "field.yaml")
    visit(page, served.at(job))
    field = page.locator(OVER)
    field.fill("")
    field.press_sequentially("1 5/")
    until_text(served, job, "over: 1 5/")
    os.kill(served.pid, signal.SIGSTOP)
    field.press_sequentially("16")
    power_cut(served, page)
    until_text(served, job, "over: 1 5/16")
    expect(field).to_have_value("1 5/16")
    page.get_by_role("button", name="Undo", exact=True).click()
    expect(field).not_to_have_value("1 5/16")
    undone = field.input_value()
    page.reload()  # what arrived is not put in a second time over an undo
    expect(field).to_have_value(undone)


def test_a_message_that_the_net_swallows_goes_out_once_more(
    served: Served, page: Any, visit: Callable[..., Any], faults: Any
):
    faults.allow("WebSocket")
    job = served.job("rail-s-hook", "swallowed.yaml")
    visit(page, served.at(job))
    at_the_end(page, "\n# begun")
    holds(served, job, "# begun")
    page.evaluate(SWALLOW)
    page.keyboard.type(f" {ONE}")
    expect(editor(page)).to_contain_text(f"# begun {ONE}")
    assert ONE not in served.text(job)
    page.evaluate(GONE)
    holds(served, job, f"# begun {ONE}")
    page.keyboard.type(" and on")
    holds(served, job, f"# begun {ONE} and on")


def test_a_key_in_a_field_that_the_net_swallows_goes_out_once_more(
    served: Served, page: Any, visit: Callable[..., Any], faults: Any
):
    faults.allow("WebSocket")
    job = served.job("rail-s-hook", "swallowed-key.yaml")
    visit(page, served.at(job))
    field = page.locator(OVER)
    page.evaluate(SWALLOW)
    field.fill("1 7/8")
    assert "1 7/8" not in served.text(job)
    page.evaluate(GONE)
    until_text(served, job, "over: 1 7/8")
    page.wait_for_function("() => !Object.keys(sessionStorage).some((key) => key.startsWith('bickern /'))")
