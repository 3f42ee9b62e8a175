"""Mark-out, twists, holes and places: where they fall, and what is said when they cannot be."""

from dataclasses import replace
from math import pi

import pytest

from bickern.iron.section import POINT, Section
from bickern.measure.finding import Finding, Weight
from bickern.measure.units.words import INCH, Shape
from bickern.parts.bar.allowances import BarRules
from bickern.parts.bar.marks import way_words
from bickern.parts.bar.reckon import reckon_bar
from bickern.parts.bar.result import BarResult, MarkKind
from bickern.parts.bar.tracks import (
    Anchor,
    BarSpec,
    BendLeg,
    Blank,
    Branch,
    EyeLeg,
    Face,
    Hole,
    HoleBy,
    HoopLeg,
    Metal,
    Place,
    SectionGoal,
    StraightLeg,
    Twist,
    Way,
)
from bickern.parts.weld import WELD_RULES, weld_allowance, weld_rule_names

BARE = BarRules(scale_worked=(0.0, 0.0, 0.0), scale_kept=(0.0, 0.0, 0.0), weld="none")
UP = pi / 2


def rd(size: float) -> Section:
    return Section(Shape.ROUND, size * INCH, size * INCH)


def sq(size: float) -> Section:
    return Section(Shape.SQUARE, size * INCH, size * INCH)


def flat(wide: float, thick: float) -> Section:
    return Section(Shape.FLAT, wide * INCH, thick * INCH)


def reckoned(spec: BarSpec, rules: BarRules = BARE) -> BarResult:
    read = reckon_bar(spec, rules, 7850.0)
    assert read.value is not None, read.findings
    return read.value


def names(spec: BarSpec, rules: BarRules = BARE) -> set[str]:
    return {f.name for f in reckon_bar(spec, rules, 7850.0).findings}


def only(spec: BarSpec, name: str) -> Finding:
    found = [f for f in reckon_bar(spec, BARE, 7850.0).findings if f.name == name]
    assert len(found) == 1, reckon_bar(spec, BARE, 7850.0).findings
    return found[0]


def arm() -> BarSpec:
    """Tip of 4 in (1/2 sq to 1/8 rd), 9 of square, a ramp of 1/2, a palm of 2."""
    return BarSpec(
        "arm",
        sq(0.5),
        "mild",
        metal=(
            Metal(4 * INCH, start=SectionGoal(rd(0.125)), end=SectionGoal(sq(0.5)), name="tip"),
            Metal(9 * INCH, name="stem"),
            Metal(0.5 * INCH, end=SectionGoal(flat(1.0, 0.25)), flush=Face.BACK, name="ramp"),
            Metal(2 * INCH, name="palm"),
        ),
    )


def test_marks_on_the_unforged_bar() -> None:
    """Each boundary lies at the volume before it over the area of the bar."""
    result = reckoned(arm())
    at = [m.at / INCH for m in result.marks_on_stock]
    tip = result.runs[0].volume / 0.25 / INCH**3
    assert at == pytest.approx([tip, tip + 9, tip + 9 + result.runs[2].volume / 0.25 / INCH**3], rel=1e-9)
    assert all(m.kind is MarkKind.PUNCH and m.holds == "before any heat" for m in result.marks_on_stock)
    assert '"stem"' in result.marks_on_stock[0].says


def test_scale_moves_the_marks() -> None:
    """The mark allows for what burns off before it: farther from the datum end than without scale."""
    plain, burnt = reckoned(arm()), reckoned(arm(), BarRules())
    for one, two in zip(plain.marks_on_stock, burnt.marks_on_stock, strict=True):
        assert two.at > one.at
    assert burnt.marks_on_stock[-1].at < burnt.stock.value


def test_names_without_a_step_are_chalked() -> None:
    spec = BarSpec("b", sq(0.5), "mild", (Metal(3 * INCH, name="a"), Metal(3 * INCH, name="b")))
    mark = reckoned(spec).marks_on_stock[0]
    assert mark.kind is MarkKind.CHALK
    assert mark.at == pytest.approx(3 * INCH)


