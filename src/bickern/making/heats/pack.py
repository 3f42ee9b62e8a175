"""Works in order, packed into heats: as many as lie in one hot zone and fit the seconds that one heat gives."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from math import ceil

from bickern.iron.heat.body import ROOM
from bickern.iron.section import Section
from bickern.making.heats.cool import kept_cold
from bickern.making.heats.hold import GRIPPED, LOOSE, Handle, hold_for
from bickern.making.heats.lies import FRAIL, Lying, thickness
from bickern.making.heats.near import overlap, placed
from bickern.making.heats.result import End, Grip, Hold, Spell
from bickern.making.heats.rules import FORGING
from bickern.making.heats.warmth import AS_IT_COOLS, HURRIED, given, heats_for, heats_of, scaling, summed, warming
from bickern.making.shop import Shop
from bickern.making.work.result import Work
from bickern.measure.known import Known
from bickern.measure.source import COMMON_PRACTICE
from bickern.measure.spread import Spread, sharp
from bickern.parts.bar.result import BarResult

ZONE = Known(0.150, "m", COMMON_PRACTICE)
"""About 6 in: what a small fire heats at once, where the shop does not say."""
LEAST_ZONE = Known(0.075, "m", COMMON_PRACTICE)
"""About 3 in: no small fire heats less of a bar than that, and a shorter heat runs out into the cold beside it."""
SAME_HEAT = Known(60.0, "K", COMMON_PRACTICE)
"""Works whose heats to pull at differ by more than this are not done in one."""
CONDUCTED = 50.0
"""Kelvin that iron falls on its way back into the fire, below where it was stopped at (our estimate)."""
TOLERANCE = 1e-6
"""Metres within which two places are one."""
BENT = ("bend", "curl", "scroll", "hoop", "twist")


@dataclass
class Bench:
    """Spells of one piece as they are packed: the bar as it lies (limbs by their names), what was done by key, and what
    could not be held. `section`: of a ring's wire, or of whatever is held that is no bar. `limbs`: longer bars that
    limbs to be welded on are made on."""

    piece: str
    shop: Shop
    lying: dict[tuple[str, ...], Lying] = field(default_factory=dict)
    section: Section | None = None
    limbs: dict[tuple[str, ...], Handle] = field(default_factory=dict)
    handle: Handle = LOOSE
    spells: list[Spell] = field(default_factory=list)
    done: list[str] = field(default_factory=list)
    unheld: list[Spell] = field(default_factory=list)


def bench_of(
    bar: BarResult, shop: Shop, handle: Handle = LOOSE, limbs: dict[tuple[str, ...], Handle] | None = None
) -> Bench:
    """An empty bench for a bar and its limbs, nothing done to them yet."""
    return Bench(bar.spec.name, shop, dict(_limbs(bar, ())), handle=handle, limbs=limbs or {})


def _limbs(bar: BarResult, path: tuple[str, ...]) -> Iterator[tuple[tuple[str, ...], Lying]]:
    yield path, Lying(bar)
    split = sum(b.at is None for b in bar.spec.branches)
    for branch in bar.spec.branches:
        child = next((c for c in bar.children if c.spec.name == branch.bar.name), None)
        if child is not None:
            yield from _limbs(_its_share(child, split) if branch.at is None else child, (*path, branch.name))


def _its_share(limb: BarResult, limbs: int) -> BarResult:
    """A limb that is split off, as it is then: its share of the bar's width."""
    whole = limb.stock_section
    return replace(limb, stock_section=replace(whole, width=whole.width / limbs))


def longer(bench: Bench, child: tuple[str, ...]) -> Handle:
    """The longer bar that the piece, or a limb of it that is still loose, is made on."""
    return bench.limbs.get(child, LOOSE) if child else bench.handle


def packed(works: Sequence[Work], bench: Bench) -> Bench:
    """The works as spells: hot ones together while they fit one heat, cold ones together between them."""
    group: list[Work] = []
    for work in works:
        if group and not joins(group, work, bench):
            close(group, bench)
            group = []
        group.append(work)
    if group:
        close(group, bench)
    return bench


