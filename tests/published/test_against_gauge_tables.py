"""Gauge thicknesses that other people printed, in inches. Certainty stands beside each row.

Tolerance is half a unit in the last printed place. `table` names the source:

- MH31: E. Oberg et al., Machinery's Handbook, 31st ed., 2020, p. 1453 table 20 (thickness); read in the source.
- CHART: a maker's chart of galvanised and 10 gauge sheet; quoted by a secondary page.
- LON: E. M. Longfield, Sheet Metal Drafting, 1921, p. 102 problem 25A; read in the source.
- HOL: Rivington's series, Building Construction vol. 3: Imperial S.W.G. and Holtzapffel's B.W.G.; read in the source.
- HASW: C. H. Haswell's table of the Brown & Sharpe gauge, in The Metal Worker's Assistant; read in the source.
- ASH: Ashmore & Allen data sheet of British sheet, mm; quoted by a secondary page.

The tables of US, galvanised and American wire gauge are reckoned here from the standard's own rule, so these rows are
checks of it. S.W.G. and B.W.G. are tables by nature: their even rows check that they were set down rightly, no more.
"""

import pytest

from bickern.iron.gauge import thickness
from bickern.measure.units.words import INCH, GaugeSystem

US, ZINC, SWG, BWG, AWG = (
    GaugeSystem.US, GaugeSystem.GALVANISED, GaugeSystem.SWG, GaugeSystem.BWG, GaugeSystem.AWG,
)  # fmt: skip

ROWS = [
    *[("MH31, read in the source", US, n, t, 5e-5) for n, t in (
        (8, 0.1644), (11, 0.1196), (12, 0.1046), (14, 0.0747), (16, 0.0598), (18, 0.0478), (20, 0.0359), (22, 0.0299),
        (24, 0.0239), (26, 0.0179))],
    ("CHART, quoted by a secondary page", US, 10, 0.1345, 5e-5),
    *[("CHART, quoted by a secondary page", ZINC, n, t, 5e-5) for n, t in (
        (10, 0.1382), (12, 0.1084), (14, 0.0785), (16, 0.0635), (18, 0.0516), (20, 0.0396), (22, 0.0336),
        (24, 0.0276))],
    *[("HOL, read in the source", BWG, n, t, 5e-4) for n, t in (
        (8, 0.165), (10, 0.134), (12, 0.109), (14, 0.083), (16, 0.065), (18, 0.049), (20, 0.035), (22, 0.028),
        (24, 0.022),
        (26, 0.018))],
    *[("HOL, read in the source", SWG, n, t, 5e-4) for n, t in (
        (8, 0.160), (10, 0.128), (12, 0.104), (14, 0.080), (16, 0.064), (18, 0.048), (20, 0.036), (22, 0.028),
        (24, 0.022),
        (26, 0.018))],
    *[("HASW, read in the source", AWG, n, t, 2e-5) for n, t in (
        (8, 0.12849), (10, 0.10189), (12, 0.080808), (14, 0.064084), (16, 0.05082), (18, 0.0403), (20, 0.03196))],
    *[("ASH, quoted by a secondary page", SWG, n, mm / 25.4, 0.005 / 25.4) for n, mm in (
        (4, 5.89), (7, 4.47), (10, 3.25), (11, 2.95), (13, 2.34), (15, 1.83), (16, 1.63), (17, 1.42),
        (20, 0.91), (22, 0.71), (23, 0.61), (24, 0.56), (25, 0.51), (26, 0.46))],
    # 18 is 1.2192, printed 1.21, and 5 is 5.3848, printed 5.39: a whole unit for each
    *[("ASH, quoted by a secondary page", SWG, n, mm / 25.4, 0.01 / 25.4) for n, mm in ((5, 5.39), (18, 1.21))],
    *[("MH31, read in the source", US, n, t, 5e-5) for n, t in (
        (3, 0.2391), (4, 0.2242), (6, 0.1943), (9, 0.1495), (15, 0.0673), (17, 0.0538), (19, 0.0418), (21, 0.0329),
        (23, 0.0269))],
    *[("CHART, quoted by a secondary page", ZINC, n, t, 5e-5) for n, t in (
        (8, 0.1681), (9, 0.1532), (11, 0.1233), (13, 0.0934), (15, 0.0710), (17, 0.0575), (23, 0.0306), (25, 0.0247),
        (26, 0.0217))],
    *[("HASW, read in the source", AWG, n, t, 1e-5) for n, t in ((9, 0.11443), (11, 0.090742), (15, 0.057068))],
    # its millimetres are its own inches times 25.4, to three places: half a ten-thousandth of an inch and half a micron
    *[("MH31, read in the source", US, n, mm / 25.4, 5e-5 + 5e-4 / 25.4) for n, mm in (
        (5, 5.314), (6, 4.935), (8, 4.176), (12, 2.657), (14, 1.897), (16, 1.519), (18, 1.214), (22, 0.759))],
]  # fmt: skip


