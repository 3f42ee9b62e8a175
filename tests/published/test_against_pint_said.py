"""Against pint, the general library of units, 0.25: units of books, and what is read and said of amounts.

Kind: reference library. Every unit that a printed figure may carry; feet and inches, pounds and ounces, thousandths,
shares and turns as they are read; lengths, masses, volumes, heats, turns and shares as they are said, each to half a
unit of its last printed place. Reckoned another way.
"""

import re
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction

import pint
import pytest

from bickern.iron.steel import STEELS
from bickern.measure.money import Money
from bickern.measure.units.amounts import read_count, read_mass, read_share, read_turns
from bickern.measure.units.bars import read_section
from bickern.measure.units.read import read_length
from bickern.measure.units.say import (
    say_angle,
    say_area,
    say_both,
    say_length,
    say_mass,
    say_percent,
    say_temperature,
    say_turns,
    say_volume,
)
from bickern.measure.units.scales import SCALES
from bickern.measure.units.words import Shape, Style, System

UNITS = pint.UnitRegistry(autoconvert_offset_to_baseunit=True)
INCHES, METRIC = Style(System.INCH), Style(System.MM)
PLAIN = {
    "in": "inch", "ft": "foot", "yd": "yard", "mm": "millimeter", "cm": "centimeter", "m": "meter",
    "oz": "ounce", "lb": "pound", "g": "gram", "kg": "kilogram", "l": "liter", "ml": "milliliter",
    "gal(US)": "gallon", "gal(UK)": "imperial_gallon", "floz(US)": "US_fluid_ounce", "pint(US)": "pint",
    "quart(US)": "quart", "bushel(US)": "bushel", "rad": "radian", "deg": "degree", "turn": "turn",
    "K": "kelvin", "%": "percent", "": "dimensionless", "1": "dimensionless", "t": "metric_ton",
    "pint(UK)": "imperial_pint", "quart(UK)": "imperial_quart", "floz(UK)": "imperial_fluid_ounce",
    "cwt": "UK_hundredweight",
}  # fmt: skip
HEATS = {"C": "degC", "F": "degF"}


def si(number: float, unit: str) -> float:
    return float(UNITS.Quantity(number, unit).to_base_units().magnitude)


def theirs(name: str) -> str:
    """`lb/ft2` as pint writes it."""
    top, _, bottom = name.partition("/")

    def one(word: str) -> str:
        if word in PLAIN:
            return PLAIN[word]
        return f"{PLAIN[word[:-1]]}**{word[-1]}"

    return f"{one(top)}/({one(bottom)})" if bottom else one(top)


@pytest.mark.parametrize("name", [n for n in SCALES if n not in HEATS])
def test_every_unit_that_a_book_prints(name: str) -> None:
    base = UNITS.Quantity(7.0, theirs(name)).to_base_units()
    size = base.to("dimensionless" if base.dimensionless else base.units).magnitude
    if SCALES[name].unit.startswith("kg"):
        size = (
            UNITS.Quantity(7.0, theirs(name))
            .to(SCALES[name].unit.replace("m2", "m**2").replace("m3", "m**3"))
            .magnitude
        )
    assert SCALES[name].si(7.0) == pytest.approx(float(size), rel=1e-12)
    assert SCALES[name].printed(float(size)) == pytest.approx(7.0, rel=1e-12)


@pytest.mark.parametrize("name", HEATS)
@pytest.mark.parametrize("heat", [-40.0, 0.0, 68.0, 1450.0])
def test_heats_that_a_book_prints(name: str, heat: float) -> None:
    kelvin = si(heat, HEATS[name])
    assert SCALES[name].si(heat) == pytest.approx(kelvin, rel=1e-12)
    assert SCALES[name].printed(kelvin) == pytest.approx(heat, abs=1e-9)


@pytest.mark.parametrize(
    ("text", "parts"),
    [
        ("3 ft 7 1/2 in", [(3, "foot"), (7.5, "inch")]),
        ("1' 6\"", [(1, "foot"), (6, "inch")]),
        ("12 ft 11 15/16 in", [(12, "foot"), (11.9375, "inch")]),
        ("5 thou", [(5, "thou")]),
        ("35 cm", [(35, "centimeter")]),
        ("2 m", [(2, "meter")]),
    ],
)
def test_lengths_as_they_are_written(text: str, parts: list[tuple[float, str]]) -> None:
    assert read_length(text, System.MM).value == pytest.approx(sum(si(n, unit) for n, unit in parts), rel=1e-12)


