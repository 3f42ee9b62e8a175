"""The price of one count of sets: each line to the cent, their sum, the margin, and what one set is asked at.

Every line is rounded by itself, so that whoever adds the sheet up by hand finds its sum. What is asked for one set is
rounded up: it is never less than what it costs.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from decimal import Decimal
from fractions import Fraction

from bickern.making.quote.asked import Asked
from bickern.making.quote.result import CostLine, Costs, Offer, Quote
from bickern.making.shop import Shop
from bickern.making.stock import worth
from bickern.measure.money import Money, exactly, nothing
from bickern.measure.spread import Spread, sharp

NO_HOUR = "the price of an hour of work"
NO_FIRE = "the price of an hour of fire"
AGAIN = (Costs.METAL, Costs.FUEL, Costs.WORK, Costs.FINISHING)
"""What is spent once more where work is made again."""
ONE_STEP = Decimal(1)


def quote_of(asked: Asked) -> Quote:
    """What so many sets cost and should sell for; where the shop tells no price, what could be reckoned is there."""
    costs = tuple(_costs(asked))
    lines = (*costs, *_share(Costs.FAILED, asked.shop.terms.failed, [c for c in costs if c.what in AGAIN], asked.shop))
    lines = (*lines, *_share(Costs.MARGIN, asked.shop.terms.margin, lines, asked.shop))
    lacks = tuple(dict.fromkeys(says for line in lines for says in line.lacks))
    cost = _sum([line.cost for line in lines if line.what is not Costs.MARGIN], asked.shop)
    if lacks or asked.without:
        return Quote(asked.count, lines, cost, None, None, None, lacks, asked.without)
    each, low, high = (_each([getattr(line, end) for line in lines], asked) for end in ("cost", "low", "high"))
    return Quote(asked.count, lines, cost, Offer(asked.count, each, each.times(asked.count)), low, high)


def _costs(asked: Asked) -> Iterator[CostLine]:
    """Everything that is spent, but for what is made again."""
    terms, count = asked.shop.terms, asked.count
    if asked.metal:
        yield _metal(asked)
    if asked.hours.fire.value > 0:
        yield _timed(Costs.FUEL, asked.hours.fire + terms.light, worth.fuel_hour(asked.shop), NO_FIRE)
    if asked.hours.work.value > 0:
        yield _timed(Costs.WORK, asked.hours.work, worth.hour(asked.shop), NO_HOUR)
    if terms.finish_minutes > 0:
        finish = sharp(terms.finish_minutes * 60.0 * count)
        yield _timed(Costs.FINISHING, finish, worth.hour(asked.shop), NO_HOUR)
    for what, amount, times in ((Costs.EACH, terms.each, count), (Costs.FIXED, terms.fixed, 1)):
        money = worth.told(amount, asked.shop)
        if money is not None:
            yield _sharp(CostLine(what, money.times(times), None, None))


def _metal(asked: Asked) -> CostLine:
    """All the metal, and what is lost of it on the way."""
    lost = 1 + exactly(asked.shop.terms.waste)
    mass = sum(one.mass for one in asked.metal)
    lacks = tuple(dict.fromkeys(f"the price of {one.of}" for one in asked.metal if one.cost is None))
    costs = [one.cost.times(1 if one.whole else lost) for one in asked.metal if one.cost is not None]
    money = None if lacks else _sum(costs, asked.shop)
    share = 0.0 if all(one.whole for one in asked.metal) else asked.shop.terms.waste
    prices = tuple(dict.fromkeys(one.price for one in asked.metal if one.price))
    return _sharp(CostLine(Costs.METAL, money, None, None, mass, share=share, prices=prices, lacks=lacks))


def _timed(what: Costs, seconds: Spread, hour: Money | None, lacking: str) -> CostLine:
    """What so much time costs."""
    if hour is None:
        return CostLine(what, None, None, None, seconds=seconds, lacks=(lacking,))
    cost, low, high = (hour.times(worth.hours(getattr(seconds, end))).rounded() for end in ("value", "low", "high"))
    return CostLine(what, cost, low, high, seconds=seconds)


def _share(what: Costs, share: float, lines: Sequence[CostLine], shop: Shop) -> tuple[CostLine, ...]:
    """A share of what the lines come to; none where it is nothing, no figure where one of them has none."""
    if share == 0.0:
        return ()
    part = exactly(share)
    if any(line.cost is None for line in lines):
        return (CostLine(what, None, None, None, share=share),)
    cost, low, high = (
        _sum([getattr(line, end) for line in lines], shop).times(part).rounded() for end in ("cost", "low", "high")
    )
    return (CostLine(what, cost, low, high, share=share),)


def _sharp(line: CostLine) -> CostLine:
    """A line that does not hang on how fast the work goes, to the cent."""
    cost = None if line.cost is None else line.cost.rounded()
    return replace(line, cost=cost, low=cost, high=cost)


def _each(costs: Sequence[Money | None], asked: Asked) -> Money:
    """What one set is asked at: its part of the sum, up to the next step."""
    step = worth.told(asked.shop.terms.round_to, asked.shop)
    total = _sum(costs, asked.shop).times(Fraction(1, asked.count))
    return total.raised(step.amount if step is not None and step.amount > 0 else ONE_STEP)


def _sum(costs: Sequence[Money | None], shop: Shop) -> Money:
    total = nothing(shop.currency)
    for cost in costs:
        total = total if cost is None else total + cost
    return total
