"""What must hold for every solid bar and ring: its skin is closed, and it holds the metal that constant volume says."""

import os
from dataclasses import replace
from math import pi

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from bickern.geometry.solid.solid import Fineness, Solid
from bickern.geometry.solid.weigh import centre, is_closed, volume
from bickern.iron.section import POINT, Section
from bickern.measure.finding import stopping
from bickern.measure.units.words import INCH, Shape
from bickern.parts.bar.allowances import BarRules
from bickern.parts.bar.body.body import bar_body
from bickern.parts.bar.reckon import reckon_bar
from bickern.parts.bar.result import BarResult
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
    PathLeg,
    Place,
    ScrollLeg,
    SectionGoal,
    StraightLeg,
    Twist,
)
from bickern.parts.ring.body import ring_body
from bickern.parts.ring.reckon import reckon_ring
from bickern.parts.ring.spec import Closing, RingRules, RingSpec

OFTEN = 10 if os.environ.get("BICKERN_SOAK") else 1
"""How many times the sample of `make test` is tried in `make soak`."""
STEEL = 7850.0
NEAR = 0.002
"""Share by which a solid may differ from the metal that the reckoning counts."""

sizes = st.floats(0.15, 1.0).map(lambda x: x * INCH)
plain = st.sampled_from([Shape.SQUARE, Shape.ROUND, Shape.HEXAGON, Shape.OCTAGON])
even = st.builds(lambda shape, x: Section(shape, x, x), plain, sizes)
flats = st.builds(lambda w, t: Section(Shape.FLAT, w, t), sizes, sizes)
ovals = st.builds(lambda w, t: Section(Shape.OVAL, w, t), sizes, sizes)
half_rounds = st.builds(lambda w: Section(Shape.HALF_ROUND, w, w / 2), sizes)
edges = st.builds(lambda w: Section(Shape.FLAT, w, 0.0), sizes)
sections = st.one_of(even, flats, ovals)
ends = st.one_of(sections, half_rounds, edges, st.just(POINT))
turns = st.floats(0.0, 2 * pi)
finenesses = st.sampled_from(list(Fineness))


@st.composite
def outlines(draw: st.DrawFn) -> EndOutline:
    shape = draw(st.sampled_from(list(EndShape)))
    profile = ((0.0, draw(st.floats(0.2, 1.0))), (0.4, 1.0), (1.0, draw(st.floats(0.0, 1.0))))
    return EndOutline(shape, draw(sizes) * 2, draw(sizes) / 4, profile if shape is EndShape.FREE else ())


@st.composite
def first_metals(draw: st.DrawFn) -> Metal:
    """The end at the datum: a taper of any pair of shapes, or an end spread flat."""
    long = draw(st.floats(2.0, 6.0)) * INCH
    if draw(st.booleans()):
        return Metal(long, outline=draw(outlines()), name="first")
    return Metal(long, start=SectionGoal(draw(ends)), end=SectionGoal(draw(sections)), name="first")


@st.composite
def middle_metals(draw: st.DrawFn, stock: Section, straight: bool) -> Metal:
    """What stays between, often over a shoulder; off the line only in a straight bar: a bend there has other metal."""
    long, flush = draw(st.floats(8.0, 14.0)) * INCH, draw(st.sampled_from([None, *Face])) if straight else None
    return Metal(long, SectionGoal(stock), name="middle", shoulder=draw(st.floats(0.0, 0.5)) * INCH, flush=flush)


@st.composite
def bends(draw: st.DrawFn) -> PathLeg:
    kind = draw(st.sampled_from(["bend", "corner", "upset", "scroll", "eye"]))
    radius, turn = draw(st.floats(0.0, 1.5)) * INCH, draw(turns)
    if kind == "eye":
        return EyeLeg(draw(st.floats(0.5, 2.0)) * INCH, turn, centred=draw(st.booleans()), name="far")
    if kind == "scroll":
        out = radius + draw(st.floats(1.0, 3.0)) * INCH
        return ScrollLeg(draw(st.floats(0.5, 1.5)), radius + 0.4 * INCH, out, turn=turn, from_centre=False, name="far")
    if kind == "corner":
        return BendLeg(draw(st.floats(0.2, 2.2)), radius / 3, turn, corner=Corner.SQUARE, name="far")
    corner = Corner.UPSET if kind == "upset" else Corner.NONE
    return BendLeg(draw(st.floats(0.2, 3.3)), radius, turn, corner=corner, name="far")