@pytest.mark.parametrize(
    ("text", "parts"),
    [
        ("3 lb 8 oz", [(3, "pound"), (8, "ounce")]),
        ("2 lb 15 1/2 oz", [(2, "pound"), (15.5, "ounce")]),
        ("1 lb 17 oz", [(1, "pound"), (17, "ounce")]),
        ("2 kilo", [(2, "kilogram")]),
        ("250 g", [(250, "gram")]),
        ("9 oz", [(9, "ounce")]),
    ],
)
def test_masses_as_they_are_written(text: str, parts: list[tuple[float, str]]) -> None:
    read = read_mass(text)
    assert read.value == pytest.approx(sum(si(n, unit) for n, unit in parts), rel=1e-12)
    over = any(unit == "ounce" and UNITS.Quantity(n, unit) >= UNITS.Quantity(1, "pound") for n, unit in parts)
    assert ("ounces-over-a-pound" in {f.name for f in read.findings}) is over


@pytest.mark.parametrize(
    ("text", "number"), [("2.5 %", 2.5), ("100 %", 100), ("12 1/2 percent", 12.5), ("1 per cent", 1)]
)
def test_shares(text: str, number: float) -> None:
    assert read_share(text).value == pytest.approx(si(number, "percent"), rel=1e-12)


def test_a_share_is_no_more_than_the_whole() -> None:
    for number in (100.5, 101):
        assert UNITS.Quantity(number, "percent") > 1
        (found,) = read_share(f"{number} %").findings
        whole = UNITS.Quantity(1, "dimensionless").to("percent").magnitude
        assert f"between 0 and {whole:g} %" in found.says


@pytest.mark.parametrize(("text", "number", "unit"), [("540 deg", 540, "degree"), ("1 1/2 turns", 1.5, "turn")])
def test_turns(text: str, number: float, unit: str) -> None:
    turns = UNITS.Quantity(number, unit).to("turn").magnitude
    assert read_turns(text).value == pytest.approx(turns, rel=1e-12)


@pytest.mark.parametrize("text", ["1", "12", "12 off"])
def test_counts_are_whole_and_begin_at_one(text: str) -> None:
    count = UNITS.Quantity(int(text.removesuffix(" off")), "count")
    assert read_count(text).value == count.magnitude
    assert read_count("0").value is None
    assert read_count("1 1/2").value is None


SHAPES = {
    "3/4 sq": (Shape.SQUARE, [0.75]),
    "3/4 rd": (Shape.ROUND, [0.75]),
    "3/4 hex": (Shape.HEXAGON, [0.75]),
    "3/4 oct": (Shape.OCTAGON, [0.75]),
    "3/4 half rd": (Shape.HALF_ROUND, [0.75]),
    "1 x 1/4": (Shape.FLAT, [1, 0.25]),
    "1 x 1/8 tube": (Shape.TUBE, [1, 0.125]),
    "1 x 1/8 sq tube": (Shape.SQUARE_TUBE, [1, 0.125]),
    "1 x 1/2 oval": (Shape.OVAL, [1, 0.5]),
}


@pytest.mark.parametrize("text", SHAPES)
def test_bars_as_they_are_ordered(text: str) -> None:
    """As many sizes as the shape takes; one fewer or more is asked about."""
    shape, sizes = SHAPES[text]
    read = read_section(text, System.INCH).value
    assert read is not None
    assert (read.shape, read.sizes) == (shape, pytest.approx([si(n, "inch") for n in sizes], rel=1e-12))
    word = text.partition(" x ")[2].partition(" ")[2] if " x " in text else text.partition(" ")[2]
    for few in ("2 x 1 x 1/2", *(["1"] if len(sizes) == 2 else ["1 x 1/2"])):
        assert read_section(f"{few} {word or 'flat'}", System.INCH).value is None


