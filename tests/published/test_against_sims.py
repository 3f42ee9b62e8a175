"""Against L. Sims, The Backyard Blacksmith, p. 101.

Kind: book. Quoted by a secondary page (iforgeiron.com, topic 7232).
"""

import pytest
from chosen import shop_of
from shelf import Printed, book

from bickern.iron.section import Section
from bickern.measure.units.words import INCH, Shape
from bickern.parts.joint.bundle import bundle_girth
from bickern.parts.joint.reckon import reckon_joint
from bickern.parts.joint.spec import JointKind, JointRules, JointSpec

SQUARE = Section(Shape.SQUARE, 0.5 * INCH, 0.5 * INCH)


@book("sims")
def test_figure(row: Printed) -> None:
    row.holds()


def test_the_same_through_the_main_question_with_the_other_rules_beside_it():
    """P. 101 (quoted): 3 1/4, and every other published rule within the inside line, 3, and sharp corners, 3 1/2.

    The two sides are exact mathematics: the girth, and a middle line with sharp corners.
    """
    spec = JointSpec(JointKind.COLLAR, ("left.bar", "right.bar"), section=Section(Shape.FLAT, 0.5 * INCH, 0.125 * INCH))
    made = reckon_joint(spec, JointRules(), 7850.0, None, girth=bundle_girth([SQUARE, SQUARE])).value
    assert made is not None
    assert made.metal / INCH == pytest.approx(3.25, abs=0.005)
    assert len(made.also) > 1
    assert all(3.0 < length / INCH < 3.5 for _, length, _ in made.also)


def test_the_shops_choice_of_two_thicknesses() -> None:
    """P. 101 (quoted): two 1/2 squares and a collar 1/8 thick take 3 1/4."""
    spec = JointSpec(JointKind.COLLAR, (), section=Section(Shape.FLAT, 0.5 * INCH, 0.125 * INCH))
    rules = shop_of("joints: {collar: perimeter + 2 t}").joint
    made = reckon_joint(spec, rules, 7850.0, None, girth=bundle_girth([SQUARE, SQUARE])).value
    assert made is not None
    assert made.metal / INCH == pytest.approx(3.25, abs=0.005)
