"""What metal, work and fire are worth: by hand, exact, and nothing where nothing is told."""

from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bickern.iron.section import Section, area
from bickern.iron.steel import density_of
from bickern.making.shop import SectionPrice, Shop, Terms
from bickern.making.stock import worth
from bickern.making.stock.eaten import eaten, more, shared
from bickern.making.stock.rack import StockBar
from bickern.measure.money import Money
from bickern.measure.spread import Spread
from bickern.measure.units.words import INCH, Shape

SQUARE = Section(Shape.SQUARE, 0.375 * INCH, 0.375 * INCH)
FLAT, ON_EDGE = Section(Shape.FLAT, INCH, INCH / 4), Section(Shape.FLAT, INCH / 4, INCH)
TERMS = Terms(
    fuel="4.50", metal="1.20 a lb", sections=(SectionPrice(SQUARE, "24 for 20 ft"), SectionPrice(FLAT, "2 a kg")),
    metals=(("copper", "9 a lb"),),
)  # fmt: skip
SHOP = Shop(currency="USD", rate="45", terms=TERMS)


def amount(money: object) -> Decimal:
    return getattr(money, "amount")  # noqa: B009 - None must fail here, in words


def test_hours_are_as_told():
    assert amount(worth.hour(SHOP)) == 45
    assert amount(worth.fuel_hour(SHOP)) == Decimal("4.50")


def test_a_pound_costs_what_a_pound_costs():
    assert amount(worth.metal(0.45359237, None, SHOP)) == Decimal("1.20")


def test_a_foot_of_a_section_costs_what_a_foot_of_it_costs():
    """24 for 20 ft is 1.20 a foot: of 3/8 square a foot weighs 0.478 lb, by weight it would be 0.57."""
    foot = 0.3048 * area(SQUARE) * density_of("mild")
    assert float(amount(worth.metal(foot, SQUARE, SHOP))) == pytest.approx(1.20)
    round_bar = Section(Shape.ROUND, 0.375 * INCH, 0.375 * INCH)
    assert float(amount(worth.metal(foot, round_bar, SHOP))) == pytest.approx(0.478 * 1.20, abs=0.001)


def test_a_flat_costs_the_same_on_edge():
    assert amount(worth.metal(3.0, ON_EDGE, SHOP)) == amount(worth.metal(3.0, FLAT, SHOP)) == 6


def test_another_metal_is_priced_by_its_own_name_or_not_at_all():
    assert amount(worth.metal(0.45359237, SQUARE, SHOP, "copper")) == 9
    assert worth.metal(1.0, None, SHOP, "brass") is None
    assert worth.metal(1.0, SQUARE, SHOP, "wrought iron") is None
    assert worth.metal(1.0, None, SHOP, "A36") == worth.metal(1.0, None, SHOP, "mild")


def test_a_bare_amount_is_a_kilograms():
    assert amount(worth.metal(2.0, None, replace(SHOP, terms=Terms(metal="3")))) == 6


@pytest.mark.parametrize(
    "shop", [Shop(), replace(SHOP, currency=""), Shop(currency="USD"), replace(SHOP, rate="plenty")]
)
def test_what_is_not_told_is_worth_nothing_that_is_known(shop: Shop):
    assert worth.hour(shop) is None


def test_nothing_is_exchanged():
    assert worth.metal(1.0, None, replace(SHOP, currency="EUR", terms=Terms(metal="3 USD a kg"))) is None


@given(st.floats(0.001, 1000), st.floats(0.001, 1000))
def test_more_metal_is_never_cheaper(a: float, b: float):
    less, more = sorted((a, b))
    assert amount(worth.metal(less, SQUARE, SHOP)) <= amount(worth.metal(more, SQUARE, SHOP))
    assert type(amount(worth.metal(less, SQUARE, SHOP))) is Decimal


def test_a_shop_that_names_no_currency_tells_no_amount():
    """Two amounts that each name a currency of their own may be of two: nothing is added up then."""
    terms = replace(TERMS, fuel="4 EUR", metal="3 USD a kg")
    shop = replace(SHOP, currency="", rate="45 USD", terms=terms)
    assert worth.hour(shop) is None
    assert worth.fuel_hour(shop) is None
    assert worth.metal(1.0, None, shop) is None
    assert worth.priced("3 USD", shop) is None
    assert eaten(60.0, shop) is None


@pytest.mark.parametrize("left_out", [{"rate": ""}, {"terms": replace(TERMS, fuel="")}])
def test_half_of_what_fire_and_time_cost_is_not_told_as_the_whole(left_out: dict[str, object]):
    assert eaten(60.0, replace(SHOP, **left_out)) is None


def test_the_bar_that_costs_most_by_its_length_is_what_the_next_one_costs():
    """7.20 for 6 ft is 1.20 a foot, 6.60 for 4 ft is 1.65; what is not the like of it says nothing."""
    foot = 12 * INCH

    def bar(name: str, price: str, feet: float, steel: str = "mild", **told: str) -> StockBar:
        money = Money(Decimal(price), told.pop("currency", "USD"))
        return StockBar(name, SQUARE, feet * foot, steel, told.get("coating", "none"), price=money)

    cheap, dear = bar("B1", "7.20", 6), bar("B2", "6.60", 4)
    others = (
        bar("B3", "90", 4, currency="EUR"), bar("B4", "90", 4, coating="galvanised"), bar("B5", "90", 4, "O1"),
        bar("B6", "90", 4, "nobody knows"), replace(dear, id="B7", section=FLAT), replace(dear, id="B8", price=None),
    )  # fmt: skip
    assert worth.dearest(SQUARE, "A36", (cheap, *others, dear), SHOP) == dear
    assert worth.dearest(SQUARE, "", (dear, cheap), SHOP) == dear
    assert worth.dearest(SQUARE, "A36", others, SHOP) is None
    assert worth.part_of(Money(Decimal("6.60"), "USD"), foot, dear.length) == Money(Decimal("1.65"), "USD")


def test_what_is_eaten_by_hand():
    """45 and 4.50 an hour: a quarter of an hour is 12.375, and less than no time costs nothing."""
    assert amount(eaten(900.0, SHOP)) == Decimal("12.375")
    assert amount(eaten(-60.0, SHOP)) == 0


def test_more_is_one_less_the_other_end_from_end_and_may_be_less():
    assert more(Spread(9, 6, 14), Spread(5, 4, 8)) == Spread(4, 2, 6)
    assert more(Spread(3, 2, 4), Spread(5, 3, 9)) == Spread(-2, -5, -1)
    assert more(Spread(5, 2, 9), Spread(5, 2, 9)) == Spread(0, 0, 0)


def test_a_lot_is_shared_by_its_copies():
    assert shared(Spread(12, 6, 24), 4) == Spread(3, 1.5, 6)
    assert shared(Spread(12, 6, 24), 1) == Spread(12, 6, 24)
