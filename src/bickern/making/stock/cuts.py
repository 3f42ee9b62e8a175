"""The cut plan for bars: which lengths that jobs want come off which bar of the rack, what is short, what to buy.

Each section and family of steel is a plan of its own. What a plan costs is counted in metres of bar, so that bars that
were never bought at a known price can be weighed against one another: a whole bar counts its length, an offcut a little
less (it goes first), one of steel that nobody knows twice (it goes last), and what comes back as a drop worth keeping
nine tenths of its length. So a plan of low cost loses little to saw and scrap, and cuts into as little as it can.
"""

import math
from collections.abc import Callable, Iterable, Sequence, Set
from dataclasses import dataclass, replace

from bickern.geometry.pack.lengths.asked import Bar, Cut, Saw
from bickern.geometry.pack.lengths.result import Filled, LengthPlan
from bickern.iron.section import Section
from bickern.making.shop import Cutting
from bickern.making.stock.rack import StockBar, Use
from bickern.making.stock.wants import Want
from bickern.making.stock.worth import part_of

OFFCUT_COST, WHOLE_COST, UNKNOWN_COST = 980.0, 1000.0, 2000.0
"""What a metre of an offcut, of a whole bar, and of a bar of unknown steel counts in a plan (our choice)."""
DROP_WORTH = 900.0
"""What a metre of a drop that is kept takes off it (our choice: it is a metre, but not of a whole bar)."""

NANO = 1e-9
"""Plans are made in whole nanometres: lengths that differ by less are one [m]."""


@dataclass(frozen=True, slots=True)
class Off:
    """One length on a bar, from `start` to `end` [m] from the end that is cut first; the saw cuts past `end`."""

    want: Want
    start: float
    end: float


@dataclass(frozen=True, slots=True)
class BarCuts:
    """What comes off one bar of the rack, in order, and the `drop` [m] that is left; `kept`: it is worth keeping.

    `tight`: it is too full for every mark to go up to the tape's next (see `marked`).
    """

    stock: StockBar
    offs: tuple[Off, ...]
    drop: float
    kept: bool
    tight: bool = False


@dataclass(frozen=True, slots=True)
class Lack:
    """A want that no bar is left for, and how many of it."""

    want: Want
    count: int


@dataclass(frozen=True, slots=True)
class Buy:
    """Bars to buy for what is short: `count` of `length` [m], as the dealer sells them."""

    length: float
    count: int


@dataclass(frozen=True, slots=True)
class SectionCuts:
    """The plan for one section and one family of steel (`steel`: as the first want names it).

    `buy`: for what is short, where the dealer's lengths are told; `metres` of bar for it in any case, kerfs counted.
    `cost`, `bound`, `proven`, `why`: as of a plan for lengths; `spared` [m]: how much less bar (as it is weighed) a
    better plan could lose at most, 0 where none can.
    """

    section: Section
    steel: str
    bars: tuple[BarCuts, ...]
    lacks: tuple[Lack, ...]
    buy: tuple[Buy, ...]
    metres: float
    cost: float
    bound: float
    proven: bool
    why: str = ""

    @property
    def spared(self) -> float:
        """How much less bar any other plan with as few short could lose, at most [m], as bar is weighed here."""
        return 0.0 if self.proven else max(0.0, self.cost - self.bound) / WHOLE_COST


Solve = Callable[[Sequence[Cut], Sequence[Bar], Saw], LengthPlan]
"""What shares cuts out over bars: the packing room's plan, with its limits already in it."""


def saw_of(cutting: Cutting) -> Saw:
    """How this shop cuts: a hot cut loses no kerf."""
    kerf = 0.0 if cutting.hot else cutting.kerf
    return Saw(kerf, cutting.grip, cutting.least_drop, DROP_WORTH if cutting.least_drop > 0 else 0.0)


def length_of(want: Want, cutting: Cutting) -> float:
    """What is cut for a want [m]: cut hot, its ragged end is dressed off as well."""
    return want.length + (cutting.dress if cutting.hot else 0.0)


