"""A job printed and read again is the same job; a file with one value changed differs there only.

Jobs are built here from the parts that a smith would ask for, at sizes that a tape shows and at others.
"""

import math
import os
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from bickern.book.job.asked import Hang, Job, Spec
from bickern.book.job.change import change, rewrite
from bickern.book.job.print import print_job, without_places
from bickern.book.job.read import read_job
from bickern.book.job.say import angle_text, length_text, section_text, turn_text
from bickern.book.job.surface import loop_of
from bickern.book.told import TURNS
from bickern.geometry.polygon import ArcSeg, Loop
from bickern.iron.section import POINT, Section
from bickern.measure.units.read import read_angle, read_length
from bickern.measure.units.words import INCH, Shape, System
from bickern.parts.bar import tracks as t
from bickern.parts.joint.spec import JointKind, JointSpec
from bickern.parts.ring.spec import ChainSpec, Closing, RingSpec
from bickern.parts.sheet import spec as s

OFTEN = 20 if os.environ.get("BICKERN_SOAK") else 1
"""How many times the sample of `make test` is tried in `make soak`."""

JOBS = sorted((Path(__file__).parents[1] / "book" / "jobs").glob("*.yaml"))
SHIPPED = sorted((Path(__file__).parents[2] / "src/bickern/book/examples").glob("*.yaml"))

LENGTHS = st.one_of(
    st.integers(1, 64 * 20).map(lambda n: n * INCH / 64),
    st.integers(1, 4000).map(lambda n: n / 2000),
    st.floats(1e-4, 5.0),
)
THICK = st.one_of(st.integers(1, 96).map(lambda n: n * INCH / 64), st.floats(5e-4, 0.07))
DEGREES = st.one_of(st.integers(1, 179), st.floats(1, 179)).map(lambda d: read_angle(str(d)).value or 1.0)
AMOUNTS = st.one_of(LENGTHS, st.sampled_from(list(t.Blank)))
NAMES = st.from_regex(r"[a-z]{1,6}( [a-z]{1,4})?( [0-9])?", fullmatch=True).filter(lambda n: " x " not in f" {n} ")
TEXTS = st.text(st.characters(codec="utf-8", exclude_categories=["Cs", "Cc", "Zl", "Zp", "Co", "Cn"]), max_size=30).map(
    str.strip
)


def section(shape: Shape, a: float, b: float, edge: bool) -> Section:
    """A section that can be ordered in that shape."""
    big, small = max(a, b), min(a, b)
    if shape is Shape.POINT:
        return POINT
    if shape in (Shape.TUBE, Shape.SQUARE_TUBE):
        return Section(shape, big, big, big / 8)
    if shape is Shape.HALF_ROUND:
        return Section(shape, a, a / 2)
    if shape not in (Shape.FLAT, Shape.OVAL):
        return Section(shape, a, a)
    small = small if small < big else big / 2
    return Section(shape, small, big) if edge else Section(shape, big, small)


SECTIONS = st.builds(section, st.sampled_from([x for x in Shape if x is not Shape.POINT]), THICK, THICK, st.booleans())
FORGED = st.builds(section, st.sampled_from([x for x in Shape if "tube" not in x]), THICK, THICK, st.booleans())


@st.composite
def goals(draw: st.DrawFn) -> t.SectionGoal:
    size = draw(THICK)
    return draw(
        st.one_of(
            FORGED.map(t.SectionGoal),
            st.just(t.SectionGoal(Section(Shape.ROUND, 0.0, 0.0), "both")),
            st.just(t.SectionGoal(Section(Shape.FLAT, size, 0.0), "thick")),
            st.just(t.SectionGoal(Section(Shape.FLAT, 0.0, size), "width")),
        )
    )


