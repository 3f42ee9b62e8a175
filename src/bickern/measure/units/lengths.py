"""Lengths and sizes: `3/8`, `3 1/4 in`, `3-1/4"`, `1' 6"`, `8 mm`, `48 x 24`."""

import re
from dataclasses import dataclass
from fractions import Fraction

from bickern.measure.finding import Finding, Weight, stop, warn
from bickern.measure.units.numbers import Number, mixed, number_in
from bickern.measure.units.text import plain_text, shown, tidied
from bickern.measure.units.words import Read, System

_INCH = Fraction(127, 5000)
_MM = Fraction(1, 1000)
LONGEST_LENGTH = 1000.0
"""Metres: nothing longer comes out of a small shop."""
SHORTEST_LENGTH = 1e-7
_TAPE = frozenset((2, 4, 8, 16, 32, 64, 128))

_WORDS: dict[str, tuple[Fraction, System]] = {
    **dict.fromkeys(('"', "in", "ins", "inch", "inches"), (_INCH, System.INCH)),
    **dict.fromkeys(("'", "ft", "foot", "feet"), (12 * _INCH, System.INCH)),
    "thou": (_INCH / 1000, System.INCH),
    **dict.fromkeys(("mm", "millimetre", "millimetres", "millimeter", "millimeters"), (_MM, System.MM)),
    **dict.fromkeys(("cm", "centimetre", "centimetres", "centimeter", "centimeters"), (10 * _MM, System.MM)),
    **dict.fromkeys(("m", "metre", "metres", "meter", "meters"), (1000 * _MM, System.MM)),
}
_BARE = {System.INCH: _INCH, System.MM: _MM}
_WITH_UNIT = re.compile(r"""(.*?)\s?(["']|[a-z]+)\.?""")
_FEET = re.compile(r"""([+-]?)\s?(.*?)\s?(?:'|ft\.?|feet|foot)\s?-?\s?([0-9. /-]*[0-9.])\s?("|[a-z]+\.?)?""")
_REMARK = re.compile(r"(.+?) ?\(([^()]*)\)")
_DIGIT = re.compile(r"[0-9]")
_TIMES = re.compile(r"\s*(?<![a-z])x(?![a-z])\s*")


@dataclass(frozen=True, slots=True)
class _Sized:
    """A length before its range is looked at: exact metres."""

    metres: Fraction


def read_length(text: object, system: System | None, *, signed: bool = False) -> Read[float]:
    """A length in metres; a bare number means the job's `system`. Zero and less are findings unless `signed`."""
    plain = plain_text(text)
    if plain.value is None:
        return Read(None, plain.findings)
    return length_in(plain.value, system, signed=signed)


def read_sizes(text: object, system: System | None) -> Read[tuple[float, ...]]:
    """`48 x 24`, `3/4 x 1 3/8`, `600 x 300 mm` (the last unit serves all): sizes in metres, in the order written."""
    plain = plain_text(text)
    if plain.value is None:
        return Read(None, plain.findings)
    found = sizes_in(plain.value, system)
    if found.value is None:
        return Read(None, found.findings)
    return Read(tuple(s for s in found.value if s is not None), found.findings)


def length_in(text: str, system: System | None, *, signed: bool = False, zero: bool = False) -> Read[float]:
    """A length from plain text (see `text.plain_text`); `zero` lets a 0 through (a chisel edge)."""
    remark = _REMARK.fullmatch(text)
    if remark is not None:
        return _with_remark(remark.group(1), remark.group(2), system, signed)
    feet = _FEET.fullmatch(text)
    found = _one_size(text, system) if feet is None else _feet_and_inches(feet, text)
    return _in_range(found, text, signed, zero or signed)


