"""Ask: every question answered on its page as it is answered anywhere, and with one thumb."""

import re
from typing import Any
from urllib.parse import urlencode

import pytest
from served import Served

from bickern.desk.ask.heard import Heard, Said, example_of, hear, on_page
from bickern.desk.ask.questions import QUESTIONS
from bickern.making.shop import Shop
from bickern.measure.units.words import System


def plain(text: str) -> str:
    return re.sub(r"\s+", " ", text).strip()


def answered(page: Any) -> list[str]:
    """All figures that a page of a question shows, in order."""
    page.wait_for_function(
        "() => document.querySelector('.ask-said dl').children.length > 0 || document.querySelector('.cut-this .fig')"
    )
    return [plain(text) for text in page.locator(".cut-this .fig, .ask-said dd").all_text_contents()]


def expected(heard: Heard) -> list[str]:
    first = [heard.first[1].partition(": ")[0]] if heard.first else []
    return [plain(on_page(says)) for says in (*first, *(r[1] for r in heard.rows), *(r[1] for r in heard.also))]


def query(words: dict[str, Said]) -> str:
    said = {n: "yes" if v is True else "; ".join(v) if isinstance(v, tuple) else v for n, v in words.items()}
    return urlencode(said)


def test_every_example_is_answered_on_its_page_as_at_the_desk(page: Any, served: Served, visit: Any):
    for question in QUESTIONS:
        words = example_of(question)
        visit(page, f"{served.url}/ask/{question.name}?{query(words)}")
        page.wait_for_function(
            "() => !document.querySelector('.cut-this').textContent.startsWith('Say also')"
            " && document.querySelector('.cut-this').textContent"
        )
        heard = hear(question, words, Shop(), System.INCH)
        assert answered(page) == expected(heard), question.name
        found = [plain(text) for text in page.locator(".ask-said .found li").all_inner_texts()]
        assert len(found) == len(heard.rest), question.name


def test_an_example_is_put_in_and_taken_out(page: Any, served: Served, visit: Any):
    visit(page, f"{served.url}/ask/ring")
    page.locator(".cut-this .fig", has_text="bar, size").wait_for()
    page.get_by_role("button", name="Put in the example").click()
    page.locator(".cut-this .fig", has_text="13 1/8").wait_for()
    assert page.get_by_label("bar", exact=True).input_value() == "1/2 rd"
    assert page.get_by_role("radio", name="welded").is_checked()
    page.get_by_role("button", name="Clear").click()
    page.locator(".cut-this .fig", has_text="bar, size").wait_for()
    assert page.get_by_label("bar", exact=True).input_value() == ""


def test_with_one_thumb(phone: Any, served: Served, visit: Any, axe: Any, opened: Any):
    visit(phone, f"{served.url}/ask/ring")
    keys = phone.get_by_role("group", name="Put in")
    phone.get_by_label("bar", exact=True).tap()
    keys.get_by_role("button", name="1/2", exact=True).tap()
    keys.get_by_role("button", name="rd").tap()
    assert phone.get_by_label("bar", exact=True).input_value() == "1/2 rd"
    phone.get_by_label("size", exact=True).tap()
    phone.keyboard.type("3")
    keys.get_by_role("button", name="1/2", exact=True).tap()
    assert phone.get_by_label("size", exact=True).input_value() == "3 1/2"
    # pi x (3 1/2 + 1/2) = 12.566 in, exact mathematics: up to the next sixteenth 12 5/8
    phone.locator(".cut-this .fig", has_text="12 5/8").wait_for()
    phone.get_by_text("welded", exact=True).tap()
    phone.locator(".cut-this .fig", has_text="13 1/8").wait_for()
    phone.wait_for_url("**closed=welded**")
    axe(phone)
    assert phone.evaluate("document.documentElement.scrollWidth") <= 390
    low = phone.locator("#main input[type=text], #main .keys button, #main .pick label").evaluate_all(
        "all => all.filter(e => e.getBoundingClientRect().height < 48).length"
    )
    assert low == 0
    other = opened()  # the address is enough for another person
    visit(other, phone.url)
    other.locator(".cut-this .fig", has_text="13 1/8").wait_for()


