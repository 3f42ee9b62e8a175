"""Against scipy (quadrature, roots) and numpy, general libraries of numerics, 1.17: bars.

Kind: reference library. Lengths are summed along the line or integrated, lengths of stock are found as roots of what is
left of them. Reckoned another way.
"""

import math
from dataclasses import replace

import numpy as np
import pytest
from numpy.typing import NDArray
from scipy import integrate, optimize

from bickern.iron.section import Section
from bickern.measure.units.words import INCH, Shape
from bickern.parts.bar.allowances import BarRules, without_fire
from bickern.parts.bar.reckon import reckon_bar
from bickern.parts.bar.result import BarResult
from bickern.parts.bar.says import both
from bickern.parts.bar.tracks import (
    Anchor,
    BarSpec,
    BendLeg,
    Blank,
    Metal,
    Place,
    ScrollLeg,
    SectionGoal,
    StraightLeg,
    Twist,
)

BARE = without_fire(BarRules())
SQUARE = Section(Shape.SQUARE, 0.012, 0.012)
Points = NDArray[np.float64]


def reckoned(spec: BarSpec, rules: BarRules = BARE) -> BarResult:
    read = reckon_bar(spec, rules, 7850.0)
    assert read.value is not None, read.findings
    return read.value


def turned(axis: Points, angle: float) -> Points:
    """A rotation about an axis, as the exponential of its matrix by many small steps."""
    x, y, z = axis * angle / 2**20
    step = np.eye(3) + np.array([[0, -z, y], [z, 0, -x], [-y, x, 0]])
    return np.linalg.matrix_power(step, 2**20)


@pytest.mark.parametrize("turns", [0.25, 0.125, -0.3, 1.1])
def test_a_twist_between_two_bends_turns_the_second(turns: float) -> None:
    """The line is walked in small steps in space; the balance is that of its chords."""
    metal, way = (Metal(Blank.REST),), BendLeg(1.2, 0.03)
    path = (StraightLeg(0.2), way, StraightLeg(0.15, "twisted"), way, StraightLeg(0.1))
    twist = Twist(turns, 0.1, Place(Anchor.MIDDLE_OF, "twisted"))
    result = reckoned(BarSpec("bar", SQUARE, "S235JR", metal, path, (twist,)))
    frame, points, n = np.eye(3), [np.zeros(3)], 400  # along, left, up are the columns
    for leg in path:
        long = leg.length if isinstance(leg, StraightLeg) else (leg.inside_radius + 0.006) * leg.angle
        bend = turned(frame[:, 2], leg.angle / n) if isinstance(leg, BendLeg) else np.eye(3)
        roll = turns * 2 * math.pi / n if isinstance(leg, StraightLeg) and leg.name else 0.0
        for _ in range(n):
            before = frame
            frame = bend @ frame
            if roll:
                frame = turned(frame[:, 0], roll) @ frame
            points.append(points[-1] + long / n * (before[:, 0] + frame[:, 0]) / 2)
    line = np.array(points)
    chords = np.linalg.norm(np.diff(line, axis=0), axis=1)
    balance = (chords[:, None] * (line[1:] + line[:-1]) / 2).sum(axis=0) / chords.sum()
    assert result.length == pytest.approx(chords.sum(), rel=1e-5)
    assert result.centre_of_mass == pytest.approx(tuple(balance), abs=2e-6)


def test_a_twist_that_shortens_is_drawn_so_much_longer() -> None:
    """A tenth of the twisted length is lost: what is drawn for it is the root of `length less a tenth = finished`."""
    rules = BarRules(twist_shortening=0.1, scale_worked=(0.0, 0.0, 0.0))
    twist = Twist(2.0, 0.09, Place(plus=0.05))
    path = (StraightLeg(0.2), BendLeg(1.0, 0.03), StraightLeg(0.1))
    result = reckoned(BarSpec("bar", SQUARE, "S235JR", (Metal(Blank.REST),), path, (twist,)), rules)
    drawn = optimize.brentq(lambda x: x - 0.1 * x - 0.09, 0.0, 1.0, xtol=1e-14)
    places = [m.at for m in result.marks_on_drawn]
    assert places[:3] == pytest.approx([0.05, 0.05 + drawn, 0.2 + drawn - 0.09], abs=1e-12)
    line, _ = integrate.quad(lambda _: 0.036, 0.0, 1.0)
    assert result.stock.value == pytest.approx(0.3 + line + drawn - 0.09, rel=1e-9)


