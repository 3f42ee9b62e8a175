"""How long and how often, as a smith says it: never finer than it is known."""

import math

from bickern.measure.spread import Spread
from bickern.measure.units.say import say_decimal

MINUTE, HOUR = 60.0, 3600.0
_STEPS = ((20.0, 1.0), (90.0, 5.0), (300.0, 30.0), (1200.0, MINUTE), (5400.0, 5 * MINUTE), (math.inf, 10 * MINUTE))
"""Below each of these seconds, times are told to the step beside it [s]."""


def duration(seconds: float) -> str:
    """`25 s`, `2 1/2 min`, `40 min`, `1 h 20 min`: coarser the longer it is."""
    step = next(step for under, step in _STEPS if seconds < under)
    told = max(step, math.floor(seconds / step + 0.5) * step) if seconds > 0 else 0.0
    if told < 90.0:
        return f"{say_decimal(told, 0)} s"
    if told < 5400.0:
        whole, half = divmod(round(told / 30), 2)
        return f"{whole} 1/2 min" if half else f"{whole} min"
    hours, minutes = divmod(round(told / MINUTE), 60)
    return f"{hours} h {minutes} min" if minutes else f"{hours} h"


def ranged(seconds: Spread) -> str:
    """`25 s (18 to 33)`: a time with its range, the unit said once where it is the same."""
    value, low, high = (_within(one, seconds) for one in (seconds.value, seconds.low, seconds.high))
    if low == high:
        return value
    units = {one.lstrip("0123456789 /") for one in (value, low, high)}
    if len(units) == 1:
        unit = f" {units.pop()}"
        low, high = low.removesuffix(unit), high.removesuffix(unit)
    return f"{value} ({low} to {high})"


def _within(one: float, of: Spread) -> str:
    """One end of a range in the unit of its middle, where it is not too far off for that."""
    if of.value < 90.0 and 90.0 <= one <= 200.0:
        return f"{say_decimal(math.floor(one / 10 + 0.5) * 10, 0)} s"
    if of.value >= 90.0 and 45.0 <= one < 90.0:
        return duration(90.0) if one >= 75.0 else "1 min"
    return duration(one)


def count_of(times: Spread) -> tuple[int, int, int]:
    """A number of heats as whole heats, begun ones counted: as reckoned, at least, at most."""
    value, low, high = (max(0, math.ceil(one - 1e-6)) for one in (times.value, times.low, times.high))
    return value, low, high


def heats(times: Spread) -> str:
    """`9 heats (5 to 16)`, `1 heat`, `no heat`."""
    value, low, high = count_of(times)
    said = "no heat" if value == 0 else "1 heat" if value == 1 else f"{value} heats"
    return said if low == high else f"{said} ({low} to {high})"


def numbered(number: int, times: Spread) -> str:
    """`Heat 3`, `Heats 4 and 5`, `Heats 4 to 6`: the heats of the job that a spell takes."""
    many = max(1, count_of(times)[0])
    if many == 1:
        return f"Heat {number}"
    return f"Heats {number} {'and' if many == 2 else 'to'} {number + many - 1}"


def alike(times: Spread) -> str:
    """How many heats of one kind a spell takes where it is or may be several: `3 alike (2 to 6)`, `perhaps 2 heats`."""
    value, low, high = count_of(times)
    if high <= 1:
        return ""
    if value == 1:
        return f"perhaps {high} heats"
    return f"{value} alike" if low == high else f"{value} alike ({low} to {high})"
