"""Lengths as smiths write them: what is read, and what is asked about."""

from decimal import Decimal

import pytest

from bickern.measure.finding import Weight
from bickern.measure.units.read import read_length, read_sizes
from bickern.measure.units.words import INCH, System

IN, MM = System.INCH, System.MM

READ_IN_INCHES = [
    ("3/8", 3 / 8), ("3 1/4 in", 3.25), ('3-1/4"', 3.25), ("3-1/4", 3.25), ("1' 6\"", 18), ("1'-6 1/2\"", 18.5),
    ("1 ft 6 in", 18), ("2 feet", 24), ("4'", 48), (".5", 0.5), ("5.", 5), ("2.5", 2.5), ("1.5", 1.5), (0.375, 0.375),
    (Decimal("1.25"), 1.25), (3, 3), ("½", 0.5), ("1½", 1.5), ("1 ½ in", 1.5), ("⅜”", 0.375), ("3’ 4″", 40),
    ("3–1/4", 3.25), ("3\u00a01/4\u2009in", 3.25), ("1/2 in.", 0.5), ("1/2 inches", 0.5), ("6/16", 0.375),
    ("3⁄8", 0.375), ("10 thou", 0.01), ("1 1/2''", 1.5), ("17/32 in (.531)", 17 / 32), ("3 1/4 in (82.5 mm)", 3.25),
    ("3.80 in", 3.8), ("1/64", 1 / 64),
]  # fmt: skip

READ_IN_MM = [
    ("8", 8), ("8 mm", 8), ("2.5 cm", 25), ("1.2 m", 1200), (3.8, 3.8), ("1.5", 1.5), ("1 in", 25.4), ("3/8 in", 9.525),
]  # fmt: skip


@pytest.mark.parametrize(("text", "inches"), READ_IN_INCHES)
def test_an_inch_job_reads(text: object, inches: float) -> None:
    read = read_length(text, IN)
    assert read.findings == ()
    assert read.value == pytest.approx(inches * INCH, rel=1e-15)


@pytest.mark.parametrize(("text", "mm"), READ_IN_MM)
def test_a_millimetre_job_reads(text: object, mm: float) -> None:
    read = read_length(text, MM)
    assert read.findings == ()
    assert read.value == pytest.approx(mm / 1000, rel=1e-15)


STOPPED = [
    ("3.8", IN, "looks-like-fraction"), (5.8, IN, "looks-like-fraction"), ("7.8", IN, "looks-like-fraction"),
    ("1.4", IN, "looks-like-fraction"), ("3.4", IN, "looks-like-fraction"), ("5.16", IN, "looks-like-fraction"),
    ("1.2", IN, "looks-like-fraction"), ("11/2", IN, "improper-fraction"), ("17/8", IN, "improper-fraction"),
    ("1 9/8", IN, "improper-fraction"), ("3/8", MM, "fraction-in-mm-job"), ("1 1/2", MM, "fraction-in-mm-job"),
    ("3", None, "no-units"), (10, None, "no-units"), ("1,5 mm", MM, "decimal-comma"), ("1,000", IN, "decimal-comma"),
    ("3 - 1/4", IN, "spaced-dash"), ("3/0", IN, "zero-denominator"), ("-3", IN, "negative-size"), (0, IN, "zero-size"),
    ("", IN, "empty"), ("   ", IN, "empty"), (None, IN, "empty"), (True, IN, "not-a-size"), ("abc", IN, "not-a-size"),
    ([1], IN, "not-a-size"), ({"a": 1}, IN, "not-a-size"),
    ("inf", IN, "not-a-size"), ("nan", IN, "not-a-size"), (float("inf"), IN, "not-a-number"),
    (float("nan"), IN, "not-a-number"), (Decimal("NaN"), IN, "not-a-number"), (Decimal("sNaN"), IN, "not-a-number"),
    (1e99, IN, "too-big"), (Decimal("1e999999"), IN, "too-big"), (Decimal("1e-999999"), IN, "too-small"),
    ("9" * 50, IN, "too-big"), ("9" * 500, IN, "too-long"), ("1e5", IN, "power-of-ten"),
    ("2 km", IN, "unknown-unit"), ("12 parsecs", IN, "unknown-unit"), ("1 000", IN, "not-a-number"),
    ("1 1", IN, "not-a-number"), ("٣", IN, "not-a-size"), ("0.00000001 mm", MM, "too-small"),
    ("1' 6 mm", IN, "unknown-unit"),
    ("1/2-3/4", IN, "not-a-number"), ("1.5/2", IN, "not-a-number"), ("2000 m", MM, "too-big"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "system", "name"), STOPPED)
