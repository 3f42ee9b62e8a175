"""Whole pieces, reckoned: targets worked by hand from constant volume and centre-line bends, before scale and weld.

Certainty of every figure here: exact mathematics on pieces invented for this project.
"""

from dataclasses import replace
from math import atan, degrees, pi, radians, sqrt

import pytest

from bickern.iron.section import Section, section_from
from bickern.measure.units.read import read_section
from bickern.measure.units.words import INCH, POUND, System
from bickern.parts.bar.allowances import BarRules
from bickern.parts.bar.reckon import reckon_bar
from bickern.parts.bar.result import BarResult
from bickern.parts.bar.tracks import (
    Anchor,
    BarSpec,
    BendLeg,
    Blank,
    EndOutline,
    EndShape,
    EyeLeg,
    Hole,
    HoleBy,
    HoopLeg,
    Metal,
    Overall,
    OverallGoal,
    Place,
    SectionGoal,
    StraightLeg,
    Twist,
    Way,
)

STEEL = 7850.0
NO_SCALE = BarRules(scale_worked=(0.0, 0.0, 0.0), scale_kept=(0.0, 0.0, 0.0), weld="none")
WITH_WELD = replace(NO_SCALE, weld="one thickness")


def bar(text: str, system: System = System.INCH) -> Section:
    words = read_section(text, system).value
    assert words is not None
    section = section_from(words).value
    assert section is not None
    return section


def of(text: str) -> SectionGoal:
    return SectionGoal(bar(text))


def reckoned(spec: BarSpec, rules: BarRules = NO_SCALE) -> BarResult:
    read = reckon_bar(spec, rules, STEEL)
    assert read.value is not None, read.findings
    return read.value


def inches(metres: float) -> float:
    return metres / INCH


def s_hook(system: System, stock: str, tip: str, taper: float, sizes: tuple[float, float, float]) -> BarSpec:
    unit = INCH if system is System.INCH else 0.001
    inside, middle, straight = (x * unit for x in sizes)
    point = SectionGoal(bar(tip, system))
    return BarSpec(
        "rail hook",
        bar(stock, system),
        "mild",
        metal=(
            Metal(taper * unit, start=point, end=SectionGoal(bar(stock, system))),
            Metal(Blank.REST, name="shank"),
            Metal(taper * unit, end=point),
        ),
        path=(
            StraightLeg(straight),
            BendLeg(pi, inside / 2, 0.0),
            StraightLeg(middle),
            BendLeg(pi, inside / 2, pi),
            StraightLeg(straight),
        ),
    )


def test_s_hook() -> None:
    result = reckoned(s_hook(System.INCH, "1/4 rd", "1/16 rd", 1.5, (1.0, 1.5, 0.5)))
    assert inches(result.length) == pytest.approx(6.427, abs=0.001)
    assert inches(result.stock_bare) == pytest.approx(4.740, abs=0.001)
    # the crown of each bend lies on the last of the taper: 3.00 less a hair
    assert inches(result.sizes.reach) == pytest.approx(3.00, abs=0.002)


def test_s_hook_in_millimetres() -> None:
    result = reckoned(s_hook(System.MM, "6 rd", "1.5 rd", 38.0, (25.0, 38.0, 12.0)))
    assert result.length * 1000 == pytest.approx(159.4, abs=0.05)
    assert result.stock_bare * 1000 == pytest.approx(116.6, abs=0.15)


def test_s_hook_balances_between_its_bends() -> None:
    """It balances in the middle of its straight. Hung, the bend centres line up at atan(1.25/1.5)."""
    result = reckoned(s_hook(System.INCH, "1/4 rd", "1/16 rd", 1.5, (1.0, 1.5, 0.5)))
    x, y, z = (inches(c) for c in result.centre_of_mass)
    assert (x, y, z) == pytest.approx((0.5 - 1.5 / 2, 1.25, 0.0), abs=1e-6)
    assert degrees(atan(1.25 / 1.5)) == pytest.approx(39.8, abs=0.01)


def leaf_hook() -> BarSpec:
    return BarSpec(
        "leaf hook",
        bar("3/8 sq"),
        "mild",
        metal=(
            Metal(2.25 * INCH, outline=EndOutline(EndShape.LEAF, INCH, 3 / 32 * INCH), name="leaf"),
            Metal(2 * INCH, start=of("3/16 rd"), name="stem"),
            Metal(0.75 * INCH, start=of("3/4 x 3/16"), name="top pad"),
            Metal(1.5 * INCH, start=of("3/8 sq"), name="square"),
            Metal(0.75 * INCH, start=of("3/4 x 3/16"), name="bottom pad"),
            Metal(5 * INCH, start=of("3/8 sq"), end=of("1/8 rd"), name="hook"),
        ),
        twists=(Twist(1.5, None, Place(Anchor.START_OF, "square")),),
    )


