"""Against Shapely, the general library of plane geometry, 2.2: bars.

Kind: reference library. The bar is drawn here as a chain of short chords and given its thickness by growing it on both
sides; sizes, balance, areas and lengths are then read off that outline. Reckoned another way.
"""

import math
from dataclasses import replace

import numpy as np
import pytest
from numpy.typing import NDArray
from shapely import LineString, Point, Polygon, box, unary_union
from shapely.affinity import scale, translate

from bickern.iron.section import Section
from bickern.measure.units.words import INCH, Shape
from bickern.parts.bar.allowances import BarRules, without_fire
from bickern.parts.bar.reckon import reckon_bar
from bickern.parts.bar.result import BarResult
from bickern.parts.bar.tracks import (
    BarSpec,
    BendLeg,
    Blank,
    Branch,
    Corner,
    EndOutline,
    EndShape,
    EyeLeg,
    Face,
    HoopLeg,
    Metal,
    PathLeg,
    ScrollLeg,
    SectionGoal,
    StraightLeg,
)

RULES = without_fire(BarRules())
SQUARE = Section(Shape.SQUARE, 0.012, 0.012)
RIGHT = math.pi
Points = NDArray[np.float64]


def reckoned(spec: BarSpec) -> BarResult:
    read = reckon_bar(spec, RULES, 7850.0)
    assert read.value is not None, read.findings
    return read.value


def bent(*path: PathLeg, stock: Section = SQUARE) -> BarResult:
    return reckoned(BarSpec("bent", stock, "S235JR", (Metal(Blank.REST),), path))


def made(*metal: Metal, stock: Section = SQUARE, **more: object) -> BarResult:
    return reckoned(replace(BarSpec("made", stock, "S235JR", metal), **more))  # type: ignore[arg-type]


def straight(length: float) -> Points:
    return np.array([[0.0, 0.0], [length, 0.0]])


def arc(radius: float, angle: float, n: int = 1500) -> Points:
    """From the origin along x; to the left, or for an angle below nothing to the right."""
    turn = np.linspace(0.0, angle, n)
    return np.stack([radius * np.sin(np.abs(turn)), np.sign(angle) * radius * (1 - np.cos(turn))], axis=1)


def spiral(first: float, last: float, angle: float, n: int = 6000) -> Points:
    """To the left, from one radius to the other, set up with its first chord's own tangent along x."""
    turn = np.linspace(0.0, angle, n)
    at = (first + (last - first) * turn / angle) * np.exp(1j * turn)
    tangent = (last - first) / angle + 1j * first
    at = (at - at[0]) * abs(tangent) / tangent
    return np.stack([at.real, at.imag], axis=1)


def joined(*pieces: Points, turns: tuple[float, ...] = ()) -> LineString:
    """Pieces end to end, each going on as the one before ended, or turned sharp by so much."""
    line, heading = np.zeros((1, 2)), 0.0
    for i, piece in enumerate(pieces):
        heading += turns[i] if turns else 0.0
        c, s = math.cos(heading), math.sin(heading)
        placed = piece @ np.array([[c, s], [-s, c]]) + line[-1]
        line = np.vstack([line, placed[1:]])
        if len(piece) > 2:  # it ends as a fine curve does, half a chord on from its last chord
            a, b, d = piece[-3:]
            last = math.atan2(*(d - b)[::-1])
            heading += last + (last - math.atan2(*(b - a)[::-1])) / 2
    return LineString(line)


def grown(line: LineString, thick: float) -> Polygon:
    return line.buffer(thick / 2, cap_style="flat", join_style="mitre", mitre_limit=10)


def sides(shape: Polygon) -> tuple[float, float]:
    x0, y0, x1, y1 = shape.bounds
    return x1 - x0, y1 - y0


def same_sizes(result: BarResult, shape: Polygon, within: float = 3e-7) -> None:
    sizes = result.sizes
    assert (sizes.reach, sizes.across) == pytest.approx(sides(shape), abs=within)


