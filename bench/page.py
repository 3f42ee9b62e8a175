"""How quick the page is, measured in the browser on the lantern: `python bench/page.py`.

A stroke of a key counts from the browser's own `input` event until drawing and figures have both changed and a frame
is being painted. Many people at once are sockets (`people`): so many browsers on one machine would measure themselves.
"""

import argparse
import asyncio
import importlib.util
import statistics
import sys
import tempfile
import time
from pathlib import Path
from typing import Any

from playwright.async_api import Page, async_playwright

ROOT = Path(__file__).parents[1]
LISTEN = """() => {
  window.took = []; window.begun = null; window.left = 0;
  document.addEventListener("input", () => { window.begun = performance.now(); window.left = 3; }, true);
  const changed = (bit) => new MutationObserver(() => {
    if (window.begun === null || !(window.left & bit)) return;
    window.left &= ~bit;
    if (window.left) return;
    const begun = window.begun;
    window.begun = null;
    requestAnimationFrame(() => { window.took.push(performance.now() - begun); });
  });
  const all = { childList: true, subtree: true, characterData: true, attributes: true };
  changed(1).observe(document.querySelector(".drawing"), all);
  changed(2).observe(document.querySelector("dl.lines"), all);
}"""
FIELD = 'input[name="pieces.arm.metal[2].keep"]'
GAP = 0.15
"""Seconds between two strokes of one person who types on: 6 to 7 in a second."""


def _served() -> Any:
    """The tests' own server, the real command in a process of its own."""
    spec = importlib.util.spec_from_file_location("served", ROOT / "tests" / "web" / "served.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    sys.modules["served"] = module
    spec.loader.exec_module(module)
    return module


async def _ready(page: Page, address: str) -> float:
    """Goes there; the seconds until a stroke would be heard and drawn."""
    begun = time.perf_counter()
    await page.goto(address, wait_until="commit")
    await page.wait_for_function("() => window.socket && window.socket.connected", polling=20)
    await page.wait_for_selector(".drawing svg", timeout=30_000)
    return time.perf_counter() - begun


async def _begin(page: Page) -> None:
    await page.wait_for_timeout(600)
    field = page.locator(FIELD)
    await field.fill("16.50")
    await page.wait_for_timeout(600)
    await field.press("End")
    await page.evaluate(LISTEN)


async def _strokes(page: Page, many: int, gap: float) -> list[float]:
    """Milliseconds from key to drawing and figures for so many strokes, each another last digit."""
    for n in range(many):
        await page.keyboard.press("Shift+ArrowLeft")
        await page.keyboard.press(str((n * 3 + 1) % 10))
        await asyncio.sleep(gap)  # nothing is asked of the browser meanwhile: that would be work of its own
    await asyncio.sleep(3.0)
    took: list[float] = await page.evaluate("() => window.took")
    if len(took) < many:
        print(f"  {many - len(took)} of {many} strokes were not drawn before the next one")
    return took


def _told(says: str, took: list[float], bound: float) -> bool:
    ordered = sorted(took)
    p95 = ordered[min(len(ordered) - 1, int(0.95 * len(ordered)))]
    good = p95 <= bound
    word = "holds" if good else "DOES NOT HOLD"
    print(f"{says}: p50 {statistics.median(ordered):.0f} ms, p95 {p95:.0f} ms, most {ordered[-1]:.0f} ms "
          f"of {len(ordered)} (bound {bound:.0f} ms: {word})")  # fmt: skip
    return good


async def _measured(served: Any, path: str, people: int) -> bool:
    async with async_playwright() as play:
        browser = await play.chromium.launch(executable_path=path, args=list(_served().LAUNCH))
        good = [await _first(browser, served), await _alone(browser, served)]
        await browser.close()
    if people:
        good.append(await _together(served, people))
    return all(good)


async def _first(browser: Any, served: Any) -> bool:
    """The first page of a browser that has never been here, five times."""
    took = []
    for _ in range(5):
        context = await browser.new_context()
        took.append(await _ready(await context.new_page(), served.at("lantern.yaml")) * 1000)
        await context.close()
    return _told("first page, until it can be typed in and is drawn", took, 2000)


async def _alone(browser: Any, served: Any) -> bool:
    context = await browser.new_context(viewport={"width": 1280, "height": 900})
    page = await context.new_page()
    await _ready(page, served.at("lantern.yaml"))
    await _begin(page)
    took = await _strokes(page, 60, GAP)
    await context.close()
    return _told("one person, from key to drawing and figures", took, 100)


async def _together(served: Any, people: int) -> bool:
    from people import together

    jobs = [f"lantern-{n}.yaml" for n in range(people)]
    good = True
    for gap in (2.0, 1.0):
        took = await together(served.url, jobs, 12, gap)
        good = _told(f"{people} people at once, a stroke every {gap:g} s each, sent to drawn", took, 300) and good
    return good


def main() -> int:
    """Measures and tells; 1 where a bound does not hold."""
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("--people", type=int, default=20)
    words = asked.parse_args()
    module = _served()
    path = module.browser_path()
    if path is None:
        print("no Chromium here: the page is not measured")
        return 0
    with tempfile.TemporaryDirectory() as home, module.serving(Path(home)) as served:
        served.job(name="lantern.yaml")
        for n in range(words.people):
            served.job(name=f"lantern-{n}.yaml")
        good = asyncio.run(_measured(served, path, words.people))
        print(f"the server holds {served.memory() / 1e6:.0f} MB")
    return 0 if good else 1


if __name__ == "__main__":
    sys.exit(main())
