"""Against Shapely, the general library of plane geometry, 2.2: patterns as they are cut.

Kind: reference library. Laps, hems, lugs, rivets and holes are put on bare outlines here by clipping, growing and
turning over whole shapes; areas and places are then read off what comes of it. Reckoned another way.
"""

import math
from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
from shapely import LineString, Point, Polygon, box, unary_union
from shapely.affinity import rotate, scale, translate

from bickern.geometry.polygon import ArcSeg, Line, Loop, disc, from_points, rectangle, seg_end, seg_start, to_shapely
from bickern.parts.sheet.allowances import SheetRules
from bickern.parts.sheet.chain import as_lines, backward, shifted
from bickern.parts.sheet.cut import folds_of
from bickern.parts.sheet.lay import laid
from bickern.parts.sheet.net import net_of
from bickern.parts.sheet.notches import notched
from bickern.parts.sheet.place import two_at_once
from bickern.parts.sheet.reckon import reckon_sheet
from bickern.parts.sheet.result import Pattern, SheetResult
from bickern.parts.sheet.say import told_pair
from bickern.parts.sheet.spec import (
    Bowl,
    Cone,
    Cylinder,
    Edge,
    EdgeKind,
    FlatOutline,
    Lug,
    Pyramid,
    Seam,
    SeamKind,
    SheetHole,
    SheetSpec,
    Surface,
)

THICK = 0.001
FINE = 1e-9
CONE = Cone(0.3, 0.12, 0.2)
STEEP, LOW = Pyramid(4, 0.2, 0.1, 0.2), Pyramid(3, 0.3, 0.05, 0.125)


def reckoned(surface: Surface, **more: object) -> SheetResult:
    spec = SheetSpec("piece", THICK, "S235JR", surface, **more)  # type: ignore[arg-type]
    read = reckon_sheet(spec, SheetRules(), 7850.0)
    assert read.value is not None, read.findings
    return read.value


def shape(pattern: Pattern) -> Polygon:
    return to_shapely(pattern.outline, 5e-8)


def line_of(one: Line) -> LineString:
    return LineString([one.start, one.end])


def lines(pattern: Pattern, kind: str) -> list[LineString]:
    return [line_of(found.line) for found in pattern.lines if found.kind == kind]


def same(ours: Polygon, other: Polygon, within: float = 1e-7) -> None:
    assert ours.symmetric_difference(other).area < within


def strip(edge: LineString, width: float) -> Polygon:
    """A band outside an edge that is walked with the outside on its right."""
    return Polygon([*edge.coords, *reversed(edge.offset_curve(-width, join_style="mitre", mitre_limit=50).coords)])


def turned_over(what: Polygon, about: LineString) -> Polygon:
    """The mirror image in a line."""
    (x0, y0), (x1, y1) = about.coords[0], about.coords[-1]
    angle = math.degrees(math.atan2(y1 - y0, x1 - x0))
    level = rotate(what, -angle, origin=(x0, y0))
    return rotate(scale(level, 1.0, -1.0, origin=(x0, y0)), angle, origin=(x0, y0))


def arcs(result: SheetResult) -> tuple[ArcSeg, ArcSeg]:
    """The outer and the inner arc of a cone's pattern."""
    found = [seg for seg in result.net[0].outline.segs if isinstance(seg, ArcSeg)]
    outer, inner = sorted(found, key=lambda arc: -arc.radius)
    return outer, inner


def on_arc(arc: ArcSeg, share: float, radius: float) -> tuple[Point, float]:
    """The point at a share of the way round from the start, and its direction [deg]."""
    way = math.degrees(arc.start_angle + share * arc.sweep)
    return rotate(Point(arc.centre[0] + radius, arc.centre[1]), way, origin=arc.centre), way