def joins(group: Sequence[Work], work: Work, bench: Bench) -> bool:
    """Whether the work is done in the same heat (or at the same turn of the bench) as those before it."""
    if group[0].hot != work.hot or group[-1].child != work.child:
        return False
    if not work.hot:
        return True
    cools = work.does in AS_IT_COOLS
    if group[-1].does in ("weld", "cut off") or (group[-1].whole and not cools) or not _one_heat(group, work):
        return False
    if _alone(group, work):
        return False
    together, lying = [*group, work], bench.lying.get(work.child)
    zone, held = taken(together, bench)
    most = max(zone_of(bench.shop), _long(taken(group, bench)[0], lying) if cools else 0.0)
    if _long(zone, lying) > most + TOLERANCE or _apart(together) or held is None:
        return False
    if held.small and any((alone := taken([w], bench)[1]) is not None and not alone.small for w in together):
        return False  # by themselves they are held better
    return _saves_a_heat(group, work, zone, bench)


def _alone(group: Sequence[Work], work: Work) -> bool:
    """Whether the one needs the heat for itself: a twist (but for its truing), an upset stretch, a forged corner."""
    if work.does in AS_IT_COOLS:
        return False
    if any(w.does == "twist" for w in group):
        return True
    if "upset" in (work.does, group[-1].does):  # beside it all must be cold and full, and it leans while it is done
        return work.does != group[-1].does or work.name != group[-1].name
    return any(_is_corner(w) for w in (*group, work))


def _is_corner(work: Work) -> bool:
    """A corner that is forged square: a heat or more of its own, whatever lies beside it."""
    return work.does == "bend" and work.case == "sharp"


def _one_heat(group: Sequence[Work], work: Work) -> bool:
    """Whether one heat serves: the newcomer wants it no hotter, and does not burn at it; a twist wants it even."""
    if work.does in AS_IT_COOLS:
        return True
    alone, together = heats_of(group)[0], heats_of([*group, work])[0]
    return work.does != "twist" and abs(together - alone) <= SAME_HEAT.value and work.start <= alone + SAME_HEAT.value


def _saves_a_heat(group: Sequence[Work], work: Work, zone: tuple[float, float], bench: Bench) -> bool:
    """Whether all fit one heat; of one and the same stretch also, whether it is fewer heats than each by itself."""
    together = [*group, work]
    wants = summed([w.seconds for w in together])
    gives = _given(together, zone, bench)
    whole = any(w.whole for w in together)
    if wants.value <= (1 if whole else 1 + HURRIED.value) * gives.value:
        return True
    if whole or not all(_one_stretch(w, work) for w in group):
        return False
    if any(w.does not in FORGING for w in together):
        return False  # a bend or a hole is made once: it belongs to the last heat only
    apart = sum(
        heats_for(summed([w.seconds for w in some]), _given(some, taken(some, bench)[0], bench)).value
        for some in (list(group), [work])
    )
    return heats_for(wants, gives).value < apart


def _one_stretch(one: Work, other: Work) -> bool:
    """Whether the shorter of two zones lies at least half within the longer."""
    return placed(one) and overlap(one, other) >= 0.5 * min(w.zone[1] - w.zone[0] for w in (one, other))


def _given(works: Sequence[Work], zone: tuple[float, float], bench: Bench) -> Spread:
    lying = bench.lying.get(works[0].child)
    long = min(_long(zone, lying), zone_of(bench.shop))
    child = works[0].child
    if longer(bench, child).end is not End.NEITHER or (child and grows_out(child, bench)):
        long = max(long, LEAST_ZONE.value)  # the hot zone runs on into the longer bar, or the bar it grows out of
    return given(works, long, bench.shop, sides(zone, lying))


def _apart(works: Sequence[Work]) -> bool:
    """Whether some have places and others none: one heat has one place."""
    return len({placed(w) for w in works}) > 1


def zone_of(shop: Shop) -> float:
    """Longest hot zone [m] of this fire."""
    return shop.fire.longest or ZONE.value


def taken(works: Sequence[Work], bench: Bench) -> tuple[tuple[float, float], Hold | None]:
    """The hot zone [m] of these works and how they are held for it.

    A short heat in the middle of a short piece takes in one end with it, so that the other can be held; at an end no
    more than that end is put into the fire.
    """
    lying, goes_on = bench.lying.get(works[0].child), longer(bench, works[0].child).end
    found: list[tuple[tuple[float, float], Hold | None]] = []
    free = lying is not None and goes_on is End.NEITHER
    for toward, small in _TRIED if free else _TRIED[:1]:
        zone = hot_zone(works, lying, goes_on, toward)
        found.append((zone, _held(works, zone, bench, small=small)))
        if found[-1][1] is not None and not _frail(found[-1][1]):
            return found[-1]
    return next((way for way in found if way[1] is not None), found[0])


_TRIED = ((None, False), (End.OTHER, False), (End.DATUM, False), (None, True), (End.NEITHER, True))
"""Which way a short heat is made longer, and with small tongs or not: the first that leaves stout metal to hold."""


