"""The best plan with bars that are given: which are taken, and whether their drops are kept.

Only for those to be filled up are there patterns; cuts go into the others (and go short) one by one.
"""

from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from bickern.geometry.pack.lengths.given import Known, Lower, Taken, dummy, lowest
from bickern.geometry.pack.lengths.patterns import Columns, Floats, Ints, table, tops, walk
from bickern.geometry.pack.lengths.plans import best_filled, hopeless, longest, rested
from bickern.geometry.pack.lengths.search import SMALL
from bickern.geometry.pack.lengths.solver import BARE, Aim, Means, quiet, run_whole, whole_bound
from bickern.geometry.pack.lengths.together import Alike, Counts, Found, Tree
from bickern.geometry.pack.lengths.whole import Load, Sharing, Whole, kept_rooms, shared, slack

TURNS = 2
"""Orders of bars and cuts in which bars are filled besides the usual ones, for an effort of 1."""
MANY = 2500
"""Patterns that a proof may look at, for an effort of 1."""
SHARES = (1 / 64, 1 / 32, 1 / 16, 1 / 8, 1 / 4, 1 / 2, 1.0)
"""Shares of what a plan may waste, within which all ways are looked through in turn."""
MOST = 8000
"""Patterns there may be for that."""
FIRM = 1e4
"""Worths by which cuts have no room, times this, say that they must have it, whatever it costs."""
UNSURE = 20
"""Times that the rest was not seen to go into the bars kept, after which no more ways are tried."""
STEPS = 3000
"""Ways to fill a bar that are tried for that, at a first look."""
HARD = 4
"""The effort from which on the solver is asked, too, where cuts are few."""
NODES = 200
"""Nodes of the solver's tree, for an effort of 1."""


@dataclass(frozen=True, slots=True)
class Inside:
    """The best plan found (None: none under the limit), the bound, whether all was looked through; worths of cuts.

    `ruled_out`: whether by these worths alone there is none.
    """

    plan: Sharing | None
    bound: float
    through: bool
    worths: Floats
    ruled_out: bool = False


def inside(whole: Whole, aim: Aim, taken: Taken, known: Known, limit: float, effort: int) -> tuple[Inside, Known]:
    """The best plan with just these bars that costs at most `limit`; and the patterns known now.

    `effort`: 0 for a first look, more for longer ones.
    """
    lower, known = lowest(whole, aim, taken, known)
    worths = lower.values.worths
    if not taken.kept.any() and lower.bound > taken.fixed(whole) + 1e-4 * dummy(whole):
        return Inside(None, float("inf"), True, worths * FIRM, ruled_out=True), known  # a multiple does as well
    if lower.bound > limit:
        return Inside(None, lower.bound, True, worths, ruled_out=True), known
    looked = Sought(None, limit, lower.bound)
    few = sum(whole.wants) <= SMALL
    if few:
        looked = looked_through(whole, aim, taken, lower, looked, STEPS * (1 + 3 * effort))
        if looked.through:
            return Inside(looked.plan, looked.bound, True, worths), known
    plan, limit = looked.plan, looked.limit
    turns = 0 if few and not effort else TURNS * max(1, effort)
    found = best_filled(whole, aim, taken, lower.bound, limit, turns)
    if found is not None:
        plan = found
        if plan.cost <= lower.bound + (0.5 * whole.step or slack(lower.bound)):
            return Inside(plan, lower.bound, True, worths), known
        limit = min(limit, plan.cost - (0.5 * whole.step or slack(plan.cost)))
    if not effort or (few and effort < HARD):
        return Inside(plan, looked.bound, False, worths), known
    columns = _within(whole, aim, lower, limit, taken, MANY * effort)
    many = columns is None
    if columns is None:
        columns = _some(taken.to_fill(whole), lower, limit)
    found, bound, through = _whole_numbers(whole, aim, taken, columns, limit, Means(NODES * effort, 0.5 * effort))
    if found is not None and (plan is None or found.better_than(plan)):
        plan = found
    bound = looked.bound if many else max(looked.bound, bound)
    return Inside(plan, bound, through and not many, worths), known


@dataclass(frozen=True, slots=True)
class Sought:
    """The best plan with these bars so far (None: none), what a better one may cost, and the bound; all looked at."""

    plan: Sharing | None
    limit: float
    bound: float
    through: bool = False


