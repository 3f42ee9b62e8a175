"""What must hold of a bar at every stage: its metal is kept, its places stay in order, all done is the finished bar."""

import os
from itertools import pairwise
from math import isclose, pi

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bickern.geometry.path import Arc, Kink, Spiral, leg_turn, run_length
from bickern.iron.blend import blend_volume
from bickern.iron.section import Section, area
from bickern.measure.units.words import INCH, Shape
from bickern.parts.bar.allowances import BarRules
from bickern.parts.bar.reckon import reckon_bar
from bickern.parts.bar.result import BarResult
from bickern.parts.bar.stage import Done, Stage, stage_of
from bickern.parts.bar.traced import traced_line
from bickern.parts.bar.tracks import (
    Anchor,
    BarSpec,
    BendLeg,
    Blank,
    Hole,
    HoleBy,
    Metal,
    Place,
    ScrollLeg,
    SectionGoal,
    StraightLeg,
    Twist,
)

OFTEN = 20 if os.environ.get("BICKERN_SOAK") else 1
"""How many times the sample of `make test` is tried in `make soak`."""

sizes = st.floats(0.125, 1.0).map(lambda x: x * INCH)
lengths = st.floats(3.0, 12.0).map(lambda x: x * INCH)
shapes = st.sampled_from([Shape.SQUARE, Shape.ROUND, Shape.HEXAGON, Shape.OCTAGON])
even = st.builds(lambda shape, x: Section(shape, x, x), shapes, sizes)
sections = st.one_of(even, st.builds(lambda w, t: Section(Shape.FLAT, w, t), sizes, sizes))
turns = st.floats(0.0, 2 * pi)


@st.composite
def bars(draw: st.DrawFn) -> BarResult:
    """Two tapers and a kept middle, twisted and drilled, a scroll at one end and a bend before the other."""
    stock = draw(even)
    metal = (
        Metal(draw(lengths), start=SectionGoal(draw(sections)), end=SectionGoal(stock), name="first"),
        Metal(draw(lengths), name="middle"),
        Metal(draw(lengths), start=SectionGoal(draw(sections)), end=SectionGoal(draw(sections)), name="last"),
    )
    path = (
        ScrollLeg(draw(st.floats(0.25, 1.0)), draw(sizes), None, draw(st.floats(2.0, 4.0)) * INCH, turn=draw(turns)),
        StraightLeg(Blank.REST),
        BendLeg(draw(st.floats(0.2, pi)), draw(sizes), draw(turns)),
        StraightLeg(draw(st.floats(0.25, 2.0)) * INCH),
    )
    twist = Twist(draw(st.floats(0.25, 2.0)), None, Place(Anchor.MIDDLE_OF, "middle"))
    hole = Hole(draw(sizes) / 8, HoleBy.DRILL, Place(Anchor.MIDDLE_OF, "last"))
    loss = draw(st.floats(0.0, 0.08))
    rules = BarRules(
        scale_worked=(loss / 2, loss, 2 * loss),
        scale_kept=(0.0, 0.0, 0.0),
        corner_fullness=draw(st.floats(0.9, 1.0)),
        twist_shortening=draw(st.sampled_from([0.0, 0.1])),
    )
    spec = BarSpec(
        "bar", stock, "mild", metal, path, twists=(twist,), holes=(hole,), grip=draw(st.sampled_from([0.0, 2 * INCH]))
    )
    read = reckon_bar(spec, rules, 7850.0)
    return read.value if read.value is not None else draw(st.nothing())


def some(number: int) -> st.SearchStrategy[frozenset[int]]:
    return st.frozensets(st.integers(0, number - 1)) if number else st.just(frozenset())


@st.composite
def halfway(draw: st.DrawFn) -> tuple[BarResult, Done]:
    bar = draw(bars())
    tracks = (bar.runs, bar.bends, bar.twists, bar.holes)
    return bar, Done(*(draw(some(len(track))) for track in tracks))


def finished(bar: BarResult, done: Done) -> bool:
    worked = {i for i, run in enumerate(bar.runs) if not run.kept}
    rest = zip((done.bends, done.twists, done.holes), (bar.bends, bar.twists, bar.holes), strict=True)
    return worked <= done.runs and all(len(one) == len(track) for one, track in rest)


def as_drawn(stage: Stage) -> float:
    """Metal [m3] by the sections and lengths of the stage alone."""
    return sum(blend_volume(run.a, run.b, run.end - run.start) for run in stage.bar.runs)


