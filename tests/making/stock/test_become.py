"""A piece from another bar: what is kept, what is forged, and how much metal it takes, by constant volume.

Against figures that others print, and against volumes reckoned here by another formula than the program's own.
"""

from decimal import Decimal
from math import pi

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from bickern.geometry.polygon import rectangle
from bickern.iron.section import Section, area
from bickern.making.shop import Cutting
from bickern.making.stock.alike import MOST_DRAWN, NEAR, near_bar, not_drawn, same_bar, turned_as
from bickern.making.stock.become import (
    How,
    Turned,
    Way,
    asked_section,
    become,
    best_first,
    copies_of,
    replaced,
    sheet_becomes,
)
from bickern.making.stock.rack import StockBar, StockSheet
from bickern.making.stock.rewrite import loosened, settled
from bickern.making.stock.swell import not_upset, swells_of
from bickern.measure.money import Money
from bickern.measure.spread import sharp
from bickern.measure.units.words import INCH, MILLIMETRE, Shape
from bickern.parts.bar.allowances import BarRules, without_fire
from bickern.parts.bar.reckon import reckon_bar
from bickern.parts.bar.result import BarResult
from bickern.parts.bar.tracks import (
    BarSpec,
    BendLeg,
    Blank,
    Branch,
    EndOutline,
    EndShape,
    Face,
    Metal,
    SectionGoal,
    StraightLeg,
)
from bickern.parts.ring.reckon import reckon_ring
from bickern.parts.ring.spec import RingRules, RingSpec
from bickern.parts.sheet.spec import Cone, SheetSpec

BARE = without_fire(BarRules())


def sq(size: float, unit: float = INCH) -> Section:
    return Section(Shape.SQUARE, size * unit, size * unit)


def rd(size: float, unit: float = INCH) -> Section:
    return Section(Shape.ROUND, size * unit, size * unit)


def flat(width: float, thick: float, unit: float = INCH) -> Section:
    return Section(Shape.FLAT, width * unit, thick * unit)


def kept(asked: Section, length: float) -> BarSpec:
    return BarSpec("it", asked, "S235JR", (Metal(length * INCH, name="stem"),))


def all_told(asked: Section, section: Section, length: float) -> BarSpec:
    return BarSpec("it", asked, "S235JR", (Metal(length * INCH, SectionGoal(section), name="stem"),))


def way(spec: BarSpec, stock: Section) -> Turned:
    asked = asked_section(spec)
    assert asked is not None
    found = become(spec, asked, stock)
    assert isinstance(found, Turned), found
    return found


def reckoned(spec: object, rules: BarRules = BARE) -> BarResult:
    assert isinstance(spec, BarSpec)
    read = reckon_bar(spec, rules, 7850.0)
    assert read.value is not None, read.findings
    return read.value


def bare(spec: BarSpec, stock: Section) -> float:
    """Stock [in] by constant volume alone."""
    return reckoned(way(spec, stock).spec).stock_bare / INCH


# -- figures that others print


def test_ten_inches_of_square_out_of_round():
    """Persimmon Forge, a page on making do with other stock (quoted): 10 in of 3/8 sq is 7 1/8 in of 1/2 rd.

    Exact: 10 (3/8)^2 / (pi/4 (1/2)^2) = 7.162; the page rounds to the next eighth below.
    """
    got = bare(kept(sq(3 / 8), 10), rd(1 / 2))
    assert got == pytest.approx(10 * (3 / 8) ** 2 / (pi / 16), rel=1e-12)
    assert abs(got - 7.125) <= 1 / 16


def test_half_an_inch_of_quarter_square_is_two_inches_of_eighth():
    """A letter on a smiths' mailing list about a nail header, July 2004 (quoted): exact, 4 to 1."""
    assert bare(kept(sq(1 / 8), 2), sq(1 / 4)) == pytest.approx(0.5, rel=1e-12)