@pytest.mark.parametrize(("source", "system", "number", "inches", "tolerance"), ROWS)
def test_printed_thickness(source: str, system: GaugeSystem, number: int, inches: float, tolerance: float) -> None:
    found = thickness(number, system)
    assert found is not None
    # our own thickness is rounded to the place that the US standard prints, so a hair is added for binary fractions
    assert abs(found / INCH - inches) <= tolerance * (1 + 1e-9), source


def test_galvanised_weighs_two_and_a_half_ounces_more() -> None:
    """LON p. 102: 24 gauge galvanised is 1.156 lb a square foot, 41.82 lb an inch of thickness (read in the source)."""
    found = thickness(24, ZINC)
    assert found is not None
    assert found / INCH * 41.82 == pytest.approx(1.156, abs=0.0005 + 41.82 * 5e-5)


@pytest.mark.parametrize(
    ("number", "true_in", "misprint_in", "true_mm", "misprint_mm"),
    [(10, 0.1345, 0.1395, 3.416, None), (9, 0.1495, None, 3.797, 3.787), (7, 0.1793, None, 4.554, 4.551)],
)
def test_the_misprints_of_a_handbook_are_not_carried(
    number: int, true_in: float, misprint_in: float | None, true_mm: float, misprint_mm: float | None
) -> None:
    """MH31 p. 1453 table 20 prints 10 ga as 0.1395 in, 9 ga as 3.787 mm, 7 ga as 4.551 mm (read in the source).

    Its own weights over 41.82, and its own inches times 25.4, give the values held here.
    """
    found = thickness(number, US)
    assert found is not None
    assert found / INCH == pytest.approx(true_in, abs=5e-5)
    assert found * 1000 == pytest.approx(true_mm, abs=0.0012)
    assert misprint_in is None or abs(found / INCH - misprint_in) > 0.004
    assert misprint_mm is None or abs(found * 1000 - misprint_mm) > 0.002


def test_british_sheet_nine_gauge_is_not_the_misprinted_figure() -> None:
    """ASH prints S.W.G. 9 as 3.64 mm; 0.144 in is 3.658 (quoted by a secondary page)."""
    found = thickness(9, SWG)
    assert found is not None
    assert found * 1000 == pytest.approx(3.658, abs=0.0005)


@pytest.mark.parametrize(
    ("number", "printed", "tolerance"),
    # the sheet prints one place, and cuts off at 9, 11, 13 and 15; a whole unit for those
    [(9, 28.5, 0.22), (10, 25.5, 0.05), (11, 23.1, 0.1), (12, 20.7, 0.06), (13, 18.3, 0.1), (14, 15.9, 0.06),
     (15, 14.3, 0.1), (16, 12.8, 0.05), (17, 11.2, 0.1), (20, 7.17, 0.03), (24, 4.38, 0.03), (25, 3.98, 0.03)],
)  # fmt: skip
def test_kilograms_of_a_square_metre(number: int, printed: float, tolerance: float) -> None:
    """ASH, sheet by S.W.G. (quoted by a secondary page), at the 7850 kg/m3 used here; 9 follows its misprint."""
    found = thickness(number, SWG)
    assert found is not None
    assert found * 7850 == pytest.approx(printed, abs=tolerance)


def test_a_plate_of_american_gauge_eight_in_wrought_iron() -> None:
    """HASW: 4.8184 lb a square foot at 37.5 lb for an inch, which is 450 lb a cubic foot (read in the source)."""
    found = thickness(8, AWG)
    assert found is not None
    assert found / INCH * 37.5 == pytest.approx(4.8184, abs=5e-5)
