"""The bound where it is given which bars are taken, and whether their drops are kept.

Such bars cost what they cost, whatever comes off them; but each unit that is used of a bar whose drop is kept costs
its worth. So the others are to be filled up, and the rest lies anywhere in those kept, a cut in each at least.
"""

from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from bickern.geometry.pack.lengths.linear import AHEAD, FULL, WIDTH
from bickern.geometry.pack.lengths.patterns import COARSE, ROW, Columns, Floats, Ints, Table, table, tops, walk
from bickern.geometry.pack.lengths.short import wanted
from bickern.geometry.pack.lengths.solver import PRIMAL, Aim, add_columns, checked, joined, quiet
from bickern.geometry.pack.lengths.whole import Whole, bare


@dataclass(frozen=True, slots=True)
class Taken:
    """How many bars of each kind, by whether their drops are lost or kept."""

    lost: Ints
    kept: Ints

    def fixed(self, whole: Whole) -> float:
        """What they cost whatever comes off them."""
        full = np.array(whole.costs) - whole.worth * (np.array(whole.rooms) + whole.spare)
        return float(np.array(whole.costs) @ self.lost + full @ self.kept)

    def least(self, whole: Whole) -> float:
        """What they cost at least: a cut is out of each."""
        return self.fixed(whole) + whole.worth * min(whole.cuts) * float(self.kept.sum())

    def wasted(self, whole: Whole, aim: Aim, limit: float) -> int:
        """What may be wasted of those to be filled, in a plan that costs no more than a limit."""
        used = int((limit - self.fixed(whole)) / whole.worth + 1e-6) if self.kept.any() else 0
        return int(np.array(whole.rooms) @ self.lost) + used - wanted(whole.cuts, whole.wants, aim.most_short)

    def same(self, other: "Taken") -> bool:
        """Whether they are the same bars."""
        return bool((self.lost == other.lost).all() and (self.kept == other.kept).all())

    def bins(self) -> list[int]:
        """The bars whose drops are kept, one by one."""
        return [int(b) for b in np.repeat(np.arange(len(self.kept)), self.kept)]

    def to_fill(self, whole: Whole) -> Whole:
        """The problem of those bars alone that are to be filled up."""
        return _alone(bare(whole), self.lost)

    def to_keep(self, whole: Whole) -> Whole:
        """The problem of those bars alone whose drops are kept, as long as they may be used."""
        return _alone(bare(whole, kept=True), self.kept)


def _alone(whole: Whole, counts: Ints) -> Whole:
    """The problem of so many bars; the others have no room, so that no table is made for them."""
    some = tuple(room if n else 0 for room, n in zip(whole.rooms, counts, strict=True))
    return replace(whole, rooms=some, counts=tuple(int(n) for n in counts))


@dataclass(frozen=True, slots=True)
class Lower:
    """A bound, the worths it comes from, and what the best pattern of each kind to be filled up is worth by them."""

    bound: float
    values: Table
    tops: Floats


def dummy(whole: Whole) -> float:
    """What a cut costs that nothing covers."""
    return 2.0 * (max(whole.costs) + whole.worth * max(whole.rooms)) + 1.0


@dataclass(frozen=True, slots=True)
class Known:
    """Patterns known of bars to be filled up, and of bars whose drops are kept."""

    fill: Columns
    keep: Columns


def lowest(whole: Whole, aim: Aim, taken: Taken, known: Known) -> tuple[Lower, Known]:
    """The bound over all patterns, by column generation; and the patterns that are known then.

    It is infinite where there is a bar to be kept that no cut goes into.
    """
    fill, keep = taken.to_fill(whole), taken.to_keep(whole)
    if any(n and room < min(keep.cuts) for n, room in zip(keep.counts, keep.rooms, strict=True)):
        return Lower(float("inf"), table(fill, np.zeros(len(whole.cuts))), np.zeros(len(whole.rooms))), known
    highs = _model(whole, aim, taken)
    _keep_singles(highs, whole, keep)
    _add(highs, whole, _of(known.fill, taken.lost), kept=False)
    _add(highs, whole, _of(known.keep, taken.kept), kept=True)
    best: Lower | None = None
    cells = COARSE
    while True:
        highs.run()
        checked(highs, ("kOptimal",))
        duals = np.array(highs.getSolution().row_dual)
        worths = np.maximum(duals[: len(whole.cuts)], 0.0)
        values, under = table(fill, worths, cells), _under(whole, keep, worths, cells)
        if cells > COARSE:
            lower = _bound(whole, aim, taken, values, under)
            best = lower if best is None or lower.bound > best.bound else best
            if best.bound >= highs.getInfo().objective_function_value + taken.fixed(whole) - 0.01 * whole.step - 1e-7:
                return best, known
        of_fill = _needs(fill, duals[len(whole.cuts) :], dummy(whole))
        of_keep = _needs(keep, duals[len(whole.cuts) + len(whole.rooms) :], dummy(whole))
        found, kept = _better(fill, values, of_fill), _better(keep, under, of_keep)
        if not len(found) and not len(kept):
            if best is None:
                cells = ROW
                continue
            if values.cell == under.cell == 1 or _any(fill, values, of_fill) or _any(keep, under, of_keep):
                return best, known
            lower = _bound(whole, aim, taken, values, under, of_fill, of_keep)  # no pattern is worth more
            return lower if lower.bound > best.bound else best, known
        _add(highs, whole, found, kept=False)
        _add(highs, whole, kept, kept=True)
        known = Known(joined(known.fill, found), joined(known.keep, kept))


