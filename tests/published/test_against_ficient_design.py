"""Against Ficient Design (ficientdesign.com), material stock: sheet metal gauge chart.

Kind: trade page. Read in the source: sheet steel 3 to 38, strip and tubing (Birmingham) 4/0 to 36, aluminium (American)
4/0 to 38, four places of an inch and three. Left out: the stainless column, which is the law of 1893, and numbers above
4/0, which are not known here.
"""

import pytest
from shelf import Printed, book, rows

from bickern.iron.gauge import GAUGES, gauge_called
from bickern.measure.units.words import GaugeSystem


@book("ficient_design_table")
def test_cell_of_a_table(row: Printed) -> None:
    row.holds()


@pytest.mark.parametrize("system", [GaugeSystem.BWG, GaugeSystem.AWG])
def test_numbers_above_nought_are_called_as_the_chart_calls_them(system: GaugeSystem) -> None:
    """Found by their thickness, each number of ours has the name that is printed beside it."""
    named = {
        r.row.where.removeprefix("number "): (r.row.least, r.row.most)
        for r in rows("ficient_design_table")
        if f"ga {system}" in r.row.ask
    }
    for name, (least, most) in named.items():
        (number,) = (n for n, t in GAUGES[system].metres.items() if least <= t / 0.0254 <= most)
        assert gauge_called(number) == name
