"""Which bars and sheets of the rack each piece can be made from, and what each takes more than the asked one."""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from bickern.book.job.asked import Spec
from bickern.desk.reckon import Reckoning
from bickern.desk.stock.tried import Ask, Made, Tried, cuts_in, in_job, made, of_steel, sees_fire, tried
from bickern.iron.section import area
from bickern.making.stock.become import (
    How,
    NoWay,
    PieceWays,
    Turned,
    Way,
    asked_section,
    become,
    best_first,
    copies_of,
    no_room,
    sheet_becomes,
)
from bickern.making.stock.eaten import eaten
from bickern.making.stock.fire import may_be_heated
from bickern.making.stock.joined import Joined, allowance, cannot_weld, joined, weld_takes
from bickern.making.stock.rack import Rack, Stock, StockBar, StockSheet
from bickern.making.stock.steel_match import Match, Matched, steel_match
from bickern.making.stock.worth import replacement
from bickern.measure.finding import Finding
from bickern.measure.money import Money
from bickern.parts.bar.says import both
from bickern.parts.bar.tracks import BarSpec
from bickern.parts.sheet.result import SheetResult
from bickern.parts.sheet.spec import SheetSpec

MOST_COUNTED = 4
"""Heavier bars whose heats are counted for one piece, the lightest first: the heavier the bar, the longer it takes."""
NOTHING_TELLS = "it keeps the bar's own section, and no bar is named: write its sections out, or name a bar"
STOPPED = "something stops this piece: see what was found"
UNKNOWN_WAY = "; `unknown steel: yes` under `cutting` in the shop file takes it all the same"
WELD_WAY = "; two could be welded: `weld short ones: yes` under `cutting` in the shop file"
NOT_COUNTED = "heavier than others that will do: its heats are not counted"
COLD_ONLY = "never in the fire: for cold work only"


def ways(done: Reckoning, rack: Rack, *, most: int = MOST_COUNTED) -> tuple[PieceWays, ...]:
    """For each piece of a job all that the rack has for it, the best first, and why not for the rest.

    `most`: how many kinds of heavier bar have their heats counted, for each piece.
    """
    return tuple(ways_of(done, spec, rack, most=most) for spec in done.job.pieces) if done.job else ()


def ways_of(done: Reckoning, spec: Spec, rack: Rack, *, most: int = MOST_COUNTED) -> PieceWays:
    """The same for one piece of the job."""
    asked = None if isinstance(spec, SheetSpec) else asked_section(spec)
    if done.copy is None or (asked is None and not isinstance(spec, SheetSpec)):
        return PieceWays(spec.name, 0, None, 0.0, (), says=NOTHING_TELLS)
    plain = replace(spec, stock=asked) if isinstance(spec, BarSpec) else spec
    base = made(done.copy, plain, counted=not isinstance(spec, SheetSpec))
    if not isinstance(base, Made):
        return PieceWays(spec.name, 0, asked, 0.0, (), says=STOPPED)
    ask = Ask(done.copy, plain, asked, base, sees_fire(done.copy, base.piece))
    ask = replace(ask, buy=_bought(ask, rack))
    found = tuple(_of_sheets(ask, spec, rack) if isinstance(spec, SheetSpec) else _of_bars(ask, rack, most))
    there = best_first([one for one in found if isinstance(one, Way)])
    none = _by_reason(one for one in found if isinstance(one, NoWay))
    copies = cuts_in(base.piece) * done.copy.job.make
    heavier = tuple(one for no in none if no.why == NOT_COUNTED for one in no.stock)
    return PieceWays(spec.name, copies, asked, ask.cut, there, none, heavier=heavier)


def _bought(ask: Ask, rack: Rack) -> Money | None:
    """What the asked bar costs for one copy: by the shop's prices, else by what one in the rack costs to replace."""
    if ask.asked is None:
        return None
    return replacement(ask.mass, ask.cut, ask.asked, ask.shop, ask.spec.steel, rack.bars)[0]


