"""One printed figure, and the same beside ours."""

from dataclasses import dataclass
from math import pi

from bickern.desk.printed.cells import number
from bickern.measure.finding import NOWHERE, Where
from bickern.measure.units.scales import SCALES, Scale

NEEDED = ("ask", "answer", "printed", "unit")
"""Columns that a book of figures must have."""
OTHERS = ("topic", "within", "where", "known", "pi", "right", "note")
"""Columns that it may have."""
HAIR = 1e-9
"""Share by which a bound is widened: decimals have no exact binary fractions."""


@dataclass(frozen=True, slots=True)
class Printed:
    """One printed figure.

    `least`, `most`: what the true figure may be, in the printed unit; an allowance in the print widens one side.
    `pi` is the one that the book takes. `right` is what a misprint should say (None: no misprint). `place` is the
    row's own line. `within`, `said_right`: as the row has them.
    """

    ask: str
    answer: str
    printed: str
    unit: str
    least: float
    most: float
    topic: str = ""
    where: str = ""
    known: str = ""
    pi: float = pi
    right: float | None = None
    note: str = ""
    place: Where = NOWHERE
    bound: bool = False
    within: str = ""
    said_right: str = ""

    @property
    def value(self) -> float:
        """The figure as printed, in its unit."""
        read = number(self.printed).value
        assert read is not None, "a row whose print is no number is not kept"
        return float(read.value)

    @property
    def scale(self) -> Scale:
        """Its unit."""
        return SCALES[self.unit]


@dataclass(frozen=True, slots=True)
class Held:
    """A printed figure beside ours, in the unit printed."""

    row: Printed
    ours: float

    @property
    def off(self) -> float:
        """How far the print is from ours, as a share of ours (absolute where ours is nothing)."""
        return (self.row.value - self.ours) / (abs(self.ours) or 1.0)

    @property
    def inside(self) -> bool:
        """Whether ours lies where the print, or what it should say, and its rounding allow."""
        wide = HAIR * max(abs(self.row.least), abs(self.row.most))
        return self.row.least - wide <= self.ours <= self.row.most + wide

    @property
    def fits(self) -> bool:
        """Whether ours lies where the print and its rounding say; a misprint must also be clearly not ours."""
        if self.row.right is None:
            return self.inside
        return self.inside and abs(self.ours - self.row.value) > _CLEARLY * (self.row.most - self.row.least) / 2


_CLEARLY = 3.0
"""A misprint is one where it is off by more than this many times what rounding allows."""
