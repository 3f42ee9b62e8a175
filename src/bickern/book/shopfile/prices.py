"""How stock is cut, and what this shop pays and asks: amounts are checked here, and kept as they are written."""

import re
from collections.abc import Iterator
from decimal import Decimal
from typing import TypeVar

from bickern.book.forms import Takes
from bickern.book.shopfile.figures import Ranges, each, lengths, or_plain, sensible
from bickern.book.text import Group, Word
from bickern.book.told import Told, sized
from bickern.iron.steel import find_steel
from bickern.making.shop import MOST_COUNTS, MOST_SETS, Cutting, SectionPrice, Terms
from bickern.measure.finding import stop, warn
from bickern.measure.money import BY_WHAT, Money, read_money, read_price, smallest
from bickern.measure.units.read import read_count, read_length, read_number, read_share
from bickern.measure.units.words import Read

T = Takes
V = TypeVar("V")
SIGNS = {"£": "GBP", "€": "EUR", "$": ""}
"""Signs that name a currency; that of the dollar names several."""
RANGES: Ranges = {
    "kerf": (0.0, 0.01, "from 0 to 3/8 in (10 mm)"),
    "dress": (0.0, 0.03, "from 0 to 1 3/16 in (30 mm)"),
    "grip": (0.0, 1.0, "from 0 to 39 in (1 m)"),
    "shortest drop": (0.0, 3.0, "from 0 to 10 ft (3 m)"),
    "narrowest drop": (0.0, 1.0, "from 0 to 39 in (1 m)"),
    "gap": (0.0, 0.1, "from 0 to 4 in (100 mm)"),
    "margin": (0.0, 0.1, "from 0 to 4 in (100 mm)"),
}
SHARES: Ranges = {
    "waste": (0.0, 0.5, "from 0 to 50 %"),
    "failed": (0.0, 0.9, "from 0 to 90 %"),
    "margin": (0.0, 5.0, "from 0 to 500 %"),
    "learning": (0.5, 1.0, "from 50 % (halves with each doubling) to 100 % (never learns)"),
    "finishing in minutes": (0.0, 6000.0, "from 0 to 6000 minutes"),
    "lighting in minutes": (0.0, 240.0, "from 0 to 240 minutes"),
}
"""Least and greatest that can be meant: choices of ours, wide on purpose."""


def currency_of(told: Told) -> str:
    """The three letters of the shop's money; "" where none are told, with a finding where a price is told all the same.

    `£` and `€` are taken; `$` is not, since several countries write it.
    """
    said = told.text("currency")
    code = SIGNS.get(said, said.upper())
    if re.fullmatch("[A-Z]{3}", code):
        return code
    if said:
        says = f"`currency` is three letters; here it is `{said[:20]}`"
        told.fault("not-a-currency", says, "write `currency: USD`, GBP, EUR, CAD, AUD, NZD ...", "currency")
    elif any(told.has(word) for word in ("rate", "prices")):
        says = "prices are told here, but not in which currency"
        told.reading.say(
            warn("currency-not-told", says, "write `currency: USD`: without it nothing is priced"), told.where
        )
    return ""


def amount(told: Told, word: str, currency: str) -> str:
    """An amount of money, checked to be one in the shop's currency and kept as written; "" where none is told."""
    value = told.word(word, T.MONEY)
    return "" if value is None else _checked(told, value, read_money(value.text, currency or None))


def _checked(told: Told, value: Word, read: Read[V]) -> str:
    """The words as written where they can be read; that no currency is told is a finding of its own, said once."""
    faults = [f for f in read.findings if f.name != "no-currency"]
    for fault in faults:
        told.reading.say(fault, value.where)
    return "" if faults else value.text.strip()


def cutting_of(told: Told | None) -> Cutting:
    """How stock is cut."""
    plain = Cutting()
    if told is None:
        return plain

    def size(word: str, default: float) -> float:
        return or_plain(sensible(told, word, T.ANY_LENGTH, reader, RANGES), default)

    def reader(text: str) -> Read[float]:
        return read_length(text, told.reading.system, signed=True)

    return Cutting(
        size("kerf", plain.kerf),
        told.yes("hot cut", plain.hot),
        size("dress", plain.dress),
        size("grip", plain.grip),
        size("shortest drop", plain.least_drop),
        size("narrowest drop", plain.least_sheet),
        size("gap", plain.gap),
        size("margin", plain.margin),
        told.yes("weld short ones", plain.weld_short),
        told.yes("unknown steel", plain.unknown),
        lengths(told, "sold in"),
    )


