"""Hours of hand and fire out of the order of work, with several irons, and with what the hand learns on the way.

What the hand learns shortens its own part of each heat and the bench; the fire takes as long as ever. So the lot is
reckoned anew with the shorter part, and where the fire sets the pace little is won.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from bickern.making.heats.lots import lot_of
from bickern.making.heats.result import Lot, Plan, Spell
from bickern.making.heats.warmth import summed
from bickern.making.quote.asked import Hours
from bickern.making.quote.learning import average
from bickern.making.shop import Shop
from bickern.making.work.result import NO_TIME
from bickern.measure.spread import Spread


@dataclass(frozen=True, slots=True)
class _Turn:
    """Spells that are gone through `times` over, each time as one lot."""

    lot: Lot
    spells: tuple[Spell, ...]
    times: int = 1

    def work(self) -> Spread:
        """Seconds of it all."""
        return self.lot.seconds.times(float(self.times))

    def fire(self) -> Spread:
        """Seconds in which the fire burns: all of it but the bench; none where nothing goes into the fire."""
        if not any(spell.hot for spell in self.spells):
            return NO_TIME
        bench = summed([spell.wants for spell in self.spells if not spell.hot]).times(float(self.lot.make))
        ends = (max(0.0, getattr(self.lot.seconds, end) - getattr(bench, end)) for end in ("value", "low", "high"))
        return Spread(*ends).times(float(self.times))


def hours_of(plan: Plan, sets: int, shop: Shop) -> Hours:
    """Seconds of hand and fire for so many sets; the plan is that of all of them."""
    turns = list(_turns(plan, sets, shop))
    irons = max((turn.lot.irons for turn in turns), default=0)
    return Hours(summed([turn.work() for turn in turns]), summed([turn.fire() for turn in turns]), irons)


def _turns(plan: Plan, sets: int, shop: Shop) -> Iterator[_Turn]:
    share = shop.terms.learns
    for one in plan.pieces:
        if one.spells:
            quick = learned(one.spells, average(one.make, share))
            yield _Turn(one.lot if share == 1.0 else lot_of(one.make, quick, shop), quick)
    for spells in (plan.joining, plan.finish):
        if spells:
            quick = learned(spells, average(sets, share))
            yield _Turn(lot_of(1, quick, shop), quick, sets)


def learned(spells: Sequence[Spell], share: float) -> tuple[Spell, ...]:
    """The same spells with this share of the hand's time left."""
    return tuple(spells) if share == 1.0 else tuple(replace(one, wants=one.wants.times(share)) for one in spells)