def plan_section(
    wants: Sequence[Want], bars: Sequence[StockBar], unknown: frozenset[str], cutting: Cutting, solve: Solve
) -> SectionCuts:
    """The plan for wants of one section and metal from these bars; `unknown`: ids of bars whose steel nobody knows."""
    saw, by_key, by_id = saw_of(cutting), {want.key: want for want in wants}, {bar.id: bar for bar in bars}
    asked = [Cut(want.key, length_of(want, cutting), want.count) for want in wants]
    there = [Bar(bar.id, bar.length, 1, bar.length * _rate(bar, unknown)) for bar in bars]
    plan = solve(asked, there, saw)
    cut = tuple(_bar_cuts(by_id[one.bar], one, by_key, cutting) for one in plan.filled)
    short = [Lack(by_key[key], count) for key, count in plan.short if count > 0]
    lacks = tuple(sorted(short, key=lambda one: -one.want.length))
    buy, metres = _to_buy(lacks, cutting, solve)
    in_order = tuple(sorted(cut, key=lambda one: (one.stock.place, _natural(one.stock.id))))
    first = wants[0]
    return SectionCuts(
        first.section, first.steel, in_order, lacks, buy, metres, plan.cost, plan.bound, plan.proven, plan.why
    )


def plan_beside(
    whole: SectionCuts,
    wants: Sequence[Want],
    bars: Sequence[StockBar],
    unknown: frozenset[str],
    cutting: Cutting,
    solve: Solve,
    taken: Set[str],
) -> SectionCuts:
    """The plan `whole`, where other cuts of the same plan have `taken` some of these bars (ids) already.

    A plan that wants one of them is made again without, and is then not proven: the bars might be shared out better.
    """
    lost = sorted((bar.stock.id for bar in whole.bars if bar.stock.id in taken), key=_natural)
    if not lost:
        return whole
    plan = plan_section(wants, [bar for bar in bars if bar.id not in taken], unknown, cutting, solve)
    why = f"{', '.join(lost)} would serve too, and goes to other cuts of this plan"
    return replace(plan, bound=min(whole.bound, plan.cost), proven=False, why=why)


def _rate(bar: StockBar, unknown: frozenset[str]) -> float:
    """What a metre of this bar counts."""
    if bar.id in unknown:
        return UNKNOWN_COST
    return OFFCUT_COST if bar.offcut else WHOLE_COST


def _natural(name: str) -> tuple[str, int]:
    """B9 before B12."""
    head = name.rstrip("0123456789")
    return head, int(name[len(head) :] or 0)


def _bar_cuts(stock: StockBar, filled: Filled, wants: dict[str, Want], cutting: Cutting) -> BarCuts:
    """One bar's cuts with where each begins and ends; alike ones together, the longest first."""
    kerf = saw_of(cutting).kerf
    offs, at = [], 0.0
    for key in filled.cuts:
        end = at + length_of(wants[key], cutting)
        offs.append(Off(wants[key], at, min(end, stock.length)))
        at = end + kerf
    kept = cutting.least_drop > 0 and filled.drop >= cutting.least_drop - NANO
    return BarCuts(stock, tuple(offs), filled.drop, kept)


def marked(plan: SectionCuts, cutting: Cutting, step: float) -> SectionCuts:
    """The plan with every length ending on a mark of a tape (`step` [m] apart), and what is then left of each bar.

    A bar without room for that, or whose drop would then be too short to keep, stays as it was planned, and `tight`.
    """
    return replace(plan, bars=tuple(_marked(one, cutting, step) for one in plan.bars))


def _marked(cut: BarCuts, cutting: Cutting, step: float) -> BarCuts:
    ends, kerf = _chain(cut, cutting, step), saw_of(cutting).kerf
    if not ends:
        return replace(cut, tight=bool(cut.offs))
    drop = max(0.0, cut.drop - (ends[-1] - cut.offs[-1].end))
    if cut.kept and drop < cutting.least_drop - NANO:
        return replace(cut, tight=True)
    starts = (0.0, *(end + kerf for end in ends))
    offs = (Off(off.want, start, end) for off, start, end in zip(cut.offs, starts, ends, strict=False))
    return replace(cut, offs=tuple(offs), drop=drop)


