"""What must hold for the works of every bar: nothing left out, nothing twice, nothing bent at black heat."""

import os
from collections import Counter
from dataclasses import replace
from math import isfinite, pi
from pathlib import Path

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from bickern.desk.reckon import reckon_file
from bickern.iron.section import POINT, Section
from bickern.iron.steel import STEELS, MetalClass
from bickern.making.shop import Hand, Shop
from bickern.making.work.bar_bends import COLD_THICK
from bickern.making.work.bar_works import works_of_bar
from bickern.making.work.result import Work
from bickern.measure.finding import stopping
from bickern.measure.units.words import INCH, Shape
from bickern.parts.bar import tracks as t
from bickern.parts.bar.allowances import BarRules
from bickern.parts.bar.reckon import reckon_bar
from bickern.parts.bar.result import BarResult

OFTEN = 20 if os.environ.get("BICKERN_SOAK") else 1
"""How many times the sample of `make test` is tried in `make soak`."""
EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.yaml"))
BLACK = 700.0 + 273.15
"""No steel is worked hot below this [K]: black heat is for nothing."""
FORGING = ("upset", "draw", "taper", "spread")
BENDING = ("bend", "curl", "scroll", "hoop")
COLD = ("mark", "cut bar", "drill", "straighten", *BENDING)
WORDS = (*FORGING, *COLD, "shoulder", "punch", "slit", "drift", "twist", "split", "scarf", "weld", "cut off")

SIZES = st.integers(2, 16).map(lambda n: n * INCH / 16)
SHORT = st.floats(0.1, 6.0).map(lambda x: x * INCH)
EVEN = st.builds(
    lambda shape, x: Section(shape, x, x), st.sampled_from([Shape.SQUARE, Shape.ROUND, Shape.OCTAGON]), SIZES
)
FLATS = st.builds(lambda w, x: Section(Shape.FLAT, max(w, x), min(w, x)), SIZES, SIZES)
FORGED = st.one_of(EVEN, FLATS)
METALS = ["mild", "S235JR", "1045", "5160", "W1", "O1", "304", "wrought iron", "found in a ditch"]


@st.composite
def metal(draw: st.DrawFn, last: bool) -> t.Metal:
    """One entry: kept, even, tapering, with a shoulder, or (at the end) to a point or an outline."""
    kinds = ["keep", "as", "to", "from", "shouldered", *(["point", "leaf", "spoon"] if last else [])]
    kind, long = draw(st.sampled_from(kinds)), draw(SHORT)
    goal = draw(FORGED.map(t.SectionGoal))
    if kind == "keep":
        return t.Metal(long)
    if kind in ("leaf", "spoon"):
        return t.Metal(long, outline=t.EndOutline(t.EndShape(kind), draw(SIZES), draw(SIZES) / 4), name="end")
    if kind == "as":
        return t.Metal(long, start=goal)
    if kind == "from":
        return t.Metal(long, start=goal, end=draw(FORGED.map(t.SectionGoal)))
    if kind == "shouldered":
        return t.Metal(long, start=goal, shoulder=long * draw(st.floats(0.05, 0.9)))
    return t.Metal(long, end=t.SectionGoal(POINT) if kind == "point" else goal)


@st.composite
def legs(draw: st.DrawFn) -> t.PathLeg:
    """One bend of any kind; radii from sharper than a smith makes to nearly straight."""
    kind, turn = draw(st.sampled_from(["bend", "square", "upset", "scroll", "eye"])), draw(st.floats(0.0, 2 * pi))
    radius = draw(st.floats(0.1, 12.0)) * INCH
    if kind == "eye":
        return t.EyeLeg(radius, turn, draw(st.booleans()), welded=draw(st.booleans()))
    if kind == "scroll":
        return t.ScrollLeg(draw(st.floats(0.5, 2.0)), radius, radius + draw(SIZES) * 4, turn=turn)
    corner = {"bend": t.Corner.NONE, "square": t.Corner.SQUARE, "upset": t.Corner.UPSET}[kind]
    return t.BendLeg(draw(st.floats(0.1, pi - 0.1)), radius, turn, corner=corner)


@st.composite
def holes(draw: st.DrawFn) -> t.Hole:
    by = draw(st.sampled_from(list(t.HoleBy)))
    number = draw(st.integers(1, 3))
    at = t.Place(t.Anchor.DATUM, "", draw(SHORT))
    return t.Hole(draw(SIZES) / 2, by, at, number=number, spacing=draw(SHORT) if number > 1 else None)


def limb(name: str, stretch: t.Metal) -> t.Branch:
    return t.Branch(name, t.BarSpec(name, None, "mild", (stretch,)))


@st.composite
def bars(draw: st.DrawFn) -> BarResult:
    """A bar with anything on it that it can be reckoned with."""
    stock, number = draw(FORGED), draw(st.integers(1, 4))
    track = tuple(
        replace(draw(metal(i == number - 1)), name=f"part {i}" if draw(st.booleans()) else "") for i in range(number)
    )
    path: tuple[t.PathLeg, ...] = (t.StraightLeg(t.Blank.REST), *draw(st.lists(legs(), max_size=3)))
    twists = tuple(
        t.Twist(draw(st.floats(-3, 3)) or 1.0, draw(SHORT), t.Place(t.Anchor.DATUM, "", draw(SHORT)))
        for _ in range(draw(st.integers(0, 2)))
    )
    split = draw(st.integers(0, 2)) == 0 and track[-1].outline is None
    branches = tuple(limb(name, draw(metal(True))) for name in ("one", "other")) if split else ()
    spec = t.BarSpec(
        "it", stock, draw(st.sampled_from(METALS)), track, path, twists, tuple(draw(st.lists(holes(), max_size=3))),
        branches=branches, grip=draw(st.sampled_from([0.0, 0.05])),
    )  # fmt: skip
    result = reckon_bar(spec, BarRules(), 7850.0).value
    assume(result is not None)
    assert result is not None
    return result


