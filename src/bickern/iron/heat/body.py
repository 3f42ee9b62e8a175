"""What cools or warms, and what stands round it: the arguments of every curve. SI: metres, kelvin, watts."""

import math
from dataclasses import dataclass
from enum import StrEnum

from bickern.iron.section import Section, hydraulic, perimeter
from bickern.measure.known import Known
from bickern.measure.source import Kind, Source
from bickern.measure.units.words import ZERO_C

ROOM = 293.15
"""Kelvin of a shop: 20 C."""

SCALED = Known(
    0.80, "1",
    Source("M. Weiner et al.", "Rolling Process Variation Estimation Using a Monte-Carlo Method", 2024,
           "supplement, DOI 10.5281/zenodo.13960836: taken there for hot bars in air", Kind.PAPER),
)  # fmt: skip
"""Emissivity of steel with scale on it; handbooks have 0.74 to 0.89 for oxidised iron."""
FIRE = Known(1250.0 + ZERO_C, "K", Source("", "a well blown fire or gas forge", None, "", Kind.COMMON))
FLAMES = Known(30.0, "W/m2K", Source("", "convection of hot gas in a small fire", None, "15 to 60", Kind.MEMORY))


class Form(StrEnum):
    """The simple body that a section is looked on as."""

    BAR = "bar"  # a cylinder of the same area over girth, lying level
    SHEET = "sheet"  # a slab, both faces open


@dataclass(frozen=True, slots=True)
class Body:
    """Iron by its area over girth [m]: a bar is a cylinder of diameter 4 A/P, a sheet a slab of thickness 2 A/P.

    `girth` [m] of a bar, for the air that rises round it (0: that of the cylinder).
    """

    hydraulic: float
    form: Form = Form.BAR
    girth: float = 0.0

    @property
    def across(self) -> float:
        """Diameter of the cylinder, or thickness of the slab [m]."""
        return (4 if self.form is Form.BAR else 2) * self.hydraulic

    @property
    def in_air(self) -> float:
        """Diameter [m] of the cylinder of the same girth: what the air goes round."""
        return self.girth / math.pi if self.girth else self.across


def body_of(section: Section, sheet: bool = False) -> Body:
    """What cools in a bar of this section, or in `sheet` of its thickness (both faces open, edges not counted).

    A point, or a chisel edge, holds no heat: area over girth is 0, and so are its seconds.
    """
    if sheet:
        return Body(min(section.width, section.thick) / 2, Form.SHEET)
    return Body(hydraulic(section), Form.BAR, perimeter(section))


@dataclass(frozen=True, slots=True)
class Surround:
    """What takes heat from iron in the hand or on the anvil.

    `emissivity` of scaled steel; `moving` times still-air convection; `contact` [W/m2K], the share of the skin that
    lies on the anvil times how well it conducts there (0: in the air); `air` and `anvil` [K].
    """

    emissivity: float = SCALED.value
    moving: float = 1.0
    contact: float = 0.0
    air: float = ROOM
    anvil: float = ROOM


@dataclass(frozen=True, slots=True)
class Chamber:
    """A fire as a hot room: its temperature [K], the iron's emissivity, convection [W/m2K]."""

    temperature: float = FIRE.value
    emissivity: float = SCALED.value
    convection: float = FLAMES.value


@dataclass(frozen=True, slots=True)
class Curve:
    """Seconds since the start at each mean temperature [K], in order of time."""

    seconds: tuple[float, ...]
    temperatures: tuple[float, ...]
