"""Pieces with every field filled by hand, so that the paper is tested apart from the reckoning."""

import math

import pytest

from bickern.book.job.asked import Job
from bickern.geometry.path import Arc, Kink, Spiral, Straight
from bickern.geometry.polygon import ArcSeg, Line, Loop
from bickern.iron.section import Section
from bickern.making.shop import Shop
from bickern.making.work.caution import Caution
from bickern.measure.figure import Figure
from bickern.measure.finding import warn
from bickern.measure.source import COMMON_PRACTICE
from bickern.measure.spread import Spread
from bickern.measure.units.words import INCH, Shape, System
from bickern.paper.copy import Copy
from bickern.parts.bar.result import (
    BarResult,
    BendSpan,
    HoleCheck,
    Mark,
    MarkKind,
    MetalRun,
    Sizes,
    Solved,
    TwistCheck,
)
from bickern.parts.bar.tracks import (
    BarSpec,
    BendLeg,
    Blank,
    EndOutline,
    EndShape,
    EyeLeg,
    Hole,
    HoleBy,
    Place,
    ScrollLeg,
    StraightLeg,
    Twist,
)
from bickern.parts.joint.spec import JointKind, JointResult, JointSpec
from bickern.parts.ring.spec import ChainResult, Coil, RingResult, RingSpec
from bickern.parts.sheet.result import Pattern, PatternHole, PatternLine, SheetResult
from bickern.parts.sheet.spec import Cone, Seam, SeamKind, SheetSpec

SQ = Section(Shape.SQUARE, INCH / 2, INCH / 2)


def square(inches: float) -> Section:
    return Section(Shape.SQUARE, inches * INCH, inches * INCH)


def round_bar(inches: float) -> Section:
    return Section(Shape.ROUND, inches * INCH, inches * INCH)


def flat(wide: float, thick: float) -> Section:
    return Section(Shape.FLAT, wide * INCH, thick * INCH)


def run(name: str, start: float, end: float, a: Section, b: Section, kept: bool = False, **more) -> MetalRun:
    volume = (end - start) * INCH * a.width * a.thick
    return MetalRun(name, start * INCH, end * INCH, a, b, volume, Spread(0.02, 0.01, 0.04), kept, **more)


def lantern_arm() -> BarResult:
    """Taper, stem with a twist, shoulder and palm; a scroll, a bend toward the wall."""
    runs = (
        run("tip", 0, 4, round_bar(1 / 8), SQ),
        run("stem", 4, 13, SQ, SQ, kept=True),
        run("palm shoulder", 13, 13.5, SQ, flat(1, 1 / 4)),
        run("palm", 13.5, 15.5, flat(1, 1 / 4), flat(1, 1 / 4)),
    )
    spiral = Spiral(0.5 * INCH, 2.1 * INCH, 2.5 * math.pi, roll=math.pi)
    legs = (spiral, Straight(5.5 * INCH), Arc(0.5 * INCH, math.pi / 2, 0.0), Straight(1.4 * INCH))
    scroll = ScrollLeg(1.25, 0.375 * INCH, 2.1 * INCH, name="tip")
    path = (scroll, StraightLeg(5.5 * INCH), BendLeg(math.pi / 2, INCH / 4, name="elbow"), StraightLeg(1.4 * INCH))
    twist = Twist(1.5, 4 * INCH, Place())
    hole = Hole(INCH / 4, HoleBy.SLIT, Place())
    return BarResult(
        spec=BarSpec("arm", SQ, "S235JR", metal=(), path=path, make=1),
        stock_section=SQ,
        runs=runs,
        legs=legs,
        length=15.5 * INCH,
        stock_bare=12.6 * INCH,
        stock=Spread(12.9 * INCH, 12.7 * INCH, 13.3 * INCH, ("scale is a range",)),
        cut_this=13 * INCH,
        weld=0.0,
        grip=0.0,
        mass=0.39,
        stock_mass=0.41,
        centre_of_mass=(0.1, 0.02, 0.0),
        sizes=Sizes(0.19, 0.1, 0.025, 0.2, 15.5 * INCH),
        marks_on_stock=(
            Mark(1.1 * INCH, "shoulder: the taper begins", MarkKind.PUNCH, "before any heat"),
            Mark(10.4 * INCH, "end of stem: the palm begins", MarkKind.PUNCH, "before any heat"),
            Mark(12.2 * INCH, "middle of the hole", MarkKind.CHALK, "before any heat"),
        ),
        marks_on_drawn=(
            Mark(0.0, "scroll begins: tip", MarkKind.CHALK, "after drawing, before bending"),
            Mark(6.5 * INCH, "twist begins", MarkKind.PUNCH, "after drawing"),
            Mark(10.5 * INCH, "twist ends", MarkKind.PUNCH, "after drawing"),
            Mark(13.2 * INCH, "middle of bend", MarkKind.PUNCH, "after drawing, before bending"),
            Mark(14.5 * INCH, "hole", MarkKind.PUNCH, "after drawing"),
        ),
        bends=(
            BendSpan("tip", 0.0, 7.9 * INCH, "scroll of 1 1/4 turns", 0.375 * INCH, 0.3),
            BendSpan("elbow", 13.0 * INCH, 13.8 * INCH, "bend of 90 degrees to the left", 0.25 * INCH, 0.5),
        ),
        twists=(TwistCheck(twist, 8.2 * INCH, 12.2 * INCH, 0.3),),
        holes=(HoleCheck(hole, 14.5 * INCH, 3 / 8 * INCH, 0.4 * INCH, 0.0),),
        solved=(Solved("stock length", 12.9 * INCH, "stock length: ?"),),
        also=(("elbow by DIN 6935", 12.8 * INCH, "the inside radius is under two thicknesses"),),
        findings=(warn("thin-wall", "The wall beside the hole in `palm` is 3/8 in (9.5 mm).", "Slit and drift it."),),
    )