def test_what_cannot_be_known_is_asked_about(text: object, system: System | None, name: str) -> None:
    read = read_length(text, system)
    assert read.value is None
    assert [f.name for f in read.findings if f.stops] == [name]
    assert read.findings[-1].try_this


def test_a_number_of_five_thousand_digits_is_only_too_big() -> None:
    assert [f.name for f in read_length(10**5000, IN).findings] == ["too-big"]


WARNED = [
    ("1' 6", IN, 18, "feet-and-inches"), ("1 ft 6", IN, 18, "feet-and-inches"), ("6' 13\"", IN, 85, "feet-and-inches"),
    ("3.8 in", IN, 3.8, "looks-like-fraction"), ("3/7", IN, 3 / 7, "odd-denominator"),
    ("3/2", IN, 1.5, "improper-fraction"),
    ("3/8 mm", MM, 0.375 / 25.4, "fraction-of-mm"), ("3 in (90 mm)", IN, 3, "two-sizes"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "system", "inches", "name"), WARNED)
def test_what_is_strange_is_read_with_a_warning(text: str, system: System, inches: float, name: str) -> None:
    read = read_length(text, system)
    assert read.value == pytest.approx(inches * INCH)
    assert [(f.name, f.weight) for f in read.findings] == [(name, Weight.WARN)]


def test_a_feet_mark_alone_says_how_it_was_understood() -> None:
    assert "18 in" in read_length("1' 6", IN).findings[0].says


def test_the_lost_slash_names_both_ways_out() -> None:
    try_this = read_length("3.8", IN).findings[0].try_this
    assert "`3/8`" in try_this
    assert "`3.80 in`" in try_this


def test_an_improper_fraction_names_its_readings() -> None:
    try_this = read_length("111/16", IN).findings[0].try_this
    assert "`1 11/16`" in try_this
    assert "`11 1/16`" in try_this


def test_decimals_that_stand_on_an_inch_tape_are_left_alone() -> None:
    for text in ("0.5", "1.5", "2.25", "3.75", "1.125", "2.0625", "7.5", "0.25"):
        assert read_length(text, IN).findings == ()


def test_signed_lengths_may_be_less_than_nothing_or_nothing() -> None:
    assert read_length("-3/8", IN, signed=True).value == pytest.approx(-0.375 * INCH)
    assert read_length("-1' 6\"", IN, signed=True).value == pytest.approx(-18 * INCH)
    assert read_length(0, IN, signed=True).value == 0


SIZES = [
    ("48 x 24", IN, (48, 24)), ("3/4 x 1 3/8", IN, (0.75, 1.375)), ("4' x 8'", IN, (48, 96)),
    ("4 x 8 ft", IN, (48, 96)),
    ("600 x 300 mm", IN, (600 / 25.4, 300 / 25.4)), ("600×300", MM, (600 / 25.4, 300 / 25.4)),
    ("1/4 in x 20 mm", IN, (0.25, 20 / 25.4)), ("48x24", IN, (48, 24)), ("1/4 in x 20", IN, (0.25, 20)),
]  # fmt: skip


@pytest.mark.parametrize(("text", "system", "inches"), SIZES)
def test_sizes_keep_their_order(text: str, system: System, inches: tuple[float, ...]) -> None:
    read = read_sizes(text, system)
    assert read.findings == ()
    assert read.value == pytest.approx(tuple(i * INCH for i in inches))


@pytest.mark.parametrize(
    ("text", "system", "name"),
    [
        ("25 mm x 6", IN, "unit-on-one-size"),
        ("4' x 8", IN, "unit-on-one-size"),
        ("1/4 in x 20", MM, "unit-on-one-size"),
        ("48 x", IN, "not-a-size"),
        ("48 x ?", IN, "not-a-size"),
        ("48 x 24", None, "no-units"),
        ("48 x -24", IN, "negative-size"),
    ],
)
def test_sizes_in_doubt_are_asked_about(text: str, system: System | None, name: str) -> None:
    read = read_sizes(text, system)
    assert read.value is None
    assert name in [f.name for f in read.findings]
