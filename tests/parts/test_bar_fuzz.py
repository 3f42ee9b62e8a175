"""Whatever is asked, the answer is a bar or findings that stop it: never a stack trace, never a negative length."""

from math import isfinite, pi

from hypothesis import given, settings
from hypothesis import strategies as st

from bickern.iron.section import Section
from bickern.measure.finding import stopping
from bickern.measure.units.words import Shape
from bickern.parts.bar.allowances import BarRules
from bickern.parts.bar.reckon import reckon_bar
from bickern.parts.bar.tracks import (
    Anchor,
    BarSpec,
    BendLeg,
    Blank,
    Branch,
    Corner,
    EndOutline,
    EndShape,
    EyeLeg,
    Face,
    Hole,
    HoleBy,
    HoopLeg,
    Metal,
    Overall,
    OverallGoal,
    Place,
    ScrollLeg,
    SectionGoal,
    StraightLeg,
    Twist,
    Way,
)

# odd values are rare, so that most bars get as far as being reckoned
sound = [0.003, 0.02, 0.05, 0.2, 3.0]
good = st.sampled_from(sound)
lengths = st.sampled_from([*sound * 8, 1e-6, 0.0, -0.1])
maybe_open = st.sampled_from([*sound * 4, 1e-6, 0.0, *[Blank.REST, Blank.OPEN] * 6])
names = st.sampled_from(["", "a", "b", "c"])
radii = st.sampled_from([*[0.002, 0.005, 0.02, 0.4] * 8, 0.0, -0.01])
turns = st.sampled_from([0.0, pi / 2, pi, 1.0])
angles = st.sampled_from([*[0.3, 1.0, pi / 2, pi] * 4, 9.0, 0.0])
widths = st.sampled_from([0.001, 0.006, 0.01, 0.03, 0.2])
thin = st.sampled_from([0.0, 0.001, 0.006, 0.01, 0.03])
sections = st.one_of(
    st.builds(lambda s, x: Section(s, x, x), st.sampled_from([Shape.SQUARE, Shape.ROUND, Shape.HEXAGON]), widths),
    st.builds(lambda w, t: Section(Shape.FLAT, w, t), widths, thin),
    st.builds(lambda w, t: Section(Shape.OVAL, w, t), widths, widths),
    st.builds(lambda x: Section(Shape.HALF_ROUND, x, x / 2), widths),
    st.builds(lambda x, w: Section(Shape.TUBE, x, x, w), widths, st.sampled_from([0.001, 0.0004, 0.0])),
    st.just(Section(Shape.POINT, 0.0, 0.0)),
)
stocks = st.sampled_from([Section(Shape.SQUARE, 0.01, 0.01), Section(Shape.FLAT, 0.03, 0.006), None]) | sections
goals = st.builds(SectionGoal, sections, st.sampled_from([*[""] * 9, "both", "width", "thick"]))
outlines = st.builds(EndOutline, st.sampled_from([EndShape.LEAF, EndShape.SPADE, EndShape.SPOON]), good, good)
metal = st.builds(
    Metal,
    maybe_open,
    st.none() | goals,
    st.none() | goals,
    names,
    st.sampled_from([*[0.0, 0.002] * 6, 0.5]),
    st.none() | st.sampled_from(list(Face)),
    outline=st.one_of(st.none(), st.none(), st.none(), outlines),
)
legs = st.one_of(
    st.builds(StraightLeg, maybe_open, names, st.sampled_from(["", "", "centre", "inside"])),
    st.builds(
        BendLeg,
        angles,
        radii,
        turns,
        st.none() | st.sampled_from(list(Way)),
        st.sampled_from(list(Corner)),
        names,
    ),
    st.builds(EyeLeg, radii, turns, st.booleans(), names),
    st.builds(ScrollLeg, st.just(1.5), radii, st.none() | radii, st.none() | maybe_open, st.booleans(), st.booleans()),
    st.builds(ScrollLeg, st.none(), radii, radii, st.none() | maybe_open, st.booleans(), st.booleans(), turns),
    st.builds(HoopLeg, radii, turn=turns),
)
places = st.builds(Place, st.sampled_from(list(Anchor)), names, st.sampled_from([-0.1, 0.0, 0.02]))
overalls = st.builds(OverallGoal, st.sampled_from(list(Overall)), lengths, names)
plain = st.builds(BarSpec, st.just("child"), stocks, st.just("mild"), st.tuples(metal))
bars = st.builds(
    BarSpec,
    st.just("bar"),
    stocks,
    st.just("mild"),
    st.lists(metal, min_size=1, max_size=3).map(tuple),
    st.lists(legs, max_size=3).map(tuple),
    st.lists(st.builds(Twist, st.sampled_from([-2.0, 1.0, 1.0, 0.0]), st.none() | lengths, places), max_size=2).map(
        tuple
    ),
    st.lists(
        st.builds(Hole, lengths, st.sampled_from(list(HoleBy)), places, number=st.sampled_from([*[1, 3] * 5, 0])),
        max_size=2,
    ).map(tuple),
    st.sampled_from([*[Blank.OPEN] * 3, 0.05, 0.2, 0.5]),
    st.booleans(),
    overall=st.lists(overalls, max_size=1).map(tuple),
    branches=st.lists(st.builds(Branch, names, plain, st.none() | places), max_size=2).map(tuple),
    hand=st.sampled_from(["left", "right"]),
)


@given(bars, st.sampled_from([BarRules(), BarRules(corner_fullness=0.9, twist_shortening=0.02, kerf=0.002)]))
@settings(max_examples=400, deadline=None)
def test_a_bar_or_a_reason(spec: BarSpec, rules: BarRules) -> None:
    read = reckon_bar(spec, rules, 7850.0)
    if read.value is None:
        assert stopping(read.findings), "no bar, and no word why"
        return
    result = read.value
    assert result.findings == read.findings
    figures = (result.length, result.stock_bare, result.stock.value, result.cut_this, result.sizes.reach)
    assert all(isfinite(x) and x >= 0.0 for x in figures)
    assert all(r.end >= r.start - 1e-12 and r.volume >= 0.0 for r in result.runs)


@given(metal, metal, st.lists(legs, max_size=2).map(tuple), lengths)
@settings(max_examples=300, deadline=None)
def test_sound_stock_and_odd_entries(one: Metal, two: Metal, path: tuple[object, ...], stock_length: float) -> None:
    bar = Section(Shape.SQUARE, 0.01, 0.01)
    spec = BarSpec("bar", bar, "mild", (one, two), path, stock_length=stock_length)  # type: ignore[arg-type]
    read = reckon_bar(spec, BarRules(), 7850.0)
    assert read.value is not None or stopping(read.findings)
