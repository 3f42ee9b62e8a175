"""A value and how sure it is."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Spread:
    """A value with a low and a high end in the same unit, and in words why it is not sharper."""

    value: float
    low: float
    high: float
    why: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        if not self.low <= self.value <= self.high:
            raise ValueError(f"a spread must hold low <= value <= high, got {self.low}, {self.value}, {self.high}")

    def __add__(self, other: "Spread | float") -> "Spread":
        """Sum; two uncertain values are added end to end (the careful way: faults of one kind go the same way)."""
        o = other if isinstance(other, Spread) else sharp(other)
        return Spread(self.value + o.value, self.low + o.low, self.high + o.high, _joined(self.why, o.why))

    def times(self, factor: float) -> "Spread":
        """Scaled by a sharp factor >= 0."""
        return Spread(self.value * factor, self.low * factor, self.high * factor, self.why)

    @property
    def is_sharp(self) -> bool:
        """Whether there is no doubt at all."""
        return self.low == self.high


def sharp(value: float) -> Spread:
    """A value without doubt."""
    return Spread(value, value, value)


def within(value: float, low_factor: float, high_factor: float, *why: str) -> Spread:
    """A value >= 0 with its ends given as factors, `within(10, 0.9, 1.2, "flame")` is 9 to 12."""
    return Spread(value, value * low_factor, value * high_factor, why)


def _joined(a: tuple[str, ...], b: tuple[str, ...]) -> tuple[str, ...]:
    return a + tuple(w for w in b if w not in a)
