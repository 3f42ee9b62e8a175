"""Against R. Rowlett, How Many? A Dictionary of Units of Measurement, University of North Carolina.

Kind: lesson page. Read in the source: wire gauges 0 to 40. British gauges are tables by nature, so those cells check
that ours were set down rightly; American ones are reckoned here, and are cut off or rounded at four places there: held
to one unit, 17 of 41 lie outside half a unit.
"""

import pytest
from shelf import Printed, book, rows

from bickern.iron.gauge import GAUGES, thickness
from bickern.measure.units.words import INCH, GaugeSystem


@book("rowlett_gauges_table")
def test_cell_of_a_table(row: Printed) -> None:
    row.holds()


NOUGHTS = {
    GaugeSystem.SWG: {-6: 0.500, -5: 0.464, -4: 0.432, -3: 0.400, -2: 0.372, -1: 0.348},
    GaugeSystem.BWG: {-3: 0.454, -2: 0.425, -1: 0.380},
    GaugeSystem.AWG: {-3: 0.4600, -2: 0.4096, -1: 0.3648},
}
"""Inches of 7/0 (here -6) to 2/0 (-1), read."""


@pytest.mark.parametrize("system", NOUGHTS)
def test_numbers_of_several_noughts(system: GaugeSystem) -> None:
    for number, printed in NOUGHTS[system].items():
        ours = thickness(number, system)
        assert ours is not None
        assert ours / INCH == pytest.approx(printed, abs=5e-5)


@pytest.mark.parametrize("system", NOUGHTS)
def test_no_number_of_ours_lacks_its_cell(system: GaugeSystem) -> None:
    """A number that the page does not print would be from memory alone."""
    cells = {r.row.ask.removeprefix("gauge ") for r in rows("rowlett_gauges_table") if r.row.answer == system}
    printed = {int(cell) for cell in cells if cell.isdigit()} | set(NOUGHTS[system])
    assert set(GAUGES[system].metres) <= printed
