"""What more fire and time cost: the price of stock that is "free", only too heavy."""

from fractions import Fraction

from bickern.making.shop import Shop
from bickern.making.stock.worth import fuel_hour, hour
from bickern.measure.money import Money
from bickern.measure.spread import Spread

_HOUR = 3600
_MILLI = 1000


def eaten(seconds: float, shop: Shop) -> Money | None:
    """What so many more seconds of hand and fire cost; None where the shop tells neither price. Never below nothing.

    Money is never multiplied by a float: the seconds are taken to the nearest thousandth.
    """
    hours = Fraction(max(0, round(seconds * _MILLI)), _MILLI * _HOUR)
    prices = [price.times(hours) for price in (hour(shop), fuel_hour(shop)) if price is not None]
    if not prices:
        return None
    return prices[0] + prices[1] if len(prices) > 1 else prices[0]


def more(now: Spread, before: Spread) -> Spread:
    """How much more one count is than another, end from end: what is out by a factor is out by it in both."""
    value = now.value - before.value
    ends = (now.low - before.low, value, now.high - before.high)
    return Spread(value, min(ends), max(ends), now.why)


def shared(seconds: Spread, copies: int) -> Spread:
    """A lot's seconds for one of its copies."""
    return seconds.times(1 / copies) if copies > 1 else seconds
