"""W. L. Ilgen, Forge Work, American Book Co., 1912: rings and links. All read in the source."""

import pytest

from bickern.iron.section import Section
from bickern.measure.units.words import INCH, Shape
from bickern.parts.ring.reckon import reckon_ring
from bickern.parts.ring.rules import ring_length
from bickern.parts.ring.spec import Closing, RingRules, RingSpec

STEEL = 7850.0


def _round(inches: float) -> Section:
    return Section(Shape.ROUND, inches * INCH, inches * INCH)


def test_section_111_figure_100_ring_of_5_inside_and_2_thick():
    # s. 111 fig. 100: prints 21.991 in, three decimals (3.1416 x 7); tolerance is half the last figure
    wanted = reckon_ring(RingSpec("ring", _round(2), "mild", inside_across=5 * INCH), RingRules(), STEEL).value
    assert wanted is not None
    assert wanted.bare / INCH == pytest.approx(21.991, abs=0.0005)
    assert wanted.strain == pytest.approx(2 / 7)  # exact mathematics: t/(2 R), R the middle line's


def test_section_111_practically_22_is_the_22_7_habit():
    # the book then says practically 22, which is 22/7 x 7 to the last figure
    assert ring_length("3 1/7 x mean diameter", 5 * INCH, 2 * INCH) / INCH == pytest.approx(22, abs=1e-9)


def test_section_80_figure_60_chain_link_has_no_weld_allowance():
    # s. 80 fig. 60: 3/8 round, inside 2 x 3/4 finished, cut 6 in. A shop length: read to 1/16 in
    link = RingSpec(
        "link", _round(3 / 8), "mild", inside_across=0.75 * INCH, inside_long=2 * INCH, closing=Closing.WELDED
    )
    wanted = reckon_ring(link, RingRules(weld="none"), STEEL).value
    assert wanted is not None
    assert wanted.stock.value / INCH == pytest.approx(6, abs=1 / 16)
    assert wanted.stock.value / INCH > 6  # the book's own link comes out a hair short of the exact line
    assert wanted.weld == 0


def test_section_81_welded_ring_lies_between_the_bare_ring_and_one_thickness_more():
    # s. 81: 7/16 round cut 8 in; the inside radius is to be not under 1 in. The size is a least one, so this is a bound
    ring = RingSpec("ring", _round(7 / 16), "mild", inside_across=2 * INCH, closing=Closing.WELDED)
    wanted = reckon_ring(ring, RingRules(), STEEL).value
    assert wanted is not None
    assert wanted.bare / INCH <= 8 <= wanted.stock.value / INCH
    assert wanted.stock.low <= 8 * INCH <= wanted.stock.high
