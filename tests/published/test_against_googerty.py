"""T. F. Googerty, Practical Forging and Art Smithing, Bruce, 1915: a ring and a link. All read in the source."""

import pytest

from bickern.iron.section import Section
from bickern.measure.units.words import INCH, Shape
from bickern.parts.ring.reckon import reckon_ring
from bickern.parts.ring.rules import ring_length
from bickern.parts.ring.spec import Closing, RingRules, RingSpec

STEEL = 7850.0
BAR = Section(Shape.ROUND, INCH, INCH)


def test_exercise_14_ring_of_10_inside_before_the_weld():
    # ex. 14: 11 x 3 1/7 = 34 4/7 in; half of the last figure kept in the table of facts
    assert ring_length("3 1/7 x mean diameter", 10 * INCH, INCH) / INCH == pytest.approx(34 + 4 / 7, abs=1e-9)
    bare = reckon_ring(RingSpec("ring", BAR, "mild", inside_across=10 * INCH), RingRules(), STEEL).value
    assert bare is not None
    assert bare.bare / INCH == pytest.approx(34.571, rel=5e-4)  # 22/7 is 0.04 % over pi


def test_exercise_14_adds_half_a_thickness_for_the_weld():
    # ex. 14: 1/2 in more on 1 in stock, 35 1/14 in the whole
    assert ring_length("3 1/7 x mean + 1/2 t", 10 * INCH, INCH) / INCH == pytest.approx(35 + 1 / 14, abs=1e-9)
    ring = RingSpec("ring", BAR, "mild", inside_across=10 * INCH, closing=Closing.WELDED)
    wanted = reckon_ring(ring, RingRules(weld="half a thickness"), STEEL).value
    assert wanted is not None
    assert wanted.weld / INCH == pytest.approx(0.5)
    assert wanted.stock.value / INCH == pytest.approx(35 + 1 / 14, abs=1 / 16)


def test_exercise_8_figure_73_chain_link_by_its_outside():
    # ex. 8 fig. 73: 3/8 round, outside 2 3/8 x 1 1/2, cut 5 1/2. The weld is within: exact <= printed <= exact + 1 d
    bar = Section(Shape.ROUND, 0.375 * INCH, 0.375 * INCH)
    link = RingSpec("link", bar, "mild", outside_across=1.5 * INCH, inside_long=1.625 * INCH, closing=Closing.WELDED)
    wanted = reckon_ring(link, RingRules(), STEEL).value
    assert wanted is not None
    assert wanted.outside_long / INCH == pytest.approx(2.375)
    assert wanted.bare / INCH < 5.5 <= wanted.stock.value / INCH
    surplus = reckon_ring(link, RingRules(weld="chain link"), STEEL).value
    assert surplus is not None
    # the row "chain link" was read off this very link, so this shows only that the row is kept as it was read
    assert surplus.stock.value / INCH == pytest.approx(5.5, abs=0.005)
