"""What stands in one cell of a book: a number and the room of its last place, an allowance, a pi, a unit."""

import re
from dataclasses import dataclass
from difflib import get_close_matches
from fractions import Fraction
from math import pi

from bickern.measure.finding import Finding, stop
from bickern.measure.units.numbers import Number, number_in
from bickern.measure.units.scales import SCALES
from bickern.measure.units.text import plain_text, shown
from bickern.measure.units.words import Read

LEAST_PI, MOST_PI = 3.0, 3.5
"""No book takes a pi outside these."""
QUARTERS = ("0.7854", ".7854")
"""A quarter of pi, as tables of areas print it."""
KINDS = {
    "": "a plain number",
    "m": "a length",
    "m2": "an area",
    "m3": "a volume",
    "kg": "a weight",
    "kg/m": "a weight by length",
    "kg/m2": "a weight by area",
    "kg/m3": "a density",
    "rad": "an angle",
    "K": "a temperature",
}
"""What is told in each coherent SI unit."""

_THOUSANDS = re.compile(r"[+-]?[1-9][0-9]{0,2}(?:,[0-9]{3})+(?:\.[0-9]+)?", re.ASCII)
_ONE_COMMA = re.compile(r"[+-]?[0-9]*,[0-9]+", re.ASCII)
_POWER = re.compile(r"[+-]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)e[+-]?[0-9]{1,2}", re.ASCII)
_RATIO = re.compile(r"[0-9]{1,9}/0*[1-9][0-9]{0,8}", re.ASCII)


@dataclass(frozen=True, slots=True)
class Room:
    """How far the true figure may lie `below` and `above` the print; `bound`: by an allowance to one side."""

    below: float
    above: float
    bound: bool = False


def number(text: str) -> Read[Number]:
    """A number as printed; a comma is asked about, for it can be a decimal comma or stand between thousands."""
    plain = plain_text(text)
    if plain.value is None:
        return Read(None, plain.findings)
    return Read(None, (_comma(plain.value),)) if "," in plain.value else number_in(plain.value)


def _comma(text: str) -> Finding:
    bare, dotted = text.replace(",", ""), text.replace(",", ".")
    if _THOUSANDS.fullmatch(text):
        either = (
            f"`{bare}`" if bare.count(".") or dotted.count(".") > 1 else f"`{bare}`, or `{dotted}` if that is meant"
        )
        return stop("thousands-mark", f"{shown(text)} has a comma as if between thousands.", f"Write {either}.")
    says = f"{shown(text)} has a comma."
    way = f": `{dotted}`" if _ONE_COMMA.fullmatch(text) else ", and thousands without a mark"
    return stop("decimal-comma", says, f"Write decimals with a point{way}.")


def own_room(figure: Number) -> Room:
    """Half a unit of the last printed place; of a fraction, half of one of its parts."""
    _, slash, parts = figure.written.rpartition("/")
    half = 0.5 / int(parts) if slash else 0.5 * 10.0 ** -len(figure.written.partition(".")[2])
    return Room(half, half)


def allowance(text: str) -> Read[Room]:
    """Room that a row gives itself: `0.01` either way, `+1/8` where the print is larger, `-0.2` where it is smaller."""
    plain = (plain_text(text).value or "").replace("+ ", "+").replace("- ", "-")
    read = Read(Fraction(plain)) if _POWER.fullmatch(plain) else _value(number(text))
    if read.value is None:
        return Read(None, read.findings)
    size = abs(float(read.value))
    sides = (0.0 if plain.startswith("-") else size, 0.0 if plain.startswith("+") else size)
    return Read(Room(*sides, bound=plain.startswith(("+", "-"))), read.findings)


def _value(read: Read[Number]) -> Read[Fraction]:
    return Read(None if read.value is None else read.value.value, read.findings)


def pi_of(text: str) -> Read[float]:
    """The pi that a book takes: `3.14`, `22/7`, `3 1/7`, or its quarter `0.7854`; the true one where none is told."""
    if not text:
        return Read(pi)
    if text in QUARTERS:
        return Read(4 * float(text))
    read = Read(Fraction(text)) if _RATIO.fullmatch(text) else _value(number(text))
    if read.value is None or LEAST_PI <= read.value <= MOST_PI:
        return Read(None if read.value is None else float(read.value), read.findings)
    return Read(None, (stop("no-pi", f"{shown(text)} is no pi that a book takes.", "Write `3.14`, `22/7`, `3.1416`."),))


def unit_of(text: str) -> Read[str]:
    """The name of a unit, large and small letters alike."""
    found = text if text in SCALES else _FOLDED.get(text.casefold())
    if found is not None:
        return Read(found)
    near = ", ".join(f"`{name}`" for name in _near_units(text))
    way = f"Nearest: {near}." if near else "`in`, `mm`, `lb`, `kg`, `lb/ft`, `in2`, `deg` are some."
    says = f"{shown(text)} is not a unit that is known."
    return Read(None, (stop("no-such-unit", says, f"{way} `bickern ask book --help` lists all."),))


_FOLDED = {name.casefold(): name for name in SCALES}
_SPELT = {
    **dict.fromkeys(('"', "ins", "inch", "inches"), "in"),
    **dict.fromkeys(("'", "foot", "feet"), "ft"),
    **dict.fromkeys(("lbs", "pound", "pounds"), "lb"),
    **dict.fromkeys(("degree", "degrees", "°"), "deg"),
    **dict.fromkeys(("litre", "liter", "litres", "liters"), "l"),
    **dict.fromkeys(("turns", "rev"), "turn"),
    "ounce": "oz",
    "ounces": "oz",
    "yard": "yd",
    "yards": "yd",
    "°f": "F",
    "°c": "C",
    "percent": "%",
    "metre": "m",
    "meter": "m",
    "metres": "m",
    "meters": "m",
}
_POWERS = (("sq", "2"), ("square", "2"), ("cu", "3"), ("cubic", "3"))


def _near_units(text: str) -> list[str]:
    """Names of units that may be meant, the likeliest first."""
    fold = text.casefold().replace("²", "2").replace("³", "3").replace(" per ", "/")
    spelt = "/".join(_spelt(part.strip()) for part in fold.split("/"))
    begins = [name for name in SCALES if name and spelt and name.startswith((f"{spelt}/", f"{spelt}("))]
    near = [_FOLDED[n] for n in get_close_matches(spelt, list(_FOLDED), 4, 0.5) if n]
    return list(dict.fromkeys([_FOLDED[spelt]] if spelt in _FOLDED else begins + near))[:4]


def _spelt(part: str) -> str:
    """One part of a unit as it is named here: `sq. inches` is `in2`."""
    before, _, name = part.replace(".", "").rpartition(" ")
    power = dict(_POWERS).get(before, "")
    return f"{_SPELT.get(name, name)}{power}".casefold()


def units_told_in(unit: str) -> tuple[str, ...]:
    """Names of the printed units whose coherent SI unit is that one."""
    return tuple(name for name, scale in SCALES.items() if scale.unit == unit and name)


def kinds() -> tuple[tuple[str, str], ...]:
    """What can be told, and in which units, in words."""
    return tuple((kind.partition(" ")[2], _units_in_words(unit)) for unit, kind in KINDS.items())


def _units_in_words(unit: str) -> str:
    """Names of units; those put together from two are not listed one by one."""
    names = units_told_in(unit)
    by = sorted({name.partition("/")[2] for name in names if "/" in name}, key=list(SCALES).index)
    weights = dict.fromkeys(name.partition("/")[0] for name in names)
    return f"{', '.join(weights)} by {', '.join(by)}, as lb/{by[1]}" if by else ", ".join(names)
