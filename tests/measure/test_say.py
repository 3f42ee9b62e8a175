"""What is printed, in both systems."""

import math

import pytest

from bickern.measure.units import say
from bickern.measure.units.words import INCH, POUND, Shape, Style, System

IN = Style()
MM = Style(first=System.MM)


@pytest.mark.parametrize(
    ("inches", "said", "both", "fit"),
    [
        (3.25, "3 1/4 in", "3 1/4 in (82.5 mm)", "3 1/4 in (3.250) / 82.6 mm"),
        (17 / 32, "9/16 in", "9/16 in (13.5 mm)", "17/32 in (.531) / 13.5 mm"),
        (13.07, "13 1/16 in", "13 1/16 in (332 mm)", "13 1/16 in (13.070) / 332 mm"),
        (12.9999, "13 in", "13 in (330 mm)", "13 in (13.000) / 330.2 mm"),
        (-0.75, "-3/4 in", "-3/4 in (-19 mm)", "-3/4 in (-.750) / -19.1 mm"),
        (0, "0 in", "0 in (0 mm)", "0 in / 0 mm"),
    ],
)
def test_lengths_in_an_inch_shop(inches: float, said: str, both: str, fit: str) -> None:
    assert say.say_length(inches * INCH, IN) == said
    assert say.say_both(inches * INCH, IN) == both
    assert say.say_both(inches * INCH, IN, fit=True) == fit


def test_lengths_in_a_millimetre_shop() -> None:
    assert say.say_both(3.25 * INCH, MM) == "82.5 mm (3 1/4 in)"
    assert say.say_both(17 / 32 * INCH, MM, fit=True) == "13.5 mm / 17/32 in (.531)"
    assert say.say_length(0.0825, Style(System.MM, comma=True)) == "82,5 mm"
    assert say.say_length(0.0825, MM, unit=False) == "82.5"


@pytest.mark.parametrize(
    ("inches", "said"), [(3 / 32, "3/32 in"), (1 / 32, "1/32 in"), (1 / 64, "1/64 in"), (0.003, "0.003 in")]
)
def test_small_lengths_take_a_finer_step_and_never_print_as_nothing(inches: float, said: str) -> None:
    assert say.say_length(inches * INCH, IN) == said


@pytest.mark.parametrize(("mm", "said"), [(0.8, "0.8 mm"), (0.04, "0.04 mm"), (0.0004, "0.0004 mm"), (1.6, "1.5 mm")])
def test_small_millimetres(mm: float, said: str) -> None:
    assert say.say_length(mm / 1000, MM) == said


def test_only_rounding_dust_prints_as_nothing() -> None:
    assert say.say_length(1e-15, IN) == "0 in"
    assert say.say_length(-1e-15, MM) == "0 mm"


def test_half_steps_go_up() -> None:
    assert say.say_length((2 + 1 / 32) * INCH, IN) == "2 1/16 in"
    assert say.say_length(0.01225, MM) == "12.5 mm"


def test_cut_this_is_the_next_mark_and_never_short() -> None:
    assert say.say_up(13.07 * INCH, IN) == "13 1/8 in"
    assert say.say_up(3.25 * INCH, IN) == "3 1/4 in"
    assert say.say_up_both(3.25 * INCH, MM) == "83 mm (3 1/4 in)"
    assert say.up_to_step(13.07 * INCH, IN) == pytest.approx(13.125 * INCH)
    assert say.up_to_step(0.0822, MM) == pytest.approx(0.0825)


@pytest.mark.parametrize(
    ("shape", "sizes", "inch_shop", "both"),
    [
        (Shape.SQUARE, (0.375 * INCH,), "3/8 in sq", "3/8 in sq (9.5 mm)"),
        (Shape.FLAT, (INCH, INCH / 4), "1 x 1/4 in", "1 x 1/4 in (25.4 x 6.4 mm)"),
        (Shape.TUBE, (INCH, INCH / 8), "1 x 1/8 in tube", "1 x 1/8 in tube (25.4 x 3.2 mm)"),
        (Shape.ROUND, (INCH * 3 / 32,), "3/32 in rd", "3/32 in rd (2.4 mm)"),
        (Shape.ROUND, (0.008,), "8 mm rd", "8 mm rd (5/16 in)"),
        (Shape.FLAT, (0.025, 0.006), "25 x 6 mm", "25 x 6 mm (63/64 x 15/64 in)"),
        (Shape.ROUND, (None,), "? in rd", "? in rd (? mm)"),
        (Shape.POINT, (), "point", "point"),
    ],
)
def test_sections(shape: Shape, sizes: tuple[float | None, ...], inch_shop: str, both: str) -> None:
    assert say.say_section(shape, sizes, IN) == inch_shop
    assert say.say_section_both(shape, sizes, IN) == both