def test_marks_on_the_drawn_bar() -> None:
    path = (StraightLeg(5 * INCH), BendLeg(UP, 0.75 * INCH, name="crook"), StraightLeg(3 * INCH), EyeLeg(INCH))
    spec = BarSpec("b", sq(0.5), "mild", (Metal(Blank.REST),), path)
    marks = reckoned(spec).marks_on_drawn
    bent = UP * 1.0
    assert [m.at / INCH for m in marks] == pytest.approx([5, 5 + bent / 2, 5 + bent, 8 + bent])
    assert [m.kind for m in marks] == [MarkKind.PUNCH, MarkKind.CHALK, MarkKind.PUNCH, MarkKind.PUNCH]
    assert marks[0].says == '"crook" begins'
    assert "sharp bend here" in marks[-1].says
    assert marks[0].holds == "after drawing, before bending"


def test_grip_and_its_mark() -> None:
    result = reckoned(replace(arm(), grip=3 * INCH))
    assert result.stock.value == pytest.approx(reckoned(arm()).stock.value + 3 * INCH)
    assert result.marks_on_stock[-1].at == pytest.approx(result.stock.value - 3 * INCH)
    assert "grip" in result.marks_on_stock[-1].says


def test_weld_shifts_the_marks_by_half_its_allowance() -> None:
    hole = Hole(0.25 * INCH, HoleBy.DRILL, Place(), number=4)
    spec = BarSpec(
        "hoop",
        flat(1, 0.25),
        "mild",
        (Metal(Blank.REST),),
        (HoopLeg(mean_across=8 * INCH, turn=UP),),
        (),
        (hole,),
        closed=True,
    )
    result = reckoned(spec, replace(BARE, weld="one thickness"))
    round_ = pi * 8
    assert result.weld / INCH == pytest.approx(0.25)
    assert [m.at / INCH for m in result.marks_on_drawn] == pytest.approx(
        [0.125 + round_ * (i + 0.5) / 4 for i in range(4)]
    )
    assert [m.at / INCH for m in result.marks_on_stock] == pytest.approx([0.125, round_ + 0.125])
    assert [m.says for m in result.marks_on_stock] == [
        "1/8 in (3 mm) to here for the weld",
        "1/8 in (3 mm) from here for the weld",
    ]


def test_twist_that_shortens() -> None:
    """A shop that lost 2 % of the twisted length: 4 in of twist take 4/0.98 of bar, and marks beyond it move."""
    metal = (Metal(2 * INCH), Metal(4 * INCH, name="zone"), Metal(2 * INCH))
    spec = BarSpec("b", sq(0.5), "mild", metal, twists=(Twist(1, None, Place(Anchor.START_OF, "zone")),))
    result = reckoned(spec, replace(BARE, twist_shortening=0.02))
    assert result.stock.value / INCH == pytest.approx(4 + 4 / 0.98, rel=1e-9)
    assert [m.at / INCH for m in result.marks_on_drawn] == pytest.approx([2.0, 2 + 4 / 0.98])


def test_kerf_is_taken_from_the_rack_but_not_marked() -> None:
    result = reckoned(arm(), replace(BARE, kerf=0.001))
    assert result.stock.value == pytest.approx(reckoned(arm()).stock.value + 0.001)
    assert result.cut_this == reckoned(arm()).cut_this


def test_cut_this_is_on_the_tape() -> None:
    result = reckoned(arm(), BarRules())
    marks = result.cut_this / (INCH / 16)
    assert marks == pytest.approx(round(marks), abs=1e-9)
    assert 0.0 <= result.cut_this - result.stock.value < INCH / 16


