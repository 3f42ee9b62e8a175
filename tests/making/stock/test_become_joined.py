"""Two short bars welded into one: enough metal, a place for the weld that is clear of all that is made there."""

from dataclasses import replace
from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bickern.iron.section import Section
from bickern.making.shop import Shop
from bickern.making.stock.joined import ROOM, Joined, allowance, cannot_weld, joined, weld_takes
from bickern.making.stock.rack import StockBar
from bickern.measure.units.words import INCH, Shape
from bickern.parts.bar.allowances import BarRules, without_fire
from bickern.parts.bar.reckon import reckon_bar
from bickern.parts.bar.result import BarResult
from bickern.parts.bar.tracks import BarSpec, BendLeg, Hole, HoleBy, Metal, Place, SectionGoal, StraightLeg, Twist

HALF = Section(Shape.SQUARE, INCH / 2, INCH / 2)
SHOP = Shop()


def made(*metal: Metal, **more: object) -> BarResult:
    spec = BarSpec("it", HALF, "S235JR", metal or (Metal(20 * INCH, name="stem"),), **more)  # type: ignore[arg-type]
    read = reckon_bar(spec, without_fire(BarRules()), 7850.0)
    assert read.value is not None, read.findings
    return read.value


def bars(*lengths: float) -> list[StockBar]:
    return [StockBar(f"B{i}", HALF, length * INCH, "S235JR", "none") for i, length in enumerate(lengths, 1)]


def two(bar: BarResult, *lengths: float) -> Joined:
    found = joined(bar, bars(*lengths), SHOP)
    assert found is not None
    return found


def test_both_cuts_hold_the_piece_and_one_weld_by_the_shops_rule():
    """One thickness for the weld, half of it on each bar: 20 + 1/2."""
    bar = made()
    found = two(bar, 12, 11)
    assert allowance(bar, SHOP) == pytest.approx(INCH / 2)
    assert sum(found.cuts) == pytest.approx(20.5 * INCH)
    assert found.cuts[0] <= found.bars[0].length
    assert found.cuts[1] <= found.bars[1].length


def test_bars_that_are_too_short_together_are_not_welded():
    assert joined(made(), bars(10, 10.4), SHOP) is None
    assert joined(made(), bars(19), SHOP) is None
    assert joined(made(), [], SHOP) is None


def test_the_pair_that_wastes_least_is_taken():
    found = two(made(), 19, 18, 12, 9, 3)
    assert sum(b.length for b in found.bars) == pytest.approx(21 * INCH)


def test_the_weld_keeps_clear_of_bends_twists_holes_and_ends():
    path = (StraightLeg(8 * INCH), BendLeg(pi / 2, INCH), StraightLeg(12 * INCH - pi / 2 * 1.25 * INCH))
    hole = Hole(INCH / 4, HoleBy.DRILL, Place(plus=5 * INCH))
    twist = Twist(1.0, 3 * INCH, Place(plus=14 * INCH))
    bar = made(path=path, holes=(hole,), twists=(twist,))
    room = ROOM.value * INCH / 2 - 1e-9
    for first in (4.0, 9.0, 11.0, 12.5, 19.0):
        found = joined(bar, bars(first, 20.6 - first), SHOP)
        if found is not None:
            taken = [(b.start, b.end) for b in (*bar.bends, *bar.twists)] + [
                (5 * INCH, 5 * INCH),
                (0, 0),
                (20 * INCH,) * 2,
            ]
            assert all(found.at <= start - room or found.at >= end + room for start, end in taken)
            assert found.at == pytest.approx(found.cuts[0] - INCH / 4)  # nothing is drawn: bar and piece are one length


def test_a_weld_that_could_only_lie_in_the_bend_is_not_offered():
    path = (StraightLeg(9 * INCH), BendLeg(pi / 2, INCH), StraightLeg(11 * INCH - pi / 2 * 1.25 * INCH))
    bar = made(path=path)
    middle = (bar.bends[0].start + bar.bends[0].end) / 2 / INCH
    assert joined(bar, bars(middle + 0.3, 20.6 - middle - 0.2), SHOP) is None
    assert joined(bar, bars(12.3, 8.3), SHOP) is None or two(bar, 12.3, 8.3).at < 9 * INCH


def test_a_weld_in_metal_that_is_drawn_down_is_told_where_it_comes_to_lie():
    """12 in of 3/8 sq are 6 3/4 of 1/2 sq: a weld 6 in from the end of the bar comes to lie past the kept 4 in."""
    thin = SectionGoal(Section(Shape.SQUARE, 3 / 8 * INCH, 3 / 8 * INCH))
    bar = made(Metal(4 * INCH, name="stem"), Metal(12 * INCH, thin, name="rein"))
    found = two(bar, 8.0, 3.3)
    at = found.cuts[0] - INCH / 4
    expected = at if at < 4 * INCH else 4 * INCH + (at - 4 * INCH) * (1 / 2) ** 2 / (3 / 8) ** 2
    assert found.at == pytest.approx(expected, rel=1e-6)
    assert found.name in found.says


@given(st.lists(st.floats(1.0, 19.0), min_size=2, max_size=12))
def test_no_pair_makes_metal(lengths):
    bar = made()
    found = joined(bar, bars(*lengths), SHOP)
    wanted = bar.cut_this + allowance(bar, SHOP)
    if found is None:
        longest = sorted(lengths)[-2:]
        reach = ROOM.value * INCH / 2
        assert sum(longest) * INCH < wanted + 1e-9 or longest[0] * INCH < reach + allowance(bar, SHOP)
    else:
        assert found.bars[0] is not found.bars[1]
        assert sum(found.cuts) == pytest.approx(wanted)
        assert all(cut <= one.length + 1e-9 for cut, one in zip(found.cuts, found.bars, strict=True))


TAKES = {"S235JR": True, "wrought iron": True, "A36": True}
NOT = ("1045", "W1", "304", "12L14", "")


@pytest.mark.parametrize(("steel", "welds"), [*TAKES.items(), *((name, False) for name in NOT)])
def test_only_plain_steel_that_welds_every_time(steel, welds):
    assert (cannot_weld(steel) == "") is welds


def test_a_weld_takes_heats_of_its_own():
    heats, seconds = weld_takes(made(), SHOP, 10 * INCH)
    assert heats.value >= 2  # a scarf on each, and the weld
    assert seconds.value > 60
    thicker = replace(made(), stock_section=Section(Shape.SQUARE, INCH, INCH))
    assert weld_takes(thicker, SHOP, 10 * INCH)[1].value > seconds.value


def test_a_weld_keeps_its_scarf_and_a_thickness_from_the_end():
    """Two and a half thicknesses, 1 1/4 in of 1/2 sq, and half of the weld's own thickness: so short a bar will do."""
    reach = 1.25 + 0.25
    assert joined(made(), bars(19.5, reach - 0.01), SHOP) is None
    found = two(made(), 19.5, reach + 0.01)
    assert min(found.at, 20 * INCH - found.at) == pytest.approx(1.25 * INCH, abs=0.02 * INCH)
