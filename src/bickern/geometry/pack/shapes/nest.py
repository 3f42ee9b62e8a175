"""Flat parts of any shape laid on sheets of any shape, searched for and then checked exactly."""

import math
from collections.abc import Callable, Sequence
from dataclasses import replace

from bickern.geometry.blank import fits_in, sizes_turned
from bickern.geometry.pack.child import Lost
from bickern.geometry.pack.shapes.alone import Asked, alone, nothing
from bickern.geometry.pack.shapes.asked import Part, Remnant, Spacing
from bickern.geometry.pack.shapes.check import faults_of
from bickern.geometry.pack.shapes.hands import by_hands, words
from bickern.geometry.pack.shapes.result import Nest
from bickern.geometry.pack.shapes.squared import squared
from bickern.geometry.pack.shapes.turns import room_on

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
    rooms = [room_on(one, spacing.margin) for one in remnants]
    able = tuple(part for part in wanted if any(_goes(part, *room) for room in rooms))
    made = nothing(able)
    if able:
        made = _found(Asked(able, tuple(remnants), spacing, seed, effort), keep_going, report)
    return _with(made, [part for part in wanted if part not in able])


def _found(asked: Asked, keep_going: KeepGoing, report: Report) -> Nest:
    """Rectangles side by side if they all go so, then a short try here, then a search in processes of their own."""
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
    found = by_hands(asked, keep_going, report)
    if isinstance(found, Lost):
        why = f"searched here: the process for it was lost ({found.why})"
        return replace(_alone(asked, keep_going, report), why=why)
    return found


def _goes(part: Part, wide: float, tall: float) -> bool:
    """Whether a part is no larger than the box of a sheet, at one of its turns."""
    if min(wide, tall) <= 0:
        return False
    turns = (0.0, math.pi / 2) if part.turns is None else part.turns
    if any(w <= wide and t <= tall for w, t in (sizes_turned(part.outline, turn) for turn in turns)):
        return True
    return part.turns is None and fits_in(part.outline, wide, tall).fits


def _with(made: Nest, too_large: Sequence[Part]) -> Nest:
    """The nest with the parts named short that no sheet is large enough for."""
    if not too_large:
        return made
    large = f"larger than every sheet: {', '.join(part.key for part in too_large)}"
    short = (*made.short, *((part.key, part.count) for part in too_large))
    return replace(made, short=short, why=f"{made.why}; {large}" if made.why else large)


def _alone(asked: Asked, keep_going: KeepGoing, report: Report) -> Nest:
    """One search in this process."""

    def heard(made: Nest | None, moves: int) -> None:
        if made is not None:
            report(words(asked, made))

    return alone(asked, keep_going, heard)[0]
