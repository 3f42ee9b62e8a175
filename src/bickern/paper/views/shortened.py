"""Long plain iron made shorter in a picture, so that what is worked on is drawn large enough to be read."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from bickern.parts.bar.resolve import same_section
from bickern.parts.bar.result import MetalRun
from bickern.parts.bar.stage import Stage

Stretch = tuple[float, float]
STUB = 1.5
"""Plain iron that is left on each side of a break, in thicknesses of the bar."""
WORTH = 3.0
"""The least that a break is made for, in thicknesses of the bar."""
STEPS = (0.0, 0.25, 0.5, 0.75, 1.0)
"""Shares of all that could be left out that are tried, the least first."""


@dataclass(frozen=True, slots=True)
class Breaks:
    """What is left out of a picture, as stretches of the finished bar [m], and the scale that this gives."""

    left_out: tuple[Stretch, ...]
    scale: float


def breaks(free: Sequence[Stretch], fits: Callable[[tuple[Stretch, ...]], float], wanted: float) -> Breaks:
    """As little left out as will do for the `wanted` scale; `fits` says which scale goes into the room.

    The more is left out, the larger the scale, so that the share is found by halves.
    """
    whole = Breaks((), fits(()))
    if whole.scale >= wanted or not free:
        return whole
    low, high = 1, len(STEPS) - 1
    best = _with(free, STEPS[high], fits)
    while low < high:
        middle = (low + high) // 2
        found = _with(free, STEPS[middle], fits)
        if found.scale >= wanted:
            high, best = middle, found
        else:
            low = middle + 1
    return best


def _with(free: Sequence[Stretch], share: float, fits: Callable[[tuple[Stretch, ...]], float]) -> Breaks:
    out = tuple(_middle(one, share) for one in free)
    return Breaks(out, fits(out))


def _middle(stretch: Stretch, share: float) -> Stretch:
    cut = (1 - share) * (stretch[1] - stretch[0]) / 2
    return stretch[0] + cut, stretch[1] - cut


def plain_iron(stage: Stage, taken: Sequence[Stretch], length: float) -> tuple[Stretch, ...]:
    """Stretches of the finished bar, `length` [m] long, that are of one section and have none of `taken` on them.

    `taken` is told on the bar as it lies [m]: what is hot, bent, twisted, pierced or held.
    """
    thick = max(stage.bar.stock_section.width, stage.bar.stock_section.thick)
    bent = [(bend.start, bend.end) for bend in stage.bar.bends]
    free = [gap for run in stage.bar.runs if _even(run) for gap in _gaps(run, [*taken, *bent])]
    inside = [(low + STUB * thick, high - STUB * thick) for low, high in free]
    told = [(max(0.0, stage.back(low)), min(length, stage.back(high))) for low, high in inside]
    return tuple((a, b) for a, b in told if b > a and stage.at(b) - stage.at(a) > WORTH * thick)


def _even(run: MetalRun) -> bool:
    return run.outline is None and same_section(run.a, run.b) and run.offset_a == run.offset_b


def _gaps(run: MetalRun, taken: Sequence[Stretch]) -> list[Stretch]:
    """What is free of a stretch of metal."""
    gaps, at = [], run.start
    for low, high in sorted(taken):
        if low > at:
            gaps.append((at, min(low, run.end)))
        at = max(at, high)
    gaps.append((at, run.end))
    return [(low, high) for low, high in gaps if high > low]
