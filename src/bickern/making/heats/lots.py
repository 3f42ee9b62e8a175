"""How the copies of a piece go through the fire: how many irons lie in it at once, in which order, how long it takes.

With k irons in turn each visit takes max(h, (h + w)/k) seconds, h the hands' part (carry and work), w the fire's: the
slower of hands and fire sets the pace. The first iron is waited for. Bench work is added, a copy at a time.
Of what is forged on longer bars each iron in the fire is a bar, taken to its cut-off before its next piece is begun.
What the hand learns on the way is not counted: only the shop's own times can tell it.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import floor

from bickern.making.heats.result import Lot, Spell
from bickern.making.shop import Shop
from bickern.making.work.fire import THIN
from bickern.measure.known import Known
from bickern.measure.source import COMMON_PRACTICE
from bickern.measure.spread import Spread

MOST_IRONS = Known(4.0, "irons", COMMON_PRACTICE)
"""Irons that are kept in order in one fire, where the shop does not say."""
TOGETHER_FROM = Known(3.0, "copies", COMMON_PRACTICE)
"""Copies from which each heat is taken for all of them in turn, whatever the fire holds: the hand keeps its measure."""
THIN_IRONS = Known(2.0, "irons", COMMON_PRACTICE)
"""Irons in the fire at once where they are `THIN` (4 mm square, 2 mm sheet): each burns at once if it lies too long."""
SECONDS_TO_WATCH = Known(5.0, "s", COMMON_PRACTICE)
"""A heat that gives less leaves no time to look at the fire: one iron at a time."""
REHEAT = 0.6
"""Share of the first warming that the next heat of the same place takes: from 700 C, not from cold (our estimate)."""


@dataclass(frozen=True, slots=True)
class _Heats:
    """One spell in the fire: how many irons at once, and what decided that, in words; `thin` iron that cannot wait."""

    spell: Spell
    irons: int
    why: str
    thin: bool


def lot_of(make: int, spells: Sequence[Spell], shop: Shop) -> Lot:
    """How `make` copies are made by these spells: irons at once (the most), in turn or not, seconds for all, and why.

    A test piece that is made before the rest is not counted apart. Seconds are 0 where there is nothing to do.
    """
    heats = [_heats(make, spell, shop) for spell in spells if spell.hot]
    irons = max((one.irons for one in heats), default=0)
    longer = make > 1 and _on_longer_bars(spells)
    turns = irons > 1 or make >= TOGETHER_FROM.value
    together = make > 1 and bool(heats) and turns and not (longer and make > irons)
    middle, least, most = (_seconds(make, heats, spells, shop, end) for end in ("value", "low", "high"))
    reasons = dict.fromkeys(w for s in spells for w in (*s.times.why, *s.wants.why, *s.warms.why))
    piece = spells[0].piece if spells else ""
    why = "; ".join(one for one in (_bars(irons, make) if longer else "", _words(make, heats)) if one)
    return Lot(piece, make, irons, together, Spread(middle, least, most, tuple(reasons)), why)


def _on_longer_bars(spells: Sequence[Spell]) -> bool:
    """Whether the piece is made on a longer bar, and cut off it."""
    return any(work.does == "cut off" and not work.child for spell in spells for work in spell.works)


def _bars(irons: int, make: int) -> str:
    """How so many irons are longer bars."""
    if irons == make:
        return "each on a longer bar of its own"
    if irons == 1:
        return "on one longer bar: each is taken to its cut-off before the next is begun"
    return "as many longer bars as irons: on each bar a piece is taken to its cut-off before the next is begun"


def _heats(make: int, spell: Spell, shop: Shop) -> _Heats:
    """Irons in the fire at once for one spell.

    One more than the turns of work that fit into one warming, rounded down: the hand then waits for the iron, and no
    iron lies longer in the fire than it must.
    """
    hands, fire = (one / spell.times.value for one in _round(spell, shop, "value"))
    busy = 1 + floor(fire / hands) if hands > 0 else make
    holds = shop.fire.irons or int(MOST_IRONS.value)
    fire_says = f"the fire holds {holds}" if shop.fire.irons else f"{holds} at most can be kept in order in one fire"
    paced = f"a heat takes about {hands:.0f} s in the hand and {fire:.0f} s in the fire"
    limits = [(make, ""), (busy, paced), (holds, fire_says), *_thin_limits(spell)]
    irons, why = min(limits, key=lambda limit: limit[0])
    return _Heats(spell, max(1, irons), why, thin=why in (_BURNS, _SHORT))


_BURNS = "thin iron burns while it waits"
_SHORT = "a heat is over too soon to watch another iron"


def _thin_limits(spell: Spell) -> list[tuple[int, str]]:
    """Limits that thin iron sets: it does not wait in the fire."""
    thin = any(0.0 < work.thin < THIN.value for work in spell.works)
    short = 0.0 < spell.gives.value < SECONDS_TO_WATCH.value
    return [(1, _SHORT)] * short + [(int(THIN_IRONS.value), _BURNS)] * thin


def _round(spell: Spell, shop: Shop, end: str) -> tuple[float, float]:
    """Seconds of hands and of fire [s] in all heats of one spell, at one end of the spreads (or the value)."""
    times = getattr(spell.times, end)
    fire = getattr(spell.warms, end) * (1.0 + REHEAT * max(0.0, times - 1.0))
    return times * shop.hand.carry + getattr(spell.wants, end), fire


def _seconds(make: int, heats: Sequence[_Heats], spells: Sequence[Spell], shop: Shop, end: str) -> float:
    """Seconds for the lot: each spell at the pace of the slower of hands and fire, the first warmings, the bench."""
    total: float = make * sum(getattr(spell.wants, end) for spell in spells if not spell.hot)
    in_turn = False
    for one in heats:
        hands, fire = _round(one.spell, shop, end)
        total += make * (max(hands, (hands + fire) / one.irons))
        if one.irons > 1 and not in_turn:
            total += getattr(one.spell.warms, end)
        in_turn = one.irons > 1
    return total


def _words(make: int, heats: Sequence[_Heats]) -> str:
    """What decided how many irons lie in the fire at once; "" where that is all of them."""
    if make == 1:
        return "only one is made"
    if not heats:
        return "nothing of it goes into the fire"
    most = max(heats, key=lambda one: one.irons)
    fewer = any(one.thin and one.irons < most.irons for one in heats)
    return "; ".join(one for one in (most.why, "fewer where the iron is thin" if fewer else "") if one)
