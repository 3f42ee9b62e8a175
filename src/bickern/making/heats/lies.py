"""The bar as it lies between two works: what is done, where places of the finished bar are now, what metal is there."""

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property

from bickern.iron.section import Section
from bickern.making.work.result import Work
from bickern.measure.known import Known
from bickern.measure.source import COMMON_PRACTICE
from bickern.parts.bar.result import BarResult, MetalRun
from bickern.parts.bar.stage import Done, Stage, stage_of
from bickern.parts.set.places import section_at_place

NOTHING = Done()
FRAIL = Known(0.003, "m", COMMON_PRACTICE)
"""Forged metal thinner than this is not gripped if there is stouter, and is kept out of a fire that is not for it."""
_AT_END = 1e-6


def done_by(works: Iterable[Work], before: Done = NOTHING) -> Done:
    """What these works leave done, by number in the bar's result, with what was done `before` them."""
    every = tuple(works)
    return Done(
        before.runs.union(*(w.runs for w in every)),
        before.bends.union(*(w.bends for w in every)),
        before.twists.union(*(w.twists for w in every)),
        before.holes.union(*(w.holes for w in every)),
    )


@dataclass(frozen=True)
class Lying:
    """One bar (or limb) and what is done to it so far; without slots, so that its stage is laid out once."""

    result: BarResult
    done: Done = NOTHING

    def after(self, works: Iterable[Work]) -> "Lying":
        """The bar with these works done too."""
        done = done_by(works, self.done)
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

    def to_the_ends(self, zone: tuple[float, float]) -> tuple[float, float]:
        """A zone [m] of the finished bar, on to the very end where it comes to one: what a weld takes lies beyond it.

        Behind the other end lies also what split ends and a grip are made of: there it goes no farther.
        """
        start, end = zone
        if start <= _AT_END:
            start = min(start, self.stage.back(0.0))
        behind = self.result.grip > 0.0 or any(branch.at is None for branch in self.result.spec.branches)
        if end >= self.result.length - _AT_END and not behind:
            end = max(end, self.stage.back(self.length))
        return start, end

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