def _by_reason(none: Iterable[NoWay]) -> tuple[NoWay, ...]:
    """Stock of one size that does not do for one reason, told once."""
    reasons: dict[tuple[object, str], list[Stock]] = defaultdict(list)
    for no in none:
        reasons[_size(no.stock[0]), no.why] += no.stock
    return tuple(NoWay(tuple(stock), why) for (_, why), stock in reasons.items())


def _size(one: Stock) -> object:
    return one.section if isinstance(one, StockBar) else one.thick


@dataclass(frozen=True, slots=True)
class _Kind:
    """Stock alike in section and steel: how it would become the piece, and its pieces with what is doubted of each."""

    turned: Turned
    matched: Matched
    steel: str
    there: tuple[tuple[Stock, str], ...]


def _kinds(ask: Ask, stock: Sequence[Stock]) -> Iterator[_Kind | NoWay]:
    """Every kind of stock, each reckoned once; what may not serve, with the reason."""
    for (_, steel), alike in _alike(stock).items():
        turned = _turned(ask, alike[0])
        if isinstance(turned, str):
            yield NoWay(tuple(alike), turned)
            continue
        matched = steel_match(ask.spec.steel, steel, ask.shop.cutting.unknown)
        if not matched.will_do:
            way = UNKNOWN_WAY if "not known" in matched.says or "guess" in matched.says else ""
            yield NoWay(tuple(alike), matched.says + way)
            continue
        hot = ask.hot or turned.how not in (How.AS_IS, How.NEAR)
        if hot:
            yield from _refused(alike)
        if left := _allowed(alike, hot):
            yield _Kind(turned, matched, steel, left)


def _turned(ask: Ask, one: Stock) -> Turned | str:
    if isinstance(one, StockSheet):
        assert isinstance(ask.spec, SheetSpec)
        return sheet_becomes(ask.spec, one)
    assert not isinstance(ask.spec, SheetSpec)
    assert ask.asked is not None
    turned = become(ask.spec, ask.asked, one.section)
    if isinstance(turned, str) or turned.how is How.AS_IS:
        return turned
    spec = ask.settled
    assert not isinstance(spec, SheetSpec)
    return become(spec, ask.asked, one.section)


def _refused(alike: Sequence[Stock]) -> Iterator[NoWay]:
    """What never goes in the fire, by the reason."""
    reasons: dict[str, list[Stock]] = defaultdict(list)
    for one in alike:
        if (found := may_be_heated(one)) is not None and found.stops:
            reasons[found.says].append(one)
    yield from (NoWay(tuple(stock), says) for says, stock in reasons.items())


def _allowed(alike: Sequence[Stock], hot: bool) -> tuple[tuple[Stock, str], ...]:
    """The rest, each with what is to be said of it before it is heated, or that it never is."""
    found = ((one, may_be_heated(one)) for one in alike)
    return tuple((one, _doubt(fault, hot)) for one, fault in found if not hot or fault is None or not fault.stops)


def _doubt(fault: Finding | None, hot: bool) -> str:
    if fault is None:
        return ""
    return COLD_ONLY if fault.stops else fault.says if hot else ""


def _alike(stock: Sequence[Stock]) -> dict[tuple[object, str], list[Stock]]:
    """The stock by section (or thickness) and steel: only what differs is reckoned."""
    kinds: dict[tuple[object, str], list[Stock]] = defaultdict(list)
    for one in stock:
        kinds[_size(one), one.steel.strip().lower()].append(one)
    return kinds


def _of_bars(ask: Ask, rack: Rack, most: int) -> Iterator[Way | NoWay]:
    kinds: list[_Kind] = []
    for one in _kinds(ask, rack.bars):
        if isinstance(one, NoWay):
            yield one
        else:
            kinds.append(one)
    known = _Sections()
    for kind in sorted(kinds, key=_weight):
        if short := _surely_short(ask, kind):
            yield short
        elif kind.turned.how is How.DRAWN and known.drawn >= most and not known.holds(kind):
            yield NoWay(_pieces(kind), NOT_COUNTED)
        else:
            yield from _of_kind(ask, kind, known)


