"""Other stock of the rack for what is short of its own: offered in words, or planned where that is asked."""

from collections.abc import Iterable, Sequence, Set
from dataclasses import dataclass, replace

from bickern.desk.reckon import Reckoning
from bickern.desk.stock.rows import more_says
from bickern.desk.stock.stock import ways_of
from bickern.making.shop import Shop
from bickern.making.stock.alike import same_section
from bickern.making.stock.become import How, PieceWays, Way
from bickern.making.stock.cuts import Lack, SectionCuts, Solve, plan_section, with_lacks
from bickern.making.stock.rack import Rack, StockBar
from bickern.making.stock.steel_match import Match
from bickern.making.stock.wants import Want
from bickern.measure.finding import Finding, note
from bickern.measure.money import say_money
from bickern.measure.units.say import say_up_both
from bickern.measure.units.words import Style
from bickern.paper.copy import Copy
from bickern.paper.sheets import wording
from bickern.paper.sheets.cut_words import bar_head

MOST_COUNTED = 3
"""Heavier bars whose heats are counted for one piece that is short, the lightest first."""
MOST_SAID = 3
"""Offers that are told for one piece."""


@dataclass(frozen=True, slots=True)
class Offer:
    """For one want that is short, how many, and the ways to make it of bars that the plan leaves alone, best first."""

    lack: Lack
    copy: Copy
    ways: tuple[Way, ...]


def offers(plans: Sequence[SectionCuts], made: Sequence[tuple[str, Copy]], rack: Rack) -> tuple[Offer, ...]:
    """What the rest of the rack has for each piece that is short; `made`: each job by the key of its wants."""
    used = {bar.stock.id for plan in plans for bar in plan.bars}
    rest = Rack(tuple(bar for bar in rack.bars if bar.id not in used))
    return tuple(
        offer
        for plan in plans
        for lack in plan.lacks
        for key, copy in made
        if lack.want.key.startswith(f"{key}/") and (offer := _offer(lack, copy, rest)).ways
    )


def _offer(lack: Lack, copy: Copy, rest: Rack) -> Offer:
    spec = copy.job.piece(lack.want.name)
    if spec is None:  # metal of a joint, a branch that is welded on: a smith sees to these himself
        return Offer(lack, copy, ())
    found: PieceWays = ways_of(Reckoning(copy.job, copy, copy.findings), spec, rest, most=MOST_COUNTED)
    return Offer(lack, copy, tuple(way for way in found.ways if _other(way, lack)))


def _other(way: Way, lack: Lack) -> bool:
    """Whether a way is of another section than the plan has already looked for."""
    return all(isinstance(one, StockBar) for one in way.stock) and way.how is not How.AS_IS


def offers_said(found: Sequence[Offer], style: Style) -> tuple[tuple[str, str], ...]:
    """The key of each want that is short, and an offer in words."""
    return tuple((offer.lack.want.key, _said(way, offer, style)) for offer in found for way in offer.ways[:MOST_SAID])


def _said(way: Way, offer: Offer, style: Style) -> str:
    """`B7, 1/2 in rd, drawn down: 3 of them, 6 1/4 in each; 2 heats and 6 minutes more each`."""
    bars = [one for one in way.stock if isinstance(one, StockBar)]
    heads = " with ".join(bar_head(bar, style).replace("  ", ", ") for bar in bars)
    each = " and ".join(say_up_both(cut, style) for cut in way.cuts)
    many = min(way.copies, offer.lack.count)
    cost = f"its fire and time cost {say_money(way.eats)}" if way.eats is not None else ""
    cheaper = f"buying is cheaper: {say_money(way.buy)}" if way.buying_is_cheaper and way.buy is not None else ""
    told = (f"{heads}, {way.how}: {many} from it, {each} each", more_says(way), *way.says, cost, cheaper)
    return "; ".join(one for one in told if one)


# ---- taken


@dataclass(frozen=True, slots=True)
class _Served:
    """A want that is made of other bar: the offer it came of, the way, and the want as it is then cut.

    That has a key of its own, and counts what is really cut.
    """

    offer: Offer
    way: Way
    want: Want


@dataclass(frozen=True, slots=True)
class _Shared:
    """Bars of one section, all that is cut from them, and the plan for it; `strange`: ids of those of unknown steel."""

    bars: tuple[StockBar, ...]
    strange: frozenset[str]
    served: tuple[_Served, ...]
    plan: SectionCuts


def with_others(
    plans: Sequence[SectionCuts], found: Sequence[Offer], shop: Shop, solve: Solve
) -> tuple[tuple[SectionCuts, ...], tuple[Finding, ...]]:
    """The plans with what is short made of other bars as far as they go, and what is to be said of it.

    Every piece that is short has its turn, and several may share a bar. Two bars that would be welded are offered only:
    where the weld comes to lie is for the smith to see.
    """
    left = {offer.lack.want.key: offer.lack.count for offer in found}
    shared: list[_Shared] = []
    for offer in found:
        shared = _with_offer(offer, shared, left, shop, solve)
    more = (replace(one.plan, lacks=(), buy=(), metres=0.0) for one in shared)
    said = (_told(served, one.plan, shop.style) for one in shared for served in one.served)
    return (*(_less(plan, left, shop, solve) for plan in plans), *more), tuple(f for f in said if f is not None)


