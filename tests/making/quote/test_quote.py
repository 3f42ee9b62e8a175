"""A price by hand, line by line, and what must always hold of it."""

from dataclasses import replace
from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bickern.making.quote.asked import Asked, Hours, Metal
from bickern.making.quote.quote import quote_of
from bickern.making.quote.result import Costs, Quote
from bickern.making.shop import Shop, Terms
from bickern.making.stock import worth
from bickern.measure.money import Money
from bickern.measure.spread import Spread, sharp

TWO_POUNDS = 2 * 0.45359237
TERMS = Terms(
    fuel="4.50", metal="1.20 a lb", fixed="40", each="0.80", waste=0.1, failed=0.05, finish_minutes=5, margin=0.2,
    light=900.0, round_to="1",
)  # fmt: skip
SHOP = Shop(name="by hand", currency="USD", rate="45", terms=TERMS)
NONE = Terms(fuel="0", metal="0 a kg", waste=0.0, light=0.0, round_to="0.01")


def usd(amount: str) -> Money:
    return Money(Decimal(amount), "USD")


def six_sets(shop: Shop = SHOP) -> Asked:
    """Six sets of 2 lb of bar in all, an hour of work (half to twice), of which three quarters in the fire."""
    metal = Metal("hook", TWO_POUNDS, worth.metal(TWO_POUNDS, None, shop), price="1.20 a lb")
    return Asked(6, (metal,), Hours(Spread(3600, 1800, 7200), Spread(2700, 900, 5400), 4), shop)


def test_six_sets_by_hand():
    """Every figure was worked out by hand with two decimals, half up."""
    quote = quote_of(six_sets())
    by_hand = {
        Costs.METAL: ("2.64", "2.64", "2.64"),  # 2 lb x 1.20 = 2.40, and a tenth
        Costs.FUEL: ("4.50", "2.25", "7.88"),  # 2700 + 900 s; 900 + 900 s; 5400 + 900 s = 1.75 h = 7.875
        Costs.WORK: ("45.00", "22.50", "90.00"),
        Costs.FINISHING: ("22.50", "22.50", "22.50"),  # 6 x 5 min
        Costs.EACH: ("4.80", "4.80", "4.80"),
        Costs.FIXED: ("40", "40", "40"),
        Costs.FAILED: ("3.73", "2.49", "6.15"),  # 5 % of 74.64, 49.89, 123.02
        Costs.MARGIN: ("24.63", "19.44", "34.79"),  # 20 % of 123.17, 97.18, 173.97
    }
    found = {line.what: (line.cost, line.low, line.high) for line in quote.lines}
    assert found == {what: tuple(usd(one) for one in three) for what, three in by_hand.items()}
    assert quote.cost == usd("123.17")
    assert quote.offer is not None
    assert (quote.offer.count, quote.offer.each, quote.offer.whole) == (6, usd("25"), usd("150"))  # 147.80 / 6 = 24.63
    assert (quote.low, quote.high) == (usd("20"), usd("35"))  # 116.62 / 6 = 19.44; 208.76 / 6 = 34.79


def test_one_set_alone_bears_what_is_spent_once():
    """1 set of 1/3 lb, ten minutes, all of it in the fire: 0.44 + 1.88 + 7.50 + 3.75 + 0.80 + 40 + 0.68 = 55.05."""
    metal = Metal("hook", TWO_POUNDS / 6, worth.metal(TWO_POUNDS / 6, None, SHOP))
    quote = quote_of(Asked(1, (metal,), Hours(sharp(600), sharp(600)), SHOP))
    costs = [str(line.cost.amount) for line in quote.lines if line.cost is not None]
    assert costs == ["0.44", "1.88", "7.50", "3.75", "0.80", "40.00", "0.68", "11.01"]
    assert quote.cost == usd("55.05")
    assert quote.offer is not None
    assert quote.offer.each == usd("67")  # 66.06, rounded up


@pytest.mark.parametrize(
    ("change", "lacks"),
    [
        ({"rate": ""}, ("the price of an hour of work",)),
        ({"terms": replace(TERMS, fuel="")}, ("the price of an hour of fire",)),
        ({"terms": replace(TERMS, metal="")}, ("the price of metal",)),
        (
            {"currency": ""},
            ("the price of metal", "the price of an hour of fire", "the price of an hour of work"),
        ),
    ],
)
def test_what_is_not_told_is_named_and_the_rest_is_there(change: dict[str, object], lacks: tuple[str, ...]):
    quote = quote_of(six_sets(replace(SHOP, **change)))
    assert quote.lacks == lacks
    assert quote.offer is None
    assert quote.low is None
    assert len(quote.lines) >= 4
    assert (quote.cost.amount > 0) == (len(lacks) == 1)


