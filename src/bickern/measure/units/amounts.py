"""Angles, turns, counts, shares, temperatures and masses as a smith writes them."""

import math
import re
from fractions import Fraction

from bickern.measure.finding import Finding, stop, warn
from bickern.measure.units.numbers import number_in
from bickern.measure.units.text import BIGGEST, plain_text, shown
from bickern.measure.units.words import POUND, Read

_WITH_WORD = re.compile(r"(.*?)\s?((?:deg )?[a-z]+|%)\.?")
_TURN = Fraction(1)
_DEGREE = Fraction(1, 360)
_TURN_WORDS = {
    **dict.fromkeys(("turn", "turns", "rev"), _TURN),
    **dict.fromkeys(("deg", "degs", "degree", "degrees"), _DEGREE),
}
_MASS_WORDS: dict[str, float] = {
    "kg": 1.0,
    "kilo": 1.0,
    "g": 0.001,
    **dict.fromkeys(("lb", "lbs", "pound", "pounds"), POUND),
    **dict.fromkeys(("oz", "ounce", "ounces"), POUND / 16),
}
_POUNDS_AND_OUNCES = re.compile(r"(.+?)\s?(?:lbs?|pounds?)\.?,? (.+?)\s?(?:oz|ounces?)\.?")
MOST_TURNS = 1000
HOTTEST = 3500.0
"""K: above the boiling point of iron; nothing here is hotter."""


def read_number(text: object, *, signed: bool = False) -> Read[float]:
    """A plain number without a unit; fractions are read exactly. Less than nothing is a finding unless `signed`."""
    plain = plain_text(text)
    if plain.value is None:
        return Read(None, plain.findings)
    found = number_in(plain.value)
    if found.value is None:
        return Read(None, found.findings)
    value = found.value.value
    if value < 0 and not signed:
        return _unread("negative-number", f"{shown(text)} is less than nothing.", "Write it without a minus.")
    if abs(value) > BIGGEST:
        return _unread("too-big", f"{shown(text)} is too big to be meant.", "Look for a slipped digit.")
    return Read(float(value), found.findings)


def read_count(text: object, *, least: int = 1, most: int = 100_000) -> Read[int]:
    """How many: a whole number from `least` to `most`; `12` and `12 off` are the same."""
    plain = plain_text(text)
    if plain.value is None:
        return Read(None, plain.findings)
    found = number_in(plain.value.removesuffix(" off"))
    if found.value is None:
        return Read(None, found.findings)
    value = found.value.value
    if value.denominator != 1:
        return Read(None, (stop("not-whole", f"{shown(text)} is not a whole number of pieces.", "Write 1, 2, 3 ..."),))
    if not least <= value <= most:
        says = f"{shown(text)} is not a number of pieces from {least} to {most}."
        return Read(None, (stop("count-out-of-range", says, f"Write a whole number from {least}."),))
    return Read(int(value), found.findings)


def read_angle(text: object, *, signed: bool = False) -> Read[float]:
    """An angle in radians; a bare number is degrees. `90`, `90 deg`, `1/4 turn`."""
    turns = _turned(text, _DEGREE, signed)
    return Read(None if turns.value is None else float(turns.value) * 2 * math.pi, turns.findings)


def read_turns(text: object, *, signed: bool = False) -> Read[float]:
    """How many turns; a bare number is turns. `1 1/2`, `1 1/2 turns`, `540 deg`."""
    turns = _turned(text, _TURN, signed)
    return Read(None if turns.value is None else float(turns.value), turns.findings)


def _turned(text: object, bare: Fraction, signed: bool) -> Read[Fraction]:
    body, word, findings = _body_and_word(text)
    factor = bare if word is None else _TURN_WORDS.get(word)
    if body is None:
        return Read(None, findings)
    if factor is None:
        says = f"{shown(text)}: `{word}` is not a way to say how far something turns."
        return Read(None, (stop("unknown-unit", says, "Write degrees as `90` or `90 deg`, or `1/4 turn`."),))
    found = number_in(body)
    if found.value is None:
        return Read(None, found.findings)
    turns = found.value.value * factor
    fault = _turn_fault(text, turns, signed)
    return Read(turns, found.findings) if fault is None else Read(None, (*found.findings, fault))