@given(halfway())
@settings(max_examples=60 * OFTEN, deadline=None)
def test_the_metal_of_every_stage_is_what_was_cut_less_what_the_fire_took(given: tuple[BarResult, Done]) -> None:
    """Each stretch still to be forged has its scale on it, each one forged has lost it; a grip is there to the last.

    What a twist takes up of its bar's length is there until it is made.
    """
    bar, done = given
    stage, unit = stage_of(bar, done), area(bar.stock_section)
    gone = sum(r.volume / (1 - r.loss.value) - r.volume for i, r in enumerate(bar.runs) if i in done.runs)
    twist = bar.stock_bare * unit - bar.worked_volume if 0 in done.twists else 0.0
    grip = bar.grip * unit if finished(bar, done) else 0.0
    wanted = bar.stock.value * unit - gone - twist - grip
    assert isclose(sum(run.volume for run in stage.bar.runs), wanted, rel_tol=1e-9)
    assert isclose(as_drawn(stage), wanted, rel_tol=1e-9)


@given(bars())
@settings(max_examples=40 * OFTEN, deadline=None)
def test_with_nothing_done_it_is_the_straight_stock_and_with_all_done_the_finished_bar(bar: BarResult) -> None:
    nothing = stage_of(bar, Done()).bar
    assert len(nothing.runs) == 1
    assert (nothing.runs[0].a, nothing.runs[0].b) == (bar.stock_section, bar.stock_section)
    assert isclose(nothing.length, bar.stock.value, rel_tol=1e-12)
    assert [run_length([leg]) for leg in nothing.legs] == [pytest.approx(bar.stock.value)]
    everything = Done(*(frozenset(range(len(x))) for x in (bar.runs, bar.bends, bar.twists, bar.holes)))
    assert stage_of(bar, everything).bar is bar


@given(halfway())
@settings(max_examples=60 * OFTEN, deadline=None)
def test_places_stay_in_order_and_can_be_found_again(given: tuple[BarResult, Done]) -> None:
    bar, done = given
    stage = stage_of(bar, done)
    assert all(a < b for a, b in pairwise(stage.finished))
    assert all(a < b for a, b in pairwise(stage.now))
    assert len(stage.finished) == len(stage.now)
    places = [bar.length * i / 40 for i in range(41)]
    assert all(a < b for a, b in pairwise(map(stage.at, places)))
    assert [stage.back(stage.at(at)) for at in places] == pytest.approx(places, abs=1e-9)
    assert -1e-12 <= stage.at(0.0) <= stage.at(bar.length) <= stage.bar.length + 1e-9


@given(halfway())
@settings(max_examples=60 * OFTEN, deadline=None)
def test_runs_follow_one_another_and_the_line_is_as_long_as_the_metal(given: tuple[BarResult, Done]) -> None:
    bar, done = given
    now = stage_of(bar, done).bar
    assert now.runs[0].start == pytest.approx(0.0, abs=1e-12)
    assert all(a.end == pytest.approx(b.start, abs=1e-12) for a, b in pairwise(now.runs))
    assert now.runs[-1].end == now.length
    assert isclose(run_length(now.legs), now.length, rel_tol=1e-9)
    assert traced_line(now).metal[-1] == now.length


@given(halfway())
@settings(max_examples=60 * OFTEN, deadline=None)
def test_only_what_is_made_is_bent_and_it_is_bent_as_far_as_it_will_be(given: tuple[BarResult, Done]) -> None:
    bar, done = given
    now = stage_of(bar, done).bar
    kinds = (Arc, Spiral, Kink)
    every, bent = ([leg for leg in one.legs if isinstance(leg, kinds)] for one in (bar, now))
    wanted = [leg for i, leg in enumerate(every) if i in done.bends]
    assert [type(leg) for leg in bent] == [type(leg) for leg in wanted]
    assert [leg_turn(leg) for leg in bent] == pytest.approx([leg_turn(leg) for leg in wanted])
    assert (len(now.twists), len(now.holes)) == (len(done.twists), len(done.holes))


@given(halfway())
@settings(max_examples=60 * OFTEN, deadline=None)
def test_a_stretch_forged_is_as_it_will_be_and_one_not_forged_is_stock(given: tuple[BarResult, Done]) -> None:
    bar, done = given
    stage = stage_of(bar, done)
    for i, run in enumerate(bar.runs):
        middle = stage.at((run.start + run.end) / 2)
        here = next(r for r in stage.bar.runs if middle < r.end)
        made = i in done.runs or run.kept
        assert (here.a, here.b) == ((run.a, run.b) if made else (bar.stock_section, bar.stock_section))
