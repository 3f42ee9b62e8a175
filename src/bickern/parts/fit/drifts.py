"""Which drifts or drills make a thing free, and which do not: the sizes about the one that is needed."""

from collections.abc import Callable, Sequence
from math import floor

from bickern.measure.units.words import INCH, MILLIMETRE, Style, System
from bickern.parts.fit.result import FitWord
from bickern.parts.fit.words import FREE_FROM, moving, said_short, said_size
from bickern.parts.joint.holes import SAME

FINE_TO = {System.INCH: INCH, System.MM: 14 * MILLIMETRE}
"""Up to here [m] sizes go by the fine step, from here on by twice that (common practice)."""
STEP = {System.INCH: INCH / 32, System.MM: MILLIMETRE / 2}
"""Fine step [m] of drifts and drills (common practice)."""
MOST = 4
"""Sizes told of at most."""

Tried = tuple[tuple[float, str], ...]


def about(needed: float, style: Style, mine: Sequence[float] = ()) -> tuple[float, ...]:
    """Sizes [m], small to large: the largest that jams, those that only just clear, the smallest that is free.

    `mine` [m]: the shop's own drifts, where its file tells them; else whole steps of the shop's system.
    """
    row = sorted(mine) if mine else _steps(needed, style.first)
    jams = [size for size in row if size <= needed + SAME][-1:]
    clears = [size for size in row if needed + SAME < size < needed + FREE_FROM.value - SAME]
    frees = [size for size in row if size >= needed + FREE_FROM.value - SAME][:1]
    return (*jams, *clears[-(MOST - 2) :], *frees)


def tried(needed: float, style: Style, mine: Sequence[float] = (), does: Callable[[float], str] | None = None) -> Tried:
    """Sizes about the needed one [m], large to small, each with what a ring does in it, or what `does` says of it."""
    return tuple(
        (size, does(size) if does else _does(size - needed, style)) for size in reversed(about(needed, style, mine))
    )


def told(found: Tried, tool: str, style: Style) -> str:
    """`9/16 drift: swings; 17/32: will bind, clear by .003; 1/2: jams by 1/32 (.028)`."""
    names = [said_size(size, style) for size, _ in found]
    lines = [f"{name}: {does}" for name, (_, does) in zip(names, found, strict=True)]
    return "; ".join((lines[0].replace(":", f" {tool}:", 1), *lines[1:])) if lines else ""


def _does(margin: float, style: Style) -> str:
    word = moving(margin)
    if word is FitWord.FREE:
        return "swings"
    much = said_short(margin, style)
    if abs(margin) <= SAME:
        return "is filled"
    return f"jams by {much}" if word is FitWord.NO else f"{word}, clear by {much}"


def _steps(needed: float, system: System) -> list[float]:
    """Whole steps from just below what is needed to where a thing is free."""
    step = STEP[system] * (1 if needed < FINE_TO[system] else 2)
    first = floor(needed / step + SAME)
    return [step * k for k in range(max(1, first), first + 2 + int(FREE_FROM.value / step) + 1)]
