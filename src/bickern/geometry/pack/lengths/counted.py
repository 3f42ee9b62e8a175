"""What bars carry by the number of cuts in them: where all cuts are multiples of one length, and a kerf each.

So it is with inches and a kerf in millimetres: a bar with three cuts in it wastes another rest than one with four, and
there are only so many cuts for all bars. Lengths alone do not see that, nor do tables of a coarser unit.
"""

import numpy as np

from bickern.geometry.pack.lengths.bars import Carried, needed
from bickern.geometry.pack.lengths.coarse import multiples
from bickern.geometry.pack.lengths.given import Taken
from bickern.geometry.pack.lengths.solver import Aim
from bickern.geometry.pack.lengths.whole import Whole, kept_rooms

TRIED = 64
"""Worths of a cut, besides its length, that are tried: so many parts of the one length, half of them below nothing."""


class Counted:
    """The most that bars of each kind can hold, by the number of cuts."""

    def __init__(self, whole: Whole) -> None:
        self.whole = whole
        cuts = np.repeat(np.array(whole.cuts, dtype=np.int64), whole.wants)
        self.divisor, rest = multiples(whole.cuts)
        longest, shortest = (np.concatenate(([0], each.cumsum())) for each in (cuts, cuts[::-1]))
        rooms, n = np.array(whole.rooms, dtype=np.int64)[:, None], np.arange(len(cuts) + 1)
        held = np.minimum(rooms - (rooms - n * rest) % max(1, self.divisor), longest)
        self.held = np.where(shortest <= rooms, held.astype(np.float64), -np.inf)
        self.most = np.maximum(np.searchsorted(shortest, kept_rooms(whole), "right") - 1, 0)

    def lacking(self, aim: Aim, taken: Taken) -> Carried | None:
        """What bars carry by length and number, by which these lack most; None: such numbers say nothing."""
        if self.divisor <= 1:
            return None
        each = np.arange(-TRIED // 2, TRIED // 2 + 1) * self.divisor / TRIED
        rows = [self.row(float(worth)) for worth in each if worth > -self.whole.cuts[-1]]
        lack = [needed(self.whole, aim, row) - taken.lost @ row.lost - taken.kept @ row.kept for row in rows]
        return rows[int(np.argmax(lack))]

    def row(self, each: float) -> Carried:
        """What bars carry of worths that are lengths, and so much more for each cut."""
        whole, share = self.whole, self.whole.worth or 1.0
        lost = (self.held + each * np.arange(self.held.shape[1])).max(axis=1)
        kept = np.array(whole.rooms) + whole.spare + np.where(each > 0.0, each * self.most, each)
        return Carried((np.array(whole.cuts) + each) * share, lost * share, (kept if whole.worth else lost) * share)
