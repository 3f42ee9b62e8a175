"""A shop file read: the shop, and what was found on the way."""

from dataclasses import replace

from bickern.book.forms import Takes
from bickern.book.shopfile.figures import below, lengths, or_plain, sensible
from bickern.book.shopfile.forms import BARS, CUTTING, FIRE, HAND, JOINTS, PRICES, PRINT, RINGS, SHEET, SHOP
from bickern.book.shopfile.prices import amount, currency_of, cutting_of, terms_of
from bickern.book.shopfile.rules import bars_of, joints_of, rings_of, sheet_of
from bickern.book.text import Value, Word, read_page
from bickern.book.told import Reading, Told, tell
from bickern.iron.flame import Flame
from bickern.making.shop import Fire, Hand, Shop
from bickern.measure.finding import Finding
from bickern.measure.units.read import read_mass, read_number, read_temperature
from bickern.measure.units.words import GaugeSystem, Style, System

T = Takes


def read_shop(text: str | bytes, file: str) -> tuple[Shop, tuple[Finding, ...]]:
    """The shop; where a figure is not told or at fault, the house's own stands in and a finding says so."""
    page = read_page(text, file, "shop")
    if page.top is None:
        return Shop(), page.findings
    reading = Reading(_system(page.top.get("units")), findings=list(page.findings))
    told = tell(reading, page.top, SHOP)
    shop = Shop() if told is None else _shop(told)
    return shop, tuple(sorted(reading.findings, key=lambda f: (f.where.line, f.where.column)))


def _system(said: Value | None) -> System | None:
    return {"in": System.INCH, "mm": System.MM}.get(said.text.strip().lower()) if isinstance(said, Word) else None


def _shop(told: Told) -> Shop:
    plain, currency = Shop(), currency_of(told)
    return Shop(
        told.text("shop"),
        _style(below(told, PRINT), System(told.choice("units", "in"))),
        told.choice("english", plain.english),
        GaugeSystem(told.choice("gauge", plain.gauge)),
        _fire(below(told, FIRE)),
        lengths(told, "drifts"),
        lengths(told, "tongs"),
        bars_of(below(told, BARS)),
        rings_of(below(told, RINGS)),
        sheet_of(below(told, SHEET)),
        joints_of(below(told, JOINTS)),
        currency,
        amount(told, "rate", currency),
        _hand(below(told, HAND)),
        told.texts("tools"),
        cutting_of(below(told, CUTTING)),
        terms_of(below(told, PRICES), currency),
    )


def _style(told: Told | None, first: System) -> Style:
    plain = Style(first=first)
    if told is None:
        return plain
    return Style(
        first,
        int(told.choice("fractions", str(plain.inch_denominator))),
        (told.length("millimetres") or plain.mm_step / 1000) * 1000,
        int(told.choice("fit fractions", str(plain.fit_denominator))),
        (told.length("fit millimetres") or plain.fit_mm_step / 1000) * 1000,
        told.yes("decimal comma", plain.comma),
    )


def _fire(told: Told | None) -> Fire:
    if told is None:
        return Fire()
    plain = Fire()
    return Fire(
        told.text("name"),
        or_plain(sensible(told, "longest heat", T.LENGTH, told.length_of), plain.longest),
        told.length("opening") or 0.0,
        or_plain(sensible(told, "temperature", T.HEAT, read_temperature), plain.temperature),
        Flame(told.choice("flame", plain.flame)),
        told.count("irons", plain.irons),
    )


def _hand(told: Told | None) -> Hand:
    plain = Hand()
    if told is None:
        return plain

    def number(word: str, default: float) -> float:
        return or_plain(sensible(told, word, T.NUMBER, read_number), default)

    hand = Hand(
        or_plain(sensible(told, "hammer", T.MASS, read_mass), plain.hammer),
        number("speed in m/s", plain.speed),
        plain.useful,
        number("blows a second", plain.pace),
        number("contact in W/m2K", plain.contact),
        number("carry in seconds", plain.carry),
        told.choice("colours", plain.colours),
    )
    return replace(hand, useful=_useful(told, hand))


def _useful(told: Told, hand: Hand) -> float:
    """The share of a blow that is useful, from the useful joules that are told."""
    told_joules = sensible(told, "useful blow in J", T.NUMBER, read_number)
    if told_joules is None:
        return hand.useful
    whole = hand.hammer * hand.speed**2 / 2
    if told_joules < whole:
        return told_joules / whole
    says = f"a useful blow of {told_joules:g} J is more than this hammer has in all ({whole:.1f} J)"
    told.fault("more-than-the-blow", says, "about a third of the blow is useful work", "useful blow in J")
    return hand.useful