def test_a_piece_without_an_order_of_work_has_no_price():
    quote = quote_of(replace(six_sets(), without=("hood",)))
    assert quote.without == ("hood",)
    assert quote.offer is None


def test_cold_work_lights_no_fire():
    quote = quote_of(replace(six_sets(), hours=Hours(sharp(3600), sharp(0))))
    assert quote.line(Costs.FUEL) is None


def test_metal_that_is_planned_whole_loses_nothing_more():
    asked = six_sets()
    whole = replace(asked, metal=(replace(asked.metal[0], whole=True),))
    line = quote_of(whole).line(Costs.METAL)
    assert line is not None
    assert line.cost == usd("2.40")


AMOUNTS = st.decimals(0, 500, places=2)
SECONDS = st.floats(0, 2e5, allow_nan=False)


@st.composite
def asked(draw: st.DrawFn) -> Asked:
    """Any shop's prices, any hours, any count."""
    terms = Terms(
        fuel=str(draw(AMOUNTS)), metal=f"{draw(AMOUNTS)} a kg", fixed=str(draw(AMOUNTS)), each=str(draw(AMOUNTS)),
        waste=draw(st.floats(0, 0.5)), failed=draw(st.floats(0, 0.9)), finish_minutes=draw(st.floats(0, 600)),
        margin=draw(st.floats(0, 3)), light=draw(st.floats(0, 3600)),
        round_to=str(draw(st.sampled_from(["0.01", "0.05", "0.5", "1", "5"]))),
    )  # fmt: skip
    shop = Shop(currency="USD", rate=str(draw(AMOUNTS)), terms=terms)
    mass = draw(st.floats(0.001, 500))
    work, fire = (Spread(v, v * 0.5, v * 2) for v in (draw(SECONDS), draw(SECONDS)))
    return Asked(
        draw(st.integers(1, 500)), (Metal("bar", mass, worth.metal(mass, None, shop)),), Hours(work, fire), shop
    )


def whole_cost(quote: Quote) -> Decimal:
    return sum((line.cost.amount for line in quote.lines if line.cost is not None), Decimal(0))


def exact_cost(one: Asked) -> Fraction:
    """All that the lot costs with its margin, in whole fractions: nothing is rounded on the way (exact mathematics)."""
    terms, rate = one.shop.terms, Fraction(one.shop.rate)
    metal = Fraction(str(one.metal[0].mass)) * Fraction(terms.metal.split()[0]) * (1 + Fraction(str(terms.waste)))
    work, fire = Fraction(str(one.hours.work.value)), Fraction(str(one.hours.fire.value))
    burns = Fraction(str(one.hours.fire.value + terms.light)) if fire > 0 else Fraction(0)
    finish = Fraction(str(terms.finish_minutes * 60.0 * one.count))
    again = metal + (work + finish) / 3600 * rate + burns / 3600 * Fraction(terms.fuel)
    spent = again * (1 + Fraction(str(terms.failed))) + Fraction(terms.each) * one.count + Fraction(terms.fixed)
    return spent * (1 + Fraction(str(terms.margin)))


@given(asked())
def test_a_price_is_never_below_what_it_costs_and_never_a_step_above(one: Asked):
    quote = quote_of(one)
    assert quote.offer is not None
    assert quote.low is not None
    assert quote.high is not None
    step = Decimal(one.shop.terms.round_to)
    each, cost = quote.offer.each.amount, exact_cost(one) / one.count
    assert cost <= Fraction(each) + DUST
    assert Fraction(each) - cost < Fraction(step) + DUST
    assert each % step == 0
    assert quote.offer.whole.amount == each * one.count
    assert quote.low.amount <= each <= quote.high.amount


DUST = Fraction("2e-9")
"""A millionth of a thousandth: what floats of mass and time add up to, and no money."""


@given(asked())
def test_the_lines_come_to_what_is_asked_but_for_the_cents_that_they_are_rounded_by(one: Asked):
    """Lines are off by half a cent at most, what is made again by its share of them and so much, the margin too."""
    terms = one.shop.terms
    failed, margin = (Fraction(str(share)) for share in (terms.failed, terms.margin))
    most = (6 * Fraction(1, 200) * (1 + failed) + Fraction(1, 200)) * (1 + margin) + Fraction(1, 200)
    assert abs(Fraction(whole_cost(quote_of(one))) - exact_cost(one)) <= most + DUST


