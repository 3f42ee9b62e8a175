"""Rectangular sheets filled as strips, where a search has left something short: the better of the two nests is kept."""

import math
from collections import Counter
from collections.abc import Callable
from dataclasses import replace

from bickern.geometry.pack.child import Lost
from bickern.geometry.pack.shapes.alone import Asked
from bickern.geometry.pack.shapes.hands import worth
from bickern.geometry.pack.shapes.result import Nest
from bickern.geometry.pack.shapes.strip import fill, is_rectangle
from bickern.geometry.polygon import area, bounds

A_MOVE = 4e-4
"""Seconds of filling for each move that a search may make."""
TRIES = 3
"""Sets of parts that are tried on each sheet, a second at least for each."""

KeepGoing = Callable[[], bool]
Report = Callable[[str], None]


def seconds_for(asked: Asked) -> float:
    """Seconds for filling the sheets as strips; 0 where a sheet is no rectangle, or where there is not one for each."""
    seconds = asked.effort * A_MOVE
    return seconds if seconds >= len(asked.remnants) and all(map(is_rectangle, asked.remnants)) else 0.0


def filled(asked: Asked, first: Nest, keep_going: KeepGoing, report: Report) -> Nest:
    """The better of a nest and one by strips, asked only where the first is short of something and was not cut short.

    A strip counts only where all that was tried goes on its sheet: the same seed then gives the same nest, where the
    machine finds it in time. A fill that was lost leaves the first nest, and says so.
    """
    seconds = seconds_for(asked)
    if not (seconds and first.short and not first.cut_short and _may_gain(asked, first) and keep_going()):
        return first
    tries = min(TRIES, int(seconds / len(asked.remnants)))
    sheets = sorted(asked.remnants, key=lambda one: (one.cost / abs(area(one.outline)), -abs(area(one.outline))))
    made = fill(
        asked.parts,
        sheets,
        asked.spacing,
        seed=asked.seed,
        seconds=seconds,
        shares=_shares(asked, first, tries),
        steady=True,
        keep_going=keep_going,
        report=report,
    )
    stopped = not keep_going()
    if isinstance(made, Lost):
        why = "" if stopped else f"filling as strips was lost ({made.why})"
        return replace(first, cut_short=stopped, why="; ".join(one for one in (first.why, why) if one))
    return replace(better(asked, first, made), cut_short=stopped and bool(made.short))


def better(asked: Asked, first: Nest, second: Nest) -> Nest:
    """The nest that is worth more, the first of two alike; cut short where the second one was."""
    best = first if worth(asked, first) >= worth(asked, second) else second
    return replace(best, cut_short=second.cut_short and bool(best.short))


def _may_gain(asked: Asked, first: Nest) -> bool:
    """Whether the sheets' area, their margin taken off, would hold what lies and one more of what is short."""
    short = dict(first.short)
    least = min(_area(asked, key) for key in short)
    room = 0.0
    for sheet in asked.remnants:
        (x0, y0), (x1, y1) = bounds(sheet.outline)
        room += max(0.0, x1 - x0 - 2 * asked.spacing.margin) * max(0.0, y1 - y0 - 2 * asked.spacing.margin)
    return _lying(asked, first) + least <= room * (1 + 1e-6)


def _shares(asked: Asked, first: Nest, tries: int) -> tuple[float, ...]:
    """Shares of the sheets' area from all that is asked, or all there is, down towards what the first nest fills."""
    room = math.fsum(abs(area(one.outline)) for one in asked.remnants)
    every = math.fsum(abs(area(part.outline)) * part.count for part in asked.parts)
    low, high = _lying(asked, first) / room, min(1.0, every / room)
    return tuple(high - (high - low) * n / tries for n in range(tries))


def _lying(asked: Asked, made: Nest) -> float:
    """Area within the outlines of what lies [m2]."""
    counts = Counter(one.part for one in made.laid)
    return math.fsum(_area(asked, key) * count for key, count in counts.items())


def _area(asked: Asked, key: str) -> float:
    return next(abs(area(part.outline)) for part in asked.parts if part.key == key)
