"""Every view looked over for what keeps people out (axe-core): by day on a wide window, by night on a phone."""

from collections.abc import Callable
from typing import Any

import pytest
from served import Served

JOB = "porch-lantern.yaml"
VIEWS = {
    "jobs": "/",
    "bench": f"/job/{JOB}",
    "bench-of-a-sheet": f"/job/{JOB}?piece=hood",
    "in-the-round": f"/job/{JOB}/round",
    "fire": f"/job/{JOB}/heats",
    "stock": f"/job/{JOB}/stock",
    "price": f"/job/{JOB}/price",
    "paper": f"/job/{JOB}/paper",
    "rack": "/rack",
    "ask": "/ask",
    "one-question": "/ask/",
    "looks": "/looks",
}
QUIET = """() => {
  const now = performance.now();
  if (!window.quiet) {
    window.quiet = { at: now };
    new MutationObserver(() => { window.quiet.at = performance.now(); })
      .observe(document.body, { childList: true, subtree: true });
  }
  return now - window.quiet.at > 400;
}"""
"""Whether the page has stood still for a while: what it reckons is shown by then."""


@pytest.fixture(scope="module")
def job(served: Served) -> str:
    return served.job(name=JOB)


def address(page: Any, served: Served, way: str) -> str:
    """Where a view is; for a question, the first that there is."""
    if way != "/ask/":
        return served.url + way
    page.goto(f"{served.url}/ask")
    link: str = page.locator('main a[href^="/ask/"]').first.get_attribute("href")
    return served.url + link


@pytest.mark.parametrize("view", VIEWS)
@pytest.mark.parametrize("night", [False, True], ids=["wide-by-day", "phone-by-night"])
def test_nobody_is_kept_out(
    served: Served,
    job: str,
    opened: Callable[..., Any],
    visit: Callable[[Any, str], Any],
    axe: Callable[[Any], None],
    view: str,
    night: bool,
) -> None:
    page = opened(phone=night, color_scheme="dark" if night else "light")
    visit(page, address(page, served, VIEWS[view]))
    page.wait_for_function(QUIET, polling=100)
    axe(page)
    assert page.evaluate("document.documentElement.scrollWidth <= window.innerWidth + 1"), "nothing sticks out sideways"
    assert page.locator("h1").count() == 1
    assert page.locator("main").count() == 1
    assert page.title().endswith("bickern")
