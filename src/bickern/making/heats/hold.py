"""How a bar is held for a heat: by which end, in the hand or in which tongs, and whether it can be held at all."""

from collections.abc import Sequence
from dataclasses import dataclass

from bickern.iron.section import Section, area
from bickern.making.heats.lies import FRAIL, Lying, thickness
from bickern.making.heats.result import End, Grip, Hold
from bickern.making.shop import Shop, hangs_there
from bickern.making.work.result import Work
from bickern.measure.known import Known
from bickern.measure.source import COMMON_PRACTICE
from bickern.parts.bar.tracks import EyeLeg, HoopLeg, ScrollLeg, StraightLeg

HAND_FROM = Known(0.300, "m", COMMON_PRACTICE)
"""About 12 in of cold bar between the hot zone and its end, to be held in the bare hand."""
GRIPPED = Known(0.020, "m", COMMON_PRACTICE)
"""Metal that the jaws of tongs take hold of, at least."""
CLEAR = Known(0.020, "m", COMMON_PRACTICE)
"""Metal between the jaws and the hot zone, at least: jaws that lie in it are heated, and chill it."""
SMALL_JAWS = Known(0.010, "m", COMMON_PRACTICE)
"""Metal that small tongs take hold of, where there is no more."""
SMALL_CLEAR = Known(0.005, "m", COMMON_PRACTICE)
"""Metal between small jaws and the heat: they grow hot, and are cooled in water."""
FIRM = 0.75
"""Share of the bar's thickness from which metal is as good to hold as the bar itself (common practice)."""
PLACES = 8
"""Into how many parts the cold metal is divided to look for a place to hold."""
SHORT = Known(0.100, "m", COMMON_PRACTICE)
"""Stock shorter than about 4 in is forged on the end of a longer bar and cut off last."""


@dataclass(frozen=True, slots=True)
class Handle:
    """A longer bar that the piece is still part of: at which `end` it goes on, as stock (NEITHER: cut to length)."""

    end: End = End.NEITHER


LOOSE = Handle()
"""A piece that is cut to its own length."""


def hold_for(
    lying: Lying,
    hot: tuple[float, float],
    works: Sequence[Work],
    shop: Shop,
    handle: Handle = LOOSE,
    *,
    small: bool = False,
) -> Hold | None:
    """How the bar is held with `hot` [m], as it lies now, in the fire; None where nothing cold is left to hold.

    The longer bar is the handle while there is one. Else the end that leaves enough for the hand, then the one with
    stout plain metal, then the one with more of it cold. `small`: in small tongs, close to the heat, where there is no
    more.
    """
    stock = lying.result.stock_section
    if lying.result.spec.closed and lying.done.bends:
        return Hold(End.NEITHER, Grip.TONGS, stock, 0.0, hangs_there(thickness(stock), shop.tongs))
    twist = next((w for w in works if w.does == "twist"), None)
    if twist is not None:
        return _in_vise(lying, lying.now(twist.zone))
    if handle.end is not End.NEITHER:
        return Hold(handle.end, Grip.LONGER, stock)
    ends = (End.DATUM, End.OTHER)
    sides = [side for end in ends if (side := _side(lying, hot, end, shop, small=small)) is not None]
    if not sides:
        return None
    best = max(sides, key=lambda s: s.merit)
    grip = Grip.HAND if best.cold >= HAND_FROM.value else Grip.TONGS
    there = grip is not Grip.TONGS or hangs_there(thickness(lying.section(best.place)), shop.tongs)
    by = turned_there(lying, best.place) if grip is Grip.TONGS else ""
    return Hold(best.end, grip, lying.section(best.place), best.at, there, by, small)


def turned_there(lying: Lying, now: float) -> str:
    """What lies at a place [m] of the bar as it is that is no straight bar any more: "the eye"; "" where it is."""
    at = lying.stage.back(now)
    curved = [leg for leg in lying.result.spec.path if not isinstance(leg, StraightLeg)]
    for i in sorted(lying.done.bends):
        span = lying.result.bends[i]
        if span.start < at < span.end:
            kind = next((word for leg, word in _TURNED.items() if isinstance(curved[i], leg)), "bend")
            return f"the {curved[i].name or kind}"
    return ""


_TURNED: dict[type, str] = {EyeLeg: "eye", ScrollLeg: "scroll", HoopLeg: "hoop"}


def _in_vise(lying: Lying, twisted: tuple[float, float]) -> Hold:
    """A twist stands in the vise by the stouter metal beside it, its mark level with the jaws."""
    ends = ((End.DATUM, twisted[0]), (End.OTHER, lying.length - twisted[1]))
    beside = [(end, max(0.0, cold - GRIPPED.value / 2)) for end, cold in ends]

    def section(end: End, at: float) -> Section:
        return lying.section(at if end is End.DATUM else lying.length - at)

    end, at = max(beside, key=lambda side: (side[1] > 0, round(thickness(section(*side)), 5), side[1]))
    return Hold(end, Grip.VISE, section(end, at), at)


@dataclass(frozen=True, slots=True)
class _Side:
    """One end as a place to hold: metres cold, the place [m] along the bar and from that end, and how good it is."""

    end: End
    cold: float
    place: float
    at: float
    merit: tuple[bool, bool, bool, bool, bool, float]


def _side(lying: Lying, hot: tuple[float, float], end: End, shop: Shop, *, small: bool) -> _Side | None:
    cold = hot[0] if end is End.DATUM else lying.length - hot[1]
    gripped, clear = (SMALL_JAWS.value, SMALL_CLEAR.value) if small else (GRIPPED.value, CLEAR.value)
    room = cold - clear - gripped
    if room < 0:
        return None
    at = _best_place(lying, end, gripped / 2, room)
    place = at if end is End.DATUM else lying.length - at
    thick = thickness(lying.section(place))
    hand, stout = cold >= HAND_FROM.value, thick >= FRAIL.value
    firm = thick >= FIRM * thickness(lying.result.stock_section)
    plain = not turned_there(lying, place)
    return _Side(end, cold, place, at, (stout, hand, hangs_there(thick, shop.tongs), plain, firm, cold))


def _best_place(lying: Lying, end: End, first: float, room: float) -> float:
    """The place [m] in from an end to hold: stout, not twisted, not turned, full, not forged (else the most metal).

    Never on metal that tapers to nothing: the jaws take hold in the middle of what they grip.
    """
    here = [first + room * i / PLACES for i in range(PLACES + 1)]
    places = [at if end is End.DATUM else lying.length - at for at in here]
    sizes, metal = ([of(lying.section(p)) for p in places] for of in (thickness, area))
    stout, full = max(FRAIL.value, FIRM * max(sizes)), FIRM * max(metal)

    def merit(i: int) -> tuple[bool, bool, bool, bool, bool, float]:
        marked = _twisted(lying, places[i])
        kept = not _forged(lying, places[i])
        free = not turned_there(lying, places[i])
        return sizes[i] >= stout, not marked, free, metal[i] >= full, kept, 0.0 if kept else round(metal[i], 8)

    return here[max(range(PLACES + 1), key=lambda i: (merit(i), -i))]


def _forged(lying: Lying, now: float) -> bool:
    """Whether what lies there is forged by now."""
    return any(start < now < end for _, (start, end) in lying.finished())


def _twisted(lying: Lying, now: float) -> bool:
    """Whether a twist that is made lies there: tongs mark it."""
    at = lying.stage.back(now)
    made = (lying.result.twists[i] for i in lying.done.twists if i < len(lying.result.twists))
    return any(check.start < at < check.end for check in made)
