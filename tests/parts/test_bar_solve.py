"""What is open is solved, and what cannot be solved says why, in words, with how much is short or over."""

from dataclasses import replace
from math import pi

import pytest

from bickern.iron.section import Section
from bickern.measure.finding import Finding, Weight, Where
from bickern.measure.units.words import INCH, Shape
from bickern.parts.bar.allowances import BarRules
from bickern.parts.bar.reckon import reckon_bar
from bickern.parts.bar.result import BarResult
from bickern.parts.bar.tracks import (
    BarSpec,
    BendLeg,
    Blank,
    Branch,
    EndOutline,
    EndShape,
    EyeLeg,
    HoopLeg,
    Metal,
    Overall,
    OverallGoal,
    ScrollLeg,
    SectionGoal,
    StraightLeg,
)

BARE = BarRules(scale_worked=(0.0, 0.0, 0.0), scale_kept=(0.0, 0.0, 0.0), weld="none")
HERE = Where("job.yaml", 7, 3, "pieces.arm")


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


def finding(spec: BarSpec, name: str, rules: BarRules = BARE) -> Finding:
    read = reckon_bar(spec, rules, 7850.0)
    found = [f for f in read.findings if f.name == name]
    assert found, [(f.name, f.says) for f in read.findings]
    return found[0]


def bar(*metal: Metal, **more: object) -> BarSpec:
    return BarSpec("bar", sq(0.375), "mild", metal, **more)  # type: ignore[arg-type]


TAPER = Metal(4 * INCH, end=SectionGoal(sq(0.125)), name="taper")
KEPT = Metal(3 * INCH, name="stem")


def test_how_long_will_the_taper_come_out() -> None:
    result = reckoned(bar(KEPT, replace(TAPER, length=Blank.OPEN), stock_length=5 * INCH))
    answer = result.solved[0]
    assert (answer.name, answer.asked) == ("length of taper", "?")
    share = (0.375**2 + 0.125**2 + 0.375 * 0.125) / 3 / 0.375**2
    assert answer.value / INCH == pytest.approx(2 / share, rel=1e-12)


def test_how_thin_must_it_go() -> None:
    """Three inches of stem and four of taper out of six of bar."""
    result = reckoned(bar(KEPT, replace(TAPER, end=SectionGoal(sq(0.1), "both")), stock_length=6 * INCH))
    x = result.solved[0].value / INCH
    assert 4 / 3 * (0.375**2 + 0.375 * x + x * x) == pytest.approx(3 * 0.375**2, rel=1e-10)


def test_one_size_of_a_flat() -> None:
    wide = SectionGoal(flat(1.0, 0.1), "thick")
    result = reckoned(bar(KEPT, Metal(2 * INCH, start=wide, name="palm"), stock_length=5 * INCH))
    assert result.solved[0].name == "thick of palm"
    assert result.solved[0].value / INCH == pytest.approx(0.375**2, rel=1e-12)


def test_rest_of_the_metal_follows_the_path() -> None:
    path = (StraightLeg(5 * INCH), BendLeg(pi / 2, 0.5 * INCH), StraightLeg(2 * INCH))
    result = reckoned(bar(TAPER, Metal(Blank.REST, name="stem"), path=path))
    assert result.length / INCH == pytest.approx(7 + pi / 2 * 0.5625, rel=1e-12)
    assert result.solved[0].value / INCH == pytest.approx(3 + pi / 2 * 0.5625, rel=1e-12)


def test_both_tracks_open_and_the_stock_given() -> None:
    path = (StraightLeg(5 * INCH), BendLeg(pi / 2, 0.5 * INCH), StraightLeg(Blank.REST, name="leg"))
    result = reckoned(bar(TAPER, Metal(Blank.REST, name="stem"), path=path, stock_length=8 * INCH))
    assert result.stock.value / INCH == pytest.approx(8.0, rel=1e-12)
    assert sum(s.value for s in result.solved if s.name == "length of leg") > 0


def test_reach_by_a_path_entry() -> None:
    path = (StraightLeg(5 * INCH), BendLeg(pi / 2, 0.5 * INCH), StraightLeg(2 * INCH, name="leg"))
    spec = bar(Metal(Blank.REST), path=path, overall=(OverallGoal(Overall.ACROSS, 4 * INCH, "leg"),))
    result = reckoned(spec)
    assert result.sizes.across / INCH == pytest.approx(4.0, abs=1e-5)
    assert result.solved[-1].value / INCH == pytest.approx(4 - 0.5 - 0.375, abs=1e-5)


