"""Whether two works of one piece lie to one another as a rule asks."""

from collections.abc import Callable

from bickern.iron.section import hydraulic
from bickern.making.heats.rules import BENDS, EVERYTHING, Near, Precedence
from bickern.making.work.result import Work
from bickern.measure.known import Known
from bickern.measure.source import COMMON_PRACTICE

TOUCH = 1e-6
"""Metres within which two stretches touch."""
THINNER = 0.7
"""Share of the other's area over girth below which metal counts as clearly thinner: a hair thinner burns no
sooner (our estimate)."""


LONG = Known(0.150, "m", COMMON_PRACTICE)
"""A stretch in the middle longer than about 6 in takes heat after heat: more than a small fire heats at once."""


def speaks_of(rule: Precedence, first: Work, then: Work, length: float, *, chain: bool) -> bool:
    """Whether the rule orders these two; `length` [m] of the finished bar (0: none), `chain`: they make a link."""
    if first.key == then.key or (first.does not in rule.first and rule.first != EVERYTHING):
        return False
    if (then.does not in rule.then and rule.then != EVERYTHING) or (
        rule.first == EVERYTHING and first.does in rule.then
    ):
        return False
    return chain if rule.where is Near.LINK else LIES[rule.where](first, then, length)


def _anywhere(first: Work, then: Work, length: float) -> bool:
    return first.child == then.child or not then.child


def _stretch(first: Work, then: Work, length: float) -> bool:
    return first.child == then.child and overlap(first, then) > TOUCH


def _own(first: Work, then: Work, length: float) -> bool:
    return first.child == then.child and first.name == then.name


def _beside(first: Work, then: Work, length: float) -> bool:
    return first.child == then.child and overlap(first, then) >= -TOUCH


def _around(first: Work, then: Work, length: float) -> bool:
    if first.child != then.child or first.name == then.name or not placed(first):
        return False
    return first.zone[0] < sum(then.zone) / 2 < first.zone[1]


def _apart(first: Work, then: Work, length: float) -> bool:
    return first.child == then.child and overlap(first, then) <= TOUCH


def _thinner(first: Work, then: Work, length: float) -> bool:
    return _one_end(first, then, length) and finest(then) < THINNER * finest(first)


def _outward(first: Work, then: Work, length: float) -> bool:
    return _one_end(first, then, length) and to_end(first, length) < to_end(then, length) - TOUCH


def _one_end(first: Work, then: Work, length: float) -> bool:
    return first.child == then.child and at_datum(first, length) == at_datum(then, length)


def _outline(first: Work, then: Work, length: float) -> bool:
    return _beside(first, then, length) and then.case == "outline"


def _trued(first: Work, then: Work, length: float) -> bool:
    return first.child == then.child and trues_a_twist(first)


def _but_trued(first: Work, then: Work, length: float) -> bool:
    return _stretch(first, then, length) and not (trues_a_twist(then) and first.does in BENDS)


def _before_cut(first: Work, then: Work, length: float) -> bool:
    return _anywhere(first, then, length) and not waits_for_the_cut(first, then)


def _after_cut(first: Work, then: Work, length: float) -> bool:
    return waits_for_the_cut(then, first)


def _limb(first: Work, then: Work, length: float) -> bool:
    deep = len(first.child)
    return len(then.child) > deep and then.child[:deep] == first.child


def _of_limb(first: Work, then: Work, length: float) -> bool:
    return bool(first.child) and (then.child == first.child or then.name == first.child[-1])


def _middle(first: Work, then: Work, length: float) -> bool:
    """A long stretch that runs to no end, and an end apart from it that is spread, split or clearly thinner."""
    long = first.zone[1] - first.zone[0] > LONG.value
    if not long or runs_to_end(first, length) or not _apart(first, then, length) or not runs_to_end(then, length):
        return False
    return then.does in ("spread", "split") or finest(then) < THINNER * finest(first)


def _joined(first: Work, then: Work, length: float) -> bool:
    return first.piece in (then.piece, *then.with_pieces)


LIES: dict[Near, Callable[[Work, Work, float], bool]] = {
    Near.PIECE: _anywhere,
    Near.STRETCH: _stretch,
    Near.OWN: _own,
    Near.BESIDE: _beside,
    Near.AROUND: _around,
    Near.APART: _apart,
    Near.SAME_END_THINNER: _thinner,
    Near.SAME_END_OUTWARD: _outward,
    Near.OUTLINE: _outline,
    Near.TRUED: _trued,
    Near.BUT_TRUED: _but_trued,
    Near.BEFORE_CUT: _before_cut,
    Near.AFTER_CUT: _after_cut,
    Near.LIMB: _limb,
    Near.OF_LIMB: _of_limb,
    Near.JOINED: _joined,
    Near.MIDDLE: _middle,
}


def overlap(first: Work, then: Work) -> float:
    """Metres that two zones have in common; below 0 the gap between them. A work of no zone is on the whole piece."""
    if not placed(first) or not placed(then):
        return 1.0
    return min(first.zone[1], then.zone[1]) - max(first.zone[0], then.zone[0])


def trues_a_twist(work: Work) -> bool:
    """Whether this is the hot truing of a twist, not the truing of the whole piece."""
    return work.does == "straighten" and work.hot and bool(work.name)


def waits_for_the_cut(work: Work, cut: Work) -> bool:
    """Whether a piece made on a longer bar is cut off it before this is done.

    `cut.case`: "" nothing waits; "bends" what is bent does; "end" all that is done to the end that is cut, and what is
    twisted, as well; "scarf" of a limb only the scarf of the end that is cut.
    """
    if not cut.case or not work.hot or work.child[: len(cut.child)] != cut.child:
        return False
    if cut.case == "scarf":
        return work.does == "scarf" and work.child == cut.child and overlap(work, cut) > TOUCH
    if work.does in BENDS or (work.does == "weld" and work.child == cut.child):
        return True
    if cut.case == "end" and (work.does == "twist" or trues_a_twist(work)):
        return True
    here = work.child == cut.child and placed(work) and overlap(work, cut) > TOUCH
    return here and (cut.case == "end" or work.does == "curl")


def placed(work: Work) -> bool:
    """Whether the work has a stretch of its own on a bar."""
    return work.zone[1] > work.zone[0]


def runs_to_end(work: Work, length: float) -> bool:
    """Whether the work's zone reaches an end of its bar."""
    return work.zone[0] <= TOUCH or work.zone[1] >= length - TOUCH


def finest(work: Work) -> float:
    """Area over girth [m] of the thinnest metal there is when the work is done."""
    return min(hydraulic(work.after), work.thin) if work.after is not None else work.thin


def at_datum(work: Work, length: float) -> bool:
    """Whether the work's middle lies in the half at the datum end."""
    return sum(work.zone) <= length


def to_end(work: Work, length: float) -> float:
    """Metres from the middle of the work's zone to the end it lies nearer to."""
    middle = sum(work.zone) / 2
    return min(middle, length - middle)