def looked_through(whole: Whole, aim: Aim, taken: Taken, lower: Lower, sought: Sought, steps: int) -> Sought:
    """All ways to fill the bars, those that waste least first: what may be wasted grows till a plan is found."""
    for share in SHARES if taken.kept.any() else (1.0,):
        goal = lower.bound + (sought.limit - lower.bound) * share
        ways = _wasting(whole, taken, lower, goal) if taken.kept.any() else _as_long(whole, aim, taken)
        if ways is None:
            return sought
        tree = _Filled(whole, aim, taken, ways, goal)
        through = tree.look(steps)
        if tree.plan is not None:
            bound = tree.plan.cost if through else sought.bound
            limit = tree.plan.cost - (0.5 * whole.step or slack(tree.plan.cost))
            return Sought(tree.plan, limit, bound, through)
        if not through:
            return sought
        sought = replace(sought, bound=goal)
    return replace(sought, bound=float("inf") if sought.plan is None else sought.plan.cost, through=True)


def filled_up(whole: Whole, aim: Aim) -> Sharing | None:
    """A plan that fills all these bars, no drop kept, each with least to waste for all (None: not found soon)."""
    taken = Taken(np.array(whole.counts), np.zeros(len(whole.counts), dtype=np.int64))
    ways = _as_long(whole, aim, taken)
    if ways is None:
        return None
    tree = _Filled(whole, aim, taken, ways, float("inf"))
    tree.look(STEPS)
    return tree.plan


@dataclass(frozen=True, slots=True)
class _Wasting:
    """Ways to fill bars, what each wastes, and what all may waste together."""

    columns: Columns
    waste: Floats
    most: float


def _wasting(whole: Whole, taken: Taken, lower: Lower, goal: float) -> _Wasting | None:
    """All ways to fill bars beside bars kept, in a plan that costs no more; what they waste is cost over the bound."""
    most = goal - lower.bound + slack(goal)
    needs = np.where(taken.lost > 0, lower.tops - most, np.inf)
    columns = walk(taken.to_fill(whole), lower.values, needs, most=MOST)
    if columns is None:
        return None
    return _Wasting(columns, np.maximum(lower.tops[columns.bars] - columns.counts @ lower.values.worths, 0.0), most)


def _as_long(whole: Whole, aim: Aim, taken: Taken, many: int = MOST) -> _Wasting | None:
    """All ways to fill bars with none kept; what they waste is length."""
    bare, lengths = taken.to_fill(whole), np.array(whole.cuts, dtype=np.float64)
    values = table(bare, lengths)
    fullest = tops(bare, values)
    over = float(fullest @ taken.lost - lengths @ np.array(whole.wants)) + longest(whole, aim.most_short) + 1e-6
    columns = walk(bare, values, np.where(taken.lost > 0, fullest - over, np.inf), most=many)
    if columns is None:
        return None
    return _Wasting(columns, np.maximum(fullest[columns.bars] - columns.counts @ lengths, 0.0), over)


class _Filled:
    """The best plan with bars that are filled in some of these ways, the rest of the cuts short or in bars kept.

    Of the cuts that go into the shortest bars kept there must be one left for each: those that are short enough for a
    bar are counted together, like a sort of cut of which so many fewer may be used.
    """

    def __init__(self, whole: Whole, aim: Aim, taken: Taken, ways: _Wasting, goal: float) -> None:
        self.whole, self.aim, self.taken, self.ways = whole, aim, taken, ways
        self.goal, self.base = goal, goal - ways.most
        cuts, wants = np.array(whole.cuts), np.array(whole.wants)
        rooms = sorted(kept_rooms(whole)[b] for b in taken.bins())
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
            bars.append(Alike(int(b), int(self.taken.lost[b]), list(zip(held, waste[own].tolist(), strict=True))))
        if not all(one.ways for one in bars):
            return True
        tree = Tree(self.counts, self.ways.most, steps, self.full)
        tree.look(bars, [])
        return tree.through and not self.unsure

    def full(self, found: Found, waste: float) -> float:
        """Keeps the plan with bars filled so, if it is better; what a better one may waste."""
        cuts = len(self.whole.cuts)
        loads = [(b, tuple(one for one in self.counts.pattern(held) if one[0] < cuts)) for b, held in found]
        plan = rested(self.whole, self.aim, self.taken, [b for b, _ in loads], [pattern for _, pattern in loads])
        if plan is None:
            self.unsure += not hopeless(self.whole, self.aim, self.taken, [pattern for _, pattern in loads])
            if self.unsure > UNSURE:
                return -1.0
        elif plan.cost <= self.goal + slack(self.goal):
            self.plan = plan
            self.goal = plan.cost - (0.5 * self.whole.step or slack(plan.cost))
            return self.goal - self.base if self.taken.kept.any() else -1.0
        return self.goal - self.base


# ---- patterns


