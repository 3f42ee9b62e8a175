"""The bent bar: overall sizes, balance, turned faces, sections off the line; against other ways to the same numbers."""

from dataclasses import replace
from math import cos, pi, radians, sin, sqrt, tan

import numpy as np
import pytest
import trimesh

from bickern.geometry.extent import boxy, extent
from bickern.geometry.path import Arc, Spiral, Turned, frames, run_length
from bickern.iron.blend import blend_section
from bickern.iron.section import Section
from bickern.measure.units.words import INCH, Shape
from bickern.parts.bar.allowances import BarRules, BendRule
from bickern.parts.bar.reckon import reckon_bar
from bickern.parts.bar.result import BarResult
from bickern.parts.bar.rules import bend_length, din_k, square_corner_length
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
    ScrollLeg,
    SectionGoal,
    StraightLeg,
    Twist,
)

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


def swept(result: BarResult, steps: int = 600) -> trimesh.Trimesh:
    """The bar as a mesh, made another way: outlines of each run set up along the line and skinned."""
    meshes = []
    for run in result.runs:
        s = np.linspace(run.start, run.end, steps)
        f = frames(result.legs, s)
        rings = []
        for i, u in enumerate(np.linspace(0, 1, steps)):
            xy = blend_section(run.a, run.b, u, 96)
            rings.append(f.origin[i] + xy[:, :1] * f.left[i] + xy[:, 1:] * f.up[i])
        meshes.append(skinned(np.array(rings)))
    return trimesh.util.concatenate(meshes)


def skinned(rings: np.ndarray) -> trimesh.Trimesh:
    n, m, _ = rings.shape
    points = np.vstack([rings.reshape(-1, 3), rings[0].mean(0), rings[-1].mean(0)])
    faces = []
    for i in range(n - 1):
        for j in range(m):
            a, b = i * m + j, i * m + (j + 1) % m
            faces += [(a, b, b + m), (a, b + m, a + m)]
    first, last = n * m, n * m + 1
    faces += [(first, (j + 1) % m, j) for j in range(m)]
    faces += [(last, (n - 1) * m + j, (n - 1) * m + (j + 1) % m) for j in range(m)]
    mesh = trimesh.Trimesh(points, faces, process=False)
    mesh.fix_normals()
    return mesh


def hook() -> BarSpec:
    metal = (
        Metal(3 * INCH, start=SectionGoal(rd(0.125)), end=SectionGoal(sq(0.375)), name="tip"),
        Metal(Blank.REST, name="stem"),
        Metal(2 * INCH, end=SectionGoal(flat(0.75, 0.125)), name="palm"),
    )
    path = (
        StraightLeg(0.5 * INCH),
        BendLeg(radians(170), 0.75 * INCH, 0.0),
        StraightLeg(4 * INCH),
        BendLeg(radians(60), 0.75 * INCH, UP),
        StraightLeg(2.5 * INCH),
    )
    return BarSpec("hook", sq(0.375), "mild", metal, path)


def test_balance_and_box_against_a_mesh() -> None:
    """Reference: trimesh. A mesh holds more outside a bend than inside, which moves the balance by about t^2/(12 R)."""
    result = reckoned(hook())
    mesh = swept(result)
    assert mesh.volume * 7850 == pytest.approx(result.mass, rel=2e-3)
    assert result.centre_of_mass == pytest.approx(tuple(mesh.center_mass), abs=2e-4)


def test_box_against_the_general_one() -> None:
    """The same box by another method (golden-section search), for a section that does not change."""
    path = (
        StraightLeg(2 * INCH),
        BendLeg(2.5, INCH, 0.3),
        StraightLeg(4 * INCH),
        BendLeg(1.0, INCH, 2.0),
        StraightLeg(INCH),
    )
    result = reckoned(BarSpec("b", flat(0.75, 0.25), "mild", (Metal(Blank.REST),), path))
    support = boxy(lambda _: 0.375 * INCH, lambda _: 0.125 * INCH)
    box = extent(result.legs, support)
    sizes = (result.sizes.reach, result.sizes.across, result.sizes.rise)
    assert sizes == pytest.approx(box.sizes, abs=2e-6)


