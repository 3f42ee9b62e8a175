"""How wide and how thick a drawn bar is at each place, and its section's outline there."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import pairwise
from typing import TYPE_CHECKING

from bickern.iron.section import Section, outline
from bickern.measure.units.words import Shape
from bickern.parts.bar.result import BarResult, MetalRun
from bickern.parts.bar.tracks import EndOutline, EndShape

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

FINE = 24
"""Steps along an end with a curved outline."""


@dataclass(frozen=True, slots=True)
class Size:
    """Section sizes at one place [m]: across and up, and where its middle lies off the line (left, up)."""

    width: float
    thick: float
    left: float = 0.0
    up: float = 0.0


def run_at(runs: Sequence[MetalRun], s: float) -> MetalRun:
    """The run that holds the place `s` [m]; at a boundary the one that begins there."""
    return next((run for run in runs if s < run.end - 1e-12), runs[-1])


def size_in(run: MetalRun, s: float) -> Size:
    """Width and thickness in a run at `s` [m] along the finished bar; straight-sided between its ends."""
    length = run.end - run.start
    share = 0.0 if length <= 0 else min(1.0, max(0.0, (s - run.start) / length))
    left, up = (a + (b - a) * share for a, b in zip(run.offset_a, run.offset_b, strict=True))
    if run.outline is not None:
        return Size(run.outline.width * widening(run.outline, share, tip_first(run)), run.outline.thick, left, up)
    width = run.a.width + (run.b.width - run.a.width) * share
    return Size(width, run.a.thick + (run.b.thick - run.a.thick) * share, left, up)


def widening(end: EndOutline, share: float, tip_first: bool) -> float:
    """Share of the full width at `share` of the length.

    An outline is told from the bar to its tip, so `tip_first` turns it round.
    """
    u = 1.0 - share if tip_first else share
    match end.shape:
        case EndShape.LEAF:
            return 4 * u * (1 - u)
        case EndShape.SPADE:
            return 1.0 if u <= 0.5 else 1 - (2 * u - 1) ** 2
        case EndShape.SPOON:
            return 2 * math.sqrt(max(0.0, u * (1 - u)))
        case EndShape.FREE:
            return _between(end.profile, u)


def _between(profile: Sequence[tuple[float, float]], u: float) -> float:
    for (a, wa), (b, wb) in pairwise(profile):
        if a <= u <= b:
            return wa + (wb - wa) * ((u - a) / (b - a) if b > a else 0.0)
    return profile[-1][1] if profile else 1.0


def necked(result: BarResult) -> BarResult:
    """The same bar for drawing: an end that its outline brings to nothing at the bar is as wide there as the bar."""
    runs = list(result.runs)
    for i, run in enumerate(runs):
        beside = runs[i + 1].a if tip_first(run) and i + 1 < len(runs) else runs[i - 1].b if i > 0 else None
        if run.outline is not None and beside is not None:
            runs[i] = replace(run, outline=_with_neck(run.outline, beside.width))
    return replace(result, runs=tuple(runs))


def _with_neck(end: EndOutline, width: float) -> EndOutline:
    least = min(1.0, width / end.width) if end.width > 0 else 0.0
    steps = 2 * FINE
    shares = [(i / steps, widening(end, i / steps, tip_first=False)) for i in range(steps + 1)]
    profile = tuple((u, max(share, least) if u < 0.5 else share) for u, share in shares)
    return replace(end, shape=EndShape.FREE, profile=profile)


def places(result: BarResult) -> tuple[float, ...]:
    """Where the sections must be drawn [m]: ends of runs, and steps along ends with an outline."""
    found: list[float] = []
    for run in result.runs:
        steps = FINE if run.outline is not None else 1
        found += [run.start + (run.end - run.start) * i / steps for i in range(steps + 1)]
    return tuple(found)


def tip_first(run: MetalRun) -> bool:
    """Whether the run's start is the datum end of the bar."""
    return run.start <= 1e-9


def section_points(run: MetalRun, places: Sequence[float]) -> "NDArray[np.float64]":
    """The section's outlines at places [m] of a run in (left, up) [m] of the bar, 48 points each, turned by its roll.

    Array of places by points by 2.
    """
    import numpy as np

    s = np.asarray(places, dtype=float)[:, None, None]
    share = (s - run.start) / (run.end - run.start) if run.end > run.start else np.zeros_like(s)
    if run.outline is not None:
        sizes = [size_in(run, at) for at in places]
        points = _unit_flat() * np.array([(size.width, size.thick) for size in sizes])[:, None, :]
    else:
        points = (1 - share) * _outline(run.a) + share * _outline(run.b)
    points = points + np.array(run.offset_a) + np.clip(share, 0.0, 1.0) * np.subtract(run.offset_b, run.offset_a)
    c, sine = math.cos(run.roll), math.sin(run.roll)
    turned: NDArray[np.float64] = points @ np.array([[c, sine], [-sine, c]])
    return turned


@lru_cache(maxsize=256)
def _outline(section: Section) -> "NDArray[np.float64]":
    return outline(section, 48)


def _unit_flat() -> "NDArray[np.float64]":
    return _outline(Section(Shape.FLAT, 1.0, 1.0))


def stoutest(result: BarResult) -> float:
    """The largest width or thickness anywhere on the bar [m]."""
    return max(max(r.a.width, r.a.thick, r.b.width, r.b.thick, *_spread_end(r)) for r in result.runs)


def _spread_end(run: MetalRun) -> tuple[float, float]:
    return (run.outline.width, run.outline.thick) if run.outline is not None else (0.0, 0.0)


def as_drawn(bar: BarResult) -> BarResult:
    """The straight bar as it is marked: a welded hoop is longer than its line by half the weld's metal at each end."""
    if not (bar.spec.closed and bar.weld > 0):
        return bar
    half, last = bar.weld / 2, len(bar.runs) - 1
    runs = tuple(
        replace(r, start=r.start + (half if i else 0.0), end=r.end + half + (half if i == last else 0.0))
        for i, r in enumerate(bar.runs)
    )
    holes = tuple(replace(check, at=check.at + half) for check in bar.holes)
    twists = tuple(replace(check, start=check.start + half, end=check.end + half) for check in bar.twists)
    return replace(bar, runs=runs, holes=holes, twists=twists, length=bar.length + bar.weld)
