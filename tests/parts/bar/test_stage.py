"""A bar half made, against sums that can be done by hand: so much metal, so much length."""

from dataclasses import replace
from math import pi

import pytest

from bickern.geometry.path import Arc, Kink, Straight, Turned, run_length
from bickern.iron.section import POINT, Section, area
from bickern.measure.units.words import INCH, Shape
from bickern.parts.bar.allowances import BarRules
from bickern.parts.bar.reckon import reckon_bar
from bickern.parts.bar.result import BarResult
from bickern.parts.bar.stage import Done, stage_of
from bickern.parts.bar.traced import traced_line
from bickern.parts.bar.tracks import (
    Anchor,
    BarSpec,
    BendLeg,
    Blank,
    Branch,
    Corner,
    EyeLeg,
    Hole,
    HoleBy,
    HoopLeg,
    Metal,
    Place,
    SectionGoal,
    StraightLeg,
    Twist,
)

NO_SCALE = BarRules(scale_worked=(0.0, 0.0, 0.0), scale_kept=(0.0, 0.0, 0.0))
HALF = Section(Shape.SQUARE, 0.5 * INCH, 0.5 * INCH)
QUARTER = Section(Shape.SQUARE, 0.25 * INCH, 0.25 * INCH)
DRAWN = SectionGoal(QUARTER)
NOTHING = Done()


def reckoned(spec: BarSpec, rules: BarRules = NO_SCALE) -> BarResult:
    read = reckon_bar(spec, rules, 7850.0)
    assert read.value is not None, read.findings
    return read.value


def everything(bar: BarResult) -> Done:
    return Done(*(frozenset(range(len(track))) for track in (bar.runs, bar.bends, bar.twists, bar.holes)))


def pin() -> BarSpec:
    """4 in of 1/4 square drawn from 1/2 square, then 6 in left as it comes."""
    return BarSpec(
        "pin", HALF, "mild", (Metal(4 * INCH, DRAWN, name="thin"), Metal(6 * INCH, SectionGoal(HALF), name="thick"))
    )


def hook() -> BarSpec:
    """The pin with a twist and a hole in what is kept, and the thin end bent over."""
    return replace(
        pin(),
        path=(StraightLeg(1 * INCH), BendLeg(pi / 2, 0.5 * INCH, name="over"), StraightLeg(Blank.REST)),
        twists=(Twist(1.0, 2 * INCH, Place(Anchor.START_OF, "thick", 1 * INCH)),),
        holes=(Hole(0.125 * INCH, HoleBy.DRILL, Place(Anchor.END, "", -1 * INCH)),),
    )


def test_a_drawn_end_was_a_quarter_as_long_when_it_was_twice_as_thick() -> None:
    # exact mathematics: 1/4 square has a quarter of the metal of 1/2 square, foot for foot
    stage = stage_of(reckoned(pin()), NOTHING)
    assert stage.bar.length == pytest.approx(7 * INCH, rel=1e-12)
    assert [(run.a, run.b, run.name) for run in stage.bar.runs] == [(HALF, HALF, "")]
    assert stage.at(4 * INCH) == pytest.approx(1 * INCH, rel=1e-12)
    assert stage.at(2 * INCH) == pytest.approx(0.5 * INCH, rel=1e-12)
    assert stage.at(7 * INCH) == pytest.approx(4 * INCH, rel=1e-12)
    assert stage.back(4 * INCH) == pytest.approx(7 * INCH, rel=1e-12)


def test_the_middle_of_a_staple_is_as_long_before_its_points_are_drawn() -> None:
    """W. L. Ilgen, Forge Work, 1912, s. 68: 5 in of 1/4 rd, 1 in of each end drawn, 3 in between (read in it)."""
    quarter = Section(Shape.ROUND, 0.25 * INCH, 0.25 * INCH)
    # a cone holds a third of the metal of the round it is drawn from: 1 in of bar makes 3 in of point
    metal = (
        Metal(3 * INCH, SectionGoal(POINT), SectionGoal(quarter), name="one point"),
        Metal(3 * INCH, SectionGoal(quarter), name="middle"),
        Metal(3 * INCH, SectionGoal(quarter), SectionGoal(POINT), name="other point"),
    )
    bar = reckoned(BarSpec("staple", quarter, "mild", metal))
    stage = stage_of(bar, NOTHING)
    assert stage.bar.length == pytest.approx(5 * INCH, rel=1e-9)
    assert stage.at(6 * INCH) - stage.at(3 * INCH) == pytest.approx(3 * INCH, rel=1e-9)
    half_done = stage_of(bar, Done(runs=frozenset({0})))
    assert half_done.bar.length == pytest.approx(7 * INCH, rel=1e-9)
    assert half_done.at(6 * INCH) - half_done.at(3 * INCH) == pytest.approx(3 * INCH, rel=1e-9)