def _with_offer(
    offer: Offer, shared: Sequence[_Shared], left: dict[str, int], shop: Shop, solve: Solve
) -> list[_Shared]:
    """The bars with one more want cut from them, the best way first, until nothing of it is short any more."""
    key, done = offer.lack.want.key, list(shared)
    ways = [way for way in offer.ways if len(way.stock) == 1]
    while left[key] > 0 and ways:
        best = ways[0]
        alike = [way for way in ways if _one_cut(way, best)]
        ways = [way for way in ways if not _one_cut(way, best)]
        other = _as_other(offer, best, {served.want.key for one in done for served in one.served})
        for at, one in enumerate(done):
            free = replace(one, bars=_not_cut(one.bars, [each for each in done if each is not one]))
            if left[key] > 0 and _may_share(free, alike):
                done[at] = _beside(free, _of_count(other, left[key]), left, shop, solve)
        if left[key] > 0:
            done += _alone(_of_count(other, left[key]), alike, done, left, shop, solve)
    return done


def _not_cut(bars: Iterable[StockBar], others: Sequence[_Shared]) -> tuple[StockBar, ...]:
    """The bars that nothing of these plans is cut from."""
    cut = {used.stock.id for one in others for used in one.plan.bars}
    return tuple(bar for bar in bars if bar.id not in cut)


def _may_share(one: _Shared, alike: Sequence[Way]) -> bool:
    """Whether a want may be cut from every one of the bars that others are cut from."""
    return {bar.id for bar in one.bars} <= {way.stock[0].id for way in alike}


def _beside(one: _Shared, asked: _Served, left: dict[str, int], shop: Shop, solve: Solve) -> _Shared:
    """A want cut from the bars of others too, as many of it as there is room for; nothing of theirs gives way."""
    many = asked.want.count
    while many > 0:
        every = (*one.served, _of_count(asked, many))
        plan = _planned(every, one.bars, one.strange, shop, solve)
        short = {lack.want.key: lack.count for lack in plan.lacks}
        mine = short.pop(asked.want.key, 0)
        if not short:
            left[asked.offer.lack.want.key] -= many - mine
            return replace(one, served=(*one.served, _of_count(asked, many - mine)), plan=plan) if many > mine else one
        many -= mine + sum(short.values())
    return one


def _alone(
    asked: _Served, alike: Sequence[Way], done: Sequence[_Shared], left: dict[str, int], shop: Shop, solve: Solve
) -> list[_Shared]:
    """A want cut from bars that nothing else is cut from; nothing where there are none, or none has room."""
    bars = _not_cut((bar for way in alike if isinstance(bar := way.stock[0], StockBar)), done)
    if not bars:
        return []
    strange = frozenset(way.stock[0].id for way in alike if way.match is Match.UNKNOWN)
    plan = _planned((asked,), bars, strange, shop, solve)
    short = sum(lack.count for lack in plan.lacks)
    left[asked.offer.lack.want.key] = short
    return [_Shared(bars, strange, (_of_count(asked, asked.want.count - short),), plan)] if plan.bars else []


def _of_count(served: _Served, count: int) -> _Served:
    return replace(served, want=replace(served.want, count=count))


def _planned(
    served: Sequence[_Served], bars: Sequence[StockBar], strange: frozenset[str], shop: Shop, solve: Solve
) -> SectionCuts:
    return plan_section([one.want for one in served], bars, strange, shop.cutting, solve)


def _as_other(offer: Offer, way: Way, keys: Set[str]) -> _Served:
    """The want as it is cut from the other bar: another blank, so its key, and with it its letter, is unlike all."""
    bar, want = way.stock[0], offer.lack.want
    assert isinstance(bar, StockBar)
    key = f"{want.key}, {way.how} from {wording.section(bar.section, Style())}"
    key = f"{key}, {way.cuts[0]:.6f} m" if key in keys else key
    return _Served(offer, way, replace(want, key=key, section=bar.section, length=way.cuts[0], says=str(way.how)))


def _one_cut(way: Way, other: Way) -> bool:
    """Whether two ways cut the same length off bar of the same section."""
    one, two = way.stock[0], other.stock[0]
    same = isinstance(one, StockBar) and isinstance(two, StockBar) and same_section(one.section, two.section)
    return same and abs(way.cuts[0] - other.cuts[0]) < SAME_CUT


SAME_CUT = 1e-6
"""Lengths within this are one [m]."""


def _less(plan: SectionCuts, left: dict[str, int], shop: Shop, solve: Solve) -> SectionCuts:
    """A plan with what is still short of it."""
    if not any(lack.want.key in left for lack in plan.lacks):
        return plan
    now = [replace(lack, count=left.get(lack.want.key, lack.count)) for lack in plan.lacks]
    return with_lacks(plan, [lack for lack in now if lack.count > 0], shop.cutting, solve)


def _told(served: _Served, plan: SectionCuts, style: Style) -> Finding | None:
    """What is made of other bar than its job asks for; None where nothing came of it."""
    count = sum(off.want.key == served.want.key for bar in plan.bars for off in bar.offs)
    if count == 0:
        return None
    what, way = wording.section(plan.section, style), served.way
    says = f"{count} of {served.want.name} {'is' if count == 1 else 'are'} made of {what}: {more_says(way)}"
    way_on = "; ".join((*way.says, "the job's own order of work is for the bar it asks for"))
    return note("made-of-other-stock", says, way_on)
