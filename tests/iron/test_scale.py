"""Scale grows by its laws, whatever the curve, and a heat takes no more than there is."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from bickern.iron.flame import Flame
from bickern.iron.heat.body import Body, Curve, Form
from bickern.iron.scale import (
    LINEAR,
    OXYGEN_IN_SCALE,
    beside_steel,
    loss_of_a_heat,
    lost_thickness,
    parabolic_constant,
    scale_along,
    scale_thickness,
)
from bickern.iron.steel import MetalClass
from bickern.measure.units.words import ZERO_C

HOT = st.floats(850 + ZERO_C, 1300 + ZERO_C)
SECONDS = st.floats(1.0, 2000.0)


@given(HOT, SECONDS)
def test_four_times_as_long_is_twice_as_thick(kelvin, seconds):
    assert scale_thickness(kelvin, 4 * seconds) == pytest.approx(2 * scale_thickness(kelvin, seconds))


@given(HOT, SECONDS)
def test_a_level_curve_is_the_parabola(kelvin, seconds):
    level = Curve((0.0, 0.3 * seconds, seconds), (kelvin, kelvin, kelvin))
    assert scale_along(level) == pytest.approx(scale_thickness(kelvin, seconds))


@pytest.mark.parametrize("flame", list(Flame))
def test_growth_along_a_curve_against_a_solver_of_the_rate(flame):
    """dx/dt = 1 / (2 x / kp + 1 / v), with iron cooling from 1150 to 800 C in 40 s."""

    def heat(t: float) -> float:
        return 1150 + ZERO_C - 350 * t / 40

    slow = OXYGEN_IN_SCALE / LINEAR[flame].value
    exact = solve_ivp(
        lambda t, x: 1 / (2 * x / parabolic_constant(heat(t)) + slow), (0, 40), [1e-5], rtol=1e-8, atol=1e-12
    ).y[0, -1]
    times = [40 * i / 100 for i in range(101)]
    curve = Curve(tuple(times), tuple(heat(t) for t in times))
    # the age of a scale is reckoned anew at each stretch: what is left is its error, smaller with smaller stretches
    assert scale_along(curve, flame, 1e-5) == pytest.approx(exact, rel=0.01)


@given(HOT, SECONDS)
def test_less_air_is_less_scale_and_at_first_it_grows_evenly(kelvin, seconds):
    level = Curve((0.0, seconds), (kelvin, kelvin))
    found = [scale_along(level, flame) for flame in (Flame.NEUTRAL, Flame.LEAN, Flame.OXIDISING, None)]
    assert found == sorted(found)
    brief = Curve((0.0, 1e-4), (kelvin, kelvin))
    speed = LINEAR[Flame.LEAN].value / OXYGEN_IN_SCALE
    assert scale_along(brief, Flame.LEAN) == pytest.approx(1e-4 * speed, rel=0.02)


def test_oxygen_in_scale_is_what_wuestite_holds():
    """FeO is 22.27 % oxygen by mass (exact from atomic masses); the scale's iron filled 0.56 of its thickness."""
    iron = 0.56 * 7850
    assert OXYGEN_IN_SCALE / (OXYGEN_IN_SCALE + iron) == pytest.approx(0.2227, abs=0.0001)


@pytest.mark.parametrize("flame", list(Flame))
def test_thin_iron_hotter_iron_and_longer_soaks_lose_more(flame):
    def lost(thick: float = 0.002, heat: float = 1150, soak: float = 30, stop: float = 800) -> float:
        return loss_of_a_heat(Body(thick), heat + ZERO_C, soak, flame, stop + ZERO_C).value

    assert lost(0.001) > lost(0.002) > lost(0.010) > 0
    assert lost(heat=1250) > lost(heat=1150) > lost(heat=1000)
    assert lost(soak=120) > lost(soak=30) > lost(soak=0)
    assert lost(stop=700) > lost(stop=800) > lost(stop=1150)


def test_a_welding_heat_is_had_in_a_fire_that_is_hotter_still():
    """So that it does not lie there for ever: the last degrees in a fire no hotter than the iron take no end."""
    general, welding = (
        loss_of_a_heat(Body(0.0024), c + ZERO_C, 0, Flame.OXIDISING, c - 50 + ZERO_C).value for c in (1200, 1300)
    )
    assert general < welding < 1.5 * general


def test_a_later_heat_saves_next_to_nothing_by_starting_red():
    first, again = (
        loss_of_a_heat(Body(0.0024), 1150 + ZERO_C, 30, Flame.LEAN, 800 + ZERO_C, first=f).value for f in (True, False)
    )
    assert 0.98 * first < again <= first


@given(st.floats(1e-5, 0.1), st.floats(600, 1400), st.floats(0, 3600), st.sampled_from(list(Flame)), st.booleans())
def test_never_more_than_there_is(thick, celsius, soak, flame, first):
    spread = loss_of_a_heat(Body(thick, Form.SHEET), celsius + ZERO_C, soak, flame, 800 + ZERO_C, first)
    assert 0 <= spread.low <= spread.value <= spread.high <= 1
    assert math.isfinite(spread.value)
    assert spread.why


def test_a_bare_point_loses_nothing_that_could_be_told():
    assert loss_of_a_heat(Body(0.0), 1400, 30, Flame.LEAN, 1073).value == 0.0


def test_a_share_is_thickness_over_area_by_girth():
    """A thick level soak: nearly all of the scale is of the soak, so the share follows by hand."""
    soak = 3600.0
    share = loss_of_a_heat(Body(0.02), 1150 + ZERO_C, soak, Flame.OXIDISING, 1149 + ZERO_C).value
    assert share == pytest.approx(lost_thickness(scale_thickness(1150 + ZERO_C, soak)) / 0.02, rel=0.05)


def test_other_metals_scale_less_and_that_is_rough():
    """From memory: stainless a tenth or less, copper a third to a half of what iron loses at one heat."""
    steel = loss_of_a_heat(Body(0.0024), 1100 + ZERO_C, 30, Flame.LEAN, 900 + ZERO_C)
    stainless, copper = (beside_steel(steel, m) for m in (MetalClass.STAINLESS, MetalClass.COPPER))
    assert stainless.value == pytest.approx(0.1 * steel.value)
    assert 1 / 3 < copper.value / steel.value < 1 / 2
    for found in (stainless, copper):
        assert (found.low, found.high) == pytest.approx((found.value / 3, found.value * 3))
        assert len(found.why) == len(steel.why) + 1
    assert beside_steel(steel, MetalClass.TOOL) == steel
