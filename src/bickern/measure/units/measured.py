"""A number with the unit that a book prints behind it: `489.6 lb/ft3`, `5.5 in2`, `7.85 g/cm3`."""

import re
from dataclasses import dataclass

from bickern.measure.finding import stop
from bickern.measure.units.numbers import number_in
from bickern.measure.units.scales import SCALES
from bickern.measure.units.text import plain_text, shown
from bickern.measure.units.words import Read


@dataclass(frozen=True, slots=True)
class Measured:
    """A value in coherent SI, and the unit it has there."""

    value: float
    unit: str


_SPELT = {unit.lower(): unit for unit in SCALES if unit}
_PARTED = re.compile(r"([-+0-9./ ]*[0-9]\.?) ?([a-z%].*)")
_SQUARE = re.compile(r"\b(sq|cu|square|cubic)\.? (in|ft|yd|mm|cm|m)\b")
_POWERS = {"sq": "2", "square": "2", "cu": "3", "cubic": "3"}
_OTHERWISE = {
    f"{before}{behind}": f"{name}({country})"
    for country in ("us", "uk")
    for word, name in (("gal", "gal"), ("fl oz", "floz"), ("pint", "pint"), ("pints", "pint"), ("quart", "quart"))
    for before, behind in ((f"{country} ", word), (word, f"({country})"))
}


def _spelt(words: str) -> str | None:
    """A unit of `SCALES` as it is printed here and there: `sq in` is in2, `lb/sq ft` lb/ft2, `us gal` gal(US)."""
    plain = _SQUARE.sub(lambda found: found[2] + _POWERS[found[1]], words)
    return _SPELT.get(_OTHERWISE.get(plain, plain))


def read_measured(text: object) -> Read[Measured]:
    """A number and a unit out of `SCALES`, a space between them or none."""
    plain = plain_text(text)
    if plain.value is None:
        return Read(None, plain.findings)
    parted = _PARTED.fullmatch(plain.value)
    unit = _spelt(parted[2]) if parted else None
    if parted is None or unit is None:
        says = f"{shown(text)} is not a number and a unit that is known."
        return Read(None, (stop("no-such-unit", says, "Write it like `489.6 lb/ft3`, `7850 kg/m3` or `144 in2`."),))
    found = number_in(parted[1].strip())
    if found.value is None:
        return Read(None, found.findings)
    scale = SCALES[unit]
    return Read(Measured(scale.si(float(found.value.value)), scale.unit), found.findings)


def read_density(text: object) -> Read[float]:
    """`489.6 lb/ft3`, `0.2836 lb/in3`, `7.85 g/cm3` -> kg/m3."""
    found = read_measured(text)
    if found.value is None:
        return Read(None, found.findings)
    if found.value.unit != "kg/m3" or not 0 < found.value.value < HEAVIEST:
        says = f"{shown(text)} is not the density of a metal."
        return Read(None, (stop("no-density", says, "Write it like `489.6 lb/ft3` or `7850 kg/m3`."),))
    return Read(found.value.value, found.findings)


HEAVIEST = 23_000.0
"""kg/m3: nothing is denser than osmium."""