@pytest.mark.parametrize("angle", [20, 37, 74, 90, 101, 135, 163, 180, 227])
def test_sizes_and_balance_of_two_bends(angle: float) -> None:
    a = math.radians(angle)
    back = BendLeg(math.radians(55), 0.02, turn=RIGHT)
    result = bent(StraightLeg(0.3), BendLeg(a, 0.03), StraightLeg(0.12), back, StraightLeg(0.1))
    line = joined(straight(0.3), arc(0.036, a), straight(0.12), arc(0.026, -math.radians(55)), straight(0.1))
    # the crest of a bend is read off a parabola through three places, good to 1e-5 of its outer radius
    same_sizes(result, grown(line, 0.012), 4.2e-7)
    assert result.sizes.rise == pytest.approx(0.012, rel=1e-9)
    assert result.length == pytest.approx(line.length, rel=1e-6)
    centre = line.centroid
    assert result.centre_of_mass == pytest.approx((centre.x, centre.y, 0.0), abs=2e-7)
    ends = line.boundary.geoms
    assert result.sizes.end_to_end == pytest.approx(ends[0].distance(ends[1]), abs=1e-6)


@pytest.mark.parametrize("early", [0.5, 2, 4, 5.5, 8])
def test_a_bend_that_begins_just_short_of_its_crest(early: float) -> None:
    """The line climbs, and turns over by its crest a few degrees on from where a wide bend begins."""
    e, off = math.radians(early), math.radians(90)
    ring = BendLeg(1.1, 0.494, turn=RIGHT)
    result = bent(StraightLeg(0.2), BendLeg(off, 0.03), StraightLeg(0.3), BendLeg(off - e, 0.03, turn=RIGHT), ring)
    line = joined(straight(0.2), arc(0.036, off), straight(0.3), arc(0.036, e - off), arc(0.5, -1.1))
    found = sorted((result.sizes.reach, result.sizes.across))
    assert found == pytest.approx(sorted(sides(grown(line, 0.012))), abs=5e-6)


@pytest.mark.parametrize(("turn", "word"), [(0, "left"), (90, "up"), (180, "right"), (270, "down")])
def test_the_word_for_the_way_of_a_bend_is_the_way_it_goes(turn: float, word: str) -> None:
    result = bent(StraightLeg(0.1), BendLeg(1.0, 0.02, turn=math.radians(turn)), StraightLeg(0.1))
    _, left, up = result.centre_of_mass
    off = {"left": left, "right": -left, "up": up, "down": -up}
    assert max(off, key=off.__getitem__) == word
    assert off[word] > 0.01
    assert result.bends[0].says.split()[-1] == word  # and of square bar no word on a hard or easy way


def test_a_way_between_is_told_by_its_angle_round() -> None:
    result = bent(StraightLeg(0.1), BendLeg(1.0, 0.02, turn=math.radians(-30)), StraightLeg(0.1))
    _, left, up = result.centre_of_mass
    round_from_left = np.degrees(np.arctan2(up, left)) % 360
    assert f"{round_from_left:.0f} degrees round" in result.bends[0].says


@pytest.mark.parametrize(("wide", "thick"), [(0.04, 0.008), (0.008, 0.04)])
def test_a_flat_bent_either_way(wide: float, thick: float) -> None:
    stock = Section(Shape.FLAT, wide, thick)
    result = bent(StraightLeg(0.3), BendLeg(1.2, 0.08), StraightLeg(0.1), stock=stock)
    same_sizes(result, grown(joined(straight(0.3), arc(0.08 + wide / 2, 1.2), straight(0.1)), wide), 2e-6)
    assert result.sizes.rise == pytest.approx(thick, rel=1e-9)


@pytest.mark.parametrize("angle", [60, 90, 110])
@pytest.mark.parametrize("inside", [0.0, 0.01])
def test_a_corner_forged_up_square_is_a_mitre_full_of_metal(angle: float, inside: float) -> None:
    a, t = math.radians(angle), SQUARE.thick
    corner = BendLeg(a, inside, corner=Corner.SQUARE)
    result = bent(StraightLeg(0.3), corner, StraightLeg(0.15))
    on_face = LineString([(0.0, 0.0), (1.0, 0.0), (1.0 + math.cos(a), math.sin(a))])  # inside faces, 1 m to the corner
    inner = on_face.offset_curve(inside, join_style="mitre", mitre_limit=20)
    rounded = inner.offset_curve(-inside, quad_segs=2000) if inside else on_face
    outer = on_face.offset_curve(-t, join_style="mitre", mitre_limit=20)
    metal = Polygon([*rounded.coords, *reversed(outer.coords)])
    fillet = inside * math.tan(a / 2)
    # of that metal the two inside faces, from their ends to where the fillet begins, are the straights
    assert result.length == pytest.approx(0.45 + metal.area / t - 2 * (1.0 - fillet), abs=2e-7)
    tail = (Point(outer.coords[1]).distance(Point(on_face.coords[1])) / 2 * math.sin(a / 2)) + fillet
    line = joined(straight(0.3 + tail), straight(0.15 + tail), turns=(0.0, a))
    same_sizes(result, grown(line, t), 1e-9)