def test_places() -> None:
    """A hole is found from either end, and from the start, middle and end of what has a name."""
    spots = {
        Place(Anchor.DATUM, "", 5 * INCH): 5.0,
        Place(Anchor.END, "", -1 * INCH): 14.5,
        Place(Anchor.START_OF, "stem", INCH): 5.0,
        Place(Anchor.MIDDLE_OF, "palm"): 14.5,
        Place(Anchor.END_OF, "palm", -0.375 * INCH): 15.125,
    }
    for place, at in spots.items():
        result = reckoned(replace(arm(), holes=(Hole(0.125 * INCH, HoleBy.PUNCH, place),)))
        assert result.holes[0].at / INCH == pytest.approx(at)


def test_no_such_place_is_said_with_the_nearest_name() -> None:
    hole = Hole(0.125 * INCH, HoleBy.PUNCH, Place(Anchor.MIDDLE_OF, "plam"))
    found = only(replace(arm(), holes=(hole,)), "no-such-place")
    assert "palm" in found.try_this


@pytest.mark.parametrize(("anchor", "start"), [(Anchor.START_OF, 4.0), (Anchor.MIDDLE_OF, 6.5), (Anchor.END_OF, 9.0)])
def test_twist_zone_by_its_anchor(anchor: Anchor, start: float) -> None:
    result = reckoned(replace(arm(), twists=(Twist(1.5, 4 * INCH, Place(anchor, "stem")),)))
    assert result.twists[0].start / INCH == pytest.approx(start)
    assert (result.twists[0].end - result.twists[0].start) / INCH == pytest.approx(4.0)


def test_twist_in_the_way_of_other_things() -> None:
    at = {
        "twist-over-taper": Twist(1, 3 * INCH, Place(plus=2 * INCH)),
        "twist-off-the-bar": Twist(1, 3 * INCH, Place(Anchor.END, "", INCH)),
        "twist-needs-length": Twist(1, None, Place()),
        "twist-without-turns": Twist(0, 3 * INCH, Place(Anchor.START_OF, "stem")),
    }
    for name, twist in at.items():
        assert name in names(replace(arm(), twists=(twist,))), name
    stem = Twist(1, None, Place(Anchor.START_OF, "stem"))
    assert "twist-over-twist" in names(replace(arm(), twists=(stem, replace(stem, over=2 * INCH))))
    hole = Hole(0.1 * INCH, HoleBy.PUNCH, Place(Anchor.MIDDLE_OF, "stem"))
    assert "twist-over-hole" in names(replace(arm(), twists=(stem,), holes=(hole,)))
    path = (StraightLeg(6 * INCH), BendLeg(UP, INCH), StraightLeg(Blank.REST))
    assert "twist-over-bend" in names(replace(arm(), twists=(stem,), path=path))


def test_holes_that_cannot_be() -> None:
    palm = Place(Anchor.MIDDLE_OF, "palm")
    wide = Hole(1.0 * INCH, HoleBy.PUNCH, palm)
    assert only(replace(arm(), holes=(wide,)), "hole-wider-than-bar").weight is Weight.STOP
    assert "slit and drift" in only(replace(arm(), holes=(wide,)), "hole-wider-than-bar").try_this
    assert "thin-wall" in names(replace(arm(), holes=(replace(wide, size=0.6 * INCH),)))
    assert not names(replace(arm(), holes=(replace(wide, size=0.25 * INCH),)))
    assert not names(replace(arm(), holes=(replace(wide, by=HoleBy.SLIT),)))
    off = replace(wide, size=0.25 * INCH, at=Place(Anchor.END, "", 0.0))
    assert "hole-off-the-bar" in names(replace(arm(), holes=(off,)))
    near = replace(off, at=Place(Anchor.END, "", -0.2 * INCH))
    assert "hole-near-end" in names(replace(arm(), holes=(near,)))
    row = replace(wide, size=0.25 * INCH, number=3, spacing=0.2 * INCH)
    assert "holes-overlap" in names(replace(arm(), holes=(row,)))


def test_holes_divided_over_an_entry() -> None:
    """Four holes over 9 in of stem: half a space at each end."""
    row = Hole(0.1 * INCH, HoleBy.PUNCH, Place(Anchor.START_OF, "stem"), number=4)
    at = [h.at / INCH for h in reckoned(replace(arm(), holes=(row,))).holes]
    assert at == pytest.approx([4 + 9 / 4 * (i + 0.5) for i in range(4)])


