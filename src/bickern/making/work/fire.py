"""What the fire gives a work: at which heat it is pulled and stopped, and how strong the metal is there. SI, kelvin.

By metal, by operation and by how thin the iron is: one set of rows for bars, rings, sheet and joints.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from operator import itemgetter

from bickern.iron.forging import cold_strength, forging_range, hot_strength
from bickern.iron.steel import DEFAULT_STEEL, STEELS, MetalClass, Steel, find_steel
from bickern.making.shop import Shop
from bickern.making.work.blows import blows_for, struck
from bickern.making.work.paces import hands
from bickern.making.work.result import Work
from bickern.measure.known import Known
from bickern.measure.source import COMMON_PRACTICE, Kind, Source
from bickern.measure.spread import Spread
from bickern.measure.units.words import ZERO_C

BLACK_HEAT = 973.15
"""No steel is worked hot below this [K], 700 C: from there down to hand heat nothing is bent (common practice)."""
RATE = 250.0
"""Mean rate of strain [1/s] under a hand hammer: half of speed over thickness (our estimate)."""
RATE_AT_WRENCH = 1.0
"""Rate of strain [1/s] of a twist by hand (our estimate)."""
STRAIN_OF_A_BLOW = 0.10
"""The strain a blow leaves: hot iron softens again between blows, so stress is the mean up to here (our estimate)."""
STRAIN_PRESSED = 0.5
"""The strain beside a punch or chisel, and in the corner of a twist (our estimate)."""
_PRESSED = ("punch", "slit", "split", "twist", "cut off")
_UNKNOWN = STEELS["O1"]
"""A metal without a row is heated, and struck, as carefully as tool steel."""
_LIMBER = frozenset((MetalClass.WROUGHT, MetalClass.MILD, MetalClass.STAINLESS, MetalClass.COPPER))


@dataclass(frozen=True, slots=True)
class Pull:
    """How many kelvin below the general heat a thing is pulled from the fire, and why.

    `share`: never by more than this share of what lies between the metal's two heats, or no time is left to work.
    """

    lower: float
    why: str
    source: Source
    share: float = 0.3


THIN = Known(1.0e-3, "m", COMMON_PRACTICE)
"""Area over girth below which an end or an edge is thin: it burns in seconds."""
THIN_MOST = Known(1150.0 + ZERO_C, "K", COMMON_PRACTICE)
"""Thin ends and edges are pulled at yellow, no hotter; but not colder either, where their metal is drawn at that."""
_ORANGE = Pull(100.0, "bent at orange: hotter, it kinks and scales for nothing", COMMON_PRACTICE)
_EVEN = Pull(50.0, "an even orange to yellow heat twists evenly", COMMON_PRACTICE)
_DULL = Pull(200.0, "straightened at a falling heat", COMMON_PRACTICE, 1.0)
PULLS: dict[str, Pull] = {
    "bend": _ORANGE,
    "curl": _ORANGE,
    "hoop": _ORANGE,
    "wind": _ORANGE,
    "scroll": _ORANGE,
    "twist": _EVEN,
    "straighten": _DULL,
}
"""Rows by operation; what is not named is pulled at the metal's general heat."""
WELD_FALLS = Pull(
    250.0,
    "the first blows join, or nothing does",
    Source("", "fall of heat within which the blows of a weld are struck", None, "", Kind.MEMORY),
)
WELD_SAYS = "joined by its first light blows, or not at all; dressed as it cools"
"""Said of every weld: its heat lasts for the dressing too, but not for the joining."""
_LEAST_WINDOW = 100.0
"""Kelvin that a heat falls at least: nothing is pulled nearer to its stop (our estimate)."""


def metal_of(name: str) -> Steel:
    """The metal by the name the job gives it; one that is not known is worked as tool steel."""
    return find_steel(name).value or _UNKNOWN


def bends_cold(metal: Steel) -> bool:
    """Whether the metal may be bent cold at all: spring and tool steel snap, leaded steel cracks."""
    return metal.family in _LIMBER and metal.name != "12L14"