def test_a_lap_on_a_cone_stays_within_its_round_rim() -> None:
    width = 0.02
    result = reckoned(CONE, seam=Seam(SeamKind.LAP, width))
    outer, _ = arcs(result)
    net, cut = shape(result.net[0]), shape(result.patterns[0])
    edge, under = lines(result.patterns[0], "lap")
    rim = Point(outer.centre).buffer(outer.radius, quad_segs=2500)
    same(cut.difference(net), strip(far(edge), width).intersection(rim).difference(net))
    assert under.distance(Point(seg_start(result.net[0].outline.segs[-1]))) == pytest.approx(width, rel=1e-9)
    segs = result.patterns[0].outline.segs
    assert max(math.dist(seg_end(a), seg_start(b)) for a, b in zip(segs, (*segs[1:], segs[0]), strict=True)) < FINE
    low, high = lines(result.patterns[0], "centre")[0].boundary.geoms
    assert low.distance(on_arc(outer, 0.5, outer.radius)[0]) < FINE
    assert high.distance(on_arc(outer, 0.5, arcs(result)[1].radius)[0]) < FINE


def far(edge: LineString) -> LineString:
    """An edge lengthened at its start: a strip beside it then runs out past the rim."""
    (x0, y0), (x1, y1) = edge.coords
    return LineString([(x0 - (x1 - x0) / 10, y0 - (y1 - y0) / 10), (x1, y1)])


@pytest.mark.parametrize("offset", [(0.0, 0.0), (0.04, 0.03), (-0.03, -0.05), (0.02, -0.06)])
@pytest.mark.parametrize("pyramid", [STEEP, LOW])
def test_a_lap_on_a_pyramid_lies_within_the_sides_at_the_seam(pyramid: Pyramid, offset: tuple[float, float]) -> None:
    """It goes on the first part, put to the seam, and is no longer than the last one, turned over about the seam."""
    width = 0.008
    result = reckoned(replace(pyramid, offset=offset), seam=Seam(SeamKind.LAP, width))
    net, cut = shape(result.net[0]), shape(result.patterns[0])
    edge, bends = lines(result.patterns[0], "lap")[0], lines(result.net[0], "bend")
    (x0, y0), (x1, y1) = edge.coords
    last = Polygon([*bends[-1].coords, (x0, y0), (x1, y1)]).convex_hull
    start = result.net[0].outline.segs[-1]
    (p1, q1), (p0, q0) = seg_start(start), seg_end(start)
    first = Polygon([*bends[0].coords, (p0, q0), (p1, q1)]).convex_hull
    turn = math.degrees(math.atan2(y1 - y0, x1 - x0) - math.atan2(q1 - q0, p1 - p0))
    beside = translate(rotate(first, turn, origin=(p0, q0)), x0 - p0, y0 - q0)
    expected = strip(edge, width).intersection(beside).intersection(turned_over(last, edge))
    same(cut.difference(net), expected, 1e-11)


def rims(result: SheetResult, sides: int) -> tuple[list[LineString], list[LineString]]:
    """Bottom and top of a pyramid's net, outside on the right; the seam is in the middle of a side."""
    segs = [line_of(seg) for seg in result.net[0].outline.segs if isinstance(seg, Line)]
    return segs[: sides + 1], segs[sides + 2 : 2 * sides + 3]


def test_a_hem_on_a_low_pyramid_reaches_to_the_folds_when_it_is_turned_in() -> None:
    width = 0.006
    result = reckoned(LOW, edges=(Edge("bottom", EdgeKind.HEM, width),))
    net, cut = shape(result.net[0]), shape(result.patterns[0])
    bottom, top = rims(result, 3)
    expected = []
    for low, high in zip(bottom, reversed(top), strict=True):
        panel = Polygon([*low.coords, *high.coords])
        expected.append(strip(low, width).intersection(turned_over(panel, low)))
    same(cut.difference(net), unary_union(expected), 1e-11)


def test_strips_in_a_hollow_corner_meet_halfway() -> None:
    """The top of a low pyramid's net: the strips of two sides lie in the corner between them, each on its own side."""
    width = 0.006
    whole = laid(LOW).value
    assert whole is not None
    net = net_of(whole)
    strips = notched(backward(net.top), width, folds_of(net, "top"))
    shapes = [to_shapely(Loop((*s.whole, *backward(s.side))), 1e-8).buffer(0) for s in strips]
    edge = LineString([seg_start(strips[0].side[0]), *(seg_end(s.side[-1]) for s in strips)])
    same(unary_union(shapes), strip(edge, width), 1e-11)
    assert sum(one.area for one in shapes) == pytest.approx(unary_union(shapes).area, rel=1e-9)