def hook() -> BarResult:
    """A ring eye at right angles to a half circle, so that two views are needed; a leaf for an end."""
    wire = round_bar(1 / 4)
    runs = (
        run("stem", 0, 6, wire, wire, kept=True),
        run("leaf", 6, 8.25, wire, wire, outline=EndOutline(EndShape.LEAF, INCH, 3 / 32 * INCH)),
    )
    eye = Arc(INCH / 2 + INCH / 8, 2 * math.pi, math.pi / 2)
    path = (EyeLeg(INCH, name="eye"), StraightLeg(Blank.REST))
    rest = 8.25 * INCH - 2 * math.pi * 0.625 * INCH - math.pi * 0.75 * INCH
    legs = (eye, Kink(math.pi / 2, 1.5 * math.pi), Straight(rest / 2), Arc(0.75 * INCH, math.pi), Straight(rest / 2))
    return BarResult(
        spec=BarSpec("hook <#1>", wire, "S235JR", metal=(), path=path, make=2, grip=INCH),
        stock_section=wire,
        runs=runs,
        legs=legs,
        length=8.25 * INCH,
        stock_bare=7.4 * INCH,
        stock=Spread(7.6 * INCH, 7.5 * INCH, 7.9 * INCH),
        cut_this=7.6875 * INCH,
        weld=0.0,
        grip=INCH,
        mass=0.046,
        stock_mass=0.048,
        centre_of_mass=(0.0, 0.0, 0.0),
        sizes=Sizes(0.11, 0.045, 0.035, 0.1, 8.25 * INCH),
        marks_on_stock=(Mark(6 * INCH, "leaf begins", MarkKind.PUNCH, "before any heat"),),
        marks_on_drawn=(Mark(3.9 * INCH, "eye ends: bend sharp", MarkKind.PUNCH, "before bending"),),
        bends=(BendSpan("eye", 0.0, 3.9 * INCH, "eye, closed", 0.5 * INCH, 0.2),),
        twists=(),
        holes=(),
        solved=(),
    )


def links() -> RingResult:
    wire = round_bar(3 / 16)
    spec = RingSpec("links", wire, "S235JR", inside_across=0.75 * INCH, inside_long=1.375 * INCH)
    return RingResult(
        spec=spec,
        inside_across=0.75 * INCH,
        inside_long=1.375 * INCH,
        outside_across=1.125 * INCH,
        outside_long=1.75 * INCH,
        bare=4.2 * INCH,
        weld=3 / 16 * INCH,
        stock=Spread(4.4 * INCH, 4.35 * INCH, 4.5 * INCH),
        cut_this=4.4375 * INCH,
        mass=0.016,
        strain=0.2,
        opening_strain=0.06,
        taken=4.2 * INCH,
        rule="pi x mean diameter",
        coil=Coil(0.018, 14, 0.067, 1.6, 0.0185),
        chain=ChainResult(13, 1.375 * INCH, 18.25 * INCH, 0.2, 57.7 * INCH, "in the same plane as the first"),
        also=(("3 x D and a thickness", 4.1 * INCH, "an old rule of thumb: too short"),),
        findings=(warn("close-it-hot", "The strain of closing is over the cold limit.", "Close it hot."),),
    )