def said(text: str) -> tuple["pint.Quantity", float]:
    """What is said, and half a unit of its last place: `1 lb 8 oz`, `3 1/4 in`, `82.5 mm`, `12 UK pints`."""
    words = {"US fl oz": "US_fluid_ounce", "US gal": "gallon", "UK fl oz": "imperial_fluid_ounce", "UK gal":
             "imperial_gallon", "UK pints": "imperial_pint", "sq in": "inch**2", "sq ft": "foot**2", "sq cm": "cm**2",
             "sq m": "m**2", "l": "liter", "ml": "milliliter", "%": "percent", "turns": "turn", "°": "degree",
             "in": "inch", "ft": "foot"}  # fmt: skip
    total, half = None, 0.0
    for whole, top, bottom, alone, unit in re.findall(
        r"(?:(\d+(?:\.\d+)?)(?: (\d+)/(\d+))?|(\d+/\d+)) ?((?:US |UK )?(?:fl |sq )?[a-z%°]+)", text
    ):
        number = float(Fraction(alone)) if alone else float(whole) + (int(top) / int(bottom) if top else 0.0)
        places = len(whole.partition(".")[2]) if whole else 0
        part = UNITS.Quantity(number, words.get(unit, unit))
        fine = 0.5 / int(bottom) if bottom else 0.5 / int(alone.partition("/")[2]) if alone else 0.5 / 10**places
        half = float(UNITS.Quantity(fine, words.get(unit, unit)).to_base_units().magnitude)
        total = part if total is None else total + part
    assert total is not None, text
    return total, half


def holds(text: str, value: float, within: float = 0.004) -> None:
    """The text says the value [SI] to half a unit of its last place, and that is closer than `within` of it."""
    told, half = said(text)
    assert float(told.to_base_units().magnitude) == pytest.approx(value, abs=half * 1.0001), text
    assert half <= within * value, text


def on_the_tape(text: str, metres: float, step: float) -> None:
    """The text says the mark of the tape that is nearest."""
    told = float(said(text)[0].to("meter").magnitude)
    assert told == pytest.approx(metres, abs=step * 0.5001), text
    assert told / step == pytest.approx(round(told / step), abs=1e-6), text


@pytest.mark.parametrize("inches", [10.3125, 17.53, 31.99, 71.94])
def test_lengths_as_they_are_said(inches: float) -> None:
    metres = si(inches, "inch")
    on_the_tape(say_length(metres, INCHES), metres, si(1 / 16, "inch"))
    on_the_tape(say_length(metres, METRIC), metres, si(0.5, "mm"))
    first, second = say_both(metres, INCHES)[:-1].split(" (")
    on_the_tape(first, metres, si(1 / 16, "inch"))
    on_the_tape(second, metres, si(0.5, "mm"))
    thousandths = re.findall(r"\(([\d.]+)\)", say_both(metres, INCHES, fit=True))
    assert float(thousandths[0]) == pytest.approx(inches, abs=0.00051)
    assert len(thousandths[0].partition(".")[2]) == 3


@pytest.mark.parametrize("inches", [73.5, 120.0, 421.33])
def test_feet_beside_inches(inches: float) -> None:
    metres = si(inches, "inch")
    first, second = say_length(metres, Style(System.INCH, feet=True)).split(" = ")
    on_the_tape(first, metres, si(1 / 16, "inch"))
    on_the_tape(second, metres, si(1 / 16, "inch"))
    feet = UNITS.Quantity(inches, "inch").to("foot").magnitude
    assert second.startswith(f"{int(feet)} ft")


@pytest.mark.parametrize("ounces", [11.5, 15.5, 25.0, 47.0, 319.0, 500.0])
def test_masses_as_they_are_said(ounces: float) -> None:
    kg = si(ounces, "ounce")
    told, half = said(say_mass(kg, INCHES))
    assert told.to("ounce").magnitude == pytest.approx(
        ounces, abs=UNITS.Quantity(half, "kg").to("ounce").magnitude * 1.001
    )
    if ounces < 320:  # to the ounce, below a pound to half of one
        assert told.to("ounce").magnitude == pytest.approx(ounces, abs=1e-9)
    if ounces >= 16:
        assert say_mass(kg, INCHES).startswith(f"{int(ounces // 16)} lb")
    holds(say_mass(kg, METRIC), kg)


@pytest.mark.parametrize("grains", [3.0, 15.0, 40.0])
def test_light_things_are_said_to_two_figures(grains: float) -> None:
    kg = si(grains, "grain")
    holds(say_mass(kg, INCHES), kg, 0.06)
    holds(say_mass(kg, METRIC), kg, 0.06)


@pytest.mark.parametrize(
    "amount", [(99.0, "US_fluid_ounce"), (127.0, "US_fluid_ounce"), (1.28, "gallon"), (9.97, "gallon")]
)
def test_volumes_as_they_are_said(amount: tuple[float, str]) -> None:
    m3 = si(*amount)
    holds(say_volume(m3, INCHES), m3, 0.0051)
    holds(say_volume(m3, METRIC), m3)


