"""Against the series for bodies that cool in one go: Incropera and DeWitt, Heat and Mass Transfer, table 5.1.

Kind: school book. From memory: the roots and coefficients of table 5.1; the series are exact mathematics. They prove
the finite volumes (in the tests alone) that the cooling and warming curves are then held against: within 0.2 % of the
whole fall of temperature, and by second order of the width of a cell.
"""

from itertools import pairwise

import numpy as np
import pytest
from finite_volume import along_bar, even_stuff, grid, solve
from scipy.optimize import brentq
from scipy.special import erf, j0, j1

from bickern.iron.heat.fin import kept

TABLE_5_1 = [
    ("slab", 0.1, 0.3111, 1.0161), ("slab", 1.0, 0.8603, 1.1191),
    ("cylinder", 0.1, 0.4417, 1.0246), ("cylinder", 1.0, 1.2558, 1.2071),
]  # fmt: skip
BIOTS = (0.05, 0.2, 1.0, 2.0, 5.0)
FOURIERS = (0.1, 0.5, 2.0)
K, RHO, C, REACH, HOT, COLD = 30.0, 7850.0, 650.0, 0.01, 1400.0, 300.0


def roots(shape: str, biot: float, many: int = 40) -> np.ndarray:
    """z tan z = Bi, or z J1(z) = Bi J0(z)."""
    if shape == "slab":
        steps = [(i * np.pi + 1e-9, (i + 0.5) * np.pi - 1e-9) for i in range(many)]
        return np.array([brentq(lambda z: z * np.sin(z) - biot * np.cos(z), *s) for s in steps])
    z = np.linspace(1e-6, many * np.pi, 40 * many)
    f = z * j1(z) - biot * j0(z)
    at = np.flatnonzero(f[:-1] * f[1:] < 0)
    return np.array([brentq(lambda x: x * j1(x) - biot * j0(x), z[i], z[i + 1]) for i in at])


def coefficients(shape: str, z: np.ndarray) -> np.ndarray:
    if shape == "slab":
        return 4 * np.sin(z) / (2 * z + np.sin(2 * z))
    return 2 / z * j1(z) / (j0(z) ** 2 + j1(z) ** 2)


def left(shape: str, biot: float, fourier: float) -> tuple[float, float]:
    """Share of the warmth left in the middle, and in the mean."""
    z = roots(shape, biot)
    terms = coefficients(shape, z) * np.exp(-(z**2) * fourier)
    means = np.sin(z) / z if shape == "slab" else 2 * j1(z) / z
    return float(terms.sum()), float((terms * means).sum())


def found(shape: str, biot: float, fourier: float, cells: int) -> tuple[float, float]:
    h = biot * K / REACH
    seconds = fourier * REACH**2 * RHO * C / K
    g = grid(REACH, cells, shape == "cylinder")
    history = solve(even_stuff(RHO, C, K), g, HOT, seconds, lambda t: h * (t - COLD))
    # the two inner cells by a parabola to the middle
    middle = (9 * history.cells[0, -1] - history.cells[1, -1]) / 8
    return (middle - COLD) / (HOT - COLD), (history.mean[-1] - COLD) / (HOT - COLD)


@pytest.mark.parametrize(("shape", "biot", "root", "coefficient"), TABLE_5_1)
def test_roots_are_those_of_the_table(shape: str, biot: float, root: float, coefficient: float):
    first = roots(shape, biot)[:1]
    assert first[0] == pytest.approx(root, abs=5e-5)
    assert coefficients(shape, first)[0] == pytest.approx(coefficient, abs=5e-5)


@pytest.mark.parametrize("shape", ["slab", "cylinder"])
@pytest.mark.parametrize("biot", BIOTS)
@pytest.mark.parametrize("fourier", FOURIERS)
def test_finite_volumes_are_the_series(shape: str, biot: float, fourier: float):
    assert found(shape, biot, fourier, 20) == pytest.approx(left(shape, biot, fourier), abs=0.002)


@pytest.mark.parametrize("shape", ["slab", "cylinder"])
def test_finite_volumes_are_of_second_order(shape: str):
    exact = left(shape, 1.0, 0.5)[1]
    errors = [abs(found(shape, 1.0, 0.5, cells)[1] - exact) for cells in (5, 10, 20)]
    for coarse, fine in pairwise(errors):
        assert 1.8 < np.log2(coarse / fine) < 2.2


@pytest.mark.parametrize("seconds", [5.0, 20.0, 60.0])
@pytest.mark.parametrize("cold_sides", [1, 2])
def test_along_a_bar_they_are_the_error_function(seconds: float, cold_sides: int):
    """A hot piece of an endless bar with nothing lost to the air; and `kept` says the same of its middle."""
    zone, width = 0.05, 0.0005
    reach = zone if cold_sides == 1 else zone / 2
    x = (np.arange(700) + 0.5) * width
    start = np.where(x < reach, HOT, COLD)
    history = along_bar(start, width, seconds, np.zeros_like, 1.0, even_stuff(RHO, C, K))
    spread = np.sqrt(K / RHO / C * seconds)
    exact = (erf((reach - x) / 2 / spread) + erf((reach + x) / 2 / spread)) / 2
    ours = (history.cells[:, -1] - COLD) / (HOT - COLD)
    assert ours == pytest.approx(exact, abs=0.002)
    middle = float(np.interp(zone / 2 if cold_sides == 1 else 0.0, x, exact))
    assert kept(zone, float(spread), cold_sides) == pytest.approx(middle, abs=1e-4)
