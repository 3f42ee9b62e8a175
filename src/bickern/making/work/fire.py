"""Puts a work in the fire: at which heat it is pulled and stopped, by its metal and by how thin it is. Kelvin.

For rings, sheet and joints; the rows are those that bars go by.
"""

from dataclasses import replace

from bickern.iron.forging import ForgingRange, forging_range, hot_strength
from bickern.iron.steel import STEELS, MetalClass, Steel, find_steel
from bickern.making.shop import Shop
from bickern.making.work.anvil import BLACK_HEAT, RATE, STRAIN_OF_A_BLOW, WELD_SAYS, pulled_at
from bickern.making.work.rates import time_of
from bickern.making.work.result import Work
from bickern.making.work.times import blows_for, struck

_UNKNOWN = "O1"
"""A metal without a row is heated as carefully as tool steel."""
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
    return replace(work, hot=True, start=pulled_at(heats, work.does, stop, work.thin), stop=stop)


def hammered(work: Work, metal: str, energy: float, shop: Shop) -> Work:
    """The same work, hot, with the blows that `energy` [J] of ideal work takes, and their seconds on top."""
    blows = blows_for(energy, shop.hand, work.does)
    seconds = work.seconds + struck(blows, shop.hand)
    return replace(heated(work, metal), energy=energy, blows=blows, seconds=seconds)


def stress_of(work: Work, metal: str) -> float:
    """Mean resistance [Pa] of the metal half-way down the heat that this work is done in."""
    hot = heated(work, metal)
    return hot_strength(metal_of(metal), (hot.start + hot.stop) / 2, STRAIN_OF_A_BLOW, RATE).value


def welded(work: Work, metal: str) -> Work:
    """The same work at a welding heat, begun and ended in one; a metal that does not weld gets its hottest heat.

    Its heat lasts until the joint can be dressed no more; its seconds hold the dressing. (That a metal does not weld is
    a finding of another room.)
    """
    steel = metal_of(metal)
    heats = forging_range(steel)
    start, stop = heats.weld or heats.start, _stop(steel, heats)
    seconds, says = work.seconds + time_of("dress a weld"), f"{work.says}; {WELD_SAYS}" if work.says else WELD_SAYS
    return replace(work, hot=True, whole=True, start=start, stop=stop, seconds=seconds, says=says)


def low_heat(work: Work, metal: str) -> Work:
    """The same work at red, as for brushing: half-way between the heats that forging starts and stops at."""
    steel = metal_of(metal)
    heats = forging_range(steel)
    stop = _stop(steel, heats)
    return replace(work, hot=True, start=max((heats.start + stop) / 2, stop), stop=stop)


def _stop(steel: Steel, heats: ForgingRange) -> float:
    return heats.stop if steel.family is MetalClass.COPPER else max(heats.stop, BLACK_HEAT)
