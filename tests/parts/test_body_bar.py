"""Solid bars: where they lie, what shape bends, twists, holes, eyes and ends have; the laws are in `laws`."""

from itertools import pairwise
from math import cos, pi, sin, sqrt

import numpy as np
import pytest
from numpy.typing import NDArray
from scipy import integrate

from bickern.geometry.solid.combine import joined, without
from bickern.geometry.solid.solid import Fineness, Solid
from bickern.geometry.solid.sweep import revolved
from bickern.geometry.solid.weigh import bounds, centre, is_closed, volume
from bickern.iron.section import POINT, Section
from bickern.measure.units.words import Shape
from bickern.parts.bar.allowances import BarRules, without_fire
from bickern.parts.bar.body.body import bar_body
from bickern.parts.bar.reckon import reckon_bar
from bickern.parts.bar.result import BarResult
from bickern.parts.bar.traced import traced_line, traced_names
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
    Place,
    ScrollLeg,
    SectionGoal,
    StraightLeg,
    Twist,
)

STEEL = 7850.0
UP, LEFT = pi / 2, 0.0
MIDDLE = Place(Anchor.DATUM, "", 0.1)
FINE = Fineness.FINE


def section(shape: Shape, wide: float, thick: float | None = None) -> Section:
    return Section(shape, wide, wide if thick is None else thick)


def made(stock: Section, length: float = 0.2, **more: object) -> BarResult:
    metal = more.pop("metal", (Metal(length),))
    read = reckon_bar(BarSpec("bar", stock, "mild", metal, **more), without_fire(BarRules()), STEEL)  # type: ignore[arg-type] - parts of a spec by name
    assert read.value is not None, read.findings
    return read.value


def spread(body: Solid) -> tuple[float, float, float]:
    low, high = bounds(body)
    return high[0] - low[0], high[1] - low[1], high[2] - low[2]


SQ, FLAT, ROUND = section(Shape.SQUARE, 0.012), section(Shape.FLAT, 0.03, 0.006), section(Shape.ROUND, 0.012)


def test_a_straight_bar_lies_along_x_its_width_across_and_its_face_up() -> None:
    low, high = bounds(bar_body(made(FLAT)))
    assert low == pytest.approx((0.0, -0.015, -0.003))
    assert high == pytest.approx((0.2, 0.015, 0.003))


def test_a_drawn_point_and_a_chisel_edge_close() -> None:
    for end in (POINT, section(Shape.FLAT, 0.02, 0.0), section(Shape.HALF_ROUND, 0.02, 0.01)):
        body = bar_body(made(SQ, metal=(Metal(0.1, end=SectionGoal(end)),)))
        assert is_closed(body)
        assert bounds(body)[1][0] == pytest.approx(0.1)


@pytest.mark.parametrize("fineness", list(Fineness))
@pytest.mark.parametrize(
    ("turn", "to"), [(LEFT, (0, 1, 0)), (UP, (0, 0, 1)), (pi, (0, -1, 0)), (3 * pi / 2, (0, 0, -1))]
)
def test_a_bend_goes_where_it_turns_and_balances_as_pappus_says(
    turn: float, to: tuple[int, int, int], fineness: Fineness
) -> None:
    """A half circle of bar t square about R balances 2/(pi R) (R^2 + t^2/12) from its axis (exact mathematics)."""
    bar = made(SQ, metal=(Metal(pi * 0.036),), path=(BendLeg(pi, 0.03, turn),))
    body = bar_body(bar, fineness)
    assert volume(body) == pytest.approx(pi * 0.036 * 0.012**2, rel=1e-5)
    out = 2 / (pi * 0.036) * (0.036**2 + 0.012**2 / 12)
    wanted = np.array((1.0, 0.0, 0.0)) * out + np.array(to) * 0.036
    assert centre(body) == pytest.approx(tuple(wanted), abs=2e-5 if fineness is FINE else 6e-5)