class _Sections:
    """Sections tried: two bars that differ in the grade of a plain steel alone are tried once."""

    def __init__(self) -> None:
        self._known: dict[tuple[object, str], Tried | str] = {}

    @property
    def drawn(self) -> int:
        """How many heavier sections came out as a way."""
        return sum(isinstance(one, Tried) and one.how is How.DRAWN for one in self._known.values())

    def holds(self, kind: _Kind) -> bool:
        """Whether its section was tried."""
        return self._key(kind) in self._known

    def _key(self, kind: _Kind) -> tuple[object, str]:
        plain = kind.matched.match in (Match.SAME, Match.ALIKE)
        return _size(kind.there[0][0]), "" if plain else kind.steel

    def tried(self, ask: Ask, kind: _Kind) -> Tried | str:
        """What comes of it; the piece of the steel that is there."""
        key = self._key(kind)
        if key not in self._known:
            plain = key[1] == ""
            turned = kind.turned if plain else replace(kind.turned, spec=_of(kind, kind.turned.spec))
            self._known[key] = tried(ask, turned)
        done = self._known[key]
        return done if isinstance(done, str) else replace(done, spec=_of(kind, done.spec))


def _of(kind: _Kind, spec: Spec) -> Spec:
    return of_steel(spec, kind.steel, kind.matched)


def _weight(kind: _Kind) -> float:
    one = kind.there[0][0]
    return area(one.section) if isinstance(one, StockBar) else 0.0


def _pieces(kind: _Kind) -> tuple[Stock, ...]:
    return tuple(one for one, _ in kind.there)


def _longest(kind: _Kind) -> float:
    return max(one.length for one, _ in kind.there if isinstance(one, StockBar))


def _surely_short(ask: Ask, kind: _Kind) -> NoWay | None:
    """A kind of which no bar holds the metal of the piece, before anything is reckoned; bars of the size are welded."""
    if kind.turned.how in (How.AS_IS, How.NEAR):
        return None
    wanted = ask.metal / _weight(kind)
    return _short(kind, wanted) if _longest(kind) < wanted * (1 - 1e-9) else None


def _short(kind: _Kind, wanted: float, more: str = "") -> NoWay:
    says = f"too short: {both(_longest(kind))} is the longest there, and {both(wanted)} is wanted{more}"
    return NoWay(_pieces(kind), says)


def _of_kind(ask: Ask, kind: _Kind, known: "_Sections") -> Iterator[Way | NoWay]:
    """Bars of one kind that are long enough, and the rest; two of them welded where none is."""
    done = known.tried(ask, kind)
    if isinstance(done, str):
        yield NoWay(_pieces(kind), done)
        return
    long = [(one, doubt) for one, doubt in kind.there if isinstance(one, StockBar) and one.length >= done.cut - 1e-9]
    for one, doubt in long:
        yield _way(ask, kind, done, (one,), doubt)
    if not long:
        yield from _two(ask, kind, done)
    elif short := [one for one, _ in kind.there if isinstance(one, StockBar) and one.length < done.cut - 1e-9]:
        yield NoWay(tuple(short), f"too short: {both(done.cut)} is wanted")