def test_leaf_coat_hook() -> None:
    """1.00 + .39 + 1.50 + 1.50 + 2.30 = 6.69."""
    result = reckoned(leaf_hook())
    per_run = [inches(r.volume / bar("3/8 sq").width ** 2) for r in result.runs]
    assert per_run == pytest.approx([1.0, 0.393, 0.75, 1.5, 0.75, 2.30], abs=0.006)
    assert inches(result.stock_bare) == pytest.approx(6.69, abs=0.01)


def test_leaf_coat_hook_as_cut() -> None:
    result = reckoned(leaf_hook(), BarRules())
    assert inches(result.cut_this) == pytest.approx(6.875, abs=0.07)
    assert result.stock.low < result.stock.value < result.stock.high
    assert result.cut_this >= result.stock.value


def test_leaf_coat_hook_twist_is_warned_of() -> None:
    result = reckoned(leaf_hook())
    assert result.twists[0].corner_strain == pytest.approx(0.94, abs=0.005)
    assert "twist-too-tight" in {f.name for f in result.findings}


def ladle_handle() -> BarSpec:
    return BarSpec(
        "handle",
        bar("3/8 sq"),
        "mild",
        metal=(
            Metal(1.25 * INCH, start=of("7/8 x 1/8"), name="palm"),
            Metal(9.75 * INCH, start=of("1/4 rd"), name="shaft"),
            Metal(1 * INCH, start=of("1/4 rd"), end=of("1/8 rd"), name="hook"),
        ),
    )


def test_ladle_handle() -> None:
    """About 5.8 with a palm, a shaft and a tapered hook; the sections of the shaft are ours, so this is by hand."""
    area = 0.375**2
    by_hand = (1.25 * 0.875 * 0.125 + 9.75 * pi * 0.25**2 / 4 + pi / 12 * (0.25**2 + 0.25 * 0.125 + 0.125**2)) / area
    assert inches(reckoned(ladle_handle()).stock_bare) == pytest.approx(by_hand, rel=1e-9)


def trivet_band() -> BarSpec:
    return BarSpec(
        "band",
        bar("3/4 x 1/4"),
        "mild",
        metal=(Metal(Blank.REST),),
        path=(HoopLeg(outside_across=7 * INCH, turn=pi / 2, way=Way.EASY, name="rim"),),
        holes=(Hole(0.25 * INCH, HoleBy.DRILL, Place(), number=3),),
        closed=True,
    )


def test_trivet_band() -> None:
    result = reckoned(trivet_band(), WITH_WELD)
    assert inches(result.stock_bare) == pytest.approx(21.21, abs=0.005)
    assert inches(result.weld) == pytest.approx(0.25)
    assert inches(result.stock.value) == pytest.approx(21.21 + 0.25, abs=0.005)
    assert [inches(s) for s in (result.sizes.reach, result.sizes.across, result.sizes.rise)] == pytest.approx(
        [7, 7, 0.75]
    )


def test_trivet_holes_leave_the_weld_midway() -> None:
    at = [inches(h.at) for h in reckoned(trivet_band()).holes]
    assert at[0] == pytest.approx(3.53, abs=0.005)
    assert at[1] - at[0] == pytest.approx(7.07, abs=0.005)
    assert at[2] - at[1] == pytest.approx(7.07, abs=0.005)


def poker(stock: str) -> BarSpec:
    return BarSpec(
        "poker",
        bar(stock),
        "mild",
        metal=(
            Metal(Blank.REST, start=of("3/8 rd"), name="shaft"),
            Metal(4 * INCH, start=of("1/2 sq"), name="twisted"),
            Metal(4 * INCH, end=of("1/32 sq"), name="point"),
        ),
        path=(EyeLeg(1.5 * INCH, name="eye"), StraightLeg(Blank.REST)),
        overall=(OverallGoal(Overall.REACH, 28 * INCH, "shaft"),),
    )