def test_a_right_hand_twist_turns_left_toward_up_and_the_bar_goes_on_turned() -> None:
    bar = made(FLAT, twists=(Twist(0.25, 0.08, MIDDLE),))
    points = bar_body(bar, FINE).points
    early = points[np.abs(points[:, 0] - 0.14) < 1e-3]  # half of the quarter turn
    wide = early[np.argmax(np.hypot(early[:, 1], early[:, 2]))]
    assert wide[1] * wide[2] > 0.0
    low, high = points[points[:, 0] > 0.19].min(axis=0), points[points[:, 0] > 0.19].max(axis=0)
    assert (high - low)[1:] == pytest.approx((0.006, 0.03))


@pytest.mark.parametrize("hand", ["right", "left"])
def test_a_twist_leaves_no_seam_where_the_face_jumps(hand: str) -> None:
    """Where a twist of a turn and a half ends the frame has turned; the skin must not feel it."""
    bar = made(FLAT, twists=(Twist(1.5, 0.08, MIDDLE),), hand=hand)
    body = bar_body(bar, FINE)
    points = body.points[body.faces]
    edges = np.linalg.norm(points - np.roll(points, 1, axis=1), axis=2)
    across = np.abs(points[:, :, 0] - 0.18).max(axis=1) < 2e-3
    assert edges[across].max() < 0.012


def crossing(bar: float, hole: float) -> float:
    """Metal [m3] that a drill takes out of a round bar, axes crossing square: chord times chord, summed."""
    return float(
        integrate.quad(lambda x: 4 * sqrt(bar**2 / 4 - x**2) * sqrt(hole**2 / 4 - x**2), -hole / 2, hole / 2)[0]
    )


def test_a_drilled_round_bar() -> None:
    """The true hole; the reckoning takes it as deep everywhere as in the middle, which is a little too much."""
    bar = made(ROUND, holes=(Hole(0.006, HoleBy.DRILL, MIDDLE),))
    whole, left = volume(bar_body(made(ROUND), FINE)), volume(bar_body(bar, FINE))
    assert whole - left == pytest.approx(crossing(0.012, 0.006), rel=2e-3)
    assert bar.holes[0].slug > whole - left


@pytest.mark.parametrize(("face", "axis"), [(Face.FRONT, 1), (Face.LEFT, 2)])
def test_a_drifted_hole_has_half_the_bar_on_either_side(face: Face, axis: int) -> None:
    """Nothing is lost, and the walls go round the drift whole: the bar is as much wider as the hole is."""
    bar = made(SQ, holes=(Hole(0.01, HoleBy.SLIT, MIDDLE, face),))
    body = bar_body(bar, FINE)
    assert volume(body) == pytest.approx(0.2 * 0.012**2, rel=1e-6)
    assert spread(body)[axis] == pytest.approx(0.012 + 0.01, rel=1e-6)
    assert spread(body)[3 - axis] == pytest.approx(0.012)


def test_a_punched_hole_loses_its_slug_alone() -> None:
    bar = made(FLAT, holes=(Hole(0.009, HoleBy.PUNCH, MIDDLE),))
    assert volume(bar_body(bar, FINE)) == pytest.approx(0.2 * 0.03 * 0.006 - pi / 4 * 0.009**2 * 0.006 / 3, rel=1e-6)
    assert spread(bar_body(bar, FINE))[1] == pytest.approx(0.03 + 0.009 * 2 / 3, rel=1e-6)


def test_a_slot_is_as_long_as_told_along_the_bar() -> None:
    body = bar_body(made(FLAT, holes=(Hole(0.008, HoleBy.DRILL, MIDDLE, long=0.02),)))
    assert volume(body) == pytest.approx((0.2 * 0.03 - 0.008 * 0.02) * 0.006, rel=1e-9)
    rim = body.points[(np.abs(body.points[:, 1]) < 0.0041) & (np.abs(body.points[:, 0] - 0.1) < 0.05)]
    assert np.ptp(rim[:, 0]) == pytest.approx(0.02)


def near_axis(points: NDArray[np.float64], where: tuple[float, float]) -> float:
    return float(np.hypot(points[:, 0] - where[0], points[:, 2] - where[1]).min())


