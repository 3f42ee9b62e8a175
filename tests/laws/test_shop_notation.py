"""What must always hold of reading and printing: what is printed reads back, and nothing a user types raises."""

import math
from decimal import Decimal
from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from bickern.measure.money import read_money
from bickern.measure.units import read as r
from bickern.measure.units.say import say_both, say_length, say_section, say_turns, say_up, up_to_step
from bickern.measure.units.words import INCH, SectionWords, Shape, Style, System

SYSTEMS = st.sampled_from([System.INCH, System.MM, None])
STYLES = st.sampled_from([Style(), Style(System.MM)])
INCHY = "0123456789/ .-xin'\"?mmgasqrdftX½,%"


@given(st.integers(1, 16 * 400))
def test_a_sixteenth_reads_back_to_the_last_bit(sixteenths: int) -> None:
    exact = float(Fraction(sixteenths, 16) * Fraction(127, 5000))
    for style in (Style(), Style(inch_denominator=32), Style(inch_denominator=64)):
        assert r.read_length(say_length(exact, style), System.MM).value == exact
        assert r.read_length(say_length(exact, style, unit=False), System.INCH).value == exact


@given(st.integers(1, 64 * 40))
def test_a_fit_reads_back(sixty_fourths: int) -> None:
    exact = float(Fraction(sixty_fourths, 64) * Fraction(127, 5000))
    assert r.read_length(say_length(exact, Style(), fit=True), System.MM).value == exact


@given(st.integers(1, 20_000))
def test_half_a_millimetre_reads_back(halves: int) -> None:
    exact = float(Fraction(halves, 2000))
    assert r.read_length(say_length(exact, Style(System.MM)), System.INCH).value == exact


@given(st.integers(1, 20_000))
def test_a_tenth_of_a_millimetre_reads_back_from_a_fit(tenths: int) -> None:
    exact = float(Fraction(tenths, 10_000))
    assert r.read_length(say_length(exact, Style(System.MM), fit=True), System.INCH).value == exact


@given(st.floats(1e-4, 20.0), STYLES)
def test_both_systems_read_back_near_enough(metres: float, style: Style) -> None:
    read = r.read_length(say_both(metres, style), None)
    assert read.value is not None
    assert [f for f in read.findings if f.stops] == []
    step = INCH / 16 if style.first is System.INCH else 0.0005
    assert abs(read.value - metres) <= step / 2 * (1 + 1e-6)


@given(st.floats(1e-4, 20.0), STYLES)
def test_what_is_cut_is_never_short_and_never_a_step_too_long(metres: float, style: Style) -> None:
    step = INCH / style.inch_denominator if style.first is System.INCH else style.mm_step / 1000
    cut = up_to_step(metres, style)
    assert -1e-9 <= cut - metres <= step * (1 + 1e-6)
    said = r.read_length(say_up(metres, style), None).value
    assert said is not None
    assert -1e-7 <= said - metres <= step * (1 + 1e-6)


@given(st.floats(1e-9, 100.0), STYLES, st.booleans())
def test_no_length_prints_as_nothing(metres: float, style: Style, fit: bool) -> None:
    assert not say_length(metres, style, fit=fit).startswith(("0 ", "-"))


@given(st.integers(1, 80))
def test_turns_read_back(eighths: int) -> None:
    assert r.read_turns(say_turns(eighths / 8)).value == eighths / 8


@given(
    st.sampled_from([Shape.SQUARE, Shape.ROUND, Shape.HEXAGON, Shape.OCTAGON, Shape.HALF_ROUND]), st.integers(1, 190)
)
def test_bars_read_back(shape: Shape, sixty_fourths: int) -> None:
    size = float(Fraction(sixty_fourths, 64) * Fraction(127, 5000))
    assert r.read_section(say_section(shape, (size,), Style()), None).value == SectionWords(shape, (size,))


ANYTHING = st.one_of(
    st.text(max_size=80),
    st.text(INCHY, max_size=30),
    st.floats(),
    st.integers(),
    st.decimals(),
    st.none(),
    st.booleans(),
    st.lists(st.integers(), max_size=2),
)


@given(ANYTHING, SYSTEMS)
def test_nothing_a_user_types_raises(text: object, system: System | None) -> None:
    found = [
        r.read_length(text, system), r.read_length(text, system, signed=True), r.read_section(text, system),
        r.read_thickness(text, system), r.read_sizes(text, system), r.read_angle(text), r.read_turns(text),
        r.read_number(text), r.read_count(text), r.read_share(text), r.read_temperature(text), r.read_mass(text),
        read_money(text, "USD"),
    ]  # fmt: skip
    for read in found:
        assert (read.value is None) == any(f.stops for f in read.findings)
        assert all(len(f.says) < 400 and f.says.isprintable() for f in read.findings)


@given(ANYTHING, SYSTEMS)
def test_a_length_is_above_nothing_and_finite(text: object, system: System | None) -> None:
    value = r.read_length(text, system).value
    assert value is None or (math.isfinite(value) and value > 0)


@given(st.integers(1, 10**5), st.sampled_from([1, 10, 100, 1000]))
def test_decimals_are_read_exactly(digits: int, scale: int) -> None:
    text = str(Decimal(digits) / scale)
    value = r.read_length(f"{text} mm", System.INCH).value
    assert value == float(Fraction(digits, scale * 1000))
