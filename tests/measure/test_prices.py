"""What so much of a stock costs: read as a dealer's list is written."""

from decimal import Decimal
from fractions import Fraction

import pytest

from bickern.measure.money import Money, exactly, read_price


@pytest.mark.parametrize(
    ("text", "amount", "much", "unit"),
    [
        ("3.10 a lb", "3.10", "0.45359237", "kg"), ("$3.10/lb", "3.10", "0.45359237", "kg"),
        ("6.80 a kg", "6.80", "1", "kg"), ("12.50 USD for 25 kg", "12.50", "25", "kg"),
        ("1.20 a foot", "1.20", "0.3048", "m"), ("1.20 per ft", "1.20", "0.3048", "m"),
        ("24 for 20 ft", "24", "6.096", "m"), ("30 for 6 m", "30", "6", "m"), ("4 a metre", "4", "1", "m"),
        ("0.10 an inch", "0.10", "0.0254", "m"),
    ],
)  # fmt: skip
def test_a_price_is_read_exactly(text: str, amount: str, much: str, unit: str) -> None:
    read = read_price(text, "USD")
    assert read.value is not None, read.findings
    assert (read.value.money, read.value.much, read.value.unit) == (Money(Decimal(amount), "USD"), Fraction(much), unit)


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("12", "price-of-what"), ("3 a bar", "price-of-what"), ("3 a", "not-money"), ("24 for 20", "price-of-what"),
        ("2,50 a kg", "decimal-comma"), ("3 EUR a kg", "other-currency"), ("-3 a kg", "money-out-of-range"),
        ("cheap", "not-money"), ("a lb", "not-money"), (None, "empty"), ("3 for 0 ft", "price-of-what"),
    ],
)  # fmt: skip
def test_a_price_in_doubt_is_asked_about(text: object, name: str) -> None:
    read = read_price(text, "USD")
    assert read.value is None
    assert name in [f.name for f in read.findings]


def test_three_feet_of_a_bar_that_is_sold_by_twenty() -> None:
    read = read_price("24 for 20 ft", "USD")
    assert read.value is not None
    assert read.value.of(Fraction("0.9144")).amount == Decimal("3.6")


def test_what_is_asked_is_rounded_up_and_never_down() -> None:
    def up(amount: str, step: str) -> str:
        return str(Money(Decimal(amount), "USD").raised(Decimal(step)).amount)

    assert [up("24.63", "1"), up("24.00", "1"), up("24.01", "0.05"), up("0", "5"), up("101", "5")] == [
        "25", "24", "24.05", "0", "105",
    ]  # fmt: skip


def test_a_float_is_taken_as_it_is_written() -> None:
    assert exactly(0.1) == Fraction(1, 10)
