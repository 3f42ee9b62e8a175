"""What a bar or a sheet of the rack would have to become to make a piece: as it is, near enough, drawn down, upset.

Only what is asked of the new bar is written here; what it takes follows when that is reckoned and its heats counted.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import StrEnum

from bickern.geometry.blank import fits_in
from bickern.geometry.polygon import area as outline_area
from bickern.geometry.polygon import bounds
from bickern.iron.section import Section, area
from bickern.making.shop import Cutting
from bickern.making.stock.alike import (
    ALMOST,
    how_drawn,
    near_bar,
    never,
    not_drawn,
    same_bar,
    same_gauge,
    turned_as,
)
from bickern.making.stock.rack import Stock, StockBar, StockSheet
from bickern.making.stock.rewrite import drawn_to, keeps_the_bar, stood_in, wants_the_bar
from bickern.making.stock.steel_match import Match
from bickern.making.stock.swell import MOST_UPSET
from bickern.making.work.result import NO_TIME
from bickern.measure.known import Known
from bickern.measure.money import Money
from bickern.measure.source import COMMON_PRACTICE
from bickern.measure.spread import Spread
from bickern.parts.bar.anystock import fattest
from bickern.parts.bar.says import bar
from bickern.parts.bar.tracks import BarSpec, Metal, SectionGoal
from bickern.parts.ring.spec import RingSpec
from bickern.parts.sheet.result import SheetResult
from bickern.parts.sheet.spec import SheetSpec

Spec = BarSpec | RingSpec | SheetSpec

NEAR_GAUGE = Known(0.10, "1", COMMON_PRACTICE)
"""A sheet stands in for another whose thickness differs by no more than this share, its pattern developed anew."""


class How(StrEnum):
    """How a piece of stock becomes the piece."""

    AS_IS = "as it is"
    NEAR = "near enough"
    DRAWN = "drawn down"
    UPSET = "upset"
    WELDED = "two welded"


@dataclass(frozen=True, slots=True)
class Turned:
    """A piece as it is then asked (`spec`), how, and what is to be done or comes out otherwise, in words.

    `first`: of a ring the even bar that is drawn before it is bent.
    """

    how: How
    spec: Spec
    first: BarSpec | None = None
    says: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Way:
    """One way to make one copy of a piece from stock that is there.

    `stock`: the piece of the rack, or the two that are welded; `cuts` [m] from each (of sheet none: the nest says).
    `spec`: the piece as it is then asked; `first`: the even bar that is drawn for a ring before it is bent. `heats`,
    `seconds` [s]: more than from the bar that was asked for (of one copy, in its lot); below 0: less. `eats`: what that
    fire and time cost; `buy`: what the asked bar costs to buy (None: not told). `says`: what comes out otherwise;
    `doubt`: what is not known of it that should be before it is heated, or that it never is. `copies`: how many come
    out of it, each cut and the vise's grip counted (of sheet, and of a weld: one).
    """

    how: How
    stock: tuple[Stock, ...]
    cuts: tuple[float, ...]
    spec: Spec
    match: Match = Match.SAME
    first: BarSpec | None = None
    heats: Spread = NO_TIME
    seconds: Spread = NO_TIME
    eats: Money | None = None
    buy: Money | None = None
    says: tuple[str, ...] = ()
    doubt: str = ""
    copies: int = 1

    @property
    def offcut(self) -> bool:
        """Whether all of it is what was left of another."""
        return all(one.offcut for one in self.stock)

    @property
    def buying_is_cheaper(self) -> bool:
        """Whether the fire and time that it eats cost more than the asked bar does."""
        if self.eats is None or self.buy is None or self.eats.currency != self.buy.currency:
            return False
        return self.eats.amount > self.buy.amount


@dataclass(frozen=True, slots=True)
class NoWay:
    """Stock that does not become the piece, all for one reason."""

    stock: tuple[Stock, ...]
    why: str


@dataclass(frozen=True, slots=True)
class PieceWays:
    """All that the rack has for one piece: `copies` of it are wanted, `cut` [m] each of the `asked` section.

    `asked` None, `cut` 0: sheet, or a bar that nothing tells. `ways`: the best first. `none`: what does not become it;
    `heavier`: what may, whose heats are not counted. `says`: why nothing is offered.
    """

    piece: str
    copies: int
    asked: Section | None
    cut: float
    ways: tuple[Way, ...]
    none: tuple[NoWay, ...] = ()
    says: str = ""
    heavier: tuple[Stock, ...] = ()


def replaced(spec: Spec, way: Way) -> Spec:
    """The piece with the stock of a way: what its bar, its steel and its coating are then, and what must be forged."""
    return replace(way.spec, make=spec.make, where=spec.where)


def asked_section(spec: BarSpec | RingSpec) -> Section | None:
    """The bar that a piece is asked of; of `any` bar the biggest section that it tells, None where none is told."""
    if isinstance(spec, RingSpec):
        return spec.wire
    return spec.stock if spec.stock is not None else fattest(spec)


def become(spec: BarSpec | RingSpec, asked: Section, section: Section) -> Turned | str:
    """A piece of `asked` bar from bar of another section; in words why not, where that can be seen at once."""
    stock = turned_as(section, asked)
    if same_bar(stock, asked):
        return Turned(How.AS_IS, replace(spec, stock=asked) if isinstance(spec, BarSpec) else spec)
    if near_bar(stock, asked):
        return _near(spec, asked, stock)
    if isinstance(spec, RingSpec):
        return _ring(spec, asked, stock)
    return _bar(spec, asked, stock)


def _near(spec: BarSpec | RingSpec, asked: Section, stock: Section) -> Turned:
    if isinstance(spec, RingSpec):
        says = f"the bar of the ring is {bar(stock)}, not {bar(asked)}"
        return Turned(How.NEAR, replace(spec, wire=stock), says=(says,))
    new = stood_in(spec, asked, stock)
    return Turned(How.NEAR, new, says=_stands_in(spec, asked, stock))


def _stands_in(spec: BarSpec, asked: Section, stock: Section) -> tuple[str, ...]:
    """What comes out of the other size: the parts that are kept as the bar comes."""
    kept = keeps_the_bar(spec, asked)
    if not kept:
        return ("the finished sizes stay as they are asked for",) if not wants_the_bar(spec, asked) else ()
    names = [f"“{entry.name}”" for entry in kept if entry.name]
    what = " and ".join((", ".join(names[:-1]), names[-1])) if len(names) > 1 else names[0] if names else "what is kept"
    return (f"{what} {'are' if len(names) > 1 else 'is'} {bar(stock)}, not {bar(asked)}",)


def _bar(spec: BarSpec, asked: Section, stock: Section) -> Turned | str:
    if no := _not_at_all(spec, asked, stock):
        return no
    forged = drawn_to(spec, asked, stock)
    if forged is None:
        return "its first stretch leans on the faces of the bar itself (`flush`, `offset`): write its sections out"
    says = (f"{how_drawn(stock, asked)}; its faces are forged",) if wants_the_bar(spec, asked) else ()
    return Turned(How.DRAWN, forged, says=says)


def _not_at_all(spec: BarSpec, asked: Section, stock: Section) -> str:
    """Why a bar will not do, before anything is reckoned; "" where that must be reckoned."""
    if no := never(stock, asked):
        return no
    if area(stock) >= area(asked) * (1 - ALMOST.value):
        return not_drawn(stock, asked) if keeps_the_bar(spec, asked) else ""
    wider = (area(asked) / area(stock)) ** 0.5
    if wider > MOST_UPSET.value and wants_the_bar(spec, asked):
        return f"too thin: {bar(asked)} is {wider:.2f} times as thick"
    return ""


def _ring(spec: RingSpec, asked: Section, stock: Section) -> Turned | str:
    """A ring's bar drawn down even first; a thinner one is not upset all along."""
    if area(stock) < area(asked) * (1 - ALMOST.value):
        return f"too thin: a length of {bar(asked)} is not upset from it"
    if no := not_drawn(stock, asked):
        return no
    even = BarSpec(spec.name, stock, spec.steel, (Metal(0.0, SectionGoal(asked), name="even bar"),), make=spec.make)
    return Turned(How.DRAWN, spec, even, (f"{how_drawn(stock, asked)}, even all along, then cut and bend it",))