def test_tapered_bend_box_against_sampling() -> None:
    result = reckoned(hook())
    points = swept(result, 2000).vertices
    # along the longest straight (4 in): find its direction from the frames
    f = frames(result.legs, [0.5 * INCH + result.bends[0].end])
    along = f.along[0]
    reach = np.ptp(points @ along)
    assert result.sizes.reach == pytest.approx(reach, abs=2e-5)


def test_right_angle_box() -> None:
    path = (StraightLeg(4 * INCH), BendLeg(UP, 0.5 * INCH), StraightLeg(2 * INCH))
    result = reckoned(BarSpec("b", sq(0.5), "mild", (Metal(Blank.REST),), path))
    assert result.sizes.reach / INCH == pytest.approx(5.0, rel=1e-9)
    assert result.sizes.across / INCH == pytest.approx(3.0, rel=1e-9)
    assert result.sizes.rise / INCH == pytest.approx(0.5, rel=1e-9)


def test_ring_box_and_balance() -> None:
    spec = BarSpec("ring", rd(0.5), "mild", (Metal(Blank.REST),), (HoopLeg(inside_across=3.5 * INCH),), closed=True)
    result = reckoned(spec)
    assert result.sizes.reach / INCH == pytest.approx(4.5, abs=1e-5)
    assert result.sizes.across / INCH == pytest.approx(4.5, abs=1e-5)
    assert result.centre_of_mass == pytest.approx((0.0, 2 * INCH, 0.0), abs=1e-9)


def test_hoop_told_by_any_of_three_sizes() -> None:
    sizes = {"inside_across": 6.5, "mean_across": 6.75, "outside_across": 7.0}
    for name, size in sizes.items():
        leg = HoopLeg(**{name: size * INCH}, turn=UP)  # type: ignore[arg-type]
        spec = BarSpec("band", flat(0.75, 0.25), "mild", (Metal(Blank.REST),), (leg,), closed=True)
        assert reckoned(spec).stock_bare / INCH == pytest.approx(pi * 6.75, rel=1e-12)


@pytest.mark.parametrize("first", [True, False])
def test_eye_stands_on_the_bars_line(first: bool) -> None:
    """The ring's centre lies on the bar's own line: the box is as wide as the ring, and even on both sides."""
    eye, straight = EyeLeg(INCH, name="eye"), StraightLeg(6 * INCH)
    path = (eye, straight) if first else (straight, eye)
    result = reckoned(BarSpec("pin", rd(0.25), "mild", (Metal(Blank.REST),), path))
    assert result.sizes.across / INCH == pytest.approx(1.5, abs=3e-5)
    assert result.sizes.reach / INCH == pytest.approx(6 + 1.25 + 0.125, abs=3e-5)
    ring = next(leg for leg in result.legs if isinstance(leg, Arc))
    assert ring.radius / INCH == pytest.approx(0.625)


def test_twist_turns_the_face_of_what_follows() -> None:
    """A quarter turn in a flat: a bend told left after it goes the way that up would have gone before it."""
    metal = (Metal(4 * INCH, name="flat"), Metal(Blank.REST))
    path = (StraightLeg(5 * INCH), BendLeg(UP, INCH, 0.0), StraightLeg(3 * INCH))
    plain = BarSpec("b", flat(0.5, 0.25), "mild", metal, path)
    twisted = replace(plain, twists=(Twist(0.25, 2 * INCH, Place(Anchor.MIDDLE_OF, "flat")),))
    assert any(isinstance(leg, Turned) for leg in reckoned(twisted).legs)
    _, _, z = reckoned(twisted).centre_of_mass
    _, y, _ = reckoned(plain).centre_of_mass
    assert z == pytest.approx(y, abs=1e-12)  # right-hand: left goes up
    left_hand = replace(twisted, twists=(replace(twisted.twists[0], turns=-0.25),))
    assert reckoned(left_hand).centre_of_mass[2] == pytest.approx(-y, abs=1e-12)


