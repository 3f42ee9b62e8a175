"""All cuts into bars that are given: found, or the proof that it cannot be."""

from collections.abc import Sequence
from dataclasses import dataclass

from bickern.geometry.pack.lengths.coarse import coarser
from bickern.geometry.pack.lengths.filling import Look, OutOfStepsError, Room, Steps
from bickern.geometry.pack.lengths.refill import refilled
from bickern.geometry.pack.lengths.sums import grain
from bickern.geometry.pack.lengths.whole import Pattern

BARS = 400
"""Bars, at most."""


@dataclass(frozen=True, slots=True)
class Placed:
    """A pattern for each bar, in the order they were given (None: not found), and whether that is settled."""

    patterns: tuple[Pattern, ...] | None
    through: bool


def place(
    cuts: Sequence[int],
    wants: Sequence[int],
    fill: Sequence[Room],
    keep: Sequence[Room],
    used: int,
    short: int,
    steps: Steps,
    again: int = 0,
) -> Placed:
    """Cuts into bars that are to be filled, all the others into those kept, of which so much is used at most.

    So many cuts may be `short`; then more may be used of bars kept than that. In so many steps at most, and so many
    to fill bars `again` where these are not enough. Where there are too many lengths to be told apart, cuts are taken
    for longer than they are: then none that is found is no proof.
    """
    if used >= sum(room.size for room in keep):  # nothing holds them back: they are bars like the others
        fill, keep = [*fill, *keep], []
    bars = [*fill, *keep]
    if len(bars) > BARS:
        return Placed(None, False)
    cuts, (used, *coarse) = coarser(tuple(cuts), tuple(wants), (used, *(room.size for room in bars)))
    unit = grain(max(coarse, default=0))
    sizes = [size // unit for size in coarse]
    first = sorted(range(len(fill)), key=lambda b: sizes[b])
    order = [*first, *sorted(range(len(fill), len(bars)), key=lambda b: sizes[b])]
    rooms = [Room(sizes[b], bars[b].least) for b in order]
    look = Look([-(-cut // unit) for cut in cuts], rooms, len(fill), short, steps)
    waste = sum(sizes[: len(fill)]) + min(used // unit, sum(sizes[len(fill) :])) - look.end_to_end(wants)
    try:
        found = look.filled(tuple(wants), 0, waste, 0) if waste >= 0 else None
    except OutOfStepsError:
        found = refilled(look, wants, used // unit, again)
        if found is None:
            return Placed(None, False)
    if found is None:
        return Placed(None, unit == 1)
    of = dict(zip(order, reversed(found), strict=True))
    return Placed(tuple(of[b] for b in range(len(order))), True)
