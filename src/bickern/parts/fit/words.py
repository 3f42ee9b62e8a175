"""When a thing is free, snug, will bind or will not go, and how much there is to spare: the tolerance of hand work."""

from dataclasses import replace
from functools import lru_cache

from bickern.measure.known import Known
from bickern.measure.source import COMMON_PRACTICE
from bickern.measure.units.say import say_length
from bickern.measure.units.words import INCH, Style, System
from bickern.parts.fit.result import FitWord
from bickern.parts.joint.holes import SAME, SWINGS_FROM, Clearance, hole_for_rivet, hole_for_screw

HAND_WORK = Known(INCH / 64, "m", COMMON_PRACTICE)
"""How far a size made by hand may be out: less to spare than this may be none. Nothing in print was found for it."""
FREE_FROM = SWINGS_FROM
"""From here on a thing moves: a size out by `HAND_WORK` and a burr of as much still leave room."""


def moving(margin: float) -> FitWord:
    """The word for what has to move, with `margin` [m] to spare: nothing to spare is no way through."""
    if margin <= SAME:
        return FitWord.NO
    if margin < HAND_WORK.value - SAME:
        return FitWord.BINDS
    return FitWord.SNUG if margin < FREE_FROM.value - SAME else FitWord.FREE


def turning_in(margin: float) -> FitWord:
    """The word for a pin: as thick as its hole it can be driven, and binds."""
    return FitWord.BINDS if abs(margin) <= SAME else moving(margin)


def riveted(size: float, hole: float) -> FitWord:
    """The word for a rivet of `size` [m] in a `hole` [m]: snug as long as it fills its hole (see `hole_for_rivet`)."""
    if size > hole + SAME:
        return FitWord.NO
    return FitWord.SNUG if hole <= hole_for_rivet(size) + SAME else FitWord.FREE


def tenoned(margin: float) -> FitWord:
    """The word for a tenon: it is meant to be snug, and is riveted over; it goes in at its hole's own size."""
    if margin < -SAME:
        return FitWord.NO
    return FitWord.SNUG if margin < FREE_FROM.value - SAME else FitWord.FREE


def screwed(size: float, hole: float) -> FitWord:
    """The word for a screw: free from the fine hole of ISO 273 on; by hand work where that has no row."""
    fine = hole_for_screw(size, Clearance.FINE)
    if fine is None or hole <= size + SAME:
        return turning_in(hole - size)
    return FitWord.FREE if hole >= fine - SAME else FitWord.BINDS


def said_margin(margin: float, style: Style) -> str:
    """How much to spare, or missing, as 64ths, thousandths and millimetres: `1/32 in (.034) / 0.9 mm`, `.003 in / ...`.

    The 64th is the nearest, however coarse: the thousandths beside it say the rest. Under half a 64th none is told.
    """
    size = abs(margin)
    inches, mm = _in_64ths(size, " in"), say_length(size, _in_mm(style), fit=True)
    return f"{inches} / {mm}" if style.first is System.INCH else f"{mm} / {inches}"


_TO_64THS = Style(inch_denominator=64)


@lru_cache(maxsize=8)  # the same few styles are asked for in every line of the table
def _in_mm(style: Style) -> Style:
    return replace(style, first=System.MM)


@lru_cache(maxsize=8)
def _fine(style: Style) -> Style:
    return replace(style, inch_denominator=style.fit_denominator, mm_step=style.fit_mm_step)


def said_number(size: float, style: Style) -> str:
    """The size [m] of a rivet, pin or screw; thousandths beside it where it is no whole 64th (a number screw)."""
    whole = abs(size - round(size / HAND_WORK.value) * HAND_WORK.value) < INCH / 2000
    return said_size(size, style) if whole or style.first is System.MM else said_short(size, style)


def _in_64ths(size: float, unit: str) -> str:
    thousandths = f"{size / INCH:.3f}".removeprefix("0")
    marks = round(size / HAND_WORK.value)
    if marks == 0:
        return f"{thousandths}{unit}" if size > SAME else f"0{unit}"
    fraction = say_length(marks * HAND_WORK.value, _TO_64THS, unit=False)
    return f"{fraction}{unit} ({thousandths})"


def said_size(size: float, style: Style) -> str:
    """A size of drift, drill or bar [m] in the shop's own system: `9/16`, `14.5 mm`."""
    return say_length(size, _fine(style), unit=style.first is not System.INCH)


def said_short(margin: float, style: Style) -> str:
    """An amount in the shop's own system alone: `1/32 (.028)`, `.003`, `0.7 mm`."""
    return _in_64ths(abs(margin), "") if style.first is System.INCH else say_length(abs(margin), style, fit=True)


def spare(margin: float, style: Style) -> str:
    """`1/32 in (.034) / 0.9 mm to spare`, or what is missing."""
    return f"{said_margin(margin, style)} {'to spare' if margin >= 0 else 'too little'}"