def test_what_the_fire_will_take_is_still_there_before_it_is_forged() -> None:
    rules = replace(NO_SCALE, scale_worked=(0.02, 0.05, 0.08))
    bar = reckoned(pin(), rules)
    loss = bar.runs[0].loss.value
    assert loss > 0.0
    assert stage_of(bar, NOTHING).at(4 * INCH) == pytest.approx(INCH / (1 - loss), rel=1e-12)
    assert stage_of(bar, Done(runs=frozenset({0}))).bar.length == pytest.approx(10 * INCH, rel=1e-12)


def test_metal_kept_loses_its_scale_when_the_last_stretch_is_forged() -> None:
    bar = reckoned(pin(), replace(NO_SCALE, scale_kept=(0.01, 0.02, 0.03)))
    kept = bar.runs[1].loss.value
    before, after = stage_of(bar, NOTHING), stage_of(bar, Done(runs=frozenset({0})))
    assert before.at(10 * INCH) - before.at(4 * INCH) == pytest.approx(6 * INCH / (1 - kept), rel=1e-12)
    assert after.bar is bar


def test_a_bend_still_to_be_made_is_straight_and_one_made_keeps_its_arc() -> None:
    bar = reckoned(hook())
    straight = stage_of(bar, Done(runs=frozenset({0, 1})))
    assert straight.bar.legs == (Straight(pytest.approx(10 * INCH)),)
    assert straight.bar.bends == ()
    assert straight.bar.spec.path == ()
    bent = stage_of(bar, Done(frozenset({0, 1}), frozenset({0})))
    # 1/4 in bar about 1/2 in inside: the middle of the bar runs at 5/8 in, a quarter turn
    assert [leg for leg in bent.bar.legs if isinstance(leg, Arc)] == [Arc(pytest.approx(0.625 * INCH), pi / 2)]
    assert run_length(bent.bar.legs) == pytest.approx(10 * INCH, rel=1e-12)
    assert bent.bar.bends == bar.bends


def test_a_bend_in_metal_still_to_be_drawn_is_so_much_smaller() -> None:
    stage = stage_of(reckoned(hook()), Done(bends=frozenset({0})))
    arcs = [leg for leg in stage.bar.legs if isinstance(leg, Arc)]
    assert arcs == [Arc(pytest.approx(0.625 * INCH / 4), pi / 2)]
    assert run_length(stage.bar.legs) == pytest.approx(7 * INCH, rel=1e-12)


def test_twists_and_holes_are_there_only_when_made_and_where_their_metal_is() -> None:
    bar = reckoned(hook())
    nothing = stage_of(bar, NOTHING).bar
    assert nothing.twists == ()
    assert nothing.holes == ()
    stage = stage_of(bar, Done(twists=frozenset({0}), holes=frozenset({0})))
    # 3 in are gone from what lies before them
    assert (stage.bar.twists[0].start, stage.bar.twists[0].end) == (pytest.approx(2 * INCH), pytest.approx(4 * INCH))
    assert stage.bar.holes[0].at == pytest.approx(6 * INCH)
    assert stage.bar.legs == (Straight(pytest.approx(4 * INCH)), Turned(2 * pi), Straight(pytest.approx(3 * INCH)))


def test_all_done_is_the_finished_bar_itself() -> None:
    bar = reckoned(hook())
    stage = stage_of(bar, everything(bar))
    assert stage.bar is bar
    assert stage.at(3 * INCH) == 3 * INCH


def test_a_grip_is_there_until_all_is_done() -> None:
    bar = reckoned(replace(hook(), grip=2 * INCH))
    assert stage_of(bar, NOTHING).bar.length == pytest.approx(9 * INCH)
    almost = replace(everything(bar), holes=frozenset())
    assert stage_of(bar, almost).bar.length == pytest.approx(12 * INCH)
    assert stage_of(bar, almost).at(11 * INCH) == pytest.approx(11 * INCH)
    assert stage_of(bar, everything(bar)).bar.length == pytest.approx(10 * INCH)