def _one_size(text: str, system: System | None) -> Read[_Sized]:
    body, unit = split_unit(text)
    if not _DIGIT.search(text):
        says = f"{shown(text)} cannot be read as a size."
        return Read(None, (stop("not-a-size", says, "Write `3/8 in`, `3 1/4` or `10 mm`."),))
    if unit is not None and unit not in _WORDS:
        return Read(None, (_unknown_unit(text, unit),))
    number = number_in(body)
    if number.value is None:
        return Read(None, number.findings)
    named = _WORDS[unit] if unit is not None else None
    findings = (*number.findings, *_size_faults(number.value, system, named))
    if any(f.stops for f in findings):
        return Read(None, findings)
    return Read(_Sized(number.value.value * (named[0] if named else _BARE[system or System.INCH])), findings)


def split_unit(text: str) -> tuple[str, str | None]:
    """`3/8 in` -> (`3/8`, `in`); `3/8` -> (`3/8`, None)."""
    found = _WITH_UNIT.fullmatch(text)
    return (found.group(1), found.group(2)) if found is not None else (text, None)


def _size_faults(number: Number, system: System | None, named: tuple[Fraction, System] | None) -> tuple[Finding, ...]:
    if named is None and system is None:
        return (_no_units(number.written),)
    faults = [_lost_slash(number, named is None)] if (named[1] if named else system) is System.INCH else []
    if number.is_fraction:
        faults.append(_fraction_fault(number, named[1] if named else system, named is None))
    return tuple(f for f in faults if f is not None)


def _no_units(written: str) -> Finding:
    return stop(
        "no-units",
        f"{shown(written)} could be inches or millimetres: the job does not say.",
        f"Write `units: in` or `units: mm` at the top of the job, or `{written} in` / `{written} mm` here.",
    )


def _lost_slash(number: Number, bare: bool) -> Finding | None:
    """`3.8` for `3/8`. None of .2 .4 .8 .16 .32 .64 is on an inch tape, so nothing that is read off one is stopped.

    Two ways out are left: the fraction, or one more nought (`3.80 in`), which nobody writes by a slip.
    """
    top, dot, bottom = number.written.lstrip("+- ").partition(".")
    if not dot or bottom not in ("2", "4", "8", "16", "32", "64") or not top.isdigit():
        return None
    if int(top) % 2 == 0 or int(top) >= int(bottom):
        return None
    return Finding(
        "looks-like-fraction",
        f"{shown(number.written)} inches is not on a tape and looks like {top}/{bottom}.",
        f"Write `{top}/{bottom}`, or `{top}.{bottom}0 in` if you mean {top}.{bottom} inches.",
        Weight.STOP if bare else Weight.WARN,
    )


def _fraction_fault(number: Number, system: System | None, bare: bool) -> Finding | None:
    if system is System.MM:
        return _metric_fraction(number.written, bare)
    if number.value.denominator == 1 or number.value.denominator in _TAPE:
        return None
    inches = f"{float(number.value):.4g} in"
    return warn(
        "odd-denominator",
        f"{shown(number.written)} is not a fraction that a tape shows; it is read as {inches}.",
        "Write halves, quarters, 8ths, 16ths, 32nds or 64ths, or a decimal.",
    )


def _metric_fraction(written: str, bare: bool) -> Finding:
    if bare:
        return stop(
            "fraction-in-mm-job",
            f"{shown(written)} is a fraction in a job that is in millimetres.",
            f"Write `{written} in` if inches are meant, or the millimetres as a decimal.",
        )
    return warn("fraction-of-mm", f"{shown(written)} is a fraction of a metric unit; it is read as written.")


def _unknown_unit(text: str, unit: str) -> Finding:
    return stop(
        "unknown-unit",
        f"{shown(text)}: `{unit}` is not a unit of length that is known here.",
        "Write in, ft, mm, cm or m behind the number, or nothing for the job's own unit.",
    )