def sheet_becomes(spec: SheetSpec, sheet: StockSheet) -> Turned | str:
    """A sheet piece from another sheet: the same gauge, or one near enough to develop the pattern for it anew."""
    off = abs(sheet.thick - spec.thick) / spec.thick if spec.thick > 0.0 else 1.0
    if same_gauge(sheet.thick, spec.thick):
        return Turned(How.AS_IS, spec)
    more = "thicker" if sheet.thick > spec.thick else "thinner"
    if off > NEAR_GAUGE.value:
        return f"it is {off:.0%} {more} than what is asked for"
    says = f"{off:.0%} {more} than what is asked for: the pattern is developed anew for it"
    return Turned(How.NEAR, replace(spec, thick=sheet.thick, gauge=sheet.gauge), says=(says,))


def copies_of(length: float, cut: float, cutting: Cutting) -> int:
    """How many pieces of `cut` [m] come out of a bar: a cut for each but one that ends with the bar."""
    loss = cutting.dress if cutting.hot else cutting.kerf
    room = length - (0.0 if cutting.hot else cutting.grip) + loss
    return max(0, int(room / (cut + loss) + 1e-9)) if cut > 0.0 else 0


def best_first(ways: Sequence[Way]) -> tuple[Way, ...]:
    """As it is first, then by the time it takes; then the very grade, offcuts, short bars. Unknown steel comes last."""
    return tuple(sorted(ways, key=_rank))


def _rank(way: Way) -> tuple[bool, bool, bool, float, Match, bool, float, str]:
    as_is = way.how is How.AS_IS
    long = sum(one.length for one in way.stock if isinstance(one, StockBar))
    seconds = 0.0 if as_is else round(way.seconds.value, 3)
    known = (way.match is Match.UNKNOWN, not as_is, bool(way.doubt))
    return *known, seconds, way.match, not way.offcut, long, way.stock[0].id


def no_room(piece: SheetResult, sheet: StockSheet) -> str:
    """Why the pattern cannot lie on a sheet of odd outline, by metal and size alone; "" where a nest may find room."""
    if sheet.area < sum(p.make * outline_area(p.outline) for p in piece.patterns):
        return "there is less of it than the pattern wants"
    (left, low), (right, high) = bounds(sheet.outline)
    fits = all(fits_in(p.outline, right - left, high - low).fits for p in piece.patterns)
    return "" if fits else "the pattern does not go on it, however it is turned"
