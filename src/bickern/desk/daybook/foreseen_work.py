"""Heats, blows and seconds of a plan, as they can be told afterwards: all together, in the fire, and by operation."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

from bickern.making.heats.lots import REHEAT, lot_of
from bickern.making.heats.result import Plan, Spell
from bickern.making.heats.warmth import HURRIED, summed
from bickern.making.lessons.kinds import AT, BLOWS, FIRE, HEATS, MINUTES
from bickern.making.quote.hours import learned
from bickern.making.quote.learning import average
from bickern.making.shop import Shop
from bickern.measure.spread import sharp

BETWEEN = 0.5 - HURRIED.value
"""Heats above work over time given, on the mean: half a one, less the share by which a smith hurries."""


@dataclass(frozen=True, slots=True)
class Told:
    """A plan that is told of: `whole` or its first piece; so many `made`, after `before` others; of this `shop`."""

    plan: Plan
    whole: bool
    made: int
    before: int
    shop: Shop

    @property
    def rows(self) -> Iterator[tuple[int, tuple[Spell, ...], bool]]:
        """How often which spells are gone through, and whether as a lot, with several irons in the fire at once."""
        if not self.whole:
            yield self.made, self.plan.pieces[0].spells, True
            return
        yield from ((one.make, one.spells, True) for one in self.plan.pieces)
        yield from ((self.made, spells, False) for spells in (self.plan.joining, self.plan.finish) if spells)

    def seconds(self, many: int, spells: tuple[Spell, ...], lot: bool) -> float:
        """Seconds of one such row, by what the hand has learned of it up to then: as a price counts them."""
        quick = learned(spells, average(many, self.shop.terms.learns, self.before * many // self.made))
        return lot_of(many, quick, self.shop).seconds.value if lot else many * lot_of(1, quick, self.shop).seconds.value


def of_work(told: Told) -> dict[str, float]:
    """By kind: heats and blows of each, seconds of all that were made together."""
    rows, each = tuple(told.rows), 1 if told.whole else told.made
    hot = [(many, s) for many, spells, _ in rows for s in spells if s.hot]
    works = [(many, w) for many, spells, _ in rows for s in spells for w in s.works]
    found = {
        HEATS: sum(many * s.times.value for many, s in hot) / each,
        MINUTES: sum(told.seconds(*row) for row in rows),
        BLOWS: sum(many * w.blows.value for many, w in works) / each,
        FIRE: sum(many * s.warms.value * (1.0 + REHEAT * max(0.0, s.times.value - 1.0)) for many, s in hot),
    }
    for many, work in works:
        found[f"{AT}{work.does}"] = found.get(f"{AT}{work.does}", 0.0) + many * work.seconds.value
    return found


def between_steps(told: Told) -> Told:
    """The same with its heats as they are between the steps in which they are counted."""
    return _each(told, _between)


def at_pace(told: Told, *, does: str = "", times: float = 1.0, fire: float = 1.0) -> Told:
    """The same plan with one operation so many times as slow, or the fire; nothing else is done in another order."""

    def slowed(spell: Spell) -> Spell:
        works = tuple(replace(w, seconds=w.seconds.times(times)) if w.does == does else w for w in spell.works)
        share = summed([w.seconds for w in works]).value / max(1e-9, summed([w.seconds for w in spell.works]).value)
        return replace(spell, works=works, wants=spell.wants.times(share), warms=spell.warms.times(fire))

    return _each(told, slowed)


def _each(told: Told, change: Callable[[Spell], Spell]) -> Told:
    plan = told.plan
    pieces = tuple(replace(one, spells=tuple(map(change, one.spells))) for one in plan.pieces)
    joining, finish = tuple(map(change, plan.joining)), tuple(map(change, plan.finish))
    return replace(told, plan=replace(plan, pieces=pieces, joining=joining, finish=finish))


def _between(spell: Spell) -> Spell:
    if not spell.hot or any(w.whole for w in spell.works) or all(w.does == "straighten" for w in spell.works):
        return spell
    ratio = spell.wants.value / spell.gives.value
    least = spell.times.value if spell.times.value > ratio + 1.0 else 1.0
    return replace(spell, times=sharp(max(least, ratio + BETWEEN)))
