"""What more fire and time cost: the price of stock that is "free", only too heavy."""

from bickern.making.shop import Shop
from bickern.making.stock.worth import fuel_hour, hour, hours
from bickern.measure.money import Money
from bickern.measure.spread import Spread


def eaten(seconds: float, shop: Shop) -> Money | None:
    """What so many more seconds of hand and fire cost; None where the shop does not tell both. Never below nothing.

    One of the two alone would pass for the whole, and oversize stock for cheap.
    """
    work, fire = hour(shop), fuel_hour(shop)
    return None if work is None or fire is None else (work + fire).times(hours(max(0.0, seconds)))


def more(now: Spread, before: Spread) -> Spread:
    """How much more one count is than another, end from end: what is out by a factor is out by it in both."""
    value = now.value - before.value
    ends = (now.low - before.low, value, now.high - before.high)
    return Spread(value, min(ends), max(ends), now.why)


def shared(seconds: Spread, copies: int) -> Spread:
    """A lot's seconds for one of its copies."""
    return seconds.times(1 / copies) if copies > 1 else seconds
