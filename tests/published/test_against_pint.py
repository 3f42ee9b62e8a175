"""Against pint 0.25, a general library of units.

Kind: reference library. Lengths, masses, temperatures and angles, read and printed here, against it. It is only given
plain text that it reads rightly. That it reads `1 1/2 in` as half an inch and `1,5 mm` as fifteen millimetres is shown
too: this is why shop notation has a reader of its own.
"""

import re

import pint
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bickern.iron.steel import STEELS
from bickern.measure.units.read import read_angle, read_length, read_mass, read_temperature
from bickern.measure.units.say import say_area, say_mass, say_volume
from bickern.measure.units.words import FOOT, INCH, POUND, Style, System

UNITS = pint.UnitRegistry()


def metres(text: str) -> float:
    return float(UNITS.parse_expression(text).to("m").magnitude)


@pytest.mark.parametrize(("ours", "theirs"), [(INCH, "1 inch"), (FOOT, "1 foot")])
def test_lengths_of_the_units(ours: float, theirs: str) -> None:
    assert ours == pytest.approx(metres(theirs), rel=1e-15)


def test_the_pound() -> None:
    assert float(UNITS.parse_expression("1 pound").to("kg").magnitude) == pytest.approx(POUND, rel=1e-15)


@settings(max_examples=60, deadline=None)
@given(st.integers(1, 99999), st.integers(0, 4), st.sampled_from(["mm", "cm", "m", "in", "ft"]))
def test_decimal_lengths(digits: int, places: int, unit: str) -> None:
    text = f"{digits / 10**places:.{places}f} {unit}"
    read = read_length(text, System.MM)
    expected = metres(text)
    if 1e-6 < expected < 1000:
        assert read.value == pytest.approx(expected, rel=1e-14)


@pytest.mark.parametrize("fraction", ["3/8", "1/64", "31/32", "7/16", "5/2"])
def test_plain_fractions(fraction: str) -> None:
    read = read_length(f"{fraction} in", System.MM)
    assert read.value == pytest.approx(metres(f"{fraction} inch"), rel=1e-14)


@pytest.mark.parametrize(("text", "unit"), [("1150 C", "degC"), ("2100 F", "degF"), ("72.5 F", "degF")])
def test_temperatures(text: str, unit: str) -> None:
    expected = UNITS.Quantity(float(text.split()[0]), unit).to("K").magnitude
    assert read_temperature(text).value == pytest.approx(expected, rel=1e-12)


@pytest.mark.parametrize("text", ["3.5 lb", "8 oz", "680 g", "1.5 kg"])
def test_masses(text: str) -> None:
    expected = UNITS.parse_expression(text).to("kg").magnitude
    assert read_mass(text).value == pytest.approx(expected, rel=1e-14)


@pytest.mark.parametrize(("text", "theirs"), [("22.5 deg", "22.5 degree"), ("1/4 turn", "0.25 turn")])
def test_angles(text: str, theirs: str) -> None:
    expected = UNITS.parse_expression(theirs).to("radian").magnitude
    assert read_angle(text).value == pytest.approx(expected, rel=1e-14)


INCHES, METRIC = Style(System.INCH), Style(System.MM)
PINT_WORDS = (("US fl oz", "US_fluid_ounce"), ("US gal", "gallon"), ("sq in", "inch**2"), ("sq ft", "foot**2"),
              ("sq cm", "cm**2"), ("sq m", "m**2"), ("ml", "milliliter"))  # fmt: skip


def printed(text: str) -> "pint.Quantity":
    """What bickern prints, read by pint: `1 lb 8 oz` is a sum, and its fractions are plain ones."""
    text = re.sub(r" l$", " liter", text)
    for ours, theirs in PINT_WORDS:
        text = text.replace(ours, theirs)
    parts = re.findall(r"(\d+(?:\.\d+)?)(?: (\d+)/(\d+))? ([A-Za-z_*0-9]+)", text)
    assert parts, text
    amounts = [(float(whole) + (int(a) / int(b) if a else 0), unit) for whole, a, b, unit in parts]
    return sum(
        (UNITS.Quantity(n, UNITS.parse_units(u)) for n, u in amounts[1:]), UNITS.Quantity(amounts[0][0], amounts[0][1])
    )


@settings(max_examples=40, deadline=None)
@given(st.floats(0.05, 500))
def test_printed_masses(kg: float) -> None:
    # half an ounce under a pound, an ounce under 20 lb, then a pound; a gram, 10 g, 100 g
    step = 0.5 / 32 if kg < POUND else 0.5 / 16 if kg < 20 * POUND else 0.5
    assert printed(say_mass(kg, INCHES)).to("pound").magnitude == pytest.approx(kg / POUND, abs=step * 1.001)
    step = 0.0005 if kg < 1 else 0.005 if kg < 10 else 0.05
    assert printed(say_mass(kg, METRIC)).to("kg").magnitude == pytest.approx(kg, abs=step * 1.001)


@settings(max_examples=40, deadline=None)
@given(st.floats(1e-4, 5.0))
def test_printed_areas(m2: float) -> None:
    for style in (INCHES, METRIC):  # three figures
        assert printed(say_area(m2, style)).to("m**2").magnitude == pytest.approx(m2, rel=0.0051)


@settings(max_examples=40, deadline=None)
@given(st.floats(3e-5, 0.05))
def test_printed_volumes(m3: float) -> None:
    assert printed(say_volume(m3, INCHES)).to("m**3").magnitude == pytest.approx(m3, rel=0.051)  # two figures or more
    assert printed(say_volume(m3, METRIC)).to("m**3").magnitude == pytest.approx(m3, rel=0.0051)


def test_densities_of_the_books() -> None:
    """480 and 490 lb/ft3 as kg/m3: how far the density that is used lies from what the books print."""
    wrought, steel = (UNITS.Quantity(n, "pound/foot**3").to("kg/m**3").magnitude for n in (480, 490))
    assert STEELS["wrought iron"].density.value == pytest.approx(wrought, rel=2e-3)
    assert STEELS["S235JR"].density.value == pytest.approx(steel, rel=2e-3)


def test_why_a_general_reader_is_not_given_what_a_smith_types() -> None:
    assert metres("1 1/2 in") == pytest.approx(0.0127)
    assert read_length("1 1/2 in", System.INCH).value == pytest.approx(0.0381)
    assert metres("1,5 mm") == pytest.approx(0.015)
    assert [f.name for f in read_length("1,5 mm", System.MM).findings] == ["decimal-comma"]
