"""Between which heats each metal is worked: where to pull it from the fire, where to stop, where it burns.

Most of these are from memory of handbook tables, and say so: they keep on the careful side of the printed ones.
Temperatures in K.
"""

from dataclasses import dataclass

from bickern.iron.flow import flow_spread
from bickern.iron.steel import FireWeld, MetalClass, Steel
from bickern.measure.known import Known
from bickern.measure.source import Kind, Source
from bickern.measure.spread import Spread, within
from bickern.measure.units.words import ZERO_C


@dataclass(frozen=True, slots=True)
class ForgingRange:
    """Heats of one metal [K]: `start`, to pull it at for general work (thin work lower); `stop`, to work it no colder;
    `burns`, to heat it no further; `weld`, of a fire weld (None: it is not fire welded).
    """

    start: float
    stop: float
    burns: float
    weld: float | None
    source: Source


def _memory(where: str) -> Source:
    return Source("", "forging ranges of handbooks", None, where, Kind.MEMORY)


def _row(start: float, stop: float, burns: float, weld: float | None, source: Source) -> ForgingRange:
    """A row in degrees C."""
    return ForgingRange(start + ZERO_C, stop + ZERO_C, burns + ZERO_C, None if weld is None else weld + ZERO_C, source)


_MILD = _row(1150, 800, 1400, 1300, _memory("0.10 to 0.20 % carbon: to 1290, stop 750 to 850, burns 1470 C"))
_CAREFUL = _row(980, 850, 1100, 1080, _memory("as a tool steel of unknown kind: 980 to 1065, stop 815 to 845 C"))
_FAMILIES: dict[MetalClass, ForgingRange] = {
    MetalClass.WROUGHT: _row(1250, 900, 1420, 1350, _memory("wrought iron: near a welding heat, or it splits")),
    MetalClass.MILD: _MILD,
    MetalClass.MEDIUM: _row(1150, 820, 1320, 1230, _memory("0.30 to 0.50 % carbon: to 1250, stop 800 to 850 C")),
    MetalClass.SPRING: _row(1100, 870, 1230, 1180, _memory("5160: 1150 to 1200, stop 850 to 900 C")),
    MetalClass.TOOL: _CAREFUL,
    MetalClass.STAINLESS: _row(1150, 930, 1230, None, _memory("18/8 stainless: 1150 to 1230, stop 900 to 930 C")),
}
_METALS: dict[str, ForgingRange] = {
    "4140": _row(1150, 870, 1230, None, _memory("4140: 1200 to 1230, stop 850 to 900 C")),
    "12L14": _row(1150, 900, 1250, None, _memory("free-cutting steel: tears when hot, worst at a red heat")),
    "W1": _row(980, 815, 1120, 1080, _memory("W1: 980 to 1065, stop 815, burns 1140 to 1220 C")),
    "O1": _row(1000, 845, 1120, None, _memory("O1: 980 to 1065, stop 845 C")),
    "copper": _row(800, 500, 1000, None, _memory("copper: 760 to 900, melts at 1085 C; worked cold too")),
    "brass": _row(730, 600, 815, None, _memory("60/40 brass: 650 to 815 C; crumbles when hotter")),
}


def forging_range(steel: Steel) -> ForgingRange:
    """The heats of this metal: its own row, else that of its family, else that of a tool steel of unknown kind.

    The weld heat is None where the metal's row says that it does not fire weld. Cast iron cannot be forged at all, and
    a job that names it is stopped where metals are looked up; it gets the careful row here.
    """
    found = _METALS.get(steel.name) or _FAMILIES.get(steel.family, _CAREFUL)
    return found if steel.fire_weld is not FireWeld.NO else _unwelded(found)


def _unwelded(row: ForgingRange) -> ForgingRange:
    return ForgingRange(row.start, row.stop, row.burns, None, row.source)


def carbon_of(steel: Steel) -> float:
    """Carbon as a share of the mass, the middle of what the metal's row allows."""
    return sum(steel.carbon) / 2


STIFFER: dict[str, Known] = {
    "304": Known(1.6, "1", _memory("18/8 stainless at 1100 C against carbon steel at the same heat: 1.5 to 1.7")),
}
"""How many times as strong as plain carbon steel at one heat; steels that are not named are taken as carbon steel."""
ROUGHLY = 1.5
"""How far off such a factor may be, either way, beside the doubt about carbon steel (our estimate)."""


@dataclass(frozen=True, slots=True)
class Soft:
    """A metal that formulas for steel say nothing of: `stress` [Pa] at a heat [K], half of it `halves` [K] hotter."""

    stress: Known
    at: float
    halves: Known


_COPPER = _memory("copper under a hammer: about 150 MPa at 500, 60 at 800 C")
_BRASS = _memory("60/40 brass under a hammer: about 110 MPa at 600, 50 at 700 C")
SOFT: dict[str, Soft] = {
    "copper": Soft(Known(60e6, "Pa", _COPPER), 800 + ZERO_C, Known(230.0, "K", _COPPER)),
    "brass": Soft(Known(50e6, "Pa", _BRASS), 700 + ZERO_C, Known(90.0, "K", _BRASS)),
}
"""Rows by metal, whatever the strain and its rate."""
TWICE = 2.0
"""How far off such a row may be, either way (our estimate)."""


def hot_strength(steel: Steel, temperature: float, strain: float, rate: float) -> Spread:
    """Mean resistance [Pa] of this metal up to a strain, at a heat [K] and rate [1/s]; rough where it is no carbon
    steel.
    """
    if (soft := SOFT.get(steel.name)) is not None:
        value = soft.stress.value * 2 ** ((soft.at - temperature) / soft.halves.value)
        return within(value, 1 / TWICE, TWICE, f"{steel.name}: from memory", "no formula for it was found")
    plain = flow_spread(carbon_of(steel), temperature, strain, rate)
    if (found := STIFFER.get(steel.name)) is None:
        return plain
    high, low = plain.high * ROUGHLY * found.value, plain.low / ROUGHLY * found.value
    return Spread(plain.value * found.value, low, high, (*plain.why, f"{steel.name} is only set beside carbon steel"))


COLD_SOURCE = Source("", "steel in a cold bend against its least yield", None, "once to twice", Kind.MEMORY)


def cold_strength(steel: Steel) -> Spread | None:
    """Mean resistance [Pa] to a bend at room heat; None where the yield hangs on a treatment that is not known."""
    if steel.yield_cold is None:
        return None
    least = steel.yield_cold.value
    why = ("the yield is the least that is sold: most bars are stronger", "iron hardens while it is bent cold")
    return Spread(1.5 * least, least, 2 * least, why)