def test_flat_bent_against_its_word() -> None:
    def bent(turn: float, way: Way) -> BarSpec:
        path = (StraightLeg(3 * INCH), BendLeg(UP, 2 * INCH, turn, way), StraightLeg(3 * INCH))
        return BarSpec("b", flat(1, 0.25), "mild", (Metal(Blank.REST),), path)

    assert not names(bent(UP, Way.EASY))
    assert "way-against-turn" not in names(bent(0.0, Way.HARD))
    assert "up or down" in only(bent(0.0, Way.EASY), "way-against-turn").try_this
    assert "left or right" in only(bent(UP, Way.HARD), "way-against-turn").try_this


def test_bends_past_reason() -> None:
    def bent(radius: float) -> BarSpec:
        path = (StraightLeg(3 * INCH), BendLeg(UP, radius * INCH), StraightLeg(3 * INCH))
        return BarSpec("b", sq(0.5), "mild", (Metal(Blank.REST),), path)

    assert "tight-bend" in names(bent(0.1))
    assert not names(bent(0.5))
    assert "no-inside-radius" in names(bent(0.0))
    small = BarSpec("b", sq(0.5), "mild", (Metal(Blank.REST),), (StraightLeg(3 * INCH), EyeLeg(0.25 * INCH)))
    assert "inside-smaller-than-bar" in names(small)


def test_closed_bars() -> None:
    hoop = BarSpec("h", rd(0.5), "mild", (Metal(Blank.REST),), (HoopLeg(outside_across=0.9 * INCH),), closed=True)
    assert "inside-smaller-than-bar" in names(hoop)
    taper = replace(
        hoop, path=(HoopLeg(outside_across=5 * INCH),), metal=(Metal(Blank.REST, end=SectionGoal(rd(0.25))),)
    )
    assert "closed-ends-differ" in names(taper)
    gaping = replace(hoop, path=(StraightLeg(5 * INCH), BendLeg(UP, INCH), StraightLeg(5 * INCH)))
    assert "ends-do-not-meet" in names(gaping)
    third = (StraightLeg(5 * INCH), BendLeg(pi * 2 / 3, INCH))
    assert "ends-do-not-meet" not in names(replace(hoop, path=third * 3))


def test_ways_in_words() -> None:
    assert [way_words(i * UP) for i in range(4)] == ["left", "up", "right", "down"]
    assert way_words(pi - UP * 2) == "left"
    assert "45" in way_words(pi / 4)


def test_weld_rules_disagree_and_each_has_its_source() -> None:
    shares = {name: weld_allowance(name, 1.0) for name in weld_rule_names()}
    assert shares["one thickness"] == 1.0
    assert shares["half a thickness"] == 0.5
    assert shares["none"] == 0.0
    assert len(WELD_RULES) == len(shares) == len(set(shares.values()))
    assert all(str(rule.source) for rule in WELD_RULES)


def test_left_hand_turns_its_faces_and_twists_over() -> None:
    hole = Hole(0.1 * INCH, HoleBy.PUNCH, Place(Anchor.MIDDLE_OF, "stem"), Face.LEFT)
    twist = Twist(1.0, 2 * INCH, Place(Anchor.START_OF, "stem"))
    result = reckoned(replace(arm(), hand="left", holes=(hole,), twists=(twist,)))
    assert result.spec.hand == "left"
    assert result.holes[0].hole.face is Face.RIGHT
    assert result.twists[0].twist.turns == -1.0


@pytest.mark.parametrize(
    ("turns", "name", "weight"), [(1.0, "", None), (2.0, "twist-tight", 1), (4.0, "twist-too-tight", 2)]
)
def test_a_twist_is_noted_then_warned_of(turns: float, name: str, weight: int | None) -> None:
    """1/2 sq over 4 in: 1 turn stretches the corners 14 %, 2 turns 49 %, 4 turns 144 %."""
    read = reckon_bar(replace(arm(), twists=(Twist(turns, 4 * INCH, Place(Anchor.MIDDLE_OF, "stem")),)), BARE, 7850.0)
    assert [(f.name, int(f.weight)) for f in read.findings] == ([(name, weight)] if name else [])


