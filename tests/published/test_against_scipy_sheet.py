"""Against scipy (roots, quadrature) and numpy, general libraries of numerics, 1.17: figures to lay a pattern out with.

Kind: reference library. Arcs are struck as rows of points and their chords, boxes and lengths read off those; a pan is
folded up from its flat. Reckoned another way.
"""

import math

import numpy as np
import pytest
from numpy.typing import NDArray
from scipy import integrate, optimize

from bickern.geometry.polygon import points
from bickern.parts.sheet.allowances import FoldRule, SheetRules
from bickern.parts.sheet.bends import fold_deduction, fold_length, line_length, over_deduction, setback, sharp_over
from bickern.parts.sheet.place import Placed
from bickern.parts.sheet.reckon import reckon_sheet
from bickern.parts.sheet.result import SheetResult
from bickern.parts.sheet.say import told
from bickern.parts.sheet.spec import Cone, Edge, EdgeKind, Lug, Pan, Pyramid, SheetHole, SheetSpec, Sized, Surface

Points = NDArray[np.float64]
MIDDLE = SheetRules(fold=FoldRule.MIDDLE)


def reckoned(surface: Surface, thick: float = 0.001, **more: object) -> SheetResult:
    read = reckon_sheet(SheetSpec("piece", thick, "S235JR", surface, **more), MIDDLE, 7850.0)  # type: ignore[arg-type]
    assert read.value is not None, read.findings
    return read.value


def figure(result: SheetResult, name: str) -> float:
    return next(f.value for f in result.figures if f.name == name)


def swing(cone: Cone) -> tuple[float, float, float]:
    """Radii [m] and angle [rad] of a cone's pattern: the apex is where the wall, drawn on, meets the axis."""
    wall = lambda z: cone.base / 2 + (cone.top - cone.base) / 2 * z / cone.height  # noqa: E731
    apex = optimize.brentq(wall, 0.0, 1e4, xtol=1e-14)
    large, _ = integrate.quad(lambda z: math.hypot(1.0, (cone.top - cone.base) / 2 / cone.height), 0.0, apex)
    small, _ = integrate.quad(lambda z: math.hypot(1.0, (cone.top - cone.base) / 2 / cone.height), cone.height, apex)
    girth, _ = integrate.quad(lambda _: cone.base / 2, 0.0, 2 * math.pi)
    return large, small, girth / large


def arc(radius: float, angle: float) -> Points:
    """Points of an arc that is struck evenly about the upright, from its left end to its right."""
    turn = np.linspace(-angle / 2, angle / 2, 4001)
    return np.stack([radius * np.sin(turn), radius * np.cos(turn)], axis=1)


@pytest.mark.parametrize(
    "cone", [Cone(0.3, 0.12, 0.2), Cone(0.3, 0.1, 0.08), Cone(0.3, 0.2, 0.02), Cone(0.4, 0.0, 0.1)]
)
@pytest.mark.parametrize("parts", [1, 2])
def test_chords_and_box_of_a_cone(cone: Cone, parts: int) -> None:
    large, small, angle = swing(cone)
    made = reckoned(cone, parts=parts)
    outer, inner = arc(large, angle / parts), arc(small, angle / parts)
    assert figure(made, "chord of the outer arc") == pytest.approx(np.linalg.norm(outer[-1] - outer[0]), rel=1e-9)
    if cone.top:
        assert figure(made, "chord of the inner arc") == pytest.approx(np.linalg.norm(inner[-1] - inner[0]), rel=1e-9)
    wide, high = np.ptp(np.vstack([outer, inner]), axis=0)
    found = figure(made, "laid evenly, wide"), figure(made, "laid evenly, high")
    assert found == pytest.approx((wide, high), rel=1e-6)


@pytest.mark.parametrize("parts", [1, 2, 3])
def test_rise_of_an_arc_that_is_struck_from_far_away(parts: int) -> None:
    cone = Cone(0.1, 0.099, 0.1)
    large, _, angle = swing(cone)
    made = reckoned(cone, parts=parts)
    outer = arc(large, angle / parts)
    rise = outer[:, 1].max() - outer[0, 1]
    assert figure(made, "rise of the outer arc over its chord") == pytest.approx(rise, rel=1e-8)


@pytest.mark.parametrize("angle", [30, 90, 120])
@pytest.mark.parametrize(("radius", "thick"), [(0.002, 0.001), (0.01, 0.002)])
def test_a_fold_by_its_middle_line(radius: float, thick: float, angle: float) -> None:
    a = math.radians(angle)
    along = lambda r: integrate.quad(lambda _: r, 0.0, a)[0]  # noqa: E731
    assert fold_length(radius, thick, a, FoldRule.MIDDLE) == pytest.approx(along(radius + thick / 2), rel=1e-12)
    assert line_length(radius, thick, a, 0.3) == pytest.approx(along(radius + 0.3 * thick), rel=1e-12)
    # the outside faces meet where a point runs on from one of them, and lies on the other too
    end = np.array([math.sin(a), 1 - math.cos(a)]) * (radius + thick)
    way = np.array([math.cos(a), math.sin(a)])
    back = end[1] / way[1]
    meet = end - back * way
    assert setback(radius, thick, a) == pytest.approx(meet[0], rel=1e-12)
    assert fold_deduction(radius, thick, a, FoldRule.MIDDLE) == pytest.approx(
        meet[0] + back - along(radius + thick / 2), rel=1e-9
    )


