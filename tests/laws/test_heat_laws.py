"""What must always hold of warming and cooling: the balance closes, quick curves are those of the whole section.

The reference is `finite_volume.py`, itself proved against series in `tests/published/test_against_series.py`.
"""

import math
from functools import partial
from itertools import pairwise

import numpy as np
import pytest
from finite_volume import along_bar, en_steel, grid, solve
from hypothesis import given, settings
from hypothesis import strategies as st

from bickern.iron.heat import balance
from bickern.iron.heat.body import ROOM, Body, Chamber, Form, Surround
from bickern.iron.heat.cooling import cooling_curve, cooling_nodes, cooling_seconds, seconds_of_a_heat
from bickern.iron.heat.fin import fin_seconds
from bickern.iron.heat.loss import STEFAN_BOLTZMANN, skin_gain, skin_loss
from bickern.iron.heat.steel_heat import DENSITY, enthalpy
from bickern.iron.heat.warming import warming_seconds
from bickern.measure.units.words import ZERO_C

SECTIONS = [
    Body(0.76e-3, Form.SHEET), Body(1.5e-3, Form.SHEET), Body(3e-3, Form.SHEET), Body(12e-3, Form.SHEET),
    Body(0.375e-3), Body(1.19e-3), Body(2.38e-3, girth=0.0381), Body(3.175e-3), Body(6.35e-3, girth=0.1016),
    Body(12.7e-3),
]  # fmt: skip
"""From 1.5 mm to 50 mm across."""
FALLS = [(1150, 800), (1150, 900), (1150, 1050), (1050, 950), (1200, 1150), (1000, 800), (1150, 700), (900, 650)]
"""Over the change at 735 C and across it."""


HANDLED = [Surround(0.6), Surround(0.85, 1.5, contact=50.0), Surround(0.95, 3.0), Surround(contact=250.0)]
"""From bright and held still to lying flat on the anvil."""


def reference(body: Body, start: float, stop: float, seconds: float, leaves) -> float:
    reach = body.across / 2
    history = solve(en_steel(), grid(reach, 20, body.form is Form.BAR), start, seconds * 1.05, leaves)
    return history.when(stop)


@pytest.mark.parametrize("body", SECTIONS, ids=lambda b: f"{b.form} {b.across * 1e3:g}")
@pytest.mark.parametrize(("start", "stop"), FALLS)
def test_cooling_is_that_of_the_whole_section(body: Body, start: float, stop: float):
    a, b, s = start + ZERO_C, stop + ZERO_C, Surround()
    ours = cooling_seconds(body, a, b, s)
    assert ours == pytest.approx(reference(body, a, b, ours, lambda t: skin_loss(body, t, s)), rel=0.005)


@pytest.mark.parametrize("body", SECTIONS, ids=lambda b: f"{b.form} {b.across * 1e3:g}")
@pytest.mark.parametrize("s", HANDLED, ids=lambda s: f"{s.emissivity:g} {s.moving:g} {s.contact:g}")
def test_so_it_is_moved_about_and_on_the_anvil(body: Body, s: Surround):
    """The anvil's part is spread evenly round the skin on both sides: that a face is chilled, is not in it."""
    a, b = 1150 + ZERO_C, 800 + ZERO_C
    ours = cooling_seconds(body, a, b, s)
    assert ours == pytest.approx(reference(body, a, b, ours, lambda t: skin_loss(body, t, s)), rel=0.005)


@pytest.mark.parametrize("body", SECTIONS, ids=lambda b: f"{b.form} {b.across * 1e3:g}")
@pytest.mark.parametrize(("start", "stop"), [(20, 1150), (700, 1150), (20, 800), (800, 1100)])
def test_warming_is_that_of_the_whole_section(body: Body, start: float, stop: float):
    """Within 1 %: the range told is far wider."""
    a, b, fire = start + ZERO_C, stop + ZERO_C, Chamber()
    ours = warming_seconds(body, a, b, fire)
    assert ours == pytest.approx(reference(body, a, b, ours, lambda t: -skin_gain(t, fire)), rel=0.01)


ZONES = [0.02, 0.03, 0.05, 0.1, 0.2]
BARS = [Body(1.19e-3), Body(2.38e-3, girth=0.0381), Body(6.35e-3, girth=0.1016), Body(12.7e-3, girth=0.2032)]


def middle_by_finite_volumes(body: Body, zone: float, cold_sides: int, start: float, stop: float) -> float:
    """Seconds until the middle of a hot zone is at `stop`; the reference that `fin` is held against."""
    s, half = Surround(), 8
    reach = zone if cold_sides == 1 else zone / 2
    width = reach / (2 * half)
    seconds = cooling_seconds(body, start, stop, s) * 1.05
    cells = int((reach + max(0.08, 5 * math.sqrt(6e-6 * seconds))) / width)
    skins = np.linspace(ROOM - 5, start + 5, 400)
    losses = np.array([_loss_at_mean(body, float(t), s) for t in skins])
    leaves = partial(np.interp, xp=skins, fp=losses)
    hot = np.where(np.arange(cells) < 2 * half, start, ROOM)
    found = along_bar(hot, width, seconds, leaves, body.hydraulic, en_steel()).cells
    middle = (found[half - 1] + found[half]) / 2 if cold_sides == 1 else (9 * found[0] - found[1]) / 8
    return float(np.interp(-stop, -middle, np.linspace(0, seconds, len(middle))))