@pytest.mark.parametrize("on", ["bottom", "top"])
@pytest.mark.parametrize("kind", [EdgeKind.HEM, EdgeKind.DOUBLE_HEM])
def test_a_hem_round_a_cone_is_a_ring(on: str, kind: EdgeKind) -> None:
    width = 0.005
    result = reckoned(CONE, edges=(Edge(on, kind, width),))
    outer, inner = arcs(result)
    added = width * (2 if kind is EdgeKind.DOUBLE_HEM else 1)
    net, cut = shape(result.net[0]), shape(result.patterns[0])
    reach = (outer.radius, outer.radius + added) if on == "bottom" else (inner.radius - added, inner.radius)
    small, large = (Point(outer.centre).buffer(r, quad_segs=2500) for r in reach)
    fan = Polygon([outer.centre, *(on_arc(outer, k / 8, 2.0)[0].coords[0] for k in range(9))])
    same(cut.difference(net), large.difference(small).intersection(fan))
    assert cut.covers(net.buffer(-1e-8))
    if kind is EdgeKind.DOUBLE_HEM:
        folds = [line_of(n.line) for n in result.patterns[0].lines if n.kind == "bend"]
        first = [f for f in folds if f.distance(net) > 1e-4]
        assert first
        middle = sum(reach) / 2
        assert all(Point(f.coords[0]).distance(Point(outer.centre)) == pytest.approx(middle, rel=1e-9) for f in first)


@pytest.mark.parametrize("turn", [5, 20, 60, -35, -90])
def test_an_edge_of_straights_moved_outward_is_mitred(turn: float) -> None:
    a = math.radians(turn)
    line = LineString([(0.0, 0.0), (0.3, 0.0), (0.3 + 0.2 * math.cos(a), 0.2 * math.sin(a))])
    moved = shifted(as_lines(list(line.coords)), 0.02)
    other = line.offset_curve(-0.02, join_style="mitre", mitre_limit=50)
    assert np.array([seg_start(seg) for seg in moved]) == pytest.approx(np.array(other.coords[:-1]), abs=1e-12)
    assert seg_end(moved[-1]) == pytest.approx(other.coords[-1], abs=1e-12)


@pytest.mark.parametrize("on", ["bottom", "top"])
def test_lugs_on_a_cone(on: str) -> None:
    """Each is a straight strip square to the rim at its middle, as long as told from there."""
    width, long, number = 0.03, 0.025, 3
    result = reckoned(CONE, lugs=(Lug(on, number, width, length=long, first=0.3),))
    outer, inner = arcs(result)
    radius = outer.radius if on == "bottom" else inner.radius
    net = shape(result.net[0])
    expected = [net]
    for k in range(number):
        _, way = on_arc(outer, (k + 0.3) / number, radius)
        x0, x1 = (radius - 0.01, radius + long) if on == "bottom" else (radius - long, radius + 0.001)
        lug = rotate(box(x0, -width / 2, x1, width / 2), way, origin=(0.0, 0.0))
        expected.append(translate(lug, *outer.centre))
    ours, other = shape(result.patterns[0]), unary_union(expected)
    same(ours, other, 1e-7)
    middles = [line_of(n.line) for n in result.patterns[0].lines if n.kind == "centre" and n.says != "centre line"]
    assert len(middles) == number
    for k, line in enumerate(sorted(middles, key=lambda one: outer_share(outer, one))):
        assert line.length == pytest.approx(long, rel=1e-9)
        assert Point(line.coords[0]).distance(on_arc(outer, (k + 0.3) / number, radius)[0]) < FINE


def outer_share(arc: ArcSeg, line: LineString) -> float:
    x, y = line.coords[0]
    return (math.atan2(y - arc.centre[1], x - arc.centre[0]) - arc.start_angle) % (2 * math.pi)


