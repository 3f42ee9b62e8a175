"""Figures by other published rules beside the shop's own: rounded alike, and told apart where they differ."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from bickern.desk.answer import Row
from bickern.measure.units.say import say_both, say_up, say_up_both
from bickern.measure.units.words import Style

Also = tuple[tuple[str, float, str], ...]
"""(label, length [m], source) by every other rule."""
SAME = 1e-6
"""Lengths nearer than this are one [m]: both rules say the same."""


@dataclass(frozen=True, slots=True)
class Beside:
    """Other figures for one of our own [m]; `cut`: that is a length to cut. `more`: figures for other parts of it."""

    also: Also
    ours: float = 0.0
    cut: bool = False
    more: Also = ()

    @property
    def others(self) -> Also:
        """Those that come to something else than ours."""
        return tuple(one for one in self.also if abs(one[1] - self.ours) > SAME)


def also_each(beside: Beside, style: Style) -> tuple[Row, ...]:
    """A row for each other rule, with its source."""
    say = _sayer(beside, style)
    others = tuple((f"also: {label}", f"{say(value)}: {why}") for label, value, why in beside.others)
    more = ((f"also: {label}", f"{say_both(value, style, fit=True)}: {why}") for label, value, why in beside.more)
    return (*others, *more)


def also_in_short(beside: Beside, style: Style) -> tuple[Row, ...]:
    """One row for all the other rules together; those for parts of it are left out."""
    say, others = _sayer(beside, style), beside.others
    if len(others) < 2:
        return tuple((f"also: {label}", say(value)) for label, value, _ in others)
    low, high = (way(value for _, value, _ in others) for way in (min, max))
    return ((f"{len(others)} other rules say", f"{say(low)} to {say(high)}"),)


def _sayer(beside: Beside, style: Style) -> Callable[[float], str]:
    """Up to the next mark of the tape, as what is cut is told; finer where that would make two rules look alike."""
    if beside.cut and _apart([beside.ours, *(value for _, value, _ in beside.others)], style):
        return lambda length: say_up_both(length, style)
    return lambda length: say_both(length, style, fit=True)


def _apart(lengths: Iterable[float], style: Style) -> bool:
    """Whether lengths that differ are told by different marks of the tape."""
    differ: list[float] = []
    for length in sorted(lengths):
        if not differ or length - differ[-1] > SAME:
            differ.append(length)
    return len({say_up(length, style) for length in differ}) == len(differ)