@st.composite
def metals(draw: st.DrawFn, name: str) -> t.Metal:
    common = {
        "name": name,
        "flush": draw(st.none() | st.sampled_from(list(t.Face))),
        "offset": draw(st.just((0.0, 0.0)) | st.tuples(LENGTHS, LENGTHS.map(lambda v: -v))),
        "roll": draw(st.just(0.0) | DEGREES),
    }
    kind = draw(st.sampled_from(["keep", "as", "blend", "to", "end", "free"]))
    length = draw(AMOUNTS)
    if kind == "keep":
        return t.Metal(length, **common)
    if kind in ("end", "free"):
        shape = (
            t.EndShape.FREE
            if kind == "free"
            else draw(st.sampled_from([t.EndShape.LEAF, t.EndShape.SPADE, t.EndShape.SPOON]))
        )
        profile = ((0.0, 0.0), (draw(st.floats(0.1, 0.9)), 1.0), (1.0, 0.25)) if kind == "free" else ()
        return t.Metal(length, outline=t.EndOutline(shape, draw(THICK), draw(THICK), profile), **common)
    start = draw(goals()) if kind in ("as", "blend") else None
    end = draw(goals()) if kind in ("blend", "to") else None
    shoulder = draw(st.just(0.0) | st.floats(1e-4, length)) if isinstance(length, float) else 0.0
    return t.Metal(length, start, end, shoulder=shoulder, **common)


@st.composite
def legs(draw: st.DrawFn, name: str) -> t.PathLeg:
    turn = draw(st.sampled_from(list(TURNS.values())) | DEGREES)
    way = draw(st.none() | st.sampled_from(list(t.Way)))
    kind = draw(st.sampled_from(["straight", "bend", "corner", "eye", "scroll"]))
    if kind == "straight":
        return t.StraightLeg(draw(AMOUNTS), name, draw(st.sampled_from(["", "centre", "inside", "outside"])))
    if kind == "bend":
        return t.BendLeg(draw(DEGREES), draw(LENGTHS), turn, way, name=name)
    if kind == "corner":
        return t.BendLeg(
            draw(DEGREES),
            draw(st.just(0.0) | LENGTHS),
            turn,
            way,
            draw(st.sampled_from([t.Corner.SQUARE, t.Corner.UPSET])),
            name,
        )
    if kind == "eye":
        return t.EyeLeg(draw(LENGTHS), turn, draw(st.booleans()), name, welded=draw(st.booleans()))
    small, more = draw(THICK), draw(THICK)
    sizes = draw(
        st.sampled_from(
            [(1.25, small, small + more, None), (None, small, small + more, small), (2.0, None, small, t.Blank.OPEN)]
        )
    )
    return t.ScrollLeg(*sizes, draw(st.booleans()), draw(st.booleans()), turn, name)


def places(names: list[str]) -> st.SearchStrategy[t.Place]:
    plus = st.one_of(st.just(0.0), LENGTHS, LENGTHS.map(lambda v: -v))
    free = st.builds(t.Place, st.sampled_from([t.Anchor.DATUM, t.Anchor.END]), st.just(""), plus)
    if not names:
        return free
    named = st.sampled_from([t.Anchor.START_OF, t.Anchor.MIDDLE_OF, t.Anchor.END_OF])
    return free | st.builds(t.Place, named, st.sampled_from(names), plus)


@st.composite
def holes(draw: st.DrawFn, names: list[str]) -> t.Hole:
    size, more, spacing = draw(LENGTHS), draw(st.none() | LENGTHS), draw(st.none() | LENGTHS)
    first = 0.5 if spacing else draw(st.sampled_from([0.5, 0.0, 0.25, 0.3]))
    return t.Hole(
        size,
        draw(st.sampled_from(list(t.HoleBy))),
        draw(places(names)),
        draw(st.sampled_from(list(t.Face))),
        None if more is None else size + more,
        draw(st.integers(2, 9)),
        spacing,
        first,
    )


@st.composite
def bars(draw: st.DrawFn, name: str) -> t.BarSpec:
    names = draw(st.lists(NAMES, unique=True, max_size=4))
    metal = tuple(draw(metals(n)) for n in [*names, *[""] * draw(st.integers(0, 2))])
    path = tuple(draw(legs("")) for _ in range(draw(st.integers(0, 4))))
    turns = st.floats(0.1, 9).flatmap(lambda v: st.sampled_from([v, -v, 1.5, -0.25]))
    over = LENGTHS
    twists = tuple(draw(st.lists(st.builds(t.Twist, turns, over, places(names)), max_size=2)))
    if names:
        twists += tuple(
            draw(
                st.lists(
                    st.builds(
                        lambda v, n: t.Twist(v, None, t.Place(t.Anchor.START_OF, n)), turns, st.sampled_from(names)
                    ),
                    max_size=1,
                )
            )
        )
    hole = holes(names)
    overall = (
        tuple(
            draw(
                st.lists(
                    st.builds(t.OverallGoal, st.sampled_from(list(t.Overall)), LENGTHS, st.sampled_from(names)),
                    max_size=1,
                )
            )
        )
        if names
        else ()
    )
    thorn = t.BarSpec("thorn", draw(SECTIONS), "S235JR", (t.Metal(0.1),))
    branches = draw(st.sampled_from([(), (t.Branch("thorn", thorn, t.Place()),)]))
    return t.BarSpec(
        name,
        draw(st.none() | SECTIONS),
        "S235JR",
        metal,
        path,
        twists,
        tuple(draw(st.lists(hole, max_size=2))),
        draw(st.just(t.Blank.OPEN) | LENGTHS),
        draw(st.booleans()),
        True,
        overall,
        branches,
        draw(st.just(0.0) | LENGTHS),
        draw(st.sampled_from(["left", "right"])),
        draw(st.integers(1, 9)),
    )


