"""The linear programme over all patterns, by column generation; and what its duals say of every plan.

Any worths of the cuts give a bound: what the cuts are worth, less what the best pattern of each bar is worth more than
it costs, for as many of these bars as there are (Lagrange). No rounding of the solver can make it too high.
"""

from dataclasses import dataclass

import numpy as np

from bickern.geometry.pack.lengths.bounds import stepped
from bickern.geometry.pack.lengths.patterns import COARSE, Columns, Floats, Table, table, tops, walk
from bickern.geometry.pack.lengths.solver import Aim, Duals, Master, column_costs, joined, none_of
from bickern.geometry.pack.lengths.whole import Whole

AHEAD = 1e-7
"""A pattern is taken up where it is worth so much more than it costs, as a share of the dearest bar."""
FIRST, BLUR = 8, 0.1
"""Times that bars are filled up to begin with, and the share by which a cut is taken for longer or shorter then."""
ROUNDS = 100
"""Rounds of new patterns before a bound is looked at."""
WIDTH, ALIKE = 100, 40
"""Half-filled bars that are followed at once for new patterns, of all bars together; of bars that are all alike."""
NEARLY = 1e-4
"""Share of the cost by which a bound may be less than it could be where it need not be exact, if a step is less."""
ENOUGH = 300
"""Patterns that are taken up at once, at most."""
FULL = 40_000
"""Patterns that are looked through, at most, for the one that is still missing."""


@dataclass(frozen=True, slots=True)
class Relaxed:
    """A bound, and what it comes from: worths, each bar's best pattern's worth, their table; what one short saves."""

    bound: float
    worths: Floats
    tops: Floats
    values: Table
    short: float

    def within(self, whole: Whole, gap: float) -> Floats:
        """What a pattern must be worth, bar by bar, to be in any plan that costs less than `gap` over the bound."""
        needs: Floats = np.maximum(np.array(whole.costs), self.tops) - gap
        return needs


def begun(whole: Whole) -> Columns:
    """Patterns to begin with: bars filled up, one cut or another taken for longer or shorter than it is."""
    draw = np.random.default_rng(0)
    worths = np.array(whole.cuts) * float(np.median(np.array(whole.costs) / np.maximum(1, whole.rooms)))
    found = none_of(whole)
    for _ in range(FIRST):
        values = table(whole, worths * draw.uniform(1.0 - BLUR, 1.0 + BLUR, len(worths)), COARSE)
        found = joined(found, _followed(whole, values, tops(whole, values) * (1.0 - BLUR / 100)))
    return found


def priced(master: Master, whole: Whole, rounds: int) -> Duals:
    """The optimum over the patterns known, new ones taken up in so many rounds at most."""
    duals = master.solved()
    for _ in range(rounds):
        if not master.add(_better(whole, duals, table(whole, duals.cuts, COARSE))):
            break
        duals = master.solved()
    return duals


def relaxed(master: Master, whole: Whole, *, exact: bool) -> tuple[Relaxed, Duals]:
    """The bound, as good as it gets (`exact`), or so good that it is hardly better, or no better rounded up to a step.

    Where bars have many units, patterns are looked for with few cells first.
    """
    best: Relaxed | None = None
    if max(whole.rooms) > COARSE:
        priced(master, whole, ROUNDS)
    while True:
        duals = master.solved()
        values = table(whole, duals.cuts)
        found = bounded(whole, master.aim, values, tops(whole, values))
        best = found if best is None or found.bound > best.bound else best
        nearly = duals.value - max(0.0, NEARLY * abs(duals.value) - whole.step)
        if not exact and stepped(whole, best.bound) >= stepped(whole, nearly) - 1e-9:
            return best, duals
        if master.add(_better(whole, duals, values)):
            continue
        rest = (
            walk(whole, values, _needs(whole, duals), most=FULL) if values.cell > 1 else _better(whole, duals, values)
        )
        if rest is not None and master.add(_best(whole, duals, rest)):
            continue
        if rest is not None:
            found = bounded(whole, master.aim, values, np.minimum(tops(whole, values), _needs(whole, duals)))
            best = found if found.bound > best.bound else best
        return best, duals


def _needs(whole: Whole, duals: Duals) -> Floats:
    """What a pattern must be worth to make the linear programme better."""
    needs = np.array(whole.costs) - duals.bars
    return needs + AHEAD * max(1e-3, float(needs.max(initial=0.0)))


def _better(whole: Whole, duals: Duals, values: Table) -> Columns:
    """Patterns that make the linear programme better, a few of each bar."""
    return _followed(whole, values, _needs(whole, duals))


def _followed(whole: Whole, values: Table, needs: Floats) -> Columns:
    """Patterns that are worth what they need, a few of each bar."""
    needs = np.where(np.array(whole.counts) > 0, needs, np.inf)
    found = walk(whole, values, needs, width=max(3, WIDTH // len(needs)) if len(needs) > 1 else ALIKE)
    assert found is not None  # no limit was given
    return found


def _best(whole: Whole, duals: Duals, columns: Columns) -> Columns:
    """The patterns that make it better most, if there are too many."""
    gain = columns.counts @ duals.cuts + duals.bars[columns.bars] - column_costs(whole, columns)
    best = np.argsort(-gain, kind="stable")[:ENOUGH]
    return Columns(columns.bars[best], columns.counts[best])


def bounded(whole: Whole, aim: Aim, values: Table, most: Floats) -> Relaxed:
    """The best bound by worths that are a share of those given; `most`: the worth of each bar's best pattern."""
    costs, counts = np.array(whole.costs), np.array(whole.counts, dtype=np.float64)
    wants = np.array(whole.wants, dtype=np.float64)
    idle = np.array([float(values.left[-1][room // values.cell]) for room in whole.rooms])
    over = most - idle > 1e-12
    shares = (costs - idle)[over] / (most - idle)[over]
    tried = np.unique(np.concatenate(([1.0], shares[(shares > 0.0) & (shares < 1.0)])))

    def short(share: float) -> float:
        return min(0.0, aim.short_cost - share * float(values.worths.max(initial=0.0))) if aim.most_short else 0.0

    def value(share: float) -> float:
        surplus = np.minimum(0.0, costs - share * most - (1.0 - share) * idle)
        return float(share * (values.worths @ wants) + surplus @ counts) + short(share) * aim.most_short

    share = float(max(tried, key=value))
    if share == 1.0:
        return Relaxed(value(1.0), values.worths, most, values, short(1.0))
    scaled = table(whole, share * values.worths)
    return Relaxed(value(share), scaled.worths, share * most + (1.0 - share) * idle, scaled, short(share))
