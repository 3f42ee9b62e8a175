"""Values as job-file text that reads back to the very same number."""

import math
from collections.abc import Callable
from decimal import Decimal
from fractions import Fraction

from bickern.book.told import TURNS, turn_of
from bickern.iron.section import Section, words_of
from bickern.measure.units.read import read_angle, read_length, read_number
from bickern.measure.units.words import INCH, Read, Shape, System
from bickern.parts.bar.tracks import Amount, Anchor, Blank, Place, SectionGoal


def length_text(metres: float, system: System | None) -> str:
    """The shortest way to write a length [m] that reads back exactly: the job's own unit, else inches, mm, metres."""
    for text in _lengths(metres, system):
        if read_length(text, system, signed=True).value == metres:
            return text
    return f"{_plain(metres)} m"


def _lengths(metres: float, system: System | None) -> list[str]:
    marks = metres / INCH * 64
    inches = mixed(Fraction(round(marks), 64)) if abs(marks - round(marks)) < 1e-6 else ""
    millimetres = _plain(round(metres * 1000, 6))
    bare = inches if system is System.INCH else millimetres if system is System.MM else ""
    return [t for t in (bare, f"{inches} in" if inches else "", f"{millimetres} mm") if t]


def mixed(value: Fraction) -> str:
    """`3 1/4`, `-3/8`, `4`."""
    whole, rest = divmod(abs(value), 1)
    parts = [str(whole)] if whole or not rest else []
    return ("-" if value < 0 else "") + " ".join([*parts, *([str(rest)] if rest else [])])


def _plain(value: float) -> str:
    """All digits that the value has, without a power of ten."""
    text = format(Decimal(repr(float(value))), "f")
    return text.rstrip("0").rstrip(".") if "." in text else text


def sizes_text(sizes: tuple[float, ...], system: System | None) -> str:
    """Sizes joined by x; a unit stands behind each of them or behind none."""
    said = [length_text(s, system) for s in sizes]
    if any(not _is_bare(t) for t in said):
        said = [length_text(s, None) for s in sizes]
    return " x ".join(said)


def _is_bare(text: str) -> bool:
    return not any(c.isalpha() for c in text)


def amount_text(amount: Amount, system: System | None) -> str:
    """A length, `rest` or `?`."""
    return amount.value if isinstance(amount, Blank) else length_text(amount, system)


def number_text(value: float) -> str:
    """A number or a share."""
    exact = mixed(Fraction(round(value * 64), 64))
    return exact if read_number(exact, signed=True).value == value else _plain(value)


def angle_text(angle: float) -> str:
    """An angle [rad] in degrees."""
    return _degrees(angle, read_angle)


def turn_text(turn: float) -> str:
    """Which way a bend turns [rad]."""
    named = next((name for name, value in TURNS.items() if value == turn), None)
    return named or _degrees(turn, turn_of)


def _degrees(angle: float, reader: Callable[[str], Read[float]]) -> str:
    """Degrees that read back to that angle; where no double does, the nearest."""
    degrees = math.degrees(angle)
    near = [round(degrees, n) for n in (0, 1, 2, 3, 6, 9, 12)] + [degrees]
    for way in (-math.inf, math.inf):
        step = degrees
        for _ in range(4):
            step = math.nextafter(step, way)
            near.append(step)
    said = next((t for d in near if reader(t := _plain(d)).value == angle), None)
    return said or _plain(degrees)


def section_text(section: Section, system: System | None) -> str:
    """A section as it is ordered."""
    return goal_text(SectionGoal(section), system)


def goal_text(goal: SectionGoal, system: System | None) -> str:
    """A section asked for, `?` where a size is open, `on edge` behind a flat that stands."""
    section = goal.section
    if section.shape is Shape.POINT:
        return "point"
    ending = f" {section.shape}" if section.shape is not Shape.FLAT else ""
    if goal.open_size == "both":
        return f"?{ending}"
    sizes = [s for s in words_of(section).sizes if s is not None]
    stands = section.shape in (Shape.FLAT, Shape.OVAL) and not goal.open_size and section.width < section.thick
    opened = {"width": 0, "thick": 1}.get(goal.open_size)
    known = sizes if opened is None else [s for i, s in enumerate(sizes) if i != opened]
    said = sizes_text(tuple(reversed(known) if stands else known), system).split(" x ")
    if opened is not None:
        said.insert(opened, "?")
    return " x ".join(said) + ending + (" on edge" if stands else "")


def place_text(place: Place, system: System | None) -> str:
    """A place along the bar."""
    if place.anchor is Anchor.DATUM:
        return length_text(place.plus, system)
    if place.anchor is Anchor.END:
        return (
            f"{length_text(-place.plus, system)} from the end" if place.plus < 0 else _with(place.plus, "end", system)
        )
    return _with(place.plus, f"{place.anchor} {place.name}", system)


def _with(plus: float, head: str, system: System | None) -> str:
    if plus == 0:
        return head
    return f"{head} {'+' if plus > 0 else '-'} {length_text(abs(plus), system)}"
