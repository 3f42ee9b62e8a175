"""Flat parts of any shape laid on sheets of any shape, searched for and then checked exactly."""

from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import replace

from bickern.geometry.pack.child import Lost
from bickern.geometry.pack.shapes.alone import Asked, alone, nothing
from bickern.geometry.pack.shapes.asked import Part, Remnant, Spacing
from bickern.geometry.pack.shapes.check import faults_of
from bickern.geometry.pack.shapes.filled import better, filled, seconds_for
from bickern.geometry.pack.shapes.hands import by_hands, words
from bickern.geometry.pack.shapes.result import Nest
from bickern.geometry.pack.shapes.room import able
from bickern.geometry.pack.shapes.squared import squared
from bickern.geometry.pack.shapes.unfit import Fair, fair

EFFORT = 30_000
"""Moves of one part that a nest may take, all tries together, in each of the two searches."""
FEW, FIRST = 24, 4
"""So few copies are first tried here, with so many moves a copy: most of them need no other process."""
SHORTER = 20
"""Where sheets may be filled as strips, that is asked after so many times fewer moves."""

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

    (Of sheets filled as strips: wherever the machine is quick enough to find that in its time.) `effort` counts moves
    of a part; `keep_going` is asked many times a second, and a search it ends says so. A part or sheet that is none,
    by its outline or its numbers, is left out and named in `why`, and the rest is laid.
    """
    wanted = tuple(part for part in parts if part.count > 0)
    sound = fair(wanted, remnants, spacing)
    made, says = nothing(()), sound.says
    if sound.parts and sound.remnants and sound.spacing is not None:
        made, more = _able_laid(sound, sound.spacing, seed, effort, keep_going, report)
        says = (*says, *more)
    return _with(made, wanted, says)


def _able_laid(
    sound: Fair, spacing: Spacing, seed: int, effort: int, keep_going: KeepGoing, report: Report
) -> tuple[Nest, list[str]]:
    """A nest of the parts that some sheet may have room for, and in words which of the others have none."""
    can = able(sound.parts, sound.remnants, spacing.margin)
    says = [f"larger than every sheet: {', '.join(can.large)}"] if can.large else []
    says += [f"no room within the edges of any sheet: {', '.join(can.roomless)}"] if can.roomless else []
    if not can.parts:
        return nothing(()), says
    return _found(Asked(can.parts, can.remnants, spacing, seed, effort), keep_going, report), says


def _found(asked: Asked, keep_going: KeepGoing, report: Report) -> Nest:
    """Rectangles side by side if they all go so, then a short try here, then a longer search."""
    if not keep_going():
        return nothing(asked.parts, True)
    exact = squared(asked.parts, asked.remnants, asked.spacing)
    if exact is not None and not faults_of(exact, asked.parts, asked.remnants, asked.spacing):
        return exact
    light = min(asked.effort, FIRST * FEW)
    if sum(part.count for part in asked.parts) <= FEW:
        made = _alone(replace(asked, effort=light), keep_going, report)
        if not made.short or made.cut_short or asked.effort <= light:
            return made
    return _searched(asked, keep_going, report)


def _searched(asked: Asked, keep_going: KeepGoing, report: Report) -> Nest:
    """By processes of their own. Where sheets may be filled as strips: a short search, then strips, then a long one."""
    if not seconds_for(asked):
        return _by_hands(asked, keep_going, report)
    made = _by_hands(replace(asked, last=asked.effort // SHORTER), keep_going, report)
    made = filled(asked, made, keep_going, report)
    if not made.short or made.cut_short:
        return made
    return better(asked, made, _by_hands(asked, keep_going, report))


def _by_hands(asked: Asked, keep_going: KeepGoing, report: Report) -> Nest:
    """By two searches in processes of their own; here, where both were lost."""
    found = by_hands(asked, keep_going, report)
    if isinstance(found, Lost):
        why = f"searched here: the process for it was lost ({found.why})"
        return replace(_alone(asked, keep_going, report), why=why)
    return found


def _with(made: Nest, wanted: Sequence[Part], says: Sequence[str]) -> Nest:
    """The nest with every part short that was not tried, and what else is to be said."""
    left = Counter[str]()
    for part in wanted:
        left[part.key] += part.count
    left -= Counter(one.part for one in made.laid)
    left -= Counter(dict(made.short))
    short = (*made.short, *left.items())
    return replace(made, short=short, why="; ".join(one for one in (made.why, *says) if one))


def _alone(asked: Asked, keep_going: KeepGoing, report: Report) -> Nest:
    """One search in this process."""

    def heard(made: Nest | None, moves: int) -> None:
        if made is not None:
            report(words(asked, made))

    return alone(asked, keep_going, heard)[0]
