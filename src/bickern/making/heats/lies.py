"""The bar as it lies between two works: what is done, where places of the finished bar are now, what metal is there."""

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property

from bickern.iron.section import Section
from bickern.making.work.result import Work
from bickern.parts.bar.result import BarResult, MetalRun
from bickern.parts.bar.stage import Done, Stage, stage_of
from bickern.parts.set.places import section_at_place

NOTHING = Done()
THIN = 0.003
"""Metres: forged metal thinner than this is not gripped if there is stouter (common practice)."""


@dataclass(frozen=True)
class Lying:
    """One bar (or limb) and what is done to it so far; without slots, so that its stage is laid out once."""

    result: BarResult
    done: Done = NOTHING

    def after(self, works: Iterable[Work]) -> "Lying":
        """The bar with these works done too."""
        runs, bends, twists, holes = self.done.runs, self.done.bends, self.done.twists, self.done.holes
        for work in works:
            runs, bends = runs.union(work.runs), bends.union(work.bends)
            twists, holes = twists.union(work.twists), holes.union(work.holes)
        done = Done(runs, bends, twists, holes)
        return self if done == self.done else Lying(self.result, done)

    @cached_property
    def stage(self) -> Stage:
        """Where everything is now."""
        return stage_of(self.result, self.done)

    @cached_property
    def length(self) -> float:
        """Length [m] of the bar along its own line as it is now."""
        return self.stage.bar.runs[-1].end

    def now(self, zone: tuple[float, float]) -> tuple[float, float]:
        """A zone [m] of the finished bar as it lies now, cut at the bar's ends."""
        return max(0.0, self.stage.at(zone[0])), min(self.length, self.stage.at(zone[1]))

    def section(self, now: float) -> Section:
        """The section at a place [m] of the bar as it is."""
        inside = min(max(now, 0.0), self.length)
        return section_at_place(self.stage.bar.runs, inside) or self.result.stock_section

    def finished(self) -> tuple[tuple[MetalRun, tuple[float, float]], ...]:
        """Stretches that are forged by now, and where they are now [m]."""
        made = [self.result.runs[i] for i in sorted(self.done.runs) if i < len(self.result.runs)]
        return tuple((run, self.now((run.start, run.end))) for run in made if not run.kept)


def thickness(section: Section) -> float:
    """The lesser of width and thickness [m]: what tongs close on."""
    return min(section.width, section.thick)