def test_two_overall_sizes_at_once() -> None:
    path = (StraightLeg(5 * INCH, name="long"), BendLeg(pi / 2, 0.5 * INCH), StraightLeg(2 * INCH, name="leg"))
    goals = (OverallGoal(Overall.ACROSS, 4 * INCH, "leg"), OverallGoal(Overall.REACH, 9 * INCH, "long"))
    result = reckoned(bar(Metal(Blank.REST), path=path, overall=goals))
    assert (result.sizes.reach / INCH, result.sizes.across / INCH) == pytest.approx((9.0, 4.0), abs=1e-5)


def test_scroll_takes_the_rest() -> None:
    scroll = ScrollLeg(1.5, 0.375 * INCH, None, Blank.REST, name="tip")
    result = reckoned(bar(Metal(12 * INCH), path=(scroll, StraightLeg(4 * INCH))))
    assert result.bends[0].end / INCH == pytest.approx(8.0, rel=1e-9)


def test_not_enough_metal_says_how_much_is_short() -> None:
    short = finding(
        bar(KEPT, replace(TAPER, length=Blank.OPEN, where=HERE), stock_length=2.5 * INCH), "not-enough-metal"
    )
    assert "1/2 in" in short.says
    assert "short" in short.says
    assert short.where == HERE
    assert short.weight is Weight.STOP


def test_nothing_open_and_the_stock_too_short() -> None:
    """Bar 3/8: 9 1/4 of it is wanted, 8 is offered: 1 1/4 short."""
    short = finding(bar(Metal(9.25 * INCH), stock_length=8 * INCH), "not-enough-metal")
    assert "9 1/4 in" in short.says
    assert "1 1/4 in" in short.says
    assert "7/16 in sq" in short.try_this


def test_no_size_is_thin_enough() -> None:
    thin = replace(TAPER, end=SectionGoal(sq(0.1), "both"))
    assert "short" in finding(bar(KEPT, thin, stock_length=4 * INCH), "not-enough-metal").says


def test_stock_left_over_is_said() -> None:
    over = finding(bar(KEPT, stock_length=5 * INCH), "metal-left-over")
    assert "2 in" in over.says
    assert over.weight is Weight.WARN


def test_tracks_of_two_lengths() -> None:
    differ = finding(bar(KEPT, path=(StraightLeg(3.5 * INCH),)), "tracks-differ")
    assert "3 1/2 in" in differ.says
    assert "1/2 in" in differ.says


def test_tracks_alike_to_a_64th_are_alike() -> None:
    assert not reckoned(bar(KEPT, path=(StraightLeg(3.0155 * INCH),))).findings


def test_too_much_open() -> None:
    much = finding(bar(KEPT, replace(TAPER, length=Blank.OPEN)), "too-much-open")
    assert "length of taper" in much.says
    assert "the stock length" in much.says


def test_parts_longer_than_the_whole() -> None:
    path = (StraightLeg(5 * INCH),)
    longer = finding(bar(TAPER, KEPT, Metal(Blank.REST, name="end"), path=path), "parts-longer-than-whole")
    assert "2 in" in longer.says


def test_overall_size_that_cannot_be_met() -> None:
    path = (EyeLeg(1.5 * INCH), StraightLeg(Blank.REST))
    goal = OverallGoal(Overall.REACH, 1.0 * INCH, "stem")
    assert finding(bar(Metal(Blank.REST, name="stem"), TAPER, path=path, overall=(goal,)), "overall-not-reached")


def test_overall_size_by_a_name_that_is_not_there() -> None:
    goal = OverallGoal(Overall.REACH, 10 * INCH, "shank")
    assert "shank" in finding(bar(KEPT, overall=(goal,)), "no-such-place").says


def test_more_than_the_bar_wants_an_upset() -> None:
    bigger = Metal(1 * INCH, start=SectionGoal(sq(0.5)), name="collar")
    upset = finding(bar(KEPT, bigger), "wants-upset")
    assert "does not draw out" in upset.says
    assert "4.7 thicknesses" in upset.says
    assert "buckling" in upset.says


