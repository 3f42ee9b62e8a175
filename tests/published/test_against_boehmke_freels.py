"""Against B. Boehmke and J. Freels, learningCurve 1.1.2, reference pages, 2018.

Kind: manual. Read in the source: worked examples of unit_curve and unit_cum_exact (hours of the n-th piece, and of all
so far, the first taking 100 hours).
"""

import pytest

from bickern.making.quote.learning import together, unit


@pytest.mark.parametrize(("share", "hours"), [(0.80, 21.13225), (0.85, 32.23647), (0.90, 48.00243), (0.95, 69.95640)])
def test_the_hundred_and_twenty_fifth_piece(share: float, hours: float) -> None:
    assert 100 * unit(125, share) == pytest.approx(hours, abs=0.00001)


def test_a_hundred_and_twenty_five_pieces() -> None:
    assert 100 * together(125, 0.85) == pytest.approx(5201.085, abs=0.001)


def test_from_the_hundredth_piece_on() -> None:
    """The share of the time of the 100th that the 125th takes."""
    assert 100 * unit(125, 0.85) / unit(100, 0.85) == pytest.approx(94.90257, abs=0.00001)
