"""Numbers as a smith writes them, read exactly: `3`, `.375`, `3/8`, `3 1/4`, `3-1/4`."""

import re
from dataclasses import dataclass
from fractions import Fraction

from bickern.measure.finding import Finding, stop, warn
from bickern.measure.units.text import shown
from bickern.measure.units.words import Read

_NUMBER = re.compile(r"([+-]?)\s?(?:([0-9]+)[ -])?([0-9]+)/([0-9]+)|([+-]?)\s?([0-9]+\.?[0-9]*|\.[0-9]+)", re.ASCII)
_SPACED_DASH = re.compile(r"[0-9] - ?[0-9]|[0-9] ?- [0-9]")
_COMMA = re.compile(r"[0-9],[0-9]")
_POWER = re.compile(r"[0-9]e[+-]?[0-9]")


@dataclass(frozen=True, slots=True)
class Number:
    """An exact number, the way it was written, and whether it was written as a fraction (`3/8`, `1 1/2`)."""

    value: Fraction
    written: str
    is_fraction: bool


def number_in(text: str) -> Read[Number]:
    """One number in plain text; improper fractions, commas and spaced dashes are asked about, never guessed."""
    found = _NUMBER.fullmatch(text)
    if found is None:
        return Read(None, (_why_not(text),))
    sign, whole, top, bottom, plain_sign, plain = found.groups()
    if plain is not None:
        value = Fraction(int(plain)) if plain.isdigit() else Fraction(plain.rstrip("."))
        return Read(Number(-value if plain_sign == "-" else value, text, False))
    return _fraction(text, sign, whole, top, bottom)


def _fraction(text: str, sign: str, whole: str | None, top: str, bottom: str) -> Read[Number]:
    if int(bottom) == 0:
        return Read(None, (stop("zero-denominator", f"{shown(text)} divides by nothing.", "Write it as `3/8`."),))
    fault = _improper(text, whole, top, bottom) if int(top) >= int(bottom) else None
    if fault is not None and fault.stops:
        return Read(None, (fault,))
    value = Fraction(int(top), int(bottom)) + (int(whole) if whole else 0)
    number = Number(-value if sign == "-" else value, text, True)
    return Read(number, (fault,) if fault else ())


def _improper(text: str, whole: str | None, top: str, bottom: str) -> Finding:
    """`11/2` is most likely `1 1/2` with the space lost, but may be 5 1/2; `3/2` has only one reading."""
    value = Fraction(int(top), int(bottom))
    as_mixed = mixed(value)
    if whole is None and len(top) == 1:
        return warn("improper-fraction", f"{shown(text)} is more than a whole; it is read as {as_mixed}.")
    readings = [f"`{top[:i]} {top[i:]}/{bottom}`" for i in range(1, len(top)) if 0 < int(top[i:]) < int(bottom)]
    choice = " or ".join([*readings, f"`{as_mixed}`"] if whole is None else [f"`{mixed(value + int(whole))}`"])
    return stop("improper-fraction", f"{shown(text)} can be read in more ways than one.", f"Write {choice}.")


def mixed(value: Fraction) -> str:
    """`11/2` as `5 1/2`, `-3/8` as `-3/8`, `4` as `4`."""
    sign = "-" if value < 0 else ""
    whole, rest = divmod(abs(value.numerator), value.denominator)
    if rest == 0:
        return f"{sign}{whole}"
    part = f"{rest}/{value.denominator}"
    return f"{sign}{whole} {part}" if whole else f"{sign}{part}"


def _why_not(text: str) -> Finding:
    if _COMMA.search(text):
        dotted = text.replace(",", ".", 1)
        return stop(
            "decimal-comma",
            f"{shown(text)} has a comma: it could be a decimal comma or a thousands mark.",
            f"Write `{dotted}` with a point, or the number without any mark.",
        )
    if _SPACED_DASH.search(text):
        return stop(
            "spaced-dash",
            f"{shown(text)} has a dash between spaces: it could join a fraction or take something away.",
            "Write a mixed number with a space, as `3 1/4`, or work out the difference.",
        )
    if _POWER.search(text):
        return stop("power-of-ten", f"{shown(text)} is written with a power of ten.", "Write all the digits.")
    return stop("not-a-number", f"{shown(text)} cannot be read as a number.", "Write `3/8`, `3 1/4`, `.375` or `10`.")