def _frail(hold: Hold) -> bool:
    """Whether tongs would close on thinner metal than they should."""
    return hold.grip is Grip.TONGS and hold.section is not None and thickness(hold.section) < FRAIL.value


def held_thin(bench: Bench) -> int:
    """How many heats are held by metal thinner than tongs should close on."""
    held = [s.hold for s in bench.spells if s.hot and not all(w.does in AS_IT_COOLS for w in s.works)]
    return sum(_frail(h) for h in held)


def hot_zone(
    works: Sequence[Work], lying: Lying | None, goes_on: End = End.NEITHER, toward: End | None = None
) -> tuple[float, float]:
    """The hot zone [m] on the finished bar: the works' own and a little beside it, never less than a fire heats.

    Beside it: half a thickness, of a bend a whole one. Where it is made longer, it is so toward the nearer end, or
    `toward` that one (NEITHER: an end no longer than it must be), or into the longer bar where one `goes_on` there.
    """
    if lying is None or not all(placed(w) for w in works):
        return (0.0, lying.result.length) if lying is not None else (0.0, 0.0)
    length = lying.result.length
    starts = [w.zone[0] - _margin(w, lying) for w in works]
    ends = [w.zone[1] + _margin(w, lying) for w in works]
    zone = lying.to_the_ends((max(0.0, min(starts)), min(length, max(ends))))
    return _long_enough(zone, lying, goes_on, toward)


def _long_enough(zone: tuple[float, float], lying: Lying, goes_on: End, toward: End | None) -> tuple[float, float]:
    start, end = lying.now(zone)
    lacks = LEAST_ZONE.value - (end - start)
    at_an_end = start <= TOLERANCE or end >= lying.length - TOLERANCE
    if lacks <= 0 or (toward is End.NEITHER and at_an_end):
        return zone
    left, right = start, lying.length - end
    if toward is None:  # half to each side; what an end cannot give goes to the other, or into the longer bar
        below, above = min(left, lacks / 2), min(right, lacks / 2)
        below = below if goes_on is End.OTHER else min(left, lacks - above)
        above = above if goes_on is End.DATUM else min(right, lacks - below)
    else:
        above = min(right, lacks) if toward is End.OTHER else 0.0
        below = min(left, lacks - above)
        above = min(right, lacks - below)
    below, above = lying.stage.back(start - below), lying.stage.back(end + above)
    return lying.to_the_ends((max(0.0, below), min(lying.result.length, above)))


def _margin(work: Work, lying: Lying) -> float:
    thick = thickness(work.before or lying.result.stock_section)
    return thick if work.does in BENT else thick / 2


def _long(zone: tuple[float, float], lying: Lying | None) -> float:
    if lying is None:
        return 0.0
    start, end = lying.now(zone)
    return end - start


def sides(zone: tuple[float, float], lying: Lying | None) -> int:
    """On how many sides of the hot zone cold bar goes on, into which its heat runs."""
    return 2 if lying is not None and zone[0] > 0 and zone[1] < lying.result.length else 1


def _held(works: Sequence[Work], zone: tuple[float, float], bench: Bench, *, small: bool = False) -> Hold | None:
    """How it is held for these works; a ring or a sheet is taken with tongs at its edge."""
    lying = bench.lying.get(works[0].child)
    if lying is None:
        return Hold(End.NEITHER, Grip.TONGS, works[0].before or bench.section)
    if works[0].child and grows_out(works[0].child, bench):
        bar = bench.lying[works[0].child[:-1]]
        return hold_for(bar, (bar.length, bar.length), (), bench.shop, longer(bench, works[0].child[:-1]))
    hot = lying.now(zone)
    bit = zone_of(bench.shop)
    if hot[1] - hot[0] > bit:  # it is heated bit by bit, and held by what is not in the fire then
        hot = (hot[0], hot[0] + bit) if hot[0] < GRIPPED.value else (hot[1] - bit, hot[1])
    held = hold_for(lying, hot, works, bench.shop, longer(bench, works[0].child), small=small)
    return held or (_at_a_red(lying) if all(w.does in AS_IT_COOLS for w in works) else None)


def _at_a_red(lying: Lying) -> Hold:
    """At a red no more than is needed to brush or straighten it, a piece is taken by its stouter end, red as it is."""
    ends = ((End.DATUM, lying.section(GRIPPED.value / 2)), (End.OTHER, lying.section(lying.length - GRIPPED.value / 2)))
    end, section = max(ends, key=lambda side: thickness(side[1]))
    return Hold(end, Grip.TONGS, section, GRIPPED.value / 2)


