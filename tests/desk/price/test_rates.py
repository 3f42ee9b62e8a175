"""One's own rates: read as a shop file is read, laid over the shop's for one look, written only into a new file."""

from decimal import Decimal
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bickern.book.shopfile import read_shop
from bickern.desk.asker import shop_at
from bickern.desk.by_rack import reckoned_by
from bickern.desk.price.price import Pricing, priced
from bickern.desk.price.rates import WORDS, lines_of, new_shop_file, rate_words, tried, with_shop
from bickern.desk.price.rows import tables
from bickern.making.shop import Shop
from bickern.measure.finding import Finding
from bickern.measure.units.words import System

EXAMPLES = Path(__file__).parents[3] / "examples"
SHOP = EXAMPLES / "shop" / "bridge-forge.yaml"
BRIDGE, _ = shop_at(SHOP)


def bill(said: dict[str, str]) -> dict[str, list[Decimal]]:
    """The rows of the bill, by name, for the lantern with these rates."""
    done = reckoned_by(EXAMPLES / "porch-lantern.yaml", SHOP)
    pricing = priced(with_shop(done, tried(BRIDGE, said).shop))
    assert isinstance(pricing, Pricing)
    _, _, rows = tables(pricing)[0]
    return {name: [Decimal(cell) for cell in cells] for name, *cells in rows}


def test_twice_the_rate_is_twice_the_work() -> None:
    # exact mathematics: hours stay, so every line that is hours times the rate doubles; no other line moves
    was, now = bill({}), bill({"rate": "90"})
    cent = Decimal("0.01")
    for name in ("work", "finishing"):
        assert all(abs(new - 2 * old) <= cent for old, new in zip(was[name], now[name], strict=True))
    for name in ("metal", "fuel", "each set", "once a job"):
        assert now[name] == was[name]


def test_a_margin_is_its_share_of_the_cost() -> None:
    now = bill({"margin": "50 %"})
    for margin, cost in zip(now["margin"], now["cost of all"], strict=True):
        assert abs(margin - cost / 2) <= Decimal("0.01")


def test_counts_are_those_asked_for() -> None:
    done = reckoned_by(EXAMPLES / "porch-lantern.yaml", SHOP)
    pricing = priced(with_shop(done, tried(BRIDGE, {"counts": "2, 12"}).shop))
    assert isinstance(pricing, Pricing)
    assert [quote.count for quote in pricing.quotes] == [2, 12]


@pytest.mark.parametrize(
    ("word", "said"),
    [
        ("rate", "sixty"),
        ("rate", "60 GBP"),
        ("rate", '"5: {'),
        ("margin", "30"),
        ("margin", "900 %"),
        ("metal", "3 a foot"),
        ("counts", "1, x"),
        ("counts", "0"),
        ("counts", "1,2,3,4,5,6,7"),
        ("waste", "99 %"),
    ],
)
def test_what_cannot_be_meant_is_told_at_its_word_and_changes_nothing(word: str, said: str) -> None:
    done = tried(BRIDGE, {word: said})
    assert {name for name, _ in done.wrong} == {word}
    assert all(isinstance(fault, Finding) and fault.says for fault in done.findings)
    assert done.shop == BRIDGE


def test_what_is_typed_never_becomes_another_word() -> None:
    done = tried(BRIDGE, {"rate": "60\nshop: other\nprices: {margin: 90 %}"})
    assert done.wrong
    assert done.shop == BRIDGE


@given(st.dictionaries(st.sampled_from(WORDS), st.text(max_size=30), max_size=4))
def test_whatever_is_typed_only_what_is_read_is_laid_over(said: dict[str, str]) -> None:
    done = tried(BRIDGE, said)
    assert (done.shop.name, done.shop.fire, done.shop.bar) == (BRIDGE.name, BRIDGE.fire, BRIDGE.bar)
    untold = {word for word in WORDS if not said.get(word, "").strip()}
    for word in untold & {"fuel", "metal", "margin", "fixed", "each", "waste", "counts"}:
        assert getattr(done.shop.terms, word) == getattr(BRIDGE.terms, word)


@pytest.mark.parametrize("said", [{"rate": "52.50", "margin": "35 %", "counts": "1, 4"}, {"metal": "2.60 a kg"}])
def test_the_lines_read_back_as_what_was_tried(said: dict[str, str]) -> None:
    read, found = read_shop(f"shop: mine\ncurrency: USD\n{lines_of(said)}", "mine.yaml")
    assert found == ()
    over = tried(BRIDGE, said).shop
    for word in said:
        mine, tried_word = (getattr(one, word) if word == "rate" else getattr(one.terms, word) for one in (read, over))
        assert mine == tried_word


def test_a_new_shop_file_is_written_once_and_no_file_is_touched(tmp_path: Path) -> None:
    said = {"currency": "GBP", "rate": "40", "fuel": "3"}
    name = new_shop_file(tmp_path, said, System.MM)
    assert isinstance(name, str)
    text = (tmp_path / name).read_text()
    shop, found = read_shop(text, name)
    assert (found, shop.currency, shop.rate, shop.terms.fuel, shop.style.first) == ((), "GBP", "40", "3", System.MM)
    again = new_shop_file(tmp_path, {"rate": "99"}, System.INCH)
    assert isinstance(again, Finding)
    assert again.stops
    assert (tmp_path / name).read_text() == text


def test_the_money_is_asked_for_only_where_none_is_told() -> None:
    assert "currency" not in [one.word for one in rate_words(BRIDGE)]
    assert rate_words(Shop())[0].word == "currency"
    assert tried(Shop(), {"rate": "50"}).wrong[0][0] == "currency"
