"""The best plan with bars that are given, some of them kept, by the few ways to fill the others that worths leave.

`ways` looks at lengths alone, this at what cuts are worth by the bound: the one is quick where the other is not.
"""

from dataclasses import dataclass, replace

import numpy as np

from bickern.geometry.pack.lengths.given import Lower, Taken
from bickern.geometry.pack.lengths.patterns import Columns, Floats, walk
from bickern.geometry.pack.lengths.plans import hopeless, rested
from bickern.geometry.pack.lengths.short import wanted
from bickern.geometry.pack.lengths.solver import Aim
from bickern.geometry.pack.lengths.together import Alike, Counts, Found, Tree
from bickern.geometry.pack.lengths.ways import Sought
from bickern.geometry.pack.lengths.whole import Sharing, Whole, kept_rooms, slack

SHARES = (1 / 64, 1 / 32, 1 / 16, 1 / 8, 1 / 4, 1 / 2, 1.0)
"""Shares of what a plan may cost over the bound, within which all ways are looked through in turn."""
MOST = 8000
"""Ways to fill bars, at most, of all bars together."""
UNSURE = 20
"""Times that the rest was not seen to go into the bars kept, after which no more ways are tried."""


def looked_through(whole: Whole, aim: Aim, taken: Taken, lower: Lower, sought: Sought, steps: int) -> Sought:
    """All ways to fill the bars, those that waste least first: what may be wasted grows till a plan is found."""
    base = max(lower.bound, sought.bound)
    for share in SHARES:
        goal = base + (sought.limit - base) * share
        ways = wasting(whole, taken, lower, goal)
        if ways is None:
            return sought
        tree = _Filled(whole, aim, taken, ways, goal)
        through = tree.look(steps)
        if tree.plan is not None:
            bound = tree.plan.cost if through else sought.bound
            return replace(sought.better(whole, tree.plan), bound=bound, through=through)
        if not through:
            return sought
        sought = replace(sought, bound=goal)
    return replace(sought, bound=float("inf"), through=True)


@dataclass(frozen=True, slots=True)
class Wasting:
    """Ways to fill bars, what each wastes, and what all may waste together."""

    columns: Columns
    waste: Floats
    most: float


def wasting(whole: Whole, taken: Taken, lower: Lower, goal: float, many: int = MOST) -> Wasting | None:
    """All ways to fill bars in a plan that costs no more, what they waste as cost over the bound; None: too many."""
    most = goal - lower.bound + slack(goal)
    needs = np.where(taken.lost > 0, lower.tops - most, np.inf)
    columns = walk(taken.to_fill(whole), lower.values, needs, most=many)
    if columns is None:
        return None
    return Wasting(columns, np.maximum(lower.tops[columns.bars] - columns.counts @ lower.values.worths, 0.0), most)


class _Filled:
    """The best plan with bars that are filled in some of these ways, the rest of the cuts short or in bars kept.

    Of the cuts that go into the shortest bars kept there must be one left for each: those that are short enough for a
    bar are counted together, like a sort of cut of which so many fewer may be used.
    """

    def __init__(self, whole: Whole, aim: Aim, taken: Taken, ways: Wasting, goal: float) -> None:
        self.whole, self.aim, self.taken, self.ways = whole, aim, taken, ways
        self.goal, self.base = goal, goal - ways.most
        cuts, wants = np.array(whole.cuts), np.array(whole.wants)
        kept = kept_rooms(whole)
        rooms = sorted(kept[b] for b in taken.bins())
        spared = {room: int(wants[cuts <= room].sum()) - n for n, room in enumerate(rooms, 1)}
        self.short = np.array([cuts <= room for room in spared]).reshape(len(spared), len(cuts)).T.astype(np.int64)
        self.counts = Counts.of((*whole.wants, *spared.values()))
        self.plan: Sharing | None = None
        self.unsure = 0

    def look(self, steps: int) -> bool:
        """Looks through so many ways; whether that was all."""
        if min(self.counts.wants) < 0:
            return True
        columns, waste = self.ways.columns, self.ways.waste
        bars = []
        for b in np.flatnonzero(self.taken.lost):
            own = np.flatnonzero(columns.bars == b)
            own = own[np.argsort(waste[own], kind="stable")]
            rows = columns.counts[own]
            held = self.counts.numbers(np.concatenate((rows, rows @ self.short), axis=1))
            length = (self.whole.rooms[b] - rows @ np.array(self.whole.cuts)).tolist()
            bars.append(
                Alike(int(b), int(self.taken.lost[b]), list(zip(held, waste[own].tolist(), length, strict=True)))
            )
        if not all(one.ways for one in bars):
            return True
        self.tree = Tree(self.counts, self.ways.most, self.spare(), steps, self.full)
        self.tree.look(bars, [])
        return self.tree.through and not self.unsure

    def spare(self) -> float:
        """Length that the bars to be filled may waste, beside bars kept: what is not used of them is used of these."""
        whole, taken = self.whole, self.taken
        rest = (self.goal + slack(self.goal) - taken.fixed(whole)) / whole.worth
        return (
            float(np.array(whole.rooms) @ taken.lost)
            + rest
            - wanted(whole.cuts, whole.wants, self.aim.most_short)
            + 1e-6
        )

    def full(self, found: Found, waste: float) -> float:
        """Keeps the plan with bars filled so, if it is better; what a better one may waste."""
        cuts = len(self.whole.cuts)
        patterns = [tuple(one for one in self.counts.pattern(held) if one[0] < cuts) for _, held in found]
        plan = rested(self.whole, self.aim, self.taken, [b for b, _ in found], patterns)
        if plan is None:
            self.unsure += not hopeless(self.whole, self.aim, self.taken, patterns)
            if self.unsure > UNSURE:
                return -1.0
        elif plan.cost <= self.goal + slack(self.goal):
            self.plan = plan
            self.goal = plan.cost - (0.5 * self.whole.step or slack(plan.cost))
            self.tree.more = self.spare()
            return self.goal - self.base
        return self.goal - self.base
