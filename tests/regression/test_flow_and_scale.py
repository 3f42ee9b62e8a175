"""Digits of this project's own prototype, which was written apart from this code: they show that nothing moved.

They are no proof that iron does so. What was printed or measured by others stands in `tests/published`.
"""

import pytest

from bickern.iron.flame import Flame
from bickern.iron.flow import flow_stress
from bickern.iron.heat.body import Body, Form
from bickern.iron.scale import loss_of_a_heat, scale_thickness
from bickern.measure.units.words import ZERO_C

# C, 1/s, then MPa at strain 0.2: 0.15 % C, 0.45 % C
FLOW = [
    (1150, 10, 88, 90),
    (1000, 10, 133, 137),
    (1150, 300, 148, 162),
    (1000, 300, 209, 229),
    (850, 300, 313, 361),
]


@pytest.mark.parametrize(("celsius", "rate", "mild", "medium"), FLOW)
def test_flow_stress(celsius, rate, mild, medium):
    found = [flow_stress(carbon, celsius + ZERO_C, 0.2, rate) / 1e6 for carbon in (0.0015, 0.0045)]
    assert found == pytest.approx([mild, medium], abs=0.6)


def test_scale_of_a_minute():
    found = [1e6 * scale_thickness(c + ZERO_C, 60) for c in (1000, 1100, 1150, 1200)]
    assert found == pytest.approx([64, 114, 149, 189], abs=1)


BODIES = [
    Body(0.00076, Form.SHEET), *(Body(mm / 4000) for mm in (4.7625, 9.525, 12.7, 25.4, 50.8))
]  # fmt: skip
LOSSES = [
    (Flame.OXIDISING, 30, [5.9, 4.1, 2.5, 2.0, 1.3, 0.95]),
    (Flame.LEAN, 30, [2.4, 1.8, 1.3, 1.1, 0.86, 0.67]),
    (Flame.NEUTRAL, 30, [1.3, 1.05, 0.84, 0.76, 0.59, 0.46]),
    (Flame.OXIDISING, 15, [4.3, 3.1, 2.0, 1.7, 1.2, 0.90]),
    (Flame.LEAN, 15, [1.9, 1.5, 1.2, 1.0, 0.80, 0.64]),
    (Flame.NEUTRAL, 15, [1.2, 1.0, 0.81, 0.73, 0.58, 0.45]),
]


@pytest.mark.parametrize(("flame", "soak", "per_cent"), LOSSES)
def test_loss_of_a_heat(flame, soak, per_cent):
    """16 ga, 3/16 round, then 3/8, 1/2, 1 and 2 in square, warmed to 1150 C, left so long, worked down to 800 C."""
    found = [100 * loss_of_a_heat(b, 1150 + ZERO_C, soak, flame, 800 + ZERO_C, soak > 15).value for b in BODIES]
    assert found == pytest.approx(per_cent, rel=0.08)
