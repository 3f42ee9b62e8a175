"""Against T. F. Googerty, Practical Forging and Art Smithing, Bruce, 1915.

Kind: book. Read in the source: text and figures of the whole book. It takes 3 1/7 for pi and adds half a thickness for
a weld.
"""

from math import pi

import pytest
from chosen import inches_by, reckoned_by
from shelf import Printed, book

from bickern.iron.section import Section
from bickern.measure.units.words import INCH, Shape
from bickern.parts.bar.allowances import BarRules
from bickern.parts.bar.reckon import reckon_bar
from bickern.parts.bar.result import BarResult
from bickern.parts.bar.tracks import (
    BarSpec,
    BendLeg,
    Blank,
    Metal,
    SectionGoal,
    StraightLeg,
)
from bickern.parts.ring.reckon import reckon_ring
from bickern.parts.ring.rules import ring_length
from bickern.parts.ring.spec import Closing, RingRules, RingSpec

STEEL = 7850.0

BAR = Section(Shape.ROUND, INCH, INCH)

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


POINT = Section(Shape.POINT, 0.0, 0.0)


@book("googerty")
def test_figure(row: Printed) -> None:
    row.holds()


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


def test_googerty_eye_end() -> None:
    """T. F. Googerty, Practical Forging and Art Smithing, 1915, ex. 12, figs. 91-92 (read): 1/4 sq to 1/4 rd.

    1 1/2 of square to 2 of round.

    The exact length is 1.91; the book's 2 is 4.7 % more, so its round is a little bare.
    """
    exact = drawn(sq(0.25), 1.5, rd(0.25))
    assert exact == pytest.approx(1.5 * 0.25**2 / (pi / 4 * 0.25**2), rel=1e-12)
    assert exact <= 2.0 <= 1.05 * exact


def test_a_staple_cut_generously() -> None:
    """T. F. Googerty, Practical Forging, 1915, ex. 6, fig. 66 (read): 1/4 rd, 5/8 between the legs, cut 5 1/2.

    Legs of 1 1/4 and tapers of 1 1/4. With tapers carried to a point the staple needs 3.58; even left full, 5.25. The
    book's figure is over both: it is a bound on one side only, and no length to cut by.
    """

    def staple(end: Section) -> float:
        taper, leg = 1.25 * INCH, (1.25 - 9 / 16) * INCH
        metal = (
            Metal(taper, start=SectionGoal(end), end=SectionGoal(rd(0.25))),
            Metal(Blank.REST),
            Metal(taper, end=SectionGoal(end)),
        )
        path = (StraightLeg(taper + leg), BendLeg(pi, 5 / 16 * INCH), StraightLeg(taper + leg))
        return reckoned(BarSpec("staple", rd(0.25), "mild", metal, path)).stock_bare / INCH

    bend, legs = pi * 7 / 16, 2 * (1.25 - 9 / 16)
    assert staple(POINT) == pytest.approx(bend + legs + 2 * 1.25 / 3, rel=1e-9)
    assert staple(rd(0.25)) == pytest.approx(bend + legs + 2 * 1.25, rel=1e-9)
    assert staple(POINT) < staple(rd(0.25)) < 5.5


@pytest.mark.parametrize(
    "rules",
    ["{length: 3 1/7 x mean + 1/2 t}", "{length: 3 1/7 x mean diameter, weld: half a thickness}"],
)
def test_a_ring_by_the_shops_choice(rules: str) -> None:
    """Ex. 14 (read): 35 1/14 for 10 inside of 1 in round; transcribed, whole or as a length and a weld."""
    ours = inches_by(f"rings: {rules}", "ring '1 rd' 10 --closed welded", "cut")
    assert ours == pytest.approx(35.0714, abs=5e-5)


def test_a_rule_that_holds_a_weld_leaves_it_out_of_a_butted_ring() -> None:
    """Ex. 14 (read): 34 4/7 before the half thickness; transcribed."""
    ours = inches_by("rings: {length: 3 1/7 x mean + 1/2 t}", "ring '1 rd' 10 --closed butted", "cut")
    assert ours == pytest.approx(34.5714, abs=5e-5)


def test_a_hoop_by_the_shops_choice() -> None:
    """Ex. 14 (read): the same ring told as a bar, 35 1/14; transcribed."""
    rules = "bars: {eye: 3 1/7 x mean diameter, weld: half a thickness}"
    path = "closed: welded, path: [{hoop: {inside across: 10}, turn: up}]"
    done = reckoned_by(rules, f"  hoop: {{bar: 1 rd, steel: S235JR, metal: [{{keep: rest}}], {path}}}")
    assert done.copy is not None
    (hoop,) = done.copy.pieces
    assert isinstance(hoop, BarResult)
    assert hoop.stock.value / INCH == pytest.approx(35.0714, abs=5e-5)


def test_a_link_by_the_shops_choice_of_its_weld() -> None:
    """Ex. 8, fig. 73 (read): 3/8 round, 1 5/8 x 3/4 inside, cut 5 1/2; transcribed."""
    ours = inches_by("rings: {weld: chain link}", "ring '3/8 rd' 3/4 --long '1 5/8' --closed welded", "cut")
    assert ours == pytest.approx(5.5, abs=0.005)