@st.composite
def rings(draw: st.DrawFn, name: str) -> RingSpec:
    sizes = [None, None, None]
    sizes[draw(st.integers(0, 2))] = draw(LENGTHS)  # type: ignore[call-overload]
    chain = draw(st.none() | st.builds(ChainSpec, st.integers(2, 99)) | st.builds(ChainSpec, st.none(), LENGTHS))
    wound = draw(st.booleans())
    return RingSpec(
        name,
        draw(SECTIONS),
        "S235JR",
        *sizes,
        draw(st.none() | LENGTHS),
        draw(st.sampled_from(list(Closing))),
        chain,
        wound,
        draw(st.just(0.0) | LENGTHS) if wound else 0.0,
        draw(st.integers(1, 9)),
    )


OFFSETS = st.just((0.0, 0.0)) | st.tuples(LENGTHS, LENGTHS)
POINTS = [(0.0, 0.0), (0.2, 0.0), (0.2, 0.1), (0.05, 0.17)]


@st.composite
def surfaces(draw: st.DrawFn) -> s.Surface:
    a, b, c, d = (draw(LENGTHS) for _ in range(4))
    hole = Loop((ArcSeg((c, d), a, 0.0, -2 * math.pi),))
    rim = s.Rim(s.RimShape.OVAL, a, b)
    return draw(
        st.sampled_from(
            [
                s.Cone(a, draw(st.just(0.0) | LENGTHS), c, draw(OFFSETS)),
                s.Cylinder(a, b, draw(st.just(0.0) | st.just(read_angle("30").value or 0.0))),
                s.Pyramid(draw(st.integers(3, 12)), a, draw(st.just(0.0) | LENGTHS), c, offset=draw(OFFSETS)),
                s.Pyramid(4, a, b, c, d, a),
                s.Pyramid(4, a, 0.0, c, d, 0.0),
                s.Transition(rim, s.Rim(s.RimShape.CIRCLE, a, a, (b, c, d))),
                s.Transition(
                    s.Rim(s.RimShape.RECTANGLE, a, a), s.Rim(s.RimShape.RECTANGLE, a, b, (0.0, 0.0, d), draw(DEGREES))
                ),
                s.Pan(a, b, c, ("front", "left"), draw(st.just(0.0) | LENGTHS)),
                s.Bowl(a, b),
                s.FlatOutline(loop_of(tuple((x + a, y + b) for x, y in POINTS)), (hole,)),
            ]
        )
    )


@st.composite
def sheets(draw: st.DrawFn, name: str) -> s.SheetSpec:
    surface = draw(surfaces())
    a, b = draw(LENGTHS), draw(LENGTHS)
    seam = draw(
        st.sampled_from(
            [
                s.Seam(),
                s.Seam(s.SeamKind.NONE),
                s.Seam(s.SeamKind.LAP, a),
                s.Seam(s.SeamKind.RIVETED, a, b, a),
                s.Seam(s.SeamKind.GROOVED, b),
            ]
        )
    )
    sized = s.Sized.MEAN if isinstance(surface, s.FlatOutline) else draw(st.sampled_from(list(s.Sized)))
    edges = draw(st.sampled_from([(), (s.Edge("top", s.EdgeKind.HEM, a), s.Edge("bottom", s.EdgeKind.RAW, 0.0))]))
    lugs = draw(
        st.sampled_from([(), (s.Lug("top", 2, a, b),), (s.Lug("bottom", 3, a, length=b, first=0.0, name="tab"),)])
    )
    holes = draw(st.sampled_from([(), (s.SheetHole(a, b, 4), s.SheetHole(b, a, 1, 0.25, "vent"))]))
    offered = draw(st.sampled_from([(), (s.Offered(a, b), s.Offered(b, a, "galvanised"))]))
    thick, gauge = draw(st.sampled_from([(0.0598 * INCH, "16 US ga"), (draw(THICK), "")]))
    return s.SheetSpec(
        name,
        thick,
        "S235JR",
        surface,
        sized,
        seam,
        edges,
        lugs,
        holes,
        draw(st.integers(1, 4)),
        offered,
        draw(st.booleans()),
        gauge,
        "",
        draw(st.integers(1, 3)),
    )


