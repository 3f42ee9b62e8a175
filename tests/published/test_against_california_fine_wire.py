"""Against California Fine Wire Company, Wire Gauge Conversions Chart, calfinewire.com.

Kind: maker's page. Read in the source: the column of US standard sheet, numbers 24 to 36. It has the thickness of
steel (41.82 lb a square foot and inch) up to number 30 and that of iron by the law of 1893 (40 lb) from 31 on, so those
tell the ounces of a number. Left out: its other columns, which print what other tables print; number 30 of AWG is
misprinted there (.0103).
"""

import pytest
from shelf import Printed, book

from bickern.iron.gauge import standard_weight
from bickern.measure.units.words import FOOT, POUND, GaugeSystem

OF_IRON = [(31, 0.0109), (32, 0.0102), (33, 0.0094), (34, 0.0086), (35, 0.0078), (36, 0.0070)]
"""Number, inches of iron (read)."""


@book("california_fine_wire_table")
def test_cell_of_a_table(row: Printed) -> None:
    row.holds()


@pytest.mark.parametrize(("number", "inches"), OF_IRON)
def test_ounces_by_the_thickness_of_iron(number: int, inches: float) -> None:
    """Exact mathematics: iron of 480 lb a cubic foot is 640 oz a square foot and inch; half a unit is 0.032 oz."""
    ours = standard_weight(number, GaugeSystem.US)
    assert ours is not None
    assert ours / (POUND / 16 / FOOT**2) == pytest.approx(640 * inches, abs=640 * 5e-5)
