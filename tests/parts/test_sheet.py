"""Sheet pieces as a smith asks for them: sizes, allowances, and faults in words.

Figures of the example pieces are exact mathematics, worked out apart from the code (to the places shown).
"""

import re
from dataclasses import replace
from itertools import pairwise
from math import atan2, degrees, hypot, pi, sin

import pytest
from shapely.affinity import rotate, translate
from shapely.geometry import Polygon, box

from bickern.geometry.blank import fits_in, min_blank
from bickern.geometry.polygon import (
    ArcSeg,
    Loop,
    closed_gap,
    disc,
    flipped,
    from_points,
    mirrored,
    moved,
    points,
    rectangle,
)
from bickern.measure.finding import Weight, Where
from bickern.measure.units.words import INCH
from bickern.parts.sheet.allowances import SheetRules
from bickern.parts.sheet.place import Pair, two_at_once
from bickern.parts.sheet.reckon import reckon_sheet
from bickern.parts.sheet.result import SheetResult
from bickern.parts.sheet.spec import (
    Bowl,
    Cone,
    Cylinder,
    Edge,
    EdgeKind,
    FlatOutline,
    Lug,
    Offered,
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
GA20, GA18, GA16 = 0.0359 * INCH, 0.0478 * INCH, 0.0598 * INCH


def inches(*sizes: float) -> tuple[float, ...]:
    return tuple(s * INCH for s in sizes)


HOOD = SheetSpec(
    "hood",
    GA20,
    "S235JR",
    Cone(*inches(8, 1.5, 4)),
    seam=Seam(SeamKind.RIVETED, *inches(0.5, 0.125, 1)),
    lugs=(Lug("top", 2, *inches(0.5, 0.25)),),
)
FORGE_HOOD = SheetSpec(
    "forge hood",
    GA18,
    "S235JR",
    Cone(*inches(24, 8, 14)),
    seam=Seam(SeamKind.GROOVED, INCH / 4),
    offered=(Offered(*inches(48, 24), coating="none"),),
    hot=True,
)
PAN = SheetSpec(
    "pan", GA16, "S235JR", Pan(*inches(7.5, 5, 1), ("left", "right", "back"), INCH / 16), sized=Sized.OUTSIDE
)
SQUARE_TO_ROUND = Transition(
    Rim(RimShape.RECTANGLE, *inches(8, 8)), Rim(RimShape.CIRCLE, *inches(4, 4), (0.0, 0.0, 6 * INCH))
)


def made(spec: SheetSpec) -> SheetResult:
    read = reckon_sheet(spec, RULES, 7850.0)
    assert read.value is not None, read.findings
    return read.value


def figure(result: SheetResult, name: str) -> float:
    return next(f.value for f in result.figures if f.name == name)


def names(spec: SheetSpec) -> set[str]:
    return {f.name for f in reckon_sheet(spec, RULES, 7850.0).findings}


def names_of(surface: Surface, **more: object) -> set[str]:
    return names(replace(SheetSpec("piece", GA20, "S235JR", surface), **more))  # type: ignore[arg-type]


# ---- the example pieces


def test_lantern_hood_on_the_middle_of_the_sheet() -> None:
    result = made(HOOD)
    assert figure(result, "slant") / INCH == pytest.approx(5.154, abs=5e-4)
    assert figure(result, "large radius R") / INCH == pytest.approx(6.343, abs=5e-4)
    assert figure(result, "small radius r") / INCH == pytest.approx(1.189, abs=5e-4)
    assert degrees(figure(result, "angle")) == pytest.approx(227.0, abs=0.05)
    assert result.blank[0] / INCH == pytest.approx(12 + 11 / 16, abs=1 / 32)
    assert result.blank[1] / INCH == pytest.approx(8 + 7 / 8, abs=1 / 32)
    assert not [f for f in result.findings if f.stops]


def test_lantern_hood_told_inside() -> None:
    """Half of 20 ga (.0359) square to the wall: R 6.365, r 1.211; the slant stays."""
    result = made(replace(HOOD, sized=Sized.INSIDE))
    assert figure(result, "large radius R") / INCH == pytest.approx(6.365, abs=5e-4)
    assert figure(result, "small radius r") / INCH == pytest.approx(1.211, abs=5e-4)
    assert figure(result, "slant") / INCH == pytest.approx(5.154, abs=5e-4)


def test_shovel_pan_by_the_standard() -> None:
    wide, high = sorted(made(PAN).blank)
    assert wide / INCH == pytest.approx(6.77, abs=0.005)
    assert high / INCH == pytest.approx(8.38, abs=0.006)


def test_ladle_bowl() -> None:
    """Disc 4.72 for mean sizes, 4.78 for inside sizes; inside sizes hold 145 ml (pi h (3 a^2 + h^2)/6)."""
    spec = SheetSpec("bowl", GA16, "S235JR", Bowl(*inches(4, 1.25)))
    assert figure(made(spec), "disc") / INCH == pytest.approx(4.72, abs=0.005)
    inside = made(replace(spec, sized=Sized.INSIDE))
    assert figure(inside, "disc") / INCH == pytest.approx(4.78, abs=0.005)
    assert figure(inside, "holds, level full") * 1e6 == pytest.approx(145, abs=1)
    assert figure(made(spec), "holds, level full") < figure(inside, "holds, level full")


def test_forge_hood_in_one_misses_the_sheet_both_ways() -> None:
    result = made(FORGE_HOOD)
    assert degrees(figure(result, "angle")) == pytest.approx(178.6, abs=0.05)
    assert [round(x / INCH, 2) for x in result.blank] == [48.37, 24.09]
    bare = fits_in(result.net[0].outline, *inches(48, 24))
    assert bare.short_width / INCH == pytest.approx(3 / 8, abs=1 / 64)
    assert bare.short_height / INCH == pytest.approx(3 / 32, abs=1 / 64)
    said = next(f for f in result.findings if f.name == "blank-too-big")
    assert "3/8 in" in said.says
    assert "3/32 in" in said.says
    assert "parts: 2" in said.try_this
    assert not result.fits[0].fits
    assert result.fits[0].short_high > bare.short_height


def test_forge_hood_in_two_halves() -> None:
    """Halves of 89.3 degrees, 34.0 x 18.45 laid evenly, 3/8 for the seam on each edge."""
    result = made(replace(FORGE_HOOD, parts=2))
    assert len(result.patterns) == 1
    assert result.patterns[0].make == 2
    assert degrees(figure(result, "angle of each part")) == pytest.approx(89.3, abs=0.05)
    assert figure(result, "laid evenly, wide") / INCH == pytest.approx(34.0, abs=0.01)
    assert figure(result, "laid evenly, high") / INCH == pytest.approx(18.45, abs=0.01)
    assert figure(result, "grooved seam, added in all") / INCH == pytest.approx(0.75)
    assert result.fits[0].fits
    assert {"two-on-one", "two-on-one-not-found"} & {f.name for f in result.findings}


def test_galvanised_sheet_is_refused_for_the_fire_and_taken_for_cold_work() -> None:
    sheet = Offered(*inches(60, 40), coating="galvanised", where=Where("job.yaml", 9))
    hot = made(replace(FORGE_HOOD, offered=(sheet,)))
    found = next(f for f in hot.findings if f.name == "coated-and-hot")
    assert found.weight is Weight.WARN  # this sheet is refused; the piece stops because none is left
    assert "no-sheet-fits" in {f.name for f in hot.findings if f.stops}
    assert found.where.line == 9
    assert hot.fits[0].refused
    assert "no-sheet-fits" in {f.name for f in hot.findings}
    assert made(replace(FORGE_HOOD, offered=(sheet,), hot=False)).fits[0].fits


# ---- two on one sheet


def placed(loop: Loop, pair: Pair, which: int) -> Polygon:
    """Read from the answer alone: turned, then its lower left bound put where it is told."""
    spot = (pair.first, pair.second)[which]
    turned = rotate(Polygon(points(loop, 1e-5)), spot.turn, origin=(0, 0), use_radians=True)
    x, y, _, _ = turned.bounds
    return translate(turned, spot.x - x, spot.y - y)


def test_both_halves_as_told_are_on_the_sheet_and_clear() -> None:
    half = made(replace(FORGE_HOOD, parts=2)).patterns[0].outline
    pair = two_at_once(half, half, *inches(48, 24))
    assert pair is not None
    first, second = placed(half, pair, 0), placed(half, pair, 1)
    sheet = box(0, 0, *inches(48, 24)).buffer(2e-5)
    assert sheet.covers(first)
    assert sheet.covers(second)
    assert first.intersection(second).area < 1e-6


def test_two_that_just_fit_and_two_that_cannot() -> None:
    assert two_at_once(rectangle(0.5, 0.4), rectangle(0.5, 0.4), 1.0, 0.4) is not None
    assert two_at_once(rectangle(0.5, 0.4), rectangle(0.51, 0.4), 1.0, 0.4) is None  # area alone forbids it
    assert two_at_once(rectangle(0.6, 0.3), rectangle(0.6, 0.3), 1.0, 0.4) is None  # neither beside nor above
    assert two_at_once(rectangle(0.5, 0.4), rectangle(0.5, 0.4), 1.0, 0.4, gap=0.01) is None


def test_two_triangles_share_a_square() -> None:
    triangle = from_points([(0.0, 0.0), (0.99, 0.0), (0.0, 0.99)])
    assert two_at_once(triangle, triangle, 1.0, 1.0) is not None


# ---- the rectangle round a pattern


def test_blank_of_a_turned_rectangle_and_of_a_half_disc() -> None:
    turned = from_points([(0.0, 0.0), (3.0, 4.0), (1.4, 5.2), (-1.6, 1.2)])  # 5 x 2, leaning
    blank = min_blank(turned)
    assert (blank.width, blank.height) == pytest.approx((5, 2), abs=1e-6)
    half = made(SheetSpec("half", 1e-6, "S235JR", Cone(1.0, 0.0, 3**0.5 / 2))).net[0].outline  # slant 1: half a disc
    blank = min_blank(half)
    assert (blank.width, blank.height) == pytest.approx((2, 1), abs=2e-6)


# ---- allowances on the pattern


def test_outlines_are_closed_and_cones_keep_their_arcs() -> None:
    result = made(HOOD)
    outline = result.patterns[0].outline
    assert closed_gap(outline) < 1e-12
    radii = {round(s.radius / INCH, 3) for s in outline.segs if isinstance(s, ArcSeg)}
    assert radii == {6.343, 1.189}


def test_lugs_are_long_enough_to_roll_and_divided_evenly() -> None:
    """pi x (1/4 + .0359) = .898 past the edge; two in line, half the round from one another."""
    result = made(HOOD)
    assert figure(result, "lug, flat length") / INCH == pytest.approx(0.898, abs=5e-4)
    roots = [line.line.start for line in result.patterns[0].lines if line.kind == "centre"][1:]
    assert len(roots) == 2
    inner = figure(result, "small radius r")
    chord = hypot(roots[0][0] - roots[1][0], roots[0][1] - roots[1][1])
    half_sector = figure(result, "angle") / 2
    assert chord == pytest.approx(2 * inner * sin(half_sector / 2), rel=1e-9)


def test_rivets_are_paired_and_no_further_apart_than_the_pitch() -> None:
    holes = [h for h in made(HOOD).patterns[0].holes if h.says.startswith("rivet")]
    lap = [h.centre for h in holes if h.says == "rivet"]
    assert len(holes) == 2 * len(lap)
    gaps = [hypot(a[0] - b[0], a[1] - b[1]) for a, b in pairwise(lap)]
    assert max(gaps) <= INCH + 1e-9
    assert max(gaps) - min(gaps) < 1e-9


def test_holes_are_divided_round_the_piece_whole_or_split() -> None:
    holes = (SheetHole(INCH / 4, 2 * INCH, 6),)
    whole = made(replace(HOOD, holes=holes)).patterns[0]
    assert sum(not h.says for h in whole.holes) == 6
    spec = replace(FORGE_HOOD, parts=2, holes=holes)
    assert [sum(not h.says for h in p.holes) * p.make for p in made(spec).patterns] == [6]
    odd = replace(FORGE_HOOD, parts=2, holes=(SheetHole(INCH / 4, 2 * INCH, 3, first=0.4),))
    assert sum(sum(not h.says for h in p.holes) * p.make for p in made(odd).patterns) == 3


def test_pan_walls_close_at_the_corners() -> None:
    """Corners of 4 walls: the side walls' ends lie one thickness in, against the inside of the others."""
    pan = Pan(*inches(6, 4, 1), inside_radius=INCH / 16)
    outline = made(SheetSpec("pan", GA16, "S235JR", pan, Sized.OUTSIDE)).patterns[0].outline
    xs = sorted({round(x / INCH, 4) for x, _ in points(outline)})
    ys = sorted({round(y / INCH, 4) for _, y in points(outline)})
    assert 0.0598 in ys
    assert {0.0, 4.0} <= set(xs)


def test_mass_is_area_times_thickness() -> None:
    result = made(SheetSpec("disc", GA16, "S235JR", Bowl(*inches(4, 1.25))))
    assert result.mass == pytest.approx(pi * (2**2 + 1.25**2) * INCH**2 * GA16 * 7850, rel=1e-9)
    holed = made(replace(HOOD, holes=(SheetHole(INCH / 4, 2 * INCH, 4),)))
    assert made(HOOD).area - holed.area == pytest.approx(4 * pi / 4 * (INCH / 4) ** 2, rel=1e-9)


def test_far_apex_is_exact_but_noted() -> None:
    spec = SheetSpec("pipe", GA20, "S235JR", Cone(*inches(6, 5.95, 10)))
    result = made(spec)
    assert "far-apex" in {f.name for f in result.findings}
    assert result.seam_gap < 5e-5
    assert figure(result, "rise of the outer arc over its chord") > 0.0


@pytest.mark.parametrize(("bases", "far"), [(19.0, False), (21.0, True)])
def test_beyond_twenty_base_diameters_arcs_are_laid_out_by_chord_and_rise(bases: float, far: bool) -> None:
    """Common practice, not a published figure: exact swing radius = slant x base / (base - top)."""
    base, top = inches(6, 5.8)
    slant = bases * (base - top)
    spec = SheetSpec("pipe", GA20, "S235JR", Cone(base, top, (slant**2 - ((base - top) / 2) ** 2) ** 0.5))
    result = made(spec)
    assert figure(result, "large radius R") == pytest.approx(bases * base)
    assert ("far-apex" in {f.name for f in result.findings}) is far
    assert ("rise of the outer arc over its chord" in {f.name for f in result.figures}) is far


# ---- a pattern askew on its sheet

STRAP = from_points([(0.0, 0.0), (26 * INCH, 0.0), (26 * INCH, INCH), (0.0, INCH)])
WEDGE = from_points([(0.0, 0.0), (26 * INCH, 0.0), (25 * INCH, INCH), (2 * INCH, 2 * INCH)])


def on_long_side(loop: Loop) -> Polygon:
    """The outline turned by shapely so that the long side of its least rectangle lies along x."""
    shape = Polygon(points(loop))
    corners = list(shape.minimum_rotated_rectangle.exterior.coords)
    (ax, ay), (bx, by) = max(pairwise(corners), key=lambda s: hypot(s[1][0] - s[0][0], s[1][1] - s[0][1]))
    return rotate(shape, -atan2(by - ay, bx - ax), origin=(0, 0), use_radians=True)


@pytest.mark.parametrize("loop", [STRAP, WEDGE, mirrored(WEDGE), moved(WEDGE, turn=1.0)])
@pytest.mark.parametrize("sheet", [(24, 13), (13, 24)])
def test_a_pattern_that_goes_on_askew_is_told_its_turn(loop: Loop, sheet: tuple[float, float]) -> None:
    spec = SheetSpec("strap", GA20, "S235JR", FlatOutline(loop), offered=(Offered(*inches(*sheet)),))
    result = made(spec)
    assert result.fits[0].fits
    told = next(f for f in result.findings if f.name == "lay-it-turned")
    assert told.weight is Weight.NOTE
    number = float(re.findall(r"([0-9.]+) degrees", told.try_this)[0])
    turn = -number if " clockwise" in told.try_this else number
    left, low, right, top = rotate(on_long_side(loop), turn, origin=(0, 0)).bounds
    assert right - left <= sheet[0] * INCH
    assert top - low <= sheet[1] * INCH


def test_a_pattern_whose_blank_goes_on_upright_is_told_no_turn() -> None:
    for sheet in ((26.1, 2), (2, 26.1)):
        spec = SheetSpec("strap", GA20, "S235JR", FlatOutline(STRAP), offered=(Offered(*inches(*sheet)),))
        assert made(spec).fits[0].fits
        assert "lay-it-turned" not in names(spec)


# ---- free outlines

PLATE = rectangle(*inches(10, 6))


def hole(across: float, x: float, y: float) -> Loop:
    return flipped(disc(across / 2 * INCH, (x * INCH, y * INCH)))


CUT_OUTS: list[tuple[str, tuple[Loop, ...]]] = [
    ("cut-out-off-outline", (hole(2, 0.5, 3),)),
    ("cut-out-off-outline", (hole(2, 1, 3),)),  # just touches: no metal is left
    ("cut-out-off-outline", (hole(2, 20, 3),)),
    ("cut-out-off-outline", (hole(50, 5, 3),)),
    ("cut-out-off-outline", (hole(2, 4, 2), hole(5, 9, 9))),
    ("cut-outs-overlap", (hole(2, 4, 3), hole(2, 5, 3))),
    ("cut-outs-overlap", (hole(2, 4, 3), hole(2, 6, 3))),  # just touch
    ("cut-outs-overlap", (hole(4, 4, 3), hole(1, 4, 3))),  # one in the other
    ("cut-outs-overlap", (hole(2, 4, 3), hole(2, 4, 3))),
    ("outline-crosses-itself", (from_points([inches(1, 1), inches(3, 4), inches(3, 1), inches(1, 3)]),)),  # type: ignore[list-item]
]


@pytest.mark.parametrize(("name", "cuts"), CUT_OUTS, ids=[f"{n}-{i}" for i, (n, _) in enumerate(CUT_OUTS)])
def test_cut_outs_that_cannot_be_stop_the_piece(name: str, cuts: tuple[Loop, ...]) -> None:
    where = Where("job.yaml", 7)
    read = reckon_sheet(SheetSpec("plate", GA16, "S235JR", FlatOutline(PLATE, cuts), where=where), RULES, 7850.0)
    assert read.value is None
    assert [(f.name, f.stops, f.where) for f in read.findings] == [(name, True, where)]


def test_cut_outs_with_metal_between_pass_and_weigh_less() -> None:
    cuts = (hole(2, 1.01, 3), hole(2, 3.03, 3), hole(1, 9.4, 5.4))
    result = made(SheetSpec("plate", GA16, "S235JR", FlatOutline(PLATE, cuts)))
    assert result.findings == ()
    assert result.area / INCH**2 == pytest.approx(60 - pi / 4 * (4 + 4 + 1), rel=1e-9)


def test_an_outline_that_crosses_itself_is_told_where() -> None:
    bow = from_points([inches(*p) for p in ((0, 0), (4, 4), (4, 0), (0, 4))])  # type: ignore[misc]
    found = reckon_sheet(SheetSpec("bow", GA16, "S235JR", FlatOutline(bow)), RULES, 7850.0).findings
    assert [f.name for f in found] == ["outline-crosses-itself"]
    assert "2 in (51 mm) across" in found[0].says


# ---- faults in what was asked

CONE = Cone(*inches(8, 4, 6))

FAULTS: list[tuple[str, Surface, dict[str, object]]] = [
    ("cone-upside-down", Cone(*inches(4, 8, 6)), {}),
    ("cone-upside-down", Cone(*inches(4, 4, 6)), {}),
    ("cone-upside-down", Pyramid(4, *inches(4, 8, 6)), {}),
    ("no-height", Cone(*inches(8, 4, 0)), {}),
    ("no-height", Bowl(*inches(4, 0)), {}),
    ("no-height", Pan(*inches(4, 4, 0)), {}),
    ("no-height", Transition(Rim(RimShape.CIRCLE, 0.1, 0.1), Rim(RimShape.CIRCLE, 0.1, 0.1)), {}),
    ("size-not-positive", Cylinder(*inches(-4, 6)), {}),
    ("negative-size", Cone(*inches(8, -1, 6)), {}),
    ("no-thickness", CONE, {"thick": 0.0}),
    ("size-not-likely", Cone(*inches(8000, 4, 6)), {}),
    ("size-not-likely", Cone(*inches(0.001, 0.0005, 6)), {}),
    ("size-not-likely", CONE, {"seam": Seam(SeamKind.LAP, 1e9)}),
    ("rivets-not-likely", CONE, {"seam": Seam(SeamKind.RIVETED, 0.01, 0.003, 1e-9)}),
    ("too-many", CONE, {"holes": (SheetHole(0.001, 0.05, 100000),)}),
    ("too-many", Cylinder(1.0, 15.0), {"seam": Seam(SeamKind.RIVETED, 0.01, 0.003, 0.01)}),
    ("too-few-sides", Pyramid(2, *inches(8, 4, 6)), {}),
    ("cut-too-steep", Cylinder(*inches(4, 1), cut=1.0), {}),
    ("too-tight", Cone(*inches(8, 0.08, 6)), {}),
    ("too-tight", Cone(*inches(8, 0.03, 6)), {"sized": Sized.OUTSIDE}),
    ("too-tight", Cylinder(*inches(0.2, 6)), {}),
    ("too-tight", CONE, {"edges": (Edge("top", EdgeKind.WIRED, 0.001),)}),
    ("lap-too-wide", Cone(*inches(8, 1, 6)), {"seam": Seam(SeamKind.LAP, INCH)}),
    ("lap-too-wide", Cone(*inches(8, 1, 6)), {"seam": Seam(SeamKind.LAP, 0.6 * INCH)}),
    ("lap-too-wide", Cone(*inches(8, 0, 1)), {"seam": Seam(SeamKind.LAP, 4.5 * INCH)}),
    ("seam-without-width", CONE, {"seam": Seam(SeamKind.GROOVED)}),
    ("rivet-without-size", CONE, {"seam": Seam(SeamKind.RIVETED, INCH / 2)}),
    ("rivet-without-pitch", CONE, {"seam": Seam(SeamKind.RIVETED, INCH / 2, INCH / 8)}),
    ("rivets-too-close", CONE, {"seam": Seam(SeamKind.RIVETED, *inches(0.5, 0.125, 0.25))}),
    ("rivet-near-edge", CONE, {"seam": Seam(SeamKind.RIVETED, *inches(0.25, 0.125, 1))}),
    ("one-rivet", Cylinder(*inches(4, 0.5)), {"seam": Seam(SeamKind.RIVETED, *inches(0.5, 0.125, 1))}),
    ("no-such-edge", CONE, {"edges": (Edge("side", EdgeKind.HEM, 0.006),)}),
    ("no-such-edge", Cone(*inches(8, 0, 6)), {"edges": (Edge("top", EdgeKind.HEM, 0.006),)}),
    ("edge-without-size", CONE, {"edges": (Edge("top", EdgeKind.HEM, 0.0),)}),
    ("edge-twice", CONE, {"edges": (Edge("top", EdgeKind.HEM, 0.006), Edge("top", EdgeKind.WIRED, 0.006))}),
    ("hem-on-tight-round", CONE, {"edges": (Edge("top", EdgeKind.HEM, INCH),)}),
    ("hem-too-wide", CONE, {"edges": (Edge("top", EdgeKind.HEM, 9 * INCH),)}),
    ("lug-on-hem", CONE, {"edges": (Edge("top", EdgeKind.HEM, 0.006),), "lugs": (Lug("top", 2, 0.01, 0.01),)}),
    ("lug-without-size", CONE, {"lugs": (Lug("top", 2, 0.01),)}),
    ("lug-too-wide", CONE, {"lugs": (Lug("top", 1, 0.5, 0.01),)}),
    ("lug-too-wide", CONE, {"lugs": (Lug("top", 2, 0.02, 0.01, first=0.0),)}),
    ("lugs-overlap", CONE, {"lugs": (Lug("top", 20, 0.03, 0.01),)}),
    ("lugs-overlap", Cone(*inches(8, 1.5, 4)), {"lugs": (Lug("top", 3, INCH, 0.01),)}),
    ("count-not-positive", CONE, {"lugs": (Lug("top", 0, 0.01, 0.01),)}),
    ("count-not-positive", CONE, {"parts": 0}),
    ("cannot-split", Bowl(*inches(4, 1)), {"parts": 2}),
    ("hole-without-size", CONE, {"holes": (SheetHole(0.0, 0.02),)}),
    ("hole-off-pattern", CONE, {"holes": (SheetHole(0.01, 0.5),)}),
    ("hole-near-edge", CONE, {"holes": (SheetHole(0.01, 0.0075),)}),
    ("holes-overlap", CONE, {"holes": (SheetHole(0.03, 0.05, 40),)}),
    ("hole-in-seam", CONE, {"seam": Seam(SeamKind.LAP, INCH / 2), "holes": (SheetHole(0.005, 0.05, first=0.005),)}),
    ("hole-not-placed", FlatOutline(rectangle(0.1, 0.1)), {"holes": (SheetHole(0.005, 0.05),)}),
    ("outline-crosses-itself", FlatOutline(from_points([(0.0, 0.0), (1.0, 1.0), (1.0, 0.0), (0.0, 1.0)])), {}),
    ("pattern-overlaps-itself", Cone(*inches(15, 3, 2)), {"seam": Seam(SeamKind.GROOVED, INCH / 4)}),
    ("no-such-wall", Pan(*inches(4, 4, 1), walls=("top",)), {}),
    ("fold-radius-taken", Pan(*inches(4, 4, 1)), {}),
    ("too-tight", Pan(*inches(4, 4, 1), inside_radius=GA20 / 2), {}),
    ("wall-too-low", Pan(*inches(4, 4, 0.05)), {}),
    ("pan-too-small", Pan(*inches(0.1, 4, 1)), {}),
    ("walls-high", Pan(*inches(3, 4, 5)), {}),
    ("tabs-too-long", Pan(*inches(3, 4, 1), corner_tabs=3 * INCH), {}),
    ("bowl-deep", Bowl(*inches(4, 3)), {}),
    ("thinning-unknown", Bowl(*inches(4, 1), thinning="stretched"), {}),
    ("folds-sharp", Pyramid(4, *inches(8, 4, 6)), {}),
    ("coated-and-hot", CONE, {"coating": "galvanised", "hot": True}),
    ("coated-and-hot", CONE, {"coating": "zinc", "seam": Seam(SeamKind.BRAZED, INCH / 4)}),
]


@pytest.mark.parametrize(("name", "surface", "more"), FAULTS, ids=[f"{n}-{i}" for i, (n, _, _) in enumerate(FAULTS)])
def test_fault_is_a_finding(name: str, surface: Surface, more: dict[str, object]) -> None:
    assert name in names_of(surface, **more)


def test_findings_speak_of_sizes_and_carry_their_place() -> None:
    where = Where("job.yaml", 12, 3)
    read = reckon_sheet(replace(HOOD, surface=Cone(*inches(4, 8, 6)), where=where), RULES, 7850.0)
    assert read.value is None
    found = read.findings[0]
    assert found.where == where
    assert "8 in" in found.says
    assert "Swap" in found.try_this


SOUND: list[tuple[Surface, dict[str, object]]] = [
    (CONE, {}),
    (CONE, {"seam": Seam(SeamKind.GROOVED, INCH / 4), "edges": (Edge("bottom", EdgeKind.WIRED, INCH / 8),)}),
    (Cone(*inches(8, 0, 6)), {"seam": Seam(SeamKind.RIVETED, *inches(0.5, 0.125, 1))}),
    (Cone(*inches(8, 4, 6), offset=(INCH, INCH)), {"seam": Seam(SeamKind.LAP, INCH / 2)}),
    (Cylinder(*inches(4, 6)), {"parts": 2, "seam": Seam(SeamKind.LAP, INCH / 2)}),
    (Cylinder(*inches(4, 6), cut=0.5), {}),
    (Pyramid(6, *inches(8, 4, 6)), {"seam": Seam(SeamKind.LAP, INCH / 2)}),
    (Pyramid(4, *inches(8, 0, 6), 12 * INCH), {}),
    (SQUARE_TO_ROUND, {"seam": Seam(SeamKind.LAP, INCH / 2), "edges": (Edge("top", EdgeKind.HEM, INCH / 4),)}),
    (SQUARE_TO_ROUND, {"parts": 2}),
    (Pan(*inches(6, 4, 1), corner_tabs=INCH / 2), {"edges": (Edge("walls", EdgeKind.HEM, INCH / 4),)}),
    (Bowl(*inches(4, 1.25)), {"holes": (SheetHole(3 / 16 * INCH, INCH / 2, 2),)}),
    (Bowl(*inches(4, 1.25)), {"edges": (Edge("rim", EdgeKind.WIRED, INCH / 8),)}),
    (Bowl(*inches(4, 1.25)), {"lugs": (Lug("rim", 2, *inches(0.5, 0.25)),)}),
    (FlatOutline(rectangle(0.1, 0.2), (rectangle(0.01, 0.01, (0.05, 0.05)),)), {}),
]


@pytest.mark.parametrize(("surface", "more"), SOUND)
def test_sound_pieces_pass_without_a_stop(surface: Surface, more: dict[str, object]) -> None:
    spec = replace(SheetSpec("piece", GA20, "S235JR", surface), **more)  # type: ignore[arg-type]
    result = made(spec)
    assert not [f for f in result.findings if f.stops]
    for pattern in (*result.net, *result.patterns):
        assert closed_gap(pattern.outline) < 1e-9
        assert Polygon(points(pattern.outline, 1e-5)).is_valid
    assert result.blank_cut[0] >= result.blank[0] - 1e-6
    assert result.mass > 0
