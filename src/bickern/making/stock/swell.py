"""Where a piece wants more metal than its bar has, and whether that is an upset that a smith would make."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby
from math import sqrt

from bickern.iron.section import area
from bickern.making.stock.alike import ALMOST
from bickern.measure.known import Known
from bickern.measure.source import COMMON_PRACTICE
from bickern.parts.bar.result import BarResult, MetalRun
from bickern.parts.bar.rules import A_LITTLE, UPSET_AT_ONCE
from bickern.parts.bar.says import both

MOST_UPSET = Known(1.5, "1", COMMON_PRACTICE)
"""An end is upset to so many times its width and no further (a club's standard for apprentices asks for 1 1/2)."""
_DUST = 1e-9


@dataclass(frozen=True, slots=True)
class Swell:
    """A stretch thicker than the bar: name, how much wider (as a ratio), the bar it takes in thicknesses, at an end."""

    name: str
    wider: float
    free: float
    at_end: bool
    long: float

    @property
    def little(self) -> bool:
        """Whether the peen finds it, or it shows as a size a little bare."""
        more = self.wider**2 - 1
        return more <= ALMOST.value or (more <= A_LITTLE and self.free <= UPSET_AT_ONCE)

    @property
    def sensible(self) -> bool:
        """Whether a smith upsets it in one go, at an end."""
        return self.at_end and self.wider <= MOST_UPSET.value * (1 + _DUST) and self.free <= UPSET_AT_ONCE


def swells_of(bar: BarResult) -> tuple[Swell, ...]:
    """The stretches that want more metal than the bar has over their length."""
    return tuple(_swells(bar))


def _swells(bar: BarResult) -> Iterator[Swell]:
    have = area(bar.stock_section)
    for bigger, group in groupby(bar.runs, key=lambda run: _most(run) > have * (1 + _DUST)):
        if bigger:
            yield _swell(bar, list(group), have)


def _swell(bar: BarResult, part: list[MetalRun], have: float) -> Swell:
    thick = min(bar.stock_section.width, bar.stock_section.thick)
    at_end = part[0].start <= _DUST or part[-1].end >= bar.length - _DUST
    name = max(part, key=_most).name or next((run.name for run in part if run.name), "")
    free = sum(run.volume for run in part) / have / thick
    return Swell(name, sqrt(max(map(_most, part)) / have), free, at_end, part[-1].end - part[0].start)


def _most(run: MetalRun) -> float:
    """The most metal a metre of a run holds [m2]: of an end with an outline, what it holds on the mean."""
    if run.outline is None:
        return max(area(run.a), area(run.b))
    return run.volume / (run.end - run.start) if run.end - run.start > _DUST else 0.0


def not_upset(bar: BarResult, asked: BarResult | None) -> str:
    """Why a smith would not make it of this bar; "" where nothing is upset beyond sense, or beyond what is asked."""
    worst = max((s.wider for s in swells_of(asked)), default=1.0) if asked is not None else 1.0
    bad = [s for s in swells_of(bar) if not s.little and not s.sensible and s.wider > worst * (1 + _DUST)]
    return _why(max(bad, key=lambda s: s.wider)) if bad else ""


def _why(swell: Swell) -> str:
    what = f"“{swell.name}”" if swell.name else f"{both(swell.long)} of it"
    times = f"{what} wants upsetting to {swell.wider:.2f} times the bar's width"
    if swell.wider > MOST_UPSET.value:
        return f"too thin: {times}, more than {MOST_UPSET.value:g}"
    if not swell.at_end:
        return f"too thin: {times}, in the middle of the bar"
    return f"too thin: {times}, over {swell.free:.1f} thicknesses of bar at once: it buckles"


def upset_said(bar: BarResult) -> tuple[str, ...]:
    """What is upset, in words."""
    told = []
    for swell in swells_of(bar):
        if not swell.little:
            what = f"“{swell.name}”" if swell.name else "the end"
            told.append(
                f"upset {what} first, {swell.free:.1f} thicknesses of bar, to {swell.wider:.2f} times its width"
            )
    return tuple(told)
