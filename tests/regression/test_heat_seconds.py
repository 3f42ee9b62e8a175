"""Digits of a first working of the same balance by another program: they show what changed, and validate nothing.

Its figures are rounded to 0.1 s. Its square bars met the air as cylinders of the same girth, its anvil stood at 60 C.
"""

import pytest

from bickern.iron.heat.body import Body, Chamber, Form, Surround
from bickern.iron.heat.cooling import cooling_seconds, seconds_of_a_heat
from bickern.iron.heat.fin import fin_seconds
from bickern.iron.heat.warming import warming_seconds
from bickern.measure.units.words import INCH, ZERO_C

BODIES = {
    "16 ga": Body(0.76e-3, Form.SHEET),
    "3/16 rd": Body(3 / 64 * INCH),
    "1/4 rd": Body(1 / 16 * INCH),
    "3/8 sq": Body(3 / 32 * INCH, girth=1.5 * INCH),
    "1/2 sq": Body(1 / 8 * INCH, girth=2 * INCH),
    "1 sq": Body(1 / 4 * INCH, girth=4 * INCH),
    "2 sq": Body(1 / 2 * INCH, girth=8 * INCH),
}
START, STOP = 1150 + ZERO_C, 800 + ZERO_C
WARM_ANVIL = 60 + ZERO_C


def lying(contact: float, sheet_contact: float) -> tuple[Surround, Surround]:
    return Surround(contact=contact, anvil=WARM_ANVIL), Surround(contact=sheet_contact, anvil=WARM_ANVIL)


CASES = [
    ((Surround(), Surround()), (12.4, 18.0, 24.6, 38.3, 51.8, 107.6, 226.0), 0.01),
    ((Surround(0.85, 1.5), Surround(0.85, 1.5)), (11.2, 15.9, 21.8, 34.3, 46.7, 97.8, 206.7), 0.012),
    (lying(50, 50), (9.1, 13.5, 18.3, 28.3, 38.2, 79.1, 165.9), 0.03),
    (lying(150, 300), (3.9, 9.1, 12.3, 18.7, 25.3, 52.2, 109.7), 0.03),
    (lying(250, 500), (2.7, 6.9, 9.2, 14.1, 18.9, 39.1, 82.7), 0.03),
    (lying(750, 1500), (1.0, 2.9, 3.9, 5.9, 8.0, 16.8, 37.1), 0.05),
]


@pytest.mark.parametrize(("how", "figures", "near"), CASES)
def test_cooling(how: tuple[Surround, Surround], figures: tuple[float, ...], near: float):
    for (name, body), told in zip(BODIES.items(), figures, strict=True):
        ours = cooling_seconds(body, START, STOP, how[body.form is Form.SHEET])
        assert ours == pytest.approx(told, rel=near, abs=0.05), name


@pytest.mark.parametrize(("emissivity", "told"), [(0.6, 48.9), (0.7, 42.9), (0.8, 38.3), (0.9, 34.5)])
def test_emissivity(emissivity: float, told: float):
    assert cooling_seconds(BODIES["3/8 sq"], START, STOP, Surround(emissivity)) == pytest.approx(told, rel=0.01)


@pytest.mark.parametrize(
    ("start", "stop", "told"), [(1150, 900, 22), (1150, 850, 29), (1200, 800, 41), (1050, 850, 22)]
)
def test_windows(start: float, stop: float, told: float):
    ours = cooling_seconds(BODIES["3/8 sq"], start + ZERO_C, stop + ZERO_C, Surround())
    assert ours == pytest.approx(told, abs=0.55)


def test_warming():
    for body, told in zip(BODIES.values(), (25, 40, 53, 80, 107, 218, 450), strict=True):
        assert warming_seconds(body, 20 + ZERO_C, START, Chamber()) == pytest.approx(told, rel=0.025)


FINS = [("3/8 sq", 0.05, 30), ("1 sq", 0.05, 58), ("2 sq", 0.05, 82), ("3/8 sq", 0.03, 20)]


@pytest.mark.parametrize(("name", "zone", "told"), FINS)
def test_short_hot_zones(name: str, zone: float, told: float):
    """There the free end also shone from its face and the zone ended softly: up to 10 % less."""
    assert fin_seconds(BODIES[name], START, STOP, Surround(), zone) == pytest.approx(told, rel=0.10)


DRAWS = [
    ("16 ga", 0, 9, 14), ("3/16 rd", 0, 14, 20), ("3/8 sq", 0, 28, 43), ("1 sq", 0, 81, 124), ("2 sq", 0, 172, 253),
    ("16 ga", 140, 3.9, 9.3), ("3/16 rd", 70, 9, 15), ("3/8 sq", 70, 18, 32), ("1 sq", 70, 52, 88),
]  # fmt: skip


@pytest.mark.parametrize(("name", "contact", "low", "high"), DRAWS)
def test_the_ends_of_a_range_are_those_of_400_random_draws(name: str, contact: float, low: float, high: float):
    """One in ten under the low end, one in ten over the high one."""
    heat = seconds_of_a_heat(BODIES[name], START, STOP, Surround(0.82, 1.25, contact))
    assert (heat.low, heat.high) == pytest.approx((low, high), rel=0.12)
