"""The price of one count of sets: each line to the cent, their sum, the margin, and what one set is asked at.

Every line is rounded by itself, so that whoever adds the sheet up by hand finds its sum. What is asked for one set is
reckoned beside them without any rounding, and rounded once, up: so it is never less than what it costs, and a larger
lot is never dearer each for the cents that its lines were rounded by. The lines may so come to some cents more or less.
"""

from collections.abc import Callable, Iterator, Sequence
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
DUST = Decimal("1e-9")
"""So much of the currency is no money: it comes of adding floats of mass and time, and lifts no price over a step."""
To = Callable[[Money], Money]
"""What is done with each amount: rounded to the smallest money, or left as it is."""


def quote_of(asked: Asked) -> Quote:
    """What so many sets cost and should sell for; where the shop tells no price, what could be reckoned is there."""
    lines = _lines(asked, Money.rounded)
    lacks = tuple(dict.fromkeys(says for line in lines for says in line.lacks))
    cost = _sum([line.cost for line in lines if line.what is not Costs.MARGIN], asked.shop)
    if lacks or asked.without:
        return Quote(asked.count, lines, cost, None, None, None, lacks, asked.without)
    exact = _lines(asked, lambda money: money)
    each, low, high = (_each([getattr(line, end) for line in exact], asked) for end in ("cost", "low", "high"))
    return Quote(asked.count, lines, cost, Offer(asked.count, each, each.times(asked.count)), low, high)


def _lines(asked: Asked, to: To) -> tuple[CostLine, ...]:
    """All lines of the price, the margin last."""
    terms, costs = asked.shop.terms, tuple(_costs(asked, to))
    again = [line for line in costs if line.what in AGAIN]
    lines = (*costs, *_share(Costs.FAILED, terms.failed, again, asked.shop, to))
    return (*lines, *_share(Costs.MARGIN, terms.margin, lines, asked.shop, to))


def _costs(asked: Asked, to: To) -> Iterator[CostLine]:
    """Everything that is spent, but for what is made again."""
    terms, count = asked.shop.terms, asked.count
    if asked.metal:
        yield _metal(asked, to)
    if asked.hours.fire.value > 0:
        yield _timed(Costs.FUEL, asked.hours.fire + terms.light, worth.fuel_hour(asked.shop), NO_FIRE, to)
    if asked.hours.work.value > 0:
        yield _timed(Costs.WORK, asked.hours.work, worth.hour(asked.shop), NO_HOUR, to)
    if terms.finish_minutes > 0:
        finish = sharp(terms.finish_minutes * 60.0 * count)
        yield _timed(Costs.FINISHING, finish, worth.hour(asked.shop), NO_HOUR, to)
    for what, amount, times in ((Costs.EACH, terms.each, count), (Costs.FIXED, terms.fixed, 1)):
        money = worth.told(amount, asked.shop)
        if money is not None:
            yield _sharp(CostLine(what, money.times(times), None, None), to)


def _metal(asked: Asked, to: To) -> CostLine:
    """All the metal, and what is lost of it on the way."""
    lost = 1 + exactly(asked.shop.terms.waste)
    mass = sum(one.mass for one in asked.metal)
    lacks = tuple(dict.fromkeys(f"the price of {one.of}" for one in asked.metal if one.cost is None))
    costs = [one.cost.times(1 if one.whole else lost) for one in asked.metal if one.cost is not None]
    money = None if lacks else _sum(costs, asked.shop)
    share = 0.0 if all(one.whole for one in asked.metal) else asked.shop.terms.waste
    prices = tuple(dict.fromkeys(one.price for one in asked.metal if one.price))
    return _sharp(CostLine(Costs.METAL, money, None, None, mass, share=share, prices=prices, lacks=lacks), to)


def _timed(what: Costs, seconds: Spread, hour: Money | None, lacking: str, to: To) -> CostLine:
    """What so much time costs."""
    if hour is None:
        return CostLine(what, None, None, None, seconds=seconds, lacks=(lacking,))
    cost, low, high = (to(hour.times(exactly(getattr(seconds, end)) / worth.HOUR)) for end in ("value", "low", "high"))
    return CostLine(what, cost, low, high, seconds=seconds)


def _share(what: Costs, share: float, lines: Sequence[CostLine], shop: Shop, to: To) -> tuple[CostLine, ...]:
    """A share of what the lines come to; none where it is nothing, no figure where one of them has none."""
    if share == 0.0:
        return ()
    part = exactly(share)
    if any(line.cost is None for line in lines):
        return (CostLine(what, None, None, None, share=share),)
    cost, low, high = (
        to(_sum([getattr(line, end) for line in lines], shop).times(part)) for end in ("cost", "low", "high")
    )
    return (CostLine(what, cost, low, high, share=share),)


def _sharp(line: CostLine, to: To) -> CostLine:
    """A line that does not hang on how fast the work goes."""
    cost = None if line.cost is None else to(line.cost)
    return replace(line, cost=cost, low=cost, high=cost)


def _each(costs: Sequence[Money | None], asked: Asked) -> Money:
    """What one set is asked at: its part of the sum, up to the next step; a sum of nothing but dust is nothing."""
    step = worth.told(asked.shop.terms.round_to, asked.shop)
    total = _sum(costs, asked.shop).times(Fraction(1, asked.count))
    bare = Money(max(Decimal(0), total.amount - DUST), total.currency)
    return bare.raised(step.amount if step is not None and step.amount > 0 else ONE_STEP)


def _sum(costs: Sequence[Money | None], shop: Shop) -> Money:
    total = nothing(shop.currency)
    for cost in costs:
        total = total if cost is None else total + cost
    return total
