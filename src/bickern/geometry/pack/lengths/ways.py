"""The best plan with bars that are given, by all ways to place the cuts; or the proof that there is none.

Where the drop of one bar is kept, it is one bar more to be filled: so much of it may be used as the cost allows. Where
several are kept, cuts that are left go into these in any way that fits.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from bickern.geometry.pack.lengths.bounds import shortest
from bickern.geometry.pack.lengths.filling import Room, Steps, straight_through
from bickern.geometry.pack.lengths.given import Taken
from bickern.geometry.pack.lengths.placing import place
from bickern.geometry.pack.lengths.search import SMALL
from bickern.geometry.pack.lengths.short import left_out
from bickern.geometry.pack.lengths.solver import Aim
from bickern.geometry.pack.lengths.whole import Load, Pattern, Sharing, Whole, kept_rooms, shared, slack

GLANCE = 15_000
"""Steps of a short look, at least."""
SETS = 40
"""Sets of cuts that may be short, at most, that are looked at one by one."""
KEPT = 2
"""Bars kept, at most, beside which others are filled anew."""


@dataclass(frozen=True, slots=True)
class Sought:
    """The best plan with these bars so far (None: none), what a better one may cost, and the bound; all looked at."""

    plan: Sharing | None
    limit: float
    bound: float
    through: bool = False

    def better(self, whole: Whole, plan: Sharing | None) -> "Sought":
        """With this plan, if it is one that costs no more than it may."""
        if plan is None or plan.cost > self.limit + slack(self.limit):
            return self
        return replace(self, plan=plan, limit=plan.cost - (0.5 * whole.step or slack(plan.cost)))


def all_ways(whole: Whole, aim: Aim, taken: Taken, sought: Sought, steps: int, again: int = 0) -> Sought:
    """The best plan with just these bars that costs no more than it may, or none; in about so many steps at most.

    `again`: steps to fill bars anew for, if that is not enough.
    """
    bars = _Bars(whole, aim, taken, steps, again if taken.kept.sum() <= KEPT else 0)
    return bars.halved(sought) if taken.kept.any() else bars.once(sought)


def glanced(whole: Whole, aim: Aim, taken: Taken, sought: Sought, times: int = 1) -> Sought:
    """The same by a short look, in which bars can be filled one after another, though; or one so many times longer."""
    bars = int(taken.lost.sum() + taken.kept.sum())
    steps = times * max(GLANCE, 2 * straight_through(whole.cuts, max(whole.rooms), bars))
    return all_ways(whole, aim, taken, sought, steps, 0 if sum(whole.wants) <= SMALL else steps)


class _Bars:
    """Bars that are given, and the steps there are."""

    def __init__(self, whole: Whole, aim: Aim, taken: Taken, steps: int, again: int) -> None:
        self.whole = whole
        self.aim = aim
        self.lost = [int(b) for b in np.repeat(np.arange(len(taken.lost)), taken.lost)]
        self.kept = taken.bins()
        self.fixed = taken.fixed(whole)
        self.most = steps
        self.steps = Steps(steps)
        self.again = again

    def once(self, sought: Sought) -> Sought:
        """Where no drop is kept, every plan costs the same."""
        through, plan = self.plan(0)
        if plan is not None:
            return replace(sought.better(self.whole, plan), bound=plan.cost, through=True)
        return replace(sought, bound=float("inf"), through=True) if through else sought

    def halved(self, sought: Sought) -> Sought:
        """Where drops are kept: what may be used of those bars at most, and from there halves of what is left."""
        worth = self.whole.worth
        none = max(0, math.ceil((sought.bound - self.fixed) / worth - 1e-6) - 1)  # a cut at least is in each
        most = math.floor((sought.limit - self.fixed) / worth + 1e-6)
        best: Sharing | None = None
        while none < most:
            goal = most if best is None else (none + most + 1) // 2
            through, plan = self.plan(goal)
            if plan is not None and plan.cost <= self.fixed + worth * (goal + 0.5):
                best = plan
                most = math.ceil((best.cost - self.fixed) / worth - 1e-6) - 1
            elif through and plan is None:
                none = goal
            else:
                break
        sought = sought.better(self.whole, best)
        if none < most:
            return replace(sought, bound=max(sought.bound, self.fixed + worth * (none + 1)))
        return replace(sought, bound=float("inf") if best is None else best.cost, through=True)

    def plan(self, goal: int) -> tuple[bool, Sharing | None]:
        """A plan that uses so much at most of bars kept (None: not found), and whether all ways were looked at."""
        whole, short = self.whole, self.aim.most_short
        rooms = kept_rooms(whole)
        fill = [Room(whole.rooms[b]) for b in self.lost]
        keep = [Room(rooms[b], 1) for b in self.kept]
        if len(keep) == 1:
            fill, keep = [*fill, Room(min(keep[0].size, goal), 1)], []
        bars, wanted = len(fill) + len(keep), sum(whole.wants)
        if short and wanted - short >= bars:  # then none needs to be in a bar that could be short as well
            total = sum(cut * want for cut, want in zip(whole.cuts, whole.wants, strict=True))
            room = sum(one.size for one in fill) + min(goal, sum(one.size for one in keep))
            sets = left_out(whole.cuts, whole.wants, short, total - room, SETS)
            if sets is not None:
                return self.each(sets, fill, keep, goal)
        if short:  # that the longest ones are short is the easiest, and mostly does
            wants = shortest(whole, sum(whole.wants) - short)
            easiest = place(whole.cuts, wants, fill, keep, goal, 0, Steps(self.most // 2), self.again // 2)
            if easiest.patterns is not None:
                return True, self.read(easiest.patterns)
        placed = place(whole.cuts, whole.wants, fill, keep, goal, short, self.steps, self.again)
        return placed.through, None if placed.patterns is None else self.read(placed.patterns)

    def each(
        self, sets: Sequence[Sequence[int]], fill: Sequence[Room], keep: Sequence[Room], goal: int
    ) -> tuple[bool, Sharing | None]:
        """The same, where it is known which cuts may be short: one set of them after another."""
        through = True
        for n, wants in enumerate(sets):
            parts = (len(sets) - n) if n or len(sets) == 1 else 2  # the longest short: mostly that does
            share, again = self.steps.left // parts, self.again // (len(sets) if n else parts)
            steps = Steps(share)
            placed = place(self.whole.cuts, wants, fill, keep, goal, 0, steps, again)
            if placed.patterns is not None:
                return True, self.read(placed.patterns)
            self.steps.left -= share - max(0, steps.left)
            through &= placed.through
        return through, None

    def read(self, patterns: Sequence[Pattern]) -> Sharing:
        """The plan of these patterns."""
        return shared(self.whole, map(Load, [*self.lost, *self.kept], patterns))