@pytest.mark.parametrize("parts", [1, 2, 3])
def test_lugs_with_eyes_on_a_pipe(parts: int) -> None:
    """Straight rims: each lug is a rectangle outside them, crossed by lines to roll over, as wide as it is."""
    lug = Lug("bottom", 6, 0.02, eye=0.008)
    result = reckoned(Cylinder(0.2, 0.1), lugs=(lug,), parts=parts)
    around = LineString(Point(0.0, 0.0).buffer(0.0045, quad_segs=4000).exterior.coords).length
    added = sum(p.make * shape(p).area for p in result.patterns) - sum(p.make * shape(p).area for p in result.net)
    assert added == pytest.approx(6 * box(0, 0, 0.02, around).area, rel=1e-6)
    across = [one for one in lines(result.patterns[0], "roll") if one.distance(shape(result.net[0])) > 1e-4]
    assert across
    assert [one.length for one in across] == pytest.approx([0.02] * len(across), rel=1e-9)
    root = lines(result.patterns[0], "bend")
    assert [one.length for one in root] == pytest.approx([0.02] * (6 // parts), rel=1e-9)


@pytest.mark.parametrize("first", [0.5, 0.1])
@pytest.mark.parametrize("number", [1, 3, 4])
def test_lugs_and_holes_round_the_disc_of_a_bowl(number: int, first: float) -> None:
    bowl, width, long = Bowl(0.2, 0.05), 0.03, 0.02
    hole = SheetHole(0.006, 0.02, 4, first=0.25)
    result = reckoned(bowl, lugs=(Lug("rim", number, width, length=long, first=first),), holes=(hole,))
    # the area of the cap: bands of a ball of 125 mm have the height of the cap for their own
    radius = math.sqrt(2 * 0.125 * 0.05)
    plate = Point(0.0, 0.0).buffer(radius, quad_segs=2500)
    lug = box(0.0, -width / 2, radius + long, width / 2)
    lugs = [rotate(lug, 360 * (k + first) / number, origin=(0, 0)) for k in range(number)]
    same(shape(result.patterns[0]), unary_union([plate, *lugs]), 1e-7)
    ring = LineString(Point(0.0, 0.0).buffer(radius - 0.02, quad_segs=4000).exterior.coords)
    for k, found in enumerate(result.patterns[0].holes):
        spot = rotate(Point(radius - 0.02, 0.0), 360 * (k + 0.25) / 4, origin=(0, 0))
        assert Point(found.centre).distance(spot) < FINE
        assert Point(found.centre).distance(ring) < 1e-7
    assert len(result.patterns[0].holes) == 4


@pytest.mark.parametrize(("up", "first"), [(0.03, 0.3), (0.08, 0.3), (0.03, 1.3)])
def test_holes_round_a_cone_and_what_they_take_off_its_weight(up: float, first: float) -> None:
    result = reckoned(CONE, holes=(SheetHole(0.02, up, 5, first=first),))
    outer, _ = arcs(result)
    spots = [on_arc(outer, (k + 0.3) / 5, outer.radius - up)[0] for k in range(5)]  # a whole space on is the same five
    ours = np.array(sorted(h.centre for h in result.patterns[0].holes))
    assert ours == pytest.approx(np.array(sorted(s.coords[0] for s in spots)), abs=1e-12)
    left = shape(result.patterns[0]).difference(unary_union([s.buffer(0.01, quad_segs=2000) for s in spots]))
    assert result.mass == pytest.approx(left.area * THICK * 7850.0, rel=1e-6)


@pytest.mark.parametrize("surface", [CONE, Cylinder(0.2, 0.15), STEEP])
@pytest.mark.parametrize(("width", "rivet", "pitch"), [(0.024, 0.003, 0.03), (0.012, 0.004, 0.03), (0.02, 0.004, 0.0)])
def test_rivets_along_a_lap(surface: Surface, width: float, rivet: float, pitch: float) -> None:
    """On the middle of the lap, evenly, no space over the pitch, as few as may be; at both ends a margin is left.

    The margin is half the lap or two rivets, from the cut ends of the lap's middle line.
    """
    result = reckoned(surface, seam=Seam(SeamKind.RIVETED, width, rivet, pitch))
    cut, edge = result.patterns[0], lines(result.patterns[0], "lap")[0]
    middle, under = lines(cut, "rivet")
    assert middle.distance(edge) == pytest.approx(width / 2, rel=1e-9)
    over = [Point(h.centre) for h in cut.holes if h.says == "rivet"]
    fellows = [Point(h.centre) for h in cut.holes if h.says != "rivet"]
    assert len(over) == len(fellows)
    spots = [middle.project(p) for p in over]
    assert max(middle.distance(p) for p in over) < FINE
    (start,) = [line_of(s) for s in result.net[0].outline.segs[-1:] if isinstance(s, Line)]
    assert start.distance(under) == pytest.approx(width / 2, rel=1e-9)
    assert [start.distance(p) for p in fellows] == pytest.approx([width / 2] * len(over), rel=1e-9)
    assert [under.length - under.project(p) for p in fellows] == pytest.approx(spots, abs=1e-12)
    lap = shape(cut).difference(shape(result.net[0])).buffer(-1e-10)
    outer_edge = translate(middle, *(middle.centroid.x - edge.centroid.x, middle.centroid.y - edge.centroid.y))
    on = [outer_edge.project(Point(c)) for c in lap.exterior.coords if outer_edge.distance(Point(c)) < 1e-7]
    low, high = (min(on), max(on)) if not isinstance(surface, Cone) else (0.0, middle.length)
    margin = max(width / 2, 2 * rivet)
    assert spots[0] == pytest.approx(low + margin, abs=1e-8)
    assert spots[-1] == pytest.approx(high - margin, abs=1e-8)
    room, spaces = spots[-1] - spots[0], len(spots) - 1
    assert [b - a for a, b in pairwise(spots)] == pytest.approx([room / spaces] * spaces, rel=1e-9)
    least = next(n for n in range(1, 99) if not pitch or room / n <= pitch + 1e-9)
    assert spaces == least


def test_a_seam_with_room_for_one_rivet_has_it_in_the_middle() -> None:
    result = reckoned(Cylinder(0.2, 0.015), seam=Seam(SeamKind.RIVETED, 0.02, 0.004, 0.03))
    middle = lines(result.patterns[0], "rivet")[0]
    (one,) = [h for h in result.patterns[0].holes if h.says == "rivet"]
    assert Point(one.centre).distance(middle.interpolate(0.5, normalized=True)) < FINE


def test_a_cut_out_off_its_outline_is_told_by_its_middle() -> None:
    outer, hole = rectangle(0.2, 0.1), from_points([(0.19, 0.03), (0.23, 0.03), (0.23, 0.05), (0.19, 0.05)])
    read = reckon_sheet(SheetSpec("plate", THICK, "S235JR", FlatOutline(outer, (hole,))), SheetRules(), 7850.0)
    middle = to_shapely(hole).centroid
    assert any(told_pair(middle.x, middle.y) in f.says for f in read.findings)


def test_a_plate_with_cut_outs_weighs_what_is_left() -> None:
    outer, round_hole = rectangle(0.2, 0.1), disc(0.02, (0.05, 0.05))
    result = reckoned(FlatOutline(outer, (round_hole, rectangle(0.03, 0.02, (0.1, 0.04)))))
    left = box(0, 0, 0.2, 0.1).difference(Point(0.05, 0.05).buffer(0.02, quad_segs=2000)).area - 0.0006
    assert result.mass == pytest.approx(left * THICK * 7850.0, rel=1e-6)
    assert isinstance(result.patterns[0].outline, Loop)


@pytest.mark.parametrize("gap", [0.0, 0.002])
def test_two_plates_from_one_sheet_lie_on_it_and_clear_each_other(gap: float) -> None:
    """Two wedges, each over half as long and as wide as the sheet: the places told are tried with the shapes."""
    wedge, wide, high = from_points([(0.0, 0.0), (0.3, 0.0), (0.3, 0.06), (0.0, 0.16)]), 0.31, 0.24
    pair = two_at_once(wedge, wedge, wide, high, gap)
    assert pair is not None
    put = []
    for placed in (pair.first, pair.second):
        turned = rotate(to_shapely(wedge), placed.turn, origin=(0, 0), use_radians=True)
        put.append(translate(turned, placed.x - turned.bounds[0], placed.y - turned.bounds[1]))
    first, second = put
    assert box(0, 0, wide, high).buffer(1e-6).contains(unary_union(put))
    assert first.intersection(second).area < 2e-9
    assert first.distance(second) >= gap - 1e-4
