"""Collars against lengths that smiths printed, the girth found from the bars themselves."""

import pytest

from bickern.iron.section import Section
from bickern.measure.units.words import INCH, Shape
from bickern.parts.joint.bundle import bundle_girth
from bickern.parts.joint.reckon import reckon_joint
from bickern.parts.joint.rules import collar_length
from bickern.parts.joint.spec import JointKind, JointRules, JointSpec

SQUARE = Section(Shape.SQUARE, 0.5 * INCH, 0.5 * INCH)
FLAT = Section(Shape.FLAT, 0.5 * INCH, 0.25 * INCH)


def test_sims_two_half_inch_squares():
    # L. Sims, The Backyard Blacksmith, p. 101 (quoted by a secondary page): 1/8 collar, 3 1/4 in
    girth = bundle_girth([SQUARE, SQUARE])
    assert collar_length("perimeter + 2 t", girth, 0.125 * INCH) / INCH == pytest.approx(3.25, abs=0.01)


def test_printed_two_flats_with_a_thick_collar():
    # a smith's published notes (quoted by a secondary page): two 1/4 x 1/2, 3/16 collar, 2 3/8 in
    girth = bundle_girth([FLAT, FLAT])
    assert collar_length("perimeter + 2 t", girth, 3 / 16 * INCH) / INCH == pytest.approx(2.375, abs=0.01)


def test_the_same_through_the_main_question_with_the_other_rules_beside_it():
    spec = JointSpec(JointKind.COLLAR, ("left.bar", "right.bar"), section=Section(Shape.FLAT, 0.5 * INCH, 0.125 * INCH))
    made = reckon_joint(spec, JointRules(), 7850.0, None, girth=bundle_girth([SQUARE, SQUARE])).value
    assert made is not None
    assert made.metal / INCH == pytest.approx(3.25, abs=0.01)  # Sims, p. 101 (quoted)
    also = {name: length / INCH for name, length, _ in made.also}
    # F. Whitaker, The Blacksmith's Cookbook (rule quoted by a secondary page): perimeter + 2 1/2 t when lapped
    assert also["perimeter + 2 1/2 t"] == pytest.approx(3 + 2.5 / 8)
    # a middle line with sharp corners would be 3.5, the inside line 3.0: all rules lie between (exact mathematics)
    assert all(3.0 < length < 3.5 for length in also.values())
