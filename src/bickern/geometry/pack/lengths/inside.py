"""The best plan with bars that are given: which are taken, and whether their drops are kept."""

from dataclasses import dataclass

from bickern.geometry.pack.lengths.given import Known, Taken, dummy, lowest
from bickern.geometry.pack.lengths.kept import some, whole_numbers, within
from bickern.geometry.pack.lengths.patterns import Floats
from bickern.geometry.pack.lengths.plans import best_filled
from bickern.geometry.pack.lengths.search import SMALL
from bickern.geometry.pack.lengths.solver import Aim, Means
from bickern.geometry.pack.lengths.through import Sought, looked_through
from bickern.geometry.pack.lengths.whole import Sharing, Whole

TURNS = 2
"""Orders of bars and cuts in which bars are filled besides the usual ones, for an effort of 1."""
STEPS = 3000
"""Ways to fill a bar that are looked through at a first look; three times as many more for an effort of 1."""
MANY = 2500
"""Patterns that a proof may look at, for an effort of 1."""
HARD = 4
"""The effort from which on the solver is asked, too, where cuts are few."""
NODES = 200
"""Nodes of the solver's tree, for an effort of 1."""
RULED = 1e4
"""Worths by which cuts have no room, times this, say that they must have it, whatever it costs."""


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
        return Inside(None, float("inf"), True, worths * RULED, ruled_out=True), known
    if lower.bound > limit:
        return Inside(None, lower.bound, True, worths, ruled_out=True), known
    looked, few = Sought(None, limit, lower.bound), sum(whole.wants) <= SMALL
    if few:
        looked = looked_through(whole, aim, taken, lower, looked, STEPS * (1 + 3 * effort))
        if looked.through:
            return Inside(looked.plan, looked.bound, True, worths), known
    turns = 0 if few and not effort else TURNS * max(1, effort)
    looked = looked.better(whole, best_filled(whole, aim, taken, lower.bound, looked.limit, turns))
    if looked.limit < lower.bound:
        return Inside(looked.plan, lower.bound, True, worths), known
    if not effort or (few and effort < HARD):
        return Inside(looked.plan, looked.bound, False, worths), known
    columns = within(whole, aim, lower, looked.limit, taken, MANY * effort)
    many = columns is None
    if columns is None:
        columns = some(taken.to_fill(whole), lower, looked.limit)
    means = Means(NODES * effort, 0.5 * effort)
    found, bound, through = whole_numbers(whole, aim, taken, columns, looked.limit, means)
    looked = looked.better(whole, found)
    return Inside(looked.plan, looked.bound if many else max(looked.bound, bound), through and not many, worths), known
