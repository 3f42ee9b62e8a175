"""Against a solutions manual of operations management, chapter 13, Learning curves.

Kind: school book. Read in the source: pages 144 and 145, problems 13.1 to 13.5 (that it is J. Heizer and B. Render is
from memory). The manual takes sums from its table of three decimals.
"""

import pytest

from bickern.making.quote.learning import together, unit


@pytest.mark.parametrize(
    ("first", "number", "share", "printed", "within"),
    [
        (300, 5, 0.80, 178.7, 0.05),  # 13.1 a, hours
        (9, 3, 0.70, 5.114, 0.002),  # 13.2 a; the manual carries rounded logarithms
        (9, 5, 0.70, 3.932, 0.001),  # 13.2 b
        (15, 2, 0.70, 10.5, 0.001),  # 13.3, minutes
        (15, 3, 0.70, 8.523, 0.001),
        (75, 2, 0.85, 63.75, 0.001),  # 13.4, minutes
        (75, 4, 0.85, 54.23, 0.05),  # by a factor of three decimals, .723
        (75, 8, 0.85, 46.05, 0.05),  # .614
        (1, 4, 0.95, 0.902, 0.001),  # 13.5 a, hours
    ],
)
def test_the_time_of_one_piece(first: float, number: int, share: float, printed: float, within: float) -> None:
    assert first * unit(number, share) == pytest.approx(printed, abs=within)


@pytest.mark.parametrize(
    ("first", "count", "share", "printed", "within"),
    [
        (300, 5, 0.80, 1121.4, 0.2),  # 13.1 b: factor 3.738 of three decimals
        (300, 18, 0.80, 2914.8, 0.2),  # 13.1 c: factor 9.716
        (15, 3, 0.70, 34.023, 0.001),  # 13.3
    ],
)
def test_the_time_of_all_so_far(first: float, count: int, share: float, printed: float, within: float) -> None:
    assert first * together(count, share) == pytest.approx(printed, abs=within)
