"""What is done to make one ring or one link, read off what was reckoned."""

from collections.abc import Iterator
from dataclasses import replace
from math import isclose, pi

from bickern.iron.section import area, hydraulic
from bickern.making.shop import Shop
from bickern.making.work.effort import bending_work, is_round
from bickern.making.work.fire import bends_cold, hammered, heated, metal_of, resistance, rounding_cold, welded
from bickern.making.work.own_time import in_own_time
from bickern.making.work.paces import hands
from bickern.making.work.result import Work
from bickern.measure.known import Known
from bickern.measure.source import Kind, Source
from bickern.measure.spread import Spread
from bickern.measure.units.words import INCH
from bickern.parts.ring.spec import Closing, RingResult

LIGHT_LINK = Known(
    INCH / 4, "m", Source("", "light links, for which Googerty 1911, p. 74, names no size", None, "", Kind.MEMORY)
)
"""Links of bar no thicker than this are lapped without a scarf."""


def works_of_ring(result: RingResult, shop: Shop) -> tuple[Work, ...]:
    """Works of ONE ring, or of one link of a chain, in the order they are done; the last closes it.

    Cold where the skin stretches no more than the shop allows (`RingRules.cold_limit`), hot otherwise; wound on a
    mandrel where that is asked, else bent. A welded ring is scarfed, bent, welded; a welded link takes the three heats
    that are published for it: a U, the scarfs closed over what hangs in it, the weld. Light bar is lapped cold.
    """
    return in_own_time(_works(result, shop), shop.hand)


def bent_cold(result: RingResult, shop: Shop) -> bool:
    """Whether the ring is bent cold."""
    limit = shop.ring.cold_limit
    return bends_cold(metal_of(result.spec.steel)) and (result.strain <= limit or isclose(result.strain, limit))


def _works(result: RingResult, shop: Shop) -> Iterator[Work]:
    cold, wound = bent_cold(result, shop), result.coil is not None
    if wound:
        yield _wind(result, cold=cold)
        yield replace(_cut(result, hands("cut one ring off a coil")), case="coil")
    else:
        yield _cut(result, hands("saw", area(result.spec.wire)) + hands("mark", 1))
    if result.spec.closing is Closing.WELDED:
        yield from _welded(result, shop, cold=cold, bend=not wound)
        return
    if not wound:
        yield _bend(result, shop, cold=cold)
    if result.spec.closing is Closing.BUTTED:
        yield _close(result, shop)


def _welded(result: RingResult, shop: Shop, *, cold: bool, bend: bool) -> Iterator[Work]:
    """Ends scarfed before a ring is bent; a link is a U first, and so is any ring that comes as a coil."""
    if is_link(result):
        yield from _link(result, shop)
    else:
        if bend:
            yield _scarf(result, "ring")
            yield _bend(result, shop, cold=cold)
        else:
            yield _scarf(result, "link")
    work = replace(_work(result, "weld", hands("weld")), amount=result.spec.wire.thick)
    yield welded(replace(work, case="link" if is_link(result) else "ring"), result.spec.steel)


def is_link(result: RingResult) -> bool:
    """Whether it is made as a link is: bent to a U before its ends are scarfed."""
    return result.chain is not None or result.spec.inside_long is not None


def _link(result: RingResult, shop: Shop) -> Iterator[Work]:
    yield _bent_hot(replace(_work(result, "bend", hands("bend a U"), case="link"), amount=pi), result, shop)
    if result.spec.wire.thick <= LIGHT_LINK.value:
        yield _work(result, "scarf", hands("close a link"), case="light link", says="cold: light stock is only lapped")
    else:
        yield _scarf(result, "link")


def _scarf(result: RingResult, case: str) -> Work:
    seconds = hands("scarf one end", 2) + (hands("close a link") if case == "link" else 0.0)
    return heated(_work(result, "scarf", seconds, case=case), result.spec.steel)


def _bend(result: RingResult, shop: Shop, *, cold: bool) -> Work:
    form = "ring" if result.spec.inside_long is None else "oval"
    if cold:
        rounded = rounding_cold(metal_of(result.spec.steel), area(result.spec.wire) * result.bare)
        seconds = hands("bend a small ring cold") + rounded
        return replace(_work(result, "bend", seconds, case=f"cold {form}"), amount=2 * pi)
    turned = hands("bend") + hands("turn a ring hot", result.bare)
    return _bent_hot(replace(_work(result, "bend", turned, case=form), amount=2 * pi), result, shop)


def _bent_hot(work: Work, result: RingResult, shop: Shop) -> Work:
    """Over the horn: blows from the work that the angle takes, seconds from them and from looking."""
    wire, steel = result.spec.wire, result.spec.steel
    stress = resistance(metal_of(steel), work.does, work.thin)
    energy = bending_work(wire.width, wire.thick, work.amount, stress, rounded=is_round(wire))
    return hammered(work, steel, energy, shop)


def _close(result: RingResult, shop: Shop) -> Work:
    """Closed cold, unless opening it sideways would strain it too much: then hot."""
    if result.opening_strain > shop.ring.cold_limit:
        return heated(_work(result, "close ring", hands("close a ring hot"), case="hot"), result.spec.steel)
    return _work(result, "close ring", hands("close a ring cold"))


def _wind(result: RingResult, *, cold: bool) -> Work:
    """One turn of the coil, for one ring; each is counted as a heat where it is wound hot, though some take more."""
    if cold:
        return _work(result, "wind", hands("wind one turn"), says="all the rings of the coil at once")
    says = "cold it would stretch too much; where one heat gives several turns, it is fewer heats than are counted"
    return heated(_work(result, "wind", hands("wind one turn"), says=says), result.spec.steel)


def _cut(result: RingResult, seconds: Spread) -> Work:
    return _work(result, "cut bar", seconds)


def _work(result: RingResult, does: str, seconds: Spread, case: str = "", says: str = "") -> Work:
    name, wire = result.spec.name, result.spec.wire
    return Work(
        f"{name}: {does}",
        name,
        does,
        radius=result.inside_across / 2,
        seconds=seconds,
        thin=hydraulic(wire),
        case=case,
        says=says,
    )
