"""What can be told after the work, and how far each such figure may be off when nothing at all is wrong."""

from dataclasses import dataclass

from bickern.measure.source import Kind as Known
from bickern.measure.source import Source

STOCK, KEPT, HEATS, MINUTES, BLOWS, FIRE, COLLAR = "stock", "kept", "heats", "minutes", "blows", "fire", "collar"
AT = "minutes of "
"""What the kind of one operation's minutes begins with."""
SIZE = "size of "
"""What the kind of a size begins with that comes out of stock of a told length."""


@dataclass(frozen=True, slots=True)
class Noise:
    """`share`: one standard deviation of a figure told, as a share of it; `step`: of a count, in wholes beside it."""

    kind: str
    share: float
    source: Source
    step: float = 0.0


def _guess(says: str) -> Source:
    return Source("", says, None, "from memory, not measured", Known.MEMORY)


NOISES: tuple[Noise, ...] = (
    Noise(STOCK, 0.015, _guess("a piece forged by eye and tape: its sections and its length")),
    Noise(KEPT, 0.014, _guess("two weighings, each within one in a hundred")),
    Noise(HEATS, 0.15, _guess("heats counted while working"), 0.5),
    Noise(MINUTES, 0.15, _guess("minutes by the clock of the shop, with what comes between")),
    Noise(AT, 0.25, _guess("minutes of one operation, by the clock of the shop")),
    Noise(BLOWS, 0.2, _guess("blows counted while working")),
    Noise(FIRE, 0.25, _guess("minutes in the fire, by the clock of the shop")),
    Noise(COLLAR, 0.015, _guess("bar of a collar that closed well")),
    Noise(SIZE, 0.03, _guess("a size that comes out as the metal reaches")),
)
"""Rows by what is told; `AT` is of any one operation, `SIZE` of any one size."""
STRETCHED = 0.5
"""Share of a correction that is in doubt: which metal came out longer is not told, only that it did (our choice)."""
_BY_KIND = {row.kind: row for row in NOISES}


def noise_of(kind: str, value: float) -> float:
    """One standard deviation of the natural logarithm of a figure told."""
    row = _BY_KIND[next((many for many in (AT, SIZE) if kind.startswith(many)), kind)]
    return float((row.share**2 + (row.step / value) ** 2) ** 0.5)
