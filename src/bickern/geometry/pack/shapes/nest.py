"""Flat parts of any shape laid on sheets of any shape, searched for and then checked exactly."""

from collections.abc import Callable, Sequence
from dataclasses import replace

from bickern.geometry.pack.child import Lost
from bickern.geometry.pack.shapes.alone import Asked, alone, nothing
from bickern.geometry.pack.shapes.asked import Part, Remnant, Spacing
from bickern.geometry.pack.shapes.hands import by_hands, words
from bickern.geometry.pack.shapes.result import Nest

EFFORT = 30_000
"""Moves of one part that a nest may take, all tries together, in each of the two searches."""
FEW, FIRST = 24, 4
"""So few copies are first tried here, with so many moves a copy: most of them need no other process."""

KeepGoing = Callable[[], bool]
Report = Callable[[str], None]


def nest(
    parts: Sequence[Part],
    remnants: Sequence[Remnant],
    spacing: Spacing,
    *,
    seed: int = 1,
    effort: int = EFFORT,
    keep_going: KeepGoing = lambda: True,
    report: Report = lambda says: None,
) -> Nest:
    """Lays as much of the parts as it can on the cheapest sheets it can; the same seed gives the same nest.

    `effort` counts moves of a part; `keep_going` is asked many times a second, and a search it ends says so.
    """
    wanted = tuple(part for part in parts if part.count > 0)
    if not wanted or not remnants:
        return nothing(wanted)
    if not keep_going():
        return nothing(wanted, True)
    asked = Asked(wanted, tuple(remnants), spacing, seed, effort)
    if sum(part.count for part in wanted) <= FEW:
        made = _alone(replace(asked, effort=min(effort, FIRST * FEW)), keep_going, report)
        if not made.short or made.cut_short or effort <= FIRST * FEW:
            return made
    found = by_hands(asked, keep_going, report)
    if isinstance(found, Lost):
        why = f"searched here: the process for it was lost ({found.why})"
        return replace(_alone(asked, keep_going, report), why=why)
    return found


def _alone(asked: Asked, keep_going: KeepGoing, report: Report) -> Nest:
    """One search in this process."""

    def heard(made: Nest | None, moves: int) -> None:
        if made is not None:
            report(words(asked, made))

    return alone(asked, keep_going, heard)[0]