@pytest.mark.parametrize(
    ("drawn", "from_", "length", "printed"),
    [
        (rd(5 / 16), sq(3 / 8), 2.5, 1.5),  # W. L. Ilgen, Forge Work, 1912, s. 72 fig. 52 (read)
        (rd(1 / 4), sq(5 / 16), 2.125, 1.125),  # C. C. Sleffel, Working in Metals, 1911, gate hook (read)
    ],
)
def test_what_books_lay_off_to_draw_down_holds_the_metal_and_a_shoulder(drawn, from_, length, printed):
    """The books' lengths are the exact volume and what stays in the shoulder: more, by less than a thickness."""
    exact = bare(kept(drawn, length), from_)
    assert exact <= printed <= exact + from_.width / INCH


@pytest.mark.parametrize(
    ("inch", "metric", "share"),
    [
        (sq(1 / 2), sq(12, MILLIMETRE), 0.893),
        (rd(3 / 8), rd(10, MILLIMETRE), 1.102),
        (rd(1 / 4), rd(6, MILLIMETRE), 0.893),
        (flat(1, 1 / 4), flat(25, 6, MILLIMETRE), 0.930),
    ],
)
def test_metric_for_inch_is_another_bar(inch, metric, share):
    """Exact mathematics: the nearest millimetre bar holds so much of the inch one, told to three figures."""
    assert area(metric) / area(inch) == pytest.approx(share, abs=0.0005)
    assert not same_bar(metric, inch)
    assert near_bar(metric, inch)


@pytest.mark.parametrize(
    ("asked", "stock", "more"),
    [
        (sq(1 / 2), sq(12, MILLIMETRE), 0.12),
        (rd(3 / 8), rd(10, MILLIMETRE), -0.093),
        (rd(1 / 4), rd(6, MILLIMETRE), 0.12),
    ],
)
def test_what_is_forged_of_a_metric_bar_is_cut_longer_or_shorter_not_converted(asked, stock, more):
    """The length is re-worked by volume: +12 %, -9 %, +12 % (exact mathematics, to a whole per cent)."""
    forged = Section(asked.shape, asked.width / 2, asked.thick / 2)
    spec = all_told(asked, forged, 8)
    assert bare(spec, stock) / bare(spec, asked) - 1 == pytest.approx(more, abs=0.005)


def test_what_is_kept_of_a_metric_bar_keeps_its_length_and_is_told():
    found = way(kept(sq(1 / 2), 9), sq(12, MILLIMETRE))
    assert found.how is How.NEAR
    assert reckoned(found.spec).stock_bare == pytest.approx(9 * INCH)
    assert found.says == ("“stem” is 12 mm sq (15/32 in), not 1/2 in sq (12.7 mm)",)


# -- projects of our own, reckoned by hand (exact mathematics)


def tongs(stock: Section) -> BarSpec:
    """One half of bolt tongs: jaw, boss and rein, all told by their own sections."""
    metal = (
        Metal(2.5 * INCH, SectionGoal(flat(5 / 8, 3 / 8)), name="jaw"),
        Metal(1.0 * INCH, SectionGoal(flat(1 + 1 / 8, 3 / 8)), name="boss"),
        Metal(14.0 * INCH, SectionGoal(rd(3 / 8)), SectionGoal(rd(1 / 4)), name="rein"),
    )
    return BarSpec("half", stock, "S235JR", metal)


def test_tongs_of_three_quarters_where_five_eighths_is_asked():
    """5.37 in of 5/8 sq, 3.73 of 3/4 sq: jaw .5859, boss .4219, rein a frustum of 14 in."""
    rein = 14 * pi / 12 * ((3 / 8) ** 2 + (3 / 8) * (1 / 4) + (1 / 4) ** 2)
    volume = 2.5 * 5 / 8 * 3 / 8 + 9 / 8 * 3 / 8 + rein
    found = way(tongs(sq(5 / 8)), sq(3 / 4))
    assert found.how is How.DRAWN
    assert found.says == ()  # nothing of it is left as the bar comes
    assert bare(tongs(sq(5 / 8)), sq(3 / 4)) == pytest.approx(volume / (3 / 4) ** 2, rel=1e-9)
    assert round(bare(tongs(sq(5 / 8)), sq(3 / 4)), 2) == 3.73
    assert round(bare(tongs(sq(5 / 8)), sq(5 / 8)), 2) == 5.37


