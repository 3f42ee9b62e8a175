"""The best plan with bars that are given: which are taken, and whether their drops are kept."""

from dataclasses import dataclass, replace

from bickern.geometry.pack.lengths.given import Known, Lower, Taken, dummy, lowest
from bickern.geometry.pack.lengths.kept import whole_numbers
from bickern.geometry.pack.lengths.patterns import Floats
from bickern.geometry.pack.lengths.search import SMALL
from bickern.geometry.pack.lengths.solver import Aim, Means
from bickern.geometry.pack.lengths.through import looked_through, wasting
from bickern.geometry.pack.lengths.ways import Sought, all_ways
from bickern.geometry.pack.lengths.whole import Sharing, Whole

STEPS, MORE = 8000, 30_000
"""Steps of a first look, where cuts are few and where they are many; three times as many more for an effort of 1."""
TRIES = 3000
"""Ways to fill a bar that are looked through beside, where drops are kept and cuts are few; as many more."""
LONGEST = 16
"""Effort from which on no more ways than for this are looked through: all ways by lengths come to more then."""
MANY, NODES = 2500, 200
"""Patterns that the solver may look at, and nodes of its tree, for an effort of 1."""
RULED = 1e4
"""Worths by which cuts have no room, times this, say that they must have it, whatever it costs."""


@dataclass(frozen=True, slots=True)
class Inside:
    """The best plan found (None: none under the limit), the bound, whether all was looked through; worths of cuts.

    `tops`: what each kind that is filled up can carry of these.
    `ruled_out`: whether by these worths alone there is none.
    """

    plan: Sharing | None
    bound: float
    through: bool
    worths: Floats
    tops: Floats
    ruled_out: bool = False


def inside(
    whole: Whole, aim: Aim, taken: Taken, known: Known, limit: float, effort: int, glanced: Sought | None = None
) -> tuple[Inside, Known]:
    """The best plan with just these bars that costs at most `limit`; and the patterns known now.

    `effort`: 0 for a first look, more for longer ones. `glanced`: what a first look at all ways has shown.
    """
    lower, known = lowest(whole, aim, taken, known)
    worths = lower.values.worths
    if not taken.kept.any() and lower.bound > taken.fixed(whole) + 1e-4 * dummy(whole):
        return Inside(None, float("inf"), True, worths * RULED, lower.tops * RULED, ruled_out=True), known
    if lower.bound > limit:
        return Inside(None, lower.bound, True, worths, lower.tops, ruled_out=True), known
    few = sum(whole.wants) <= SMALL
    looked = Sought(None, limit, lower.bound)
    if glanced is not None:
        looked = replace(glanced, bound=max(glanced.bound, lower.bound))
    if few and taken.kept.any() and not looked.through:
        looked = looked_through(whole, aim, taken, lower, looked, TRIES * (1 + 3 * min(effort, LONGEST)))
    if glanced is None and not looked.through:
        looked = all_ways(whole, aim, taken, looked, (STEPS if few else MORE) * (1 + 3 * effort))
    if few and effort and aim.most_short and not looked.through:
        looked = solved(whole, aim, taken, lower, looked, effort)
    through = looked.through or looked.limit < looked.bound
    return Inside(looked.plan, looked.bound, through, worths, lower.tops), known


def looked_longer(whole: Whole, aim: Aim, taken: Taken, sought: Sought, effort: int) -> Sought:
    """A longer look at all ways, where cuts are many and what the linear programme says is known."""
    steps = MORE * (1 + 3 * effort)
    looked = all_ways(whole, aim, taken, sought, steps, steps)
    return replace(looked, through=looked.through or looked.limit < looked.bound)


def solved(whole: Whole, aim: Aim, taken: Taken, lower: Lower, looked: Sought, effort: int) -> Sought:
    """What the solver makes of it, where cuts are short: which of them is what looking by lengths does badly."""
    ways = wasting(whole, taken, lower, looked.limit, MANY * effort)
    if ways is None:
        return looked
    plan, bound, through = whole_numbers(
        whole, aim, taken, ways.columns, looked.limit, Means(NODES * effort, 0.5 * effort)
    )
    return replace(looked.better(whole, plan), bound=max(looked.bound, bound), through=through)