@pytest.mark.parametrize(("told", "line"), [("inside", 0.0), ("centre", 0.5), ("outside", 1.0)])
def test_sides_told_to_their_corners(told: str, line: float) -> None:
    """The told corners are rounded by going in by the radius and out again; the middle line of that is the bar."""
    t, inside = SQUARE.thick, 0.025
    turns = (0.0, math.radians(90), math.radians(60))
    result = bent(
        StraightLeg(0.2, to_corners=told), BendLeg(turns[1], inside), StraightLeg(0.16, to_corners=told),
        BendLeg(turns[2], inside), StraightLeg(0.18, to_corners=told),
    )  # fmt: skip
    corners = joined(straight(0.2), straight(0.16), straight(0.18), turns=turns)
    radius = inside + line * t
    centres = corners.offset_curve(radius, join_style="mitre", mitre_limit=20)
    middle = centres.offset_curve(-(inside + t / 2), join_style="round", quad_segs=1000)
    assert result.length == pytest.approx(middle.length, abs=1e-7)


@pytest.mark.parametrize("first", [True, False])
@pytest.mark.parametrize("centred", [True, False])
def test_an_eye(first: bool, centred: bool) -> None:
    t, inside, long = SQUARE.thick, 0.03, 0.2
    eye = EyeLeg(inside, centred=centred)
    legs: list[PathLeg] = [eye, StraightLeg(long)] if first else [StraightLeg(long), eye]
    result = bent(*legs)
    mean = (inside + t) / 2
    centre = Point(long + mean, 0.0) if centred else Point(long, mean)
    hole, rim = centre.buffer(inside / 2, quad_segs=800), centre.buffer(inside / 2 + t, quad_segs=800)
    shape = unary_union([box(0.0, -t / 2, long, t / 2), rim.difference(hole)])
    same_sizes(result, shape, 1e-6)
    ring = LineString(centre.buffer(mean, quad_segs=800).exterior.coords)
    assert result.length == pytest.approx(long + ring.length, rel=1e-6)
    if first:  # it is told from where the ring begins, along the ring
        ring = translate(ring, -centre.x, mean - centre.y)
    bar = LineString([(0.0, 0.0), (0.0, -long) if first and centred else (long, 0.0)])
    balance = unary_union([ring, bar]).centroid
    assert result.centre_of_mass == pytest.approx((balance.x, balance.y, 0.0), abs=2e-7)
    assert result.bends[0].inside_radius == pytest.approx(math.sqrt(hole.area / math.pi), rel=1e-5)


@pytest.mark.parametrize("told", ["inside_across", "mean_across", "outside_across"])
def test_a_hoop(told: str) -> None:
    t, inside = SQUARE.thick, 0.2
    across = inside + {"inside_across": 0.0, "mean_across": t, "outside_across": 2 * t}[told]
    spec = BarSpec("hoop", SQUARE, "S235JR", (Metal(Blank.REST),), (HoopLeg(**{told: across}),), closed=True)
    result = reckoned(spec)
    hoop = Point(0.0, 0.0).buffer(inside / 2 + t, quad_segs=2000).difference(Point(0.0, 0.0).buffer(inside / 2))
    same_sizes(result, hoop, 3e-6)
    middle = Point(0.0, 0.0).buffer((inside + t) / 2, quad_segs=2000).exterior
    assert result.length == pytest.approx(middle.length, rel=1e-6)
    assert result.centre_of_mass == pytest.approx((0.0, (inside + t) / 2, 0.0), abs=1e-6)
    assert result.bends[0].inside_radius == pytest.approx(inside / 2, rel=1e-9)
    outer = hoop.exterior.length
    assert result.bends[0].strain == pytest.approx(outer / middle.length - 1, rel=1e-5)
    # one thickness for the weld, half of it in front of the joint and half behind
    assert result.weld == pytest.approx(t, rel=1e-9)
    assert result.stock.value == pytest.approx(middle.length + t, rel=1e-6)
    assert result.marks_on_stock[0].at == pytest.approx(result.stock.value - result.marks_on_stock[-1].at, rel=1e-9)


