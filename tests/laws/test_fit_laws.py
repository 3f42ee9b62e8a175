"""What must always hold of fit: larger holes are never tighter, inches are millimetres; solids of a library agree."""

import math
import os

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import affinity
from shapely.geometry import LineString, Point, box

from bickern.desk.reckon import reckon_text
from bickern.iron.section import Section
from bickern.measure.units.words import Shape
from bickern.parts.fit.packing import circle_for, depth_of_box, room_for_box, room_in_link
from bickern.parts.fit.result import FitResult, FitWord
from bickern.parts.fit.words import moving, riveted, screwed, tenoned, turning_in
from bickern.parts.joint.holes import hole_for_ring

OFTEN = 20 if os.environ.get("BICKERN_SOAK") else 1
"""How many times the sample of `make test` is tried in `make soak`."""
LAWS = settings(max_examples=60 * OFTEN, deadline=None)
JOBS = settings(max_examples=15 * OFTEN, deadline=None)
RANK = {FitWord.NO: 0, FitWord.BINDS: 1, FitWord.SNUG: 2, FitWord.FREE: 3}
SHAPES = st.sampled_from([Shape.ROUND, Shape.SQUARE, Shape.HEXAGON])

margins = st.floats(-0.003, 0.003)
sizes = st.floats(0.002, 0.03)


@LAWS
@given(margins, margins)
def test_more_to_spare_is_never_a_worse_word(one: float, two: float):
    low, high = sorted((one, two))
    for word in (moving, turning_in, tenoned):
        assert RANK[word(low)] <= RANK[word(high)]


@LAWS
@given(st.sampled_from([0.003, 0.005, 0.008, 0.0085, 0.012]), margins, margins)
def test_a_larger_hole_is_never_tighter_for_a_rivet_or_a_screw(size: float, one: float, two: float):
    low, high = sorted((one, two))
    for word in (riveted, screwed):
        assert RANK[word(size, size + low)] <= RANK[word(size, size + high)]


@LAWS
@given(SHAPES, sizes, st.floats(1.0, 6.0), st.floats(0.05, 0.9), st.floats(1.0, 1.5))
def test_thicker_bar_wants_a_larger_hole_and_a_larger_ring_never_one(
    shape: Shape, d: float, share: float, of_radius: float, more: float
):
    radius = share * d
    plate = 2 * radius * of_radius
    needed = hole_for_ring(Section(shape, d, d), radius, plate)
    assert hole_for_ring(Section(shape, d * more, d * more), radius, plate) >= needed
    assert hole_for_ring(Section(shape, d, d), radius * more, plate) <= needed + 1e-12
    assert hole_for_ring(Section(shape, d, d), radius, plate / more) <= needed + 1e-12


@LAWS
@given(st.lists(sizes, min_size=1, max_size=6), st.integers(0, 5), st.floats(1.0, 1.5))
def test_a_ring_that_holds_bars_holds_thinner_ones(parts: list[float], which: int, more: float):
    whole = circle_for(parts)
    thicker = [d * more if i == which % len(parts) else d for i, d in enumerate(parts)]
    assert circle_for(thicker) >= whole - 1e-12
    assert max(parts) - 1e-12 <= whole <= sum(parts) + 1e-12
    assert whole >= math.sqrt(sum(d * d for d in parts)) - 1e-12  # their areas have room


@LAWS
@given(sizes, sizes, sizes, st.floats(1.0, 3.0))
def test_a_box_that_goes_into_a_link_lies_within_it_by_shapely(
    wide: float, thick: float, across: float, of_across: float
):
    long = across * of_across
    low, high = sorted((wide, thick))
    straight = (long - across) / 2
    link = LineString([(-straight, 0), (straight, 0)]).buffer(across / 2, quad_segs=512)
    end = Point(straight, 0).buffer(across / 2, quad_segs=512)
    room = room_for_box(wide, thick, across, long)
    along, in_end = (
        box(-high / 2, -low / 2, high / 2, low / 2),
        box(straight - high / 2, -low / 2, straight + high / 2, low / 2),
    )
    if room > 1e-5:
        assert link.contains(along) or end.contains(in_end)
    if room < -1e-5:
        assert not link.contains(along)