def joints(names: list[str]) -> st.SearchStrategy[JointSpec]:
    one, two = st.just((names[0],)), st.just((names[0], names[-1]))
    sized = st.sampled_from([JointKind.RIVET, JointKind.TENON, JointKind.PIN, JointKind.SCREW])
    grip, number = st.none() | LENGTHS, st.integers(1, 6)
    return st.one_of(
        st.builds(JointSpec, sized, one, size=LENGTHS, grip=grip, number=number),
        st.builds(JointSpec, st.sampled_from([JointKind.COLLAR, JointKind.WRAP]), two, section=SECTIONS, number=number),
        st.builds(JointSpec, st.just(JointKind.WELD), two),
    )


@st.composite
def jobs(draw: st.DrawFn) -> Job:
    names = draw(st.lists(NAMES, unique=True, min_size=1, max_size=3))
    pieces: list[Spec] = [draw(st.one_of(bars(n), rings(n), sheets(n))) for n in names]
    closed = len(names) > 1 and isinstance(pieces[0], RingSpec)
    open_bar = len(names) > 1 and isinstance(pieces[0], t.BarSpec) and not pieces[0].closed
    rings_joined = (JointSpec(JointKind.RING, (names[-1],), names[0]),) if closed else ()
    rings_joined += (JointSpec(JointKind.RING, (names[-1],), f"{names[0]}.start"),) if open_bar else ()
    return Job(
        draw(TEXTS.filter(bool)),
        draw(st.none() | st.sampled_from(list(System))),
        tuple(pieces),
        tuple(draw(st.lists(joints(names), max_size=2))) + rings_joined,
        draw(st.sampled_from([None, Hang(names[0], "wall")])),
        draw(st.integers(1, 99)),
        ("food",),
        draw(TEXTS),
        draw(TEXTS),
        "",
        draw(TEXTS),
        "",
        tuple(draw(st.lists(TEXTS.filter(bool), max_size=2))),
        "",
        "t",
    )


def check_round_trip(job: Job) -> None:
    text = print_job(job)
    again, found = read_job(text, "t")
    bad = [f for f in found if f.stops and f.name not in ("counts-differ", "not-so-many")]
    assert not bad, (bad, text)
    assert again is not None
    assert without_places(again) == without_places(job), text


@settings(max_examples=80 * OFTEN, deadline=None, suppress_health_check=list(HealthCheck))
@given(jobs())
def test_a_job_printed_and_read_is_the_same_job(job: Job):
    check_round_trip(job)


STOCKS = ["1/2 sq", "1 x 1/4", "3/4 half rd", "1 x 3/4 oval"]


@pytest.mark.parametrize("hand", ["right", "left"])
@pytest.mark.parametrize("stock", STOCKS)
def test_turns_that_were_not_told_are_not_told_when_printed(stock: str, hand: str):
    legs = (
        "{bend: 9, inside radius: 1}, {bend: 9, inside across: 1, way: hard}, {corner: 45}, {curl: 9, inside across: 1}"
    )
    scroll = (
        "{scroll: {turns: 1, inside radius: 1, outside radius: 2}}, {scroll: {turns: 1, inside radius: 1, length: 9}}"
    )
    path = f"[{{eye: 1}}, {legs}, {scroll}, {{eye: 1, way: hard}}]"
    text = f"{{bar: {stock}, hand: {hand}, metal: [{{keep: 9}}], path: {path}}}"
    job, found = read_job(f"job: t\nunits: in\npieces:\n  p: {text}\n", "t")
    assert not found
    assert job is not None
    assert print_job(job).count("turn:") == 1  # of the eye that is told its way
    check_round_trip(job)


@pytest.mark.soak
@settings(max_examples=5000, deadline=None, suppress_health_check=list(HealthCheck))
@given(jobs())
def test_a_job_printed_and_read_is_the_same_job_many_times(job: Job):
    check_round_trip(job)


