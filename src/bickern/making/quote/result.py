"""A price and how it comes about; and what of it a customer is told."""

from dataclasses import dataclass
from enum import StrEnum

from bickern.making.work.result import NO_TIME
from bickern.measure.money import Money
from bickern.measure.spread import Spread


class Costs(StrEnum):
    """What a line of a price is for."""

    METAL = "metal"
    FUEL = "fuel"
    WORK = "work"
    FINISHING = "finishing"
    EACH = "each set"
    FIXED = "once a job"
    FAILED = "made again"
    MARGIN = "margin"


@dataclass(frozen=True, slots=True)
class CostLine:
    """One line of a price for all the sets, to the cent; `low` and `high` by the spread of the time.

    `cost` None: the shop does not tell what it takes to reckon it, which is `lacks` in words. `mass` [kg], `seconds`,
    `share` and `prices` (as written) are what it was reckoned from, where there is such a thing.
    """

    what: Costs
    cost: Money | None
    low: Money | None
    high: Money | None
    mass: float = 0.0
    seconds: Spread = NO_TIME
    share: float = 0.0
    prices: tuple[str, ...] = ()
    lacks: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Offer:
    """All that a customer is told: so many sets at so much each, so much in all."""

    count: int
    each: Money
    whole: Money


@dataclass(frozen=True, slots=True)
class Quote:
    """What `count` sets cost and should sell for. `cost`: the sum of what could be reckoned, without the margin.

    `offer` None where a price is not told (`lacks`, in words) or a piece's time is not known (`without`). `low`,
    `high`: the price of one set, had all the work gone as fast or as slow as it may (None with the offer).
    """

    count: int
    lines: tuple[CostLine, ...]
    cost: Money
    offer: Offer | None
    low: Money | None
    high: Money | None
    lacks: tuple[str, ...] = ()
    without: tuple[str, ...] = ()

    def line(self, what: Costs) -> CostLine | None:
        """The line for that, if there is one."""
        return next((line for line in self.lines if line.what is what), None)
