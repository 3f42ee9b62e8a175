"""What shop notation says before anyone knows what iron is: plain words and numbers."""

from dataclasses import dataclass
from enum import StrEnum
from typing import Generic, TypeVar

from bickern.measure.finding import Finding

INCH = 0.0254
"""Metres in an inch, exact since 1959 (ISO 80000-3)."""
FOOT = 12 * INCH
MILLIMETRE = 0.001
POUND = 0.45359237
"""Kilograms in an avoirdupois pound, exact since 1959."""
ZERO_C = 273.15
"""Kelvin at 0 C (exact, by definition)."""

T = TypeVar("T", covariant=True)


class System(StrEnum):
    """What a bare number means in a job."""

    INCH = "in"
    MM = "mm"


class GaugeSystem(StrEnum):
    """Numbered thickness systems; the same number is a different thickness in each."""

    US = "US"  # manufacturers' standard gauge, uncoated steel sheet
    GALVANISED = "galvanised"
    SWG = "SWG"
    BWG = "BWG"
    AWG = "AWG"


@dataclass(frozen=True, slots=True)
class Read(Generic[T]):
    """What was read: a value (None where it cannot be read) and every finding on the way (their `where` is not set)."""

    value: T | None
    findings: tuple[Finding, ...] = ()

    @property
    def ok(self) -> bool:
        """Whether there is a value to work with."""
        return self.value is not None


class Shape(StrEnum):
    """Shapes of bar that a smith names; printed behind the size (`3/8 sq`, `1/4 rd`, `1/2 hex`)."""

    SQUARE = "sq"
    ROUND = "rd"
    FLAT = "flat"
    HEXAGON = "hex"
    OCTAGON = "oct"
    HALF_ROUND = "half rd"
    TUBE = "tube"
    SQUARE_TUBE = "sq tube"
    OVAL = "oval"
    POINT = "point"


@dataclass(frozen=True, slots=True)
class GaugeWords:
    """`16 ga`, `16 SWG`: a number and the system named with it (None: not named); 00 is -1, 000 is -2 and so on."""

    number: int
    system: GaugeSystem | None


@dataclass(frozen=True, slots=True)
class SectionWords:
    """`3/8 sq` -> (SQUARE, (0.009525,)); `1 x 1/4` -> (FLAT, (0.0254, 0.00635)); a size left open (`? rd`) is None.

    `sizes` in metres; for flats width then thickness, for tube outside size then wall.
    """

    shape: Shape
    sizes: tuple[float | None, ...]


@dataclass(frozen=True, slots=True)
class Style:
    """How the shop reads its tape: which system stands first, and to what step it is printed.

    `feet`: long lengths in inches are told in feet as well. `imperial`: what a vessel holds is told in UK measures.
    """

    first: System = System.INCH
    inch_denominator: int = 16
    mm_step: float = 0.5
    fit_denominator: int = 64
    fit_mm_step: float = 0.1
    comma: bool = False
    feet: bool = False
    imperial: bool = False
