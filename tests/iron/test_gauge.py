"""Gauge numbers: each in its own system, and what is said when none is named."""

import pytest

from bickern.iron.gauge import GAUGES, nearest, resolve, thickness
from bickern.measure.finding import Weight
from bickern.measure.units.words import INCH, GaugeSystem, GaugeWords


@pytest.mark.parametrize("system", list(GaugeSystem))
def test_every_system_has_a_source_and_thins_with_its_number(system: GaugeSystem) -> None:
    table = GAUGES[system]
    sizes = [table.metres[n] for n in sorted(table.metres)]
    assert sizes == sorted(set(sizes), reverse=True)
    assert table.source.title
    assert table.of


@pytest.mark.parametrize("system", list(GaugeSystem))
def test_nearest_finds_every_row_again(system: GaugeSystem) -> None:
    for number, metres in GAUGES[system].metres.items():
        assert nearest(metres * 1.001, system) == (number, metres)


def test_a_number_with_its_system_is_that_thickness() -> None:
    assert resolve(GaugeWords(16, GaugeSystem.SWG)).value == pytest.approx(0.064 * INCH)
    assert resolve(GaugeWords(16, GaugeSystem.SWG)).findings == ()


def test_a_number_without_a_system_says_each_thickness() -> None:
    read = resolve(GaugeWords(16, None), GaugeSystem.US)
    assert read.value == pytest.approx(0.0598 * INCH)
    says = read.findings[0].says
    assert all(t in says for t in ("0.0598", "0.0640", "0.0650"))
    assert read.findings[0].weight is Weight.NOTE


def test_a_number_that_differs_much_is_a_warning() -> None:
    # 5 ga: 0.2092 in of US sheet, 0.212 SWG, 0.220 BWG; 26 ga from the SWG side: 0.0180 against 0.0179
    assert resolve(GaugeWords(26, None), GaugeSystem.US).findings == ()
    assert resolve(GaugeWords(20, None), GaugeSystem.US).findings == ()
    assert resolve(GaugeWords(19, None), GaugeSystem.SWG).findings[0].weight is Weight.NOTE
    assert resolve(GaugeWords(32, None), GaugeSystem.BWG).findings[0].weight is Weight.WARN


def test_coated_sheet_is_taken_as_galvanised_in_a_us_shop() -> None:
    assert resolve(GaugeWords(16, None), GaugeSystem.US, coated=True).value == thickness(16, GaugeSystem.GALVANISED)
    assert resolve(GaugeWords(16, None), GaugeSystem.SWG, coated=True).value == thickness(16, GaugeSystem.SWG)


@pytest.mark.parametrize(
    ("number", "system"), [(99, None), (2, GaugeSystem.US), (40, GaugeSystem.BWG), (4, GaugeSystem.GALVANISED)]
)
def test_no_such_gauge_is_a_finding(number: int, system: GaugeSystem | None) -> None:
    read = resolve(GaugeWords(number, system))
    assert read.value is None
    assert read.findings[0].name == "no-such-gauge"