def s_hook(stock: Section | None) -> BarSpec:
    """A rail S-hook of 1/4 rd, its points told; the middle is what the points leave."""
    thin, thick = SectionGoal(rd(1 / 16)), SectionGoal(rd(1 / 4))
    metal = (
        Metal(1.5 * INCH, thin, thick, name="first point"),
        Metal(Blank.REST, name="middle"),
        Metal(1.5 * INCH, None, thin, name="second point"),
    )
    bend = BendLeg(pi, INCH / 2)
    path = (StraightLeg(INCH / 2), bend, StraightLeg(1.5 * INCH), BendLeg(pi, INCH / 2, pi), StraightLeg(INCH / 2))
    return BarSpec("hook", stock, "S235JR", metal, path)


def test_an_s_hook_of_any_bar_is_asked_of_the_biggest_section_that_it_tells():
    """Cut 4.74 in of 1/4 rd; of 5/16 rd the same metal, (4/5)^2 of it: 3.03."""
    spec = s_hook(None)
    asked = asked_section(spec)
    assert asked is not None
    assert same_bar(asked, rd(1 / 4))
    assert way(spec, rd(1 / 4)).how is How.AS_IS
    assert round(bare(spec, rd(1 / 4)), 2) == 4.74
    assert round(bare(spec, rd(5 / 16)), 2) == 3.03


def test_an_s_hook_of_six_millimetres_takes_less_round_its_bends_and_more_for_its_points():
    """By hand: middle line pi (1 in + 6 mm) and 2 1/2 straight; points frustums from 1/16 in to 6 mm."""
    d, p = 6 / 25.4, 1 / 16
    line = pi * (1 + d) + 2.5
    points = 2 * 1.5 * (d * d + d * p + p * p) / 3 / (d * d)
    assert bare(s_hook(rd(1 / 4)), rd(6, MILLIMETRE)) == pytest.approx(line - 3 + points, rel=1e-9)


def test_a_ring_of_other_wire_keeps_its_inside_and_takes_pi_times_the_new_middle():
    spec = RingSpec("ring", rd(3 / 8), "S235JR", inside_across=2 * INCH)
    found = become(spec, spec.wire, rd(10, MILLIMETRE))
    assert isinstance(found, Turned)
    assert found.how is How.NEAR
    assert isinstance(found.spec, RingSpec)
    read = reckon_ring(found.spec, RingRules(), 7850.0)
    assert read.value is not None
    assert read.value.bare == pytest.approx(pi * (50.8 + 10) * MILLIMETRE, rel=1e-12)
    assert read.value.inside_across == pytest.approx(2 * INCH)


def test_a_ring_of_heavier_bar_has_its_bar_drawn_even_first():
    spec = RingSpec("ring", rd(3 / 8), "S235JR", inside_across=2 * INCH)
    found = become(spec, spec.wire, rd(1 / 2))
    assert isinstance(found, Turned)
    assert found.spec == spec
    assert found.first is not None
    assert found.first.stock == rd(1 / 2)
    thinner = become(spec, spec.wire, rd(5 / 16))
    assert isinstance(thinner, str)
    assert "too thin" in thinner


# -- laws

SIZES = st.integers(4, 40)
LENGTHS = st.floats(1.0, 30.0)