def _way(ask: Ask, kind: _Kind, done: Tried, stock: tuple[Stock, ...], doubt: str, weld: Joined | None = None) -> Way:
    heats, seconds, says = done.heats, done.seconds, done.says
    if weld is not None and done.result is not None:
        more_heats, more_seconds = weld_takes(done.result, ask.shop, weld.at)
        heats, seconds, says = heats + more_heats, seconds + more_seconds, (weld.says, *says)
    return Way(
        How.WELDED if weld is not None else done.how,
        stock,
        weld.cuts if weld is not None else (done.cut,),
        replace(done.spec, coating=stock[0].coating) if doubt == COLD_ONLY else done.spec,
        kind.matched.match,
        done.first,
        heats,
        seconds,
        eaten(seconds.value, ask.shop) if seconds.value > 0.0 else None,
        ask.buy,
        (*says, *((kind.matched.says,) if kind.matched.says else ())),
        doubt,
        copies_of(_length(stock[0]), done.cut, ask.shop.cutting) if len(stock) == 1 else 1,
    )


def _length(one: Stock) -> float:
    return one.length if isinstance(one, StockBar) else 0.0


def _two(ask: Ask, kind: _Kind, done: Tried) -> Iterator[Way | NoWay]:
    """Two short bars made into one, where the shop does that, the steel takes it and a place is left for the weld."""
    told = {one: may_be_heated(one) for one, _ in kind.there if isinstance(one, StockBar)}
    bars = [
        one for one, found in told.items() if found is None or not found.stops
    ]  # the weld is hot, if nothing else is
    if done.result is None or done.how not in (How.AS_IS, How.NEAR):
        yield _short(kind, done.cut)
        return
    found = joined(done.result, bars, ask.shop)
    no = cannot_weld(done.spec.steel)
    if found is None or no:
        yield _short(kind, done.cut, f"; {no}" if found is not None else _no_two(ask, bars, done))
    elif not ask.shop.cutting.weld_short:
        yield _short(kind, done.cut, WELD_WAY)
    else:
        doubt = next((doubt.says for one in found.bars if (doubt := told[one]) is not None), "")
        yield _way(ask, kind, done, found.bars, doubt, found)
        if others := tuple(one for one in told if one not in found.bars):
            yield NoWay(others, f"too short: {both(done.cut)} is wanted")


def _no_two(ask: Ask, bars: Sequence[StockBar], done: Tried) -> str:
    """Why no two are welded, where they would be long enough."""
    assert done.result is not None
    longest = sorted((one.length for one in bars), reverse=True)[:2]
    if len(longest) < 2 or sum(longest) < done.cut + allowance(done.result, ask.shop):
        return ""
    return "; two welded would do, but the weld would lie in a bend, a hole, a twist or an end"


def _of_sheets(ask: Ask, spec: SheetSpec, rack: Rack) -> Iterator[Way | NoWay]:
    for kind in _kinds(ask, rack.sheets):
        if isinstance(kind, NoWay):
            yield kind
            continue
        new = of_steel(kind.turned.spec, kind.steel, kind.matched)
        done = ask.base if new == ask.spec else made(ask.copy, new, counted=False)
        if not isinstance(done, Made) or not isinstance(done.piece, SheetResult):
            yield NoWay(_pieces(kind), done[0].says if not isinstance(done, Made) and done else STOPPED)
            continue
        new_stop = next((f for f in in_job(ask, new) if f.stops), None) if kind.turned.how is How.NEAR else None
        if new_stop is not None:
            yield NoWay(_pieces(kind), new_stop.says)
            continue
        for one, doubt in kind.there:
            assert isinstance(one, StockSheet)
            yield _sheet_way(ask, kind, new, done.piece, one, doubt)


def _sheet_way(ask: Ask, kind: _Kind, new: Spec, piece: SheetResult, one: StockSheet, doubt: str) -> Way | NoWay:
    """A sheet of the right gauge, where metal and size leave the pattern room at all; the nest tells the rest."""
    if why := no_room(piece, one):
        return NoWay((one,), why)
    says = (*kind.turned.says, *((kind.matched.says,) if kind.matched.says else ()))
    spec = replace(new, coating=one.coating) if doubt == COLD_ONLY else new
    return Way(kind.turned.how, (one,), (), spec, kind.matched.match, says=says, doubt=doubt)