def grows_out(child: tuple[str, ...], bench: Bench) -> bool:
    """Whether a limb grows out of the bar, so that the bar is its handle; one to be welded on is still loose."""
    return any(b.at is None for b in bench.lying[child[:-1]].result.spec.branches if b.name == child[-1])


def close(group: Sequence[Work], bench: Bench) -> None:
    """Adds the spell of these works, and does them."""
    spell = _hot(group, bench) if group[0].hot else _cold(group, bench)
    bench.spells.append(spell)
    bench.done.extend(w.key for w in group)
    child = group[0].child
    if child in bench.lying:
        bench.lying[child] = bench.lying[child].after(group)
    if any(w.does == "cut off" for w in group):
        bench.limbs.pop(child, None)
        bench.handle = bench.handle if child else LOOSE


def _cold(group: Sequence[Work], bench: Bench) -> Spell:
    wants = summed([w.seconds for w in group])
    return Spell(bench.piece, tuple(group), hot=False, wants=wants, done_before=tuple(bench.done))


def _hot(group: Sequence[Work], bench: Bench) -> Spell:
    lying = bench.lying.get(group[0].child)
    zone, hold = taken(group, bench)
    wants, gives = summed([w.seconds for w in group]), _given(group, zone, bench)
    start, stop = heats_of(group)
    now, told_from = _told(zone, lying, hold, longer(bench, group[0].child).end)
    first = _first_heat_there(group, bench)
    spell = Spell(
        piece=bench.piece,
        works=tuple(group),
        hot=True,
        times=_times(group, wants, gives, _bits(group, zone, bench)),
        zone=zone,
        now=now,
        told_from=told_from,
        start=start,
        stop=stop,
        gives=gives,
        wants=wants,
        warms=warming(group, bench.shop, ROOM if first else max(ROOM, bench.spells[-1].stop - CONDUCTED)),
        hold=hold or Hold(End.NEITHER, Grip.CLAMP),
        cool=kept_cold(lying, group, lying.now(zone) if lying is not None else (0.0, 0.0)),
        loss=scaling(group, bench.shop, first=first),
        done_before=tuple(bench.done),
    )
    if hold is None:
        bench.unheld.append(spell)
    return spell


def _times(group: Sequence[Work], wants: Spread, gives: Spread, bits: int) -> Spread:
    """How many heats: of what is begun and ended in one, one; of truing at a red, one or two."""
    if any(w.whole for w in group):
        return sharp(1.0)
    times = heats_for(wants, gives, bits)
    return Spread(1.0, 1.0, min(2.0, times.high), times.why) if all(w.does == "straighten" for w in group) else times


def _bits(group: Sequence[Work], zone: tuple[float, float], bench: Bench) -> int:
    """In how many bits a stretch is heated that comes out longer than what the fire heats at once.

    Beside the stretch iron is hot that is not worked. For a red to brush at, the bar is drawn through the fire instead.
    """
    if all(w.does in AS_IT_COOLS for w in group):
        return 1
    own = [w.zone for w in group] if all(placed(w) for w in group) else [zone]
    long = max(end for _, end in own) - min(start for start, _ in own)
    return max(1, ceil(long / zone_of(bench.shop) - 0.1))


def _first_heat_there(group: Sequence[Work], bench: Bench) -> bool:
    """Whether the iron comes cold to this heat: the last spell was not a heat of the same stretch."""
    if not bench.spells or not bench.spells[-1].hot:
        return True
    before = bench.spells[-1].works
    return not any(a.child == b.child and overlap(a, b) > 0 for a in before for b in group)


def _told(
    zone: tuple[float, float], lying: Lying | None, hold: Hold | None, goes_on: End
) -> tuple[tuple[float, float], End]:
    """The hot zone as it lies, told from the end that is in the fire: the one that is not held.

    What is held in the vise is measured before: from the nearer end, where the bar does not go on.
    """
    if lying is None:
        return (0.0, 0.0), End.NEITHER
    start, end = lying.now(zone)
    told_from = End.OTHER if hold is not None and hold.end is End.DATUM else End.DATUM
    if hold is not None and hold.grip is Grip.VISE:
        nearer = End.OTHER if lying.length - end < start and lying.result.grip <= 0 else End.DATUM
        told_from = {End.OTHER: End.DATUM, End.DATUM: End.OTHER}.get(goes_on, nearer)
    return ((start, end) if told_from is End.DATUM else (lying.length - end, lying.length - start)), told_from