def _loss_at_mean(body: Body, mean: float, s: Surround) -> float:
    skin = mean
    for _ in range(4):
        skin = mean - balance.drop(body, mean) * skin_loss(body, skin, s)
    return skin_loss(body, skin, s)


@pytest.mark.parametrize("body", BARS, ids=lambda b: f"{b.across * 1e3:g}")
@pytest.mark.parametrize("zone", ZONES)
@pytest.mark.parametrize("cold_sides", [1, 2])
@pytest.mark.parametrize(("start", "stop"), [(1150, 800), (1150, 900), (1050, 850)])
def test_the_middle_of_a_short_hot_zone(body: Body, zone: float, cold_sides: int, start: int, stop: int):
    a, b = start + ZERO_C, stop + ZERO_C
    exact = middle_by_finite_volumes(body, zone, cold_sides, a, b)
    assert fin_seconds(body, a, b, Surround(), zone, cold_sides) == pytest.approx(exact, rel=0.06)


def test_shining_alone_has_a_closed_form(monkeypatch):
    """The integral of dT/(T^4 - A^4), with the specific heat 650 that the standard has over 900 C."""
    monkeypatch.setattr(balance, "conductivity", lambda _: 1e9)
    body, a, b, room = Body(2.38125e-3), 1150 + ZERO_C, 900 + ZERO_C, ROOM

    def whole(t: float) -> float:
        """By parts: 1/(T^4 - A^4) = (1/(T^2 - A^2) - 1/(T^2 + A^2)) / (2 A^2)."""
        return (math.log((t - room) / (t + room)) / 2 - math.atan(t / room)) / (2 * room**3)

    closed = DENSITY.value * body.hydraulic * 650 / (0.8 * STEFAN_BOLTZMANN) * (whole(a) - whole(b))
    assert closed == pytest.approx(24.391, abs=0.002)
    assert cooling_seconds(body, a, b, Surround(moving=0.0)) == pytest.approx(closed, rel=3e-4)


bodies = st.builds(Body, st.floats(0.3e-3, 14e-3), st.sampled_from(Form))
thin_bodies = st.builds(Body, st.floats(0.3e-3, 2e-3), st.sampled_from(Form))
light_surrounds = st.builds(Surround, st.floats(0.5, 0.95), st.floats(0.5, 3.0), st.floats(0.0, 100.0))
surrounds = st.builds(Surround, st.floats(0.5, 0.95), st.floats(0.5, 3.0), st.floats(0.0, 400.0))


@given(thin_bodies, light_surrounds, st.floats(1080, 1500), st.floats(0.05, 0.95))
@settings(deadline=None, max_examples=60)
def test_what_left_the_skin_is_what_the_iron_lost(body: Body, s: Surround, start: float, share: float):
    """The flows of the curve summed over its seconds give its heat, but for the build-up of the parabola,

    which is little in thin iron.
    """
    stop = 950 + share * (start - 950)
    curve, through = cooling_curve(body, start, stop, s), cooling_nodes(body, start, stop, s, 40)
    steps = zip(through, through[1:], np.diff(curve.seconds), strict=False)
    left = sum((a.flow + b.flow) / 2 * float(t) for a, b, t in steps)
    assert left == pytest.approx(DENSITY.value * body.hydraulic * (enthalpy(start) - enthalpy(stop)), rel=0.01)


@given(bodies, surrounds, st.floats(950, 1500), st.floats(0.05, 0.95))
@settings(deadline=None, max_examples=60)
def test_seconds_rise_and_a_longer_fall_takes_longer(body: Body, s: Surround, start: float, share: float):
    stop = 900 + share * (start - 900)
    curve = cooling_curve(body, start, stop, s)
    assert all(a < b for a, b in pairwise(curve.seconds))
    assert cooling_seconds(body, start, stop - 40, s) > curve.seconds[-1]
    thicker = Body(body.hydraulic * 1.2, body.form)
    assert cooling_seconds(thicker, start, stop, s) > curve.seconds[-1]


@given(
    bodies,
    surrounds,
    st.floats(1100, 1550),
    st.floats(0.0, 1.0),
    st.floats(0.0, 0.3) | st.none(),
    st.sampled_from((1, 2)),
)
@settings(deadline=None, max_examples=60)
def test_a_heat_is_a_range_and_a_short_zone_gives_less(body, s, start, share, zone, cold_sides):
    stop = 950 + share * (start - 950)
    heat = seconds_of_a_heat(body, start, stop, s, zone, cold_sides)
    assert 0 <= heat.low <= heat.value <= heat.high
    assert heat.value <= cooling_seconds(body, start, stop, s) * (1 + 1e-9)
    assert heat.value == 0 or heat.why
