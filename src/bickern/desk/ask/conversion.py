"""One measure in both systems: a length, a mass, an angle, a heat, or any other that carries its unit."""

import re
from collections.abc import Callable
from math import floor, log10

from bickern.desk.answer import Answer, Row
from bickern.desk.ask.answered import said_figure
from bickern.desk.ask.question import Asked, Question, Word
from bickern.measure.figure import Figure
from bickern.measure.finding import note, stop
from bickern.measure.units.measured import read_measured
from bickern.measure.units.read import read_angle, read_length, read_mass, read_number, read_temperature
from bickern.measure.units.say import say_both, say_decimal
from bickern.measure.units.scales import SCALES
from bickern.measure.units.words import Read, Style

NAMES = {
    "m": "length",
    "kg": "mass",
    "rad": "angle",
    "K": "temperature",
    "m2": "area",
    "m3": "volume",
    "kg/m": "weight a length",
    "kg/m2": "weight an area",
    "kg/m3": "density",
}
"""What a measure is called, by its coherent unit."""
ROWS: dict[str, tuple[tuple[str, str], ...]] = {
    "m": (("inches", "in"), ("millimetres", "mm")),
    "kg": (("pounds", "lb"), ("ounces", "oz"), ("kilograms", "kg")),
    "rad": (("degrees", "deg"), ("turns", "turn"), ("radians", "rad")),
    "K": (("Fahrenheit", "F"), ("Celsius", "C"), ("Kelvin", "K")),
    "m2": (("square inches", "in2"), ("square feet", "ft2"), ("square millimetres", "mm2"), ("square metres", "m2")),
    "m3": (
        ("cubic inches", "in3"),
        ("US gallons", "gal(US)"),
        ("UK gallons", "gal(UK)"),
        ("cubic feet", "ft3"),
        ("litres", "l"),
    ),
    "kg/m": (("pounds a foot", "lb/ft"), ("kilograms a metre", "kg/m")),
    "kg/m2": (
        ("pounds a square foot", "lb/ft2"),
        ("ounces a square foot", "oz/ft2"),
        ("kilograms a square metre", "kg/m2"),
    ),
    "kg/m3": (
        ("pounds a cubic foot", "lb/ft3"),
        ("pounds a cubic inch", "lb/in3"),
        ("kilograms a cubic metre", "kg/m3"),
    ),
}
"""Rows to show for each kind of measure, and the unit of each."""
DIGITS = 6
"""Digits that a row shows at least."""


_FOREIGN = frozenset(("no-units", "unknown-unit", "no-degrees", "no-such-unit", "not-a-size", "not-a-number"))
"""Findings by which a reader says that the words are none of its own."""


_AREA_OR_VOLUME = re.compile(r"\S.* (?:in|ft|yd|mm|cm|m)[23]", re.IGNORECASE)
"""`450 ft2` is an area; `5ft2`, without a space, is five foot two."""


def convert(asked: Asked) -> Answer:
    """A measure in both systems, exact; a length also as the tape reads it. A bare number is a length."""
    text, style = asked.text("what"), asked.shop.style
    if either := _of_either(text):
        return _both_countries(either, style)
    read = _read(asked)
    if read.value is None:
        return Answer("Convert", (), read.findings)
    figure = read.value
    tape = (("on the tape", say_both(figure.value, style)),) if figure.unit == "m" else ()
    whole = () if figure.unit in {"m", "K", "rad", "kg/m3"} else ((figure.name, said_figure(figure, style)),)
    return Answer(text, (*tape, *whole, *_rows(figure, style)), read.findings, (figure,))


_EITHER = re.compile(r"(.*[0-9]\.?) ?(gallon|gal|pint|pt|quart|qt|fl\.? ?oz)s?\.?", re.IGNORECASE)
_SPELT = {"gallon": "gal", "pt": "pint", "qt": "quart"}


def _of_either(text: str) -> tuple[tuple[str, Figure], ...]:
    """A measure that the US and the UK call alike, in both; nothing where it is no such measure."""
    found = _EITHER.fullmatch(text.strip())
    if found is None:
        return ()
    plain = found[2].lower().replace(" ", "").replace(".", "")
    unit = _SPELT.get(plain, plain)
    reads = {country: read_measured(f"{found[1]} {unit}({country})").value for country in ("US", "UK")}
    return tuple((c, Figure(f"volume, {c}", r.value, r.unit)) for c, r in reads.items() if r and r.value > 0.0)


def _both_countries(either: tuple[tuple[str, Figure], ...], style: Style) -> Answer:
    rows = tuple((f"as {c}: {name}", value) for c, figure in either for name, value in _rows(figure, style))
    says = "That measure is one thing in the US and another in the UK: both are told."
    finding = note("us-or-uk", says, "Write it like `1 gal(US)` or `1 gal(UK)`.")
    return Answer("Convert", rows, (finding,), tuple(figure for _, figure in either))


def _read(asked: Asked) -> Read[Figure]:
    """What was typed, by the first reader that knows its unit; where none does, that no unit is known."""
    text = asked.text("what")
    if _AREA_OR_VOLUME.fullmatch(text.strip()):
        return _measured(text)
    length = read_length(text, asked.system, signed=True)
    if read_number(text, signed=True).value is not None or _is_own(length):
        return _named(length, "m")
    for unit, reader in _READERS:
        read = reader(text)
        if _is_own(read):
            return _named(read, unit)
    return _measured(text)


def _measured(text: str) -> Read[Figure]:
    measured = read_measured(text)
    if measured.value is None:
        return Read(None, measured.findings)
    if measured.value.value <= 0.0 or measured.value.unit not in NAMES:
        return Read(
            None, (stop("nothing-to-convert", f"“{text}” is nothing that has another measure", "look at the unit"),)
        )
    return _named(Read(measured.value.value, measured.findings), measured.value.unit)


def _is_own(read: Read[float]) -> bool:
    return read.value is not None or not any(f.name in _FOREIGN for f in read.findings)


def _named(read: Read[float], unit: str) -> Read[Figure]:
    return Read(None if read.value is None else Figure(NAMES[unit], read.value, unit), read.findings)


_READERS: tuple[tuple[str, Callable[[str], Read[float]]], ...] = (
    ("kg", read_mass),
    ("K", read_temperature),
    ("rad", lambda text: read_angle(text, signed=True)),
)


def _rows(figure: Figure, style: Style) -> tuple[Row, ...]:
    return tuple((name, _digits(SCALES[unit].printed(figure.value), style)) for name, unit in ROWS[figure.unit])


def _digits(value: float, style: Style) -> str:
    """A number with so many digits that converting it back gives what was typed."""
    before = floor(log10(abs(value))) + 1 if value else 1
    return say_decimal(value, max(2, DIGITS - before), style)


QUESTIONS = (
    Question(
        "convert",
        "A length, mass, angle, heat or other measure in both systems.",
        (Word("what", "such as '3 1/4 in', '82 mm', '2 lb 3 oz', '1450 F', '1/4 turn', '144 sq in', '2 gal(US)'"),),
        convert,
        "'3 1/4 in'",
    ),
)