def test_where_a_shoulder_falls_when_the_fire_takes_its_share() -> None:
    """Priors are told for 3/8 in square: of such bar so long a piece is taken that 95 % of it is what is wanted."""
    stock, small = (Section(Shape.SQUARE, size * INCH, size * INCH) for size in (3 / 8, 1 / 4))
    rules = BarRules(scale_kept=(0.01, 0.05, 0.1), scale_worked=(0.0, 0.0, 0.0))
    spec = BarSpec("bar", stock, "S235JR", (Metal(0.1), Metal(0.09, start=SectionGoal(small))))
    result = reckoned(spec, rules)
    spans = [optimize.brentq(lambda x, s=share: x * (1 - s) - 0.1, 0.0, 1.0, xtol=1e-14) for share in (0.05, 0.01, 0.1)]
    behind = 0.09 * (1 / 4) ** 2 / (3 / 8) ** 2
    assert result.marks_on_stock[0].at == pytest.approx(spans[0], abs=1e-12)
    found = (result.stock.value, result.stock.low, result.stock.high)
    assert found == pytest.approx(tuple(s + behind for s in spans), rel=1e-12)


@pytest.mark.parametrize(("thin", "thick"), [(0.004, 0.008), (0.008, 0.004)])
def test_a_scroll_in_a_taper(thin: float, thick: float) -> None:
    """The inside face is the spiral told; the middle line lies half of the thickness there outside it, all along."""
    turns, inner, outer = 1.25, 0.02, 0.08
    ends = [Section(Shape.FLAT, t, 0.02) for t in (thin, thick)]
    taper = Metal(Blank.REST, start=SectionGoal(ends[0]), end=SectionGoal(ends[1]))
    spec = BarSpec("scroll", ends[1], "S235JR", (taper,), (ScrollLeg(turns, inner, outer),))
    angle = 2 * math.pi * turns

    def middle(t: float) -> float:
        share = t / angle  # of the way round: the thickness grows a little more evenly along the bar than so
        return inner + (outer - inner) * share + (thin + (thick - thin) * share) / 2

    rate = (middle(1.0) - middle(0.0)) / 1.0
    length, _ = integrate.quad(lambda t: math.hypot(middle(t), rate), 0.0, angle)
    assert reckoned(spec).length == pytest.approx(length, rel=2e-3)


@pytest.mark.parametrize(("first", "last"), [(0.02, 0.08), (0.08, 0.02), (0.05, 0.05001)])
def test_the_third_of_turns_and_two_radii(first: float, last: float) -> None:
    from_centre = first < last
    leg = ScrollLeg(1.75, min(first, last), max(first, last), from_centre=from_centre)
    result = reckoned(BarSpec("scroll", SQUARE, "S235JR", (Metal(Blank.REST),), (leg,)))
    angle = 2 * math.pi * 1.75
    rate = (last - first) / angle
    length, _ = integrate.quad(lambda t: math.hypot(first + 0.006 + rate * t, rate), 0.0, angle)
    assert result.length == pytest.approx(length, rel=1e-9)


@pytest.mark.parametrize("outside", [False, True])
def test_a_scroll_turned_inside_out_is_told_by_its_inside_faces(outside: bool) -> None:
    """What is left of the length, by quadrature, fixes the other end; words tell both less half of the bar."""
    turns, length, told_radius = 2.0, 1.0 if not outside else 2.0, 0.1
    angle, mean = 2 * math.pi * turns, told_radius + 0.006

    def left(other: float) -> float:
        rate = (other - mean) / angle
        return integrate.quad(lambda t: math.hypot(mean + rate * t, rate), 0.0, angle)[0] - length

    other = optimize.brentq(left, 0.02, 0.4, xtol=1e-13)
    inner, outer = (other, mean) if outside else (mean, other)
    radii = {"inside_radius": None, "outside_radius": told_radius} if outside else {}
    leg = replace(ScrollLeg(turns, told_radius, None, length), **radii)
    read = reckon_bar(BarSpec("scroll", SQUARE, "S235JR", (Metal(length),), (leg,)), BARE, 7850.0)
    (found,) = (f for f in read.findings if f.name == "scroll-inside-out")
    assert f"would open from {both(inner - 0.006)} to {both(outer - 0.006)} inside" in found.says
    round_of_it = integrate.quad(lambda _: mean, 0.0, angle)[0]
    assert both(round_of_it) in str(found)
