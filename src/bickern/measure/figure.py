"""A named number: what an answer or a pattern is laid out by."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Figure:
    """A number with its name; `unit` is coherent SI ("m", "m2", "m3", "kg", "kg/m", "kg/m2", "rad", "K") or ""."""

    name: str
    value: float
    unit: str
