"""What heat steel holds and how it conducts: EN 1993-1-2, 3.4.1, for carbon steel while it is *heated*.

On cooling, steel changes inside later, near 700 C: between 600 and 900 C these figures fit warming better than cooling.
Temperatures are kelvin outside; the standard's formulas are in C. Over 1200 C, its end, the last row is carried on.
"""

import math

from bickern.measure.known import Known
from bickern.measure.source import Kind, Source
from bickern.measure.units.words import ZERO_C


def _clause(where: str) -> Source:
    return Source("CEN", "EN 1993-1-2 Design of steel structures: fire", 2005, where, Kind.STANDARD)


DENSITY = Known(7850.0, "kg/m3", _clause("cl. 3.2.2(1): the same at every heat, so sizes are those of the cold bar"))
HEAT_SOURCE = _clause("cl. 3.4.1.2: specific heat, 20 to 1200 C")
CONDUCTIVITY_SOURCE = _clause("cl. 3.4.1.3: conductivity, 20 to 1200 C")

COLD, RISE, PEAK, FALL = 20.0, 600.0, 735.0, 900.0
"""Where the rows of the standard begin [C]."""
KINKS = tuple(t + ZERO_C for t in (RISE, PEAK, FALL))
"""Heats [K] at which the specific heat changes its formula."""


def heat_capacity(temperature: float) -> float:
    """Specific heat [J/kgK] at a temperature [K], as in cl. 3.4.1.2."""
    t = temperature - ZERO_C
    if t < RISE:
        return 425 + t * (0.773 + t * (-1.69e-3 + t * 2.22e-6))
    if t < PEAK:
        return 666 + 13002 / (738 - t)
    return 545 + 17820 / (t - 731) if t < FALL else 650.0


def conductivity(temperature: float) -> float:
    """Conductivity [W/mK] at a temperature [K], as in cl. 3.4.1.3."""
    t = temperature - ZERO_C
    return 54 - 3.33e-2 * t if t < 800 else 27.3


def enthalpy(temperature: float) -> float:
    """Heat [J/kg] held over 20 C at a temperature [K]: the specific heat integrated in closed form (exact)."""
    t = temperature - ZERO_C
    if t < RISE:
        return _cold(t) - _AT_COLD
    if t < PEAK:
        return _AT_RISE + 666 * (t - RISE) + 13002 * math.log((738 - RISE) / (738 - t))
    if t < FALL:
        return _AT_PEAK + 545 * (t - PEAK) + 17820 * math.log((t - 731) / (PEAK - 731))
    return _AT_FALL + 650 * (t - FALL)


def _cold(t: float) -> float:
    return t * (425 + t * (0.773 / 2 + t * (-1.69e-3 / 3 + t * 2.22e-6 / 4)))


_AT_COLD = _cold(COLD)
_AT_RISE = _cold(RISE) - _AT_COLD
_AT_PEAK = _AT_RISE + 666 * (PEAK - RISE) + 13002 * math.log((738 - RISE) / (738 - PEAK))
_AT_FALL = _AT_PEAK + 545 * (FALL - PEAK) + 17820 * math.log((FALL - 731) / (PEAK - 731))
"""Heat held where the rows begin [J/kg]."""


def diffusivity(temperature: float) -> float:
    """How fast heat spreads [m2/s] at a temperature [K]: conductivity over density and specific heat."""
    return conductivity(temperature) / (DENSITY.value * heat_capacity(temperature))
