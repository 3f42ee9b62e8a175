"""What is done to make one ring or one link, read off what was reckoned."""

from collections.abc import Iterator
from dataclasses import replace
from math import isclose, pi

from bickern.iron.section import area, hydraulic
from bickern.making.shop import Shop
from bickern.making.work.effort import bending_work, is_round
from bickern.making.work.fire import bends_cold, hammered, heated, stress_of, welded
from bickern.making.work.rates import time_of
from bickern.making.work.result import Work
from bickern.making.work.times import hands
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

    Cold where the skin stretches no more than the shop allows (`RingRules.cold_limit`): wound on a mandrel where that
    is asked, else bent; hot otherwise. A welded ring is scarfed, bent, welded; a welded link takes the three heats that
    are published for it: a U, the scarfs closed over what hangs in it, the weld. A link of light bar is lapped cold.
    """
    return tuple(_works(result, shop))


def bent_cold(result: RingResult, shop: Shop) -> bool:
    """Whether the ring is bent cold."""
    limit = shop.ring.cold_limit
    return bends_cold(result.spec.steel) and (result.strain <= limit or isclose(result.strain, limit))


def _works(result: RingResult, shop: Shop) -> Iterator[Work]:
    cold, wound = bent_cold(result, shop), result.coil is not None
    if wound and cold:
        yield _wind(result)
        yield _cut(result, time_of("cut one ring off a coil"))
    else:
        yield _cut(result, hands("saw", area(result.spec.wire)) + hands("mark", 1))
    if result.spec.closing is Closing.WELDED:
        yield from _welded(result, shop, cold=cold, bend=not (wound and cold))
        return
    if not (wound and cold):
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
    yield _bent_hot(replace(_work(result, "bend", time_of("bend a U"), case="link"), amount=pi), result, shop)
    if result.spec.wire.thick <= LIGHT_LINK.value:
        yield _work(
            result, "scarf", time_of("close a link"), case="light link", says="cold: light stock is only lapped"
        )
    else:
        yield _scarf(result, "link")


def _scarf(result: RingResult, case: str) -> Work:
    seconds = time_of("scarf one end", 2) + (time_of("close a link") if case == "link" else 0.0)
    return heated(_work(result, "scarf", seconds, case=case), result.spec.steel)


def _bend(result: RingResult, shop: Shop, *, cold: bool) -> Work:
    if cold:
        return replace(_work(result, "bend", time_of("bend a small ring cold"), case="cold ring"), amount=2 * pi)
    turned = hands("bend") + time_of("turn a ring hot", result.bare)
    return _bent_hot(replace(_work(result, "bend", turned, case="ring"), amount=2 * pi), result, shop)


def _bent_hot(work: Work, result: RingResult, shop: Shop) -> Work:
    """Over the horn: blows from the work that the angle takes, seconds from them and from looking."""
    wire, steel = result.spec.wire, result.spec.steel
    energy = bending_work(wire.width, wire.thick, work.amount, stress_of(work, steel), rounded=is_round(wire))
    return hammered(work, steel, energy, shop)


def _close(result: RingResult, shop: Shop) -> Work:
    """Closed cold, unless opening it sideways would strain it too much: then hot."""
    if result.opening_strain > shop.ring.cold_limit:
        return heated(_work(result, "close ring", time_of("close a ring hot"), case="hot"), result.spec.steel)
    return _work(result, "close ring", time_of("close a ring cold"))


def _wind(result: RingResult) -> Work:
    """One turn of the coil, for one ring."""
    return replace(_work(result, "wind", time_of("wind one turn")), says="all the rings of the coil at once")


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
