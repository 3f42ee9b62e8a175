"""The bench, as a person uses it: by form, by text, by keys alone, at night, on a phone, and when the power goes."""

import re
import time
from collections.abc import Callable
from typing import Any

import pytest
from served import Served

KEEP = 'input[name="pieces.arm.metal[2].keep"]'
SOON = 30.0
GONE = "ERR_CONNECTION_REFUSED|ERR_CONNECTION_RESET|ERR_CONNECTION_CLOSED|ERR_EMPTY_RESPONSE|WebSocket|not got"
"""What a browser says of a server that was killed."""
Visit = Callable[[Any, str], Any]


def until(true: Callable[[], bool], what: str) -> None:
    """Waits until something comes true."""
    end = time.monotonic() + SOON
    while not true():
        assert time.monotonic() < end, what
        time.sleep(0.05)


def drawn(page: Any) -> str:
    """The drawing on the bench as it is now."""
    told: str = page.locator(".drawing").first.inner_html()
    return told


def cut(page: Any) -> str:
    """What is to be cut, in words."""
    told: str = page.locator(".cut").inner_text()
    return told


def bench(page: Any, served: Served, visit: Visit, job: str) -> Any:
    """The bench with a drawing on it."""
    visit(page, served.at(job))
    page.wait_for_selector(".drawing svg")
    either = re.compile(r"20 (3/8|7/16) in")  # before its heats are counted, and, a moment later, with what they take
    until(lambda: either.search(cut(page)) is not None, "the lantern's arm is cut 20 3/8 in, 20 7/16 in with its heats")
    return page


def put(page: Any, value: str) -> None:
    """A value into the field for how much of the bar is kept."""
    page.locator(KEEP).fill(value)


def test_by_form_by_text_and_back(served: Served, page: Any, visit: Visit) -> None:
    from playwright.sync_api import expect

    job = served.job(name="both.yaml")
    bench(page, served, visit, job)
    before, begun = drawn(page), served.text(job)
    put(page, "18 1/2")
    until(lambda: "keep: 18 1/2" in served.text(job), "the form goes into the file")
    until(lambda: drawn(page) != before and "22 7/8 in" in cut(page), "the drawing and the cut go with it")
    assert served.text(job) == begun.replace("keep: 16,", "keep: 18 1/2,"), "every comment and every other line stays"
    expect(page.locator(".file .cm-content")).to_contain_text("keep: 18 1/2")

    page.get_by_role("button", name="Undo", exact=True).click()
    until(lambda: served.text(job) == begun and drawn(page) == before, "undo takes back the file and the drawing")
    expect(page.locator(KEEP)).to_have_value("16")
    page.keyboard.press("Control+y")
    expect(page.locator(KEEP)).to_have_value("18 1/2")
    until(lambda: "keep: 18 1/2" in served.text(job), "redo by keys")

    page.locator(".file .cm-line", has_text="keep: 18 1/2").click()
    page.keyboard.press("Home")
    for _ in range(len("- {keep: 18")):  # `Home` goes to the first sign of the line
        page.keyboard.press("ArrowRight")
    page.keyboard.press("Backspace")
    page.keyboard.type("7")
    expect(page.locator(KEEP)).to_have_value("17 1/2")
    until(
        lambda: "keep: 17 1/2" in served.text(job) and "21 7/8 in" in cut(page), "the text goes into form and figures"
    )
    page.get_by_text("Earlier states of this file").click()
    page.get_by_role("button", name="Put back state 1", exact=True).click()
    until(lambda: served.text(job) == begun, "an earlier state is put back")