def rounding_cold(metal: Steel, volume: float) -> Spread:
    """Seconds to bend `volume` [m3] of bar cold to a curve: more of stout or long bar, more the stronger the metal.

    In the measure of its strength against that of mild steel (our estimate); one of unknown strength as mild steel.
    """
    own, mild = cold_strength(metal), cold_strength(DEFAULT_STEEL)
    times = own.value / mild.value if own is not None and mild is not None else 1.0
    return hands("bend round cold", volume).times(times)


def window(metal: Steel, does: str, thin: float) -> tuple[float, float]:
    """Heat to pull at and heat to stop at [K] for one operation on iron whose least area over girth is `thin` [m].

    A weld starts at the metal's welding heat; in a metal that does not weld, at its hottest (a finding says so).
    """
    heats, stop = forging_range(metal), _stop(metal)
    if does == "weld" and heats.weld is not None:
        return heats.weld, stop
    pull, start = PULLS.get(does), heats.start
    if pull is not None:
        start -= min(pull.lower, pull.share * (start - stop))
    most = THIN_MOST.value if thin < THIN.value else start
    return max(min(start, most), stop + _LEAST_WINDOW), stop


def resistance(metal: Steel, does: str, thin: float) -> float:
    """Mean resistance [Pa] to one operation, half-way between the heat to pull at and the heat to stop at.

    Of a weld half-way down its first blows.
    """
    start, stop = window(metal, does, thin)
    if does == "weld":
        stop = max(stop, start - WELD_FALLS.lower)
    rate = RATE_AT_WRENCH if does == "twist" else RATE
    strain = STRAIN_PRESSED if does in _PRESSED else STRAIN_OF_A_BLOW
    return hot_strength(metal, (start + stop) / 2, strain, rate).value


def heated(work: Work, metal: str) -> Work:
    """The same work done hot, between the heats for this metal, this operation, and metal as thin as `work.thin`."""
    start, stop = window(metal_of(metal), work.does, work.thin)
    return replace(work, hot=True, start=start, stop=stop)


def hammered(work: Work, metal: str, energy: float, shop: Shop) -> Work:
    """The same work, hot, with the blows that `energy` [J] of ideal work takes, and their seconds on top."""
    blows = blows_for(energy, shop.hand, work.does)
    seconds = work.seconds + struck(blows, shop.hand)
    return replace(heated(work, metal), energy=energy, blows=blows, seconds=seconds)


def welded(work: Work, metal: str) -> Work:
    """The same weld at a welding heat, begun and ended in one.

    Its heat lasts until the joint can be dressed no more; its seconds hold the dressing.
    """
    says = f"{work.says}; {WELD_SAYS}" if work.says else WELD_SAYS
    return replace(heated(work, metal), whole=True, seconds=work.seconds + hands("dress a weld"), says=says)


STOUTER = Known(1.25, "1", COMMON_PRACTICE)
"""Of what is welded together, iron this many times as thick (area over girth) is put into the fire first."""


def stout_first(thick: Sequence[tuple[str, float]]) -> str:
    """Words on irons of two thicknesses that come to one heat; each by its name and area over girth [m]."""
    if not thick:
        return ""
    (thin, least), (stout, most) = min(thick, key=itemgetter(1)), max(thick, key=itemgetter(1))
    if most < STOUTER.value * least:
        return ""
    return f"{stout} is the thicker: it goes into the fire first, {thin} when that is nearly hot"


def low_heat(work: Work, metal: str) -> Work:
    """The same work at red, as for brushing: half-way between the heats that forging starts and stops at."""
    steel = metal_of(metal)
    stop = _stop(steel)
    return replace(work, hot=True, start=max((forging_range(steel).start + stop) / 2, stop), stop=stop)


def _stop(metal: Steel) -> float:
    stop = forging_range(metal).stop
    return stop if metal.family is MetalClass.COPPER else max(stop, BLACK_HEAT)
