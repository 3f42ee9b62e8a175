"""Other stock of the rack for what is short of its own: offered in words, or planned where that is asked."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from bickern.desk.reckon import Reckoning
from bickern.desk.stock import ways_of
from bickern.desk.stock_rows import more_says
from bickern.making.shop import Shop
from bickern.making.stock.alike import same_section
from bickern.making.stock.become import How, PieceWays, Way
from bickern.making.stock.cuts import Lack, SectionCuts, Solve, plan_section, with_lacks
from bickern.making.stock.rack import Rack, StockBar
from bickern.making.stock.steel_match import Match
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


def with_others(
    plans: Sequence[SectionCuts], found: Sequence[Offer], shop: Shop, solve: Solve
) -> tuple[tuple[SectionCuts, ...], tuple[Finding, ...]]:
    """The plans with what is short made of other bars as far as they go, and what is to be said of it.

    Two bars that would be welded are offered only: where the weld comes to lie is for the smith to see.
    """
    left = {offer.lack.want.key: offer.lack.count for offer in found}
    used: set[str] = set()
    more: list[SectionCuts] = []
    said: list[Finding] = []
    for offer in found:
        for way, plan in _plans(offer, left, used, shop, solve):
            more.append(plan)
            used |= {bar.stock.id for bar in plan.bars}
            said.append(_told(offer, way, plan, shop.style))
    return (*(_less(plan, left, shop, solve) for plan in plans), *more), tuple(said)


def _plans(
    offer: Offer, left: dict[str, int], used: set[str], shop: Shop, solve: Solve
) -> Iterator[tuple[Way, SectionCuts]]:
    """A plan for each other section, the best way first, until nothing is short any more."""
    want = offer.lack.want
    ways = [way for way in offer.ways if len(way.stock) == 1 and way.stock[0].id not in used]
    while left[want.key] > 0 and ways:
        best = ways[0]
        alike = [way for way in ways if _one_cut(way, best)]
        ways = [way for way in ways if not _one_cut(way, best)]
        bars = [one for way in alike if isinstance(one := way.stock[0], StockBar)]
        strange = frozenset(way.stock[0].id for way in alike if way.match is Match.UNKNOWN)
        other = replace(want, section=bars[0].section, length=best.cuts[0], count=left[want.key], says=str(best.how))
        plan = plan_section([other], bars, strange, shop.cutting, solve)
        if plan.bars:
            left[want.key] = sum(lack.count for lack in plan.lacks)
            yield best, replace(plan, lacks=(), buy=(), metres=0.0)


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


def _told(offer: Offer, way: Way, plan: SectionCuts, style: Style) -> Finding:
    count = sum(len(bar.offs) for bar in plan.bars)
    what = wording.section(plan.section, style)
    says = f"{count} of {offer.lack.want.name} {'is' if count == 1 else 'are'} made of {what}: {more_says(way)}"
    way_on = "; ".join((*way.says, "the job's own order of work is for the bar it asks for"))
    return note("made-of-other-stock", says, way_on)