@pytest.mark.parametrize("angle", [90, 120, 170])
def test_a_fold_told_to_the_outermost_of_the_bend(angle: float) -> None:
    """Legs of 50 and 80 mm told so; the flat is the two straights and the middle line between."""
    radius, thick, a = 0.004, 0.002, math.radians(angle)
    outermost = (radius + thick) * np.max(
        np.sin(np.linspace(0.0, a, 100_001))
    )  # square to the other leg, from the start
    flat = (0.05 - outermost) + (0.08 - outermost) + (radius + thick / 2) * a
    assert 0.13 - over_deduction(radius, thick, a, FoldRule.MIDDLE) == pytest.approx(flat, rel=1e-9)


PAN = Pan(0.3, 0.2, 0.06, inside_radius=0.004)
THICK = 0.002
BEND = float(np.linalg.norm(np.diff(arc(0.005, math.pi / 2), axis=0), axis=1).sum())
"""Middle line [m] of a right-angled fold, as a row of chords."""
STRAIGHT = 0.06 - 0.004 - THICK
"""What is straight of a wall [m]: its outside height less the radius and the thickness."""


def pan(**more: object) -> SheetResult:
    return reckoned(PAN, THICK, sized=Sized.OUTSIDE, **more)


def test_walls_of_a_pan_as_they_lie_flat() -> None:
    made = pan()
    inner = 0.2 - 2 * (0.004 + THICK), 0.3 - 2 * (0.004 + THICK)
    wide, long = (size + 2 * (BEND + STRAIGHT) for size in inner)
    assert figure(made, "flat, left to right") == pytest.approx(wide, rel=1e-7)
    assert figure(made, "flat, front to back") == pytest.approx(long, rel=1e-7)
    assert figure(made, "wall on the flat, from the middle of the bend") == pytest.approx(STRAIGHT + BEND / 2, rel=1e-7)
    middles = sorted(
        line.line.start[1] for line in made.patterns[0].lines if abs(line.line.start[1] - line.line.end[1]) < 1e-9
    )
    low = 0.004 + THICK - BEND / 2
    assert middles == pytest.approx([low, 0.3 - low], abs=1e-9)


def spots(made: SheetResult) -> Points:
    return np.array(points(made.patterns[0].outline))


@pytest.mark.parametrize("wall", ["front", "back", "left", "right"])
def test_lugs_on_a_wall_of_a_pan_are_divided_along_it(wall: str) -> None:
    made = pan(lugs=(Lug(wall, 2, 0.02, length=0.03, first=0.3),))
    axis = 0 if wall in ("front", "back") else 1
    corners = spots(made)
    size, start, long = (0.2, 0.0, 0.2) if axis == 0 else (0.3, THICK, 0.3 - 2 * THICK)
    over = corners[:, 1 - axis]
    inner = 0.3 if axis == 0 else 0.2
    reach = BEND + STRAIGHT - 0.004 - THICK + 0.03
    ends = corners[np.isclose(over, inner + reach if wall in ("back", "right") else -reach, atol=1e-9)]
    assert size > long - 1e-12
    found = np.sort(ends[:, axis])
    middles = [start + (k + 0.3) / 2 * long for k in range(2)]
    expected = [m + side for m in middles for side in (-0.01, 0.01)]
    assert found == pytest.approx(expected, abs=1e-9)


def test_holes_in_the_back_of_a_pan() -> None:
    made = pan(holes=(SheetHole(0.006, 0.03, 4, first=0.3),))
    out = np.array([h.centre for h in made.patterns[0].holes])
    assert out[:, 0] == pytest.approx([(k + 0.3) / 4 * 0.2 for k in range(4)], abs=1e-12)
    # 30 mm up from the outside of the bottom: a fold and so much of the straight
    flat = 0.3 - 0.004 - THICK + BEND + (0.03 - 0.004 - THICK)
    assert out[:, 1] == pytest.approx([flat] * 4, abs=1e-9)


@pytest.mark.parametrize("kind", [EdgeKind.HEM, EdgeKind.DOUBLE_HEM])
def test_folds_of_a_hem_on_a_pan(kind: EdgeKind) -> None:
    made = pan(edges=(Edge("back", kind, 0.008),))
    top = 0.3 - 0.004 - THICK + BEND + STRAIGHT
    ups = sorted({round(n.line.start[1], 9) for n in made.patterns[0].lines if n.line.start[1] > top - 1e-6})
    folds = [top] if kind is EdgeKind.HEM else [top, top + 0.008]
    assert ups == pytest.approx(folds, abs=2e-9)
    assert spots(made)[:, 1].max() == pytest.approx(folds[-1] + 0.008, abs=1e-9)