def test_poker_over_all() -> None:
    """28 over all. The ring counts as a whole circle from the mark on the bar's own centre line."""
    result = reckoned(poker("1/2 sq"))
    assert inches(result.sizes.reach) == pytest.approx(28.0, abs=1e-5)
    assert inches(result.sizes.across) == pytest.approx(2.25, abs=1e-5)
    assert inches(result.stock_bare) == pytest.approx(15.9, abs=0.06)
    assert inches(reckoned(poker("5/8 rd")).stock_bare) == pytest.approx(12.95, abs=0.06)
    line = pi * 1.875 + 28 - 1.875 - 0.375 / 2
    assert inches(result.length) == pytest.approx(line, abs=1e-5)


def test_poker_28_developed() -> None:
    straight = replace(poker("1/2 sq"), overall=(), path=(StraightLeg(28 * INCH),))
    assert inches(reckoned(straight).stock_bare) == pytest.approx(14.3, abs=0.05)
    assert inches(reckoned(replace(straight, stock=bar("5/8 rd"))).stock_bare) == pytest.approx(11.6, abs=0.05)


def dinner_triangle() -> BarSpec:
    bend = BendLeg(radians(120), 0.5 * INCH)
    gap = 0.75 * INCH
    return BarSpec(
        "triangle",
        bar("1/2 rd"),
        "mild",
        metal=(Metal(Blank.REST),),
        path=(
            StraightLeg(10 * INCH - gap, to_corners="centre"),
            bend,
            StraightLeg(10 * INCH, to_corners="centre"),
            bend,
            StraightLeg(10 * INCH, to_corners="centre"),
        ),
    )


def test_dinner_triangle() -> None:
    """Each turn of 120 degrees saves 2 R tan 60 - R 2 pi/3 = 1.03."""
    saved = 0.75 * (2 * sqrt(3) - 2 * pi / 3)
    assert saved == pytest.approx(1.03, abs=0.005)
    result = reckoned(dinner_triangle())
    assert inches(result.stock_bare) == pytest.approx(27.20, abs=0.005)
    assert inches(result.stock_bare) == pytest.approx(29.25 - 2 * saved, rel=1e-9)
    assert result.mass / POUND == pytest.approx(1.51, abs=0.005)


def test_sides_told_to_inside_and_outside_corners() -> None:
    """The middle side of 10 on the centre line is 10 - 2 (t/2) tan 60 inside and 10 + 2 (t/2) tan 60 outside."""
    centre = reckoned(dinner_triangle()).length
    for told, change in (("inside", -1.0), ("outside", 1.0)):
        spec = dinner_triangle()
        tails = (1, 2, 1)
        path = tuple(
            replace(leg, length=leg.length + change * tails[i // 2] * 0.25 * INCH * sqrt(3), to_corners=told)
            if isinstance(leg, StraightLeg) and isinstance(leg.length, float)
            else leg
            for i, leg in enumerate(spec.path)
        )
        assert reckoned(replace(spec, path=path)).length == pytest.approx(centre, rel=1e-12)


def tong_half(stock: str) -> BarSpec:
    return BarSpec(
        "half",
        bar(stock),
        "mild",
        metal=(
            Metal(2.5 * INCH, start=of("5/8 x 3/8"), name="jaw"),
            Metal(1 * INCH, start=of("1 1/8 x 3/8"), name="boss"),
            Metal(14 * INCH, start=of("3/8 rd"), end=of("1/4 rd"), name="rein"),
        ),
    )


def test_bolt_tongs() -> None:
    result = reckoned(tong_half("5/8 sq"))
    assert inches(result.stock_bare) == pytest.approx(5.37, abs=0.006)
    assert 2 * result.mass / POUND == pytest.approx(1.2, abs=0.03)
    assert inches(reckoned(tong_half("3/4 sq")).stock_bare) == pytest.approx(3.73, abs=0.006)


def test_boss_as_wide_as_the_hole_is_thin() -> None:
    """A boss of 3/4 sq, hole 9/16: drilled, the walls left are 3/32; slit and drifted nothing is lost."""
    spec = BarSpec("boss", bar("3/4 sq"), "mild", (Metal(2 * INCH, name="boss"),))
    hole = Hole(9 / 16 * INCH, HoleBy.DRILL, Place(Anchor.MIDDLE_OF, "boss"))
    drilled = reckoned(replace(spec, holes=(hole,)))
    assert inches(drilled.holes[0].wall) == pytest.approx(3 / 32)
    assert "thin-wall" in {f.name for f in drilled.findings}
    slit = reckoned(replace(spec, holes=(replace(hole, by=HoleBy.SLIT),)))
    assert not slit.findings
    assert slit.mass > drilled.mass
    assert slit.stock == drilled.stock
