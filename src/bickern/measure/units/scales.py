"""Units as books print them, against coherent SI: for figures that are compared, not for sizes that are typed."""

from dataclasses import dataclass
from math import pi

from bickern.measure.units.words import FOOT, INCH, POUND, ZERO_C

GALLON = 231 * INCH**3
"""US liquid gallon [m3], 231 cubic inches."""
IMPERIAL_GALLON = 4.54609e-3
"""Imperial gallon [m3]."""
OUNCE = POUND / 16


@dataclass(frozen=True, slots=True)
class Scale:
    """A printed number in SI is `size` x (number + `zero`); `unit` is the coherent SI unit."""

    unit: str
    size: float
    zero: float = 0.0

    def si(self, number: float) -> float:
        """A printed number in coherent SI."""
        return self.size * (number + self.zero)

    def printed(self, value: float) -> float:
        """A value in coherent SI as it would be printed."""
        return value / self.size - self.zero


_LENGTHS = {"in": INCH, "ft": FOOT, "yd": 3 * FOOT, "mm": 0.001, "cm": 0.01, "m": 1.0}
_MASSES = {"oz": OUNCE, "lb": POUND, "g": 0.001, "kg": 1.0}

SCALES: dict[str, Scale] = {
    "": Scale("", 1.0),
    "1": Scale("", 1.0),
    "%": Scale("", 0.01),
    **{name: Scale("m", size) for name, size in _LENGTHS.items()},
    **{f"{name}2": Scale("m2", size**2) for name, size in _LENGTHS.items()},
    **{f"{name}3": Scale("m3", size**3) for name, size in _LENGTHS.items()},
    "l": Scale("m3", 1e-3),
    "ml": Scale("m3", 1e-6),
    "gal(US)": Scale("m3", GALLON),
    "gal(UK)": Scale("m3", IMPERIAL_GALLON),
    "floz(US)": Scale("m3", GALLON / 128),
    "floz(UK)": Scale("m3", IMPERIAL_GALLON / 160),
    "pint(UK)": Scale("m3", IMPERIAL_GALLON / 8),
    "quart(UK)": Scale("m3", IMPERIAL_GALLON / 4),
    "pint(US)": Scale("m3", GALLON / 8),
    "quart(US)": Scale("m3", GALLON / 4),
    "bushel(US)": Scale("m3", 2150.42 * INCH**3),
    **{name: Scale("kg", size) for name, size in _MASSES.items()},
    **{f"{m}/{n}": Scale("kg/m", a / b) for m, a in _MASSES.items() for n, b in _LENGTHS.items()},
    **{f"{m}/{n}2": Scale("kg/m2", a / b**2) for m, a in _MASSES.items() for n, b in _LENGTHS.items()},
    **{f"{m}/{n}3": Scale("kg/m3", a / b**3) for m, a in _MASSES.items() for n, b in _LENGTHS.items()},
    "rad": Scale("rad", 1.0),
    "deg": Scale("rad", pi / 180),
    "turn": Scale("rad", 2 * pi),
    "K": Scale("K", 1.0),
    "C": Scale("K", 1.0, ZERO_C),
    "F": Scale("K", 5 / 9, 459.67),
}
"""Every unit that a printed figure may carry. The empty one and `1` are pure numbers."""
