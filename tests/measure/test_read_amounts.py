"""Angles, turns, counts, shares, temperatures and masses."""

import math
from collections.abc import Callable

import pytest

from bickern.measure.units.read import (
    read_angle,
    read_count,
    read_mass,
    read_number,
    read_share,
    read_temperature,
    read_turns,
)
from bickern.measure.units.words import POUND, Read

GOOD: list[tuple[Callable[[object], Read[float]], object, float]] = [
    (read_angle, 90, math.pi / 2), (read_angle, "90 deg", math.pi / 2), (read_angle, "90°", math.pi / 2),
    (read_angle, "1/4 turn", math.pi / 2), (read_angle, "22.5", math.pi / 8),
    (read_angle, "120 degrees", 2 * math.pi / 3),
    (read_turns, "1 1/2", 1.5), (read_turns, "1 1/2 turns", 1.5), (read_turns, "1½ turns", 1.5), (read_turns, 2, 2),
    (read_turns, "540 deg", 1.5), (read_turns, "1/3", 1 / 3), (read_turns, "1 turn", 1),
    (read_share, "2.5 %", 0.025), (read_share, "2.5%", 0.025), (read_share, "2 percent", 0.02),
    (read_share, "2 per cent", 0.02), (read_share, 0, 0), (read_share, "100 %", 1),
    (read_temperature, "1150 C", 1423.15), (read_temperature, "1150 °C", 1423.15),
    (read_temperature, "2100 F", 1422.03889),
    (read_temperature, "2100 deg F", 1422.03889), (read_temperature, "1423 K", 1423),
    (read_temperature, "-20 C", 253.15),
    (read_mass, "3 lb 8 oz", 3.5 * POUND), (read_mass, "1/2 lb", POUND / 2), (read_mass, "680 g", 0.68),
    (read_mass, "1.5 kg", 1.5), (read_mass, "8 oz", POUND / 2),
    (read_count, 3, 3), (read_count, "12 off", 12), (read_count, 3.0, 3),
    (read_number, "1/3", 1 / 3), (read_number, 2.5, 2.5), (read_number, 0, 0),
]  # fmt: skip

BAD: list[tuple[Callable[[object], Read[float]], object, str]] = [
    (read_angle, -5, "negative-angle"), (read_angle, 0, "zero-angle"), (read_angle, "1.5 rad", "unknown-unit"),
    (read_angle, "square", "unknown-unit"), (read_angle, "1e9 deg", "power-of-ten"),
    (read_angle, "999999999", "too-big"),
    (read_turns, "11/2", "improper-fraction"), (read_turns, "1,5", "decimal-comma"), (read_turns, None, "empty"),
    (read_share, 3, "no-percent"), (read_share, "0.5", "no-percent"), (read_share, "200 %", "share-out-of-range"),
    (read_share, "-2 %", "share-out-of-range"), (read_share, "%", "not-a-number"),
    (read_temperature, 900, "no-degrees"), (read_temperature, "-300 C", "temperature-out-of-range"),
    (read_temperature, "9000 F", "temperature-out-of-range"), (read_temperature, "hot", "no-degrees"),
    (read_mass, 3, "no-units"), (read_mass, "3 stone", "no-units"), (read_mass, "-1 kg", "mass-out-of-range"),
    (read_count, 0, "count-out-of-range"), (read_count, -1, "count-out-of-range"), (read_count, 2.5, "not-whole"),
    (read_count, "three", "not-a-number"), (read_count, 10**9, "too-big"), (read_count, True, "not-a-size"),
    (read_number, -1, "negative-number"), (read_number, "x", "not-a-number"),
]  # fmt: skip


@pytest.mark.parametrize(("reader", "text", "value"), GOOD)
def test_amounts_are_read(reader: Callable[[object], Read[float]], text: object, value: float) -> None:
    read = reader(text)
    assert read.findings == ()
    assert read.value == pytest.approx(value)


@pytest.mark.parametrize(("reader", "text", "name"), BAD)
def test_amounts_in_doubt_are_asked_about(reader: Callable[[object], Read[float]], text: object, name: str) -> None:
    read = reader(text)
    assert read.value is None
    assert name in [f.name for f in read.findings]


def test_a_count_may_start_elsewhere() -> None:
    assert read_count(0, least=0).value == 0
    assert read_count(2, least=3).value is None


def test_signed_amounts() -> None:
    assert read_number(-1, signed=True).value == -1
    assert read_angle(-90, signed=True).value == pytest.approx(-math.pi / 2)
    assert read_turns(0, signed=True).value == 0


def test_a_share_may_be_allowed_above_the_whole() -> None:
    assert read_share("150 %", most=5).value == 1.5
