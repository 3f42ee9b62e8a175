"""How many blows a work takes, and how long they last: from its ideal energy and the smith's own hammer. SI: joules.

No count of blows was held against an anvil: each comes with its span, and the smith's own count replaces it.
"""

from dataclasses import dataclass

from bickern.making.shop import Hand
from bickern.making.work.result import NO_TIME
from bickern.measure.source import Kind, Source
from bickern.measure.spread import Spread, within

WHY_BLOWS = "what a blow does is not measured: count yours once"
BLOWS_SPAN = 1.6
"""Factor both ways within which a count of blows is likely to lie (our estimate; nothing printed bears it out)."""

_BITE = Source(
    "A. Tomlinson, J. D. Stringer", "Spread and elongation in flat tool forging", 1959,
    "what spreads at bites half as wide as the bar, 1.44", Kind.MEMORY,
)  # fmt: skip
_WHOLE_BLOW = Source(
    "", "share of a blow that presses, bends or swells, 0.35 to 0.7, against 0.35 of drawing", None, "", Kind.MEMORY
)


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


def struck(blows: Spread, hand: Hand) -> Spread:
    """Seconds of hammering for so many blows at this smith's pace."""
    return blows.times(1 / hand.pace)