def test_a_hoop_has_half_its_weld_at_each_end_until_it_is_bent_round() -> None:
    rules = replace(NO_SCALE, weld="one thickness")
    spec = BarSpec(
        "hoop", HALF, "mild", (Metal(Blank.REST),), (HoopLeg(mean_across=6 * INCH),), closed=True, welded=True
    )
    bar = reckoned(spec, rules)
    assert bar.weld == pytest.approx(0.5 * INCH)
    stage = stage_of(bar, NOTHING)
    assert stage.bar.length == pytest.approx(bar.length + 0.5 * INCH)
    assert stage.at(0.0) == pytest.approx(0.25 * INCH)
    assert not stage.bar.spec.closed
    assert stage_of(bar, Done(bends=frozenset({0}))).bar is bar
    pierced = reckoned(
        replace(spec, holes=(Hole(0.125 * INCH, HoleBy.DRILL, Place(Anchor.DATUM, "", 3 * INCH)),)), rules
    )
    round_still_whole = stage_of(pierced, Done(bends=frozenset({0})))
    assert round_still_whole.bar.length == pytest.approx(pierced.length)
    assert round_still_whole.bar.spec.closed


def test_a_welded_eye_has_its_weld_at_its_own_end() -> None:
    path = (StraightLeg(Blank.REST), EyeLeg(1 * INCH, welded=True))
    spec = BarSpec("eye", HALF, "mild", (Metal(12 * INCH),), path)
    bar = reckoned(spec, replace(NO_SCALE, weld="one thickness"))
    stage = stage_of(bar, NOTHING)
    assert stage.at(0.0) == 0.0
    assert stage.bar.length == pytest.approx(12 * INCH + bar.weld)
    assert bar.weld > 0.0


def test_an_eye_and_a_square_corner_keep_all_their_legs() -> None:
    path = (
        EyeLeg(1 * INCH, name="eye"),
        StraightLeg(Blank.REST),
        BendLeg(pi / 2, 0.125 * INCH, corner=Corner.SQUARE),
        StraightLeg(2 * INCH),
    )
    bar = reckoned(BarSpec("both", QUARTER, "mild", (Metal(12 * INCH),), path))
    eye, corner = (stage_of(bar, Done(bends=frozenset({i}))) for i in (0, 1))
    kinds = [type(leg) for leg in eye.bar.legs]
    assert kinds == [Arc, Kink, Straight]
    assert [type(leg) for leg in corner.bar.legs] == [Straight, Straight, Kink, Straight, Straight]
    # the corner holds more metal than its line is long: as much before as after
    line = traced_line(corner.bar)
    assert line.metal[-1] == pytest.approx(12 * INCH)
    assert line.metal[2] - line.metal[1] == pytest.approx(bar.bends[1].end - bar.bends[1].start)


def test_split_ends_are_stock_until_all_is_done() -> None:
    tine = BarSpec("tine", None, "mild", (Metal(3 * INCH),))
    spec = replace(pin(), branches=(Branch("left", tine), Branch("right", replace(tine, name="other"))))
    bar = reckoned(spec)
    stage = stage_of(bar, NOTHING)
    # two tines of half the section, 3 in each, come out of 3 in of bar
    assert stage.bar.length == pytest.approx(10 * INCH)
    assert stage.bar.children == ()
    assert stage_of(bar, Done(runs=frozenset({0}))).bar.children == bar.children


def test_a_twist_that_takes_up_length_has_it_still_before_it_is_made() -> None:
    bar = reckoned(hook(), replace(NO_SCALE, twist_shortening=0.2))
    # 2 in of twist were 2 1/2 in before
    before = stage_of(bar, Done(runs=frozenset({0, 1})))
    assert before.bar.length == pytest.approx(10.5 * INCH)
    assert before.at(7 * INCH) - before.at(5 * INCH) == pytest.approx(2 * INCH * 6.5 / 6)
    assert stage_of(bar, replace(everything(bar), holes=frozenset())).bar.length == pytest.approx(10 * INCH)


def test_what_is_left_out_of_a_picture_shortens_the_plain_iron_alone() -> None:
    bar = reckoned(hook())
    stage = stage_of(bar, NOTHING, left_out=((7.5 * INCH, 8.5 * INCH),))
    assert stage.bar.length == pytest.approx(6 * INCH)
    assert stage.at(7 * INCH) == pytest.approx(4 * INCH)
    assert stage.at(9 * INCH) == pytest.approx(5 * INCH)
    whole = stage_of(bar, everything(bar), left_out=((4.5 * INCH, 4.75 * INCH), (7.5 * INCH, 8.5 * INCH)))
    assert whole.bar.length == pytest.approx(8.75 * INCH)
    assert run_length(whole.bar.legs) == pytest.approx(8.75 * INCH)


def test_the_metal_of_each_stretch_is_its_section_times_its_length() -> None:
    stage = stage_of(reckoned(pin()), Done(runs=frozenset({0})))
    assert [run.volume for run in stage.bar.runs] == [
        pytest.approx(4 * INCH * area(QUARTER)),
        pytest.approx(6 * INCH * area(HALF)),
    ]
