"""What the other process does: the linear programme, plans out of it, a proof over all patterns that count."""

from collections.abc import Callable
from dataclasses import replace

import numpy as np

from bickern.geometry.pack.lengths.asking import Asked, line_of
from bickern.geometry.pack.lengths.bars import carried
from bickern.geometry.pack.lengths.bounds import least_cost
from bickern.geometry.pack.lengths.dive import columns_of, dive, fitting
from bickern.geometry.pack.lengths.given import Known, Taken
from bickern.geometry.pack.lengths.greedy import trimmed
from bickern.geometry.pack.lengths.linear import Relaxed, begun, bounded, relaxed
from bickern.geometry.pack.lengths.mend import mended
from bickern.geometry.pack.lengths.patterns import Columns, table, tops, walk
from bickern.geometry.pack.lengths.search import Search
from bickern.geometry.pack.lengths.solver import Aim, Master, Means, UnsolvedError, none_of
from bickern.geometry.pack.lengths.taking import Tried
from bickern.geometry.pack.lengths.use import chosen
from bickern.geometry.pack.lengths.ways import Sought, glanced
from bickern.geometry.pack.lengths.whole import Answer, Whole, shared

MANY = 6000
"""Patterns that a proof may look at."""
FEW = 1000
"""Patterns that a proof looks at wherever there are no more."""
SOME = 500
"""Patterns that a proof looks at before it is asked which bars are taken."""
CLOSE = 1e-4
"""A plan that costs so little over the bound, as a share of it, is so good that a proof may look at more."""
SOON, DIVES = 10, 30
"""Plans out of the linear programme that are tried, where bars are unlike before a long proof; and in all."""
TRIES = 40
"""Tries to mend a plan."""


def search(at: Search, seconds: float) -> None:
    """Looks for the best until it is proven or the means are used up."""
    master = Master(at.whole, at.aim)
    master.add(columns_of(at.whole, at.plan.loads))
    if len(at.whole.rooms) == 1 or at.aim.short_cost:
        alike(at, master, seconds)
    else:
        unlike(at, master, seconds)


def alike(at: Search, master: Master, seconds: float) -> None:
    """Where all bars are alike, or cost nothing: patterns decide."""
    one = len(at.whole.rooms) == 1
    lower = linear(at, master)
    if at.enough:
        return
    if (one and dived(at, master, range(1, 4))) or proved(at, lower, FEW, 3000, seconds / 2) or at.done:
        return
    if one and (proved(at, lengthwise(at), FEW, 3000, seconds / 4) or at.done):
        return
    if one and at.whole.worth and kept_soon(at, master):
        return
    if not one and (dived(at, master, range(4, SOON)) or proved(at, lower, MANY, 3000, seconds / 4) or at.done):
        return
    if dived(at, master, range(4 if one else SOON, DIVES)):
        return
    if one and (proved(at, lower, MANY, 3000, seconds / 2) or at.done):
        return
    combined(at, master.columns, seconds / 4)
    if not at.enough and not at.aim.short_cost:
        unlike(at, master, seconds)


def kept_soon(at: Search, master: Master) -> bool:
    """Whether it is soon seen how many bars keep their drops, where bars are alike; and no better plan is left."""
    if not at.aim.short_cost:
        tried = Tried(at, master)
        if not at.enough:
            tried.quickly()
    return at.enough


def unlike(at: Search, master: Master, seconds: float) -> None:
    """Where bars are of several lengths and costs: which are taken decides."""
    tried = Tried(at, master)
    if not at.enough:
        tried.quickly()
    if at.enough:
        return
    master.add(begun(at.whole))
    if tried.many_kept:
        tried.together(relaxed(master, at.whole, exact=True)[0], seconds)
        if at.enough:
            return
    lower = linear(at, master)
    close = at.value <= (1.0 + CLOSE) * at.bound
    if at.enough or proved(at, lower, MANY // 2 if close else SOME, 300, seconds / (4 if close else 8)):
        return
    tried.rows.append(carried(at.whole, lower.worths))
    tried.known = Known(master.columns, none_of(at.whole))
    if not at.near_enough:
        tried.roomy()
    if not at.enough:
        tried.one_by_one()
    for effort in (1, 4):
        if not at.enough:
            mended(at, lower, TRIES * effort)
        if at.enough or proved(at, lower, MANY * effort // 2, 300 * effort**2, seconds / 8 * effort):
            return


def linear(at: Search, master: Master) -> Relaxed:
    """The bound over all patterns, and, where cuts are few or bars alike, plans out of the linear programme."""
    dives = at.few or len(at.whole.rooms) == 1 or at.aim.short_cost > 0.0
    for exact in (False, True) if dives else (False,):
        lower, duals = relaxed(master, at.whole, exact=exact)
        at.raised(lower.bound)
        if dives and not at.enough:
            at.better(dive(master, at.whole, duals))
        if at.enough:
            break
    return lower


def lengthwise(at: Search) -> Relaxed:
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


def proved(at: Search, lower: Relaxed, many: int, nodes: int, seconds: float) -> bool:
    """Looks through all patterns that a better plan could have; whether there were so few that it could.

    A bar that costs less than its drop is worth may be used there for a cut that another holds: no plan, but a bound.
    """
    columns = walk(at.whole, lower.values, lower.within(at.whole, at.gap(lower)), most=many, lean=not at.whole.worth)
    if columns is None:
        return False
    found = chosen(at.whole, columns, at.aim, at.below, Means(nodes, seconds))
    if found.times is not None:
        counts, wants = np.array(at.whole.counts), np.array(at.whole.wants)
        plan = shared(at.whole, fitting(columns, enumerate(found.times), wants, counts))
        at.better(trimmed(at.whole, plan))
    at.raised(found.bound)
    return found.through and (at.done or not at.whole.worth)


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
    at = Search(bare, Aim(1.0, sum(whole.wants)), plan, float(known.fewest), seconds, so_far.fewer)
    by_length(at)
    if not at.done:
        search(at, seconds)


def by_length(at: Search) -> None:
    """As few cuts short as can be, by all ways to place the others in all bars, as long as that is soon seen."""
    whole = at.whole
    everything = Taken(np.array(whole.counts), np.zeros(len(whole.counts), dtype=np.int64))
    while not at.done:
        short = round(at.bound)
        looked = glanced(whole, Aim(0.0, short), everything, Sought(None, 0.0, 0.0))
        if looked.plan is not None:
            at.better(looked.plan)
        elif looked.through:
            at.raised(short + 1.0)
        if looked.plan is not None or not looked.through:
            return


def _cheapest(so_far: SoFar, seconds: float) -> None:
    """The least cost with no more cuts short than now."""
    known = so_far.answer
    aim = Aim(0.0, known.sharing.missing)
    search(Search(so_far.whole, aim, known.sharing, known.bound, seconds, so_far.cheaper), seconds)
