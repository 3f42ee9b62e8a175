"""What must hold for the solid of every sheet piece: closed, the pattern's metal in it, its middle on the true surface.

Compared with the area of the pattern as cut times the thickness, and with surfaces written out here: exact mathematics.
"""

import os
from dataclasses import replace
from math import cos, hypot, pi, tan

import numpy as np
import pytest
from hypothesis import assume, given, reject, settings
from hypothesis import strategies as st

from bickern.geometry.polygon import disc, from_points
from bickern.geometry.solid.solid import Fineness
from bickern.geometry.solid.weigh import is_closed, volume
from bickern.measure.units.words import INCH
from bickern.parts.sheet.allowances import GrooveRule, SheetRules
from bickern.parts.sheet.body.body import flats_of, sheet_body
from bickern.parts.sheet.body.patches import middle_of
from bickern.parts.sheet.reckon import reckon_sheet
from bickern.parts.sheet.result import SheetResult
from bickern.parts.sheet.rims import allowance
from bickern.parts.sheet.spec import (
    Bowl,
    Cone,
    Cylinder,
    Edge,
    EdgeKind,
    FlatOutline,
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

OFTEN = 20 if os.environ.get("BICKERN_SOAK") else 1
RULES = SheetRules()
KEPT = 2e-3
"""Metal lost or won at most, as a share: the fault of chords at preview fineness is a few parts in ten thousand."""

ROUGH = 1e-2
"""The same where the rim of a hem is askew to the lines that the skin is bent along,
where the layers of a seam run into a tip, and where the four layers of a groove take much of a small round."""

sizes = st.floats(2.0, 24.0).map(lambda x: x * INCH)
shares = st.floats(0.25, 0.9)
slopes = st.floats(0.4, 2.5)
thicks = st.floats(0.4e-3, 2.5e-3)
parts = st.integers(1, 3)
seams = st.sampled_from(
    [
        Seam(SeamKind.BUTT),
        Seam(SeamKind.LAP, INCH / 2),
        Seam(SeamKind.RIVETED, INCH / 2, INCH / 8, INCH),
        Seam(SeamKind.BRAZED, INCH / 4),
        Seam(SeamKind.GROOVED, INCH / 4),
    ]
)
hems = st.sampled_from([EdgeKind.HEM, EdgeKind.DOUBLE_HEM, EdgeKind.WIRED])
finishes = st.tuples(st.sampled_from(["bottom", "top"]), hems, st.floats(0.06, 0.3).map(lambda x: x * INCH)).map(
    lambda e: (Edge(*e),)
)
lugs = st.tuples(st.integers(1, 3), st.floats(0.2, 0.6), st.sampled_from([0.0, 0.25, 0.4])).map(
    lambda n: Lug("top", n[0], n[1] * INCH, n[2] * INCH, 0.0 if n[2] else INCH / 2)
)
rims = st.one_of(
    st.tuples(st.just(()), st.just(())),
    st.tuples(finishes, st.just(())),
    st.tuples(st.just(()), lugs.map(lambda n: (n,))),
)
holes = st.tuples(st.floats(0.1, 0.4), st.integers(1, 5)).map(lambda h: SheetHole(h[0] * INCH, INCH, h[1]))

cones = st.builds(lambda d, s, h: Cone(d, s * d, h * d), sizes, shares, slopes)
points = st.builds(lambda d, h: Cone(d, 0.0, (h + 0.3) * d), sizes, slopes)
leaning = st.builds(
    lambda c, x, y: replace(c, offset=(x * c.base, y * c.base)), cones, st.floats(0.05, 0.4), st.floats(-0.2, 0.2)
)
cylinders = st.builds(lambda d, h, cut: Cylinder(d, h * d, cut), sizes, slopes, st.sampled_from([0.0, 0.2, -0.35]))
pyramids = st.builds(
    lambda n, d, s, h: Pyramid(n, d, s * d, (h + 0.5) * d),
    st.integers(3, 8),
    sizes,
    st.one_of(shares, st.just(0.0)),
    slopes,
)
transitions = st.builds(
    lambda low, d, s, h: Transition(Rim(low, d, 0.8 * d), Rim(RimShape.CIRCLE, s * d, s * d, (0.0, 0.0, h * d))),
    st.sampled_from([RimShape.RECTANGLE, RimShape.OVAL]),
    sizes,
    shares,
    slopes,
)
skins = st.one_of(cones, points, leaning, cylinders, pyramids, transitions)
walls = st.sampled_from([("front", "back", "left", "right"), ("left", "right", "back"), ("front",), ("left", "back")])
pans = st.builds(
    lambda w, l, h, walls, r, tabs: Pan(l, w, h * min(w, l), walls, r, tabs * h * min(w, l)),
    sizes, sizes, st.floats(0.1, 0.4), walls, st.floats(1e-3, 4e-3), st.sampled_from([0.0, 0.8]),
)  # fmt: skip
pan_rims = st.one_of(
    st.tuples(st.just(()), st.just(())),
    st.tuples(hems.map(lambda k: (Edge("walls", k, INCH / 8),)), st.just(())),
    st.tuples(st.just(()), lugs.map(lambda n: (n,))),
)
bowls = st.builds(lambda d, s: Bowl(d, s * d), sizes, st.floats(0.1, 0.5))


def reckoned(surface: Surface, rules: SheetRules = RULES, **more: object) -> SheetResult:
    spec = replace(SheetSpec("piece", 1e-3, "S235JR", surface), **more)  # type: ignore[arg-type]
    result = reckon_sheet(spec, rules, 7850.0).value
    if result is None:
        reject()
    # where holes run into one another the pattern's area counts what they share twice, as it warns
    if any(f.name == "holes-overlap" for f in result.findings):
        reject()
    return result


def check_solid(result: SheetResult, rules: SheetRules = RULES, kept: float = KEPT) -> None:
    solid = sheet_body(result, rules, Fineness.PREVIEW)
    assert is_closed(solid)
    assert volume(solid) == pytest.approx(result.area * result.spec.thick, rel=kept)


def small_end(skin: Surface) -> float:
    """The least size of the upper end [m]."""
    if isinstance(skin, Transition):
        return min(skin.high.across, skin.high.long)
    return skin.across if isinstance(skin, Cylinder) else getattr(skin, "top", 0.0)


# ---- closed, and the metal of the pattern in it


@settings(max_examples=90 * OFTEN, deadline=None)
@given(skins, seams, thicks, parts, rims, st.one_of(st.just(()), holes.map(lambda h: (h,))))
def test_skins_are_closed_and_keep_their_metal(skin, seam, thick, number, rim, holed) -> None:  # type: ignore[no-untyped-def]
    edges, tabs = rim
    assume(all(4 * tab.width < small_end(skin) for tab in tabs))  # a wider lug: within a hundredth
    # a fan of folds in sheet too thick to be rolled by hand: its faces, moved out, do not meet in one place
    assume(not isinstance(skin, Transition) or small_end(skin) > 16 * thick)
    # no sheet is stretched or packed by more than half: a strip so wide for a rim that is askew is not turned
    assume(square(skin) or all(strip(edge, thick) < 0.25 * rim_across(skin, edge.on) for edge in edges))
    result = reckoned(skin, seam=seam, thick=thick, parts=number, edges=edges, lugs=tabs, holes=holed)
    assume(not any(f.stops or f.name == "lug-on-corner" for f in result.findings))
    crowded = (edges and not square(skin)) or (seam.width and small_end(skin) == 0.0) or seam_crowds(result)
    check_solid(result, kept=ROUGH if crowded else KEPT)


def seam_crowds(result: SheetResult) -> bool:
    """Whether the seam's layers run into one another at the small end: they are warned of as too wide for it there,
    or it is a groove, whose joggles and hooks rise four thicknesses, and each part's round is under fifteen across."""
    spec = result.spec
    small = small_end(spec.surface) < 15 * spec.parts * spec.thick
    return any(f.name == "lap-too-wide" for f in result.findings) or (spec.seam.kind is SeamKind.GROOVED and small)


def strip(edge: Edge, thick: float) -> float:
    """What an edge's finish takes of the sheet [m]."""
    return allowance(edge, RULES, thick)


def rim_across(skin: Surface, on: str) -> float:
    """The least size of the rim that an edge is on [m]."""
    if isinstance(skin, Transition):
        rim = skin.low if on == "bottom" else skin.high
        return min(rim.across, rim.long)
    return small_end(skin) if on == "top" else getattr(skin, "base", small_end(skin))


def square(skin: Surface) -> bool:
    """Whether the rims are square to the lines that the skin is bent along."""
    return isinstance(skin, Cylinder | Pyramid) or (isinstance(skin, Cone) and skin.offset == (0.0, 0.0))


@settings(max_examples=15 * OFTEN, deadline=None)
@given(cones, thicks, st.floats(0.15, 0.4))
def test_either_way_of_sharing_a_groove(cone: Cone, thick: float, width: float) -> None:
    rules = SheetRules(groove=GrooveRule.ONE_AND_TWO)
    result = reckoned(cone, rules, thick=thick, seam=Seam(SeamKind.GROOVED, width * INCH))
    check_solid(result, rules, ROUGH if seam_crowds(result) else KEPT)


@settings(max_examples=30 * OFTEN, deadline=None)
@given(pans, thicks, st.sampled_from(list(Sized)), pan_rims, st.one_of(st.just(()), holes.map(lambda h: (h,))))
def test_pans_are_closed_and_keep_their_metal(pan, thick, told, rim, holed) -> None:  # type: ignore[no-untyped-def]
    edges, tabs = rim
    check_solid(reckoned(pan, thick=thick, sized=told, edges=edges, lugs=tabs, holes=holed))


@settings(max_examples=30 * OFTEN, deadline=None)
@given(bowls, thicks, rims, st.one_of(st.just(()), holes.map(lambda h: (h,))))
def test_bowls_are_closed_and_keep_their_metal(bowl, thick, rim, holed) -> None:  # type: ignore[no-untyped-def]
    """Of a ball's shell: thickness t on a ball of R holds t^2/12 R^2 more than its middle times t."""
    edges, tabs = (tuple(replace(item, on="rim") for item in items) for items in rim)
    ball = ((bowl.rim / 2) ** 2 + bowl.depth**2) / (2 * bowl.depth)
    assume(thick < ball / 8)
    check_solid(reckoned(bowl, thick=thick, edges=edges, lugs=tabs, holes=holed))


@settings(max_examples=15 * OFTEN, deadline=None)
@given(st.lists(st.floats(0.5, 1.0), min_size=5, max_size=9), sizes, thicks)
def test_outlines_are_closed_and_keep_their_metal(far: list[float], size: float, thick: float) -> None:
    turns = [2 * pi * k / len(far) for k in range(len(far))]
    ring = [(size * r * np.cos(t), size * r * np.sin(t)) for r, t in zip(far, turns, strict=True)]
    cut = disc(0.2 * size, (0.02 * size, 0.0))
    check_solid(reckoned(FlatOutline(from_points(ring), (cut,)), thick=thick))


# ---- the middle of the sheet lies on the true surface


def middles(surface: Surface, number: int = 1) -> tuple[np.ndarray, float]:
    """Middle places of a bare skin, and how far it may stray: what is told, the hair's gap, the pattern's grid."""
    result = reckoned(surface, parts=number)
    flats = [middle_of(flat) for flat in flats_of(result, RULES, Fineness.PREVIEW)]
    return np.vstack([flat.points for flat in flats]), result.stray + 1e-7


@settings(max_examples=20 * OFTEN, deadline=None)
@given(st.one_of(cones, points), parts)
def test_cones_lie_on_their_cone(cone: Cone, number: int) -> None:
    places, stray = middles(cone, number)
    z = places[:, 2]
    true = cone.base / 2 + (cone.top - cone.base) / 2 * z / cone.height
    assert z.min() > -stray
    assert z.max() < cone.height + stray
    assert np.abs(np.hypot(places[:, 0], places[:, 1]) - true).max() < stray


@settings(max_examples=10 * OFTEN, deadline=None)
@given(leaning, parts)
def test_leaning_cones_lie_on_theirs(cone: Cone, number: int) -> None:
    """Cut level, a leaning cone is a circle about a middle that moves with the height."""
    places, stray = middles(cone, number)
    share = places[:, 2] / cone.height
    radius = cone.base / 2 + (cone.top - cone.base) / 2 * share
    far = np.hypot(places[:, 0] - cone.offset[0] * share, places[:, 1] - cone.offset[1] * share)
    assert np.abs(far - radius).max() < stray


@settings(max_examples=10 * OFTEN, deadline=None)
@given(cylinders, parts)
def test_cylinders_lie_on_theirs_under_their_cut(round_: Cylinder, number: int) -> None:
    places, stray = middles(round_, number)
    assert np.abs(np.hypot(places[:, 0], places[:, 1]) - round_.across / 2).max() < stray
    top = round_.height - tan(round_.cut) * places[:, 0]
    assert (places[:, 2] < top + stray).all()
    assert (np.abs(places[:, 2] - top) < stray).sum() > 20


@settings(max_examples=10 * OFTEN, deadline=None)
@given(pyramids)
def test_pyramids_lie_on_their_sides(pyramid: Pyramid) -> None:
    """The side furthest out, measured level from the axis square to it, is at the told size of that height."""
    places, stray = middles(pyramid)
    stray += 2e-5 * (pyramid.top == 0.0)  # both edges of the seam stand back from the tip
    turns = [2 * pi * k / pyramid.sides for k in range(pyramid.sides)]
    out = np.max([places[:, 0] * np.cos(t) + places[:, 1] * np.sin(t) for t in turns], axis=0)
    true = (pyramid.base + (pyramid.top - pyramid.base) * places[:, 2] / pyramid.height) / 2
    assert np.abs(out - true).max() < stray


@settings(max_examples=10 * OFTEN, deadline=None)
@given(bowls)
def test_bowls_lie_on_their_ball(bowl: Bowl) -> None:
    places, stray = middles(bowl)
    ball = ((bowl.rim / 2) ** 2 + bowl.depth**2) / (2 * bowl.depth)
    assert np.abs(np.linalg.norm(places - [0.0, 0.0, ball], axis=1) - ball).max() < stray
    assert places[:, 2].max() == pytest.approx(bowl.depth, abs=stray)


@settings(max_examples=20 * OFTEN, deadline=None)
@given(st.one_of(cones, leaning, cylinders, pyramids, transitions), parts)
def test_rolling_up_keeps_every_length(skin: Surface, number: int) -> None:
    """Sheet is bent, not stretched: an edge of a face is as long as on the flat, up to its chord and the seam's gap."""
    result = reckoned(skin, parts=number)
    for flat in flats_of(result, RULES, Fineness.PREVIEW):
        middle = middle_of(flat)
        pairs = np.vstack((middle.faces[:, :2], middle.faces[:, 1:]))
        before = np.linalg.norm(middle.flat[pairs[:, 0]] - middle.flat[pairs[:, 1]], axis=1)
        after = np.linalg.norm(middle.points[pairs[:, 0]] - middle.points[pairs[:, 1]], axis=1)
        assert np.abs(after - before).max() < 1e-3 * before.max() + 1e-4
        assert (np.abs(after - before) < 1e-3 * before + 1e-4).all()


# ---- the checks can fail


@settings(max_examples=10 * OFTEN, deadline=None)
@given(cones)
def test_the_cone_of_another_height_is_told_apart(cone: Cone) -> None:
    places, stray = middles(replace(cone, height=1.01 * cone.height))
    true = cone.base / 2 + (cone.top - cone.base) / 2 * places[:, 2] / cone.height
    assert np.abs(np.hypot(places[:, 0], places[:, 1]) - true).max() > 10 * stray


def test_slant_of_a_pyramid_s_corner_is_kept() -> None:
    """A square pyramid 8 to 3 over 4: corners hypot(2.5 / cos 45, 4) long, between the furthest places that it has."""
    places, _ = middles(Pyramid(4, 8 * INCH, 3 * INCH, 4 * INCH))
    low = places[np.argmax(places @ [1.0, 1.0, 0.0])]
    high = places[np.argmax(places @ [1.0, 1.0, 5.0])]
    assert np.linalg.norm(high - low) / INCH == pytest.approx(hypot(2.5 / cos(pi / 4), 4.0), abs=1e-6)
