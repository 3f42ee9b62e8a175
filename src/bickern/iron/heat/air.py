"""Air that rises by itself off hot iron: its properties, and the heat it takes [W/m2K]."""

from bisect import bisect_right
from dataclasses import dataclass

from bickern.measure.known import Known
from bickern.measure.source import Kind, Source

GRAVITY = 9.80665
"""Standard gravity [m/s2], exact by convention."""
AIR_SOURCE = Source(
    "F. P. Incropera, D. P. DeWitt", "Fundamentals of Heat and Mass Transfer", None,
    "table A.4, air at one atmosphere; set down from memory, held against Sutherland's laws", Kind.MEMORY,
)  # fmt: skip
CHURCHILL_CHU_SOURCE = Source(
    "S. W. Churchill, H. H. S. Chu", "Correlating equations for laminar and turbulent free convection", 1975,
    "International Journal of Heat and Mass Transfer 18: a cylinder lying level, and a plate on edge; set down from "
    "memory, equal to what a library of heat transfer has", Kind.MEMORY,
)  # fmt: skip
SHEET_HEIGHT = Known(
    0.075,
    "m",
    Source("", "a choice of this project, nothing measured", None, "height of hot sheet on edge", Kind.MEMORY),
)
"""Still air takes much the same whatever the height: a fifth less at three times this."""


@dataclass(frozen=True, slots=True)
class Air:
    """Air at one temperature [K]: conductivity [W/mK], kinematic viscosity [m2/s], Prandtl number."""

    temperature: float
    conductivity: float
    viscosity: float
    prandtl: float


_ROWS = (
    (250, 22.3, 11.44, 0.720), (300, 26.3, 15.89, 0.707), (350, 30.0, 20.92, 0.700), (400, 33.8, 26.41, 0.690),
    (450, 37.3, 32.39, 0.686), (500, 40.7, 38.79, 0.684), (550, 43.9, 45.57, 0.683), (600, 46.9, 52.69, 0.685),
    (650, 49.7, 60.21, 0.690), (700, 52.4, 68.10, 0.695), (750, 54.9, 76.37, 0.702), (800, 57.3, 84.93, 0.709),
    (850, 59.6, 93.80, 0.716), (900, 62.0, 102.9, 0.720), (950, 64.3, 112.2, 0.723), (1000, 66.7, 121.9, 0.726),
    (1100, 71.5, 141.8, 0.728), (1200, 76.3, 162.9, 0.728),
)  # fmt: skip
AIR: tuple[Air, ...] = tuple(Air(t, k * 1e-3, nu * 1e-6, pr) for t, k, nu, pr in _ROWS)
"""Rows of `AIR_SOURCE`."""
_HEATS = [row.temperature for row in AIR]


def air_at(temperature: float) -> Air:
    """Air at a temperature [K], in straight lines between the rows; beyond them the outer row is carried on.

    No air is colder than the first row: a trial skin far below it, in absurdly thick iron, must not end in no air.
    """
    i = min(max(bisect_right(_HEATS, temperature) - 1, 0), len(AIR) - 2)
    a, b = AIR[i], AIR[i + 1]
    share = min(max((temperature - a.temperature) / (b.temperature - a.temperature), 0.0), 1.0)
    return Air(
        max(temperature, AIR[0].temperature),
        a.conductivity + share * (b.conductivity - a.conductivity),
        a.viscosity + share * (b.viscosity - a.viscosity),
        a.prandtl + share * (b.prandtl - a.prandtl),
    )


def rayleigh(air: Air, size: float, warmer: float) -> float:
    """Rayleigh number of a body of that size [m], that much warmer [K], in air at the film temperature."""
    return GRAVITY / air.temperature * abs(warmer) * size**3 * air.prandtl / air.viscosity**2


def nusselt_cylinder(Ra: float, Pr: float) -> float:
    """Nusselt number of a cylinder lying level, on its diameter (Churchill and Chu; Ra up to 1e12)."""
    return float(0.60 + 0.387 * (Ra / (1 + (0.559 / Pr) ** 0.5625) ** (16 / 9)) ** (1 / 6)) ** 2


def nusselt_plate_on_edge(Ra: float, Pr: float) -> float:
    """Nusselt number of a plate on edge, on its height (Churchill and Chu; any Ra)."""
    return float(0.825 + 0.387 * (Ra / (1 + (0.492 / Pr) ** 0.5625) ** (16 / 9)) ** (1 / 6)) ** 2


def cylinder_in_air(diameter: float, skin: float, air: float) -> float:
    """Heat that still air takes of a level bar [W/m2K]: diameter [m], skin and air [K]."""
    film = air_at((skin + air) / 2)
    Ra = rayleigh(film, diameter, skin - air)
    return nusselt_cylinder(Ra, film.prandtl) * film.conductivity / diameter


def sheet_in_air(skin: float, air: float, height: float = SHEET_HEIGHT.value) -> float:
    """Heat that still air takes of each face of a sheet on edge [W/m2K]: skin and air [K], height [m]."""
    film = air_at((skin + air) / 2)
    Ra = rayleigh(film, height, skin - air)
    return nusselt_plate_on_edge(Ra, film.prandtl) * film.conductivity / height
