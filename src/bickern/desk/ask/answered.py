"""Numbers made into an answer: each said in both systems, in the words of the shop."""

from collections.abc import Iterable
from typing import TYPE_CHECKING

from bickern.desk.answer import Answer, Inputs, Row
from bickern.measure.figure import Figure
from bickern.measure.units.say import (
    say_angle,
    say_area_both,
    say_both,
    say_decimal,
    say_mass_both,
    say_percent,
    say_temperature,
    say_volume_both,
)
from bickern.measure.units.words import FOOT, POUND, Style, System

if TYPE_CHECKING:
    from bickern.parts.bar.result import BarResult
    from bickern.parts.ring.spec import RingResult
    from bickern.parts.sheet.result import SheetResult

SHARE = "share"
"""The unit of a share of something: said in per cent, compared as a plain number."""
OWN_CHECKS = frozenset(("seam gap when rolled up", "triangles stray at most", "overall"))
"""Rows that nobody asks for at the anvil: checks of our own, and the outside of a bar that is straight."""


def piece_rows(piece: "BarResult | RingResult | SheetResult", style: Style) -> tuple[Row, ...]:
    """Rows for a whole piece, without those that are for a job's own checks."""
    from bickern.desk.piece_rows import rows_of

    return tuple(row for row in rows_of(piece, style) if row[0] not in OWN_CHECKS)


def answered(
    title: str,
    read: Inputs,
    figures: Iterable[Figure],
    style: Style,
    words: Iterable[Row] = (),
    *,
    hidden: Iterable[Figure] = (),
) -> Answer:
    """An answer from figures in their order, then rows of words; `hidden` ones are numbers without a row."""
    told = tuple(figures)
    rows = tuple((f.name, said_figure(f, style)) for f in told)
    return Answer(title, (*rows, *words), read.findings, (*told, *hidden))


def said_figure(figure: Figure, style: Style) -> str:
    """A figure in words by its unit, the shop's system first; lengths as fits."""
    value = figure.value
    match figure.unit:
        case "m":
            return say_both(value, style, fit=True)
        case "m2":
            return say_area_both(value, style)
        case "m3":
            return say_volume_both(value, style)
        case "kg":
            return say_mass_both(value, style)
        case "kg/m":
            return _pair(f"{_three(value / POUND * FOOT, style)} lb/ft", f"{_three(value, style)} kg/m", style)
        case "kg/m2":
            return _pair(f"{_three(value / POUND * FOOT**2, style)} lb/sq ft", f"{_three(value, style)} kg/sq m", style)
        case "rad":
            return say_angle(value, style)
        case "K":
            return say_temperature(value, style)
        case "share":
            return say_percent(value, style)
    return say_decimal(value, 4, style)


def _pair(inches: str, metres: str, style: Style) -> str:
    return f"{inches} ({metres})" if style.first is System.INCH else f"{metres} ({inches})"


def _three(value: float, style: Style) -> str:
    return say_decimal(value, 3 if value < 100 else 1, style)
