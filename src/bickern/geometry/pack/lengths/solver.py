"""HiGHS, asked with one thread and never believed unasked: every status is looked at."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from bickern.geometry.pack.lengths.patterns import Columns, Floats, Ints
from bickern.geometry.pack.lengths.whole import Whole, drop_value

PRIMAL = 4
"""The solver's number for its primal simplex: quicker for bars of several lengths, slower for bars all alike."""


class UnsolvedError(Exception):
    """HiGHS gave no answer; its state in words."""


@dataclass(frozen=True, slots=True)
class Duals:
    """The optimum of a linear programme: its value, what one more of each cut costs, of each bar, of a cut short."""

    value: float
    cuts: Floats
    bars: Floats
    short: float
    columns: Floats
    dummies: Floats


@dataclass(frozen=True, slots=True)
class Aim:
    """What is made least: `short_cost` for each cut short, and at most `most_short` of them."""

    short_cost: float = 0.0
    most_short: int = 0


def column_costs(whole: Whole, columns: Columns) -> Floats:
    """Cost of each pattern, less the worth of its drop."""
    costs = np.array(whole.costs)[columns.bars]
    if whole.worth:
        rests = np.array(whole.rooms)[columns.bars] - columns.counts @ np.array(whole.cuts)
        costs = costs - np.array([drop_value(whole, int(rest)) for rest in rests])
    return costs


class Master:
    """The linear programme over the patterns found so far; patterns come, none goes.

    Cuts that no pattern covers yet are covered by dummies that cost more than any bar.
    """

    def __init__(self, whole: Whole, aim: Aim) -> None:
        import highspy

        self.whole = whole
        self.aim = aim
        self.highs = quiet()
        if len(whole.rooms) > 1:
            self.highs.setOptionValue("simplex_strategy", PRIMAL)
        self.inf = highspy.kHighsInf
        for want in whole.wants:
            self.highs.addRow(float(want), self.inf, 0, [], [])
        for count in whole.counts:
            self.highs.addRow(-self.inf, float(count), 0, [], [])
        self.highs.addRow(-self.inf, float(aim.most_short), 0, [], [])
        last = len(whole.wants) + len(whole.counts)
        self.first = 2 * len(whole.wants)
        for i in range(len(whole.wants)):
            self.highs.addCol(self.dummy, 0.0, self.inf, 1, [i], [1.0])
            self.highs.addCol(aim.short_cost, 0.0, self.inf if aim.most_short else 0.0, 2, [i, last], [1.0, 1.0])
        self.columns = none_of(whole)
        self.known: set[tuple[int, bytes]] = set()

    @property
    def dummy(self) -> float:
        """What a cut costs that nothing covers."""
        return 20.0 * (max(self.whole.costs) + self.aim.short_cost + self.whole.worth * max(self.whole.rooms) + 1.0)

    def add(self, columns: Columns) -> int:
        """Takes up the patterns that it does not know yet; how many those were."""
        new = []
        for at in range(len(columns)):
            key = (int(columns.bars[at]), columns.counts[at].tobytes())
            if key not in self.known:
                self.known.add(key)
                new.append(at)
        if new:
            fresh = Columns(columns.bars[new], columns.counts[new])
            add_columns(self.highs, fresh, column_costs(self.whole, fresh), len(self.whole.cuts))
            self.columns = joined(self.columns, fresh)
        return len(new)

    def leave(self, wants: Ints, counts: Ints) -> None:
        """From now on only so many cuts are wanted of so many bars; patterns that hold more are left out."""
        cuts, bars = len(wants), len(counts)
        rows = np.arange(cuts + bars, dtype=np.int32)
        lower = np.concatenate((wants, np.full(bars, -self.inf))).astype(float)
        upper = np.concatenate((np.full(cuts, self.inf), counts)).astype(float)
        self.highs.changeRowsBounds(len(rows), rows, lower, upper)
        fits = (self.columns.counts <= wants).all(axis=1) & (counts[self.columns.bars] > 0)
        index = np.arange(len(self.columns), dtype=np.int32) + self.first
        self.highs.changeColsBounds(len(index), index, np.zeros(len(index)), np.where(fits, self.inf, 0.0))

    def solved(self) -> Duals:
        """The optimum over the patterns known."""
        self.highs.run()
        if checked(self.highs, ("kOptimal", "kUnknown")) == "kUnknown":  # it lost its way: once more from the start
            self.highs.clearSolver()
            self.highs.run()
            checked(self.highs, ("kOptimal",))
        solution = self.highs.getSolution()
        duals = np.array(solution.row_dual)
        cuts = len(self.whole.wants)
        values = np.array(solution.col_value)
        return Duals(
            self.highs.getInfo().objective_function_value,
            np.maximum(duals[:cuts], 0.0),
            np.minimum(duals[cuts:-1], 0.0),
            min(float(duals[-1]), 0.0),
            values[self.first :],
            values[: self.first : 2],
        )


