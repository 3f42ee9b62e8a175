"""Hems, wires, lugs and holes where a sheet is folded, and what a smith would trip over there.

Laws are held against shapely, an outside library: a strip turned in must lie on its own side of the fold. Figures are
worked by hand from the sizes (exact mathematics).
"""

from dataclasses import replace
from itertools import combinations
from math import pi, radians, tan

import pytest
from shapely import affinity
from shapely.geometry import LineString, MultiPoint, Polygon
from shapely.ops import polygonize, unary_union

from bickern.geometry.polygon import Line, Loop, area, bounds, points, seg_end, seg_start
from bickern.measure.units.words import INCH
from bickern.parts.sheet.allowances import SheetRules
from bickern.parts.sheet.cut import folds_of
from bickern.parts.sheet.lay import laid
from bickern.parts.sheet.net import net_of
from bickern.parts.sheet.notches import notched
from bickern.parts.sheet.reckon import pattern_area, reckon_sheet
from bickern.parts.sheet.result import SheetResult
from bickern.parts.sheet.rims import allowance
from bickern.parts.sheet.spec import (
    Bowl,
    Cone,
    Cylinder,
    Edge,
    EdgeKind,
    Lug,
    Pan,
    Pyramid,
    Rim,
    RimShape,
    Seam,
    SeamKind,
    SheetHole,
    SheetSpec,
    Sized,
    Surface,
    Transition,
)

RULES = SheetRules()
GA18 = 0.0478 * INCH
HEX = Pyramid(6, 0.2, 0.04, 0.08)
SQUARE_ROUND = Transition(Rim(RimShape.RECTANGLE, 0.2, 0.15), Rim(RimShape.CIRCLE, 0.1, 0.1, centre=(0.02, 0.0, 0.07)))
FOLDED: list[Surface] = [
    HEX,
    Pyramid(3, 0.1, 0.0, 0.03),
    Pyramid(4, 0.5, 0.1, 0.1, 0.3, 0.05),
    Pyramid(8, 0.2, 0.1, 0.3),
    Pyramid(4, 0.2, 0.1, 0.2, offset=(0.04, 0.0)),
    SQUARE_ROUND,
    Transition(
        Rim(RimShape.RECTANGLE, 0.2, 0.15), Rim(RimShape.RECTANGLE, 0.1, 0.1, centre=(0.0, 0.01, 0.1), tilt=0.2)
    ),
]


def read(surface: Surface, **more: object) -> tuple[SheetResult | None, set[str]]:
    spec = replace(SheetSpec("piece", GA18, "S235JR", surface), **more)  # type: ignore[arg-type]
    found = reckon_sheet(spec, RULES, 7850.0)
    return found.value, {f.name for f in found.findings}


def made(surface: Surface, **more: object) -> SheetResult:
    result, names = read(surface, **more)
    assert result is not None, names
    return result


def figure(result: SheetResult, name: str) -> float:
    return next(f.value for f in result.figures if f.name == name)


# ---- hems and wires round corners


def faces(surface: Surface) -> list[Polygon]:
    """The flat faces of a net, cut apart along its folds."""
    net = net_of(laid(surface).value)  # type: ignore[arg-type]
    outline = LineString([*(pts := points(net.outline, 1e-6)), pts[0]])
    folds = [
        affinity.scale(LineString([n.line.start, n.line.end]), 1.001, 1.001) for n in net.lines if n.kind == "bend"
    ]
    return [face for face in polygonize(unary_union([outline, *folds])) if face.area > 1e-9]