@st.composite
def paths(draw: st.DrawFn) -> tuple[PathLeg, ...]:
    """Straight through the first end and the middle, then a bend of any kind and perhaps more straight."""
    if draw(st.integers(0, 4)) == 0:
        return ()
    bend = draw(bends())
    tail = (StraightLeg(draw(st.floats(0.5, 2.0)) * INCH),) if draw(st.booleans()) else ()
    return (StraightLeg(Blank.REST), bend, *(() if isinstance(bend, EyeLeg) else tail))


@st.composite
def holes(draw: st.DrawFn, stock: Section) -> Hole:
    by = draw(st.sampled_from(list(HoleBy)))
    face = draw(st.sampled_from(list(Face)))
    wide = stock.thick if face in (Face.LEFT, Face.RIGHT) else stock.width
    size = draw(st.floats(0.15, 0.9 if by is HoleBy.SLIT else 0.4)) * wide
    if stock.shape is not Shape.SQUARE:
        size *= 0.5  # a hole in a curved face goes through less than the whole thickness, which the law counts
    long = draw(st.sampled_from([None, 1.5 * size]))
    return Hole(size, by, Place(Anchor.START_OF, "middle", 2.5 * INCH), face, long)


def rolled_length(path: tuple[PathLeg, ...], thick: float) -> float:
    """No less than the length of bar [m] that is rolled up in an eye or a scroll."""
    eyes = [pi * (leg.inside_across + 2 * thick) for leg in path if isinstance(leg, EyeLeg)]
    scrolls = [leg for leg in path if isinstance(leg, ScrollLeg)]
    return sum(eyes) + sum(2 * pi * (leg.turns or 0.0) * ((leg.outside_radius or 0.0) + thick) for leg in scrolls)


@st.composite
def bars(draw: st.DrawFn) -> BarSpec:
    """Bars with a bit of everything: sections, steps, a twist, a hole, a bend of any kind."""
    stock = draw(even)
    long = draw(st.floats(3.0, 6.0)) * INCH
    last = Metal(long, end=SectionGoal(draw(st.one_of(sections, st.just(POINT)))), name="l")
    twist = Twist(draw(st.floats(-3.0, 3.0)), 2.5 * INCH, Place(Anchor.START_OF, "middle", 4.5 * INCH))
    bored = (draw(holes(stock)),) if draw(st.booleans()) else ()
    path = draw(paths())
    # a hole is made in the straight: where an eye or a scroll reaches back over it, askew, it is longer than counted
    assume(not bored or rolled_length(path, stock.thick) < long + 5 * INCH)
    # a corner is upset where the bar keeps its section: in a steep taper its quarter thickness is of no one section
    if any(isinstance(leg, BendLeg) and leg.corner is Corner.UPSET for leg in path):
        last = replace(last, end=SectionGoal(stock))
    metal = (draw(first_metals()), draw(middle_metals(stock, not path)), last)
    return BarSpec("bar", stock, "mild", metal, path, (twist,) if draw(st.booleans()) else (), bored)


def reckoned(spec: BarSpec) -> BarResult:
    read = reckon_bar(spec, BarRules(), STEEL)
    assume(read.value is not None and not stopping(read.findings))
    assert read.value is not None
    return read.value


def metal_in(bar: BarResult) -> float:
    own = sum(run.volume for run in bar.runs) - sum(hole.slug for hole in bar.holes)
    return own + sum(map(metal_in, bar.children))


def holds(solid: Solid, wanted: float) -> None:
    assert is_closed(solid)
    assert volume(solid) == pytest.approx(wanted, rel=NEAR)


@given(bars(), finenesses)
@settings(max_examples=350 * OFTEN, deadline=None)
def test_a_solid_bar_is_closed_and_holds_its_metal(spec: BarSpec, fineness: Fineness) -> None:
    bar = reckoned(spec)
    holds(bar_body(bar, fineness), metal_in(bar))


@given(bars())
@settings(max_examples=40 * OFTEN, deadline=None)
def test_the_other_hand_is_the_same_solid_in_a_mirror(spec: BarSpec) -> None:
    right, left = (bar_body(reckoned(replace(spec, hand=hand))) for hand in ("right", "left"))
    x, y, z = centre(right)
    assert volume(left) == pytest.approx(volume(right), rel=1e-3)
    assert centre(left) == pytest.approx((x, -y, z), abs=1e-5)


