"""Which bars are taken, before which cut goes where: choice upon choice, till none that is left is cheaper."""

from concurrent.futures import Future, ThreadPoolExecutor
from dataclasses import dataclass, replace

import numpy as np

from bickern.geometry.pack.lengths.bars import (
    BRIEF,
    MEANS,
    Carried,
    Choice,
    carried,
    choice,
    least_with,
)
from bickern.geometry.pack.lengths.counted import Counted
from bickern.geometry.pack.lengths.dive import dive, left
from bickern.geometry.pack.lengths.given import Known, Taken
from bickern.geometry.pack.lengths.inside import Inside, inside, looked_longer
from bickern.geometry.pack.lengths.joint import joint
from bickern.geometry.pack.lengths.linear import ROUNDS, Relaxed, priced
from bickern.geometry.pack.lengths.listing import Listing
from bickern.geometry.pack.lengths.pooled import pooled, ways
from bickern.geometry.pack.lengths.search import Search
from bickern.geometry.pack.lengths.solver import Aim, Master, Means, none_of
from bickern.geometry.pack.lengths.ways import Sought, all_ways, glanced
from bickern.geometry.pack.lengths.whole import Sharing, Whole, bare, slack

MANY_KEPT = 7
"""Bars kept, in the cheapest choice of bars, from which on there are too many choices to look at them one by one."""
LOTS = (1000, 4000, 12_000)
"""Patterns of bars filled up that are looked at then, one lot after another, cuts in bars kept counted together."""
SHARES = (0.2, 0.4, 0.8, 0.8)
"""Share of the time there is that each lot may take."""
NODES, BESIDE = 200, 5e-4
"""Nodes of the solver's tree for each lot; and how far over the bound is looked, as a share of it."""
SORTS = 40
"""Sorts of cuts from which on all ways to place them are looked at before the linear programme, which takes long."""
GLANCES, FINISH = 3, 6000
"""Choices of bars that are looked at so to begin with; and steps for the last cuts of a plan."""
BRIEFEST = Means(100, 0.1)
"""What the search for such a choice may use up then, where there are many cuts."""
SPARED = 4
"""Choices with most to spare that are looked at so when the linear programme has said more of them."""
HARDLY_ANY, LONGER = 4, 4
"""Choices near the bound that are so few that each is looked at longer before the linear programme, and how much."""
APART = 4
"""Choices more that are ruled out by what no few bars waste together than by that, after which it is not tried."""
CHOICES = 400
"""Choices of bars that are looked at, at most."""
ROOMY, ROOMIER = 4, 20
"""Choices with most to spare that are looked at and stay open; in all, or where cuts are few and no drop is kept."""
LITTLE_ENOUGH = 5.6e-4
"""What they may cost over the bound, as a share of it."""
TIGHT = 2.5e-4
"""Share by which bound and plan are apart, at most, that is not worth to be halved."""
FIRM = 1000.0
"""Worths that are lengths, times this, say that cuts must have room, whatever drops are worth."""
LITTLE = 1e-4
"""Share of the cost within which bars need not be the cheapest, where there are many cuts."""
SEEDS = 60
"""Plans out of the linear programme for each of those, where cuts are many: so many by the sorts of them."""
DIVES = 1
"""Plans out of the linear programme, of the first choices, where there are many cuts."""
EFFORTS, MANY_EFFORTS = ((1, 1), (2, 4), (4, 16), (4, 64)), ((3, 1), (3, 4), (3, 16), (3, 64))
"""Choices that a first look does not settle, after which they get a longer one, and how much longer; of many cuts."""
MOST_EFFORT, MANY_MOST = 64, 16
"""How much longer it is at once where one choice alone is left; of many cuts."""


@dataclass(frozen=True, slots=True)
class Open:
    """Bars of which nobody knows yet whether they do, what a plan with them costs at least; the longest look so far."""

    bound: float
    taken: Taken
    effort: int = 0


