"""Eyes and hoops by the shop's choice of rule: the bar they take, what comes out, and what stays as it was asked."""

from dataclasses import replace
from math import pi

import pytest

from bickern.iron.section import Section
from bickern.measure.finding import Finding
from bickern.measure.units.words import INCH, Shape
from bickern.parts.bar.allowances import BarRules
from bickern.parts.bar.eyes import reckon_eye
from bickern.parts.bar.reckon import reckon_bar
from bickern.parts.bar.result import BarResult
from bickern.parts.bar.tracks import BarSpec, Blank, EyeLeg, HoopLeg, Metal, StraightLeg
from bickern.parts.eye import EYE_RULES, eye_length

BARE = BarRules(scale_worked=(0.0, 0.0, 0.0), weld="none")
BY_HOLE = replace(BARE, eye="3 1/7 x the hole")
ROUND = Section(Shape.ROUND, 0.5 * INCH, 0.5 * INCH)


def hook(inside: float, straight: float | Blank = 2 * INCH, length: float | Blank = Blank.OPEN) -> BarSpec:
    path = (EyeLeg(inside * INCH, name="eye"), StraightLeg(straight, name="shank"))
    return BarSpec("hook", ROUND, "mild", (Metal(Blank.REST),), path, stock_length=length)


def made(spec: BarSpec, rules: BarRules) -> BarResult:
    result = reckon_bar(spec, rules, 7850.0).value
    assert result is not None
    return result


def short(spec: BarSpec, rules: BarRules) -> list[Finding]:
    return [f for f in reckon_bar(spec, rules, 7850.0).findings if "shop's rule" in f.says]


@pytest.mark.parametrize("rule", [r.name for r in EYE_RULES])
def test_an_eye_takes_what_its_rule_says(rule: str) -> None:
    bar = made(hook(3), replace(BARE, eye=rule))
    assert bar.length == pytest.approx(eye_length(rule, 3 * INCH, 3.5 * INCH) + 2 * INCH)
    assert bar.stock_bare == pytest.approx(bar.length)


def test_the_drawing_stays_as_asked_and_the_eye_that_comes_out_is_said() -> None:
    usual, by_hole = made(hook(3), BARE), made(hook(3), BY_HOLE)
    assert by_hole.legs == usual.legs
    assert by_hole.sizes.reach == pytest.approx(usual.sizes.reach, abs=1e-6)
    assert by_hole.bends[0].strain == usual.bends[0].strain
    (said,) = short(hook(3), BY_HOLE)
    # by hand: (22/7 x 3)/pi - 1/2 = 2.5012 inside
    assert (said.name, said.stops) == ("eye-comes-small", False)
    assert "comes out 2 1/2 in" in said.says
    assert not short(hook(3), BARE)
    assert not short(hook(3), replace(BARE, eye="3 1/7 x mean diameter"))


def test_what_each_other_rule_would_take_stands_beside() -> None:
    """By hand: a shank of 2, then pi x 3 1/2, 22/7 x 3 1/2 = 11, or 22/7 x 3 round the eye."""
    bars = {rule.name: 2 * INCH for rule in EYE_RULES}
    eyes = {"mean diameter": pi * 3.5, "3 1/7 x mean diameter": 11.0, "3 1/7 x the hole": 66 / 7}
    for rules in (BARE, BY_HOLE):
        also = {label.removeprefix("length along the bar, eyes by "): x for label, x, _ in made(hook(3), rules).also}
        assert also.keys() == bars.keys() - {rules.eye}
        assert all(x == pytest.approx(eyes[name] * INCH + 2 * INCH) for name, x in also.items())


@pytest.mark.parametrize(("centred", "past"), [(True, 1.75), (False, 1.0)])
def test_how_far_an_eye_reaches_past_its_mark(centred: bool, past: float) -> None:
    """By hand: 1 in 1/2 is 2 across; on the line its middle lies 3/4 past the mark, beside it level with it."""
    read = reckon_eye(ROUND, 1 * INCH, BarRules(), 7850.0, centred=centred)
    assert read.value is not None
    assert read.value.past == pytest.approx(past * INCH)
    assert (read.value.mean_across, read.value.weld) == (pytest.approx(1.5 * INCH), 0.0)


def test_the_rest_of_a_given_bar_is_what_the_rule_leaves() -> None:
    """20 in of bar: the shank is what the eye does not take (by hand)."""
    bar = made(hook(3, Blank.REST, 20 * INCH), BY_HOLE)
    shank = 20 - 3 * 22 / 7
    assert next(s.value for s in bar.solved if "shank" in s.name) / INCH == pytest.approx(shank)
    assert bar.length / INCH == pytest.approx(20)


@pytest.mark.parametrize("size", ["inside_across", "mean_across", "outside_across"])
def test_a_hoop_goes_by_its_own_hole_whichever_size_is_told(size: str) -> None:
    told = {"inside_across": 10.0, "mean_across": 10.5, "outside_across": 11.0}[size] * INCH
    spec = BarSpec("hoop", ROUND, "mild", (Metal(Blank.REST),), (HoopLeg(**{size: told}),), closed=True)
    bar = made(spec, BY_HOLE)
    assert bar.length / INCH == pytest.approx(10 * 22 / 7)
    assert bar.sizes.reach / INCH == pytest.approx(11, abs=1e-3)
    assert [f.name for f in short(spec, BY_HOLE)] == ["eye-comes-small"]


def test_an_eye_that_the_rule_closes_is_a_stop() -> None:
    for inside in (0.5, 0.75, 0.99):
        (said,) = short(hook(inside), BY_HOLE)
        assert (said.name, said.stops) == ("rule-closes-eye", True)
    assert [f.name for f in short(hook(1), BY_HOLE)] == ["eye-comes-small"]


def test_a_half_round_eye_goes_by_the_middle_of_its_own_metal() -> None:
    """Flat inside, its middle is 4/(3 pi) of its height up; by the hole the bar is the hole's alone."""
    half = Section(Shape.HALF_ROUND, INCH, 0.5 * INCH)
    path = (EyeLeg(6 * INCH, turn=3 * pi / 2),)
    spec = BarSpec("eye", half, "mild", (Metal(Blank.REST),), path)
    mean = made(spec, BARE).length
    assert mean / INCH == pytest.approx(pi * (6 + 2 * 0.5 * 4 / (3 * pi)))
    assert made(spec, replace(BARE, eye="3 1/7 x mean diameter")).length / mean == pytest.approx(22 / 7 / pi)
    assert made(spec, BY_HOLE).length / INCH == pytest.approx(6 * 22 / 7)