def test_what_is_asked_badly() -> None:
    bad = {
        "no-metal": bar(),
        "length-not-positive": bar(Metal(-1.0)),
        "size-not-positive": bar(KEPT, path=(BendLeg(1.0, -0.1),)),
        "bend-angle": bar(KEPT, path=(BendLeg(0.0, 0.1),)),
        "two-rests": bar(Metal(Blank.REST), Metal(Blank.REST)),
        "shoulder-too-long": bar(KEPT, Metal(0.01, start=SectionGoal(rd(0.2)), shoulder=0.02)),
        "scroll-needs-three": bar(Metal(Blank.REST), path=(ScrollLeg(1.0, 0.01, None),)),
        "scroll-overtold": bar(Metal(Blank.REST), path=(ScrollLeg(1.0, 0.01, 0.05, 0.2),)),
        "scroll-inside-out": bar(Metal(Blank.REST), path=(ScrollLeg(1.0, 0.05, 0.01),)),
        "scroll-impossible": bar(Metal(Blank.REST), path=(ScrollLeg(9.0, 0.05, None, 0.01),)),
        "which-across": bar(Metal(Blank.REST), path=(HoopLeg(),)),
        "hoop-alone": bar(Metal(Blank.REST), path=(HoopLeg(mean_across=0.1), StraightLeg(0.1))),
        "eye-not-at-end": bar(Metal(Blank.REST), path=(StraightLeg(0.1), EyeLeg(0.02), StraightLeg(0.1))),
        "outline-profile": bar(Metal(0.1, outline=EndOutline(EndShape.FREE, 0.02, 0.002, ((0.5, 1.0),)))),
        "count-not-positive": bar(KEPT, make=0),
        "no-corner": bar(Metal(Blank.REST), path=(StraightLeg(0.1, to_corners="centre"), BendLeg(pi, 0.01))),
        "corners-too-close": bar(
            Metal(Blank.REST), path=(StraightLeg(0.1), BendLeg(2.5, 0.05), StraightLeg(0.02, to_corners="centre"))
        ),
    }
    for name, spec in bad.items():
        found = finding(spec, name)
        assert found.says, name


def test_no_bar_named() -> None:
    spec = replace(bar(KEPT), stock=None)
    assert finding(spec, "no-stock").stops
    assert reckon_bar(spec, BARE, 7850.0, stock=sq(0.5)).value is not None


def test_split_ends_come_out_of_the_same_bar() -> None:
    """A fork of two ends, each half the bar's width: length by length it takes what was split."""
    child = BarSpec("prong", None, "mild", (Metal(2 * INCH, name="prong"),))
    spec = bar(KEPT, branches=(Branch("left", child), Branch("right", child)))
    result = reckoned(spec)
    assert result.stock_bare / INCH == pytest.approx(5.0, rel=1e-12)
    assert result.mass == pytest.approx(5 * INCH * (0.375 * INCH) ** 2 * 7850, rel=1e-12)
    assert result.centre_of_mass[0] / INCH == pytest.approx((3 * 1.5 + 2 * 4.0) / 5, rel=1e-9)


def test_split_end_thicker_than_its_share() -> None:
    child = BarSpec("prong", None, "mild", (Metal(2 * INCH, start=SectionGoal(sq(0.36))),))
    assert finding(bar(KEPT, branches=(Branch("a", child), Branch("b", child))), "split-too-thick")


@pytest.mark.parametrize(
    ("shape", "share"), [(EndShape.LEAF, 2 / 3), (EndShape.SPADE, 5 / 6), (EndShape.SPOON, pi / 4)]
)
def test_outlined_ends(shape: EndShape, share: float) -> None:
    end = Metal(2 * INCH, outline=EndOutline(shape, INCH, 0.125 * INCH))
    assert reckoned(bar(KEPT, end)).runs[-1].volume / INCH**3 == pytest.approx(share * 0.25, rel=1e-12)


def test_free_outline_against_a_polygon_library() -> None:
    """Reference: area and centroid by shapely."""
    shapely = pytest.importorskip("shapely")
    profile = ((0.0, 0.4), (0.3, 1.0), (0.8, 0.7), (1.0, 0.0))
    upper = [(x * 2, w / 2) for x, w in profile]
    lower = [(x, -y) for x, y in reversed(upper)]
    polygon = shapely.Polygon(upper + lower)
    end = Metal(2 * INCH, outline=EndOutline(EndShape.FREE, INCH, 0.125 * INCH, profile))
    result = reckoned(bar(end))
    assert result.runs[0].volume / INCH**3 == pytest.approx(polygon.area * 0.125, rel=1e-12)
    # at the start of a bar the outline points to the start: its inner end lies at 2 in
    assert result.centre_of_mass[0] / INCH == pytest.approx(2 - polygon.centroid.x, rel=1e-9)