@LAWS
@given(sizes, sizes, sizes, st.floats(1.05, 3.0))
def test_a_box_and_a_round_against_opposite_ends_do_not_meet_by_shapely(
    wide: float, thick: float, d: float, more: float
):
    across = max(math.hypot(wide, thick), d) * more
    ring = Point(0, 0).buffer(across / 2, quad_segs=1024)
    depth = depth_of_box(wide, thick, across)
    ways = [(w, t) for w, t in ((wide, thick), (thick, wide)) if w <= across]
    w, t = min(ways, key=lambda way: across / 2 - math.sqrt(across**2 / 4 - way[0] ** 2 / 4) + way[1])
    lying = box(-w / 2, across / 2 - depth, w / 2, across / 2 - depth + t)
    bar = affinity.translate(Point(0, 0).buffer(d / 2, quad_segs=256), 0, -across / 2 + d / 2)
    assert ring.buffer(1e-6).contains(lying)
    room = across - depth - d
    if abs(room) > 1e-5:
        assert (room > 0) is (lying.intersection(bar).area == 0)


@LAWS
@given(st.lists(sizes, min_size=2, max_size=3), sizes, st.floats(1.0, 3.0), st.floats(1.0, 1.5))
def test_a_larger_ring_never_has_less_room(parts: list[float], across: float, of_across: float, more: float):
    room = room_in_link(parts, across, across * of_across)
    assert room_in_link(parts, across * more, across * of_across * more) >= room - 1e-12


JOB = """\
job: Both systems
units: {units}
pieces:
  ring: {{ring: {wire} rd, inside across: {inside}}}
  link: {{ring: {wire} rd, inside across: {inside}, inside long: {long}}}
  boss:
    bar: {bar} sq
    metal: [{{keep: {keep}, name: all}}]
    holes: [{{size: {hole}, by: drill, at: {at}, face: front, name: hole}}]
joins:
  - {{ring: ring, through: [boss.hole, link]}}
  - {{pin: {wire}, through: [boss.hole], grip: {bar}}}
"""


def fit(units: str, factor: float, inches: dict[str, float]) -> FitResult:
    told = {name: f"{value * factor:.9f}" for name, value in inches.items()}
    copy = reckon_text(JOB.format(units=units, **told), "job.yaml").copy
    assert copy is not None
    return copy.fit


@JOBS
@given(st.integers(4, 12), st.integers(2, 6), st.integers(1, 20))
def test_the_answer_in_inches_is_the_answer_in_millimetres(wire: int, share: int, over: int):
    d = wire / 32
    asked = {
        "wire": d,
        "inside": d * share,
        "long": d * (share + 2),
        "bar": 1.0,
        "keep": 6.0,
        "hole": d + over / 64,
        "at": 2.0,
    }
    one, two = fit("in", 1.0, asked), fit("mm", 25.4, asked)
    assert [(r.check, r.word) for r in one.rows] == [(r.check, r.word) for r in two.rows]
    for a, b in zip(one.rows, two.rows, strict=True):
        assert (a.needed, a.has, a.margin) == pytest.approx((b.needed, b.has, b.margin), rel=1e-6, abs=1e-9)
    assert [f.name for f in one.findings] == [f.name for f in two.findings]


@JOBS
@given(st.integers(4, 12), st.integers(2, 6), st.integers(1, 20), st.integers(1, 8))
def test_a_job_with_a_larger_hole_is_never_tighter(wire: int, share: int, over: int, more: int):
    d = wire / 32
    asked = {
        "wire": d,
        "inside": d * share,
        "long": d * (share + 2),
        "bar": 1.5,
        "keep": 6.0,
        "hole": d + over / 64,
        "at": 3.0,
    }
    tight, loose = (fit("in", 1.0, asked | {"hole": asked["hole"] + extra}) for extra in (0.0, more / 64))
    words = {(r.what, r.check): r.word for r in tight.rows}
    for row in loose.rows:
        assert RANK[row.word] >= RANK[words.get((row.what, row.check), FitWord.NO)]


