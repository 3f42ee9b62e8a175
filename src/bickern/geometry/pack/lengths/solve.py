"""What the other process does: the linear programme, plans out of it, a proof over all patterns that count."""

from collections.abc import Callable
from dataclasses import replace

import numpy as np

from bickern.geometry.pack.lengths.asking import Asked, line_of
from bickern.geometry.pack.lengths.bars import carried, choice
from bickern.geometry.pack.lengths.bounds import least_cost, met, stepped
from bickern.geometry.pack.lengths.dive import columns_of, dive, fitting, left
from bickern.geometry.pack.lengths.greedy import trimmed
from bickern.geometry.pack.lengths.linear import Relaxed, bounded, relaxed
from bickern.geometry.pack.lengths.mend import mended
from bickern.geometry.pack.lengths.patterns import Columns, Ints, table, tops, walk
from bickern.geometry.pack.lengths.solver import Aim, Master, Means, UnsolvedError
from bickern.geometry.pack.lengths.use import chosen
from bickern.geometry.pack.lengths.whole import Answer, Sharing, Whole, faults, shared, slack

MANY = 6000
"""Patterns that a proof may look at."""
NEAR = 5e-4
"""A plan that costs so little over the bound, as a share of it, is not worth a long look."""
FEW = 1000
"""Patterns that a proof looks at wherever there are no more."""
SMALL = 40
"""Cuts of a problem that is worth a long look in any case."""
UNSURE = 4
"""Choices of bars of which nobody knows whether they do, after which no more are looked at."""
CHOICES = 40
"""Choices of bars that are looked at."""
DIVES = 30
"""Plans out of the linear programme that are tried."""
TRIES = 40
"""Tries to mend a plan."""


class Search:
    """The best sharing and bound of one aim so far; what is better is told at once."""

    def __init__(self, whole: Whole, aim: Aim, plan: Sharing, bound: float, tell: Callable[["Search"], None]) -> None:
        self.whole = whole
        self.aim = aim
        self.plan = plan
        self.bound = bound
        self.tell = tell

    @property
    def value(self) -> float:
        """What is to be least."""
        return float(self.plan.missing) if self.aim.short_cost else self.plan.cost

    @property
    def below(self) -> float:
        """What a better plan comes to at most."""
        return self.value - (0.5 * self.whole.step or slack(self.value))

    def gap(self, lower: Relaxed) -> float:
        """What a pattern of a better plan may cost more than it is worth."""
        return self.value - self.whole.step + slack(self.value) - lower.bound

    @property
    def done(self) -> bool:
        """Whether nothing better is left."""
        return met(self.whole, self.value, self.bound)

    @property
    def far(self) -> bool:
        """Whether plan and bound are so far apart, or cuts so few, that a long look pays."""
        return sum(self.whole.wants) <= SMALL or self.value > self.bound + NEAR * abs(self.bound)

    def better(self, plan: Sharing) -> None:
        """Keeps a plan if it is better and nothing is wrong with it."""
        if plan.missing <= self.aim.most_short and plan.better_than(self.plan) and not faults(self.whole, plan):
            self.plan = plan
            self.tell(self)

    def raised(self, bound: float) -> None:
        """Keeps a bound if it is better."""
        bound = min(stepped(self.whole, bound), self.value)
        if bound > self.bound:
            self.bound = bound
            self.tell(self)