def turned_in(side: Line, strip: Polygon) -> Polygon:
    """A strip folded flat onto the sheet: its picture in the side that it stands on."""
    (x0, y0), (x1, y1) = side.start, side.end
    long = ((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5
    c, s = (x1 - x0) / long, (y1 - y0) / long
    a, b = c * c - s * s, 2 * c * s
    return affinity.affine_transform(strip, [a, b, b, -a, x0 - a * x0 - b * y0, y0 - b * x0 + a * y0])


# a point has no top, and the round top of a square to round is stretched or packed, as any round hem is
HEMMED = [(s, "bottom") for s in FOLDED] + [(s, "top") for i, s in enumerate(FOLDED) if i not in (1, 5)]


@pytest.mark.parametrize(("surface", "on"), HEMMED, ids=range(len(HEMMED)))
def test_a_hem_turned_in_stays_on_its_own_face(surface: Surface, on: str) -> None:
    net = net_of(laid(surface).value)  # type: ignore[arg-type]
    chain = net.bottom if on == "bottom" else tuple(Line(seg_end(s), seg_start(s)) for s in reversed(net.top))
    strips = notched(chain, 0.004, folds_of(net, on))
    assert len(strips) > 2
    flat = [
        Polygon([p for s in (*strip.whole, *strip.side[:1]) for p in (seg_start(s), seg_end(s))]) for strip in strips
    ]
    flat = [MultiPoint(list(p.exterior.coords)).convex_hull for p in flat]
    for strip, shape in zip(strips, flat, strict=True):
        inside = turned_in(Line(seg_start(strip.side[0]), seg_end(strip.side[-1])), shape)
        held = max(inside.intersection(face).area for face in faces(surface))
        assert held == pytest.approx(inside.area, abs=2e-9), strip.side
    assert all(a.intersection(b).area < 1e-12 for a, b in combinations(flat, 2))


def test_a_hexagon_s_hem_by_hand() -> None:
    """Six sides of the base, hem w: six trapezoids cut back at 45 degrees, square where they meet the seam."""
    side, w = 0.2 * tan(pi / 6), 0.006
    plain, hemmed = made(HEX), made(HEX, edges=(Edge("bottom", EdgeKind.HEM, w),))
    added = area(hemmed.patterns[0].outline) - area(plain.patterns[0].outline)
    # the seam runs up the middle of a side: six corners, so twelve ends cut back
    assert added == pytest.approx(6 * side * w - 12 * w * w / 2, rel=1e-9)


@pytest.mark.parametrize("height", [0.02, 0.125])
@pytest.mark.parametrize("kind", [EdgeKind.HEM, EdgeKind.DOUBLE_HEM])
def test_strips_that_meet_in_a_hollow_corner_leave_a_clean_outline(height: float, kind: EdgeKind) -> None:
    """Round the top of a low pyramid the hems meet along the line halfway: it is marked to cut in on, once a corner."""
    low, hem = Pyramid(3, 0.3, 0.05, height), (Edge("top", kind, 0.006),)
    (plain,), (pattern,) = made(low).patterns, made(low, edges=hem).patterns
    corners = points(pattern.outline)
    flat, bare = Polygon(corners), Polygon(points(plain.outline))
    assert flat.is_valid
    assert flat.exterior.is_simple
    assert len(set(corners)) == len(corners)
    cuts = [LineString([n.line.start, n.line.end]) for n in pattern.lines if n.says == "cut in to the corner"]
    assert len(cuts) == 3
    out = 0.006 * (2 if kind is EdgeKind.DOUBLE_HEM else 1)
    for cut in cuts:
        outer, corner = (cut.interpolate(share, normalized=True) for share in (0, 1))
        assert flat.exterior.distance(outer) < 1e-9
        assert bare.exterior.distance(corner) < 1e-9
        assert bare.exterior.distance(outer) == pytest.approx(out, rel=1e-9)  # as far out of both of its sides
        assert flat.contains(cut.interpolate(0.5, normalized=True))


def test_a_hem_wider_than_a_side_allows_is_a_finding() -> None:
    side = 0.04 * tan(pi / 6)
    assert "hem-too-wide" in read(HEX, edges=(Edge("top", EdgeKind.HEM, side),))[1]
    assert "hem-too-wide" not in read(HEX, edges=(Edge("top", EdgeKind.HEM, side / 4),))[1]


# ---- lugs


def test_lugs_on_a_pan_s_walls() -> None:
    """Two flat lugs of 20 x 15 mm on the back: area of both more, and as much higher; nothing else moves."""
    pan = Pan(0.2, 0.3, 0.05, inside_radius=0.002)
    bare, lugged = (
        made(pan, sized=Sized.OUTSIDE),
        made(pan, lugs=(Lug("back", 2, 0.02, length=0.015),), sized=Sized.OUTSIDE),
    )
    assert lugged.area - bare.area == pytest.approx(2 * 0.02 * 0.015, rel=1e-9)
    (_, y0), (_, y1) = bounds(lugged.patterns[0].outline)
    (_, b0), (_, b1) = bounds(bare.patterns[0].outline)
    assert (y0, y1 - 0.015) == pytest.approx((b0, b1))
    lines = [n.line for n in lugged.patterns[0].lines if n.kind == "centre"]
    assert sorted(n.start[0] for n in lines) == pytest.approx([0.3 / 4, 0.3 * 3 / 4])


def test_lugs_on_all_walls_and_from_the_left_as_holes_are() -> None:
    pan = Pan(0.2, 0.3, 0.05, inside_radius=0.002)
    lugs, holes = (Lug("walls", 2, 0.02, 0.006, first=0.25),), (SheetHole(0.006, 0.03, 2, first=0.25),)
    result = made(pan, lugs=lugs, holes=holes)
    roots = [n.line for n in result.patterns[0].lines if n.says == "roll the eye from here"]
    assert len(roots) == 8
    back = sorted((n.start[0] + n.end[0]) / 2 for n in roots if n.start[1] == n.end[1] and n.start[1] > 0.2)
    # on the back wall every lug stands straight over a hole, since both are divided from the left
    assert back == pytest.approx(sorted(h.centre[0] for h in result.patterns[0].holes))


@pytest.mark.parametrize(
    ("name", "lugs", "edges"),
    [
        ("lug-too-wide", (Lug("back", 1, 0.4, length=0.01),), ()),
        ("lug-too-wide", (Lug("back", 2, 0.02, length=0.01, first=0.0),), ()),
        ("lugs-overlap", (Lug("back", 20, 0.02, length=0.01),), ()),
        ("lug-on-hem", (Lug("back", 2, 0.02, length=0.01),), (Edge("walls", EdgeKind.HEM, 0.006),)),
        ("lug-on-hem", (Lug("walls", 2, 0.02, length=0.01),), (Edge("left", EdgeKind.HEM, 0.006),)),
    ],
)
def test_lugs_that_a_pan_cannot_have(name: str, lugs: tuple[Lug, ...], edges: tuple[Edge, ...]) -> None:
    result, names = read(Pan(0.2, 0.3, 0.05, inside_radius=0.002), lugs=lugs, edges=edges)
    assert result is None
    assert name in names


def test_lugs_round_a_bowl_start_anywhere() -> None:
    """A disc has no seam: two lugs a quarter turn on weigh the same and cut the same blank."""
    areas = [made(Bowl(0.1, 0.03), lugs=(Lug("rim", 2, 0.02, length=0.02, first=f),)).area for f in (0.0, 0.25, 0.5)]
    assert areas == pytest.approx([areas[0]] * 3, rel=1e-9)


@pytest.mark.parametrize(
    ("name", "more"),
    [
        ("lug-too-wide", {"lugs": (Lug("rim", 2, 0.09, length=0.02),)}),
        ("lugs-overlap", {"lugs": (Lug("rim", 8, 0.05, length=0.02),)}),
        ("hole-off-pattern", {"holes": (SheetHole(0.005, 0.08, 3),)}),
    ],
)
def test_a_bowl_that_cannot_be(name: str, more: dict[str, object]) -> None:
    result, names = read(Bowl(0.1, 0.03), **more)
    assert result is None
    assert name in names


def test_a_lug_over_a_corner_is_told() -> None:
    """Two lugs round six sides: a quarter of the way round from the middle of a side lies a corner."""
    assert "lug-on-corner" in read(HEX, lugs=(Lug("bottom", 2, 0.02, length=0.02),))[1]
    # a sixth on, it stands in the middle of the next side
    assert "lug-on-corner" not in read(HEX, lugs=(Lug("bottom", 1, 0.02, length=0.02, first=1 / 6),))[1]


# ---- holes


def test_a_hole_in_a_fold_is_told() -> None:
    pan = Pan(0.2, 0.3, 0.05, inside_radius=0.002)
    assert "hole-in-fold" in read(pan, holes=(SheetHole(0.005, 0.003, 2),))[1]
    assert "hole-in-fold" not in read(pan, holes=(SheetHole(0.005, 0.02, 2),))[1]


def test_holes_of_a_pattern_over_itself_are_not_spoken_of() -> None:
    cone, seam = Cone(15 * INCH, 3 * INCH, 2 * INCH), Seam(SeamKind.RIVETED, 2 * INCH, INCH / 8, INCH)
    names = read(cone, seam=seam)[1]
    assert "pattern-overlaps-itself" in names
    assert not {n for n in names if n.startswith("hole")}


# ---- words and figures


def test_folds_of_a_transition_are_told_too() -> None:
    assert "folds-sharp" in read(SQUARE_ROUND)[1]
    round_to_round = Transition(Rim(RimShape.CIRCLE, 0.1, 0.1), Rim(RimShape.CIRCLE, 0.1, 0.1, centre=(0.04, 0.0, 0.1)))
    assert "folds-sharp" not in read(round_to_round)[1]


def test_each_corner_of_a_square_to_round_is_one_fan() -> None:
    """Words once for each corner; of nearly upright walls the fan's bends come to a quarter round."""
    lines = made(SQUARE_ROUND).patterns[0].lines
    told = [n.says for n in lines if n.kind == "bend" and n.says]
    assert len(told) == 4
    assert all(says.startswith("bend over these") for says in told)
    upright = Transition(Rim(RimShape.RECTANGLE, 0.1, 0.1), Rim(RimShape.CIRCLE, 0.1, 0.1, centre=(0.0, 0.0, 5.0)))
    told = [n.says for n in made(upright).patterns[0].lines if n.kind == "bend" and n.says]
    turned = [float(says.split(", ")[1].split()[0]) for says in told]
    # nearly upright walls, 90 degrees at each corner (the lines nearest the seam's flat may be left out)
    assert turned == pytest.approx([90.0] * 4, abs=1.0)


def test_girths_of_a_transition_s_openings() -> None:
    """A square of 0.2 by 0.15 has 0.7 round it; a circle of 0.1 pi tenths, its straights no more than a hair less."""
    result = made(SQUARE_ROUND, parts=2)
    assert figure(result, "bottom edge, length") == pytest.approx(0.7, rel=1e-9)
    assert 0.998 * pi * 0.1 < figure(result, "top edge, length") < pi * 0.1
    leaning = made(Cone(0.2, 0.1, 0.2, offset=(0.05, 0.0)), parts=2)
    assert figure(leaning, "bottom edge, length") == pytest.approx(pi * 0.2, rel=1e-3)


def test_a_mitred_pipe_holds_up_to_its_short_side() -> None:
    cut, across, high = radians(30), 0.1, 0.08
    pipe = made(Cylinder(across, high, cut), sized=Sized.INSIDE)
    short = high - (across + GA18) / 2 * tan(cut)  # height is told in the middle of the sheet
    assert figure(pipe, "holds, level full") == pytest.approx(pi / 4 * across**2 * short, rel=1e-9)
    # what the long side has over the middle, the short side has under it
    assert pattern_area(pipe.patterns[0]) == pytest.approx(pi * (across + GA18) * high, rel=1e-4)


def _wired(surface: Surface, on: str, rules: SheetRules) -> SheetResult:
    edges = (Edge(on, EdgeKind.WIRED, INCH / 4),)
    made = reckon_sheet(SheetSpec("s", INCH / 16, "S235JR", surface, edges=edges), rules, 7850.0).value
    assert made is not None
    return made


@pytest.mark.parametrize(
    ("surface", "on"),
    [
        (Cylinder(6 * INCH, 8 * INCH), "top"),
        (Bowl(10 * INCH, 2 * INCH), "rim"),
        (Pan(9 * INCH, 6 * INCH, 2 * INCH), "walls"),
    ],
)
def test_a_wired_edge_takes_the_sheet_into_account_where_its_rule_does(surface: Surface, on: str):
    """By hand: 1/4 wire on 1/16 sheet takes 5/8 by wires alone, 2 x 1/4 + 4 x 1/16 = 3/4 with the sheet."""
    for rules, added in ((RULES, 5 / 8), (replace(RULES, wire=2.0, wire_sheets=4.0), 3 / 4)):
        found = [f.value / INCH for f in _wired(surface, on, rules).figures if "wired" in f.name]
        assert found == [pytest.approx(added)]
    usual, more = (_wired(surface, on, r).patterns[0] for r in (RULES, replace(RULES, wire=2.0, wire_sheets=4.0)))
    grown = [b - a for a, b in zip(_span(usual.outline), _span(more.outline), strict=True)]
    assert max(grown) / INCH in (pytest.approx(1 / 8), pytest.approx(1 / 4))  # on one side, or on both


def _span(outline: Loop) -> tuple[float, float]:
    (x0, y0), (x1, y1) = bounds(outline)
    return x1 - x0, y1 - y0


def test_a_rule_with_the_sheet_in_it_is_never_reckoned_without():
    with pytest.raises(ValueError, match="thickness"):
        allowance(Edge("top", EdgeKind.WIRED, INCH / 4), replace(RULES, wire_sheets=4.0))
