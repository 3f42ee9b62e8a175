"""All choices of bars that may do and cost no more than a limit: listed, where they are not too many.

By each list of worths a choice costs at least so much: a sum over its bars. The mean of these sums that the linear
programme likes best says of nearly every bar what it costs to take it, or not to. So few choices are left under a limit
near the bound. They are built up kind by kind, those first for which most is at stake. A list takes milliseconds, where
a search for the one best choice takes a tenth of a second; and what is learnt later only strikes some off.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bickern.geometry.pack.lengths.bars import Carried, Choice, in_part, needed
from bickern.geometry.pack.lengths.given import Taken
from bickern.geometry.pack.lengths.listed import Listed, longest_drops
from bickern.geometry.pack.lengths.patterns import Floats, Ints
from bickern.geometry.pack.lengths.solver import Aim
from bickern.geometry.pack.lengths.whole import Whole, kept_rooms, slack

MOST, SOME = 60_000, 10_000
"""Choices, of some of the kinds, that are followed at once, at most; and where only the most hopeful ones are."""
WORK = 1_200_000
"""Choices times lists of worths, at most: with more lists fewer choices are followed."""
FULL = 20
"""Times as many are looked at in one step, at most."""
WIDE, NARROW = 5.6e-4, 1e-5
"""Share of the bound by which choices over it are listed when the cheapest is sought; and the least that pays."""
A_BAR = 0.1
"""What a bar more counts where only the most hopeful are followed, as a share of what choices differ by at most."""
HALF = 0.5
"""Share of what any has to spare at most with which the fewest bars are the best."""
AGAIN = 1.25
"""Times as many lists of worths with which a list that was too long is tried again."""
ANY = 1e18
"""A limit for what has none."""
ROUNDING = 1e-11
"""Share of a sum by which it may be wrong."""

PARTS = 2**29
"""Parts of the largest sum there can be that are told apart."""
Parts = NDArray[np.int32]
"""Numbers of half the length take half the time, where there are choices by the ten thousand."""


class Listing:
    """The list as it stands, drawn up again where it does not reach as far as is asked."""

    def __init__(self, whole: Whole, aim: Aim, rows: list[Carried], barred: list[Taken]) -> None:
        self.whole = whole
        self.aim = aim
        self.rows = rows
        self.barred = barred
        self.listed: Listed | None = None
        self.some: Listed | None = None
        self.too_many = (0, 0.0)
        self.width = WIDE
        self.dearest = max(whole.costs) + whole.worth * max(whole.rooms)

    def beyond(self, bound: float, below: float, width: float) -> float:
        """A limit so far over a bound, as a share of it; or of the dearest bar, where the bound is near nothing."""
        return min(below, bound + width * max(abs(bound), self.dearest))

    def under(self, limit: float) -> Listed | None:
        """All that cost no more than a limit, none of them barred; None: too many."""
        if self.listed is None or self.listed.limit < limit:
            if len(self.rows) < self.too_many[0] and self.too_many[1] <= limit:
                return None
            found = draw_up(self.whole, self.aim, self.rows, limit, min(MOST, WORK // len(self.rows)))
            if found is None:
                self.too_many = int(AGAIN * len(self.rows)) + 1, limit
                return None
            self.listed = found
        self.listed.kept_up(self.rows, self.barred)
        return self.listed

    def hopeful(self, bound: float, below: float, looked_at: Sequence[Taken]) -> Choice:
        """The cheapest bars of the most hopeful ones; that says nothing of all others."""
        found = self.some_under(self.beyond(bound, below, WIDE))
        n = found.cheapest(looked_at)
        return Choice(None if n is None else found.at(n), bound)

    def some_under(self, limit: float) -> Listed:
        """The most hopeful of those that cost no more than a limit, none of them barred."""
        some = self.some
        if some is None or some.limit != limit or (len(self.rows) > some.learnt and not len(some)):
            some = self.some = draw_up(self.whole, self.aim, self.rows, limit, SOME, lossy=True)
            assert some is not None  # it is never too long
        some.kept_up(self.rows, self.barred)
        return some

    def cheapest(self, bound: float, below: float, looked_at: Sequence[Taken]) -> Choice | None:
        """The cheapest bars that may do and cost less than `below`, none looked at or barred; None: not known."""
        bound = max(bound, in_part(self.whole, self.aim, self.rows)[1])
        if bound > below:
            return Choice(None, below)
        width = self.width
        while width >= NARROW:
            limit = self.beyond(bound, below, width)
            found = self.under(limit)
            if found is None:
                width /= 4.0
                continue
            self.width = min(WIDE, width)
            n = found.cheapest(looked_at)
            if n is not None:
                least = max(bound, float(found.least[n]))
                return Choice(found.at(n), least) if least <= below else Choice(None, below)
            if limit >= below:
                return Choice(None, below)
            bound, width = limit, 2.0 * width
        self.width = 4.0 * NARROW
        return None

    def roomiest(
        self, limit: float, looked_at: Sequence[Taken] = (), *, fewest: bool = False
    ) -> tuple[Taken | None, bool]:
        """The bars with most to spare, by every list of worths, that cost no more than a limit; none that is barred.

        Where there are too many, of the most hopeful ones. And whether it is certain, if there are none, that none are.
        `fewest`: the fewest bars with half as much to spare, as more cuts in each can be put together in more ways.
        """
        all_of_them = self.under(limit)
        found = self.some_under(limit) if all_of_them is None else all_of_them
        which, spare = found.spare(limit, self.rows, looked_at)
        if not len(which):
            return None, all_of_them is not None
        if fewest:
            enough = spare >= min(HALF * spare.max(), spare.max())
            which, spare = which[enough], spare[enough]
            bars = (found.lost[which] + found.kept[which]).sum(axis=1)
            return found.at(int(which[np.lexsort((-spare, bars))[0]])), False
        return found.at(int(which[spare.argmax()])), False


def draw_up(
    whole: Whole, aim: Aim, rows: Sequence[Carried], limit: float, many: int = MOST, *, lossy: bool = False
) -> Listed | None:
    """All choices that cost no more than a limit by these lists of worths; None: too many.

    `lossy`: only the most hopeful ones are followed where there are too many.
    """
    terms, most = _sums(whole, aim, rows, limit)
    kinds = sorted(_kinds(whole, terms, most), key=lambda kind: kind.stake, reverse=True)
    if not all(len(kind.ways) for kind in kinds):
        none = np.zeros((0, len(kinds)), dtype=np.int64)
        return Listed(whole, aim, none, none, limit)
    parts, tops, one = _in_parts(kinds, most)
    rest = [np.zeros(len(tops), dtype=np.int32)]
    for part in reversed(parts):
        rest.append(rest[-1] + part.min(axis=0))
    a_bar = A_BAR * (float(tops[0]) - float(rest[-1][0])) / one
    sums, steps = np.zeros((1, len(tops)), dtype=np.int32), []
    for kind, part, behind in zip(kinds, parts, rest[-2::-1], strict=True):
        room = tops - behind
        if len(sums) * len(kind.ways) > FULL * many:
            if not lossy:
                return None
            best = np.argsort(sums[:, 0] + a_bar * sums[:, -1], kind="stable")[: max(1, FULL * many // len(kind.ways))]
            sums, before = sums[best], best
        else:
            before = np.arange(len(sums))
        whence, took = np.nonzero(sums[:, :1] + part[:, 0] <= room[0])
        if len(whence) > 4 * many and not lossy:
            return None
        sums = sums[whence] + part[took]
        fits = np.flatnonzero((sums <= room).all(axis=1))
        if len(fits) > many:
            if not lossy:
                return None
            fits = fits[np.argpartition(sums[fits, 0] + a_bar * sums[fits, -1], many)[:many]]
        sums = sums[fits]
        steps.append((before[whence[fits]], took[fits]))
    lost, kept = np.zeros((2, len(sums), len(kinds)), dtype=np.int64)
    where = np.arange(len(sums))
    for kind, (whence, took) in zip(reversed(kinds), reversed(steps), strict=True):
        lost[:, kind.bar], kept[:, kind.bar] = kind.ways[took[where]].T
        where = whence[where]
    found = Listed(whole, aim, lost, kept, limit)
    found.only(_a_cut_each(whole, found))
    found.kept_up(rows, ())
    return found


@dataclass(frozen=True, slots=True)
class _Kind:
    """A kind of bars: how many may be taken, drops lost and kept, and what each such way adds to the sums."""

    bar: int
    ways: Ints
    terms: Floats

    @property
    def stake(self) -> float:
        """What is lost where the best way is not taken."""
        terms = np.sort(self.terms[:, 0])
        return float(terms[1] - terms[0]) if len(terms) > 1 else float("inf")


def _in_parts(kinds: Sequence[_Kind], most: Floats) -> tuple[list[Parts], Parts, float]:
    """What each way adds, and what sums may come to, in whole parts: rounded so that none that fits is lost.

    And how many parts one bar is, of the number of bars.
    """
    largest = sum((np.abs(kind.terms).max(axis=0, initial=0.0) for kind in kinds), np.full(len(most), 1e-9))
    per = PARTS / largest
    parts = [np.floor(kind.terms * per).astype(np.int32) for kind in kinds]
    return parts, np.clip(np.ceil(most * per), -PARTS - 1, PARTS).astype(np.int32), float(per[-1])


def _sums(whole: Whole, aim: Aim, rows: Sequence[Carried], limit: float) -> tuple[Floats, Floats]:
    """What each bar adds to sums, its drop lost or kept, and what these may come to.

    First the mean of all others, last the number of bars.
    """
    bars, costs = len(whole.rooms), np.array(whole.costs * 2, dtype=np.float64)
    carried = np.array([np.concatenate((row.lost, row.kept)) for row in rows])
    needs = np.array([needed(whole, aim, row) for row in rows])
    share, _ = in_part(whole, aim, rows)
    if whole.worth:
        terms, most = costs - carried, limit - needs
        share = np.append(share, max(0.0, 1.0 - float(share.sum())))
        share /= share.sum()
        costs[bars:] -= longest_drops(whole)
    else:
        terms, most = -carried, -needs
        share = np.append(share, 1.0)
    terms, most = np.vstack((terms, costs)), np.append(most, limit)
    terms, most = np.vstack((share @ terms, terms)), np.append(share @ most, most)
    most = most + ROUNDING * (np.abs(most) + bars * np.abs(terms).max(axis=1)) + slack(limit)
    return np.vstack((terms, np.ones(2 * bars))), np.append(most, ANY)


def _kinds(whole: Whole, terms: Floats, most: Floats) -> Iterator[_Kind]:
    """The kinds, with those ways alone that can be in any choice."""
    bars, cuts = len(whole.rooms), sum(whole.wants)
    kinds = []
    for b, (count, rest) in enumerate(zip(whole.counts, kept_rooms(whole), strict=True)):
        each = min(count, cuts)
        kept = each if whole.worth and rest >= min(whole.cuts) else 0
        ways = np.argwhere(np.add.outer(np.arange(each + 1), np.arange(kept + 1)) <= each)
        kinds.append(_Kind(b, ways, ways[:, :1] * terms[:, b] + ways[:, 1:] * terms[:, bars + b]))
    least = sum(kind.terms.min(axis=0) for kind in kinds)
    for kind in kinds:
        some = (kind.terms - kind.terms.min(axis=0) + least <= most).all(axis=1)
        yield _Kind(kind.bar, kind.ways[some], kind.terms[some])


def _a_cut_each(whole: Whole, found: Listed) -> NDArray[np.bool_]:
    """Which choices have a cut for each bar."""
    may = np.ones(len(found.least), dtype=np.bool_)
    rooms, kept, counts = np.array(whole.rooms), np.array(kept_rooms(whole)), np.array(whole.counts)
    for k in range(len(whole.cuts) + 1):
        longer, cuts = whole.cuts[k - 1] if k else max(whole.rooms) + 1, sum(whole.wants[k:])
        short, shorter = rooms < longer, kept < longer
        if counts @ (short | shorter) > cuts:
            may &= found.lost @ short.astype(np.float64) + found.kept @ shorter.astype(np.float64) <= cuts
    return may
