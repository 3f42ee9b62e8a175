"""Against C. C. Sleffel, Working in Metals (The Library of Work and Play), Doubleday, Page, 1911.

Kind: book. Read in the source. Sizes to eighths, metal left in shoulders and scarfs. A link of 3/8 round from 6 in has
no finished size in print and is not held.
"""

from math import pi

import pytest
from chosen import shop_of
from shelf import Printed, book

from bickern.iron.section import Section
from bickern.measure.units.words import INCH, Shape
from bickern.parts.bar.allowances import BarRules
from bickern.parts.bar.reckon import reckon_bar
from bickern.parts.bar.result import BarResult
from bickern.parts.bar.tracks import (
    BarSpec,
    Blank,
    Metal,
    SectionGoal,
)
from bickern.parts.joint.reckon import reckon_joint
from bickern.parts.joint.spec import JointKind, JointSpec
from bickern.parts.ring.reckon import reckon_ring
from bickern.parts.ring.spec import Closing, RingRules, RingSpec

BARE = BarRules(scale_worked=(0.0, 0.0, 0.0), scale_kept=(0.0, 0.0, 0.0), weld="none")


def rd(size: float) -> Section:
    return Section(Shape.ROUND, size * INCH, size * INCH)


def sq(size: float) -> Section:
    return Section(Shape.SQUARE, size * INCH, size * INCH)


def reckoned(spec: BarSpec, rules: BarRules = BARE) -> BarResult:
    read = reckon_bar(spec, rules, 7850.0)
    assert read.value is not None, read.findings
    return read.value


def drawn(stock: Section, length: float, start: Section, end: Section | None = None) -> float:
    goal = SectionGoal(end) if end else None
    asked = Metal(Blank.OPEN, start=SectionGoal(start), end=goal, name="drawn")
    return reckoned(BarSpec("b", stock, "mild", (asked,), stock_length=length * INCH)).solved[0].value / INCH


def flat(wide: float, thick: float) -> Section:
    return Section(Shape.FLAT, wide * INCH, thick * INCH)


STEEL = 7850.0


@book("sleffel")
def test_figure(row: Printed) -> None:
    row.holds()


def test_sleffel_gate_hook() -> None:
    """C. C. Sleffel, Working in Metals, 1911, gate hook (read): 1 1/8 of 5/16 sq to 2 1/8 of 1/4 rd; 5 % short."""
    exact = drawn(sq(5 / 16), 1.125, rd(0.25))
    assert exact == pytest.approx(1.125 * (5 / 16) ** 2 / (pi / 4 * 0.25**2), rel=1e-12)
    assert 0.94 * exact <= 2.125 <= exact


def test_sleffel_harness_hook() -> None:
    """C. C. Sleffel, Working in Metals, 1911, harness hook (read): 3/8 rd flattened to 1/2 x 1/8.

    4 in of flat takes 2.26 of round: the length is ours from the printed sections (exact mathematics).
    """
    spec = BarSpec("b", rd(0.375), "mild", (Metal(4 * INCH, start=SectionGoal(flat(0.5, 0.125))),))
    assert reckoned(spec).stock_bare / INCH == pytest.approx(4 * 0.0625 / (pi / 4 * 0.375**2), rel=1e-12)


def test_sleffel_flat_ring_bent_the_hard_way():
    # C. C. Sleffel, Working in Metals, 1911, iron ring (read in the source): 1 x 3/16, 3 inside, 5 outside, cut 13 1/2.
    # Upset and two scarfs are within: exact <= printed <= exact + 1 width
    bar = Section(Shape.FLAT, 3 / 16 * INCH, INCH)  # standing on its edge: an inch is bent
    ring = reckon_ring(
        RingSpec("ring", bar, "mild", outside_across=5 * INCH, closing=Closing.WELDED), RingRules(), STEEL
    ).value
    assert ring is not None
    assert ring.inside_across / INCH == pytest.approx(3)
    assert ring.bare / INCH <= 13.5 <= ring.stock.value / INCH


def test_a_rivet_by_the_shops_choice() -> None:
    """Tongs (read): a 3/8 rivet takes 3/8 for its head, 7/8 through 1/2; transcribed."""
    rules = shop_of("joints: {rivet: grip + 1 d}").joint
    made = reckon_joint(JointSpec(JointKind.RIVET, (), size=3 / 8 * INCH), rules, 7850.0, 0.5 * INCH).value
    assert made is not None
    assert made.metal / INCH == pytest.approx(7 / 8, abs=1e-9)