def test_the_bar_run_out_to_a_point() -> None:
    point = SectionGoal(Section(Shape.POINT, 0.0, 0.0))
    spec = BarSpec("b", sq(0.5), "mild", (Metal(3 * INCH, end=point), Metal(2 * INCH, name="more")))
    assert "no-metal-there" in names(spec)


def test_a_bar_that_is_only_bent_is_cut_to_its_length() -> None:
    """The fire thins it and leaves it as long: 4 + 6 and pi/2 (3/4 + 1/4), up to the next sixteenth (exact)."""
    path = (StraightLeg(4 * INCH), BendLeg(UP, 0.75 * INCH), StraightLeg(6 * INCH))
    result = reckoned(BarSpec("b", sq(0.5), "mild", (Metal(Blank.REST),), path), BarRules())
    assert result.stock.value / INCH == pytest.approx(10 + UP)
    assert result.stock.low == result.stock.high == result.stock.value
    assert result.cut_this / INCH == pytest.approx(11 + 10 / 16)
    assert [m.at / INCH for m in result.marks_on_drawn] == pytest.approx([4, 4 + UP / 2, 4 + UP])
    drawn = reckoned(arm(), BarRules())
    assert drawn.stock.low < drawn.stock.value < drawn.stock.high


def test_a_hole_is_marked_once_and_on_the_drawn_bar() -> None:
    hole = Hole(0.25 * INCH, HoleBy.DRILL, Place(Anchor.MIDDLE_OF, "stem"))
    result = reckoned(replace(arm(), holes=(hole,)))
    assert [m.at / INCH for m in result.marks_on_drawn if "hole" in m.says] == pytest.approx([8.5])
    assert not [m for m in result.marks_on_stock if "hole" in m.says]


def test_the_wall_of_a_hole_is_the_least_round_it() -> None:
    """1/4 in the middle of 1 wide leaves 3/8 beside; with its middle 3/8 from the end, 1/4 before it."""
    spec = BarSpec("b", flat(1, 0.25), "mild", (Metal(4 * INCH),))
    hole = Hole(0.25 * INCH, HoleBy.DRILL, Place(plus=2 * INCH))
    for at, wall in ((2, 3 / 8), (3 / 8, 1 / 4), (4 - 3 / 8, 1 / 4)):
        result = reckoned(replace(spec, holes=(replace(hole, at=Place(plus=at * INCH)),)))
        assert result.holes[0].wall / INCH == pytest.approx(wall)
    slit = replace(hole, by=HoleBy.SLIT, at=Place(plus=INCH / 2))
    made = reckoned(replace(spec, holes=(slit,))).holes[0]
    assert made.wall / INCH == pytest.approx(0.5 - 0.475 * pi * 0.25 / 2)


def test_a_welded_joint_is_no_end_for_a_hole() -> None:
    hole = Hole(0.25 * INCH, HoleBy.DRILL, Place(plus=INCH / 4))
    hoop = (HoopLeg(mean_across=8 * INCH, turn=UP),)
    spec = BarSpec("hoop", flat(1, 0.25), "mild", (Metal(Blank.REST),), hoop, (), (hole,), closed=True)
    assert reckoned(spec).holes[0].wall / INCH == pytest.approx(3 / 8)
    assert reckoned(replace(spec, welded=False)).holes[0].wall / INCH == pytest.approx(1 / 8)


def test_no_mark_where_a_bend_or_twist_meets_an_end_of_the_bar() -> None:
    path = (BendLeg(UP, 0.75 * INCH, name="one"), StraightLeg(4 * INCH), BendLeg(UP, 0.75 * INCH, name="two"))
    says = [m.says for m in reckoned(BarSpec("b", sq(0.5), "mild", (Metal(Blank.REST),), path)).marks_on_drawn]
    assert says == ['middle of "one"', '"one" ends', '"two" begins', 'middle of "two"']