def test_keys_for_a_fraction_that_has_none_and_for_millimetres(phone: Any, served: Served, visit: Any):
    visit(phone, f"{served.url}/ask/taper")
    keys = phone.get_by_role("group", name="Put in")
    phone.get_by_label("bar", exact=True).tap()
    phone.keyboard.type("3")
    keys.get_by_role("button", name="/", exact=True).tap()
    phone.keyboard.type("8")
    keys.get_by_role("button", name="sq").tap()
    assert phone.get_by_label("bar", exact=True).input_value() == "3/8 sq"
    phone.get_by_label("end", exact=True).fill("point")
    phone.get_by_label("length", exact=True).tap()
    phone.keyboard.type("75")
    keys.get_by_role("button", name="mm").tap()
    assert phone.get_by_label("length", exact=True).input_value() == "75 mm"
    # a square taper to a point holds a third of the bar it is as long as (exact mathematics): 25 mm, 63/64 in
    phone.locator(".ask-said dd", has_text="63/64 in (.984) / 25 mm").wait_for()


def test_bars_that_lie_side_by_side_are_written_one_on_a_line(page: Any, served: Served, visit: Any):
    visit(page, f"{served.url}/ask/collar")
    page.get_by_label("thick", exact=True).fill("1/8")
    page.get_by_label("bars", exact=True).fill("1/2 sq\n1/2 sq")
    # P + 2 t = 3 + 1/4 in: CoSIRA, The Blacksmith's Craft, collar rule, quoted by a secondary page
    page.locator(".cut-this .fig", has_text="3 1/4 in").wait_for()
    page.get_by_text("By other printed rules").click()
    assert page.locator(".ask-said dl >> nth=1").locator("dt").count() == 4


def test_what_is_wrong_is_told_at_its_field(page: Any, served: Served, visit: Any, axe: Any):
    visit(page, f"{served.url}/ask/ring")
    bar = page.get_by_label("bar", exact=True)
    bar.fill("cheese")
    page.get_by_label("size", exact=True).fill("3")
    page.get_by_text("“cheese” cannot be read as a size").wait_for()
    assert bar.get_attribute("aria-invalid") == "true"
    assert page.get_by_label("size", exact=True).get_attribute("aria-invalid") is None
    axe(page)
    bar.fill("1/2 rd")
    page.locator(".cut-this .fig", has_text="11").wait_for()
    assert bar.get_attribute("aria-invalid") is None


def test_typing_fast_ends_with_the_answer_to_what_stands_there(page: Any, served: Served, visit: Any):
    visit(page, f"{served.url}/ask/convert")
    page.get_by_label("what").press_sequentially("3 1/4 in", delay=5)
    page.locator(".cut-this .fig", has_text="3 1/4 in (82.5 mm)").wait_for()
    page.wait_for_url("**/ask/convert?what=3+1%2F4+in&units=in")


def test_questions_are_looked_for_and_a_name_that_is_none_is_told(page: Any, served: Served, visit: Any, axe: Any):
    visit(page, f"{served.url}/ask")
    assert page.locator(".ask-groups a").count() == len(QUESTIONS)
    axe(page)
    page.get_by_label("Look for").fill("hem")
    page.wait_for_function("() => document.querySelectorAll('.ask-groups a').length === 1")
    page.get_by_role("link", name="edge").click()
    page.get_by_role("heading", name="Ask: edge").wait_for()
    visit(page, f"{served.url}/ask/nothing")
    page.get_by_text("There is no question “nothing”").wait_for()


@pytest.mark.parametrize("words", ["<img src=x onerror=alert(1)>", "“", "\x00", "1" * 5000, "1/0 rd", "😀"])
def test_odd_words_are_words(page: Any, served: Served, visit: Any, words: str):
    visit(page, f"{served.url}/ask/ring?{urlencode({'bar': words, 'size': '3'})}")
    page.locator(".cut-this .of", has_text="No answer").wait_for()
    assert page.locator("main img").count() == 0
