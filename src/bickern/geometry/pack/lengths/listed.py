"""Choices of bars that cost no more than a limit, as they stand: what each costs at least, and has to spare.

There may be tens of thousands, which are asked for again after each look. So those that are ruled out are struck off
where they stand, and what is known of the others is kept.
"""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from bickern.geometry.pack.lengths.bars import Carried, needed
from bickern.geometry.pack.lengths.given import Taken
from bickern.geometry.pack.lengths.patterns import Floats, Ints
from bickern.geometry.pack.lengths.solver import Aim
from bickern.geometry.pack.lengths.whole import Whole, slack

MOST_SPARE = 5e-3
"""The largest share that bars may carry more than they must that is told apart."""
PACKED = 0.5
"""Share of them that is left when those struck off are thrown out."""
AS_MUCH = 1e-9
"""By how much the numbers that the same bars are told by may differ, as they are rounded."""


class Listed:
    """Choices that cost `limit` at most by the lists of worths known; `least`: infinite where one is struck off."""

    def __init__(self, whole: Whole, aim: Aim, lost: Ints, kept: Ints, limit: float) -> None:
        self.whole = whole
        self.aim = aim
        self.limit = limit
        self.lost = lost.astype(np.int32)
        self.kept = kept.astype(np.int32)
        self.costs: Floats = (lost + kept).astype(np.float64) @ np.array(whole.costs, dtype=np.float64)
        self.least: Floats = self.costs - kept @ longest_drops(whole)
        self.names = self._named(self.lost, self.kept)
        self.learnt = 0
        self.barred = 0
        self.spare_at = float("nan")

    def __len__(self) -> int:
        return int(np.count_nonzero(self.least < np.inf))

    def at(self, n: int) -> Taken:
        """One of them."""
        return Taken(self.lost[n].astype(np.int64), self.kept[n].astype(np.int64))

    def kept_up(self, rows: Sequence[Carried], barred: Sequence[Taken]) -> None:
        """Strikes off what costs more by further lists of worths, and what was barred meanwhile."""
        if self.learnt < len(rows) and len(self.least):
            self._learn(rows[self.learnt :])
        self.learnt = len(rows)
        for taken in barred[self.barred :]:
            self.least[self.same(taken)] = np.inf
        self.barred = len(barred)
        if len(self) < PACKED * len(self.least):
            self.only(self.least < np.inf)

    def only(self, which: NDArray[np.bool_]) -> None:
        """Throws out all others."""
        self.lost, self.kept = self.lost[which], self.kept[which]
        self.costs, self.least, self.names = self.costs[which], self.least[which], self.names[which]
        self.spare_at = float("nan")

    def _learn(self, rows: Sequence[Carried]) -> None:
        over, needs = self._over(rows, slice(None))
        lacks = (over < -np.array([slack(need) for need in needs])).any(axis=1)
        if self.whole.worth:
            self.least = np.maximum(self.least, self.costs - over.min(axis=1))
        self.least[lacks | (self.least > self.limit + slack(self.limit))] = np.inf

    def _over(self, rows: Sequence[Carried], which: Ints | slice) -> tuple[Floats, Floats]:
        """What they carry more than they must by each list of worths, and what they must."""
        needs = np.array([needed(self.whole, self.aim, row) for row in rows])
        carried = self.lost[which] @ np.array([row.lost for row in rows]).T
        carried += self.kept[which] @ np.array([row.kept for row in rows]).T
        return carried - needs, needs

    def same(self, taken: Taken) -> Ints:
        """The numbers of those that are these bars."""
        some = np.flatnonzero(np.abs(self.names - self._named(taken.lost, taken.kept)) <= AS_MUCH)
        same: Ints = some[(self.lost[some] == taken.lost).all(axis=1) & (self.kept[some] == taken.kept).all(axis=1)]
        return same

    def _named(self, lost: Ints | NDArray[np.int32], kept: Ints | NDArray[np.int32]) -> Floats:
        """A number that hardly two of them have in common: they are soon told apart by it."""
        weights = np.random.default_rng(lost.shape[-1]).random((2, lost.shape[-1])) / (1 + max(self.whole.counts))
        named: Floats = lost @ weights[0] + kept @ weights[1]
        return named

    def cheapest(self, looked_at: Sequence[Taken]) -> int | None:
        """The number of the cheapest that is left, none of those looked at."""
        least = self.least
        if looked_at:
            least = least.copy()
            for taken in looked_at:
                least[self.same(taken)] = np.inf
        n = int(least.argmin()) if len(least) else 0
        return n if len(least) and least[n] < np.inf else None

    def spare(self, limit: float, rows: Sequence[Carried], looked_at: Sequence[Taken]) -> tuple[Ints, Floats]:
        """The numbers of those that cost no more than a limit, none looked at; what each has to spare, as a share.

        That is by every list of worths; what drops are worth, at least, is not to spare.
        """
        if self.spare_at != limit:
            self.spare_at, self._seen = limit, 0
            self._which = np.flatnonzero(self.least <= limit + slack(limit))
            self._spare = np.full(len(self._which), MOST_SPARE)
        if self._seen < len(rows) and len(self._which):
            over, needs = self._over(rows[self._seen :], self._which)
            if self.whole.worth:
                over -= np.maximum(0.0, self.costs[self._which] - limit)[:, None]
            self._spare = np.minimum(self._spare, (over / np.maximum(needs, 1e-9)).min(axis=1))
        self._seen = len(rows)
        least = self.least[self._which]
        for taken in looked_at:
            least[np.isin(self._which, self.same(taken))] = np.inf
        left = least <= limit + slack(limit)
        return self._which[left], self._spare[left]


def longest_drops(whole: Whole) -> Floats:
    """What the drops are worth at most: a cut at least is out of each bar."""
    longest: Floats = whole.worth * np.maximum(0.0, np.array(whole.rooms) + whole.spare - min(whole.cuts))
    return longest
