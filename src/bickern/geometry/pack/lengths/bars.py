"""Which bars to take, before which cut goes where: a bound that knows no bar is taken in part.

Whatever the worths of the cuts, a bar carries no more than its best pattern. So the bars taken must, for each list of
worths, carry the worth of all cuts (less those short, and with what their drops take off the cost): a small
whole-number programme over bars alone, which grows a row with every choice of bars that turns out too small.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from bickern.geometry.pack.lengths.given import Taken
from bickern.geometry.pack.lengths.patterns import Floats, Ints, table, tops
from bickern.geometry.pack.lengths.solver import SMALL, Aim, Means, quiet, run_whole, whole_bound
from bickern.geometry.pack.lengths.whole import Whole, bare, kept_rooms, slack

MEANS = Means(3000, 2.0)
"""What one choice may use up."""
BRIEF = Means(100, 0.5)
"""As much where a bound that is nearly as good does."""


@dataclass(frozen=True, slots=True)
class Carried:
    """Worths of the cuts, and the most that a bar of each kind carries, its drop lost or kept with it.

    `more`: what must be carried beyond what the cuts are worth (0 for a bound).
    """

    worths: Floats
    lost: Floats
    kept: Floats
    more: float = 0.0


@dataclass(frozen=True, slots=True)
class Choice:
    """The cheapest bars that may do (None: there are none below the limit), and the bound."""

    taken: Taken | None
    bound: float


def carried(whole: Whole, worths: Floats) -> Carried:
    """What bars carry of such worths.

    Where a drop is kept, each unit used takes its worth off the drop: the worths of the cuts are less by that.
    """
    alone = bare(whole)
    lost = tops(alone, table(alone, worths))
    if not whole.worth:
        return Carried(worths, lost, lost)
    rests = kept_rooms(whole)
    shorter = bare(whole, kept=True)
    net = worths - whole.worth * np.array(whole.cuts)
    under = tops(shorter, table(shorter, np.maximum(net, 0.0)))
    kept = [
        whole.worth * (room + whole.spare) + with_one(whole, net, rest, float(most)) if rest >= 0 else 0.0
        for room, rest, most in zip(whole.rooms, rests, under, strict=True)
    ]
    return Carried(worths, lost, np.array(kept))


def with_one(whole: Whole, net: Floats, rest: int, most: float) -> float:
    """The most that a bar carries whose drop is kept: a cut at least, even if each is worth less than its room."""
    fits = net[np.array(whole.cuts) <= rest]
    return most if most > 0.0 or not len(fits) else float(fits.max())


def needed(whole: Whole, aim: Aim, row: Carried) -> float:
    """What bars must carry by a list of worths: all cuts, but those that may be short."""
    dear = np.sort(np.repeat(row.worths, whole.wants))[::-1]
    return float(dear[aim.most_short :].sum()) + row.more


def least_with(whole: Whole, aim: Aim, row: Carried, taken: Taken) -> Floats:
    """What plans with these bars cost at least, by one list of worths; infinite where they cannot carry the cuts.

    One number; or one for each choice, where bars are given as rows.
    """
    lacks = needed(whole, aim, row) - taken.lost @ row.lost - taken.kept @ row.kept
    costs = (taken.lost + taken.kept) @ np.array(whole.costs, dtype=np.float64)
    return np.where(lacks > slack(needed(whole, aim, row)), np.inf, costs + lacks if whole.worth else costs)


def in_part(whole: Whole, aim: Aim, rows: Sequence[Carried]) -> tuple[Floats, float]:
    """How much each list of worths says of the cheapest bars that may be taken in part (duals); and what these cost.

    Infinite where there are none.
    """
    highs = quiet()
    _columns(highs, whole, aim)
    first = highs.getNumRow()
    scales = [_carry(highs, whole, row) for row in rows]
    highs.run()
    duals = np.array(highs.getSolution().row_dual)[first:]
    state = str(highs.getModelStatus()).rpartition(".")[2]
    if state == "kOptimal":
        return np.maximum(duals * np.array(scales), 0.0), float(highs.getInfo().objective_function_value)
    return np.zeros(len(rows)), float("inf" if state == "kInfeasible" else "-inf")


def choice(
    whole: Whole,
    aim: Aim,
    rows: list[Carried],
    barred: list[Taken],
    below: float,
    near: float,
    means: Means = MEANS,
) -> Choice:
    """The cheapest bars, or within `near` of them, that carry every list of worths and are none that is barred."""
    highs = quiet()
    bars = len(whole.rooms)
    _columns(highs, whole, aim)
    for row in rows:
        _carry(highs, whole, row)
    whole_numbers = list(range(2 * bars))
    for taken in barred:
        whole_numbers += _other(highs, whole, taken)
    gap = max(near, 0.5 * whole.step or slack(below))
    state = run_whole(highs, whole_numbers, gap, below, means, **SMALL)
    if state in ("kInfeasible", "kObjectiveBound"):
        return Choice(None, below)
    if highs.getInfo().primal_solution_status != 2:
        return Choice(None, whole_bound(highs))
    values = np.rint(np.array(highs.getSolution().col_value[: 2 * bars])).astype(np.int64)
    return Choice(Taken(values[:bars], values[bars:]), whole_bound(highs))


def _columns(highs: Any, whole: Whole, aim: Aim) -> None:
    """Bars by kind, drops lost, then drops kept; the worth of all drops; cuts short; and what there is of each."""
    inf = highs.inf
    bars, cuts = len(whole.rooms), len(whole.cuts)
    kept = kept_rooms(whole)
    keeping = [float(n) if rest >= min(whole.cuts) else 0.0 for n, rest in zip(whole.counts, kept, strict=True)]
    for cost, count in zip(whole.costs * 2, (*whole.counts, *keeping), strict=True):
        highs.addCol(cost, 0.0, float(count), 0, [], [])
    highs.addCol(-1.0, 0.0, inf if whole.worth else 0.0, 0, [], [])
    for want in whole.wants:
        highs.addCol(0.0, 0.0, float(want) if aim.most_short else 0.0, 0, [], [])
    shorts = np.arange(2 * bars + 1, 2 * bars + 1 + cuts, dtype=np.int32)
    highs.addRow(-inf, float(aim.most_short), cuts, shorts, np.ones(cuts))
    for b, count in enumerate(whole.counts):
        highs.addRow(-inf, float(count), 2, [b, bars + b], [1.0, 1.0])
    if whole.worth:  # a cut at least is out of each bar whose drop is kept
        longest = [whole.worth * float(room + whole.spare - min(whole.cuts)) for room in whole.rooms]
        index = np.arange(bars, 2 * bars + 1, dtype=np.int32)
        scale = 1.0 / max(*longest, 1.0)  # a bar may be so short that no drop is left of it
        highs.addRow(0.0, inf, len(index), index, np.array([*longest, -1.0]) * scale)
    _a_cut_in_each(highs, whole, np.array((*whole.rooms, *kept)))


def _a_cut_in_each(highs: Any, whole: Whole, rooms: Ints) -> None:
    """No bar is taken without a cut: of those that only the shorter cuts fit, no more than there are of these."""
    known = 0
    for k in range(len(whole.cuts) - 1, -1, -1):
        short = np.flatnonzero(rooms < (whole.cuts[k - 1] if k else np.inf)).astype(np.int32)
        if len(short) != known:
            known = len(short)
            highs.addRow(-highs.inf, float(sum(whole.wants[k:])), known, short, np.ones(known))


def _carry(highs: Any, whole: Whole, row: Carried) -> float:
    """Bars must carry all cuts that are not short, and the worth of their drops comes off what they carry.

    What the row was multiplied by comes back.
    """
    scale = 1.0 / max(float(row.lost.max()), float(row.kept.max()), 1e-9)
    need = (float(row.worths @ np.array(whole.wants)) + row.more) * scale
    values = np.concatenate((row.lost, row.kept, [-1.0], row.worths)) * scale
    index = np.arange(len(values), dtype=np.int32)
    highs.addRow(need - 1e-9 * abs(need), highs.inf, len(index), index, values)
    return scale


def _other(highs: Any, whole: Whole, taken: Taken) -> list[int]:
    """A row that asks for a bar more or less, of some kind, drop lost or kept, than a choice that is barred."""
    terms = _Terms(highs)
    for at, (n, most) in enumerate(zip((*taken.lost, *taken.kept), whole.counts * 2, strict=True)):
        if n < most:
            terms.above(at, int(n), most)
        if n > 0:
            terms.under(at, int(n), most)
    return terms.row()


class _Terms:
    """Terms of which one at least must be 1: a bar of which there is one is a term itself, others get a variable."""

    def __init__(self, highs: Any) -> None:
        self.highs = highs
        self.index: list[int] = []
        self.values: list[float] = []
        self.new: list[int] = []
        self.least = 1.0

    def above(self, at: int, n: int, most: int) -> None:
        """That there are more than `n`."""
        if most == 1:
            self.add(at, 1.0)
        else:
            self.highs.addRow(0.0, float(most), 2, [at, self.variable()], [1.0, -float(n + 1)])

    def under(self, at: int, n: int, most: int) -> None:
        """That there are fewer than `n`."""
        if most == 1:
            self.add(at, -1.0)
            self.least -= 1.0
        else:
            self.highs.addRow(-self.highs.inf, float(most), 2, [at, self.variable()], [1.0, float(most - n + 1)])

    def add(self, at: int, value: float) -> None:
        """A term more."""
        self.index.append(at)
        self.values.append(value)

    def variable(self) -> int:
        """A new variable, 0 or 1, that is a term."""
        self.new.append(self.highs.getNumCol())
        self.highs.addCol(0.0, 0.0, 1.0, 0, [], [])
        self.add(self.new[-1], 1.0)
        return self.new[-1]

    def row(self) -> list[int]:
        """Writes the row; the new variables."""
        index = np.array(self.index, dtype=np.int32)
        self.highs.addRow(self.least, self.highs.inf, len(index), index, np.array(self.values))
        return self.new