@given(SIZES, SIZES, LENGTHS, LENGTHS, st.booleans(), st.booleans())
def test_no_metal_is_made_or_lost_in_drawing_down(small, big, keep, over, square, from_square):
    """Stock by area = the kept length by the asked area + the frustum of the taper, by Heron's formula."""
    asked = (sq if square else rd)(small, MILLIMETRE)
    stock = (sq if from_square else rd)(big, MILLIMETRE)
    tip = (sq if square else rd)(small / 4, MILLIMETRE)
    metal = (Metal(keep * INCH, name="stem"), Metal(over * INCH, None, SectionGoal(tip), name="tip"))
    found = become(BarSpec("it", asked, "S235JR", metal), asked, stock)
    assume(isinstance(found, Turned) and found.how is How.DRAWN)
    assert isinstance(found, Turned)
    made = reckoned(found.spec)
    a, b = area(asked), area(tip)
    volume = keep * INCH * a + over * INCH * (a + b + (a * b) ** 0.5) / 3
    assert made.stock_bare * area(stock) == pytest.approx(volume, rel=1e-9)
    assert made.stock_bare * area(stock) == pytest.approx(reckoned(BarSpec("it", asked, "S235JR", metal)).worked_volume)


@given(SIZES, SIZES, LENGTHS)
def test_the_bar_that_is_cut_holds_the_piece_and_what_the_fire_takes(small, big, keep):
    asked, stock = sq(small, MILLIMETRE), rd(big, MILLIMETRE)
    found = become(kept(asked, keep), asked, stock)
    assume(isinstance(found, Turned) and found.how is How.DRAWN)
    assert isinstance(found, Turned)
    made = reckoned(found.spec, BarRules())
    (run,) = made.runs
    assert not run.kept
    assert made.stock.value * area(stock) * (1 - run.loss.value) == pytest.approx(run.volume, rel=1e-9)
    assert run.volume == pytest.approx(keep * INCH * area(asked), rel=1e-9)


@given(SIZES, SIZES)
def test_what_is_drawn_down_was_heavier_and_not_beyond_reason(small, big):
    asked, stock = sq(small, MILLIMETRE), sq(big, MILLIMETRE)
    if not not_drawn(stock, asked):
        assert area(asked) * 0.97 <= area(stock) <= MOST_DRAWN.value * area(asked) * (1 + 1e-6)


@given(st.floats(3.0, 60.0), st.floats(0.8, 1.2))
def test_near_is_within_the_band_and_nothing_else(size, share):
    assert near_bar(sq(size * share, MILLIMETRE), sq(size, MILLIMETRE)) == (abs(share - 1) <= NEAR.value + 1e-9) or (
        abs(abs(share - 1) - NEAR.value) < 1e-6
    )


# -- what is not done


@pytest.mark.parametrize(
    ("asked", "stock", "why"),
    [
        (sq(1 / 2), sq(2), "16 times as heavy"),
        (sq(1 / 2), sq(1 / 4), "too thin"),
        (sq(1 / 2), Section(Shape.TUBE, INCH, INCH, INCH / 8), "tube"),
        (sq(1 / 2), flat(3, 1 / 4), "out of its shape"),
        (flat(2, 1 / 8), sq(3 / 4), "out of its shape"),
        (Section(Shape.HALF_ROUND, INCH, INCH / 2), sq(1), "swage"),
    ],
)
def test_bar_that_no_smith_would_take(asked, stock, why):
    found = become(kept(asked, 6), asked, stock)
    assert isinstance(found, str)
    assert why in found


def test_a_first_stretch_that_leans_on_the_bars_own_face_is_not_guessed_at():
    spec = BarSpec("it", sq(1 / 2), "S235JR", (Metal(INCH, None, SectionGoal(flat(1 / 2, 1 / 4)), flush=Face.BACK),))
    found = become(spec, sq(1 / 2), sq(3 / 4))
    assert isinstance(found, str)
    assert "flush" in found


def test_corners_of_what_is_drawn_are_as_full_as_the_shop_says():
    from dataclasses import replace

    rules = replace(BARE, corner_fullness=0.942)
    made = reckoned(way(kept(sq(3 / 8), 10), rd(1 / 2)).spec, rules)
    assert made.stock_bare == pytest.approx(0.942 * 10 * INCH * area(sq(3 / 8)) / area(rd(1 / 2)), rel=1e-9)


