"""Against EN 1993-1-2:2005, clause 3.4.1, specific heat and conductivity of carbon steel.

Kind: standard. Quoted by a secondary page: the formulas were taken from public programs that quote the clauses and
agree; the figures here are those formulas by hand. The heat held is our closed form, held against the specific heat
integrated by steps. The standard is for steel that is warmed: on cooling the change inside comes later.
"""

from itertools import pairwise

import pytest
from scipy.integrate import quad

from bickern.iron.heat.steel_heat import conductivity, enthalpy, heat_capacity
from bickern.measure.units.words import ZERO_C

HEATS = [
    (20, 439.802), (100, 487.62), (200, 529.76), (400, 605.88), (600, 760.217), (700, 1008.16), (735, 5000),
    (800, 803.261), (900, 650), (1200, 650),
]  # fmt: skip
CONDUCTS = [(20, 53.334), (400, 40.68), (800, 27.3), (1000, 27.3)]


@pytest.mark.parametrize(("celsius", "printed"), HEATS)
def test_specific_heat(celsius: float, printed: float):
    assert heat_capacity(celsius + ZERO_C) == pytest.approx(printed, rel=5e-4)


@pytest.mark.parametrize(("celsius", "printed"), CONDUCTS)
def test_conductivity(celsius: float, printed: float):
    assert conductivity(celsius + ZERO_C) == pytest.approx(printed, rel=5e-4)


@pytest.mark.parametrize("to", [100, 599, 650, 734, 735, 736, 800, 899, 901, 1150, 1200])
def test_heat_held_is_the_specific_heat_summed(to: float):
    edges = [20, *(e for e in (600, 735, 900) if e < to), to]
    parts = [quad(lambda t: heat_capacity(t + ZERO_C), a, b, limit=200)[0] for a, b in pairwise(edges)]
    assert enthalpy(to + ZERO_C) == pytest.approx(sum(parts), rel=1e-6)


@pytest.mark.parametrize(("low", "high", "kilojoules"), [(20, 1150, 794.6), (800, 1150, 233.0)])
def test_heat_between(low: float, high: float, kilojoules: float):
    """Worked out once by another program from the same clauses."""
    assert (enthalpy(high + ZERO_C) - enthalpy(low + ZERO_C)) / 1e3 == pytest.approx(kilojoules, abs=0.05)
