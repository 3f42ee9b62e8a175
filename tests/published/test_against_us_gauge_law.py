"""Against An Act establishing a standard gauge for sheet and plate iron and steel, 3 March 1893 (27 Stat. 746).

Kind: law. Read in the source (15 USC 206): numbers 7/0 to 21, thickness and weights. Iron at 480 lb a cubic foot. The
thickness of this law is not that of the gauge that steel is sold by today, so it is asked by its thickness. One of 56
weights is a unit off.
"""

import pytest
from shelf import Printed, book, rows

from bickern.iron.gauge import standard_weight
from bickern.measure.units.words import FOOT, POUND, GaugeSystem


@book("us_gauge_law_table")
def test_cell_of_a_table(row: Printed) -> None:
    row.holds()


BY_NUMBER = {
    int(r.row.where.removeprefix("number ")): r.row.value
    for r in rows("us_gauge_law_table")
    if r.row.unit == "lb/ft2" and r.row.where.removeprefix("number ").isdigit()
}
"""Pounds a square foot, by number."""


@pytest.mark.parametrize("number", range(3, 22))
def test_the_weight_of_a_number_is_the_law_s(number: int) -> None:
    """What steel of a number weighs is still the law's, and its thickness follows from that; transcribed."""
    ours = standard_weight(number, GaugeSystem.US)
    assert ours is not None
    assert ours / (POUND / FOOT**2) == pytest.approx(BY_NUMBER[number], abs=1e-9)
