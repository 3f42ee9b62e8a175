"""Against CoSIRA, The Blacksmith's Craft.

Kind: handbook. Quoted by a secondary page (a smiths' forum): ring of the mean diameter and one thickness for the weld;
collar of the girth and two thicknesses. Our rules were copied from it.
"""

from math import pi

import pytest
from chosen import inches_by, shop_of
from shelf import Printed, book

from bickern.iron.section import Section
from bickern.measure.units.words import INCH, Shape
from bickern.parts.joint.reckon import reckon_joint
from bickern.parts.joint.spec import JointKind, JointSpec
from bickern.parts.ring.reckon import reckon_ring
from bickern.parts.ring.rules import ring_length
from bickern.parts.ring.spec import Closing, RingRules, RingSpec

STEEL = 7850.0


@book("cosira")
def test_figure(row: Printed) -> None:
    row.holds()


def test_cosira_adds_one_thickness():
    # CoSIRA, The Blacksmith's Craft (rule quoted by a secondary page): pi (inside + t) + 1 t; the shop's default
    bar = Section(Shape.ROUND, 0.5 * INCH, 0.5 * INCH)
    ring = RingSpec("ring", bar, "mild", inside_across=3.5 * INCH, closing=Closing.WELDED)
    wanted = reckon_ring(ring, RingRules(), STEEL).value
    assert wanted is not None
    by_rule = ring_length("pi x mean + 1 t", 3.5 * INCH, 0.5 * INCH)
    assert by_rule / INCH == pytest.approx(pi * 4 + 0.5)
    assert wanted.stock.value == pytest.approx(by_rule)


def test_published_rules_disagree_by_no_more_than_the_spread_says():
    # the weld rules that make a ring (Googerty 1915 read, CoSIRA and Klees quoted) lie within the low and high end
    bar = Section(Shape.ROUND, 0.5 * INCH, 0.5 * INCH)
    ring = RingSpec("ring", bar, "mild", inside_across=3.5 * INCH, closing=Closing.WELDED)
    stock = reckon_ring(ring, RingRules(), STEEL).value.stock  # type: ignore[union-attr]
    for printed in (pi * 4 + 0.5, 22 / 7 * 4 + 0.25):
        assert stock.low <= printed * INCH <= stock.high


@pytest.mark.parametrize("rules", ["{length: pi x mean + 1 t}", "{weld: one thickness}"])
def test_a_ring_by_the_shops_choice(rules: str):
    """Ring rule (quoted): pi x 4 + 1/2 = 13.0664; transcribed, whole or as the weld alone."""
    ours = inches_by(f"rings: {rules}", "ring '1/2 rd' 3.5 --closed welded", "cut")
    assert ours == pytest.approx(13.0664, abs=5e-5)


def test_a_collar_by_the_shops_choice():
    """Collar rule (quoted): the girth and two thicknesses; transcribed. Two 1/2 squares: 3 + 1/4."""
    spec = JointSpec(JointKind.COLLAR, (), section=Section(Shape.FLAT, 0.5 * INCH, 0.125 * INCH))
    made = reckon_joint(spec, shop_of("joints: {collar: perimeter + 2 t}").joint, STEEL, None, 3 * INCH).value
    assert made is not None
    assert made.metal / INCH == pytest.approx(3.25)