def sector(outer: float, inner: float, angle: float) -> Loop:
    half = angle / 2
    start, end = math.pi / 2 - half, math.pi / 2 + half

    def at(radius: float, turn: float) -> tuple[float, float]:
        return (radius * math.cos(turn), radius * math.sin(turn))

    return Loop(
        (
            Line(at(inner, start), at(outer, start)),
            ArcSeg((0.0, 0.0), outer, start, angle),
            Line(at(outer, end), at(inner, end)),
            ArcSeg((0.0, 0.0), inner, end, -angle),
        )
    )


def hood() -> SheetResult:
    outer, inner, angle = 6.343 * INCH, 1.189 * INCH, math.radians(227.0)
    loop = sector(outer, inner, angle)
    lines = (PatternLine(Line((0.0, inner), (0.0, outer)), "centre", "centre line"),)
    holes = tuple(
        PatternHole((0.7 * outer * math.cos(a), 0.7 * outer * math.sin(a)), 0.006, "6 mm")
        for a in (math.pi / 2 - 1, math.pi / 2 + 1)
    )
    pattern = Pattern("hood", loop, holes=holes, lines=lines)
    return SheetResult(
        spec=SheetSpec(
            "hood",
            0.0359 * INCH,
            "S235JR",
            Cone(8 * INCH, 1.5 * INCH, 4 * INCH),
            seam=Seam(SeamKind.RIVETED, INCH / 2, INCH / 8, INCH),
            gauge="20 ga",
        ),
        net=(pattern,),
        patterns=(pattern,),
        figures=(
            Figure("R, outer radius", outer, "m"),
            Figure("r, inner radius", inner, "m"),
            Figure("angle", angle, "rad"),
            Figure("chord of the outer arc", 2 * outer * math.sin(angle / 2), "m"),
        ),
        blank=(12.6875 * INCH, 8.875 * INCH),
        blank_cut=(12.7 * INCH, 9.2 * INCH),
        area=0.05,
        mass=0.36,
        seam_gap=0.00001,
        stray=0.0,
    )


def rivet() -> JointResult:
    spec = JointSpec(JointKind.RIVET, ("hood.seam",), size=INCH / 8, number=5)
    return JointResult(
        spec,
        0.4 * INCH,
        0.07 * INCH,
        0.001,
        "rivet, shank past the head",
        (("by head volume", 0.36 * INCH, "half round"),),
    )


def make_copy(pieces, joints=(), **job) -> Copy:
    asked = {"title": "Porch lantern", "units": System.INCH, "make": 1, **job}
    cautions = (
        Caution("hot", "Everything is hot till proved cold.", COMMON_PRACTICE),
        Caution(
            "load", "No load rating: not for lifting, climbing or swings.", COMMON_PRACTICE, uses=("overhead load",)
        ),
    )
    findings = tuple(finding for piece in pieces for finding in piece.findings)
    return Copy(
        Job(pieces=tuple(piece.spec for piece in pieces), **asked),
        Shop(name="Test forge"),
        tuple(pieces),
        tuple(joints),
        cautions,
        findings,
        1.2,
        ("Blows and heats are not held against anything printed.",),
        "2026-01-02",
        "0.1",
    )


def lantern_copy() -> Copy:
    return make_copy(
        (lantern_arm(), hook(), links(), hood()),
        (rivet(),),
        what_for="A lantern for a porch wall",
        skill="tapers, a scroll, a twist, a cone",
        finish="wax at black heat",
        notes=("Make the scroll first.",),
        use=("outdoors", "overhead load"),
    )


@pytest.fixture
def arm() -> BarResult:
    return lantern_arm()


@pytest.fixture
def lantern() -> Copy:
    return lantern_copy()
