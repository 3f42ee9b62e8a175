"""What is left of the first piece's time when many are made: each doubling of the count takes the same share off.

The n-th piece takes n^b of the first one's time, b = log2(share left at each doubling): the unit curve. T. P. Wright's
curve (Factors affecting the cost of airplanes, 1936) speaks of the average of all so far and not of the n-th; the unit
curve is the one that later tables print and that a smith can see on the clock.
"""

import math
from functools import cache

from bickern.measure.source import Kind, Source

SOURCE = Source(
    "", "unit learning curve, as tables of operations management print it", None, "n^log2(share)", Kind.HANDBOOK
)
"""The share itself has no default but 1: nobody learns until the shop's own times say so."""


def unit(number: int, share: float) -> float:
    """Time of the `number`-th piece as a share of the first; `share` is left at each doubling (1: never learns)."""
    return float(number ** math.log2(share))


@cache
def together(count: int, share: float) -> float:
    """Time of the first `count` pieces, in times of the first one."""
    if share == 1.0:
        return float(count)
    return math.fsum(unit(number, share) for number in range(1, count + 1))


def average(count: int, share: float, before: int = 0) -> float:
    """Time of one of `count` pieces that come after `before` others, as a share of the very first one's."""
    return (together(before + count, share) - together(before, share)) / count if count > 0 else 1.0
