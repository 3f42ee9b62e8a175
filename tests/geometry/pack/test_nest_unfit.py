"""Parts and sheets that are none are left out and named, and all the others are laid as if they were not there."""

import math

import pytest

from bickern.geometry.pack.shapes.asked import Part, Remnant, Spacing
from bickern.geometry.pack.shapes.check import faults_of
from bickern.geometry.pack.shapes.nest import nest
from bickern.geometry.polygon import ArcSeg, Line, Loop, disc, flipped, from_points, rectangle

SPACING = Spacing(0.002, 0.001)
BOW = from_points([(0, 0), (0.1, 0.1), (0.1, 0), (0, 0.1)])
OPEN = Loop((Line((0, 0), (0.1, 0)), Line((0.1, 0), (0.1, 0.1)), Line((0.1, 0.1), (0, 0.05))))
NAN = from_points([(0, 0), (0.1, 0), (0.1, math.nan)])
ARC = Loop((ArcSeg((0.0, 0.0), math.inf, 0.0, 2 * math.pi),))
FLAT = from_points([(0, 0), (0.1, 0), (0.05, 0)])
STROKE = from_points([(0, 0), (0.1, 0)])
GOOD = [Part("tab", rectangle(0.05, 0.03), (), 3), Part("disc", disc(0.02), (), 2)]
SHEETS = [Remnant("S", rectangle(0.3, 0.2), cost=2.0)]


def laid_but_for(part: Part | None, sheet: Remnant | None, says: str) -> None:
    parts = [*GOOD[:1], *([part] if part else []), *GOOD[1:]]
    sheets = [*([sheet] if sheet else []), *SHEETS]
    made = nest(parts, sheets, SPACING, effort=60)
    plain = nest(GOOD, SHEETS, SPACING, effort=60)
    assert made.laid == plain.laid != ()
    assert made.cost == 2.0
    assert made.short == (((part.key, part.count),) if part else ())
    assert made.why == f"left out: {says}"
    assert faults_of(plain, GOOD, SHEETS, SPACING) == ()


@pytest.mark.parametrize(
    ("outline", "says"),
    [
        (BOW, "the outline of odd crosses itself"),
        (OPEN, "the outline of odd is open"),
        (NAN, "the outline of odd has a number that is none"),
        (ARC, "the outline of odd has a number that is none"),
        (Loop(()), "the outline of odd has a number that is none"),
        (FLAT, "the outline of odd goes round nothing"),
        (STROKE, "the outline of odd goes round nothing"),
        (disc(0.0), "the outline of odd goes round nothing"),
    ],
)
def test_an_outline_that_is_none_spoils_nothing_else(outline: Loop, says: str) -> None:
    laid_but_for(Part("odd", outline, (), 2), None, says)
    laid_but_for(None, Remnant("odd", outline, cost=1.0), says)


def test_holes_count_as_the_outline_does() -> None:
    beside, across = rectangle(0.05, 0.05, (1.0, 1.0)), rectangle(0.05, 0.05, (0.08, 0.0))
    for hole in (beside, across, NAN, OPEN, BOW):
        part = Part("odd", rectangle(0.1, 0.1), (flipped(hole),))
        made = nest([*GOOD, part], SHEETS, SPACING, effort=60)
        assert made.short == (("odd", 1),)
        assert made.why.startswith("left out: the outline of odd ")


@pytest.mark.parametrize("turns", [(), (0.0, math.nan)])
def test_turns_that_are_none(turns: tuple[float, ...]) -> None:
    laid_but_for(Part("odd", rectangle(0.1, 0.1), turns=turns), None, "the turns of odd are none that it can lie at")


@pytest.mark.parametrize("cost", [math.nan, math.inf, -1.0])
def test_a_cost_that_is_none(cost: float) -> None:
    laid_but_for(None, Remnant("odd", rectangle(0.3, 0.2), cost=cost), "the cost of odd is none")


def test_one_key_for_two() -> None:
    laid_but_for(Part("tab", rectangle(0.01, 0.01), (), 4), None, "tab is the key of two parts")
    made = nest(GOOD, [*SHEETS, Remnant("S", rectangle(0.5, 0.5))], SPACING, effort=60)
    assert (made.short, made.cost, made.why) == ((), 2.0, "left out: S is the key of two sheets")


def test_where_all_sheets_are_none_all_is_short() -> None:
    made = nest(GOOD, [Remnant("odd", BOW)], SPACING)
    assert made.short == (("tab", 3), ("disc", 2))
    assert made.why == "left out: the outline of odd crosses itself"


def test_less_than_no_gap_is_none_and_that_is_said() -> None:
    made = nest(GOOD, SHEETS, Spacing(-0.002, -0.001), effort=60)
    assert made.short == ()
    assert faults_of(made, GOOD, SHEETS, Spacing()) == ()
    assert "a gap of -2.000 mm is less than none: none is kept" in made.why
    assert "a margin of -1.000 mm is less than none: none is kept" in made.why


@pytest.mark.parametrize("spacing", [Spacing(math.nan, 0.0), Spacing(0.0, math.inf)])
def test_a_gap_that_is_no_number_lays_nothing(spacing: Spacing) -> None:
    made = nest(GOOD, SHEETS, spacing)
    assert made.laid == ()
    assert made.short == (("tab", 3), ("disc", 2))
    assert made.why == "the gap or the margin is no length: nothing is laid"
