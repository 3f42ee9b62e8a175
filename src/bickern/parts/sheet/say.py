"""Lengths in findings: both systems, fine enough for a shortfall of 3/32."""

from bickern.measure.units.say import say_both
from bickern.measure.units.words import Style

_FINE = Style(inch_denominator=32)


def told(m: float) -> str:
    """A length [m] in inches to 1/32 and millimetres."""
    return say_both(m, _FINE)


def told_pair(wide: float, high: float) -> str:
    """Two lengths [m], `wide x high`."""
    return f"{told(wide)} x {told(high)}"
