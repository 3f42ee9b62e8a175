"""Money: a decimal amount with its currency, never a float, never two currencies added; and what so much costs."""

import re
from dataclasses import dataclass
from decimal import ROUND_CEILING, ROUND_HALF_UP, Decimal, localcontext
from fractions import Fraction

from bickern.measure.finding import Finding, stop
from bickern.measure.units.read import read_length, read_mass
from bickern.measure.units.text import plain_text, shown
from bickern.measure.units.words import Read

PLACES = {
    0: "BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF",
    3: "BHD IQD JOD KWD LYD OMR TND",
    4: "CLF UYW",
}
"""Currencies whose smallest money is not the hundredth, by the places behind the point (ISO 4217:2015, list one, minor
unit; from memory). A yen has no sen, a Kuwaiti dinar has a thousand fils."""
_PLACES = {code: places for places, codes in PLACES.items() for code in codes.split()}
MOST = Decimal(10) ** 9
_MONEY = re.compile(r"([a-z]{3}|[$£€])?\s?(-?)\s?([0-9]+(?:\.[0-9]*)?|\.[0-9]+)\s?([a-z]{3}|[$£€])?")
_SIGNS = {"$": ("USD", "CAD", "AUD", "NZD"), "£": ("GBP",), "€": ("EUR",)}


@dataclass(frozen=True, slots=True)
class Money:
    """An amount in one currency (three letters, ISO 4217)."""

    amount: Decimal
    currency: str

    def __add__(self, other: "Money") -> "Money":
        """Sum in one currency."""
        if other.currency != self.currency:
            raise ValueError(f"{self.currency} and {other.currency} cannot be added")
        return Money(self.amount + other.amount, self.currency)

    def times(self, factor: Decimal | Fraction | int) -> "Money":
        """So many times the amount; a float is refused, since it is not the number that was written."""
        if isinstance(factor, Fraction):
            return Money(self.amount * factor.numerator / factor.denominator, self.currency)
        if isinstance(factor, float):
            raise TypeError("money is never multiplied by a float: give a Decimal or a Fraction")
        return Money(self.amount * factor, self.currency)

    def rounded(self, step: Decimal | None = None) -> "Money":
        """To the nearest step (None: its smallest money), half up, as a till does (half away from nothing)."""
        return self._to(step, ROUND_HALF_UP)

    def raised(self, step: Decimal | None = None) -> "Money":
        """To the next step (None: its smallest money) at or above: what is asked is never less than was reckoned."""
        return self._to(step, ROUND_CEILING)

    def _to(self, step: Decimal | None, way: str) -> "Money":
        step = smallest(self.currency) if step is None else step
        with localcontext() as exact:
            exact.prec = 50
            steps = (self.amount / step).quantize(Decimal(1), rounding=way)
            return Money(steps * step, self.currency)


@dataclass(frozen=True, slots=True)
class Price:
    """What so much of a stock costs: `money` for `much` of it, in `unit` ("kg" or "m")."""

    money: Money
    much: Fraction
    unit: str

    def of(self, much: Fraction) -> Money:
        """What that much of it costs, in the same unit."""
        return self.money.times(much / self.much)


def places(currency: str) -> int:
    """Places behind the point that a currency has: 2 for most, 0 for yen, 3 for Kuwaiti dinars."""
    return _PLACES.get(currency, 2)


def smallest(currency: str) -> Decimal:
    """The smallest money of a currency: a cent, one yen, a fils of a Kuwaiti dinar."""
    return Decimal(1).scaleb(-places(currency))


def nothing(currency: str) -> Money:
    """No money, to start a sum from."""
    return Money(Decimal(0), currency)


