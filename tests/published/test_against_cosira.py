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
from bickern.parts.ring.spec import Closing, RingRules, RingSpec

STEEL = 7850.0


@book("cosira")
def test_figure(row: Printed) -> None:
    row.holds()


def test_published_rules_disagree_by_no_more_than_the_spread_says():
    """Rules of a weld: Googerty, 1915 (read), 3 1/7 x mean + t/2; CoSIRA (quoted), pi x mean + t, the default.

    A ring of 3 1/2 inside of 1/2 round by either lies within what is said of it: its low and high end.
    """
    bar = Section(Shape.ROUND, 0.5 * INCH, 0.5 * INCH)
    ring = RingSpec("ring", bar, "mild", inside_across=3.5 * INCH, closing=Closing.WELDED)
    wanted = reckon_ring(ring, RingRules(), STEEL).value
    assert wanted is not None
    for by_rule in (pi * 4 + 0.5, 22 / 7 * 4 + 0.25):
        assert wanted.stock.low <= by_rule * INCH <= wanted.stock.high
    assert wanted.stock.value / INCH == pytest.approx(pi * 4 + 0.5)


@pytest.mark.parametrize("rules", ["{length: pi x mean + 1 t}", "{weld: one thickness}"])
def test_a_ring_by_the_shops_choice(rules: str):
    """Ring rule (quoted): pi x mean + t, on 3 1/2 inside of 1/2 round; transcribed, whole or as the weld alone."""
    ours = inches_by(f"rings: {rules}", "ring '1/2 rd' 3.5 --closed welded", "cut")
    assert ours == pytest.approx(pi * 4 + 0.5, rel=1e-12)


def test_a_collar_by_the_shops_choice():
    """Collar rule (quoted): the girth and two thicknesses; transcribed. Two 1/2 squares: 3 + 1/4."""
    spec = JointSpec(JointKind.COLLAR, (), section=Section(Shape.FLAT, 0.5 * INCH, 0.125 * INCH))
    made = reckon_joint(spec, shop_of("joints: {collar: perimeter + 2 t}").joint, STEEL, None, 3 * INCH).value
    assert made is not None
    assert made.metal / INCH == pytest.approx(3.25)