def test_round_bar_is_set_square_first():
    assert "square first" in way(kept(sq(3 / 8), 10), rd(1 / 2)).says[0]
    assert "square first" in way(kept(rd(3 / 8), 10), Section(Shape.HEXAGON, INCH / 2, INCH / 2)).says[0]
    assert "square first" not in way(kept(rd(3 / 8), 10), sq(1 / 2)).says[0]


def test_flat_bar_from_the_rack_is_turned_as_the_job_lays_it():
    on_edge = flat(1 / 4, 1)
    assert turned_as(flat(1, 1 / 4), on_edge) == on_edge
    assert way(kept(on_edge, 4), flat(1, 1 / 4)).how is How.AS_IS
    assert way(kept(on_edge, 4), flat(25, 6, MILLIMETRE)).spec.stock == flat(6, 25, MILLIMETRE)  # type: ignore[union-attr]


def test_a_leaf_first_does_not_hide_what_is_kept_behind_it():
    leaf = EndOutline(EndShape.LEAF, INCH, INCH / 8)
    metal = (Metal(2 * INCH, outline=leaf), Metal(3 * INCH, name="stem"))
    made = reckoned(way(BarSpec("it", sq(3 / 8), "S235JR", metal), sq(1 / 2)).spec)
    assert made.runs[1].a.width == pytest.approx(3 / 8 * INCH)
    assert not made.runs[1].kept


def test_limbs_that_tell_no_section_begin_with_their_share_and_branches_of_their_own_bar_stay():
    limb = BarSpec("one", None, "S235JR", (Metal(3 * INCH),))
    own = BarSpec("leaf", rd(1 / 4), "S235JR", (Metal(2 * INCH),))
    spec = BarSpec(
        "fork", flat(3 / 4, 3 / 8), "S235JR", (Metal(4 * INCH, name="stem"),),
        branches=(Branch("one", limb), Branch("two", limb)),
    )  # fmt: skip
    made = reckoned(way(spec, sq(5 / 8)).spec)
    volume = 4 * 3 / 4 * 3 / 8 + 2 * 3 * 3 / 8 * 3 / 8
    assert made.stock_bare / INCH == pytest.approx(volume / (5 / 8) ** 2, rel=1e-9)
    from bickern.parts.bar.tracks import Place

    grown = BarSpec("it", sq(3 / 8), "S235JR", (Metal(4 * INCH),), branches=(Branch("leaf", own, Place(plus=INCH)),))
    assert way(grown, sq(1 / 2)).spec.branches[0].bar == own  # type: ignore[union-attr]


# -- upsets


def knob(length: float) -> BarSpec:
    metal = (
        Metal(length * INCH, SectionGoal(rd(5 / 8)), name="knob"),
        Metal(6 * INCH, SectionGoal(rd(1 / 2)), name="stem"),
    )
    return BarSpec("it", None, "S235JR", metal)


def test_an_end_is_upset_where_that_is_sensible():
    """Free length by volume: 1/2 in of 5/8 rd is .78 in of 1/2 rd, 1.56 thicknesses (exact mathematics)."""
    made = reckoned(way(knob(1 / 2), rd(1 / 2)).spec)
    (swell,) = swells_of(made)
    assert swell.free == pytest.approx((5 / 8) ** 2 / (1 / 2) ** 2, rel=1e-9)
    assert swell.wider == pytest.approx(1.25)
    assert swell.at_end
    assert not not_upset(made, None)


def test_too_much_at_once_or_in_the_middle_is_not():
    assert "buckles" in not_upset(reckoned(way(knob(2), rd(1 / 2)).spec), None)
    spec = knob(1 / 2)
    middle = BarSpec("it", None, "S235JR", (Metal(INCH, SectionGoal(rd(1 / 2))), *spec.metal))
    assert "middle" in not_upset(reckoned(way(middle, rd(1 / 2)).spec), None)
    wide = become(knob(1 / 2), rd(5 / 8), rd(3 / 8))
    assert isinstance(wide, str)
    assert "1.67 times" in wide