@pytest.mark.parametrize(("short", "number"), [(1 / 64, 5), (1 / 16, 6)])
def test_marks_that_would_run_into_each_other_are_one(short: float, number: int) -> None:
    path = (
        StraightLeg(3 * INCH),
        BendLeg(UP, 0.75 * INCH, name="one"),
        StraightLeg(short * INCH),
        BendLeg(UP, 0.75 * INCH, name="two"),
        StraightLeg(3 * INCH),
    )
    marks = reckoned(BarSpec("b", sq(0.5), "mild", (Metal(Blank.REST),), path)).marks_on_drawn
    assert len(marks) == number
    assert ('"one" ends; "two" begins' in [m.says for m in marks]) == (number == 5)


def test_a_mark_beside_a_hole_joins_it_at_its_centre() -> None:
    hole = Hole(0.25 * INCH, HoleBy.DRILL, Place(plus=(3 + 1 / 64) * INCH), name="pin")
    path = (StraightLeg(3 * INCH), BendLeg(UP, 0.75 * INCH, name="crook"), StraightLeg(3 * INCH))
    marks = reckoned(BarSpec("b", flat(1, 0.25), "mild", (Metal(Blank.REST),), path, (), (hole,))).marks_on_drawn
    assert marks[0].at / INCH == pytest.approx(3 + 1 / 64)
    assert marks[0].says == 'drill: centre of hole "pin", front face; "crook" begins'
    assert len(marks) == 3


def test_stretches_without_a_name_are_told_by_their_neighbours() -> None:
    metal = (
        Metal(INCH, start=SectionGoal(sq(0.25)), name="foot"),
        Metal(INCH, end=SectionGoal(sq(0.5))),
        Metal(4 * INCH, name="upright"),
        Metal(INCH, end=SectionGoal(sq(0.25))),
    )
    says = [m.says for m in reckoned(BarSpec("b", sq(0.5), "mild", metal)).marks_on_stock]
    assert says == [
        'taper from "foot" to "upright" begins',
        'taper from "foot" to "upright" ends',
        'taper after "upright" begins',
    ]
    bare = BarSpec("b", sq(0.5), "mild", (Metal(4 * INCH), Metal(INCH, end=SectionGoal(sq(0.25)))))
    assert [m.says for m in reckoned(bare).marks_on_stock] == ["taper begins"]


def test_straights_and_bends_without_a_name_are_counted() -> None:
    """No entry is told by its number in the file: a smith reads along the line."""
    bend, side = BendLeg(UP, 0.75 * INCH), StraightLeg(3 * INCH)
    spec = BarSpec("b", sq(0.5), "mild", (Metal(20 * INCH),), (side, bend, side, bend, StraightLeg(Blank.REST)))
    made = reckoned(spec)
    assert [s.name for s in made.solved] == ["length of the straight after the second bend"]
    assert made.marks_on_drawn[3].says == "the second bend begins"
    short = replace(spec, path=(side, bend, StraightLeg(-INCH), bend, side))
    assert "the straight after the first bend" in only(short, "length-not-positive").says
    longer = replace(spec, path=(side, bend, StraightLeg(9 * INCH), bend, side))
    assert "make the straight after the first bend" in only(longer, "tracks-differ").try_this


def test_where_a_branch_is_welded_on_is_marked() -> None:
    thorn = BarSpec("thorn", rd(1 / 4), "S235JR", (Metal(3 * INCH, end=SectionGoal(POINT)),))
    there = Branch("thorn", thorn, Place(plus=6 * INCH))
    result = reckon_bar(
        BarSpec("stem", sq(1 / 2), "S235JR", (Metal(12 * INCH),), branches=(there,)), BarRules(), 7850.0
    )
    assert result.value is not None
    marks = [(m.at, m.says) for m in result.value.marks_on_drawn]
    assert marks == [(pytest.approx(6 * INCH), '"thorn" is welded on here')]