@pytest.mark.parametrize("first", [True, False])
def test_an_eye_on_the_line_is_open_as_wide_as_told(first: bool) -> None:
    """Its middle stands on the bar's own line, half its mean diameter beyond the mark; a plug of its size goes in."""
    eye, rest = EyeLeg(0.02, UP), StraightLeg(Blank.REST)
    bar = made(ROUND, 0.3, path=(eye, rest) if first else (rest, eye))
    body = bar_body(bar, FINE)
    edge = body.points[:, 0].max() if not first else body.points[:, 0].min()
    middle = edge + (0.022 if first else -0.022)
    along, height = middle, 0.0
    if first:  # the line starts on the eye: its middle is straight over the start
        along, height = 0.0, 0.016
    assert near_axis(body.points, (along, height)) == pytest.approx(0.01, abs=3e-5)


def test_a_corner_forged_up_is_sharp_outside_and_round_inside() -> None:
    bar = made(SQ, metal=(Metal(Blank.REST),), path=(
        StraightLeg(0.1), BendLeg(pi / 2, 0.004, LEFT, corner=Corner.SQUARE), StraightLeg(0.1),
    ))  # fmt: skip
    body = bar_body(bar, FINE)
    low, high = bounds(body)
    assert (low[1], high[0]) == pytest.approx((-0.006, 0.104 + 0.012))
    corner = np.array((high[0], low[1]))
    assert np.abs(body.points[:, :2] - corner).sum(axis=1).min() == pytest.approx(0.0, abs=1e-9)
    inside = np.hypot(body.points[:, 0] - 0.1, body.points[:, 1] - 0.010)
    assert inside.min() == pytest.approx(0.004, rel=1e-3)
    assert volume(body) == pytest.approx(sum(r.volume for r in bar.runs), rel=1e-6)


@pytest.mark.parametrize("angle", [0.5, pi / 2, pi, 2 * pi])
def test_the_sharpest_bend_still_is_a_skin_that_can_be_cut(angle: float) -> None:
    bar = made(FLAT, metal=(Metal(Blank.REST),), path=(StraightLeg(0.05), BendLeg(angle, 0.0, LEFT), StraightLeg(0.05)))
    body = bar_body(bar)
    assert is_closed(body)
    drill = revolved(np.array([(0.0, -1.0), (0.002, -1.0), (0.002, 1.0), (0.0, 1.0)]), 12)
    assert is_closed(without(body, drill))


def test_a_leaf_grows_from_a_stem_as_wide_as_the_bar() -> None:
    outline = EndOutline(EndShape.LEAF, 0.04, 0.003)
    bar = made(section(Shape.ROUND, 0.008), metal=(Metal(0.1), Metal(0.08, outline=outline)))
    body = bar_body(bar, FINE)
    assert volume(body) == pytest.approx(sum(r.volume for r in bar.runs), rel=1e-3)
    neck = body.points[np.abs(body.points[:, 0] - 0.1) < 1e-4]
    assert np.ptp(neck[:, 1]) == pytest.approx(0.008, rel=0.01)
    assert spread(body)[1] == pytest.approx(0.04, rel=1e-3)
    assert len(joined(body).faces)  # in one piece that can be cut


def test_a_hoop_and_a_square_frame_close_on_themselves() -> None:
    hoop = made(FLAT, metal=(Metal(Blank.REST),), path=(HoopLeg(mean_across=0.3, turn=UP),), closed=True)
    body = bar_body(hoop, FINE)
    assert len(body.points) * 2 == len(body.faces)  # a torus
    assert spread(body)[0] == pytest.approx(0.306, rel=1e-3)
    side = (StraightLeg(0.1), BendLeg(pi / 2, 0.01, LEFT))
    frame = bar_body(made(SQ, metal=(Metal(Blank.REST),), path=side * 4, closed=True), FINE)
    assert len(frame.points) * 2 == len(frame.faces)
    assert spread(frame)[:2] == pytest.approx((0.1 + 2 * 0.022,) * 2, abs=1e-5)


