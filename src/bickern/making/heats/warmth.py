"""What one heat gives, how long the iron warms for it, and what it costs in scale; reckoned once for equal iron."""

from collections.abc import Sequence
from functools import lru_cache
from math import exp, hypot, inf, log

from bickern.iron.flame import Flame
from bickern.iron.heat.body import ROOM, Body, Chamber, Form, Surround
from bickern.iron.heat.cooling import seconds_of_a_heat
from bickern.iron.heat.warming import warming_spread
from bickern.iron.scale import loss_of_a_heat
from bickern.iron.section import hydraulic
from bickern.making.shop import Shop
from bickern.making.work.fire import THIN
from bickern.making.work.own_time import own
from bickern.making.work.result import NO_TIME, Work
from bickern.measure.known import Known
from bickern.measure.source import COMMON_PRACTICE, Kind, Source
from bickern.measure.spread import Spread

EMISSIVITY = Known(0.85, "1", Source("", "emissivity of scaled steel, between 0.80 and 0.90", None, "", Kind.MEMORY))
MOVING = Known(1.5, "1", Source("", "iron carried and turned in the air against iron at rest", None, "", Kind.MEMORY))
SOAK = Known(30.0, "s", COMMON_PRACTICE)
"""Seconds that iron lies in the fire at its heat before it is taken: until it is hot to the heart."""
HOTTER = 50.0
"""Kelvin that the fire must be above the heat that is pulled, for the iron ever to get there (our estimate)."""
LEAST = 1.0
"""Seconds that are left to work in, however thin: less than that is not a heat (our choice)."""
NOT_HAMMERED = ("twist", "bend", "scroll", "curl", "hoop", "brush", "straighten", "collar")
"""Hot work done mostly in the air, over horn or fork, in vise or tongs: the anvil takes little."""
AS_IT_COOLS = ("straighten", "brush")
"""Work that is done at a red, when the rest of the heat is used up."""
HURRIED = Known(0.1, "1", COMMON_PRACTICE)
"""Share of a heat by which the work may be over: the smith hurries a little, and takes no other heat for it."""


def body_at_work(works: Sequence[Work]) -> Body:
    """The iron that sets the time of a heat: the thinnest of the works."""
    return Body(min(_between(w) for w in works), _form(works))


def thickest(works: Sequence[Work]) -> Body:
    """The iron that is last to get hot."""
    return Body(max(_before(w) for w in works), _form(works))


def _form(works: Sequence[Work]) -> Form:
    return Form.SHEET if any(w.sheet for w in works) else Form.BAR


def _before(work: Work) -> float:
    sections = [hydraulic(s) for s in (work.before, work.after) if s is not None]
    return max((*sections, work.thin))


def _between(work: Work) -> float:
    return work.thin or (hydraulic(work.before) if work.before is not None else 0.0)


def given(works: Sequence[Work], long: float, shop: Shop, cold_sides: int = 1) -> Spread:
    """Seconds [s] of work that one heat of these works gives, after the carry.

    `long` [m] of the hot zone as it lies (0: hot all over), `cold_sides` of it where cold bar goes on.
    """
    start, stop = heats_of(works)
    hammered = any(w.does not in NOT_HAMMERED for w in works)
    contact = shop.hand.contact * (2 if any(w.sheet for w in works) else 1) if hammered else 0.0
    gives = _gives(body_at_work(works), start, stop, contact, round(long, 3), cold_sides)
    carry = shop.hand.carry
    value, low, high = (max(LEAST, x - carry) for x in (gives.value, gives.low, gives.high))
    return Spread(value, low, high, gives.why)


def heats_of(works: Sequence[Work]) -> tuple[float, float]:
    """The heat [K] to pull at, which none of the works burns at, and the one to stop at, which is enough for all.

    What wants a lower heat, as a bend does, comes when the iron has fallen to it; only thin metal is pulled lower.
    """
    asked = [w for w in works if w.does not in AS_IT_COOLS] or list(works)
    thin = [w.start for w in asked if 0 < w.thin < THIN.value and w.does not in NOT_HAMMERED]
    return min([max(w.start for w in asked), *thin]), max(w.stop for w in asked)


@lru_cache(maxsize=4096)
def _gives(body: Body, start: float, stop: float, contact: float, long: float, cold_sides: int) -> Spread:
    surround = Surround(EMISSIVITY.value, MOVING.value, contact)
    return seconds_of_a_heat(body, start, stop, surround, long or None, cold_sides)


def warming(works: Sequence[Work], shop: Shop, from_heat: float = ROOM) -> Spread:
    """Seconds [s] in the fire until the thickest of it is at the heat to pull at."""
    start, _ = heats_of(works)
    warms = _warms(thickest(works), from_heat, start, max(shop.fire.temperature, start + HOTTER))
    return warms if shop.fire.slow == shop.fire.doubt == 1.0 else own(warms, shop.fire.slow, shop.fire.doubt)


@lru_cache(maxsize=4096)
def _warms(body: Body, start: float, stop: float, fire: float) -> Spread:
    return warming_spread(body, start, stop, Chamber(fire))


def scaling(works: Sequence[Work], shop: Shop, *, first: bool) -> Spread:
    """Share of the metal in the hot zone that one heat takes."""
    start, stop = heats_of(works)
    return _loss(body_at_work(works), start, shop.fire.flame, stop, first)


@lru_cache(maxsize=4096)
def _loss(body: Body, start: float, flame: Flame, stop: float, first: bool) -> Spread:
    return loss_of_a_heat(body, start, SOAK.value, flame, stop, first)


def heats_for(wants: Spread, gives: Spread, least: int = 1) -> Spread:
    """How many heats: work over what one heat gives, rounded up; never fewer than `least`.

    The doubts in the two have nothing to do with one another, so their factors are put together as the root of the
    sum of the squares of their logarithms.
    """
    if wants.value <= 0 or gives.value <= 0:
        return Spread(float(least), float(least), float(least))
    ratio = wants.value / gives.value
    fewer = exp(-hypot(_factor(wants.value, wants.low), _factor(gives.high, gives.value)))
    more = exp(hypot(_factor(wants.high, wants.value), _factor(gives.value, gives.low)))
    value = max(least, _up(ratio))
    why = wants.why + tuple(w for w in gives.why if w not in wants.why)
    return Spread(float(value), float(max(least, _up(ratio * fewer))), float(max(value, _up(ratio * more))), why)


def _factor(more: float, less: float) -> float:
    return log(more / less) if less > 0 and more > less else 0.0


def _up(heats: float) -> int:
    """Rounded up, but a tenth of a heat over is not another heat: the smith hurries a little."""
    return max(1, int(-(-(heats - HURRIED.value) // 1))) if heats < inf else 1


def summed(times: Sequence[Spread]) -> Spread:
    """Sum of spreads, end to end."""
    total = NO_TIME
    for time in times:
        total = total + time
    return total