def test_what_the_piece_itself_upsets_is_not_held_against_another_bar():
    asked = reckoned(tongs(sq(9 / 16)))
    other = reckoned(tongs(sq(5 / 8)))
    assert not not_upset(other, asked)


# -- odds and ends


def test_bends_of_another_bar_may_leave_the_longest_stretch_open():
    path = (StraightLeg(5 * INCH), BendLeg(pi / 2, INCH / 4), StraightLeg(5 * INCH))
    metal = (Metal(10 * INCH + pi / 2 * INCH / 2, name="stem"),)
    spec = BarSpec("it", sq(1 / 2), "S235JR", metal, path)
    near = way(spec, sq(12, MILLIMETRE)).spec
    assert isinstance(near, BarSpec)
    loose = loosened(near, sq(12, MILLIMETRE))
    assert loose is not None
    assert loose.metal[0].length is Blank.REST
    assert reckoned(loose).length == pytest.approx(10 * INCH + pi / 2 * (INCH / 4 + 6 * MILLIMETRE))


def test_a_told_length_of_bar_settles_what_it_leaves_open():
    metal = (Metal(5 * INCH, name="stem"), Metal(Blank.OPEN, None, SectionGoal(sq(1 / 8)), name="tip"))
    spec = BarSpec("it", sq(1 / 2), "S235JR", metal, stock_length=6 * INCH)
    asked = reckoned(spec)
    fixed = settled(spec, asked)
    assert fixed.stock_length is Blank.OPEN
    assert fixed.metal[1].length == pytest.approx(asked.solved[0].value)
    made = reckoned(way(fixed, sq(3 / 4)).spec)
    assert made.stock_bare / INCH == pytest.approx(6 * (1 / 2) ** 2 / (3 / 4) ** 2, rel=1e-9)


def bar_of(name: str, section: Section, length: float, *, offcut: bool = False) -> StockBar:
    return StockBar(name, section, length * INCH, "S235JR", "none", offcut=offcut)


def test_as_it_is_goes_first_offcuts_before_whole_bars_then_the_least_time():
    spec = kept(sq(1 / 2), 4)

    def one(how: How, bar: StockBar, seconds: float) -> Way:
        return Way(how, (bar,), (4 * INCH,), spec, seconds=sharp(seconds))

    ways = [
        one(How.DRAWN, bar_of("B5", sq(1), 20), 900.0),
        one(How.DRAWN, bar_of("B4", sq(3 / 4), 20), 300.0),
        one(How.AS_IS, bar_of("B1", sq(1 / 2), 72), 0.0),
        one(How.AS_IS, bar_of("B2", sq(1 / 2), 10, offcut=True), 0.0),
        one(How.NEAR, bar_of("B3", sq(12, MILLIMETRE), 60), -5.0),
    ]
    assert [w.stock[0].id for w in best_first(ways)] == ["B2", "B1", "B3", "B4", "B5"]


def test_copies_count_every_cut_of_the_saw_but_the_last():
    """72 in holds nine times 8 in and no kerf; with 2.5 mm a cut, eight and a rest of 6 7/32 in."""
    assert copies_of(72 * INCH, 8 * INCH, Cutting(kerf=0.0)) == 9
    assert copies_of(72 * INCH, 8 * INCH, Cutting(kerf=0.0025)) == 8
    assert copies_of(8 * INCH, 8 * INCH, Cutting(kerf=0.0025)) == 1
    assert copies_of(8 * INCH, 8 * INCH, Cutting(kerf=0.0025, grip=0.05)) == 0


def test_what_is_put_in_place_keeps_count_and_place_in_the_file():
    spec = kept(sq(1 / 2), 4)
    new = replaced(spec, Way(How.DRAWN, (bar_of("B4", sq(3 / 4), 20),), (INCH,), way(spec, sq(3 / 4)).spec))
    assert new.make == spec.make
    assert new.where == spec.where