@pytest.mark.parametrize("path", [*JOBS, *SHIPPED], ids=lambda p: p.stem)
def test_real_jobs_printed_and_read_are_the_same(path: Path):
    job, found = read_job(path.read_bytes(), "t")
    assert [f for f in found if f.stops] == []
    assert job is not None
    check_round_trip(job)


@pytest.mark.parametrize("path", [*JOBS, *SHIPPED], ids=lambda p: p.stem)
def test_tidying_keeps_the_job_and_every_remark(path: Path):
    text = path.read_text()
    tidied = rewrite("\ufeff" + text.replace("\n", "  \r\n")).value
    assert tidied is not None
    assert "\r" not in tidied
    first, again = read_job(text, "t")[0], read_job(tidied, "t")[0]
    assert first == again
    assert tidied.count("#") == text.count("#")


@given(st.floats(1e-6, 900.0), st.sampled_from([None, System.INCH, System.MM]))
@settings(deadline=None)
def test_any_length_reads_back_to_itself(metres: float, system: System | None):
    assert read_length(length_text(metres, system), system).value == metres


@given(st.floats(0.01, 1800))
@settings(deadline=None)
def test_any_angle_that_was_read_reads_back_to_itself(degrees: float):
    angle = read_angle(str(degrees)).value
    assert angle is not None
    assert read_angle(angle_text(angle)).value == angle


def test_sizes_print_as_a_smith_writes_them():
    assert length_text(3.25 * INCH, System.INCH) == "3 1/4"
    assert length_text(3.25 * INCH, System.MM) in ("82.55", "3 1/4 in")
    assert length_text(0.008, System.MM) == "8"
    assert length_text(0.008, System.INCH) == "8 mm"
    assert section_text(Section(Shape.FLAT, INCH, INCH / 4), System.INCH) == "1 x 1/4"
    assert section_text(Section(Shape.FLAT, INCH / 4, INCH), System.INCH) == "1 x 1/4 on edge"
    assert turn_text(math.pi / 2) == "up"


def leaves(text: str) -> list[tuple[str, str]]:
    """Every single value with its path."""
    from bickern.book.text import Group, Word, read_page

    def walk(value: object) -> list[tuple[str, str]]:
        if isinstance(value, Word):
            return [(value.where.path, value.text)]
        inner = [e.value for e in value.entries] if isinstance(value, Group) else getattr(value, "items", ())
        return [leaf for v in inner for leaf in walk(v)]

    return walk(read_page(text, "t").top)


@pytest.mark.parametrize("value", ["7/8", 'a "b": c, [d] #e', "", "?", "- x", "é½", "yes", "12 mm rd"])
@pytest.mark.parametrize("path", JOBS, ids=lambda p: p.stem)
def test_one_value_changed_leaves_all_else_as_it_was(path: Path, value: str):
    text = path.read_text()
    before = leaves(text)
    for where, _ in before[:: max(1, len(before) // 6)]:
        changed = change(text, where, value)
        assert changed.value is not None, where
        assert leaves(changed.value) == [(p, value if p == where else v) for p, v in before]
        head = len([1 for a, b in zip(text, changed.value, strict=False) if a == b])
        assert changed.value.count("#") - value.count("#") >= text.count("#") - 1
        assert head > 0


def test_a_word_is_added_in_braces_and_on_lines():
    text = "job: a # the title\npieces:\n  hook: # mine\n    bar: 1/4 rd # thin\n    metal: [{keep: 3}]\n"
    inline = change(text, "pieces.hook.metal[1].name", "stem").value
    assert inline == text.replace("{keep: 3}", "{keep: 3, name: stem}")
    below = change(text, "pieces.hook.steel", "A36").value
    assert below is not None
    assert sorted(leaves(below)) == sorted([*leaves(text), ("pieces.hook.steel", "A36")])
    assert change(text, "make", 3).value == text.replace("pieces:", "make: 3\npieces:")
    assert all(r in below for r in ("# the title", "# mine", "# thin"))


def test_a_path_that_leads_nowhere_is_a_finding():
    text = "job: a\npieces: {hook: {bar: 1/4 rd}}\n"
    for path in ("", "pieces.nail.bar", "job[3]", "pieces", "pieces.hook", "a.b.c"):
        found = change(text, path, "x")
        assert found.value is None
        assert found.findings