def _turn_fault(text: object, turns: Fraction, signed: bool) -> Finding | None:
    if turns < 0 and not signed:
        return stop(
            "negative-angle",
            f"{shown(text)} is less than nothing.",
            "Say the side in words (`turn: left`, or `hand: left` for a twist).",
        )
    if turns == 0 and not signed:
        return stop("zero-angle", f"{shown(text)} does not turn at all.", "Write an angle above 0, or leave it out.")
    if abs(turns) > MOST_TURNS:
        return stop("too-big", f"{shown(text)} is over {MOST_TURNS} turns.", "Look for a slipped digit.")
    return None


def read_share(text: object, *, most: float = 1.0) -> Read[float]:
    """`2.5 %` -> 0.025. The sign must be written: a bare `1` could be all or a hundredth."""
    body, word, findings = _body_and_word(text)
    if body is None:
        return Read(None, findings)
    found = number_in(body if word in ("%", "percent", "cent") else f"{body} {word}" if word else body)
    if word == "cent":
        found = number_in(body.removesuffix("per").rstrip())
    if found.value is None:
        return Read(None, found.findings)
    if word is None and found.value.value != 0:
        says = f"{shown(text)} does not say that it is a percentage."
        return Read(None, (stop("no-percent", says, f"Write `{body} %` (a tenth of the whole is `10 %`)."),))
    value = float(found.value.value / 100)
    if not 0 <= value <= most:
        says = f"{shown(text)} is not between 0 and {most * 100:g} %."
        return Read(None, (stop("share-out-of-range", says, "Look for a slipped digit."),))
    return Read(value, found.findings)


def read_temperature(text: object) -> Read[float]:
    """`1150 C`, `2100 F`, `1423 K` -> kelvin. The letter must be written: books differ by it."""
    body, word, findings = _body_and_word(text)
    if body is None:
        return Read(None, findings)
    letter = (word or "").removeprefix("deg ").removeprefix("degrees ")
    if letter not in ("c", "f", "k"):
        says = f"{shown(text)} does not say which degrees."
        return _unread("no-degrees", says, "Write `1150 C` or `2100 F`.")
    found = number_in(body)
    if found.value is None:
        return Read(None, found.findings)
    kelvin = _kelvin(found.value.value, letter)
    if not 0 < kelvin <= HOTTEST:
        return _unread("temperature-out-of-range", f"{shown(text)} is not a heat of this world.", "Look at the unit.")
    return Read(kelvin, found.findings)


def _kelvin(value: Fraction, letter: str) -> float:
    if letter == "k":
        return float(value)
    celsius = value if letter == "c" else (value - 32) * Fraction(5, 9)
    return float(celsius + Fraction(27315, 100))


def read_mass(text: object) -> Read[float]:
    """`3 lb 8 oz`, `1/2 lb`, `680 g`, `1.5 kg` -> kilograms. The unit must be written."""
    plain = plain_text(text)
    if plain.value is None:
        return Read(None, plain.findings)
    both = _POUNDS_AND_OUNCES.fullmatch(plain.value)
    found = _pounds_and_ounces(both) if both is not None else _one_mass(plain.value)
    if found.value is not None and not 0 < found.value < BIGGEST:
        return _unread("mass-out-of-range", f"{shown(text)} is not a mass that can be lifted.", "Write it above 0.")
    return found


def _one_mass(text: str) -> Read[float]:
    split = _WITH_WORD.fullmatch(text)
    factor = _MASS_WORDS.get(split.group(2)) if split is not None else None
    if split is None or factor is None:
        return _unread("no-units", f"{shown(text)} does not say what it weighs in.", "Write lb, oz, kg or g behind it.")
    found = number_in(split.group(1))
    return Read(None if found.value is None else float(found.value.value) * factor, found.findings)


def _pounds_and_ounces(both: "re.Match[str]") -> Read[float]:
    pounds, ounces = number_in(both.group(1)), number_in(both.group(2))
    findings = (*pounds.findings, *ounces.findings)
    if pounds.value is None or ounces.value is None:
        return Read(None, findings)
    if ounces.value.value >= 16:
        says = f"{shown(both.group(0))}: the ounces are more than a pound; they are added all the same."
        findings += (warn("ounces-over-a-pound", says),)
    return Read(float(pounds.value.value + ounces.value.value / 16) * POUND, findings)


def _body_and_word(text: object) -> tuple[str | None, str | None, tuple[Finding, ...]]:
    plain = plain_text(text)
    if plain.value is None:
        return None, None, plain.findings
    split = _WITH_WORD.fullmatch(plain.value)
    return (plain.value, None, ()) if split is None else (split.group(1), split.group(2), ())


def _unread(name: str, says: str, try_this: str) -> Read[float]:
    return Read(None, (stop(name, says, try_this),))