def can_be_made(result: BarResult) -> bool:
    """Whether nothing that was found stops the work."""
    return not stopping(result.findings) and all(map(can_be_made, result.children))


def every_bar(result: BarResult) -> list[tuple[tuple[str, ...], BarResult]]:
    """A bar and its limbs, by the names from the bar down."""
    found = [((), result)]
    for branch, child in zip(result.spec.branches, result.children, strict=False):
        found += [((branch.name, *path), bar) for path, bar in every_bar(child)]
    return found


def check(result: BarResult, shop: Shop) -> None:
    works = works_of_bar(result, shop)
    keys = Counter(w.key for w in works)
    assert max(keys.values()) == 1, keys.most_common(3)
    for path, bar in every_bar(result):
        own = [w for w in works if w.child == path]
        check_all_done(bar, own)
        check_cold(bar, own, shop)
    for work in works:
        check_work(work, result)


def check_all_done(bar: BarResult, works: list[Work]) -> None:
    """Every run that is not as it came, every bend, twist and hole, in one work; a slit hole in two."""
    forged = {i for i, run in enumerate(bar.runs) if not run.kept}
    assert Counter(i for w in works for i in w.runs) == Counter(forged)
    assert all(w.does in FORGING for w in works if w.runs)
    assert Counter(i for w in works for i in w.bends) == Counter(range(len(bar.bends)))
    assert Counter(i for w in works for i in w.twists) == Counter(range(len(bar.twists)))
    by_hole = [Counter(w.does for w in works if i in w.holes) for i in range(len(bar.holes))]
    wanted = {t.HoleBy.DRILL: ["drill"], t.HoleBy.PUNCH: ["punch"], t.HoleBy.SLIT: ["slit", "drift"]}
    assert by_hole == [Counter(wanted[c.hole.by]) for c in bar.holes]


def check_cold(bar: BarResult, works: list[Work], shop: Shop) -> None:
    """A bend is made cold only in thin limber metal, within the limit of strain, and with no forged corner."""
    for work in (w for w in works if w.bends and not w.hot):
        span = bar.bends[work.bends[0]]
        assert span.strain <= shop.ring.cold_limit
        thick = 2 * span.inside_radius * span.strain / (1 - span.strain)  # strain is t/(2 r + t)
        assert thick <= COLD_THICK * (1 + 1e-9)
        assert bar.spec.steel in ("mild", "S235JR", "304", "wrought iron")


def check_work(work: Work, result: BarResult) -> None:
    assert work.does in WORDS
    assert work.hot or work.does in COLD, work.key
    assert work.piece == result.spec.name
    assert all(isfinite(x) for x in (work.energy, work.metal, work.amount, work.radius, work.thin, *work.zone))
    if not work.child:
        assert -1e-9 <= work.zone[0] <= work.zone[1] <= result.length + 1e-9
    assert 0 < work.seconds.low <= work.seconds.value <= work.seconds.high
    assert (work.energy > 0) is (work.does not in ("mark", "cut bar", "drill", "straighten"))
    assert (work.blows.value > 0) is (work.hot and work.does not in ("twist", "straighten"))
    if work.hot:
        assert work.start > work.stop >= BLACK
        assert work.thin > 0
    else:
        assert (work.start, work.stop) == (0.0, 0.0)
    if work.does in ("twist", "weld"):
        assert work.whole


@given(bars().filter(can_be_made), st.sampled_from([0.0, 0.03, 0.05, 0.2]))
@settings(max_examples=150 * OFTEN, deadline=None)
def test_every_bar_is_worked_whole_and_once(result: BarResult, limit: float) -> None:
    shop = Shop()
    check(result, replace(shop, ring=replace(shop.ring, cold_limit=limit)))


@given(bars())
@settings(max_examples=60 * OFTEN, deadline=None)
def test_a_bar_that_cannot_be_made_is_no_fault_of_ours(result: BarResult) -> None:
    works = works_of_bar(result, Shop())
    assert all(isfinite(w.energy) and w.energy >= 0 for w in works)


@given(bars().filter(can_be_made), st.floats(0.5, 3.0), st.floats(3.0, 8.0))
@settings(max_examples=25 * OFTEN, deadline=None)
def test_the_hammer_changes_blows_and_nothing_that_is_made(result: BarResult, hammer: float, speed: float) -> None:
    light = works_of_bar(result, Shop())
    other = works_of_bar(result, Shop(hand=Hand(hammer=hammer, speed=speed)))
    same = [replace(w, blows=x.blows, seconds=x.seconds) for w, x in zip(other, light, strict=True)]
    assert same == list(light)
    share = hammer * speed**2 / (Hand().hammer * Hand().speed ** 2)
    for w, x in zip(other, light, strict=True):
        assert w.blows.value == pytest.approx(x.blows.value / share)


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda p: p.stem)
def test_every_bar_of_the_examples_is_worked_whole_and_once(path: Path) -> None:
    done = reckon_file(path)
    assert done.copy is not None
    for bar in done.copy.pieces:
        if isinstance(bar, BarResult):
            check(bar, Shop())


def test_the_metals_of_the_sample_hold_those_that_are_never_bent_cold() -> None:
    families = {STEELS[m].family for m in METALS if m in STEELS}
    assert {MetalClass.SPRING, MetalClass.TOOL, MetalClass.MEDIUM} <= families