def torus(wire: float, inside: float, rounds: int, around: int) -> tuple[np.ndarray, np.ndarray]:
    """Points and faces of a ring of round bar about the y axis [m], its bar drawn a little full."""
    u, v = np.meshgrid(np.arange(rounds) * 2 * np.pi / rounds, np.arange(around) * 2 * np.pi / around, indexing="ij")
    out = inside / 2 + wire / 2 * (1 + np.cos(v))
    points = np.stack((out * np.cos(u), wire / 2 * np.sin(v), out * np.sin(u)), axis=-1).reshape(-1, 3)
    at = np.arange(rounds * around).reshape(rounds, around)
    a, b = at, np.roll(at, -1, axis=1)
    c, d = np.roll(at, -1, axis=0), np.roll(np.roll(at, -1, axis=0), -1, axis=1)
    faces = np.concatenate((np.stack((a, b, d), -1).reshape(-1, 3), np.stack((a, d, c), -1).reshape(-1, 3)))
    return points.astype(np.float32), faces.astype(np.uint32)


def shared_with_plate(wire: float, inside: float, plate: float, hole: float) -> float:
    """Room [mm3] that a ring shares with a plate it is put through, in the middle of the hole; all sizes in mm.

    manifold3d, the general library of solids, cuts; the hole's wall is drawn outside the true circle, the bar inside.
    """
    from manifold3d import CrossSection, Manifold, Mesh

    points, faces = torus(wire, inside, 1440, 96)
    ring = Manifold(Mesh(points, faces))
    radius = inside / 2
    middle = (radius + wire + math.sqrt(radius**2 - plate**2 / 4)) / 2
    circle = CrossSection.circle(hole / 2 / math.cos(math.pi / 720), 720)
    whole = CrossSection.square((6 * hole, 6 * hole), True)
    metal = Manifold.extrude(whole - circle, plate).translate((middle, 0, -plate / 2))
    near = Manifold.cube((2 * hole, 6 * hole, plate), True).translate((middle, 0, 0))
    return float((ring ^ metal ^ near).volume())


@pytest.mark.parametrize(
    ("wire", "inside", "plate"),
    [(0.5, 3.5, 0.625), (0.25, 1.0, 0.5), (0.1875, 0.875, 0.3125), (0.5, 1.5, 1.2)],
)
def test_a_solid_ring_goes_through_the_hole_it_needs_and_not_through_one_smaller(
    wire: float, inside: float, plate: float
):
    d, across, thick = (
        wire * 25.4,
        inside * 25.4,
        plate * 25.4,
    )  # in mm: single precision
    needed = hole_for_ring(Section(Shape.ROUND, d, d), across / 2, thick)
    assert shared_with_plate(d, across, thick, needed + 0.002) < 1e-4
    assert shared_with_plate(d, across, thick, needed - 0.2) > 0.02


def shared_by_rings(wire: float, inside: float, eye_wire: float, eye: float) -> float:
    """Room [mm3] that a ring shares with an eye of round bar at right angles to it, in its middle; all sizes in mm."""
    from manifold3d import Manifold, Mesh

    ring, other = (Manifold(Mesh(*torus(d, size, 960, 128))) for d, size in ((wire, inside), (eye_wire, eye)))
    turned = other.rotate((90, 0, 0)).translate((inside / 2 + wire / 2, 0, 0))
    return float((ring ^ turned).volume())


@pytest.mark.parametrize(("wire", "inside", "eye_wire"), [(6.0, 20.0, 8.0), (8.0, 12.0, 10.0), (5.0, 40.0, 3.0)])
def test_a_solid_ring_goes_through_an_eye_of_round_bar_as_wide_as_its_bar_is_thick(
    wire: float, inside: float, eye_wire: float
):
    needed = hole_for_ring(Section(Shape.ROUND, wire, wire), inside / 2, 0.0)
    assert shared_by_rings(wire, inside, eye_wire, needed + 0.02) < 1e-4
    assert shared_by_rings(wire, inside, eye_wire, needed - 0.2) > 0.02