def search(at: Search, seconds: float) -> None:
    """Looks for the best until it is proven or the means are used up."""
    whole, aim = at.whole, at.aim
    master = Master(whole, aim)
    master.add(columns_of(whole, at.plan.loads))
    for exact in (False, True):
        lower, duals = relaxed(master, whole, exact=exact)
        at.raised(lower.bound)
        if at.done:
            return
        at.better(dive(master, whole, duals))
        if at.done:
            return
    one = len(whole.rooms) == 1
    if one and dived(at, master, range(1, 4)):
        return
    if not one and not aim.short_cost:
        mended(whole, aim, at.plan, lower, TRIES // 4, at.better)
    if at.done or proved(at, lower, FEW, 3000, seconds / 2) or at.done:
        return
    if one and (proved(at, by_length(at), FEW, 3000, seconds / 4) or at.done):
        return
    if one or aim.short_cost:
        if not dived(at, master, range(4, DIVES)) and not proved(at, lower, MANY, 3000, seconds / 2) and not at.done:
            combined(at, master.columns, seconds / 4)
        return
    for effort in (1, 4):
        if not chosen_bars(at, master, lower, seconds / 4) and not at.done:
            mended(whole, aim, at.plan, lower, TRIES * effort, at.better)
        if at.done or proved(at, lower, MANY * effort // 2, 300 * effort**2, seconds / 8 * effort) or not at.far:
            return


def by_length(at: Search) -> Relaxed:
    """The bound by worths that are lengths: where bars can be filled up whole, few patterns are in question."""
    values = table(at.whole, np.array(at.whole.cuts) * (max(at.whole.costs) + at.aim.short_cost) / max(at.whole.rooms))
    return bounded(at.whole, at.aim, values, tops(at.whole, values))


def combined(at: Search, columns: Columns, seconds: float) -> None:
    """The best that the patterns found so far come to together; no proof of anything."""
    found = chosen(at.whole, columns, at.aim, at.below, Means(1000, seconds))
    if found.times is not None:
        counts, wants = np.array(at.whole.counts), np.array(at.whole.wants)
        at.better(shared(at.whole, fitting(columns, enumerate(found.times), wants, counts)))


def dived(at: Search, master: Master, seeds: range) -> bool:
    """Other plans out of the linear programme; whether one is proven."""
    for seed in seeds:
        at.better(dive(master, at.whole, master.solved(), seed))
        if at.done:
            return True
    return False


def chosen_bars(at: Search, master: Master, lower: Relaxed, seconds: float) -> bool:
    """Again and again the cheapest bars that may do, and a look at whether they do; whether that settled it."""
    whole, aim = at.whole, at.aim
    rows = [carried(whole, lower.worths), carried(whole, np.array(whole.cuts) * (whole.worth or 1.0))]
    barred: list[Ints] = []
    unsure = 0
    while len(rows) + len(barred) < CHOICES and unsure < UNSURE:
        found = choice(whole, aim, rows, barred, at.below)
        if not unsure:
            at.raised(found.bound)
        if found.counts is None or at.done:
            break
        rest = left(whole, np.array(whole.wants), found.counts)
        master.leave(np.array(whole.wants), found.counts)
        inside, duals = relaxed(master, rest, exact=True)
        limit = at.below if whole.worth else found.bound + 0.5 * whole.step + slack(found.bound)
        if inside.bound > limit:
            rows.append(carried(whole, inside.worths))
            if not whole.worth:
                continue
        else:
            before = at.value
            at.better(dive(master, rest, duals))
            unsure += not at.done and not packed(at, rest, inside, limit)
            if at.done or (at.value < before and proved(at, lower, FEW, 3000, seconds)):
                break
        barred.append(found.counts)
    master.leave(np.array(whole.wants), np.array(whole.counts))
    return at.done


def packed(at: Search, rest: Whole, inside: Relaxed, limit: float) -> bool:
    """Whether all plans with these bars, under a limit, were looked through; the best of them is kept."""
    limit = min(limit, at.below)
    columns = walk(rest, inside.values, inside.within(rest, limit - inside.bound), most=MANY // 2, lean=not rest.worth)
    if columns is None:
        return False
    found = chosen(rest, columns, at.aim, limit, Means(500, 2.0))
    if found.times is not None:
        counts, wants = np.array(at.whole.counts), np.array(at.whole.wants)
        at.better(shared(at.whole, fitting(columns, enumerate(found.times), wants, counts)))
    return found.through


def proved(at: Search, lower: Relaxed, many: int, nodes: int, seconds: float) -> bool:
    """Looks through all patterns that a better plan could have; whether there were so few that it could."""
    columns = walk(at.whole, lower.values, lower.within(at.whole, at.gap(lower)), most=many, lean=not at.whole.worth)
    if columns is None:
        return False
    found = chosen(at.whole, columns, at.aim, at.below, Means(nodes, seconds))
    if found.times is not None:
        counts, wants = np.array(at.whole.counts), np.array(at.whole.wants)
        plan = shared(at.whole, fitting(columns, enumerate(found.times), wants, counts))
        at.better(trimmed(at.whole, plan))
    at.raised(found.bound)
    return found.through


def solve(asked: object, report: Callable[[str], None]) -> object:
    """The best answer to what was asked: fewest short first, then the least cost; better ones are told as they come."""
    assert isinstance(asked, Asked)
    so_far = SoFar(asked.whole, asked.known, report)
    try:
        if asked.known.sharing.missing > asked.known.fewest:
            _fewest(so_far, asked.seconds / 3)
        _cheapest(so_far, asked.seconds)
    except UnsolvedError as fault:
        return replace(so_far.answer, why=f"the solver gave up: {fault}")
    return so_far.answer


class SoFar:
    """The best answer yet; a better one is told."""

    def __init__(self, whole: Whole, answer: Answer, report: Callable[[str], None]) -> None:
        self.whole = whole
        self.answer = answer
        self.report = report

    def fewer(self, at: Search) -> None:
        """Takes up what the search for fewest cuts short has found."""
        sharing = shared(self.whole, at.plan.loads)
        fewest = max(self.answer.fewest, round(at.bound))
        if sharing.better_than(self.answer.sharing):
            self.answer = Answer(sharing, least_cost(self.whole, sharing.missing), fewest)
        else:
            self.answer = replace(self.answer, fewest=fewest)
        self.report(line_of(self.answer))

    def cheaper(self, at: Search) -> None:
        """Takes up what the search for the least cost has found."""
        self.answer = replace(self.answer, sharing=at.plan, bound=at.bound)
        self.report(line_of(self.answer))


def _fewest(so_far: SoFar, seconds: float) -> None:
    """As few cuts short as can be: each costs 1, and bars nothing."""
    whole, known = so_far.whole, so_far.answer
    bare = replace(whole, costs=(0.0,) * len(whole.costs), worth=0.0, step=1.0)
    plan = shared(bare, known.sharing.loads)
    search(Search(bare, Aim(1.0, sum(whole.wants)), plan, float(known.fewest), so_far.fewer), seconds)


def _cheapest(so_far: SoFar, seconds: float) -> None:
    """The least cost with no more cuts short than now."""
    known = so_far.answer
    aim = Aim(0.0, known.sharing.missing)
    search(Search(so_far.whole, aim, known.sharing, known.bound, so_far.cheaper), seconds)