hoops = st.builds(
    lambda wire, across, turn, count, hole: BarSpec(
        "hoop",
        wire,
        "mild",
        (Metal(Blank.REST),),
        (HoopLeg(mean_across=across, turn=turn),),
        (),
        (Hole(wire.thick * 0.3, hole, Place(), Face.FRONT, None, count),) if count else (),
        closed=True,
    ),
    st.one_of(even, flats),
    st.floats(4.0, 30.0).map(lambda x: x * INCH),
    st.sampled_from([0.0, pi / 2]),
    st.integers(0, 5),
    st.sampled_from([HoleBy.PUNCH, HoleBy.SLIT]),
)


@given(hoops, finenesses)
@settings(max_examples=60 * OFTEN, deadline=None)
def test_a_hoop_has_no_ends(spec: BarSpec, fineness: Fineness) -> None:
    bar = reckoned(spec)
    body = bar_body(bar, fineness)
    holds(body, metal_in(bar))
    assert len(body.points) - len(body.faces) // 2 == -2 * len(bar.holes)  # Euler: a torus with so many holes more


tubes = st.builds(
    lambda shape, x, wall: Section(shape, x, x, wall * x),
    st.sampled_from([Shape.TUBE, Shape.SQUARE_TUBE]),
    sizes,
    st.floats(0.05, 0.4),
)


@given(tubes, st.one_of(tubes, even, st.just(POINT)), paths(), finenesses)
@settings(max_examples=60 * OFTEN, deadline=None)
def test_a_tube_is_hollow_as_far_as_its_hole_goes(
    tube: Section, end: Section, path: tuple[PathLeg, ...], fineness: Fineness
) -> None:
    # nobody upsets a tube's corner: about no radius up to a twelfth of the corner's own metal comes out too much
    assume(not any(isinstance(leg, BendLeg) and leg.corner is Corner.UPSET for leg in path))
    drawn = Metal(3 * INCH, start=SectionGoal(end), end=SectionGoal(tube))
    bar = reckoned(BarSpec("tube", tube, "mild", (drawn, Metal(12 * INCH)), path))
    holds(bar_body(bar, fineness), metal_in(bar))


@given(even, sizes, st.floats(0.3, 1.5), st.booleans(), finenesses)
@settings(max_examples=40 * OFTEN, deadline=None)
def test_limbs_and_branches_count_whole(
    stock: Section, thin: float, angle: float, split: bool, fineness: Fineness
) -> None:
    limb = Metal(3 * INCH, end=SectionGoal(Section(Shape.ROUND, thin / 3, thin / 3)))
    path = (StraightLeg(INCH), BendLeg(angle, INCH), StraightLeg(Blank.REST))
    at = None if split else Place(Anchor.START_OF, "run", 2 * INCH)
    limbs = tuple(
        Branch(name, BarSpec(name, stock, "mild", (limb,), path, hand=hand), at)
        for name, hand in (("one", "right"), ("other", "left"))
    )
    legs = (BendLeg(0.5, INCH), StraightLeg(Blank.REST, name="run"))
    bar = reckoned(BarSpec("fork", stock, "mild", (Metal(8 * INCH),), legs, branches=limbs))
    holds(bar_body(bar, fineness), metal_in(bar))


@given(
    st.one_of(even, flats, half_rounds, tubes),
    st.floats(1.2, 12.0),
    st.floats(0.0, 4.0),
    st.sampled_from(list(Closing)),
    finenesses,
)
@settings(max_examples=150 * OFTEN, deadline=None)
def test_a_solid_ring_is_closed_and_holds_its_metal(
    wire: Section, across: float, longer: float, closing: Closing, fineness: Fineness
) -> None:
    inside = across * wire.thick
    spec = RingSpec("ring", wire, "mild", inside, inside_long=inside + longer * wire.thick, closing=closing)
    read = reckon_ring(spec, RingRules(), STEEL)
    assert read.value is not None, read.findings
    body = ring_body(read.value, fineness)
    holds(body, read.value.mass / STEEL)
    assert centre(body) == pytest.approx((0.0, 0.0, 0.0), abs=1e-6)
