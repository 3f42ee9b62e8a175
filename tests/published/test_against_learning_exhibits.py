"""Against a text book of operations management, exhibits 4A.2 and 4A.3 of its note on learning curves.

Kind: school book. Read in the source: the exhibits as a sheet of numbers (that they are F. R. Jacobs and R. B. Chase,
Operations and Supply Management, is from memory). Hours of the n-th piece and of all so far at 80 %, the first taking
100 000 hours (4A.2) and 10 hours (4A.3).
"""

import pytest

from bickern.making.quote.learning import average, together, unit

HUNDRED_THOUSAND = [
    (1, 100_000, 100_000, 100_000), (2, 80_000, 180_000, 90_000), (4, 64_000, 314_210, 78_553),
    (8, 51_200, 534_591, 66_824), (16, 40_960, 892_014, 55_751), (32, 32_768, 1_467_862, 45_871),
    (64, 26_214, 2_392_447, 37_382), (128, 20_972, 3_874_384, 30_269), (256, 16_777, 6_247_572, 24_405),
]  # fmt: skip
"""The n-th piece, its hours, hours of all so far, and of each in the mean."""
TEN = [
    (1, 10.0000, 10.0000), (2, 8.0000, 18.0000), (3, 7.0210, 25.0210), (4, 6.4000, 31.4210), (5, 5.9564, 37.3774),
    (6, 5.6168, 42.9942), (7, 5.3449, 48.3391), (8, 5.1200, 53.4591), (9, 4.9295, 58.3886), (10, 4.7651, 63.1537),
    (20, 3.8121, 104.8494), (30, 3.3456, 140.1989), (50, 2.8383, 201.2171), (100, 2.2706, 326.5081),
    (1000, 1.0820, 1586.7092),
]  # fmt: skip
"""The n-th piece, its hours, hours of all so far."""


@pytest.mark.parametrize(("number", "hours", "all_so_far", "mean"), HUNDRED_THOUSAND)
def test_exhibit_4a_2(number: int, hours: int, all_so_far: int, mean: int) -> None:
    assert unit(number, 0.80) * 100_000 == pytest.approx(hours, abs=0.5)
    # printed sums are of hours already rounded, or truncated: at 256 pieces the half hours of a few of them
    assert together(number, 0.80) * 100_000 == pytest.approx(all_so_far, abs=1.0)
    assert average(number, 0.80) * 100_000 == pytest.approx(mean, abs=0.6)


@pytest.mark.parametrize(("number", "hours", "all_so_far"), TEN)
def test_exhibit_4a_3(number: int, hours: float, all_so_far: float) -> None:
    assert unit(number, 0.80) * 10 == pytest.approx(hours, abs=0.00006)
    assert together(number, 0.80) * 10 == pytest.approx(all_so_far, abs=0.00006)
