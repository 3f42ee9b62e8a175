"""What print says of single works, held against ours: two figures, and no count of blows among them."""

import pytest

from bickern.iron.heat.body import Body, Surround
from bickern.iron.heat.cooling import seconds_of_a_heat
from bickern.iron.section import Section
from bickern.making.shop import Shop
from bickern.making.work.anvil import anvil_of
from bickern.making.work.bar_bends import weld
from bickern.making.work.bar_works import works_of_bar
from bickern.making.work.fire import WELD_FALLS
from bickern.measure.units.words import INCH, Shape
from bickern.parts.bar.allowances import BarRules
from bickern.parts.bar.reckon import reckon_bar
from bickern.parts.bar.result import BarResult
from bickern.parts.bar.tracks import Anchor, BarSpec, Metal, Place, Twist


def bar(shape: Shape, size: float, length: float, *twists: Twist) -> BarResult:
    read = reckon_bar(
        BarSpec("it", Section(shape, size, size), "mild", (Metal(length),), (), twists), BarRules(), 7850.0
    )
    assert read.value is not None, read.findings
    return read.value


def test_a_lesson_twists_half_inch_square_in_one_heat():
    """ABANA, Controlled Hand Forging, lesson 5 (B. Fredell), read: 1/2 sq, 1 1/2 turns in 3 in, one heat."""
    result = bar(Shape.SQUARE, INCH / 2, 12 * INCH, Twist(1.5, 3 * INCH, Place(Anchor.DATUM, "", 2 * INCH)))
    twist = next(w for w in works_of_bar(result, Shop()) if w.does == "twist")
    gives = seconds_of_a_heat(Body(twist.thin), twist.start, twist.stop, Surround(0.85, 1.5), 3 * INCH, 2)
    assert twist.whole
    assert twist.seconds.value + Shop().hand.carry < gives.low


def test_a_link_is_welded_in_about_ten_seconds():
    """J. B. Stokes, Intermediate Blacksmithing, FAO Bulletin 88/2, 1992, job 7, read: about 10 s, fire to finish."""
    result = bar(Shape.ROUND, 0.008, 0.200)
    anvil = anvil_of(result, Shop(), "link", result.stock_section)
    work = weld(anvil, "joint", (0.0, 0.012), 0.0)
    carry = Shop().hand.carry  # the ten seconds begin at the fire
    assert work.seconds.value + carry == pytest.approx(10.0, rel=0.35)
    assert work.seconds.low + carry < 10.0 < work.seconds.high + carry
    air = Surround(0.85, 1.5)
    blows = seconds_of_a_heat(Body(work.thin), work.start, work.start - WELD_FALLS.lower, air)
    assert blows.low < 10.0 < blows.high  # so long it stays within what is taken for the welding blows
    assert seconds_of_a_heat(Body(work.thin), work.start, work.stop, air).low > 10.0  # and is still dressed after that
