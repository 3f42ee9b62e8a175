"""Pictures of every view of the page into docs/pictures/page: wide and as a phone, by day and by night.

    python tools/screenshots.py [NAME ...]

The jobs, the rack and the shop are the invented ones of the examples, so that the pictures come out the same each time.
"""

import importlib.util
import os
import shutil
import sys
import tempfile
from base64 import b64decode, b64encode
from pathlib import Path
from typing import Any

ROOT = Path(__file__).parents[1]
PLACE = ROOT / "docs" / "pictures" / "page"
JOB = "porch-lantern.yaml"
VIEWS = {
    "jobs": "/",
    "bench": f"/job/{JOB}?piece=arm",
    "pattern": f"/job/{JOB}?piece=hood",
    "finished": f"/job/{JOB}?piece=arm",
    "round": f"/job/{JOB}/round",
    "fire": f"/job/{JOB}/heats",
    "heat": f"/job/{JOB}/heats",
    "stock": f"/job/{JOB}/stock",
    "price": f"/job/{JOB}/price",
    "paper": f"/job/{JOB}/paper",
    "rack": "/rack",
    "ask": "/ask",
    "question": "/ask/ring",
    "looks": "/looks",
}
PRESSED = {
    "finished": ("Finished",),
    "heat": ("Next",) * 7,
    "question": ("Put in the example",),
    "stock": ("Plan the cuts",),
}
"""Buttons pressed before a picture is taken."""
DONE = {
    "bench": ".cut:not(:has(.quiet))",
    "finished": ".cut:not(:has(.quiet))",
    "stock": 'button:has-text("Plan the cuts"):not([aria-disabled])',
    "question": ".cut-this .fig",
}
"""What shows that what was pressed is done."""
THERE = {
    "bench": ".drawing svg",
    "finished": ".drawing svg",
    "pattern": ".drawing svg",
    "heat": ".dock .next",
    "round": ".swing .now",
    "fire": ".dock .next",
    "price": "main table",
    "stock": "main table, main .figures",
    "paper": ".zip a",
    "rack": "main table",
}
"""What shows that a view is all there, where that takes a while."""
SIZES: dict[str, dict[str, Any]] = {
    "wide": {"viewport": {"width": 1280, "height": 860}},
    "phone": {"viewport": {"width": 390, "height": 844}, "has_touch": True, "is_mobile": True},
}
LIGHTS = ("light", "dark")
DATE = 1_767_611_400
"""When the newest job was last written: a Monday in January 2026, so that no picture tells the day it was taken."""
WEBP = """async (shot) => {
  const image = new Image();
  image.src = "data:image/png;base64," + shot;
  await image.decode();
  const canvas = document.createElement("canvas");
  [canvas.width, canvas.height] = [image.width, image.height];
  canvas.getContext("2d").drawImage(image, 0, 0);
  return canvas.toDataURL("image/webp", 0.9).split(",")[1];
}"""
"""The browser's own way to make a picture small; lettering stays sharp."""
QUIET = """() => {
  const now = performance.now();
  if (!window.quiet) {
    window.quiet = { at: now };
    new MutationObserver(() => { window.quiet.at = performance.now(); })
      .observe(document.body, { childList: true, subtree: true });
  }
  return now - window.quiet.at > 900 && document.fonts.status === "loaded";
}"""


def served_module() -> Any:
    """The tests' own server: the real command in a process of its own."""
    spec = importlib.util.spec_from_file_location("served", ROOT / "tests" / "web" / "served.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    sys.modules["served"] = module
    spec.loader.exec_module(module)
    return module


def prepare(served: Any, module: Any, forge: Path) -> None:
    """The examples as jobs, and a rack from the example list."""
    from bickern.desk.rack.rack import import_list, keeper, opened

    for days, example in enumerate(sorted(module.EXAMPLES.glob("*.yaml"))):
        at = DATE - 86_400 * days
        os.utime(served.folder / served.job(example.stem), (at, at))
    book = opened(served.rack)
    book.close()  # type: ignore[union-attr]  # a rack in a new folder opens
    import_list(keeper(served.rack, forge, "in", "smith"), module.EXAMPLES / "rack.csv")


def take(page: Any, blank: Any, path: Path) -> Path:
    """One picture of what the window shows; `blank` is a window that does nothing but make it small."""
    shot = page.screenshot(animations="disabled", caret="hide", scale="css")
    small = blank.evaluate(WEBP, b64encode(shot).decode("ascii"))
    path = path.with_suffix(".webp")
    path.write_bytes(b64decode(small))
    return path


def pictures(names: list[str]) -> int:
    """Takes them all, or those named; how many."""
    from playwright.sync_api import sync_playwright

    module = served_module()
    path = module.browser_path()
    if path is None:
        print("no Chromium here: no pictures are taken", file=sys.stderr)
        return 0
    PLACE.mkdir(parents=True, exist_ok=True)
    taken = 0
    with tempfile.TemporaryDirectory() as home, sync_playwright() as play:
        forge = shop(Path(home), module)
        served = module.Served(Path(home), "--shop", str(forge))
        prepare(served, module, forge)
        served.start()
        browser = play.chromium.launch(executable_path=path, args=list(module.LAUNCH))
        blank = browser.new_page()
        for size, light in [(size, light) for size in SIZES for light in LIGHTS]:
            context = browser.new_context(
                locale="en-US", reduced_motion="reduce", color_scheme=light, timezone_id="UTC", **SIZES[size]
            )
            page = context.new_page()
            for name, way in VIEWS.items():
                if not names or name in names:
                    print(shown(page, blank, served.url + way, PLACE / f"{name}-{size}-{light}"))
                    taken += 1
            context.close()
        browser.close()
        served.stop()
    return taken


def shop(home: Path, module: Any) -> Path:
    """The shop file of the examples, beside the jobs."""
    folder = home / "jobs"
    folder.mkdir(parents=True, exist_ok=True)
    source = next(iter(sorted((module.EXAMPLES / "shop").glob("*.yaml"))))
    return Path(shutil.copyfile(source, home / source.name))


def shown(page: Any, blank: Any, address: str, path: Path) -> str:
    """Goes there, waits until the page stands still, and takes it; name and size to print."""
    page.goto(address, wait_until="load")
    page.wait_for_function("() => window.socket && window.socket.connected")
    name = path.name.split("-")[0]
    if name in THERE:
        page.wait_for_selector(THERE[name], state="attached", timeout=90_000)
    page.wait_for_function(QUIET, polling=150)
    for says in PRESSED.get(name, ()):
        page.get_by_role("button", name=says, exact=True).first.click()
        page.wait_for_function(QUIET, polling=150)
    if name in DONE:
        page.wait_for_selector(DONE[name], state="attached", timeout=180_000)
        page.wait_for_function(QUIET, polling=150)
    taken = take(page, blank, path)
    return f"{taken.relative_to(ROOT)}  {taken.stat().st_size / 1000:.0f} kB"


def main() -> int:
    """Takes the pictures; those named, or all."""
    taken = pictures(sys.argv[1:])
    total = sum(one.stat().st_size for one in PLACE.glob("*")) if PLACE.exists() else 0
    print(f"{taken} pictures, {total / 1e6:.1f} MB in all")
    return 0


if __name__ == "__main__":
    sys.exit(main())
