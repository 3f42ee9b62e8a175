"""What is hot at a heat and how it is held, in words."""

from collections.abc import Iterable, Iterator, Mapping

from bickern.making.heats.near import placed
from bickern.making.heats.pack import zone_of
from bickern.making.heats.result import End, Grip, Hold, Spell
from bickern.making.heats.warmth import AS_IT_COOLS
from bickern.making.shop import Shop
from bickern.measure.units.say import say_both
from bickern.measure.units.words import INCH, Style, System
from bickern.paper.sheets import wording
from bickern.paper.views.stages import AT_END
from bickern.parts.bar.result import BarResult
from bickern.parts.ring.spec import RingResult
from bickern.parts.set.pieces import PieceResult

NEAR = 0.0002
"""Lengths under this are none [m]."""
BITS_FROM = 1.1
"""A stretch of so many hot zones of the fire is heated bit by bit: the same as the heats are counted by."""
ALL = "all of it"
_THERE: dict[tuple[str, str], str] = {
    ("scarf", "ring"): "both ends",
    ("scarf", "link"): "both ends",
    ("scarf", ""): "the end that is scarfed",
    ("weld", "ring"): "the joint, both ends",
    ("weld", "link"): "the joint, both ends",
    ("weld", ""): "both, where they are joined",
    ("bend", "link"): "the middle",
    ("bend", "collar"): "the middle of the collar",
    ("bend", "wrap"): "all of the wrap, from end to end",
    ("collar", ""): "the collar, all of it; the bundle stays cold",
    ("shoulder", "tenon"): "the tenon and its shoulder",
    ("rivet hot", "tenon"): "the end of the tenon",
    ("rivet hot", ""): "the rivet, from end to end; the parts stay cold",
    ("braze", ""): "the joint, both sides of it",
}
"""What is hot for works that have no place on a bar, by operation and case."""
Lengths = Mapping[tuple[str, ...], float]
"""How long a finished bar, a limb of it, or the bar of a ring is [m], by the names that lead to it."""


def lengths_of(pieces: Iterable[PieceResult]) -> Lengths:
    """The lengths of bars, of their limbs, and of the bar in each ring; of sheet there are none."""
    found: dict[tuple[str, ...], float] = {}
    for piece in pieces:
        if isinstance(piece, RingResult):
            found[piece.spec.name,] = piece.bare
        elif isinstance(piece, BarResult):
            found.update((path, bar.length) for path, bar in limbs(piece, (piece.spec.name,)))
    return found


def limbs(bar: BarResult, path: tuple[str, ...]) -> Iterator[tuple[tuple[str, ...], BarResult]]:
    """A bar with its split ends and branches, each with the names that lead to it."""
    yield path, bar
    for branch in bar.spec.branches:
        child = next((c for c in bar.children if c.spec.name == branch.bar.name), None)
        if child is not None:
            yield from limbs(child, (*path, branch.name))


def where_says(spell: Spell, shop: Shop, lengths: Lengths) -> str:
    """What is hot, told on the bar as it lies: `0 to 2 in (51 mm) from the datum end`, `the joint, both ends`.

    A stretch longer than this fire heats at once is told with how much of it at a time.
    """
    first = spell.works[0]
    long = lengths.get((spell.piece, *first.child), 0.0)
    start, end = spell.now
    if end - start < NEAR:
        return _without_a_place(spell, shop, long)
    if first.does == "weld" and spell.hold.end is End.NEITHER:
        return _THERE["weld", "ring"]  # a bar that is bent round: its ends lie together
    if 0.0 < long < spell.zone[1] - spell.zone[0] + NEAR:
        says = f"{ALL}, up to the longer bar" if spell.hold.grip is Grip.LONGER else ALL
    else:
        says = _from_an_end(spell, shop.style)
    return f"{says}{_at_a_time(spell, shop)}"


def _without_a_place(spell: Spell, shop: Shop, long: float) -> str:
    """A ring, a sheet, a joint: by what is done there."""
    told = {_THERE.get((work.does, work.case), ALL) for work in spell.works}
    says = told.pop() if len(told) == 1 else ALL
    return f"{says}{_at_a_time(spell, shop, long)}" if says == ALL else says


def _from_an_end(spell: Spell, style: Style) -> str:
    start, end = spell.now
    if spell.told_from is End.NEITHER:
        return f"{say_both(start, style)} to {say_both(end, style)} along it"
    first = "0" if start <= AT_END else say_both(start, style)
    return f"{first} to {say_both(end, style)} from the {spell.told_from}"


def bit_of(spell: Spell, shop: Shop, long: float = 0.0) -> float:
    """How much of a long stretch is heated at a time [m]; 0 where it is hot all at once. `long` [m]: of a ring.

    A short stretch that comes out long is heated bit by bit as it grows.
    """
    own = [work.zone for work in spell.works] if all(placed(work) for work in spell.works) else [spell.zone]
    made = max(end for _, end in own) - min(start for start, _ in own)
    stretch = max(long, made, spell.now[1] - spell.now[0])
    at_once = any(work.whole for work in spell.works) or stretch <= BITS_FROM * zone_of(shop)
    return 0.0 if at_once else zone_of(shop)


def bit_says(bit: float, shop: Shop) -> str:
    """`6 in (152.5 mm) at a time`; what the shop has not told of its fire only to a quarter inch."""
    told = shop.fire.longest or shop.style.first is System.MM
    return f"{say_both(bit if told else round(4 * bit / INCH) * INCH / 4, shop.style)} at a time"


def _at_a_time(spell: Spell, shop: Shop, long: float = 0.0) -> str:
    bit = bit_of(spell, shop, long)
    if bit <= 0.0:
        return ""
    if all(work.does in AS_IT_COOLS for work in spell.works):
        return ", drawn through the fire"
    grows = long <= 0.0 and spell.now[1] - spell.now[0] <= BITS_FROM * bit
    return f"; as it grows, {bit_says(bit, shop)}" if grows else f", bit by bit: {bit_says(bit, shop)}"


def hold_says(hold: Hold, style: Style) -> str:
    """By which end, how, and with which tongs: `other end, in tongs for 1/2 in sq (12.5 mm), by the eye`."""
    end = f"{hold.end}, " if hold.end is not End.NEITHER else ""
    if hold.grip is not Grip.TONGS:
        return f"{end}{hold.grip}"
    grip = "in small tongs" if hold.small else str(hold.grip)
    fitting = f" for {wording.section(hold.section, style)}" if hold.section else ""
    missing = "" if hold.tongs_there else " (none on the wall: make or find them first)"
    small = ", close to the heat: cool them in water between heats" if hold.small else ""
    return f"{end}{grip}{fitting}{_grip_place(hold, style)}{missing}{small}"


def _grip_place(hold: Hold, style: Style) -> str:
    """Where the tongs take hold: by what was made there, or how far from its end."""
    if hold.by:
        return f", by {hold.by}"
    return f", {say_both(hold.at, style)} from its end" if hold.at > NEAR and hold.end is not End.NEITHER else ""