@pytest.mark.parametrize(
    "amount",
    [(9.5, "imperial_fluid_ounce"), (7.5, "imperial_pint"), (1.28, "imperial_gallon"), (9.97, "imperial_gallon")],
)
def test_imperial_volumes_as_they_are_said(amount: tuple[float, str]) -> None:
    m3 = si(*amount)
    told, _ = said(say_volume(m3, Style(System.INCH, imperial=True)))
    assert told.to(amount[1]).magnitude == pytest.approx(amount[0], rel=1e-9)


@pytest.mark.parametrize("amount", [(99.7, "inch**2"), (9.97, "foot**2"), (997, "cm**2"), (0.997, "m**2")])
def test_areas_as_they_are_said(amount: tuple[float, str]) -> None:
    m2 = si(*amount)
    for style in (INCHES, METRIC):
        holds(say_area(m2, style), m2, 0.0051)


@pytest.mark.parametrize("celsius", range(400, 1400, 7))
def test_heats_as_they_are_said(celsius: int) -> None:
    """Both scales, each to its nearest five degrees."""
    kelvin = si(celsius, "degC")
    fahrenheit = UNITS.Quantity(kelvin, "kelvin").to("degF").magnitude
    for style in (INCHES, METRIC):
        told = {scale: int(n) for n, scale in re.findall(r"(\d+) °([CF])", say_temperature(kelvin, style))}
        assert told["C"] == pytest.approx(celsius, abs=2.5)
        assert told["F"] == pytest.approx(fahrenheit, abs=2.5 + 1e-6)
        assert told["C"] % 5 == told["F"] % 5 == 0


@pytest.mark.parametrize("degrees", [90.0, 178.62, 22.5, 359.96])
def test_angles_as_they_are_said(degrees: float) -> None:
    holds(say_angle(si(degrees, "degree")), si(degrees, "degree"), 1.0)


@pytest.mark.parametrize("eighths", [1, 2, 4, 8, 9, 12, 99, 803])
def test_turns_as_they_are_said(eighths: int) -> None:
    """Eighths as fractions, one and less in the singular; others to a hundredth."""
    turns = UNITS.Quantity(45 * eighths, "degree").to("turn").magnitude
    text = say_turns(turns)
    assert said(text)[0].to("turn").magnitude == pytest.approx(turns, rel=1e-12)
    assert "." not in text
    assert text.endswith("turn") is (turns <= 1)
    holds(say_turns(turns + 0.0612), si(turns + 0.0612, "turn"), 1.0)
    assert "." in say_turns(turns + 0.0612)


@pytest.mark.parametrize("share", [0.987, 0.555, 0.0247, 0.000637, 0.000052])
def test_shares_as_they_are_said(share: float) -> None:
    holds(say_percent(share), share, 0.051)


MONEY = pint.UnitRegistry(non_int_type=Decimal)
MONEY.define("dollar = [money]")
MONEY.define("cent = 0.01 dollar")


@pytest.mark.parametrize("amount", ["12.5", "0.005", "1.994999", "7.125", "123456.785"])
def test_money_is_rounded_to_whole_cents(amount: str) -> None:
    cents = MONEY.Quantity(Decimal(amount), "dollar").to("cent").magnitude
    whole = int(cents.to_integral_value(rounding=ROUND_HALF_UP))
    ours = Money(Decimal(amount), "USD").rounded()
    assert MONEY.Quantity(ours.amount, "dollar").to("cent").magnitude == whole
    nickel = Money(Decimal(amount), "USD").rounded(Decimal("0.05")).amount
    assert abs(MONEY.Quantity(nickel, "dollar").to("cent").magnitude - cents) <= Decimal("2.5")


@pytest.mark.parametrize(
    ("name", "number", "unit", "within"),
    [("S235JR", 235, "MPa", 1e-12), ("S355J2", 355, "MPa", 1e-12), ("A36", 36, "kilopsi", 0.0075)],
)
def test_a_steel_called_by_its_yield(name: str, number: float, unit: str, within: float) -> None:
    """The number in the name (EN 10027-1; ASTM A36, whose metric twin is rounded up to 250; both from memory)."""
    known = STEELS[name].yield_cold
    assert known is not None
    assert known.value == pytest.approx(si(number, unit), rel=within)
    assert str(number) in name
