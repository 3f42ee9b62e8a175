"""The page under test: `served`, a real server with its own folder; `page`, `phone`: a browser that must not complain.

Without a browser these tests are left out, saying so; where nothing may be missing (CI) that is a fault.
"""

import os
import re
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from served import LAUNCH, Served, browser_path, serving

WIDE = {"width": 1280, "height": 900}
PHONE = {"viewport": {"width": 390, "height": 844}, "has_touch": True, "is_mobile": True, "device_scale_factor": 2}
LONG = 30_000
"""Milliseconds to wait for what should be there at once, on a machine that has other things to do."""
LEFT_BEHIND = "ERR_ABORTED"
"""What a page was still asking for when it was left."""


@pytest.fixture(scope="module")
def served(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Served]:
    """One server for the tests of a file: `.url`, `.folder`, `.job()`, `.stop(kill=)`, `.start()`."""
    with serving(tmp_path_factory.mktemp("forge")) as there:
        yield there


@pytest.fixture
def serve(tmp_path: Path) -> Iterator[Callable[..., Served]]:
    """Starts a server with other words of the command and another environment, for one test."""
    started: list[Served] = []

    def start(*words: str, **environment: str) -> Served:
        started.append(Served(tmp_path / f"forge{len(started)}", *words, **environment))
        return started[-1].start()

    yield start
    for one in started:
        one.stop()


@pytest.fixture(scope="session")
def browser() -> Iterator[Any]:
    """The browser, once for all tests."""
    path = browser_path()
    if path is None:
        _missing("there is no Chromium on this machine")
    try:
        from playwright.sync_api import expect, sync_playwright
    except ImportError:
        _missing("playwright is not installed")
    expect.set_options(timeout=LONG)
    with sync_playwright() as play:
        chromium = play.chromium.launch(executable_path=path, args=list(LAUNCH))
        yield chromium
        chromium.close()


def _missing(what: str) -> None:
    if os.environ.get("CI"):
        pytest.fail(f"{what}, and here nothing may be missing")
    pytest.skip(f"{what}: `python tools/browser.py` sets it up")


class Faults:
    """What the browser complained of; `allow` names what a test brings about itself."""

    def __init__(self) -> None:
        self.found: list[str] = []
        self._allowed: list[str] = []

    def allow(self, pattern: str) -> None:
        """Complaints in which this is found are no fault."""
        self._allowed.append(pattern)

    @property
    def left(self) -> list[str]:
        """Those that nobody expected."""
        return [one for one in self.found if not any(re.search(each, one) for each in self._allowed)]

    def listen(self, page: Any) -> None:
        """Hears all that a page complains of."""
        page.on("console", lambda said: self._console(said))
        page.on("pageerror", lambda fault: self.found.append(f"error: {fault}"))
        page.on("requestfailed", lambda asked: self._failed(asked))
        page.on("response", lambda got: self._answered(got))

    def _console(self, said: Any) -> None:
        if said.type == "error":
            self.found.append(f"console: {said.text} {said.location.get('url', '')}")

    def _failed(self, asked: Any) -> None:
        if LEFT_BEHIND not in (asked.failure or ""):
            self.found.append(f"not got: {asked.url} {asked.failure}")

    def _answered(self, got: Any) -> None:
        if got.status >= 400:
            self.found.append(f"answered {got.status}: {got.url}")


@pytest.fixture
def faults() -> Iterator[Faults]:
    """Every complaint of every page of this test; one that nobody allowed fails it."""
    heard = Faults()
    yield heard
    assert heard.left == []


@pytest.fixture
def opened(browser: Any, faults: Faults) -> Iterator[Callable[..., Any]]:
    """Opens one more window, of its own person: `opened()`, `opened(phone=True)`, `opened(color_scheme="dark")`."""
    contexts: list[Any] = []

    def window(*, phone: bool = False, **options: Any) -> Any:
        settings = {
            "locale": "en-US",
            "reduced_motion": "reduce",
            **(PHONE if phone else {"viewport": WIDE}),
            **options,
        }
        contexts.append(browser.new_context(**settings))
        contexts[-1].set_default_timeout(LONG)
        page = contexts[-1].new_page()
        faults.listen(page)
        return page

    yield window
    for context in contexts:
        context.close()


@pytest.fixture
def page(opened: Callable[..., Any]) -> Any:
    """A wide window."""
    return opened()


@pytest.fixture
def phone(opened: Callable[..., Any]) -> Any:
    """A window of 390 by 844 that is touched."""
    return opened(phone=True)


@pytest.fixture
def visit() -> Callable[..., Any]:
    """Goes to an address and waits until the page is alive: what is typed there is heard."""
    return go


def go(page: Any, address: str) -> Any:
    """The same, as a plain function."""
    page.goto(address, wait_until="load")
    page.wait_for_function("() => window.socket && window.socket.connected")
    return page


GRAVE = ("serious", "critical")


@pytest.fixture
def axe() -> Callable[[Any], None]:
    """Looks a page over for what keeps people out (axe-core); what is serious or worse fails."""
    try:
        from axe_playwright_python.sync_playwright import Axe
    except ImportError:
        _missing("axe-playwright-python is not installed")
    looks = Axe()

    def check(page: Any) -> None:
        found = looks.run(page).response["violations"]
        assert [_told(one) for one in found if one["impact"] in GRAVE] == []

    return check


def _told(one: dict[str, Any]) -> str:
    nodes = "; ".join(f"{node['target']} {node.get('failureSummary', '')[:160]}" for node in one["nodes"][:4])
    return f"{one['impact']} {one['id']}: {one['help']} at {nodes}"