@pytest.mark.parametrize("turns", [0.7, 1.25, 2.0])
def test_a_scroll(turns: float) -> None:
    t = SQUARE.thick
    result = bent(StraightLeg(0.3), ScrollLeg(turns, 0.02, 0.08, from_centre=False))
    line = joined(straight(0.3), spiral(0.08 + t / 2, 0.02 + t / 2, 2 * math.pi * turns))
    assert result.length == pytest.approx(line.length, rel=1e-6)
    same_sizes(result, grown(line, t), 1e-5)
    centre = line.centroid
    assert result.centre_of_mass[:2] == pytest.approx((centre.x, centre.y), abs=1e-6)
    assert result.bends[0].inside_radius == pytest.approx(0.02, rel=1e-9)


def leaf(u: Points) -> Points:
    return 4 * u * (1 - u)


def spade(u: Points) -> Points:
    return np.where(u < 0.5, 1.0, 1 - (2 * u - 1) ** 2)


def spoon(u: Points) -> Points:
    return np.sqrt(np.maximum(0.0, 1 - (2 * u - 1) ** 2))


FREE = ((0.0, 0.3), (0.2, 1.0), (0.7, 0.6), (1.0, 0.1))


def free(u: Points) -> Points:
    return np.interp(u, *zip(*FREE, strict=True))


ENDS = [(EndShape.LEAF, leaf), (EndShape.SPADE, spade), (EndShape.SPOON, spoon), (EndShape.FREE, free)]


@pytest.mark.parametrize(("shape", "law"), ENDS, ids=[shape.value for shape, _ in ENDS])
@pytest.mark.parametrize("first", [True, False])
def test_an_end_spread_to_an_outline(shape: EndShape, law: object, first: bool) -> None:
    assert callable(law)
    long, end, wide, thin = 0.2, 0.09, 0.05, 0.003
    spread = Metal(end, outline=EndOutline(shape, wide, thin, FREE if shape is EndShape.FREE else ()))
    result = made(*([spread, Metal(long)] if first else [Metal(long), spread]))
    u = (1 - np.cos(np.linspace(0.0, math.pi, 8001))) / 2
    half = law(u) * wide / 2
    outline = Polygon([*zip(long + u * end, half, strict=True), *zip(long + u[::-1] * end, -half[::-1], strict=True)])
    bar, tip = SQUARE.width * SQUARE.thick * long, outline.area * thin
    assert result.mass / 7850.0 == pytest.approx(bar + tip, rel=1e-6)
    balance = (bar * long / 2 + tip * outline.centroid.x) / (bar + tip)
    assert result.centre_of_mass[0] == pytest.approx(long + end - balance if first else balance, abs=1e-7)


def flat(wide: float, thick: float) -> Section:
    return Section(Shape.FLAT, wide, thick)


@pytest.mark.parametrize("face", [Face.FRONT, Face.BACK, Face.LEFT, Face.RIGHT])
def test_a_step_with_one_face_kept_in_line(face: Face) -> None:
    """Seen square to the step, both parts are as deep as each other, so the bar balances as its outline does."""
    over = face in (Face.FRONT, Face.BACK)
    first, second = flat(0.02, 0.02), flat(0.02, 0.008) if over else flat(0.008, 0.02)
    result = made(Metal(0.1), Metal(0.06, start=SectionGoal(second), flush=face), stock=first)
    way = 1 if face in (Face.FRONT, Face.LEFT) else -1
    low, high = sorted((way * 0.002, way * 0.01))
    seen = unary_union([box(0.0, -0.01, 0.1, 0.01), box(0.1, low, 0.16, high)])
    x, left, up = result.centre_of_mass
    assert (x, up if over else left) == pytest.approx((seen.centroid.x, seen.centroid.y), abs=1e-9)
    sizes = (result.sizes.across, result.sizes.rise)
    assert sizes == pytest.approx((0.02, 0.02), abs=1e-9)