def test_each_drawing_is_of_its_own_kind_and_stays_in_its_frame(served: Served, page: Any, visit: Visit) -> None:
    bench(page, served, visit, served.job(name="drawings.yaml"))
    seen = set()
    for name in ("The bar, cut and marked", "Drawn out, still straight", "Finished"):
        page.get_by_role("button", name=name, exact=True).click()
        until(lambda: drawn(page) not in seen and "<svg" in drawn(page), name)
        seen.add(drawn(page))
        frame, shown = (page.locator(one).first.bounding_box() for one in (".drawing", ".drawing svg"))
        assert shown["width"] <= frame["width"] + 1
    page.get_by_label("true size").click()
    page.wait_for_selector(".drawing.true svg")
    wide = page.locator(".drawing svg").first
    # a millimetre of a browser is 96/25.4 of its dots (CSS Values and Units, level 3: 1in = 96px)
    told = float(wide.get_attribute("width").removesuffix("mm")) * 96 / 25.4
    until(lambda: abs(wide.bounding_box()["width"] - told) < 1.0, "true size is not fitted to the window")
    page.get_by_role("button", name="hood", exact=True).click()
    until(lambda: "hood" in page.locator(".drawing").first.get_attribute("aria-label"), "another piece")


def test_what_is_wrong_is_said_where_it_is_and_mended_at_a_press(served: Served, page: Any, visit: Visit) -> None:
    from playwright.sync_api import expect

    job = served.job(name="wrong.yaml")
    bench(page, served, visit, job)
    before = drawn(page)
    put(page, "sixteen")
    field = page.locator(KEEP)
    expect(field).to_have_attribute("aria-invalid", "true")
    expect(page.locator(".found li.stop").first).to_be_visible()
    assert drawn(page) == before, "the last drawing stays"
    expect(page.locator(".drawing").first).to_have_class(re.compile("stale"))
    put(page, "16")
    expect(field).not_to_have_attribute("aria-invalid", "true")
    until(lambda: "stale" not in page.locator(".drawing").first.get_attribute("class"), "and comes back")

    wrong = served.text(job).replace("    make: 4", "    maek: 4")
    (served.folder / job).write_text(wrong, encoding="utf-8")
    page.reload()
    page.wait_for_selector(".drawing svg")
    fix = page.locator(".found li", has_text="maek").get_by_role("button").first
    fix.click()
    until(lambda: "    make: 4" in served.text(job), "one press mends it")
    expect(page.locator(".found li", has_text="maek")).to_have_count(0)


def test_a_reload_in_mid_edit_loses_nothing(served: Served, page: Any, visit: Visit) -> None:
    from playwright.sync_api import expect

    job = served.job(name="reload.yaml")
    bench(page, served, visit, job)
    put(page, "15 3/4")
    until(lambda: "keep: 15 3/4" in served.text(job), "typed")
    page.reload()
    expect(page.locator(KEEP)).to_have_value("15 3/4")
    page.wait_for_selector(".drawing svg")
    page.get_by_role("button", name="Undo", exact=True).click()
    until(lambda: "keep: 16," in served.text(job), "what was typed before the reload can be undone after it")


def test_a_killed_server_loses_nothing(served: Served, page: Any, visit: Visit, faults: Any) -> None:
    from playwright.sync_api import expect

    faults.allow(GONE)
    job = served.job(name="killed.yaml")
    bench(page, served, visit, job)
    before = drawn(page)
    put(page, "14 1/8")
    until(lambda: drawn(page) != before, "drawn")
    served.stop(kill=True)
    served.start()
    # the page finds the server again by itself, and shows what was typed
    expect(page.locator(KEEP)).to_have_value("14 1/8")
    page.wait_for_function("() => window.socket && window.socket.connected", timeout=30_000)
    page.wait_for_selector(".drawing svg")
    until(lambda: "keep: 14 1/8" in served.text(job), "the file has it")
    page.get_by_role("button", name="Undo", exact=True).click()
    until(lambda: "keep: 16," in served.text(job), "and every state before it is there")


