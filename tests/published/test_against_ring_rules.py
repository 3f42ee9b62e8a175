"""Rules for the length of a ring that other people printed, each against its own figures.

Printed lengths with no finished size beside them cannot be held against anything, and are not: C. C. Sleffel's link of
3/8 round from 6 in (read); J. M. Drew's ring of 1/2 or 7/16 from 12 in (Farm Blacksmithing, 1918, fig. 9, read); ship
rings of a 1982 course, 10 in of 1/2 (Peace Corps, session 10, read); J. B. Stokes's S-link of 8 mm from 200 mm and
welded ring of 16 mm from 110 mm (FAO Bulletin 88/2, 1992, read). Nor are rules for pieces that bickern does not plan:
the draw of a hot tyre (J. W. Burgess, 1881), a horseshoe's bar (A. Lungwitz, 1913), and the bar of a weldless ring,
twice its wall and 1/4 in wide (Cyclopedia of Modern Shop Practice, vol. 2).
"""

from math import pi

import pytest

from bickern.iron.section import Section
from bickern.measure.units.words import INCH, Shape
from bickern.parts.ring.reckon import reckon_ring
from bickern.parts.ring.rules import RING_RULES, ring_length
from bickern.parts.ring.spec import Closing, RingRules, RingSpec
from bickern.parts.weld import weld_allowance

STEEL = 7850.0


def test_shop_practice_eye_of_2_in_mean_diameter():
    # Cyclopedia of Modern Shop Practice vol. 2, Forging, bend types, about 1906 (read in the source): 3 1/7 x 2 = 6.286
    bar = Section(Shape.ROUND, 0.5 * INCH, 0.5 * INCH)
    eye = reckon_ring(RingSpec("eye", bar, "mild", mean_across=2 * INCH), RingRules(), STEEL).value
    assert eye is not None
    assert eye.bare / INCH == pytest.approx(6.286, rel=5e-4)
    assert ring_length("3 1/7 x mean diameter", 1.5 * INCH, 0.5 * INCH) / INCH == pytest.approx(6.2857, abs=5e-5)
    assert eye.bare / INCH < 6.375  # the book then takes 6 3/8


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


def test_klees_old_rule_is_short_although_it_claims_a_weld():
    # J. A. Klees (quoted by a secondary page): 3 D + 3 t + 1/2 in a foot + t/3; 5 ft of 1 in iron is 190.833
    rule = ring_length("3 D + 3 t + 1/2 in a foot + t/3", 60 * INCH, INCH) / INCH
    assert rule == pytest.approx(190.833, abs=0.01)
    assert rule < pi * 61
    assert weld_allowance("a third of a thickness", INCH) / INCH == pytest.approx(1 / 3)


def test_cosira_adds_one_thickness():
    # CoSIRA, The Blacksmith's Craft (rule quoted by a secondary page): pi (inside + t) + 1 t; the shop's default
    bar = Section(Shape.ROUND, 0.5 * INCH, 0.5 * INCH)
    ring = RingSpec("ring", bar, "mild", inside_across=3.5 * INCH, closing=Closing.WELDED)
    wanted = reckon_ring(ring, RingRules(), STEEL).value
    assert wanted is not None
    by_rule = ring_length("pi x mean + 1 t", 3.5 * INCH, 0.5 * INCH)
    assert by_rule / INCH == pytest.approx(pi * 4 + 0.5)
    assert wanted.stock.value == pytest.approx(by_rule)


def test_manly_takes_the_hole_and_is_short_by_pi_thicknesses():
    # H. P. Manly, Oxy-Acetylene Welding and Cutting, 1916, forge chapter (read in the source): 3 1/7 x hole
    rule = ring_length("3 1/7 x the hole", 3 * INCH, 0.5 * INCH) / INCH
    assert rule == pytest.approx(3 * 22 / 7)
    # exact mathematics: the ring made of it has a hole smaller by nearly one thickness (22/7 gives a little back)
    assert rule / pi - 0.5 == pytest.approx(3 - 0.5, abs=0.002)


@pytest.mark.parametrize(("rule", "least", "most"), [("3 1/2", 0.3, 0.4), ("upset more: + 3 3/4", 0.55, 0.65)])
def test_tyre_rule_leaves_a_weld_of_about_half_a_thickness(rule: str, least: float, most: float):
    # carriage maker's rule told by B. Rackers, 2003 (quoted by a secondary page): wheel + 3 1/2 t, or 3 3/4 t.
    # Exact mathematics: pi t of it is the bend, so 0.36 and 0.61 t are left for the weld
    name = next(r.name for r in RING_RULES if r.name.startswith("tyre") and rule in r.name)
    left = ring_length(name, 36 * INCH, 0.5 * INCH) - pi * 36.5 * INCH
    assert least < left / (0.5 * INCH) < most


def test_published_rules_disagree_by_no_more_than_the_spread_says():
    # the weld rules that make a ring (Googerty 1915 read, CoSIRA and Klees quoted) lie within the low and high end
    bar = Section(Shape.ROUND, 0.5 * INCH, 0.5 * INCH)
    ring = RingSpec("ring", bar, "mild", inside_across=3.5 * INCH, closing=Closing.WELDED)
    stock = reckon_ring(ring, RingRules(), STEEL).value.stock  # type: ignore[union-attr]
    for printed in (pi * 4 + 0.5, 22 / 7 * 4 + 0.25):
        assert stock.low <= printed * INCH <= stock.high
