"""Which sheets to cut into: the cheapest choices first."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations

from bickern.geometry.pack.shapes.board import Sheet

MOST_SHEETS = 12  # of more sheets than this, not every choice is looked at


@dataclass(frozen=True, slots=True)
class Offer:
    """A choice of sheets (their numbers), what it costs, and what share of their metal the parts would fill."""

    sheets: tuple[int, ...]
    cost: float
    fill: float


def offers(sheets: Sequence[Sheet], need: float) -> tuple[Offer, ...]:
    """Choices of sheets, the cheapest first, of equal ones the smallest; `need` [m2] of metal in the parts."""
    numbers = range(len(sheets))
    if len(sheets) <= MOST_SHEETS:
        chosen = [c for n in numbers for c in combinations(numbers, n + 1)]
    else:
        by_price = sorted(numbers, key=lambda s: (sheets[s].cost / sheets[s].area, -sheets[s].area, s))
        chosen = [tuple(sorted(by_price[: n + 1])) for n in numbers]
    every = [_offer(sheets, choice, need) for choice in chosen]
    return tuple(sorted(every, key=lambda o: (round(o.cost, 9), -o.fill, o.sheets)))


def _offer(sheets: Sequence[Sheet], choice: tuple[int, ...], need: float) -> Offer:
    return Offer(choice, sum(sheets[s].cost for s in choice), need / sum(sheets[s].area for s in choice))