def _chain(cut: BarCuts, cutting: Cutting, step: float) -> tuple[float, ...]:
    """Each length up to the next mark past the one before it, the kerf and itself; () where the bar ends sooner."""
    saw, at, ends = saw_of(cutting), 0.0, []
    for off in cut.offs:
        ends.append(_up(max(off.end, at + length_of(off.want, cutting)), step))
        at = ends[-1] + saw.kerf
    return tuple(ends) if ends and ends[-1] <= cut.stock.length - saw.grip + NANO else ()


def running(cut: BarCuts, cutting: Cutting, step: float) -> tuple[float, ...]:
    """The marks [m] to make on a bar with a tape of this `step` [m], told from the end that is cut first.

    No piece comes short by them, on whatever tape: each is told past the one before as that is told. Of a bar too full
    for it, they are the next marks past the true ends.
    """
    ends = () if cut.tight else _chain(cut, cutting, step)
    return ends or tuple(_up(off.end, step) for off in cut.offs)


def _up(length: float, step: float) -> float:
    """The next mark at or above a length [m]."""
    return math.ceil(length / step - _DUST) * step


_DUST = 1e-6
"""Shares of a step that are rounding dust of the reckoning."""


def _to_buy(lacks: Sequence[Lack], cutting: Cutting, solve: Solve) -> tuple[tuple[Buy, ...], float]:
    """Bars to buy for what is short, of the dealer's lengths, and how many metres the short cuts want in any case."""
    saw = saw_of(cutting)
    metres = sum(one.count * (length_of(one.want, cutting) + saw.kerf) for one in lacks)
    if not lacks or not cutting.lengths:
        return (), metres
    asked = [Cut(one.want.key, length_of(one.want, cutting), one.count) for one in lacks]
    sold = {f"{number}": length for number, length in enumerate(sorted(set(cutting.lengths)))}
    plan = solve(asked, [Bar(key, length, None, length * WHOLE_COST) for key, length in sold.items()], saw)
    counts = {key: sum(one.bar == key for one in plan.filled) for key in sold}
    return tuple(Buy(sold[key], count) for key, count in counts.items() if count), metres


def with_lacks(plan: SectionCuts, lacks: Sequence[Lack], cutting: Cutting, solve: Solve) -> SectionCuts:
    """The same plan where only these are short any more, since the others are made of other bars."""
    buy, metres = _to_buy(lacks, cutting, solve)
    return replace(plan, lacks=tuple(lacks), buy=buy, metres=metres)


def too_long_to_buy(plan: SectionCuts, cutting: Cutting) -> tuple[Want, ...]:
    """Short wants that no length the dealer sells is long enough for."""
    room = max(cutting.lengths, default=0.0) - cutting.grip
    return tuple(one.want for one in plan.lacks if cutting.lengths and length_of(one.want, cutting) > room + NANO)


def uses_of(plans: Iterable[SectionCuts], told: Callable[[Off], str]) -> tuple[Use, ...]:
    """What taking these plans takes out of the rack; `told` words a cut for the rack's own history."""
    return tuple(
        Use(one.stock.id, one.stock.version, tuple(told(off) for off in one.offs), drop_of(one))
        for plan in plans
        for one in plan.bars
    )


def drop_of(cut: BarCuts) -> tuple[StockBar, ...]:
    """The drop as it goes back into the rack, without an id: none where it is not worth keeping."""
    if not cut.kept:
        return ()
    stock = cut.stock
    price = part_of(stock.price, cut.drop, stock.length).rounded() if stock.price else None
    drop = StockBar(
        "", stock.section, cut.drop, stock.steel, stock.coating, stock.place, price, True, stock.id, stock.remark
    )
    return (drop,)