def terms_of(told: Told | None, currency: str) -> Terms:
    """What this shop pays and asks."""
    plain = Terms()
    if told is None:
        return plain

    def figure(word: str, takes: Takes, default: float) -> float:
        reader = read_number if takes is T.NUMBER else _share
        return or_plain(sensible(told, word, takes, reader, SHARES), default)

    return Terms(
        amount(told, "fuel", currency),
        _by_weight(told, "metal", currency),
        amount(told, "fixed", currency),
        amount(told, "each", currency),
        figure("waste", T.SHARE, plain.waste),
        figure("failed", T.SHARE, plain.failed),
        figure("finishing in minutes", T.NUMBER, plain.finish_minutes),
        figure("margin", T.SHARE, plain.margin),
        figure("learning", T.SHARE, plain.learns),
        figure("lighting in minutes", T.NUMBER, plain.light / 60) * 60,
        _step(told, currency) or plain.round_to,
        _counts(told) or plain.counts,
        tuple(_sections(told, currency)),
        tuple(_metals(told, currency)),
    )


def _share(text: str) -> Read[float]:
    return read_share(text, most=10.0)


def _step(told: Told, currency: str) -> str:
    """The step that a price is rounded up to; none, or a part of the smallest money there is, is a finding."""
    said = amount(told, "round to", currency)
    if not said or currency == "":
        return said
    step = (read_money(said, currency).value or _ONE).amount
    least = smallest(currency)
    if step > 0 and step % least == 0:
        return said
    says = f"a price is rounded up by steps of {least} {currency} or several of them, not of nothing and not of parts"
    told.fault("no-step", says, f"write `round to: 1`, or {5 * least}", "round to")
    return ""


_ONE = Money(Decimal(1), "")


def _counts(told: Told) -> tuple[int, ...]:
    """How many sets are priced, the fewest first."""
    found = each(told, "counts", T.COUNTS, lambda text: read_count(text, most=MOST_SETS), "[1, 6, 24]")
    counts = tuple(sorted(set(found)))
    if len(counts) > MOST_COUNTS:
        told.fault("too-many-counts", f"`counts` names {len(counts)}: a sheet has room for {MOST_COUNTS}", "", "counts")
    return counts[:MOST_COUNTS]


def _by_weight(told: Told, word: str, currency: str) -> str:
    value = told.word(word, T.PRICE)
    return "" if value is None else _weighed(told, value, currency)


def _weighed(told: Told, value: Word, currency: str) -> str:
    """A price by weight as written; one by length says nothing where no section is named."""
    read = read_price(value.text, currency or None)
    if read.value is not None and read.value.unit != "kg":
        says = f"`{value.text[:40]}` is by length, and here no section is named"
        told.reading.say(
            stop("price-by-length", says, "write `3.10 a lb`; a section's price goes under `bars`"), value.where
        )
        return ""
    return _checked(told, value, read)


def _named(told: Told, word: str) -> Iterator[tuple[Word, Word]]:
    """Names with the price behind each."""
    value = told.value(word, T.PRICED)
    if value is not None and not isinstance(value, Group):
        told.fault("not-a-group", f"`{word}` wants {T.PRICED}", f"write `{word}: {{3/8 sq: 1.20 a foot}}`", word)
        return
    for entry in value.entries if isinstance(value, Group) else ():
        if isinstance(entry.value, Word):
            yield entry.key, entry.value
        else:
            told.reading.say(stop("one-value", f"behind `{entry.key.text}` stands one price", BY_WHAT), entry.key.where)


def _sections(told: Told, currency: str) -> Iterator[SectionPrice]:
    """Sections that have a price of their own."""
    for name, price in _named(told, "bars"):
        goal = told.reading.take(sized(name, told.goal_of), name.where)
        words = _checked(told, price, read_price(price.text, currency or None))
        if goal is not None and goal.open_size:
            says = f"`{name.text[:40]}` leaves a size open, and a price is for one section"
            told.reading.say(stop("open-size", says, "write the size in place of `?`"), name.where)
        elif goal is not None and words:
            yield SectionPrice(goal.section, words)


def _metals(told: Told, currency: str) -> Iterator[tuple[str, str]]:
    """Metals that have a price of their own, by the names that the tool knows them by."""
    for name, price in _named(told, "metals"):
        read = find_steel(name.text)
        steel = told.reading.take(Read(read.value, read.findings if read.value is None else ()), name.where)
        words = _weighed(told, price, currency)
        if steel is not None and words:
            yield steel.name, words