def test_corner_tabs_of_a_pan_fold_in_the_middle_of_their_bend() -> None:
    """The tab lies against the inside face of the wall: its bend ends a thickness and a radius in from that."""
    tabbed = Pan(0.3, 0.2, 0.06, inside_radius=0.004, corner_tabs=0.02)
    made = reckoned(tabbed, THICK, sized=Sized.OUTSIDE)
    folds = [n.line for n in made.patterns[0].lines if n.kind == "bend" and n.says.startswith("fold the tab")]
    assert len(folds) == 4
    starts = 0.004 + THICK  # from the corner along the side wall, where the straight of its own side begins
    side = THICK + starts - BEND / 2
    low = sorted(abs(line.start[1]) for line in folds if line.start[1] < 0.15)
    assert low == pytest.approx([side, side], abs=1e-9)


def test_a_turn_is_told_within_one_round() -> None:
    for degrees in (-30.0, 45.0, 725.0):
        said = str(Placed(math.radians(degrees), 0.0, 0.0))
        assert f"{np.mod(degrees, 360.0):.1f} degrees" in said


@pytest.mark.parametrize(("radius", "thick"), [(0.004, THICK), (0.01, 0.004)])
def test_a_hole_is_told_to_stand_in_a_fold_where_the_straight_of_its_wall_begins(radius: float, thick: float) -> None:
    """The bend ends a radius and a thickness over the outside of the bottom, and there the hole's rim may stand."""
    size = 0.006
    bend = float(np.linalg.norm(np.diff(arc(radius + thick / 2, math.pi / 2), axis=0), axis=1).sum())
    folded = Pan(0.3, 0.2, 0.06, inside_radius=radius)
    for over, within in ((-1e-5, True), (1e-5, False)):
        hole = SheetHole(size, radius + thick + size / 2 + over, 2)
        spec = SheetSpec("pan", thick, "S235JR", folded, holes=(hole,), sized=Sized.OUTSIDE)
        read = reckon_sheet(spec, MIDDLE, 7850.0)
        assert read.value is not None
        assert ("hole-in-fold" in {f.name for f in read.findings}) is within
        (line,) = {
            n.line.start[1]
            for n in read.value.patterns[0].lines
            if n.kind == "bend" and n.line.start[1] == n.line.end[1] and n.line.start[1] > 0.15
        }
        low = min(h.centre[1] for h in read.value.patterns[0].holes) - size / 2
        assert (low - line < bend / 2) is within


@pytest.mark.parametrize("angle", [30, 90, 120, 150])
@pytest.mark.parametrize(("radius", "thick"), [(0.002, 0.001), (0.01, 0.004)])
def test_what_a_radius_leaves_over_of_a_fold_laid_out_sharp(angle: float, radius: float, thick: float) -> None:
    """The middle line is a row of chords; its two straights, drawn on, meet in the sharp fold."""
    a = math.radians(angle)
    bend = arc(radius + thick / 2, a)
    first, last = bend[1] - bend[0], bend[-1] - bend[-2]
    on, back = np.linalg.solve(np.stack([first, last], axis=1), bend[-1] - bend[0])
    sharp = np.linalg.norm(on * first) + np.linalg.norm(back * last)
    taken = np.linalg.norm(np.diff(bend, axis=0), axis=1).sum()
    assert sharp_over(radius, thick, a, FoldRule.MIDDLE) == pytest.approx(sharp - taken, rel=2e-3)


def test_what_a_pyramid_s_folds_leave_over_is_told_of_its_sharpest() -> None:
    """A square pyramid turns at an edge by the angle between the normals of two of its sides."""
    thick, base, top, height = 0.05, 4.0, 1.0, 3.0
    front = np.cross([1.0, 0.0, 0.0], [0.0, (base - top) / 2, height])
    side = np.cross([0.0, 1.0, 0.0], [(base - top) / 2, 0.0, height])
    turned = math.acos(abs(front @ side) / np.linalg.norm(front) / np.linalg.norm(side))
    a, middle = math.pi - turned, MIDDLE.smallest_radius * thick + thick / 2
    a = min(a, math.pi - a)
    sharp, _ = integrate.quad(lambda t: 2 * middle / math.cos(t) ** 2, 0.0, a / 2)
    taken, _ = integrate.quad(lambda _: middle, 0.0, a)
    spec = SheetSpec("piece", thick, "S235JR", Pyramid(4, base, top, height))
    (says,) = (f.says for f in reckon_sheet(spec, MIDDLE, 7850.0).findings if f.name == "folds-sharp")
    assert told(sharp - taken) in says, (says, sharp - taken)