def test_marks_of_a_bend_on_the_straight_bar() -> None:
    result = bent(StraightLeg(0.2), BendLeg(1.1, 0.03), StraightLeg(0.1))
    line = joined(straight(0.2), arc(0.036, 1.1), straight(0.1))
    crest = line.interpolate(0.2).distance(Point(0.2, 0.0)), arc(0.036, 1.1, 3001)[1500] + [0.2, 0.0]
    places = [0.2, line.project(Point(crest[1])), line.project(Point(arc(0.036, 1.1)[-1] + [0.2, 0.0]))]
    assert crest[0] < 1e-12
    assert [mark.at for mark in result.marks_on_drawn] == pytest.approx(places, abs=1e-7)


@pytest.mark.parametrize("count", [2, 3])
def test_a_round_bar_split_at_its_end(count: int) -> None:
    """Each limb has its share of the round: a half disc, or of more limbs a square of that area."""
    round_bar = Section(Shape.ROUND, 0.024, 0.024)
    limb = BarSpec("limb", None, "S235JR", (Metal(0.05),))
    branches = tuple(Branch(f"limb {i}", limb) for i in range(count))
    result = reckoned(BarSpec("split", round_bar, "S235JR", (Metal(0.1),), branches=branches))
    disc = Point(0.0, 0.0).buffer(0.012, quad_segs=4000)
    share = disc.intersection(box(-1, 0, 1, 1)) if count == 2 else None
    first = result.children[0].runs[0].a
    if share is not None:
        assert (first.width, first.thick) == pytest.approx(sides(share), rel=1e-6)
    else:
        assert box(0, 0, first.width, first.thick).area == pytest.approx(disc.area / 3, rel=1e-6)


def test_bars_offered_for_a_piece_that_names_none() -> None:
    """The least square and the least round of whole sixteenths that hold half an inch square."""
    piece = Metal(0.2, start=SectionGoal(Section(Shape.SQUARE, INCH / 2, INCH / 2)))
    read = reckon_bar(BarSpec("piece", None, "S235JR", (piece,)), RULES, 7850.0)
    discs = (Point(0.0, 0.0).buffer(n / 32, quad_segs=1000).area for n in range(1, 17))
    least = next(n for n, area in enumerate(discs, 1) if area >= 0.25)
    assert least == 10
    (found,) = read.findings
    assert "5/8 in rd" in found.try_this
    assert "1/2 in sq" in found.try_this


@pytest.mark.parametrize(("wide", "thick"), [(0.01215, 0.01), (0.03, 0.005), (0.01, 0.01215)])
def test_a_bend_whose_way_is_not_told_goes_over_the_thin_way(wide: float, thick: float) -> None:
    """Width over thickness is 1.215 or more, well over the share from which a bar counts as flat."""
    stock = Section(Shape.FLAT, wide, thick)
    result = bent(StraightLeg(0.2), BendLeg(1.2, 0.03, aside=0.0), StraightLeg(0.1), stock=stock)
    centre = joined(straight(0.2), arc(0.03 + min(wide, thick) / 2, 1.2), straight(0.1)).centroid
    expected = (centre.x, 0.0, centre.y) if thick < wide else (centre.x, centre.y, 0.0)
    assert result.centre_of_mass == pytest.approx(expected, abs=2e-7)


def test_a_half_round_whose_way_is_not_told_goes_down() -> None:
    stock = Section(Shape.HALF_ROUND, 0.02, 0.01)
    result = bent(StraightLeg(0.2), BendLeg(1.2, 0.03, aside=0.0), StraightLeg(0.1), stock=stock)
    centre = joined(straight(0.2), arc(0.035, 1.2), straight(0.1)).centroid
    assert result.centre_of_mass[1] == pytest.approx(0.0, abs=1e-9)
    assert result.centre_of_mass[2] == pytest.approx(-centre.y, rel=3e-3)  # its metal lies nearer its flat face


def test_a_half_round_of_open_size_takes_the_metal_that_is_left() -> None:
    goal = SectionGoal(Section(Shape.HALF_ROUND, 0.0, 0.0), "both")
    result = made(Metal(0.1), Metal(0.05, start=goal), stock_length=0.13)
    half = Point(0.0, 0.0).buffer(0.5, quad_segs=4000).intersection(box(-1, 0, 1, 1))  # one metre wide
    wide = math.sqrt(0.03 * 0.012**2 / (0.05 * half.area))
    found = result.runs[-1].b
    assert (found.width, found.thick) == pytest.approx(sides(scale(half, wide, wide)), rel=1e-5)