class Tried:
    """Choices of bars that were looked at, and what they have shown."""

    def __init__(self, at: Search, master: Master) -> None:
        whole = at.whole
        self.at = at
        self.master = master
        self.known = Known(master.columns, none_of(whole))
        firm, lengths = (np.array(one.cuts, dtype=np.float64) for one in (bare(whole), whole))
        firm *= FIRM * float(lengths.sum() / firm.sum())
        self.rows = [carried(whole, worths * (whole.worth or 1.0)) for worths in (firm, lengths)]
        self.looks = 0
        self.quick = False  # whether the last choice, by `next`, came off the list
        self.sought = False  # whether the last choice, by `roomiest`, did not
        self.barred: list[Taken] = []
        self.ruled_out: list[Taken] = []
        self.unsure: list[Open] = []
        self.glanced: list[Taken] = []
        self.dearer: list[Taken] = []  # of these a short look has shown no more than that they do not cost so little
        self.apart = 0
        self.counted = Counted(whole)
        self.listing = Listing(whole, at.aim, self.rows, self.barred)
        self.all_lost = Listing(replace(whole, worth=0.0), at.aim, self.rows, self.barred)
        self.dives = 0
        first = self.next(MEANS if at.few else BRIEF)
        self.keeping = 0 if first.taken is None else int(first.taken.kept.sum())
        at.raised(first.bound)

    @property
    def near(self) -> float:
        """What bars may cost more than the cheapest that do."""
        at = self.at
        return 0.0 if at.few else LITTLE * abs(at.bound)

    @property
    def lowest(self) -> float:
        """What the choices cost at least of which nobody knows yet whether they do."""
        return min((one.bound for one in self.unsure), default=float("inf"))

    def glance(self, taken: Taken, bound: float, limit: float, times: int = 1) -> Sought:
        """The best plan with these bars under a limit, if it is soon found."""
        at = self.at
        if self.counted_out(taken, limit):
            return Sought(None, limit, float("inf"), through=True)
        sought = Sought(None, limit, max(bound, at.bound, taken.least(at.whole)))
        looked = glanced(at.whole, at.aim, taken, sought, times)
        if looked.plan is not None:
            at.better(looked.plan)
        elif looked.through:
            self.jointly(taken, limit)
        return looked

    def counted_out(self, taken: Taken, limit: float) -> bool:
        """Whether such bars cost more by length and number of the cuts that go into them; it is then known of all."""
        row = self.counted.lacking(self.at.aim, taken)
        if row is None or float(least_with(self.at.whole, self.at.aim, row, taken)) <= limit:
            return False
        self.rows.append(row)
        return True

    def jointly(self, taken: Taken, limit: float) -> None:
        """What rules out these bars, if it is what a few of them waste together: it rules out others that have them."""
        whole, aim = self.at.whole, self.at.aim
        if self.apart >= APART:
            return
        row = joint(whole, self.rows[1], taken, taken.wasted(whole, aim, limit))
        self.apart += 1 if row is None else -1
        if row is not None and float(least_with(whole, aim, row, taken)) > limit:
            self.rows.append(row)

    def look(self, taken: Taken, bound: float, effort: int) -> bool:
        """Looks for the best plan with these bars; whether that is settled."""
        at = self.at
        self.looks += not effort
        bound = max(bound, taken.least(at.whole))
        first = None
        if self.diverse and not effort and any(map(taken.same, self.glanced)):
            first = Sought(None, at.below, bound)
        elif self.diverse and not effort:
            first = self.glance(taken, bound, at.below)
            if first.through or at.enough:
                self.barred.append(taken)
                if not first.through:
                    self.unsure.append(Open(max(first.bound, bound), taken))
                return first.through
            self.glanced.append(taken)
        elif not effort and self.counted_out(taken, at.below):
            return True
        if effort and not at.few:
            longer = looked_longer(at.whole, at.aim, taken, Sought(None, at.below, bound), effort)
            return self.took(taken, longer, bound, effort)
        looked, self.known = inside(at.whole, at.aim, taken, self.known, at.below, effort, first)
        through = self.took(taken, Sought(looked.plan, at.below, looked.bound, looked.through), bound, effort)
        if not effort:
            self.learn(taken, looked)
        if through and looked.plan is None and not looked.ruled_out and at.few:
            self.jointly(taken, at.below)
        return through

    def took(self, taken: Taken, looked: Sought, bound: float, effort: int) -> bool:
        """Takes up what a look has shown; whether that settles it."""
        at = self.at
        if looked.plan is not None:
            at.better(looked.plan)
        if not looked.through:
            self.unsure.append(Open(max(looked.bound, bound), taken, effort))
            if looked.plan is None and at.far and (effort or self.dives):
                self.dives -= not effort
                self.dived(taken, effort)
        return looked.through

    def learn(self, taken: Taken, looked: Inside) -> None:
        """What a first look says of all bars; if that alone does not rule out these bars, they are barred."""
        row = carried(self.at.whole, looked.worths)
        lost = np.where(taken.lost > 0, np.minimum(row.lost, looked.tops), row.lost)
        self.rows.append(replace(row, lost=lost))
        if looked.ruled_out and not any(map(taken.same, self.ruled_out)):
            self.ruled_out.append(taken)
        else:
            self.barred.append(taken)

    def dived(self, taken: Taken, seed: int) -> None:
        """A plan with these bars out of the linear programme."""
        at, master = self.at, self.master
        wants, counts = np.array(at.whole.wants), taken.lost + taken.kept
        master.leave(wants, counts)
        rest = left(at.whole, wants, counts)
        duals = priced(master, rest, ROUNDS)
        if taken.kept.any():
            at.better(dive(master, rest, duals, seed))
        else:
            at.better(dive(master, rest, duals, seed, self.finished))
        master.leave(wants, np.array(at.whole.counts))

    def finished(self, few: Whole) -> Sharing | None:
        """All cuts that are left in all bars that are left, if that is soon found."""
        taken = Taken(np.array(few.counts), np.zeros(len(few.counts), dtype=np.int64))
        return all_ways(few, self.at.aim, taken, Sought(None, float("inf"), 0.0), FINISH).plan

    @property
    def diverse(self) -> bool:
        """Whether cuts are of many sorts."""
        return len(self.at.whole.cuts) > SORTS

    def quickly(self) -> None:
        """A plan with the bars that have most to spare; of many sorts of cuts, with the cheapest, too."""
        at = self.at
        if at.few:
            self.glances(1, MEANS)
        else:
            self.glances(GLANCES, BRIEFEST)
        if self.diverse:
            self.cheapest_glanced()
            if not at.few and not at.enough:
                self.once_more()

    def cheapest_glanced(self) -> None:
        """A short look at the cheapest bars, one after another."""
        at = self.at
        later: list[tuple[float, Taken]] = []
        for _ in range(GLANCES):
            if at.enough:
                return
            looked_at = [one for _, one in later]
            found = self.listing.cheapest(at.bound, at.below, looked_at)
            if found is None:
                found = self.listing.hopeful(at.bound, at.below, looked_at)
            at.raised(min([found.bound, self.lowest, *(least for least, _ in later)]))
            if found.taken is None or at.enough:
                return
            if any(map(found.taken.same, self.glanced)):
                later.append((found.bound, found.taken))
                continue
            looked = self.glance(found.taken, found.bound, at.below)
            if looked.through:
                self.barred.append(found.taken)
            else:
                self.glanced.append(found.taken)
                later.append((max(looked.bound, found.bound), found.taken))

    def once_more(self) -> None:
        """A longer look at those that a short one has left open, if hardly any others cost little enough."""
        at = self.at
        listed = self.listing.under(self.limit)
        if listed is None or np.count_nonzero(listed.least <= self.limit) > HARDLY_ANY:
            return
        for taken in self.glanced[:HARDLY_ANY]:
            if taken.least(at.whole) <= self.limit and not any(map(taken.same, self.barred)):
                self.glance_near(taken, LONGER)
                if at.near_enough:
                    return

    @property
    def many_kept(self) -> bool:
        """Whether cuts are few and bars kept are many."""
        return self.at.few and self.keeping >= MANY_KEPT

    def together(self, lower: Relaxed, seconds: float) -> None:
        """Looks near the bound for the best, cuts in bars kept counted together, with ever more patterns."""
        at = self.at
        least, gap = max(0.0, at.bound - lower.bound), min(at.gap(lower), BESIDE * abs(lower.bound))
        found = ways(at.whole, lower, least, gap, LOTS[-1]) if least < gap else None
        if found is None:
            return
        over = np.sort(found.over)
        most_over = [*(float(over[n]) for n in LOTS if n < len(over)), found.gap]
        for most, share in zip(most_over, SHARES, strict=False):
            limit = lower.bound + most
            if limit <= at.bound:
                continue
            got = pooled(at.whole, at.aim, found.within(most), limit, Means(NODES, seconds * share))
            if got.plan is not None:
                at.better(got.plan)
            at.raised(got.bound)
            if got.taken is not None and not at.enough:
                self.look(got.taken, got.bound, 0)
            if at.enough or at.bound < min(limit, at.value):
                return

    def roomy(self) -> None:
        """Plans with bars that cost little enough, those with most to spare first.

        Those that stay open, but must cost more than that, wait till the bound is higher.
        """
        at = self.at
        if self.diverse and not at.few:
            self.glances(SPARED, MEANS)
            if at.near_enough:
                return
        unsettled: list[Taken] = []
        looks = 0
        for n in range(ROOMIER):
            most = ROOMIER if at.few and not self.keeping else ROOMY
            taken = self.roomiest(otherwise=n % 2 > 0 and not at.few) if looks < most else None
            if taken is None:
                break
            settled = self.look(taken, at.bound, 0)
            looks += at.few or not settled
            if not at.few and not settled:
                self.raised()
            hopeful = not settled and self.unsure[-1].bound <= self.limit
            if not at.near_enough and (not n if at.few else hopeful):
                self.dived(taken, 0)
            if at.near_enough:
                return
            if hopeful and not at.few:
                unsettled.append(taken)
        for seed in range(1, 1 + max(1, SEEDS // len(at.whole.cuts))):
            for taken in unsettled:
                self.dived(taken, seed)
                if at.near_enough:
                    return

    def raised(self) -> None:
        """Raises the bound to what bars cost at least that are not ruled out, if they can be listed."""
        found = self.listing.cheapest(self.at.bound, self.at.below, ())
        if found is not None:
            self.at.raised(min(found.bound, self.lowest))

    def glances(self, most: int, means: Means) -> None:
        """A short look at bars that cost little enough, one after another; every other one of another kind."""
        at = self.at
        for n in range(most):
            taken = self.roomiest(*self.glanced, *self.dearer, means=means, otherwise=n % 2 > 0)
            if taken is None or at.enough:
                return
            self.glance_near(taken)
            if at.near_enough or self.sought:
                return

    def glance_near(self, taken: Taken, times: int = 1) -> None:
        """A short look at such bars; they are barred if that settles them.

        Where drops are kept, only plans that cost little enough are sought: those that have none may have dearer ones.
        """
        at = self.at
        limit = min(at.below, self.limit) if taken.kept.any() else at.below
        looked = self.glance(taken, at.bound, limit, times)
        if looked.through and (looked.plan is not None or limit >= at.below):
            self.barred.append(taken)
        elif looked.through:
            self.glanced = [one for one in self.glanced if not one.same(taken)]
            self.dearer.append(taken)
        elif times == 1:
            self.glanced.append(taken)

    def halved(self) -> None:
        """Looks at the bars with most to spare that cost no more than half of what lies between bound and plan."""
        at = self.at
        while not at.enough and self.looks < CHOICES:
            limit = at.below if at.below - at.bound <= TIGHT * abs(at.bound) else 0.5 * (at.bound + at.below)
            taken, none = self.listing.roomiest(limit)
            if taken is not None:
                self.look(taken, at.bound, 0)
                continue
            bound = at.bound
            if none:
                at.raised(min(limit if limit < at.below else at.value, self.lowest))
            if at.bound <= bound and not (none and self.unsure and self.again()):
                return

    def again(self) -> bool:
        """Looks longer at the cheapest bars of which nobody knows yet whether they do; whether that settles it.

        If they are but one, and there are no others, the longest look comes at once.
        """
        none_else = self.listing.roomiest(self.at.below) == (None, True)
        cheapest = min(self.unsure, key=lambda one: one.bound)
        for effort in (self.longest(cheapest),) if self.alone and none_else else (1, 4):
            self.unsure = [one for one in self.unsure if one.taken is not cheapest.taken]
            self.look(cheapest.taken, cheapest.bound, effort)
            if self.at.enough or not any(one.taken is cheapest.taken for one in self.unsure):
                return True
        return False

    @property
    def alone(self) -> bool:
        """Whether of one choice alone that costs little enough nobody knows whether it does."""
        return sum(one.bound <= self.at.below for one in self.unsure) == 1

    def longest(self, one: Open) -> int:
        """How long the next look is where there are no others."""
        return max(MOST_EFFORT if self.at.few else MANY_MOST, LONGER * one.effort)

    def roomiest(self, *looked_at: Taken, means: Means = MEANS, otherwise: bool = False) -> Taken | None:
        """The bars with most to spare that cost little enough; where there are none, the bound is raised first.

        Where none are listed then, those that this has come upon; nothing is raised while there are some `looked_at`.
        `otherwise`: such that no drop is kept of, if there are any; or where drops are worth nothing, not the fewest.
        """
        at = self.at
        found = Choice(None, at.bound)
        raised = True
        while True:
            self.sought = False
            taken, fewest = None, not at.few
            if otherwise and at.whole.worth:
                taken, _ = self.all_lost.roomiest(self.limit, looked_at, fewest=fewest)
            elif otherwise:
                fewest = False
            if taken is None:
                taken, _ = self.listing.roomiest(self.limit, looked_at, fewest=fewest)
            if taken is not None or looked_at or at.enough:
                return taken
            if not raised:
                self.sought = True
                return found.taken if found.bound <= at.below else None
            found, bound = self.next(means), at.bound
            at.raised(min(found.bound, self.lowest))
            raised = at.bound > bound

    @property
    def limit(self) -> float:
        """What is little enough over the bound."""
        return self.at.bound + LITTLE_ENOUGH * abs(self.at.bound)

    def one_by_one(self) -> None:
        """Looks at all choices, the cheapest first; the hard ones again at the end."""
        at = self.at
        self.dives = 0 if at.few else DIVES
        if at.few:
            self.halved()
        bound = at.bound
        for unsure, effort in EFFORTS if at.few else MANY_EFFORTS:
            if at.enough:
                return
            bound = max(bound, self.cheapest(unsure))
            alone = self.alone
            again, self.unsure = sorted(self.unsure, key=lambda one: one.bound), []
            for n, one in enumerate(again):
                longer = self.longest(one) if alone else effort
                if one.bound <= at.below and at.far and longer > one.effort:
                    self.look(one.taken, one.bound, longer)
                else:
                    self.unsure.append(one)
                at.raised(min(bound, self.lowest, *(later.bound for later in again[n + 1 :])))

    def cheapest(self, unsure: int) -> float:
        """Again and again the cheapest bars that may do, till so many are unsure; the bound of all others.

        While bars are looked at, the next ones are sought beside: with what is learnt meanwhile they mostly still do.
        """
        at = self.at
        bound = at.bound
        with ThreadPoolExecutor(1) as beside:
            ahead: Future[Choice] | None = None
            while not at.enough and self.looks < CHOICES:
                found = ahead.result() if ahead else None
                if found is None or not self.still(found):
                    found = self.next(MEANS)
                bound = max(bound, found.bound)
                at.raised(min(bound, self.lowest))
                if found.taken is None or found.bound > at.below or at.enough:
                    break
                if sum(one.bound <= at.below for one in self.unsure) >= unsure:
                    break
                ahead = None if self.quick else beside.submit(choice, *self.asked(found.taken))
                self.look(found.taken, bound, 0)
        return bound

    def next(self, means: Means, *looked_at: Taken) -> Choice:
        """The cheapest bars that may do, none of those looked at: out of the list, or else by the solver."""
        at = self.at
        found = self.listing.cheapest(at.bound, at.below, looked_at)
        self.quick = found is not None
        return choice(*self.asked(*looked_at), means) if found is None else found

    def asked(self, *looked_at: Taken) -> tuple[Whole, Aim, list[Carried], list[Taken], float, float]:
        """What is asked of the cheapest bars that may do, as things are known now; `looked_at`: barred, too."""
        at = self.at
        return at.whole, at.aim, list(self.rows), [*self.barred, *looked_at], at.below, self.near

    def still(self, found: Choice) -> bool:
        """Whether bars that were found before the last list of worths was known do by that, too."""
        at, row = self.at, self.rows[-1]
        if found.taken is None:
            return True
        return float(least_with(at.whole, at.aim, row, found.taken)) <= found.bound + slack(found.bound)
