"""A number that is known from somewhere: value, unit and source travel together."""

from dataclasses import dataclass

from bickern.measure.source import Source


@dataclass(frozen=True, slots=True)
class Known:
    """A value in coherent SI units, its unit in words (`kg/m3`, `Pa`, `m`), and where it comes from."""

    value: float
    unit: str
    source: Source

    def __str__(self) -> str:
        return f"{self.value:g} {self.unit} ({self.source})"
