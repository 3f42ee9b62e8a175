"""The price of a job on the page: by the shop's rates or one's own, kept as lines for a shop file, and on paper."""

import re
from collections.abc import Callable
from decimal import Decimal
from pathlib import Path
from typing import Any

import pdfplumber
from playwright.sync_api import expect
from served import Served

from bickern.desk.price.price import priced_file

LATE = 60_000
RATES = {"Money": "USD", "An hour of work": "45", "An hour of fire": "4.50", "Metal": "1.20 a lb", "Once a job": "40"}
"""By the names of their fields."""
LINES = "shop: by hand\nunits: in\ncurrency: USD\nrate: 45\nprices:\n  fuel: 4.50\n  metal: 1.20 a lb\n  fixed: 40\n"


def bill(page: Any) -> dict[str, list[str]]:
    rows = page.locator("table.bill tbody tr").all()
    return {row.locator("th").inner_text(): row.locator("td").all_inner_texts() for row in rows}


def test_a_price_by_ones_own_rates_is_that_of_a_shop_file_with_them(
    served: Served, opened: Callable[..., Any], visit: Any, axe: Any, tmp_path: Path
) -> None:
    job = served.job()
    page = visit(opened(), served.at(job, "price"))
    expect(page.get_by_text("there is no price", exact=False).first).to_be_visible()
    rates = page.get_by_role("region", name="Your own rates")
    for name, value in RATES.items():
        rates.get_by_label(name, exact=True).fill(value)
    one = page.locator("table.bill tr.one td")
    expect(one.first).to_have_text(re.compile(r"^\d+\.00$"))
    expect(page.get_by_text("there is no price")).to_have_count(0)

    # the same figures by the other way in: a shop file with these lines, read by the terminal's own readers
    shop = tmp_path / "by-hand.yaml"
    shop.write_text(LINES)
    quotes = priced_file(served.folder / job, (1, 6, 24), shop).quotes
    offers = [quote.offer for quote in quotes]
    assert [Decimal(cell) for cell in one.all_inner_texts()] == [offer.each.amount for offer in offers if offer]
    assert page.get_by_text("confirmed by a job that was sold").inner_text().startswith("Reckoned: no price")
    assert not re.search(r"(?<!not )validated", page.locator("#main").inner_text())
    axe(page)

    # exact mathematics: a half on top of all that it costs
    rates.get_by_label("Margin").fill("50")
    expect(page.locator(".field.wrong")).to_contain_text("does not say that it is a percentage")
    rates.get_by_label("Margin").fill("50 %")
    expect(page.locator("table.bill")).to_contain_text("margin")
    shown = bill(page)
    for cost, margin in zip(shown["cost of all"], shown["margin"], strict=True):
        assert abs(Decimal(margin) - Decimal(cost) / 2) <= Decimal("0.01")
    rates.get_by_label("How many sets").fill("2, 10")
    expect(page.locator("table.bill thead th").nth(2)).to_have_text("10 sets")
    expect(page.locator("table.bill thead th")).to_have_count(3)

    lines = page.locator("pre.lines-of")
    expect(lines).to_contain_text("counts: [2, 10]")
    page.get_by_role("button", name="Begin a shop file with them (shop.yaml)").click()
    expect(page.get_by_text("shop.yaml is written beside the job", exact=False)).to_be_visible()
    written = (served.folder / "shop.yaml").read_text()
    assert lines.inner_text().strip() in written
    (served.folder / "shop.yaml").write_text(written + "# mine now\n")
    page.get_by_role("button", name="Begin a shop file with them (shop.yaml)").click()
    expect(page.get_by_text("is not written over", exact=False)).to_be_visible()
    assert (served.folder / "shop.yaml").read_text().endswith("# mine now\n")

    with page.expect_download(timeout=LATE) as download:
        page.get_by_role("button", name="Customer’s sheet (PDF)").click()
    with pdfplumber.open(download.value.path()) as pdf:
        text = "\n".join(sheet.extract_text() for sheet in pdf.pages)
    assert f"{one.nth(1).inner_text()} USD" in text
    assert "45.00" not in text  # what an hour costs is the shop's own business


def test_an_edit_in_another_window_is_priced_at_once_and_in_the_hand(
    served: Served, opened: Callable[..., Any], visit: Any, axe: Any
) -> None:
    job = served.job("leaf-coat-hook", "hooks.yaml")
    (served.folder / "rates.yaml").write_text(LINES)
    text = served.text(job)
    (served.folder / job).write_text(re.sub(r"(?m)^units:", "shop: rates.yaml\nunits:", text, count=1))
    phone = visit(opened(phone=True, color_scheme="dark"), served.at(job, "price"))
    one = phone.locator("table.bill tr.one td").first
    expect(one).to_be_visible()
    assert phone.evaluate("document.documentElement.scrollWidth") <= 390
    assert phone.get_by_label("An hour of work").get_attribute("placeholder") == "45"
    assert phone.get_by_label("Money").count() == 0  # the shop file tells it
    axe(phone)
    before = one.inner_text()

    other = visit(opened(), f"{served.at(job)}?piece=hook")
    other.get_by_label("over", exact=True).last.fill("15")  # a taper that is 10 in longer
    expect(one).not_to_have_text(before)  # told at once, in every window
    before = one.inner_text()
    phone.get_by_label("An hour of work").fill("90")
    expect(one).not_to_have_text(before)
    assert (served.folder / "rates.yaml").read_text() == LINES  # tried here alone