def test_two_windows_never_overwrite_each_other_silently(
    served: Served, opened: Callable[..., Any], visit: Visit
) -> None:
    from playwright.sync_api import expect

    job = served.job(name="two.yaml")
    one, two = opened(), opened()
    bench(one, served, visit, job)
    bench(two, served, visit, job)
    put(one, "19")
    expect(two.locator(KEEP)).to_have_value("19")
    expect(two.locator(".file .cm-content")).to_contain_text("keep: 19")
    two.locator('input[name="pieces.arm.metal[1].over"]').fill("5")
    expect(one.locator('input[name="pieces.arm.metal[1].over"]')).to_have_value("5")
    # another program, meanwhile: its change is taken in, and ours stays kept as a state
    text = served.text(job)
    assert "keep: 19" in text
    assert "over: 5" in text
    # as editors do it: whole, under another name, then put in its place
    theirs = served.folder / f"{job}.new"
    theirs.write_text(text.replace("job: Porch lantern", "job: Yard lantern"), encoding="utf-8")
    theirs.replace(served.folder / job)
    put(one, "19 1/4")
    until(lambda: "Yard lantern" in served.text(job) and "19 1/4" in served.text(job), "both changes stand")
    expect(two.locator(KEEP)).to_have_value("19 1/4")


def test_with_the_keyboard_alone(served: Served, page: Any, visit: Visit) -> None:
    job = served.job(name="keys.yaml")
    bench(page, served, visit, job)
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.className") == "skip"
    page.keyboard.press("Enter")
    for _ in range(60):
        page.keyboard.press("Tab")
        if page.evaluate("document.activeElement.name") == "pieces.arm.metal[2].keep":
            break
    assert page.evaluate("document.activeElement.name") == "pieces.arm.metal[2].keep", "it is reached by Tab"
    assert page.evaluate("getComputedStyle(document.activeElement).outlineStyle") != "none", (
        "and it is seen where one is"
    )
    page.keyboard.press("Control+a")
    page.keyboard.type("17")
    until(lambda: "keep: 17," in served.text(job), "typed")
    page.keyboard.press("Control+z")
    until(lambda: "keep: 16," in served.text(job), "undone")
    page.locator(".rail button", has_text="post").focus()
    page.keyboard.press("Enter")
    until(lambda: "post" in page.locator(".drawing").first.get_attribute("aria-label"), "another piece by Enter")


def test_at_night_and_on_a_phone(served: Served, opened: Callable[..., Any], visit: Visit) -> None:
    job = served.job(name="night.yaml")
    dark = bench(opened(color_scheme="dark"), served, visit, job)
    ink, field = dark.evaluate(
        """() => [getComputedStyle(document.querySelector('.drawing svg path')).stroke,
                 getComputedStyle(document.querySelector('.drawing')).backgroundColor]"""
    )
    assert contrast(ink, field) >= 7, (ink, field)
    phone = bench(opened(phone=True), served, visit, job)
    assert phone.evaluate("document.documentElement.scrollWidth") <= 390
    small = phone.evaluate(
        """() => [...document.querySelectorAll('main button, main input, main select, header a')]
          .filter(one => one.offsetParent && one.getBoundingClientRect().height < 43.5 && one.type !== 'checkbox')
          .map(one => one.outerHTML.slice(0, 90))"""
    )
    assert small == [], "every target is at least 44 dots high"
    until(lambda: lowest_letter(phone) >= 10, "drawn again for this screen, the figures on the drawing can be read")
    put(phone, "12")
    until(lambda: "keep: 12," in served.text(job), "and typed on")


def lowest_letter(page: Any) -> float:
    """How high the smallest letter on the drawing is, in dots; the first drawing is made before a screen is known."""
    high: float = page.evaluate(
        """() => Math.min(...[...document.querySelectorAll('.drawing svg text')]
          .map(one => one.getBoundingClientRect().height))"""
    )
    return high


def contrast(one: str, other: str) -> float:
    """Contrast of two colours by WCAG 2.2 (relative luminance, success criterion 1.4.3), exact mathematics."""

    def light(colour: str) -> float:
        parts = [int(n) / 255 for n in re.findall(r"\d+", colour)[:3]]
        linear = [p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts]
        return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]

    low, high = sorted((light(one), light(other)))
    return (high + 0.05) / (low + 0.05)


@pytest.mark.parametrize("says", ["rgb(0, 0, 0)", "rgb(255, 255, 255)"])
def test_contrast_is_reckoned_as_it_is_defined(says: str) -> None:
    assert contrast(says, "rgb(0, 0, 0)") in (1.0, 21.0)