def _feet_and_inches(found: "re.Match[str]", text: str) -> Read[_Sized]:
    sign, feet_text, inches_text, mark = found.groups()
    if mark is not None and _WORDS.get(mark.rstrip("."), (0, System.MM))[0] != _INCH:
        return Read(None, (_unknown_unit(text, mark),))
    feet, inches = number_in(feet_text), number_in(inches_text)
    findings = (*feet.findings, *inches.findings)
    if feet.value is None or inches.value is None:
        return Read(None, findings)
    total = 12 * feet.value.value + inches.value.value
    understood = f"{shown(text)} is read as {mixed(total)} in"
    if inches.value.value >= 12:
        findings += (warn("feet-and-inches", f"{understood}: the inches are more than a foot."),)
    elif mark is None:
        findings += (warn("feet-and-inches", f"{understood}.", f"Write `{feet_text}' {inches_text}\"` to be sure."),)
    return Read(_Sized((-total if sign == "-" else total) * _INCH), findings)


def _in_range(found: Read[_Sized], text: str, signed: bool, zero: bool) -> Read[float]:
    if found.value is None:
        return Read(None, found.findings)
    value = float(found.value.metres) if abs(found.value.metres) < 10**15 else LONGEST_LENGTH * 2
    fault = _range_fault(value, text, signed, zero)
    return Read(value, found.findings) if fault is None else Read(None, (*found.findings, fault))


def _range_fault(value: float, text: str, signed: bool, zero: bool) -> Finding | None:
    if value == 0 and not zero:
        return stop("zero-size", f"{shown(text)} is nothing: a size is wanted here.", "Write a size above 0.")
    if value < 0 and not signed:
        return stop("negative-size", f"{shown(text)} is less than nothing.", "Write the size without a minus.")
    if abs(value) > LONGEST_LENGTH:
        return stop("too-big", f"{shown(text)} is longer than a kilometre.", "Look for a slipped digit or unit.")
    if 0 < abs(value) < SHORTEST_LENGTH:
        return stop("too-small", f"{shown(text)} is too small to be meant.", "Look for a slipped digit or unit.")
    return None


def _with_remark(text: str, remark: str, system: System | None, signed: bool) -> Read[float]:
    """`3 1/4 in (82.5 mm)`, as this tool prints: the first size counts, the second is only held against it."""
    first = length_in(text, system, signed=signed)
    unit = split_unit(remark)[1]
    second = length_in(remark, System.INCH if unit is None else system, signed=True)
    if first.value is None or second.value is None:
        return first if first.value is None else Read(None, second.findings)
    if abs(first.value - second.value) <= 0.03 * abs(first.value) + 0.0008:
        return first
    says = f"{shown(text)} and {shown(remark)} are two sizes; the first one is used."
    return Read(first.value, (*first.findings, warn("two-sizes", says, "Strike out the one that is wrong.")))


def sizes_in(text: str, system: System | None, *, open_allowed: bool = False) -> Read[tuple[float | None, ...]]:
    """Sizes joined by `x` from plain text; `open_allowed` lets a `?` (a size left open, None) and a 0 through."""
    parts, fault = _with_shared_unit(_TIMES.split(text), system)
    if fault is not None:
        return Read(None, (fault,))
    sizes: list[float | None] = []
    findings: list[Finding] = []
    for part in parts:
        if open_allowed and part == "?":
            sizes.append(None)
            continue
        read = length_in(part, system, zero=open_allowed)
        findings.extend(read.findings)
        sizes.append(read.value)
    bad = any(f.stops for f in findings)
    return Read(None if bad else tuple(sizes), tidied(findings))


def _with_shared_unit(parts: list[str], system: System | None) -> tuple[list[str], Finding | None]:
    """A unit behind the last size serves the bare ones before it; a unit in front only leaves the last in doubt."""
    units = [split_unit(p)[1] for p in parts]
    last = units[-1]
    if last is not None:
        return [f"{p} {last}" if u is None and p != "?" else p for p, u in zip(parts, units, strict=True)], None
    named = [u for u in units if u in _WORDS]
    if parts[-1] == "?" or not named or (system is not None and _WORDS[named[-1]][0] == _BARE[system]):
        return parts, None
    says = f"{shown(' x '.join(parts))} names a unit for one size only."
    return parts, stop("unit-on-one-size", says, f"Write `{' x '.join(parts)} {named[-1]}` or name both units.")
