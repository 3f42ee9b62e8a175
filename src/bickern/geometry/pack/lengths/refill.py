"""Bars filled anew, a few at a time, till all cuts are placed: it finds what the search in order comes upon late.

That search fills bar after bar till the last few do not come out, and turns over these alone. Here a few of those that
are filled, drawn by lot, are filled again together with those that are not, out of all their cuts. Whatever leaves no
more bars open is taken up for the next try.
"""

from collections.abc import Sequence

import numpy as np

from bickern.geometry.pack.lengths.filling import Look, OutOfStepsError, Room, Steps, straight_through
from bickern.geometry.pack.lengths.whole import Pattern, without

A_TRY, BESIDE = 2000, 150
"""Steps of a try, at least; and what it counts for besides those it takes."""
DRAWN = (3, 6, 12)
"""How many of the bars that are filled it takes, one of these by lot."""


def refilled(look: Look, wants: Sequence[int], used: int, steps: int) -> list[Pattern] | None:
    """A pattern for each bar, the last bar's first, from as far as a search has come; None: not found in such steps.

    `used`: what may be used at most of the bars behind those that are to be filled.
    """
    draw = np.random.default_rng(len(wants))
    first = look.first
    patterns = dict(enumerate(look.furthest))
    rooms = [Room(size, least) for size, least in zip(look.sizes, look.least, strict=True)]
    while steps > 0 and patterns:
        drawn = {int(b) for b in draw.choice(sorted(patterns), min(draw.choice(DRAWN), len(patterns)), replace=False)}
        bars = [b for b in range(first) if b not in patterns or b in drawn]
        rest = without(wants, *(pattern for b, pattern in patterns.items() if b not in drawn))
        most = max(A_TRY, straight_through(look.cuts, max(look.sizes), len(bars)))
        anew = Look(look.cuts, [*(rooms[b] for b in bars), *rooms[first:]], len(bars), look.short, Steps(most))
        waste = sum(look.sizes[b] for b in bars) + min(used, sum(look.sizes[first:])) - anew.end_to_end(rest)
        try:
            found = anew.filled(tuple(rest), 0, waste, 0)
        except OutOfStepsError:
            found = None
        if found is not None:
            behind = len(rooms) - first
            patterns.update(zip(bars, reversed(found[behind:]), strict=True))
            return [*found[:behind], *(patterns[b] for b in reversed(range(first)))]
        steps -= BESIDE + most - max(0, anew.steps.left)
        if len(anew.furthest) >= len(drawn):
            for b in drawn:
                del patterns[b]
            patterns.update(zip(bars, anew.furthest, strict=False))
    return None
