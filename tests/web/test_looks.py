"""Looks: inches or millimetres, whose words, light or dark, large letters; kept for this browser alone."""

from itertools import product
from typing import Any

import pytest
from served import Served

from bickern.web.looks import DARK, LIGHT

ON_GROUND = ("ink", "soft", "ember", "bad")
GROUNDS = ("paper", "field")


def contrast(one: str, other: str) -> float:
    """Contrast of two colours: W3C, Web Content Accessibility Guidelines 2.1, 2018, its definition; read in it."""
    light, dark = sorted((_luminance(one), _luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def _luminance(colour: str) -> float:
    parts = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    red, green, blue = (p / 12.92 if p <= 0.03928 else ((p + 0.055) / 1.055) ** 2.4 for p in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def test_the_rule_for_contrast_is_the_printed_one():
    # black on white is 21:1, W3C, WCAG 2.1, 2018, definition of contrast ratio
    assert contrast("#000000", "#ffffff") == pytest.approx(21.0)
    assert contrast("#777777", "#ffffff") < 4.5 < contrast("#767676", "#ffffff")


@pytest.mark.parametrize("colours", [LIGHT, DARK], ids=["light", "dark"])
def test_words_stand_out_from_their_ground(colours: dict[str, str]):
    # 4.5:1 for text (criterion 1.4.3), 3:1 for what shows a control's edge (1.4.11)
    pairs = [*product(ON_GROUND, GROUNDS), ("on-ember", "ember")]
    assert [(a, b) for a, b in pairs if contrast(colours[a], colours[b]) < 4.5] == []
    assert [ground for ground in GROUNDS if contrast(colours["line"], colours[ground]) < 3.0] == []


def ground(page: Any) -> str:
    told: str = page.evaluate("getComputedStyle(document.body).backgroundColor")
    return told


def letters(page: Any) -> float:
    return float(page.evaluate("parseFloat(getComputedStyle(document.documentElement).fontSize)"))


def test_a_person_has_it_as_they_like_in_this_browser_alone(
    page: Any, opened: Any, served: Served, visit: Any, axe: Any
):
    visit(page, f"{served.url}/looks")
    reads = page.get_by_role("region", name="How it reads")
    assert "3 1/4 in (82.5 mm)" in reads.inner_text()
    page.get_by_role("radio", name="millimetres").check()
    reads.get_by_text("82.5 mm (3 1/4 in)").wait_for()
    page.get_by_role("radio", name="UK").check()
    reads.get_by_text("Jump up the end, draw down the tip over the bick, and hold it in the vice.").wait_for()
    before, size = ground(page), letters(page)
    page.get_by_role("radio", name="chalk on slate").check()
    page.wait_for_function("was => getComputedStyle(document.body).backgroundColor !== was", arg=before)
    axe(page)
    page.get_by_label("Larger letters").check()
    page.wait_for_function("was => parseFloat(getComputedStyle(document.documentElement).fontSize) > was", arg=size)
    page.get_by_label("My name").fill("Ann")
    dark = ground(page)

    visit(page, f"{served.url}/ask/convert?what=3+1/4+in")
    page.locator(".cut-this .fig", has_text="82.5 mm (3 1/4 in)").wait_for()
    assert ground(page) == dark
    # an address that says inches means inches, whoever opens it; one that does not is read as this person reads
    visit(page, f"{served.url}/ask/weight?bar=1+x+1/4&length=20&units=in")
    page.get_by_text("A bare number is inches.").wait_for()
    # 1 x 1/4 x 20 in is 81.9 cm3, at 7.85 g each (CEN, EN 1993-1-2, 2005, cl. 3.2.2, read in the source) 643 g
    page.locator(".cut-this .fig", has_text="643 g").wait_for()
    visit(page, f"{served.url}/ask/stock?bar=12+rd&end=20+rd&length=25")
    page.get_by_text("This is a jump up").wait_for()
    visit(page, f"{served.url}/looks")
    assert page.get_by_role("radio", name="millimetres").is_checked()
    assert page.get_by_label("My name").input_value() == "Ann"
    assert letters(page) > size

    other = opened()
    visit(other, f"{served.url}/looks")
    assert not other.get_by_role("radio", name="millimetres").is_checked()
    assert other.get_by_label("My name").input_value() == ""
    assert ground(other) == before


def test_with_keys_alone(page: Any, served: Served, visit: Any):
    visit(page, f"{served.url}/looks")
    page.get_by_role("radio", name="as the shop has it").first.focus()
    page.keyboard.press("ArrowRight")
    page.keyboard.press("ArrowRight")
    page.get_by_text("82.5 mm (3 1/4 in)").wait_for()
    for _ in range(2):
        page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.type") == "radio"


def test_on_a_phone_the_machine_says_whether_it_is_dark(opened: Any, served: Served, visit: Any, axe: Any):
    seen = {}
    for scheme in ("light", "dark"):
        phone = opened(phone=True, color_scheme=scheme)
        visit(phone, f"{served.url}/looks")
        seen[scheme] = ground(phone)
        axe(phone)
        assert phone.evaluate("document.documentElement.scrollWidth") <= 390
    assert seen["light"] != seen["dark"]