def test_a_section_without_its_unit_only_where_the_unit_is_the_shops_own() -> None:
    assert say.say_section(Shape.SQUARE, (0.375 * INCH,), IN, unit=False) == "3/8 sq"
    assert say.say_section(Shape.ROUND, (0.008,), IN, unit=False) == "8 mm rd"


@pytest.mark.parametrize(
    ("turns", "said"),
    [(1.5, "1 1/2 turns"), (1, "1 turn"), (0.25, "1/4 turn"), (1.37, "1.37 turns"), (0, "0 turns"), (2, "2 turns")],
)
def test_turns(turns: float, said: str) -> None:
    assert say.say_turns(turns) == said


def test_angles_shares_and_temperatures() -> None:
    assert say.say_angle(math.radians(178.6)) == "178.6°"
    assert say.say_angle(math.pi / 2) == "90°"
    assert say.say_percent(0.025) == "2.5 %"
    assert say.say_percent(0.00023) == "0.023 %"
    assert say.say_temperature(1423.15, IN) == "2100 °F (1150 °C)"
    assert say.say_temperature(1423.15, MM) == "1150 °C (2100 °F)"


@pytest.mark.parametrize(
    ("kg", "inch_shop", "mm_shop"),
    [
        (0.24, "8 1/2 oz", "240 g"),
        (0.68, "1 lb 8 oz", "680 g"),
        (1.36, "3 lb", "1.36 kg"),
        (25 * POUND, "25 lb", "11.3 kg"),
        (0.003, "0.11 oz", "3 g"),
    ],
)
def test_masses(kg: float, inch_shop: str, mm_shop: str) -> None:
    assert say.say_mass(kg, IN) == inch_shop
    assert say.say_mass(kg, MM) == mm_shop
    assert say.say_mass_both(kg, IN) == f"{inch_shop} ({mm_shop})"


def test_areas_and_volumes() -> None:
    assert say.say_area(0.08, IN) == "124 sq in"
    assert say.say_area_both(0.3, MM) == "0.3 sq m (3.23 sq ft)"
    assert say.say_volume_both(145e-6, IN) == "4.9 US fl oz (145 ml)"
    assert say.say_volume_both(231 * INCH**3, IN) == "1 US gal (3.79 l)"  # the US gallon is 231 cubic inches, exact


@pytest.mark.parametrize(
    ("mm", "said"),
    [
        (13.7, "17/32 in (.539) / 13.7 mm"),  # 35/64 would be .547
        (13.79, "17/32 in (.542) / 13.7 mm"),
        (12.7, "1/2 in (.500) / 12.7 mm"),
    ],
)
def test_the_most_is_rounded_down(mm: float, said: str) -> None:
    assert say.say_down_both(mm / 1000, IN) == said


def test_long_lengths_in_feet_where_that_is_wanted() -> None:
    feet = Style(feet=True)
    long = (35 * 12 + 1 + 21 / 64) * INCH
    assert say.say_length(long, feet, fit=True) == "421 21/64 in (421.328) = 35 ft 1 21/64 in"
    assert say.say_up_both(long, feet) == "421 3/8 in = 35 ft 1 3/8 in (10702 mm)"
    assert say.say_both(72 * INCH, feet) == "72 in = 6 ft (1829 mm)"
    assert say.say_both(71.5 * INCH, feet) == "71 1/2 in (1816 mm)"
    assert say.say_both(72 * INCH, IN) == "72 in (1829 mm)"
    assert "ft" not in say.say_both(long, Style(System.MM, feet=True))


def test_vessels_in_uk_measures() -> None:
    # Imperial gallon of 4.54609 l: 8 pints, 160 fluid ounces
    uk, litre = Style(imperial=True), 1e-3
    assert say.say_volume_both(9.09218 * litre, uk) == "2 UK gal (9.09 l)"
    assert say.say_volume_both(1.13652 * litre, uk) == "2 UK pints (1.14 l)"
    assert say.say_volume_both(0.284131 * litre, uk) == "10 UK fl oz (284 ml)"
    assert say.say_volume_both(1.13652 * litre, say.other_first(uk)) == "1.14 l (2 UK pints)"