def test_sheet_of_the_same_gauge_of_a_near_one_and_of_another():
    spec = SheetSpec("hood", 0.0478 * INCH, "S235JR", Cone(0.2, 0.05, 0.1), gauge="18 ga")

    def sheet(thick: float) -> StockSheet:
        return StockSheet("S1", thick * INCH, rectangle(1.0, 1.0))

    # 2.9 % is one gauge; 3.1 % and 9.9 % are near enough; 10.1 % is another
    edges = [sheet_becomes(spec, sheet(0.0478 * (1 + off))) for off in (0.029, 0.031, -0.099, 0.101)]
    hows = [one.how if isinstance(one, Turned) else None for one in edges]
    assert hows == [How.AS_IS, How.NEAR, How.NEAR, None]
    same, near, other = (sheet_becomes(spec, sheet(t)) for t in (0.0484, 0.0516, 0.0598))
    assert isinstance(same, Turned)
    assert same.how is How.AS_IS
    assert isinstance(near, Turned)
    assert near.how is How.NEAR
    assert near.spec.thick == pytest.approx(0.0516 * INCH)  # type: ignore[union-attr]
    assert isinstance(other, str)


def test_buying_is_cheaper_from_the_first_part_of_a_cent_on_and_only_in_one_money():
    spec, stock = kept(sq(3 / 8), 6), (StockBar("B1", sq(1 / 2), 1.0),)

    def cheaper(eats: str | None, buy: str | None, money: str = "GBP") -> bool:
        eaten = None if eats is None else Money(Decimal(eats), "GBP")
        bought = None if buy is None else Money(Decimal(buy), money)
        return Way(How.DRAWN, stock, (0.1,), spec, eats=eaten, buy=bought).buying_is_cheaper

    assert cheaper("2.0001", "2.00")
    assert not cheaper("2.00", "2.00")
    assert not cheaper("1.9999", "2.00")
    assert not cheaper("9", "2.00", "USD")
    assert not cheaper(None, "2.00")
    assert not cheaper("9", None)


def test_the_next_size_of_a_row_does_not_stand_in():
    """7/16 for 1/2 is 12.5 % off, 1/2 for 9/16 11 %: other bars (exact); 12 mm for 1/2 and 13.5 are near."""
    assert not near_bar(sq(7 / 16), sq(1 / 2))
    assert not near_bar(sq(1 / 2), sq(9 / 16))
    assert not near_bar(flat(1, 1 / 4), flat(1, 7 / 32))
    assert near_bar(sq(12, MILLIMETRE), sq(1 / 2))
    assert near_bar(sq(13.5, MILLIMETRE), sq(1 / 2))


def test_the_limits_of_what_is_drawn_by_hand_stand_where_the_page_says():
    """Nine times the section and no more; 3 % of the metal may lack; flat wider than three thicknesses buckles."""
    assert not not_drawn(sq(3 / 4), sq(1 / 4))
    assert "nobody draws that down" in not_drawn(sq(0.76), sq(1 / 4))
    assert not not_drawn(sq(0.5 * 0.971**0.5), sq(1 / 2))
    assert "too thin" in not_drawn(sq(0.5 * 0.969**0.5), sq(1 / 2))
    assert not not_drawn(flat(7 / 8, 5 / 16), flat(11 / 16, 3 / 8))
    assert not_drawn(flat(1.25, 5 / 16), flat(3 / 4, 3 / 8))


@pytest.mark.parametrize(("stock", "inches"), [(sq(12, MILLIMETRE), 11.201), (sq(5 / 8), 6.4)])
def test_a_bar_whose_length_is_told_is_told_as_the_same_metal_of_another(stock: Section, inches: float):
    """10 in of 1/2 sq: 10 (12.7/12)^2 in of 12 mm sq, 10 (4/5)^2 of 5/8 sq (exact)."""
    spec = BarSpec("it", sq(1 / 2), "S235JR", (Metal(Blank.REST, name="stem"),), stock_length=10 * INCH)
    told = way(spec, stock).spec
    assert isinstance(told, BarSpec)
    assert told.stock_length == pytest.approx(inches * INCH, rel=1e-4)