def _of(columns: Columns, counts: Ints) -> Columns:
    """The patterns of kinds that are taken."""
    taken = counts[columns.bars] > 0
    return Columns(columns.bars[taken], columns.counts[taken])


def _needs(whole: Whole, duals: Floats, scale: float) -> Floats:
    """What a pattern must be worth to make the linear programme better; of bars that are not taken none does."""
    taken = np.array(whole.counts) > 0
    return np.where(taken, -duals[: len(taken)] + AHEAD * max(1e-3, scale), np.inf)


def _better(whole: Whole, values: Table, needs: Floats) -> Columns:
    """Patterns that make the linear programme better, a few of each bar that is taken."""
    found = walk(_worthy(whole, values), values, needs, width=max(4, WIDTH // max(1, int(np.isfinite(needs).sum()))))
    assert found is not None  # no limit was given
    return found


def _any(whole: Whole, values: Table, needs: Floats) -> bool:
    """Whether there are such patterns, all looked through, or too many half-filled bars to tell."""
    found = walk(_worthy(whole, values), values, needs, most=FULL)
    return found is None or len(found) > 0


def _worthy(whole: Whole, values: Table) -> Whole:
    """The problem with only those cuts that are worth anything."""
    return replace(whole, wants=tuple(int(n) for n in np.array(whole.wants) * (values.worths > 0.0)))


def _model(whole: Whole, aim: Aim, taken: Taken) -> Any:
    """Rows: cuts, bars to be filled up by kind, bars kept by kind, cuts short; columns: cuts uncovered, or short."""
    highs = quiet()
    highs.setOptionValue("simplex_strategy", PRIMAL)
    for want in whole.wants:
        highs.addRow(float(want), highs.inf, 0, [], [])
    for n in taken.lost:
        highs.addRow(-highs.inf, float(n), 0, [], [])
    for n in taken.kept:
        highs.addRow(float(n), float(n), 0, [], [])
    last = len(whole.wants) + 2 * len(whole.rooms)
    highs.addRow(-highs.inf, float(aim.most_short), 0, [], [])
    for i, want in enumerate(whole.wants):
        highs.addCol(dummy(whole), 0.0, float(want), 1, [i], [1.0])
        if aim.most_short:
            highs.addCol(0.0, 0.0, float(want), 2, [i, last], [1.0, 1.0])
    return highs


def _keep_singles(highs: Any, whole: Whole, keep: Whole) -> None:
    """The patterns of one cut for bars that are kept."""
    one = np.eye(len(whole.cuts), dtype=np.int64)
    for b, (n, room) in enumerate(zip(keep.counts, keep.rooms, strict=True)):
        if n:
            fits = one[np.array(keep.cuts) <= room]
            _add(highs, whole, Columns(np.full(len(fits), b), fits), kept=True)


def _add(highs: Any, whole: Whole, columns: Columns, *, kept: bool) -> None:
    """Patterns as columns; what is used of bars that are kept costs its worth."""
    costs = columns.counts @ np.array(whole.cuts) * (whole.worth * kept)
    add_columns(highs, columns, costs, len(whole.cuts) + len(whole.rooms) * kept)


def _under(whole: Whole, keep: Whole, worths: Floats, cells: int) -> Table:
    """What cuts are worth over the room that they take of a bar that is kept."""
    return table(keep, np.maximum(worths - whole.worth * np.array(whole.cuts), 0.0), cells)


def _bound(
    whole: Whole,
    aim: Aim,
    taken: Taken,
    values: Table,
    under: Table,
    of_fill: Floats | float = np.inf,
    of_keep: Floats | float = np.inf,
) -> Lower:
    """The bound by these worths (Lagrange): no bar carries more than its best pattern.

    `of_fill`, `of_keep`: what is known besides that no pattern is worth more than.
    """
    worths, keep = values.worths, taken.to_keep(whole)
    most = np.minimum(tops(taken.to_fill(whole), values), of_fill)
    bound = taken.fixed(whole) + float(worths @ np.array(whole.wants)) - float(most @ taken.lost)
    net = worths - whole.worth * np.array(whole.cuts)
    over = np.minimum(tops(keep, under), of_keep)
    for n, room, top in zip(keep.counts, keep.rooms, over, strict=True):
        if n:
            bound -= n * (float(top) if top > 0.0 else float(net[np.array(keep.cuts) <= room].max()))
    if aim.most_short:
        dear = np.sort(np.repeat(worths, whole.wants))[::-1]
        bound -= float(dear[: aim.most_short].sum())
    return Lower(bound, values, most)
