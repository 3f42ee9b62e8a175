"""Against Steel Market Update (steelmarketupdate.com), on where sheet gauges come from.

Kind: trade page. Read in the source. Iron at 480 lb a cubic foot, by the law of 1893.
"""

from itertools import pairwise

import pytest
from shelf import Printed, book

from bickern.iron.gauge import standard_weight
from bickern.measure.units.words import FOOT, POUND, GaugeSystem


@book("steel_market_update")
def test_figure(row: Printed) -> None:
    row.holds()


STEPS = [
    (range(3, 15), 10.0),
    (range(14, 17), 5.0),
    (range(16, 21), 4.0),
    (range(20, 27), 2.0),
    (range(26, 32), 1.0),
    (range(31, 37), 0.5),
    (range(36, 39), 0.25),
]
"""Numbers, and by how many ounces each is lighter than the one before: the law of 1893, quoted."""


def ounces(number: int) -> float:
    """Ours [oz/ft2]."""
    weight = standard_weight(number, GaugeSystem.US)
    assert weight is not None
    return weight / (POUND / 16 / FOOT**2)


@pytest.mark.parametrize(("numbers", "step"), STEPS)
def test_numbers_are_a_step_apart(numbers: range, step: float) -> None:
    """Transcribed. With the law's own 160 ounces of number 3 (read there) the steps give every weight of ours."""
    assert [ounces(a) - ounces(b) for a, b in pairwise(numbers)] == pytest.approx([step] * (len(numbers) - 1))
