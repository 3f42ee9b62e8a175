"""Puts a work in the fire: at which heat it is pulled and stopped, by its metal and by how thin it is. Kelvin.

For rings, sheet and joints; the rows are those that bars go by.
"""

from dataclasses import replace

from bickern.iron.flow import mean_flow_stress
from bickern.iron.forging import ForgingRange, carbon_of, forging_range
from bickern.iron.steel import STEELS, MetalClass, Steel, find_steel
from bickern.making.shop import Shop
from bickern.making.work.anvil import BLACK_HEAT, PULLS, RATE, STRAIN_OF_A_BLOW, THIN_PULLS, WELD_FALLS
from bickern.making.work.result import Work
from bickern.making.work.times import blows_for, struck

_UNKNOWN = "O1"
"""A metal without a row is heated as carefully as tool steel."""
_LEAST_WINDOW = 100.0
"""Kelvin that a heat falls at least."""
_LIMBER = frozenset((MetalClass.WROUGHT, MetalClass.MILD, MetalClass.STAINLESS, MetalClass.COPPER))


def metal_of(name: str) -> Steel:
    """The metal by the name the job gives it; one that is not known is worked as tool steel."""
    return find_steel(name).value or STEELS[_UNKNOWN]


def bends_cold(name: str) -> bool:
    """Whether the metal may be bent cold at all: spring and tool steel snap, leaded steel cracks."""
    steel = metal_of(name)
    return steel.family in _LIMBER and steel.name != "12L14"


def heated(work: Work, metal: str) -> Work:
    """The same work done hot, between the heats for this metal, this operation, and metal as thin as `work.thin`."""
    steel = metal_of(metal)
    heats = forging_range(steel)
    stop = _stop(steel, heats)
    lower = PULLS[work.does].lower if work.does in PULLS else 0.0
    lower = max(lower, next((pull.lower for below, pull in THIN_PULLS if work.thin < below), 0.0))
    return replace(work, hot=True, start=max(heats.start - lower, stop + _LEAST_WINDOW), stop=stop)


def hammered(work: Work, metal: str, energy: float, shop: Shop) -> Work:
    """The same work, hot, with the blows that `energy` [J] of ideal work takes, and their seconds on top."""
    blows = blows_for(energy, shop.hand, work.does)
    seconds = work.seconds + struck(blows, shop.hand)
    return replace(heated(work, metal), energy=energy, blows=blows, seconds=seconds)


def stress_of(work: Work, metal: str) -> float:
    """Mean resistance [Pa] of the metal half-way down the heat that this work is done in."""
    hot = heated(work, metal)
    return mean_flow_stress(carbon_of(metal_of(metal)), (hot.start + hot.stop) / 2, STRAIN_OF_A_BLOW, RATE)


def welded(work: Work, metal: str) -> Work:
    """The same work at a welding heat, begun and ended in one; a metal that does not weld gets its hottest heat.

    (That it does not weld is a finding of another room.)
    """
    steel = metal_of(metal)
    heats = forging_range(steel)
    if heats.weld is None:
        return replace(work, hot=True, whole=True, start=heats.start, stop=_stop(steel, heats))
    return replace(work, hot=True, whole=True, start=heats.weld, stop=heats.weld - WELD_FALLS.lower)


def low_heat(work: Work, metal: str) -> Work:
    """The same work at red, as for brushing: half-way between the heats that forging starts and stops at."""
    steel = metal_of(metal)
    heats = forging_range(steel)
    stop = _stop(steel, heats)
    return replace(work, hot=True, start=max((heats.start + stop) / 2, stop), stop=stop)


def _stop(steel: Steel, heats: ForgingRange) -> float:
    return heats.stop if steel.family is MetalClass.COPPER else max(heats.stop, BLACK_HEAT)
