"""Patterns worth having: what a bar can carry, searched under a bound that is a table over lengths.

Cuts have worths (the duals of a linear programme). `Table` holds, for each cut k and each length left, a value that
cuts k, k+1, ... together with the drop cannot pass. It is exact where a bar has few units, and an upper bound where
many units share a cell: cuts are rounded down there, so all that fits still fits. `walk` goes once through the cuts,
for all bars at a time, and keeps whatever may still reach what is asked; lengths are whole there: what it gives fits.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bickern.geometry.pack.lengths.whole import Whole, drop_value

CELLS = 2_600_000
"""Cells of a table, at most."""
ROW, COARSE = 100_000, 8_000
"""Cells of a row of it, at most; as many where new patterns are looked for, and no bound."""

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


@dataclass(frozen=True, slots=True)
class Table:
    """`left[k][c]`: the most that cuts k and after can be worth in c cells, the drop with them; `cell` units each."""

    left: tuple[Floats, ...]
    worths: Floats
    cell: int


@dataclass(frozen=True, slots=True)
class Columns:
    """Patterns as rows of counts, each for a bar."""

    bars: Ints
    counts: Ints

    def __len__(self) -> int:
        return len(self.bars)


def table(whole: Whole, worths: Floats, most: int = ROW) -> Table:
    """The table for such worths, so many cells a row at most: one row from the next, last cut first."""
    cell = max(1, -(-max(whole.rooms) // min(most, CELLS // len(whole.cuts))))
    cells = max(whole.rooms) // cell + 1
    row = _drops(whole, cells, cell)
    rows = [row]
    for k in range(len(whole.cuts) - 1, -1, -1):
        if worths[k] > 0.0:
            row = _with(row, whole.cuts[k] // cell, min(whole.wants[k], max(whole.rooms) // whole.cuts[k]), worths[k])
        rows.append(row)
    return Table(tuple(reversed(rows)), worths, cell)


def _drops(whole: Whole, cells: int, cell: int) -> Floats:
    """What the drop is worth where that many cells are left, at most."""
    if not whole.worth:
        return np.zeros(cells)
    drops = np.arange(cells, dtype=np.float64) * cell + (cell - 1 + whole.spare)
    return np.where(drops >= max(whole.keep, 1), drops * whole.worth, 0.0)


def _with(row: Floats, cells: int, most: int, worth: float) -> Floats:
    """A row with up to `most` of one more cut, in lots of 1, 2, 4 ..."""
    lot = 1
    while most > 0:
        n = min(lot, most)
        size = n * cells
        if size >= len(row):
            break
        new = np.empty_like(row)
        new[:size] = row[:size]
        np.add(row[: len(row) - size], n * worth, out=new[size:])
        np.maximum(row[size:], new[size:], out=new[size:])
        row, most, lot = new, most - n, 2 * lot
    return row


def tops(whole: Whole, values: Table) -> Floats:
    """The most that each bar's cuts and drop can be worth: by the table, and by what a unit is worth at most."""
    dense = max(float((values.worths / np.array(whole.cuts)).max()), whole.worth) * (1.0 + 1e-12)
    spare = whole.worth * max(whole.spare, 0)
    return np.array([min(values.left[0][room // values.cell], dense * room + spare) for room in whole.rooms])


@dataclass(frozen=True, slots=True)
class _States:
    """Half-filled bars: which, the room left in each, and what each lacks of what it must be worth."""

    bars: Ints
    rests: Ints
    lacks: Floats

    def some(self, which: Ints) -> "_States":
        """Those of these numbers."""
        return _States(self.bars[which], self.rests[which], self.lacks[which])


def walk(
    whole: Whole, values: Table, needs: Floats, *, width: int = 0, most: int = 0, lean: bool = False
) -> Columns | None:
    """Patterns whose cuts and drop are worth at least what their bar needs.

    `width`: only so many of each bar are followed (0: all). `most`: None comes back where there are more than this (0:
    no limit). `lean`: only patterns that no further cut fits.
    """
    bars = np.flatnonzero(tops(whole, values) >= needs)
    at = _States(bars, np.array(whole.rooms, dtype=np.int64)[bars], needs[bars])
    steps: list[tuple[Ints, Ints]] = []
    too_many = most * (4 if lean else 2)  # nearly every half-filled bar comes to a pattern
    for k, cut in enumerate(whole.cuts):
        grown, parents, times = _grown(at, cut, whole.wants[k], values.worths[k])
        over = values.left[k + 1][grown.rests // values.cell] - grown.lacks
        keep = (over >= 0.0).nonzero()[0]
        if width and len(keep) > width:
            keep = _widest(keep, grown.bars, over, width)
        if most and len(keep) > too_many:
            return None
        at = grown.some(keep)
        steps.append((parents[keep], times[keep]))
    return _finished(whole, at, steps, most, lean)


def _grown(at: _States, cut: int, want: int, worth: float) -> tuple[_States, Ints, Ints]:
    """States with 0, 1, 2 ... of one cut more; whence each came, and how many it took."""
    own = np.arange(len(at.bars))
    most = np.minimum(at.rests // cut, want)
    whence = own.repeat(most + 1)
    taken = np.arange(len(whence)) - (most.cumsum() - most + own)[whence]
    return _States(at.bars[whence], at.rests[whence] - cut * taken, at.lacks[whence] - worth * taken), whence, taken


def _widest(keep: Ints, bars: Ints, over: Floats, width: int) -> Ints:
    """Of each bar the most hopeful states."""
    of = bars[keep]
    order = np.lexsort((-over[keep], of))
    of = of[order]
    first = of.searchsorted(of)
    return np.sort(keep[order[np.arange(len(order)) - first < width]])


def _finished(whole: Whole, at: _States, steps: Sequence[tuple[Ints, Ints]], most: int, lean: bool) -> Columns | None:
    """The patterns of states that are through, put together backwards; those of no cut are no patterns."""
    drops = np.array([drop_value(whole, int(rest)) for rest in at.rests]) if whole.worth else 0.0
    kept = np.flatnonzero(drops >= at.lacks)
    if most and len(kept) > most * (4 if lean else 2):
        return None
    counts = np.zeros((len(kept), len(whole.cuts)), dtype=np.int64)
    where = kept
    for k in range(len(steps) - 1, -1, -1):
        parents, times = steps[k]
        counts[:, k] = times[where]
        where = parents[where]
    good = counts.any(axis=1)
    if lean:
        good &= ~_roomy(whole, at.rests[kept], counts)
    if most and int(good.sum()) > most:
        return None
    return Columns(at.bars[kept][good], counts[good])


def _roomy(whole: Whole, rests: Ints, counts: Ints) -> NDArray[np.bool_]:
    """Whether a further cut would fit."""
    roomy = np.zeros(len(rests), dtype=np.bool_)
    for k, (cut, want) in enumerate(zip(whole.cuts, whole.wants, strict=True)):
        roomy |= (rests >= cut) & (counts[:, k] < want)
    return roomy