def test_flush_and_offset() -> None:
    """A ramp from 1/2 sq to 1 x 1/4, its back kept in line: the flat's middle lies 1/8 below the line, and stays."""
    metal = (
        Metal(4 * INCH, name="stem"),
        Metal(0.5 * INCH, end=SectionGoal(flat(1.0, 0.25)), flush=Face.BACK),
        Metal(2 * INCH, name="palm"),
    )
    runs = reckoned(BarSpec("b", sq(0.5), "mild", metal)).runs
    assert runs[1].offset_a == (0.0, 0.0)
    assert runs[1].offset_b[1] / INCH == pytest.approx(-0.125)
    assert runs[2].offset_a == runs[2].offset_b == runs[1].offset_b
    off = replace(metal[2], start=SectionGoal(flat(1.0, 0.25)), offset=(0.1 * INCH, 0.0))
    assert reckoned(BarSpec("b", sq(0.5), "mild", (*metal[:2], off))).runs[2].offset_b == (0.1 * INCH, 0.0)


def test_shoulder_is_a_ramp_inside_the_length() -> None:
    metal = (
        Metal(4 * INCH, name="stem"),
        Metal(3 * INCH, start=SectionGoal(rd(0.25)), shoulder=0.5 * INCH, name="tenon"),
    )
    result = reckoned(BarSpec("b", sq(0.5), "mild", metal))
    assert [(r.name, round((r.end - r.start) / INCH, 9)) for r in result.runs] == [
        ("stem", 4.0),
        ("tenon shoulder", 0.5),
        ("tenon", 2.5),
    ]
    assert result.runs[0].kept
    assert not result.runs[1].kept


def test_din_bend_is_shorter_and_printed_beside() -> None:
    path = (StraightLeg(4 * INCH), BendLeg(UP, 0.5 * INCH), StraightLeg(4 * INCH))
    spec = BarSpec("b", sq(0.5), "mild", (Metal(Blank.REST),), path)
    ours, din = reckoned(spec), reckoned(spec, replace(BARE, bend=BendRule.DIN_6935))
    assert din_k(0.5, 0.5) == pytest.approx(0.65)
    assert ours.length - din.length == pytest.approx(UP * 0.35 * 0.25 * INCH, rel=1e-9)
    assert ours.also[0][1] == pytest.approx(din.length, rel=1e-12)
    assert din.also[0][1] == pytest.approx(ours.length, rel=1e-12)
    wide = replace(spec, path=(path[0], BendLeg(UP, 1.1 * INCH), path[2]))
    assert not reckoned(wide).also


def test_din_factor_ends() -> None:
    """k is 1 from r/s = 5.01 on, and is held at 0 for a bend without inside radius (outside the standard's range)."""
    assert din_k(6.0, 1.0) == 1.0
    assert din_k(0.0, 1.0) == 0.0
    assert bend_length(BendRule.CENTRE, UP, 0.0, 1.0) == pytest.approx(pi / 4)


@pytest.mark.parametrize("degrees", [30, 60, 90, 120])
def test_square_corner_by_area(degrees: int) -> None:
    """Two legs with their outsides carried on to a sharp corner: area by shapely, less the two legs."""
    shapely = pytest.importorskip("shapely")
    angle, t, leg = radians(degrees), 0.5, 3.0
    c, s = cos(angle), sin(angle)
    reach = t * tan(angle / 2)
    # inside corner at the origin, first leg comes along x, the outside lies below
    points = [(-leg, 0), (0, 0), (leg * c, leg * s), (leg * c + t * s, leg * s - t * c), (reach, -t), (-leg, -t)]
    corner = shapely.Polygon(points).area - 2 * leg * t
    assert square_corner_length(angle, 0.0, t) * t == pytest.approx(corner, rel=1e-12)