def _within(whole: Whole, aim: Aim, lower: Lower, limit: float, taken: Taken, many: int) -> Columns | None:
    """All patterns that a plan under the limit can have; None where there are too many."""
    by_length = None if taken.kept.any() else _as_long(whole, aim, taken, many)
    if by_length is not None:
        return by_length.columns
    needs = np.where(taken.lost > 0, lower.tops - (limit - lower.bound) - slack(limit), np.inf)
    return walk(taken.to_fill(whole), lower.values, needs, most=many)


def _some(bare: Whole, lower: Lower, limit: float) -> Columns:
    """Good patterns, where there are too many to take all."""
    needs = np.where(np.array(bare.counts) > 0, lower.tops - (limit - lower.bound) - slack(limit), np.inf)
    found = walk(bare, lower.values, needs, width=150)
    assert found is not None  # no limit was given
    return found


def _model(whole: Whole, aim: Aim, taken: Taken) -> Any:
    """Rows: cuts, kinds of bars to be filled up, bars kept (length, then at least one cut), cuts short.

    Columns: cuts short, cuts in each bar kept.
    """
    highs = quiet()
    cuts, kinds, bins = len(whole.cuts), len(whole.rooms), taken.bins()
    room = kept_rooms(whole)
    for want in whole.wants:
        highs.addRow(float(want), highs.inf, 0, [], [])
    for n in taken.lost:
        highs.addRow(-highs.inf, float(n), 0, [], [])
    for _ in bins:
        highs.addRow(-highs.inf, 1.0, 0, [], [])
        highs.addRow(1.0, highs.inf, 0, [], [])
    highs.addRow(-highs.inf, float(aim.most_short), 0, [], [])
    last = cuts + kinds + 2 * len(bins)
    for i, want in enumerate(whole.wants):
        if aim.most_short:
            highs.addCol(0.0, 0.0, float(want), 2, [i, last], [1.0, 1.0])
        for k, b in enumerate(bins):
            if whole.cuts[i] <= room[b]:
                at = cuts + kinds + 2 * k
                n = min(want, room[b] // whole.cuts[i])
                part = whole.cuts[i] / room[b]
                highs.addCol(whole.worth * whole.cuts[i], 0.0, float(n), 3, [i, at, at + 1], [1.0, part, 1.0])
    return highs


def _add(highs: Any, whole: Whole, columns: Columns) -> None:
    """Patterns of bars to be filled up."""
    cuts = len(whole.cuts)
    for b, row in zip(columns.bars, columns.counts, strict=True):
        held = np.flatnonzero(row)
        index = np.append(held, cuts + b).astype(np.int32)
        highs.addCol(0.0, 0.0, highs.inf, len(index), index, np.append(row[held], 1).astype(np.float64))


def _whole_numbers(
    whole: Whole, aim: Aim, taken: Taken, columns: Columns, limit: float, means: Means
) -> tuple[Sharing | None, float, bool]:
    """The best plan of these patterns under a limit, the bound, and whether the search was through."""
    highs = _model(whole, aim, taken)
    first = highs.getNumCol()
    _add(highs, whole, columns)
    fixed = taken.fixed(whole)
    state = run_whole(highs, range(highs.getNumCol()), 0.5 * whole.step or slack(limit), limit - fixed, means, **BARE)
    if state in ("kInfeasible", "kObjectiveBound"):
        return None, float("inf"), True
    if highs.getInfo().primal_solution_status != 2:
        return None, whole_bound(highs) + fixed, False
    times = np.rint(np.array(highs.getSolution().col_value)).astype(int)
    plan = _read(whole, aim, taken, columns, times, first)
    return plan, whole_bound(highs) + fixed, state == "kOptimal"


def _read(whole: Whole, aim: Aim, taken: Taken, columns: Columns, times: Ints, first: int) -> Sharing:
    """A plan from the values of the model's columns."""
    wants = np.array(whole.wants)
    loads = []
    for c in np.flatnonzero(times[first:]):
        for _ in range(int(times[first + c])):
            row = np.minimum(columns.counts[c], wants)
            wants = wants - row
            loads.append(Load(int(columns.bars[c]), tuple((int(i), int(row[i])) for i in np.flatnonzero(row))))
    bins, room = taken.bins(), kept_rooms(whole)
    held: list[dict[int, int]] = [{} for _ in bins]
    at = 0
    for i in range(len(whole.wants)):
        at += 1 if aim.most_short else 0
        for k, b in enumerate(bins):
            if whole.cuts[i] <= room[b]:
                n = min(int(times[at]), int(wants[i]))
                at += 1
                if n:
                    held[k][i] = n
                    wants[i] -= n
    return shared(whole, (*loads, *(Load(b, tuple(h.items())) for b, h in zip(bins, held, strict=True))))
