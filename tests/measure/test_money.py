"""Money is decimal, in one currency, and rounds half up."""

from decimal import Decimal
from fractions import Fraction

import pytest

from bickern.measure.money import Money, nothing, read_money, say_money, smallest


@pytest.mark.parametrize(
    ("text", "currency", "amount", "read_as"),
    [
        ("12.50", "USD", "12.50", "USD"), ("$12.5", "USD", "12.5", "USD"), ("12.50 EUR", "EUR", "12.50", "EUR"),
        ("£3", "GBP", "3", "GBP"), ("£3", None, "3", "GBP"), ("usd 3", "USD", "3", "USD"), (12.1, "USD", "12.1", "USD"),
        ("3 €", None, "3", "EUR"), (0, "USD", "0", "USD"), ("$4", "CAD", "4", "CAD"),
    ],
)  # fmt: skip
def test_money_is_read_exactly(text: object, currency: str | None, amount: str, read_as: str) -> None:
    read = read_money(text, currency)
    assert read.findings == ()
    assert read.value == Money(Decimal(amount), read_as)


@pytest.mark.parametrize(
    ("text", "currency", "name"),
    [
        ("12,50", "EUR", "decimal-comma"), ("12.50 EUR", "USD", "other-currency"), ("£3", "USD", "other-currency"),
        ("12", None, "no-currency"), ("$12", None, "no-currency"), ("a lot", "USD", "not-money"),
    (-1, "USD", "money-out-of-range"),
        ("$ 3 USD", "USD", "two-currencies"), (None, "USD", "empty"), ("9" * 30, "USD", "money-out-of-range"),
    ],
)  # fmt: skip
def test_money_in_doubt_is_asked_about(text: object, currency: str | None, name: str) -> None:
    read = read_money(text, currency)
    assert read.value is None
    assert [f.name for f in read.findings] == [name]


def test_rounding_is_half_up_and_away_from_nothing() -> None:
    assert say_money(Money(Decimal("2.675"), "USD")) == "2.68 USD"
    assert say_money(Money(Decimal("-2.675"), "USD")) == "-2.68 USD"
    assert say_money(Money(Decimal("2.5"), "EUR"), comma=True) == "2,50 EUR"
    assert Money(Decimal("2.5"), "JPY").rounded(Decimal(1)) == Money(Decimal(3), "JPY")


@pytest.mark.parametrize(
    ("amount", "currency", "said"),
    [
        ("1249.5", "JPY", "1250 JPY"), ("1250", "KRW", "1250 KRW"), ("0.4", "ISK", "0 ISK"),
        ("3.1245", "KWD", "3.125 KWD"), ("3", "TND", "3.000 TND"), ("3", "USD", "3.00 USD"), ("3", "XYZ", "3.00 XYZ"),
    ],
)  # fmt: skip
def test_an_amount_has_the_places_that_its_currency_has(amount: str, currency: str, said: str) -> None:
    """ISO 4217:2015, list one, minor unit (from memory): yen, won, kronur of Iceland 0, dinars of Kuwait, Tunis 3."""
    money = Money(Decimal(amount), currency)
    assert say_money(money) == said
    assert said.startswith(str(money.rounded().amount))
    assert money.rounded().amount % smallest(currency) == 0
    assert 0 <= money.raised().amount - money.amount < smallest(currency)


def test_ten_cents_ten_times_is_a_dollar() -> None:
    total = nothing("USD")
    for _ in range(10):
        total = total + Money(Decimal("0.10"), "USD")
    assert total == Money(Decimal("1.00"), "USD")


def test_times_takes_exact_numbers_only() -> None:
    assert say_money(Money(Decimal(45), "USD").times(Fraction(1, 3))) == "15.00 USD"
    assert Money(Decimal(45), "USD").times(2).amount == 90
    with pytest.raises(TypeError):
        Money(Decimal(45), "USD").times(0.1)  # type: ignore[arg-type]


def test_two_currencies_are_never_added() -> None:
    with pytest.raises(ValueError, match="cannot be added"):
        Money(Decimal(1), "USD") + Money(Decimal(1), "EUR")