def test_upset_corner_keeps_its_line() -> None:
    path = (StraightLeg(4 * INCH), BendLeg(UP, 0.5 * INCH), StraightLeg(4 * INCH))
    spec = BarSpec("b", sq(0.5), "mild", (Metal(Blank.REST),), path)
    from bickern.parts.bar.tracks import Corner

    upset = replace(spec, path=(path[0], replace(path[1], corner=Corner.UPSET), path[2]))
    assert run_length(reckoned(upset).legs) == pytest.approx(reckoned(spec).length, rel=1e-12)
    assert reckoned(upset).sizes.reach == pytest.approx(reckoned(spec).sizes.reach, rel=1e-9)


def test_scroll_radii_are_to_its_inside_face() -> None:
    scroll = ScrollLeg(1.0, 0.5 * INCH, 2.0 * INCH)
    result = reckoned(BarSpec("s", sq(0.25), "mild", (Metal(Blank.REST),), (scroll,)))
    spiral = result.legs[0]
    assert isinstance(spiral, Spiral)
    assert (spiral.start_radius / INCH, spiral.end_radius / INCH) == pytest.approx((0.625, 2.125))
    # Archimedean: integral of sqrt(r^2 + r'^2), by fine trapezoids
    phi = np.linspace(0, 2 * pi, 200001)
    r = 0.625 + 1.5 * phi / (2 * pi)
    exact = np.trapezoid(np.sqrt(r**2 + (1.5 / (2 * pi)) ** 2), phi)
    assert result.length / INCH == pytest.approx(exact, rel=1e-9)
    back = replace(scroll, from_centre=False)
    assert reckoned(BarSpec("s", sq(0.25), "mild", (Metal(Blank.REST),), (back,))).length == pytest.approx(
        result.length
    )


def test_drilled_hole_moves_the_balance() -> None:
    hole = Hole(0.25 * INCH, HoleBy.DRILL, Place(plus=INCH))
    result = reckoned(BarSpec("b", flat(1, 0.25), "mild", (Metal(4 * INCH),), holes=(hole,)))
    lost = pi / 4 * 0.25**2 * 0.25
    assert result.holes[0].slug / INCH**3 == pytest.approx(lost)
    assert result.centre_of_mass[0] / INCH == pytest.approx((2.0 * 1 - 1.0 * lost) / (1 - lost), rel=1e-12)
    assert result.stock_bare / INCH == pytest.approx(4.0, rel=1e-12)


def test_welded_branch_counts_for_weight_not_for_stock() -> None:
    arm = BarSpec("arm", sq(0.25), "mild", (Metal(2 * INCH),), (BendLeg(UP, 0.25 * INCH), StraightLeg(Blank.REST)))
    spec = BarSpec("b", sq(0.5), "mild", (Metal(6 * INCH, name="stem"),))
    branched = replace(spec, branches=(Branch("arm", arm, Place(Anchor.MIDDLE_OF, "stem")),))
    one, two = reckoned(spec), reckoned(branched)
    assert two.stock == one.stock
    assert two.mass == pytest.approx(one.mass + reckoned(arm).mass, rel=1e-12)
    assert two.centre_of_mass[1] > 0.0


def test_body_axes_of_a_bar_bent_up() -> None:
    path = (StraightLeg(4 * INCH), BendLeg(UP, 0.5 * INCH, UP), StraightLeg(2 * INCH))
    result = reckoned(BarSpec("b", flat(1.0, 0.25), "mild", (Metal(Blank.REST),), path))
    assert result.sizes.rise / INCH == pytest.approx(1.0, rel=1e-9)
    assert result.sizes.across / INCH == pytest.approx(2 + 0.5 + 0.25, rel=1e-9)
    assert result.sizes.end_to_end / INCH == pytest.approx(sqrt(4.625**2 + 2.625**2), rel=1e-9)