@given(asked(), st.integers(2, 40), st.integers(1, 20))
def test_a_larger_lot_is_never_dearer_each_by_rounding(one: Asked, times: int, first: int):
    """Lots that take so many times the metal and the hours, and share what is spent once: the larger is no dearer."""
    small, large = (of_count(one, count) for count in (first, first * times))
    for end in ("offer", "low", "high"):
        few, many = (getattr(quote, end) for quote in (quote_of(small), quote_of(large)))
        assert few is not None
        assert many is not None
        dear, cheap = (few, many) if end != "offer" else (few.each, many.each)
        assert cheap.amount <= dear.amount


def of_count(one: Asked, count: int) -> Asked:
    """A lot of so many sets, each of the metal and the hours of one."""
    mass, hours = one.metal[0].mass * count, one.hours
    metal = (Metal("bar", mass, worth.metal(mass, None, one.shop)),)
    return replace(one, count=count, metal=metal, hours=Hours(hours.work.times(count), hours.fire.times(count)))


def test_three_hoods_are_asked_no_more_each_than_one():
    """Metal at 21.0225, work at 56.3213 each: 77.3438. Lines to the cent come to 77.34 for one, 232.03 for three."""
    terms = replace(NONE, metal="1 a kg")
    shop = Shop(currency="USD", rate="45", terms=terms)
    one = Asked(1, (Metal("hood", 21.0225, None),), Hours(sharp(4505.704), sharp(0)), shop)
    offers = [quote_of(of_count(one, count)) for count in (1, 3, 6, 24)]
    assert [str(quote.cost.amount) for quote in offers[:2]] == ["77.34", "232.03"]
    assert [quote.offer.each for quote in offers if quote.offer is not None] == [usd("77.35")] * 4


@given(asked())
def test_money_is_never_a_float(one: Asked):
    quote = quote_of(one)
    amounts = [money.amount for line in quote.lines for money in (line.cost, line.low, line.high) if money is not None]
    assert all(type(amount) is Decimal for amount in (*amounts, quote.cost.amount))
    assert all(amount == amount.quantize(Decimal("0.01")) for amount in amounts)


@given(asked())
def test_without_margin_a_price_is_the_cost(one: Asked):
    plain = replace(one, shop=replace(one.shop, terms=replace(one.shop.terms, margin=0.0, round_to="0.01")))
    quote = quote_of(plain)
    assert quote.line(Costs.MARGIN) is None
    assert quote.offer is not None
    over = Fraction(quote.offer.each.amount) - exact_cost(plain) / one.count
    assert -DUST <= over < Fraction(1, 100) + DUST


MORE = ("fuel", "metal", "fixed", "each", "rate", "waste", "failed", "finish_minutes", "margin", "light")


@given(asked(), st.sampled_from(MORE), AMOUNTS)
def test_a_price_grows_with_each_of_its_costs(one: Asked, what: str, more: Decimal):
    """Nothing that a shop tells makes a set cheaper by being dearer."""
    terms = one.shop.terms
    if what == "rate":
        shop = replace(one.shop, rate=str(Decimal(one.shop.rate) + more))
    elif what == "metal":
        shop = replace(one.shop, terms=replace(terms, metal=f"{Decimal(terms.metal.split()[0]) + more} a kg"))
    elif what in ("fuel", "fixed", "each"):
        shop = replace(one.shop, terms=replace(terms, **{what: str(Decimal(getattr(terms, what)) + more)}))
    else:
        shop = replace(one.shop, terms=replace(terms, **{what: getattr(terms, what) + float(more) / 1000}))
    mass = one.metal[0].mass
    dearer = replace(one, shop=shop, metal=(Metal("bar", mass, worth.metal(mass, None, shop)),))
    before, after = quote_of(one).offer, quote_of(dearer).offer
    assert before is not None
    assert after is not None
    assert after.each.amount >= before.each.amount


def test_a_shop_that_asks_nothing_gives_it_away():
    shop = Shop(currency="USD", rate="0", terms=NONE)
    quote = quote_of(six_sets(shop))
    assert quote.offer is not None
    assert quote.offer.each.amount == 0


def test_a_price_in_yen_has_no_parts_of_a_yen():
    """2 lb at 180 and a tenth 396; an hour in the fire, lighting it counted, 651; an hour of work 6500."""
    terms = Terms(fuel="651", metal="180 a lb", waste=0.1, light=900.0, round_to="10", margin=0.0)
    shop = Shop(currency="JPY", rate="6500", terms=terms)
    quote = quote_of(six_sets(shop))
    assert [line.cost.amount for line in quote.lines if line.cost is not None] == [396, 651, 6500]
    money = [one for line in quote.lines for one in (line.cost, line.low, line.high) if one is not None]
    assert all(one.amount == one.amount.to_integral_value() for one in money)
    assert quote.offer is not None
    assert quote.offer.each == Money(Decimal(1260), "JPY")  # 7547 / 6 = 1257.8