def none_of(whole: Whole) -> Columns:
    """No pattern."""
    return Columns(np.zeros(0, dtype=np.int64), np.zeros((0, len(whole.cuts)), dtype=np.int64))


def joined(a: Columns, b: Columns) -> Columns:
    """Patterns of both."""
    return Columns(np.concatenate((a.bars, b.bars)), np.concatenate((a.counts, b.counts)))


def quiet() -> Any:
    """A HiGHS that says nothing and uses one thread (it takes one number of threads for each process)."""
    import highspy

    highs = highspy.Highs()  # type: ignore[no-untyped-call] # it ships no type for this one
    highs.setOptionValue("output_flag", False)
    highs.setOptionValue("threads", 1)
    return highs


@dataclass(frozen=True, slots=True)
class Means:
    """What a search may use up: nodes of its tree, which do the same on every machine; and seconds, for the worst."""

    nodes: int
    seconds: float


SMALL = {
    "mip_heuristic_run_feasibility_jump": False,
    "mip_heuristic_run_rins": False,
    "mip_heuristic_run_rens": False,
    "mip_heuristic_run_root_reduced_cost": False,
}
"""For small programmes, of which there are many: no search inside the search, which takes longer than all the rest."""
BARE = {"presolve": "off"}
"""For programmes of patterns that are short of everything superfluous already."""


def run_whole(
    highs: Any, whole_numbers: Sequence[int], gap: float, below: float, means: Means, **options: bool | int | str
) -> str:
    """Runs it with these variables whole, for what comes to less than `below`; its state."""
    import highspy

    for name, value in options.items():
        highs.setOptionValue(name, value)

    kinds = np.full(len(whole_numbers), highspy.HighsVarType.kInteger)
    highs.changeColsIntegrality(len(kinds), np.array(whole_numbers, dtype=np.int32), kinds)
    highs.setOptionValue("mip_rel_gap", 0.0)
    highs.setOptionValue("mip_abs_gap", gap)
    highs.setOptionValue("objective_bound", below)
    highs.setOptionValue("mip_max_nodes", means.nodes)
    highs.setOptionValue("time_limit", means.seconds)
    highs.run()
    return checked(highs, ("kOptimal", "kTimeLimit", "kSolutionLimit", "kInfeasible", "kObjectiveBound"))


def whole_bound(highs: Any) -> float:
    """The bound of such a run; none where the time was over before there was one."""
    bound = float(highs.getInfo().mip_dual_bound)
    return bound if bound == bound else float("-inf")


def checked(highs: Any, allowed: Sequence[str]) -> str:
    """The state of a run by name; a fault where it is not among those allowed."""
    state = str(highs.getModelStatus()).rpartition(".")[2]
    if state not in allowed:
        raise UnsolvedError(highs.modelStatusToString(highs.getModelStatus()))
    return state


def add_columns(highs: Any, columns: Columns, costs: Floats, first: int) -> None:
    """Patterns as columns of a model whose rows are the cuts, and the kinds of bars from row `first` on."""
    import highspy

    rows, at = np.nonzero(columns.counts.T)
    order = np.argsort(at, kind="stable")
    per = np.bincount(at, minlength=len(columns))
    index = np.empty(len(rows) + len(columns), dtype=np.int32)
    value = np.ones(len(rows) + len(columns))
    starts = np.concatenate(([0], np.cumsum(per + 1)[:-1])).astype(np.int32)
    ends = starts + per
    inner = np.ones(len(index), dtype=np.bool_)
    inner[ends] = False
    index[inner] = rows[order]
    value[inner] = columns.counts.T[rows, at][order]
    index[ends] = first + columns.bars
    zeros = np.zeros(len(columns))
    tops = np.full(len(columns), highspy.kHighsInf)
    status = highs.addCols(len(columns), costs, zeros, tops, len(index), starts, index, value)
    if str(status).endswith("kError"):
        raise UnsolvedError("its columns were refused")
