"""What a few bars waste together at least: they want the same short cuts, and there are not enough of these for all.

Where bars cannot be filled, mostly a few short ones are to blame, that cost little and are in nearly every choice. What
these waste together says something of every choice that has all of them.
"""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from bickern.geometry.pack.lengths.bars import Carried
from bickern.geometry.pack.lengths.filling import Look, OutOfStepsError, Room, Steps
from bickern.geometry.pack.lengths.given import Taken
from bickern.geometry.pack.lengths.whole import Whole

BARS = 8
"""The shortest bars that are looked at together, at most."""
STEPS = 3000
"""Steps of each such look."""


def joint(whole: Whole, row: Carried, taken: Taken, waste: int) -> Carried | None:
    """What bars carry by lengths (`row`), less what a few of those taken waste together besides.

    They are sought among the shortest whose drops are lost, such that they cannot all be filled with so much waste.
    None: not seen. Where one of them is not taken, no more is said than before.
    """
    bars = _first(whole, taken, waste) if waste >= 0 else []
    for b in bars[:-1]:
        if _more(whole, [one for one in bars if one != b], waste):
            bars.remove(b)
    while bars and _more(whole, bars, 2 * waste + 1):
        waste = 2 * waste + 1
    share = float(row.worths[0]) / whole.cuts[0]
    each = sum(whole.counts[b] * (whole.rooms[b] * share - float(row.lost[b])) for b in bars)
    besides = (waste + 1) * share - each
    if not bars or besides <= 0.0:
        return None
    lost = row.lost.copy()
    lost[bars] -= besides
    return replace(row, lost=lost, more=row.more - besides * (sum(whole.counts[b] for b in bars) - 1))


def _first(whole: Whole, taken: Taken, waste: int) -> list[int]:
    """The shortest of those kinds of which all are taken, as many as it takes to waste more; none: not seen."""
    kinds = [int(b) for b in np.argsort(whole.rooms, kind="stable") if 0 < taken.lost[b] == whole.counts[b]]
    for n in range(1, min(BARS, len(kinds)) + 1):
        more = _more(whole, kinds[:n], waste)
        if more is None:
            return []
        if more:
            return kinds[:n]
    return []


def _more(whole: Whole, kinds: Sequence[int], waste: int) -> bool | None:
    """Whether all bars of these kinds waste more than that together, whatever cuts are in them; None: not seen."""
    rooms = [Room(whole.rooms[b]) for b in kinds for _ in range(whole.counts[b])]
    behind = Room(sum(cut * want for cut, want in zip(whole.cuts, whole.wants, strict=True)))
    look = Look(whole.cuts, [*rooms, behind], len(rooms), 0, Steps(STEPS))
    try:
        return look.filled(tuple(whole.wants), 0, waste, 0) is None
    except OutOfStepsError:
        return None
