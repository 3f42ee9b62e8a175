"""How long hands take: blows from energy, and rows of seconds for everything that is not counted in blows.

None of these seconds and blows was held against a clock: they are from memory or common practice, each with its span,
and the smith's own count replaces them. SI: metres, seconds, joules.
"""

from dataclasses import dataclass

from bickern.making.shop import Hand
from bickern.making.work.result import NO_TIME
from bickern.measure.source import Kind, Source
from bickern.measure.spread import Spread, within

WHY_BLOWS = "what a blow does is not measured: count yours once"
WHY_HANDS = "how fast hands work is not measured: time yours once"
BLOWS_SPAN = 1.6
"""Factor both ways within which a count of blows is likely to lie (our estimate; nothing printed bears it out)."""

_MEMORY = Source("", "times at bench and anvil", None, "not timed", Kind.MEMORY)
_BITE = Source(
    "A. Tomlinson, J. D. Stringer", "Spread and elongation in flat tool forging", 1959,
    "what spreads at bites half as wide as the bar, 1.44", Kind.MEMORY,
)  # fmt: skip
_WHOLE_BLOW = Source(
    "", "share of a blow that presses, bends or swells, 0.35 to 0.7, against 0.35 of drawing", None, "", Kind.MEMORY
)


@dataclass(frozen=True, slots=True)
class Pace:
    """Seconds of one kind of handwork: `once` [s] and `each` [s per unit of `of`], within `low` and `high` times it."""

    key: str
    once: float
    each: float
    of: str
    low: float
    high: float
    source: Source = _MEMORY


PACES: dict[str, Pace] = {
    pace.key: pace
    for pace in (
        Pace("mark", 20.0, 15.0, "mark", 0.5, 2.5),
        Pace("saw", 20.0, 0.4e6, "m2 cut: hacksaw 0.8, power saw 0.15 s/mm2", 0.35, 2.5),
        Pace("upset", 4.0, 0.0, "", 0.5, 2.0),
        Pace("draw", 2.0, 0.0, "", 0.5, 2.0),
        Pace("taper", 2.0, 0.0, "", 0.5, 2.0),
        Pace("spread", 2.0, 0.0, "", 0.5, 2.0),
        Pace("shoulder", 4.0, 0.0, "", 0.5, 2.0),
        Pace("split", 6.0, 0.0, "", 0.5, 2.0),
        Pace("punch", 4.0, 4.0, "hole: found, turned over, punched back", 0.5, 2.0),
        Pace("slit", 4.0, 4.0, "hole", 0.5, 2.0),
        Pace("drift", 3.0, 4.0, "hole", 0.5, 2.0),
        Pace("drill", 60.0, 0.06e9, "m3 drilled out", 0.5, 2.5),
        Pace("bend", 4.0, 0.0, "", 0.5, 2.0),
        Pace("cold bend", 10.0, 6.0, "quarter turn in vise or fork", 0.5, 2.5),
        Pace("curl", 4.0, 6.0, "turn, looked at", 0.5, 2.5),
        Pace("hoop", 10.0, 20.0, "turn, looked at", 0.5, 2.5),
        Pace("scroll", 4.0, 12.0, "turn", 0.5, 2.5),
        Pace("twist", 8.0, 4.5, "turn, 3 to 6 s", 0.6, 2.0),
        Pace("scarf", 4.0, 0.0, "", 0.5, 2.0),
        Pace("weld", 4.0, 0.0, "", 0.5, 2.0),
        Pace("straighten", 4.0, 20.0, "m of bar", 0.5, 2.5),
        Pace("cut off", 6.0, 0.0, "", 0.5, 2.0),
        Pace("file", 20.0, 0.35e9, "m3 filed off: about 10 cm3 an hour", 0.4, 3.0),
        Pace("brush", 2.0, 250.0, "m2 of skin", 0.5, 2.5),
    )
}
"""Rows by operation. Where blows are counted, the row holds what is beside them: finding the mark, turning, looking."""


@dataclass(frozen=True, slots=True)
class Reach:
    """How much more of a blow an operation takes than drawing on the flat face, `times`, and why in words."""

    times: float
    why: str
    source: Source


_DRAWN = Reach(1.0, "drawing on the flat face is what the useful share of a blow is told for", _WHOLE_BLOW)
_PRESSED = Reach(1.6, "nothing spreads that must be forged back", _WHOLE_BLOW)
REACHES: dict[str, Reach] = {
    "spread": Reach(1.5, "what spreads is wanted here", _BITE),
    "upset": _PRESSED,
    "punch": _PRESSED,
    "slit": _PRESSED,
    "drift": _PRESSED,
    "split": _PRESSED,
    "bend": _PRESSED,
    "curl": _PRESSED,
    "hoop": _PRESSED,
    "scroll": _PRESSED,
    "cut off": _PRESSED,
}
"""Operations that take more of a blow than drawing does; all others count as drawing."""


def blows_for(energy: float, hand: Hand, does: str) -> Spread:
    """Blows for `energy` [J] of ideal work at this hammer; x/: 1.6, not validated. No energy, no blows."""
    if energy <= 0.0:
        return NO_TIME
    blow = hand.blow * REACHES.get(does, _DRAWN).times
    return within(energy / blow, 1 / BLOWS_SPAN, BLOWS_SPAN, WHY_BLOWS)


def hands(key: str, amount: float = 0.0) -> Spread:
    """Seconds of handwork beside the blows: the row `key` with `amount` of its unit."""
    pace = PACES[key]
    return within(pace.once + pace.each * amount, pace.low, pace.high, WHY_HANDS)


def struck(blows: Spread, hand: Hand) -> Spread:
    """Seconds of hammering for so many blows at this smith's pace."""
    return blows.times(1 / hand.pace)
