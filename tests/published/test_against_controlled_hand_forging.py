"""Against ABANA, Controlled Hand Forging, lessons 1, 3, 5, 8 and 14, Hammer's Blow, from 2003.

Kind: course. Read in the source (lessons 8 and 14 as excerpts). The length of bar that the point of lesson 1 takes is
exact mathematics. Lesson 5 twists 1 1/2 turns in 3 in of 1/2 square in one heat, and so does the plan.
"""

from math import pi

import numpy as np
import pytest
from chosen import NO_LOSS, reckoned_by, shop_of
from sequences import heats_with
from shelf import Printed, book

from bickern.iron.section import Section
from bickern.measure.units.words import INCH, Shape
from bickern.parts.bar.allowances import BarRules
from bickern.parts.bar.reckon import reckon_bar
from bickern.parts.bar.result import BarResult
from bickern.parts.bar.tracks import (
    Anchor,
    BarSpec,
    BendLeg,
    Blank,
    Corner,
    Metal,
    Place,
    SectionGoal,
    StraightLeg,
    Twist,
)

BARE = BarRules(scale_worked=(0.0, 0.0, 0.0), scale_kept=(0.0, 0.0, 0.0), weld="none")


def sq(size: float) -> Section:
    return Section(Shape.SQUARE, size * INCH, size * INCH)


POINT = Section(Shape.POINT, 0.0, 0.0)


def reckoned(spec: BarSpec, rules: BarRules = BARE) -> BarResult:
    read = reckon_bar(spec, rules, 7850.0)
    assert read.value is not None, read.findings
    return read.value


def rd(size: float) -> Section:
    return Section(Shape.ROUND, size * INCH, size * INCH)


@book("controlled_hand_forging")
def test_figure(row: Printed) -> None:
    row.holds()


def test_square_corner_keeps_the_bar() -> None:
    """Lesson 14 (excerpt read): a square corner in 1/2 sq takes nothing from the bar, told by its inside legs.

    Legs of 3 3/4 and 15 3/4 inside; the 20 of bar and the sizes over all are exact mathematics.
    """
    corner = BendLeg(pi / 2, 0.0, corner=Corner.SQUARE)
    path = (StraightLeg(3.75 * INCH), corner, StraightLeg(15.75 * INCH))
    result = reckoned(BarSpec("b", sq(0.5), "mild", (Metal(Blank.REST),), path))
    assert result.stock_bare / INCH == pytest.approx(20.0, rel=1e-12)
    assert result.sizes.reach / INCH == pytest.approx(15.75 + 0.5, rel=1e-9)
    assert result.sizes.across / INCH == pytest.approx(3.75 + 0.5, rel=1e-9)


def test_corner_strain_of_a_lesson_twist() -> None:
    """Lesson 5 (B. Fredell; read): 1 1/2 turns in 3 of 1/2 sq. That the corners stretch 49 % is exact mathematics.

    It is the length of the corner's helix, found here by adding up many short chords.
    """
    metal = (Metal(2 * INCH), Metal(3 * INCH, name="zone"), Metal(19 * INCH))
    twist = Twist(1.5, None, Place(Anchor.START_OF, "zone"))
    result = reckoned(BarSpec("b", sq(0.5), "mild", metal, twists=(twist,)))
    assert result.twists[0].start / INCH == pytest.approx(2.0)
    along = np.linspace(0.0, 1.0, 20_001)
    corner = 0.25 * np.array([[1.0], [1.0]])
    turned = 1.5 * 2 * pi * along
    x = corner[0] * np.cos(turned) - corner[1] * np.sin(turned)
    y = corner[0] * np.sin(turned) + corner[1] * np.cos(turned)
    helix = np.linalg.norm(np.diff([x, y, 3.0 * along]), axis=0).sum()
    assert result.twists[0].corner_strain == pytest.approx(helix / 3.0 - 1.0, abs=1e-6)
    assert result.twists[0].corner_strain == pytest.approx(0.49, abs=0.005)


def rounded(rules: str) -> float:
    """Inches that a square taper 2 1/2 long becomes when it is rounded, by a shop of these rules."""
    bar = shop_of(rules).bar
    taper = Metal(2.5 * INCH, start=SectionGoal(sq(0.5)), end=SectionGoal(POINT), name="taper")
    square = reckoned(BarSpec("b", sq(0.6), "mild", (taper,)), bar).stock_bare
    long = Metal(Blank.OPEN, start=SectionGoal(rd(0.5)), end=SectionGoal(POINT), name="round")
    return reckoned(BarSpec("b", sq(0.6), "mild", (long,), stock_length=square), bar).solved[0].value / INCH


def test_a_rounded_taper_by_the_shops_choice() -> None:
    """Lesson 3, p. 12 (J. Close; read): a square taper of 2 1/2 becomes 3 when rounded, a fifth longer; transcribed."""
    assert rounded(f"bars: {{corners full: a fifth longer when rounded, {NO_LOSS}}}") == pytest.approx(3.0, rel=1e-9)


def test_full_corners_by_the_shops_choice() -> None:
    """Exact mathematics: a square as wide as a round holds 4/pi of it, so full corners make 2 1/2 into 3.183.

    The lesson's 3 lies under it: corners are not full.
    """
    full = rounded(f"bars: {{corners full: full, {NO_LOSS}}}")
    assert full == pytest.approx(2.5 * 4 / pi, rel=1e-9)
    assert full > 3.0


def test_a_slit_by_the_shops_choice() -> None:
    """Lesson 8 (read): a chisel 3/4 of the opening, 9/16 for 3/4; transcribed."""
    holes = "holes: [{size: 1/4, long: 3/4, by: slit and drift, at: 3, face: front, name: eye}]"
    pieces = f"  bar: {{bar: 1 x 1/2, steel: S235JR, metal: [{{keep: 6}}], {holes}}}"
    done = reckoned_by("bars: {slit: 3/4 of the opening}", pieces)
    assert done.copy is not None
    (made,) = done.copy.pieces
    assert isinstance(made, BarResult)
    assert made.holes[0].slit == pytest.approx(9 / 16 * INCH)


def test_a_twist_is_one_heat() -> None:
    """Lesson 5 (B. Fredell; read): 24 in of 1/2 sq, 1 1/2 turns in 3 in, begun 2 in from the end, one heat."""
    job = """pieces:
  bar:
    bar: 1/2 sq
    metal: [{keep: 2, name: end}, {keep: 3, name: twisted}, {keep: 19, name: rest of it}]
    twist: [{turns: 1 1/2, all of: twisted}]
"""
    (twist,) = heats_with(job, "twist")
    assert twist.times.value == twist.times.high == 1
    assert twist.wants.value <= twist.gives.value
