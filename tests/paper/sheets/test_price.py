"""The price sheet is the shop's, with every cost; a customer's sheet has prices alone, where they are asked for."""

import io
import re
from dataclasses import replace
from pathlib import Path

import pdfplumber
import pytest

from bickern.desk.price.price import Pricing, priced
from bickern.desk.reckon import reckon_file
from bickern.paper.copy import Copy
from bickern.paper.packet import TIMESTAMP, priced_packet
from bickern.paper.pens.page import PAPERS, compile_pdf
from bickern.paper.sheets import price_words
from bickern.paper.sheets.customer import customer_sheet
from bickern.paper.sheets.price import OWN

HOOK = Path(__file__).parents[3] / "examples" / "leaf-coat-hook.yaml"
SHOP = """\
shop: Bridge forge
units: in
english: UK
print: {decimal comma: no}
currency: GBP
rate: 47.31
prices:
  {fuel: 5.83, metal: 1.27 a lb, fixed: 41, each: 0.79, failed: 5 %, finishing in minutes: 5, margin: 20 %,
   learning: 95 %, round to: 0.50}
"""


@pytest.fixture(scope="module")
def copy(tmp_path_factory: pytest.TempPathFactory) -> Copy:
    path = tmp_path_factory.mktemp("shop") / "shop.yaml"
    path.write_text(SHOP)
    found = priced(reckon_file(HOOK, path))
    assert isinstance(found, Pricing)
    assert found.done.copy is not None
    return found.done.copy


def text_of(data: bytes) -> str:
    with pdfplumber.open(io.BytesIO(data)) as pdf:
        return " ".join(" ".join(page.extract_text() for page in pdf.pages).split())


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_the_price_sheet_says_whose_it_is_and_where_each_line_comes_from(copy: Copy, paper: str):
    files = priced_packet(copy, PAPERS[paper])
    text = text_of(files["price-sheet.pdf"])
    assert OWN in text
    for says in ("metal", "fuel", "work", "finishing", "made again", "margin", "price of one", "How it comes about",
                 "What is a guess", "What is not counted", "What really happened", "47.31 GBP an hour",
                 "5.83 GBP an hour", "1.27 a lb", "each doubling leaves 95 %",
                 "the price of one goes up to the next 0.50 GBP"):  # fmt: skip
        assert says in text, says
    for quote in copy.quotes:
        assert quote.offer is not None
        assert f"{quote.offer.each.amount:.2f}" in text
        for line in quote.lines:
            assert line.cost is not None
            assert f"{line.cost.amount:.2f}" in text


def test_a_customer_is_told_counts_and_prices_and_nothing_of_how_they_come_about(copy: Copy):
    text = text_of(priced_packet(copy, PAPERS["letter"])["customer-sheet.pdf"])
    for quote in copy.quotes:
        assert quote.offer is not None
        each, whole = quote.offer.each.amount, quote.offer.whole.amount
        assert f"{quote.count} {each:.2f} GBP {whole:.2f} GBP" in text
    assert not re.search(r"47\.31|5\.83|1\.27|41\.00|0\.79|margin|fuel|an hour|waste|guess|cost", text, re.IGNORECASE)
    costs = {f"{line.cost.amount:.2f}" for q in copy.quotes for line in q.lines if line.cost is not None}
    offered = {f"{one.amount:.2f}" for q in copy.quotes if q.offer for one in (q.offer.each, q.offer.whole)}
    assert not [cost for cost in costs - offered if re.search(rf"(?<![\d.]){re.escape(cost)}", text)]


def test_a_customers_sheet_that_was_not_asked_for_prices_has_none(copy: Copy):
    source, files = customer_sheet(replace(copy, quotes=()), PAPERS["letter"])
    text = text_of(compile_pdf(source, files, TIMESTAMP))
    assert "Prices" not in text
    assert "GBP" not in text


def test_without_an_offer_no_customers_sheet_is_made(copy: Copy):
    bare = replace(copy, quotes=tuple(replace(q, offer=None, low=None, high=None, lacks=("x",)) for q in copy.quotes))
    assert set(priced_packet(bare, PAPERS["letter"])) == {"price-sheet.pdf"}
    text = text_of(priced_packet(bare, PAPERS["letter"])["price-sheet.pdf"])
    assert "X is not told" in text


def test_the_same_job_gives_the_same_bytes(copy: Copy):
    assert priced_packet(copy, PAPERS["letter"]) == priced_packet(copy, PAPERS["letter"])


def test_a_decimal_comma_is_kept(copy: Copy):
    comma = replace(copy.shop, style=replace(copy.shop.style, comma=True))
    (first, *_) = price_words.offers_told(replace(copy, shop=comma))
    assert re.fullmatch(r"\d+,\d\d GBP", first[1])


def test_what_is_lacking_is_listed_in_words():
    assert price_words.lack_says(("a",)) == "a is not told"
    assert price_words.lack_says(("a", "b", "c")) == "a, b and c are not told"


def test_the_table_has_as_many_cells_as_there_are_counts(copy: Copy):
    rows = price_words.amounts(copy.quotes, copy.shop)
    assert {len(row) for row in rows} == {len(copy.quotes) + 1}
    bare = tuple(replace(quote, offer=None) for quote in copy.quotes)
    assert "rounding" in dict(price_words.how(copy.quotes, copy.shop))
    assert "rounding" not in dict(price_words.how(bare, copy.shop))
    assert [row[0] for row in rows][-3:] == ["price of one", "one, at the fastest", "one, at the slowest"]
    assert len(price_words.heads(copy.quotes, copy.shop)) == len(copy.quotes) + 1
