"""Bars and sheet as they are ordered."""

import pytest

from bickern.measure.finding import Weight
from bickern.measure.units.read import read_section, read_thickness
from bickern.measure.units.words import INCH, GaugeSystem, GaugeWords, Shape, System

IN, MM = System.INCH, System.MM

SECTIONS = [
    ("3/8 sq", Shape.SQUARE, (0.375,)), ("3/8 square", Shape.SQUARE, (0.375,)), ("3/8sq", Shape.SQUARE, (0.375,)),
    ('3/8" sq', Shape.SQUARE, (0.375,)), ("3/8 sq bar", Shape.SQUARE, (0.375,)), ("sq 3/8", Shape.SQUARE, (0.375,)),
    ("1/2 x 1/2", Shape.SQUARE, (0.5,)), ("½ sq", Shape.SQUARE, (0.5,)),
    ("1/4 rd", Shape.ROUND, (0.25,)), ("1/4 round", Shape.ROUND, (0.25,)), ("1/4 dia", Shape.ROUND, (0.25,)),
    ("8 mm rd", Shape.ROUND, (8 / 25.4,)), ("ø8 mm", Shape.ROUND, (8 / 25.4,)), ("? rd", Shape.ROUND, (None,)),
    ("1 x 1/4", Shape.FLAT, (1, 0.25)), ("1 x 1/4 flat", Shape.FLAT, (1, 0.25)), ("1x1/4", Shape.FLAT, (1, 0.25)),
    ("1 × 1/4", Shape.FLAT, (1, 0.25)), ("1/4 x 1", Shape.FLAT, (1, 0.25)), ("1 x ?", Shape.FLAT, (1, None)),
    ("25 x 6 mm", Shape.FLAT, (25 / 25.4, 6 / 25.4)), ("1/4 in x 20 mm", Shape.FLAT, (20 / 25.4, 0.25)),
    ("1 x 0", Shape.FLAT, (1, 0)), ("? x ?", Shape.FLAT, (None, None)),
    ("1/2 hex", Shape.HEXAGON, (0.5,)), ("1/2 oct", Shape.OCTAGON, (0.5,)),
    ("3/4 half round", Shape.HALF_ROUND, (0.75,)),
    ("3/4 half-round", Shape.HALF_ROUND, (0.75,)), ("3/4 half rd", Shape.HALF_ROUND, (0.75,)),
    ("1 tube x 1/8", Shape.TUBE, (1, 0.125)), ("1 x 1/8 tube", Shape.TUBE, (1, 0.125)),
    ("1 x 1/8 sq tube", Shape.SQUARE_TUBE, (1, 0.125)), ("1 x 1/2 oval", Shape.OVAL, (1, 0.5)),
    ("point", Shape.POINT, ()),
]  # fmt: skip


@pytest.mark.parametrize(("text", "shape", "inches"), SECTIONS)
def test_sections_are_read(text: str, shape: Shape, inches: tuple[float | None, ...]) -> None:
    read = read_section(text, IN)
    assert read.findings == ()
    assert read.value is not None
    assert read.value.shape is shape
    expected = [None if i is None else pytest.approx(i * INCH) for i in inches]
    assert list(read.value.sizes) == expected


def test_a_bare_size_takes_the_unit_of_the_job() -> None:
    read = read_section("25 x 6", MM)
    assert read.value is not None
    assert read.value.sizes == pytest.approx((0.025, 0.006))


@pytest.mark.parametrize(
    ("text", "system", "name"),
    [
        ("3/8", IN, "no-shape"),
        ("25 x 6", IN, "looks-like-mm"),
        ("10 sq", IN, "looks-like-mm"),
        ("3.8 sq", IN, "looks-like-fraction"),
        ("3/8 sq", MM, "fraction-in-mm-job"),
        ("3/8 sq", None, "no-units"),
        ("25 mm x 6", IN, "unit-on-one-size"),
        ("1/2 pipe", IN, "pipe-size"),
        ("sq round 3", IN, "two-shapes"),
        ("0 rd", IN, "zero-size"),
        ("0 x 0", IN, "zero-size"),
        ("-1/4 rd", IN, "negative-size"),
        ("1 x 16 ga", IN, "gauge-in-section"),
        ("3/8 x 1/2 sq", IN, "sizes-for-shape"),
        ("1 x 2 x 3", IN, "sizes-for-shape"),
        ("1 flat", IN, "sizes-for-shape"),
        ("sq", IN, "no-size"),
        ("point 3", IN, "sized-point"),
        ("thick", IN, "not-a-size"),
        ("half as thick", IN, "not-a-size"),
        ("", IN, "empty"),
    ],
)
def test_bars_in_doubt_are_asked_about(text: str, system: System | None, name: str) -> None:
    read = read_section(text, system)
    assert read.value is None
    assert name in [f.name for f in read.findings if f.stops]


