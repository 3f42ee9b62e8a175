"""In the round: the picture is drawn, pieces are hidden, joints swung and the handle tilted, by mouse and by keys."""

import io
import re
from collections.abc import Callable
from typing import Any

from PIL import Image
from playwright.sync_api import expect
from served import Served

DRAWN = ".round-view[data-drawn]:not([data-drawn='0'])"
SWINGS = ".swing .now"
NO_WEBGL = """const own = HTMLCanvasElement.prototype.getContext;
HTMLCanvasElement.prototype.getContext = function (kind, ...more) {
  return kind.startsWith("webgl") ? null : own.call(this, kind, ...more);
};"""


def colours(page: Any) -> dict[tuple[int, ...], int]:
    """How many dots of the picture have which colour, once it stands still."""
    seen, before = b"", None
    while seen != before:
        before, seen = seen, page.locator(".round-view").screenshot()
        page.wait_for_timeout(150)
    counted = Image.open(io.BytesIO(seen)).convert("RGB").getcolors(1 << 24)
    return {colour: count for count, colour in counted}


def differ(one: dict[tuple[int, ...], int], other: dict[tuple[int, ...], int]) -> int:
    """Dots that two pictures do not share."""
    return sum(abs(one.get(colour, 0) - other.get(colour, 0)) for colour in {*one, *other}) // 2


def press(page: Any, key: str, times: int) -> None:
    for _ in range(times):
        page.keyboard.press(key)


def opened_at(page: Any, served: Served, visit: Callable[..., Any], job: str) -> None:
    visit(page, served.at(job, "round"))
    page.wait_for_selector(DRAWN)


def test_the_lantern_is_looked_at_swung_and_tilted(served: Served, page: Any, visit: Any, axe: Any):
    opened_at(page, served, visit, served.job())
    whole = colours(page)
    assert len(whole) > 50  # iron in light and shade, not one colour
    grey = [c for c, n in whole.items() if n > 200 and 60 < sum(c) / 3 < 200]
    assert grey

    page.get_by_label("hood", exact=True).uncheck()
    bare = colours(page)
    assert differ(whole, bare) > 5000
    page.get_by_label("hood", exact=True).check()
    assert differ(whole, colours(page)) < 50

    page.get_by_role("button", name="From above").press("Enter")
    above = colours(page)
    assert differ(whole, above) > 5000
    page.locator(".round-view").focus()
    press(page, "Home", 1)  # the same look again
    assert differ(above, colours(page)) < 50
    press(page, "ArrowUp", 1)
    press(page, "ArrowRight", 3)
    turned = colours(page)
    assert differ(above, turned) > 2000
    press(page, "+", 3)
    assert differ(turned, colours(page)) > 2000

    page.wait_for_selector(SWINGS)
    page.get_by_label("Which joint").select_option(label="Links 1, sideways on arm.scroll")
    slider = page.get_by_label("Turn it away from the wall")
    now = page.locator(SWINGS)
    slider.focus()
    press(page, "ArrowRight", 30)
    expect(now).to_contain_text("30° toward the wall. Free. Nothing touches. Nearest:")
    press(page, "ArrowRight", 8)
    expect(now).to_contain_text("37° toward the wall. Touches. Here the tray meets the wall.")
    page.keyboard.press("End")
    expect(now).to_contain_text("Stop.")
    expect(now).to_contain_text("The tray runs into the wall.")
    assert slider.get_attribute("aria-valuetext") == "43°"
    expect(page.locator(".beside")).to_contain_text("37° toward the wall until the tray meets the wall")

    page.get_by_role("button", name="Back to rest").click()
    expect(now).to_have_text("At rest. Free. Nothing touches. Nearest: links 3 to the arm, 1 in (25.5 mm).")
    axe(page)

    expect(page.locator(".how")).to_have_text("As it hangs: arm.palm on wall.")
    page.get_by_label("Tilt of the handle").focus()
    press(page, "ArrowLeft", 20)
    expect(page.locator(".how")).to_have_text("Held in the hand, its free end 20° below level.")
    expect(page.locator(".moves")).to_contain_text("hangs 20° off plumb")
    page.get_by_role("button", name="As the job says").click()
    expect(page.locator(".how")).to_have_text("As it hangs: arm.palm on wall.")


def test_it_follows_what_is_changed_elsewhere(served: Served, page: Any, opened: Any, visit: Any):
    job = served.job("ring-pull")
    opened_at(page, served, visit, job)
    expect(page.locator(".beside")).to_contain_text("11 oz (317 g)")
    other = visit(opened(), served.at(job) + "?piece=ring")
    across = other.get_by_label("inside across")
    across.fill("4 1/2")
    across.press("Tab")
    expect(page.locator(".beside")).to_contain_text(re.compile(r"ring14 oz|ring\s*13"))
    expect(page.locator("#said")).to_contain_text("The job was changed")


def test_a_job_that_stops_says_what_is_in_the_way(served: Served, page: Any, visit: Any):
    job = served.job("ring-pull", "no-ring.yaml")
    path = served.folder / job
    path.write_text(path.read_text().replace("inside across: 3 1/2", "inside across: 3 1/x"))
    visit(page, served.at(job, "round"))
    expect(page.locator(".found .stop").first).to_be_visible()
    expect(page.locator(".round")).not_to_be_visible()


def test_on_a_phone_in_the_dark(served: Served, opened: Any, visit: Any, axe: Any):
    page = opened(phone=True, color_scheme="dark")
    opened_at(page, served, visit, served.job("crane-chain"))
    page.wait_for_selector(SWINGS)
    assert page.evaluate("document.documentElement.scrollWidth <= window.innerWidth")
    light = sum(n for c, n in colours(page).items() if sum(c) / 3 > 200)
    dark = sum(n for c, n in colours(page).items() if sum(c) / 3 < 60)
    assert dark > 5 * light
    page.get_by_label("Which joint").scroll_into_view_if_needed()
    view = page.locator(".round-view").bounding_box()
    assert view["y"] >= 0  # the picture stays while the slider is moved
    axe(page)


def test_where_nothing_can_be_drawn_it_is_told_in_lines_and_words(served: Served, page: Any, visit: Any, faults: Any):
    faults.allow("WebGL")
    page.add_init_script(NO_WEBGL)
    visit(page, served.at(served.job("ring-pull"), "round"))
    expect(page.get_by_text("This browser shows nothing in the round here.")).to_be_visible()
    lines = page.get_by_role("img", name=re.compile("Ring pull, as it hangs: boss.tail on wall: from the front"))
    expect(lines).to_be_visible()
    expect(lines).to_contain_text("right side")
    page.wait_for_selector(SWINGS)
    page.get_by_label("Turn it away from the wall").focus()
    page.keyboard.press("End")
    expect(page.locator(SWINGS)).to_contain_text("The ring runs into the wall.")


def test_a_mesh_of_no_job_is_not_there(served: Served, page: Any):
    job = served.job("ring-pull")
    for address in (f"{served.at(job, 'round')}/1-none.glb", f"{served.at('none.yaml', 'round')}/1-none.glb"):
        assert page.request.get(address).status == 404