def test_limbs_lie_side_by_side_and_part_without_running_into_each_other() -> None:
    def limb(name: str, hand: str) -> Branch:
        path = (BendLeg(0.6, 0.03, LEFT), StraightLeg(Blank.REST))
        return Branch(name, BarSpec(name, None, "mild", (Metal(0.08),), path, hand=hand))

    bar = made(FLAT, branches=(limb("left", "right"), limb("right", "left")))
    body = bar_body(bar, FINE)
    assert volume(body) == pytest.approx(bar.mass / STEEL, rel=1e-4)
    assert volume(joined(*parted(body))) == pytest.approx(volume(body), rel=1e-4)
    assert bounds(body)[0][1] == pytest.approx(-bounds(body)[1][1])


def parted(body: Solid) -> list[Solid]:
    """The skins that a body is gathered of: points come in the order of their skins."""
    low = body.faces.min(axis=1)
    starts = [0]
    while starts[-1] < len(body.points):
        end = starts[-1] + 1
        while True:
            reached = int(body.faces[low < end].max(initial=0)) + 1
            if reached <= end:
                break
            end = reached
        starts.append(end)
    return [Solid(body.points[a:b], body.faces[(low >= a) & (low < b)] - a) for a, b in pairwise(starts)]


def test_a_branch_grows_from_its_place() -> None:
    twig = BarSpec(
        "twig", section(Shape.ROUND, 0.006), "mild", (Metal(0.05),), (BendLeg(UP, 0.01, LEFT), StraightLeg(Blank.REST))
    )
    path = (StraightLeg(0.06), BendLeg(pi / 2, 0.02, UP), StraightLeg(Blank.REST, name="stem"))
    bar = made(SQ, path=path, branches=(Branch("twig", twig, Place(Anchor.MIDDLE_OF, "stem")),))
    names = traced_names(bar).stretch("stem")
    assert names is not None
    start = traced_line(bar).frame((names.start + names.end) / 2).origin
    twig_points = parted(bar_body(bar))[1].points
    assert np.linalg.norm(twig_points - np.array(start), axis=1).min() < 0.0031


@pytest.mark.parametrize("turn", [LEFT, UP])
def test_its_sizes_are_those_the_reckoning_says(turn: float) -> None:
    path = (StraightLeg(0.1), BendLeg(2.0, 0.02, turn), StraightLeg(Blank.REST))
    bar = made(section(Shape.FLAT, 0.016, 0.01), path=path)
    x, y, z = spread(bar_body(bar, FINE))
    across, rise = (y, z) if turn == LEFT else (z, y)
    assert (x, across, rise) == pytest.approx((bar.sizes.reach, bar.sizes.across, bar.sizes.rise), abs=3e-5)


def test_a_scroll_keeps_its_inside_radius() -> None:
    path = (ScrollLeg(1.0, 0.02, 0.05, turn=LEFT), StraightLeg(Blank.REST))
    bar = made(SQ, 0.5, path=path)
    tip = bar_body(bar, FINE).points
    start = tip[np.abs(tip[:, 0]) < 1e-6]
    assert start[:, 1].max() == pytest.approx(0.006, rel=1e-3)
    # the line starts 0.026 from the spiral's middle, and leans to it as the radius opens
    lean = np.arctan2(0.026, 0.03 / (2 * pi))
    middle = 0.026 * np.array((-cos(lean), sin(lean)))
    assert np.hypot(tip[:, 0] - middle[0], tip[:, 1] - middle[1]).min() == pytest.approx(0.02, rel=0.02)


def test_a_tube_is_cut_through_both_its_walls() -> None:
    tube = Section(Shape.SQUARE_TUBE, 0.02, 0.02, 0.002)
    plain, bored = made(tube), made(tube, holes=(Hole(0.008, HoleBy.DRILL, MIDDLE),))
    assert volume(bar_body(plain)) - volume(bar_body(bored)) == pytest.approx(2 * 0.002 * pi / 4 * 0.008**2, rel=1e-6)