def test_inches_in_a_millimetre_job_are_warned_of() -> None:
    read = read_section(".375 sq", MM)
    assert [(f.name, f.weight) for f in read.findings] == [("looks-like-inches", Weight.WARN)]


@pytest.mark.parametrize(
    ("text", "number", "system"),
    [
        ("16 SWG", 16, GaugeSystem.SWG),
        ("16 US ga", 16, GaugeSystem.US),
        ("16 ga US", 16, GaugeSystem.US),
        ("24 ga galvanised", 24, GaugeSystem.GALVANISED),
        ("24 galvanized gauge", 24, GaugeSystem.GALVANISED),
        ("10 BWG", 10, GaugeSystem.BWG),
        ("18 awg", 18, GaugeSystem.AWG),
        ("18 B&S", 18, GaugeSystem.AWG),
    ],
)
def test_gauges_with_a_system(text: str, number: int, system: GaugeSystem) -> None:
    read = read_thickness(text, IN)
    assert read.value == GaugeWords(number, system)
    assert read.findings == ()


@pytest.mark.parametrize("text", ["16 ga", "16ga", "16 gauge", "# 16 ga", "16 gage"])
def test_a_gauge_without_a_system_is_noted(text: str) -> None:
    read = read_thickness(text, IN)
    assert read.value == GaugeWords(16, None)
    assert [(f.name, f.weight) for f in read.findings] == [("gauge-system-not-named", Weight.NOTE)]


def test_a_thickness_may_be_a_size() -> None:
    assert read_thickness("1/16", IN).value == pytest.approx(INCH / 16)
    assert read_thickness("1.5", MM).value == pytest.approx(0.0015)


@pytest.mark.parametrize("text", ["ga", "16 16 ga", "16 ga mm", "16 swg us", "160 ga"])
def test_gauges_in_doubt_are_asked_about(text: str) -> None:
    read = read_thickness(text, IN)
    assert read.value is None
    assert read.findings[0].name == "not-a-gauge"


@pytest.mark.parametrize(
    ("text", "number", "system"),
    [("4/0 SWG", -3, GaugeSystem.SWG), ("0000 AWG", -3, GaugeSystem.AWG), ("00 BWG", -1, GaugeSystem.BWG),
     ("2/0 ga", -1, None), ("0 SWG", 0, GaugeSystem.SWG)],
)  # fmt: skip
def test_gauges_over_nought(text: str, number: int, system: GaugeSystem | None) -> None:
    assert read_thickness(text, IN).value == GaugeWords(number, system)


@pytest.mark.parametrize("text", ["8/0 SWG", "1/0 SWG", "14/0 SWG", "00000000 SWG", "² ga"])
def test_what_no_gauge_has_is_asked_about(text: str) -> None:
    assert [f.name for f in read_thickness(text, IN).findings] == ["not-a-gauge"]


def test_a_bare_whole_number_of_sheet_looks_like_a_gauge() -> None:
    assert [f.name for f in read_thickness("16", IN).findings] == ["looks-like-gauge"]
    for text in ("3", "41", "16 in", "16.5", "1/2"):
        assert not read_thickness(text, IN).findings
    # plate of 16 mm is sold, and not bent cold
    assert read_thickness("16", MM).value == pytest.approx(0.016)
    assert [f.name for f in read_thickness("16", MM, bent=True).findings] == ["looks-like-gauge"]
    assert read_thickness("12", MM, bent=True).value == pytest.approx(0.012)


@pytest.mark.parametrize("text", ["1 x 1 x 1/8 angle", "2 angle iron", "3 channel"])
def test_rolled_sections_are_not_known(text: str) -> None:
    assert [f.name for f in read_section(text, IN).findings] == ["rolled-section"]
