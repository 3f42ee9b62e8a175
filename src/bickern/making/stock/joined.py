"""Two short bars welded into one: where the weld may lie, and what its fire takes. Only where the shop says so."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from bickern.iron.section import area
from bickern.iron.steel import FireWeld, find_steel
from bickern.making.heats.lots import lot_of
from bickern.making.heats.pack import Bench, packed
from bickern.making.heats.warmth import summed
from bickern.making.shop import Shop
from bickern.making.stock.rack import StockBar
from bickern.making.work.anvil import anvil_of
from bickern.making.work.bar_bends import SCARF, scarf, weld
from bickern.measure.known import Known
from bickern.measure.source import COMMON_PRACTICE
from bickern.measure.spread import Spread
from bickern.parts.bar.resolve import same_section
from bickern.parts.bar.result import BarResult, MetalRun
from bickern.parts.bar.says import both
from bickern.parts.bar.volume import stock_positions
from bickern.parts.weld import weld_allowance

ROOM = Known(SCARF + 1.0, "thicknesses", COMMON_PRACTICE)
"""A weld lies so far from any bend, hole or twist, and from the ends: its scarf, and a thickness beside it."""
MOST_PAIRS = 40
"""Pairs of bars that are tried, those with the least to spare first."""
Zone = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Joined:
    """Two bars, the length cut from each [m] (its share of the weld in it), where the weld lies along the finished bar
    [m], and the name of the stretch that it lies in."""

    bars: tuple[StockBar, StockBar]
    cuts: tuple[float, float]
    at: float
    name: str

    @property
    def says(self) -> str:
        """Where the weld comes to lie, in words."""
        where = f", in “{self.name}”" if self.name else ""
        return f"the weld comes to lie {both(self.at)} from the datum end{where}"


def cannot_weld(steel: str) -> str:
    """Why bar of a steel is not welded into one; "" where it is plain and takes a weld every time."""
    known = find_steel(steel).value
    if known is None:
        return "steel that nobody can name is not welded"
    if known.fire_weld is FireWeld.YES:
        return ""
    return f"{known.name} does not fire weld every time: no bar is made of two"


def allowance(bar: BarResult, shop: Shop) -> float:
    """Bar [m] that the weld takes, by the shop's rule."""
    return weld_allowance(shop.bar.weld, min(bar.stock_section.width, bar.stock_section.thick))


def joined(bar: BarResult, bars: Sequence[StockBar], shop: Shop) -> Joined | None:
    """The two bars that waste least with a place for their weld; None where no two will do."""
    extra = allowance(bar, shop)
    places = tuple(_places(bar))
    for one, other in _pairs(bars, bar.cut_this + extra):
        for first, second in ((one, other), (other, one)):
            found = _placed(bar, first, second, extra, places)
            if found is not None:
                return found
    return None


def _pairs(bars: Sequence[StockBar], wanted: float) -> list[tuple[StockBar, StockBar]]:
    """Pairs that are long enough together, the shortest sums first: for each bar the shortest that will do."""
    rising = sorted(bars, key=lambda b: (b.length, b.id))
    found, low = [], 0
    for high in range(len(rising) - 1, 0, -1):
        while low < high and rising[low].length + rising[high].length < wanted:
            low += 1
        if low >= high:
            break
        found.append((rising[low], rising[high]))
    return sorted(found, key=lambda pair: pair[0].length + pair[1].length)[:MOST_PAIRS]


@dataclass(frozen=True, slots=True)
class _Place:
    """A free stretch of the finished bar, and the same on the unforged one [m]."""

    name: str
    finished: Zone
    stock: Zone


def _places(bar: BarResult) -> Iterator[_Place]:
    """Free stretches: even metal, clear of bends, holes, twists, of the ends and of where limbs grow."""
    room = ROOM.value * min(bar.stock_section.width, bar.stock_section.thick)
    first = bar.weld / 2 if bar.spec.closed else 0.0
    spots = stock_positions(bar.runs, area(bar.stock_section), first)
    taken = sorted(_taken(bar, room))
    for run, start, end in zip(bar.runs, spots, spots[1:], strict=False):
        if run.outline is not None or not same_section(run.a, run.b) or run.end <= run.start:
            continue
        stretch = (max(run.start, room), min(run.end, bar.length - room))
        for free in _free(stretch, taken):
            yield _Place(run.name, free, (_on_stock(run, start, end, free[0]), _on_stock(run, start, end, free[1])))


def _taken(bar: BarResult, room: float) -> Iterator[Zone]:
    yield from ((b.start - room, b.end + room) for b in bar.bends)
    yield from ((t.start - room, t.end + room) for t in bar.twists)
    for check in bar.holes:
        half = (check.hole.long or check.hole.size) / 2 + room
        yield check.at - half, check.at + half


def _free(stretch: Zone, taken: Sequence[Zone]) -> Iterator[Zone]:
    at, end = stretch
    for low, high in taken:
        if low > at and min(low, end) > at:
            yield at, min(low, end)
        at = max(at, high)
    if end > at:
        yield at, end


def _on_stock(run: MetalRun, start: float, end: float, at: float) -> float:
    """A place in even metal, on the unforged bar [m]."""
    return start + (at - run.start) / (run.end - run.start) * (end - start)


def _placed(bar: BarResult, first: StockBar, second: StockBar, extra: float, places: Sequence[_Place]) -> Joined | None:
    """Two bars in this order, the weld as deep in a free stretch as their lengths let it lie."""
    least, most = bar.cut_this + extra / 2 - second.length, first.length - extra / 2
    best: tuple[float, Joined] | None = None
    for place in places:
        low, high = max(least, place.stock[0]), min(most, place.stock[1])
        if high < low:
            continue
        middle = sum(place.stock) / 2
        at = min(max(middle, low), high)
        clear = min(at - place.stock[0], place.stock[1] - at)
        if best is None or clear > best[0]:
            cuts = (at + extra / 2, bar.cut_this - at + extra / 2)
            best = clear, Joined((first, second), cuts, _finished(place, at), place.name)
    return best[1] if best else None


def _finished(place: _Place, at: float) -> float:
    """A place of the unforged bar on the finished one [m]."""
    (low, high), (start, end) = place.stock, place.finished
    return start + (at - low) / (high - low) * (end - start) if high > low else start


def weld_takes(bar: BarResult, shop: Shop, at: float) -> tuple[Spread, Spread]:
    """Heats and seconds of two scarfs and their weld in the bar as it comes."""
    runs = (MetalRun("", 0.0, bar.length, bar.stock_section, bar.stock_section, 0.0, bar.runs[0].loss, True),)
    anvil = anvil_of(replace(bar, runs=runs), shop, bar.spec.name, bar.stock_section)
    reach = SCARF * anvil.thick
    works = (
        scarf(anvil, "first bar", at),
        scarf(anvil, "second bar", at),
        weld(anvil, "the two bars", anvil.within(at - reach, at + reach), at),
    )
    spells = packed(works, Bench(bar.spec.name, shop, section=bar.stock_section)).spells
    return summed([s.times for s in spells if s.hot]), lot_of(1, spells, shop).seconds
