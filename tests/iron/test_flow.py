"""How strongly hot iron resists: the formula is used as it is meant, and does what steel does."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

from bickern.iron.flow import (
    MOST_STRAIN,
    flow_doubt,
    flow_spread,
    flow_stress,
    mean_flow_stress,
)
from bickern.measure.units.words import ZERO_C

CARBON = st.floats(0.0, 0.012)
RATE = st.floats(0.1, 2000)
STRAIN = st.floats(0.02, MOST_STRAIN)


def ferrite(carbon: float) -> float:
    """Kelvin under which Shida's formula changes its branch, written out anew."""
    return 1000 * 0.95 * (100 * carbon + 0.41) / (100 * carbon + 0.32)


@given(CARBON, STRAIN, RATE, st.floats(900, 1300), st.floats(1, 100))
def test_hotter_is_softer_above_where_ferrite_begins(carbon, strain, rate, celsius, more):
    cold = max(celsius + ZERO_C, ferrite(carbon))
    assert flow_stress(carbon, cold + more, strain, rate) < flow_stress(carbon, cold, strain, rate)


@pytest.mark.parametrize("carbon", [0.0, 0.0009, 0.0015, 0.0045, 0.01])
def test_a_red_heat_is_stiffer_than_a_yellow_one_across_both_branches(carbon):
    """Between, ferrite is softer than austenite: low carbon iron resists less at 850 C than the trend would have it."""
    found = [flow_stress(carbon, c + ZERO_C, 0.2, 300) for c in (1200, 1100, 1000)]
    assert found == sorted(found)
    assert flow_stress(carbon, 750 + ZERO_C, 0.2, 300) > found[-1]


@pytest.mark.parametrize("carbon", [0.0, 0.0009, 0.0015, 0.0045, 0.01])
def test_both_branches_meet_where_ferrite_begins(carbon):
    """With 5/Td in the cold branch; with 5/T they would meet as well, but part below: the table of figures tells."""
    at = ferrite(carbon)
    assert flow_stress(carbon, at - 0.001, 0.2, 10) == pytest.approx(flow_stress(carbon, at + 0.001, 0.2, 10), rel=0.02)


@given(CARBON, STRAIN, st.floats(0.1, 1500), st.floats(1.01, 2), st.floats(700, 1250))
def test_faster_is_stronger(carbon, strain, rate, times, celsius):
    """The sign of the rate term: copies with a minus would have iron soften with the rate."""
    kelvin = celsius + ZERO_C
    assert flow_stress(carbon, kelvin, strain, rate * times) > flow_stress(carbon, kelvin, strain, rate)


@pytest.mark.parametrize(("slow", "times"), [(20, 1.0), (200, 1 + 1 / 2.4), (2000, 1 + 1 / 2.4 + 1 / 15)])
@pytest.mark.parametrize("celsius", [750, 1100])
def test_how_the_rate_tells_by_lees_exponents(celsius, slow, times):
    """m, m/2.4 more above 100/s, m/15 more above 1000/s (quoted); m of 0.15 % carbon at 1100 C by hand."""
    kelvin = celsius + ZERO_C

    def power(rate: float) -> float:
        return math.log(flow_stress(0.0015, kelvin, 0.2, 2 * rate) / flow_stress(0.0015, kelvin, 0.2, rate)) / math.log(
            2
        )

    assert power(slow) == pytest.approx(power(10) * times, rel=1e-9)
    if celsius == 1100:
        assert power(10) == pytest.approx((-0.019 * 0.15 + 0.126) * 1.37315 + 0.075 * 0.15 - 0.05, rel=1e-9)


@given(CARBON, st.floats(0.01, 2.0), RATE, st.floats(700, 1250))
def test_the_mean_is_the_integral_over_the_strain(carbon, strain, rate, celsius):
    kelvin = celsius + ZERO_C
    whole = quad(lambda e: flow_stress(carbon, kelvin, e, rate), 0, strain, points=[min(strain, MOST_STRAIN)])[0]
    assert mean_flow_stress(carbon, kelvin, strain, rate) == pytest.approx(whole / strain, rel=1e-6)


def test_beyond_what_was_measured_nothing_is_made_up():
    kelvin = 1000 + ZERO_C
    assert flow_stress(0.02, kelvin, 0.2, 10) == flow_stress(0.012, kelvin, 0.2, 10)
    assert flow_stress(0.001, kelvin, 3.0, 10) == flow_stress(0.001, kelvin, MOST_STRAIN, 10)
    assert flow_stress(0.001, kelvin, 0.2, 0.0) == flow_stress(0.001, kelvin, 0.2, 0.1)
    assert mean_flow_stress(0.001, kelvin, 0.0, 10) == 0.0
    assert flow_stress(0.001, kelvin, -0.1, 10) == 0.0


def test_the_doubt_grows_as_the_iron_cools():
    assert [flow_doubt(c + ZERO_C) for c in (1200, 1000, 850)] == pytest.approx([0.20, 0.20, 0.30])
    spread = flow_spread(0.0015, 850 + ZERO_C, 0.2, 300)
    assert spread.value == mean_flow_stress(0.0015, 850 + ZERO_C, 0.2, 300)
    assert (spread.low, spread.high) == pytest.approx((0.7 * spread.value, 1.3 * spread.value))
    assert spread.why