def read_money(text: object, currency: str | None) -> Read[Money]:
    """`12.50`, `$12.50`, `12.50 EUR`: a bare amount is in the shop's `currency`."""
    plain = plain_text(text)
    if plain.value is None:
        return Read(None, plain.findings)
    found = _MONEY.fullmatch(plain.value)
    if found is None:
        return _unread(_why_not(plain.value))
    before, minus, digits, after = found.groups()
    money = Money(Decimal(digits), "")
    if minus or money.amount > MOST:
        return _unread(stop("money-out-of-range", f"{shown(text)} is not a price.", "Write an amount above 0."))
    return _in_currency(money, before, after, currency, shown(text))


_BY_WHAT = re.compile(r"(.+?)(?: ?/ ?| (?:an?|per|for) )(.+)")
BY_WHAT = "Write `3.10 a lb`, `6.80 a kg`, `1.20 a foot` or `24 for 20 ft`."
"""How the price of a stock is written."""


def read_price(text: object, currency: str | None) -> Read[Price]:
    """`3.10 a lb`, `6.80 a kg`, `1.20 a foot`, `24 for 20 ft`: what of it costs so much must be told."""
    plain = plain_text(text)
    if plain.value is None:
        return Read(None, plain.findings)
    found = _BY_WHAT.fullmatch(plain.value)
    if found is None:
        money = read_money(text, currency)
        says = f"{shown(text)} does not say what costs so much: a pound, a kilogram, a foot?"
        return Read(None, money.findings or (stop("price-of-what", says, BY_WHAT),))
    money = read_money(found.group(1), currency)
    much, unit = _much(found.group(2))
    if money.value is None or much.value is None:
        return Read(None, (*money.findings, *much.findings))
    return Read(Price(money.value, exactly(much.value), unit))


def _much(words: str) -> tuple[Read[float], str]:
    """How much of a stock is meant, and its unit: `lb` is one of it."""
    counted = words if words[:1].isdigit() or words[:1] == "." else f"1 {words}"
    mass = read_mass(counted)
    if mass.value is not None:
        return mass, "kg"
    length = read_length(counted, None)
    if length.value is not None:
        return length, "m"
    says = f"{shown(words)} is no weight and no length."
    return Read(None, (stop("price-of-what", says, BY_WHAT),)), ""


def exactly(number: float) -> Fraction:
    """The decimal number that a float is printed as: what was written, not the nearest float to it."""
    return Fraction(str(number))


def _in_currency(money: Money, before: str | None, after: str | None, own: str | None, words: str) -> Read[Money]:
    named = before or after
    if before and after:
        return _unread(stop("two-currencies", f"{words} names its currency twice.", "Write it once."))
    candidates = (own,) if named is None else _SIGNS.get(named, (named.upper(),))
    if own is not None and own in candidates:
        return Read(Money(money.amount, own))
    if own is None and len(candidates) == 1 and candidates[0] is not None:
        return Read(Money(money.amount, candidates[0]))
    if own is None:
        says = f"{words} does not say in which currency."
        return _unread(stop("no-currency", says, "Write `currency: USD` in the shop file, or `12.50 USD` here."))
    says = f"{words} is not in the shop's currency, {own}."
    return _unread(stop("other-currency", says, f"Write it in {own}: nothing is exchanged here."))


def _why_not(text: str) -> Finding:
    if re.search(r"[0-9],[0-9]", text):
        says = f"{shown(text)} has a comma: it could be a decimal comma or a thousands mark."
        return stop("decimal-comma", says, "Write the amount with a point, or without any mark.")
    return stop("not-money", f"{shown(text)} cannot be read as money.", "Write `12.50` or `12.50 USD`.")


def _unread(fault: Finding) -> Read[Money]:
    return Read(None, (fault,))


def say_money(money: Money, *, comma: bool = False) -> str:
    """`12.50 USD`, `1250 JPY`, `3.125 KWD`: to the smallest money of the currency, half up, the currency behind."""
    text = f"{money.rounded().amount:.{places(money.currency)}f}"
    return f"{text.replace('.', ',') if comma else text} {money.currency}"
