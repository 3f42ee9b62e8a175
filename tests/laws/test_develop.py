"""What must always hold of a pattern: it closes when rolled up, and bending neither stretches nor shrinks it.

Exact mathematics throughout: developing a surface keeps lengths in it, so rolling up the flat must find the surface.
"""

import math
import os
from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bickern.geometry import polygon
from bickern.geometry.develop import (
    Development,
    Edge,
    Rim,
    bowl,
    cap_sizes,
    cone,
    cylinder,
    generators,
    moved,
    oblique_cone,
    oblong_rim,
    oval_rim,
    pyramid,
    rectangle_rim,
    rectangular_frustum,
    roll_up,
    round_rim,
    seam_gap,
    split,
    square_to_round,
    transition,
)
from bickern.geometry.develop.rolling import CylinderRoll, ParallelRoll
from bickern.geometry.develop.transition import least_folding
from bickern.geometry.polygon import Line, Point, on_seg
from bickern.measure.units.words import Read

OFTEN = 20 if os.environ.get("BICKERN_SOAK") else 1
"""How many times the sample of `make test` is tried in `make soak`."""

CLOSES = 5e-5
"""A pattern that closes to 0.05 mm is closer than any hand can cut."""

radii = st.floats(0.01, 0.5)
heights = st.floats(0.01, 1.0)
shifts = st.tuples(st.floats(-0.3, 0.3), st.floats(-0.3, 0.3))
laws = settings(max_examples=40 * OFTEN, deadline=None)


def got(read: Read[Development]) -> Development:
    assert read.value is not None, read.findings
    return read.value


def unlike(a: float, b: float) -> float:
    return b if abs(a - b) > 1e-3 * a else b * 1.5


any_cone = st.builds(lambda a, b, h: got(cone(a, unlike(a, b), h)), radii, radii, heights)
any_point = st.builds(lambda a, h: got(cone(a, 0.0, h)), radii, heights)
any_cylinder = st.builds(
    lambda r, h, cut: got(cylinder(r, h + r * math.tan(abs(cut)), cut)), radii, heights, st.floats(-1.2, 1.2)
)
any_leaning = st.builds(lambda a, b, h, o: got(oblique_cone(a, b, h, o)), radii, radii, heights, shifts)
any_pyramid = st.builds(
    lambda n, a, b, h, o: got(pyramid(n, a, b, h, o)), st.integers(3, 12), radii, st.floats(0.0, 0.4), heights, shifts
)
any_hopper = st.builds(
    lambda a, b, h, o: got(rectangular_frustum(a, b, h, o)),
    st.tuples(radii, radii),
    st.tuples(radii, radii),
    heights,
    shifts,
)
any_square_to_round = st.builds(
    lambda x, y, r, h, o: got(square_to_round(x, y, r, h, o, tolerance=5e-4)),
    radii,
    radii,
    radii,
    st.floats(0.05, 1.0),
    shifts,
)
smooth = st.one_of(any_cone, any_point, any_cylinder, any_leaning)
flat_sided = st.one_of(any_pyramid, any_hopper)


def along(development: Development, name: str, count: int) -> list[Point]:
    """Points along an edge at even lengths."""
    edge = development.edge(name)
    if edge is None:
        return []
    marks = np.cumsum([0.0, *(polygon.seg_length(seg) for seg in edge.segs)])
    out = []
    for s in np.linspace(0.0, marks[-1], count):
        k = min(int(np.searchsorted(marks, s, side="right")) - 1, len(edge.segs) - 1)
        out.append(on_seg(edge.segs[k], (s - marks[k]) / (marks[k + 1] - marks[k])))
    return out


@laws
@given(st.one_of(smooth, flat_sided))
def test_exact_patterns_close_when_rolled_up(made: Development) -> None:
    assert polygon.closed_gap(made.outline) < 1e-9
    assert seam_gap(made) < CLOSES


def test_a_pattern_that_runs_over_itself_is_called_out_and_still_closes() -> None:
    read = transition(oval_rim(0.3, 0.05), oval_rim(0.05, 0.3, (0.0, 0.0, 0.05)))
    assert [f.name for f in read.findings] == ["pattern-overlaps"]
    assert seam_gap(got(read)) < CLOSES


@settings(max_examples=12 * OFTEN, deadline=None)
@given(any_square_to_round)
def test_triangulated_patterns_close_when_folded_up(made: Development) -> None:
    assert seam_gap(made) < min(CLOSES, made.stray)


@laws
@given(smooth)
def test_bending_keeps_lengths_along_the_edges(made: Development) -> None:
    for name in ("base", "top", "first", "last"):
        flat = along(made, name, 3001)
        if not flat:
            continue
        there = np.array(roll_up(made, flat))
        walked = np.linalg.norm(np.diff(there, axis=0), axis=1).sum()
        edge = made.edge(name)
        assert edge is not None
        # the steps' chords are shorter than the bent edge by less than 1e-4; chords of a full circle with sagitta t are
        # short by 2 pi t / 3 in all, once in the flat's straights and once in the table the roll goes by
        assert walked == pytest.approx(edge.length, abs=1e-4 * edge.length + 4 * math.pi / 3 * made.stray)


@laws
@given(st.one_of(smooth, flat_sided))
def test_generators_keep_their_lengths(made: Development) -> None:
    for line in generators(made, 7):
        low, high = roll_up(made, [line.start, line.end])
        assert math.dist(low, high) == pytest.approx(math.dist(line.start, line.end), abs=1e-9)
        middle = roll_up(made, [on_seg(line, 0.5)])[0]
        assert middle == pytest.approx([(a + b) / 2 for a, b in zip(low, high, strict=True)], abs=1e-9)


@laws
@given(radii, radii, heights)
def test_a_rolled_up_cone_stands_on_its_circles(a: float, b: float, h: float) -> None:
    made = got(cone(a, unlike(a, b), h))
    for name, radius, height in (("base", a, 0.0), ("top", unlike(a, b), h)):
        for x, y, z in roll_up(made, along(made, name, 9)):
            assert math.hypot(x, y) == pytest.approx(radius, rel=1e-9)
            assert z == pytest.approx(height, abs=1e-9)


@laws
@given(radii, radii, heights, shifts)
def test_a_rolled_up_leaning_cone_stands_on_its_circles(
    a: float, b: float, h: float, offset: tuple[float, float]
) -> None:
    made = got(oblique_cone(a, b, h, offset))
    for name, radius, height, centre in (("base", a, 0.0, (0.0, 0.0)), ("top", b, h, offset)):
        for x, y, z in roll_up(made, along(made, name, 40)):
            assert math.hypot(x - centre[0], y - centre[1]) == pytest.approx(radius, abs=2 * made.stray + 1e-9)
            assert z == pytest.approx(height, abs=2 * made.stray + 1e-9)


@laws
@given(radii, st.floats(-1.2, 1.2), heights)
def test_the_cut_end_of_a_cylinder_lies_in_one_plane(r: float, cut: float, h: float) -> None:
    height = h + r * math.tan(abs(cut))
    made = got(cylinder(r, height, cut))
    for x, y, z in roll_up(made, along(made, "top", 50)):
        assert math.hypot(x, y) == pytest.approx(r, rel=1e-9)
        assert z == pytest.approx(height - x * math.tan(cut), abs=made.stray + 1e-9)


@settings(max_examples=12 * OFTEN, deadline=None)
@given(st.floats(0.05, 0.3), st.floats(0.05, 0.3), st.floats(0.05, 0.3), st.floats(0.1, 0.5), st.floats(-0.4, 0.4))
def test_a_folded_up_transition_ends_on_both_rims(x: float, y: float, r: float, h: float, tilt: float) -> None:
    low, high = oblong_rim(x, y, tolerance=5e-4), round_rim(r, (0.01, 0.02, h + r), tilt, 5e-4)
    made = got(transition(low, high))
    base, top = made.edge("base"), made.edge("top")
    assert base is not None
    assert top is not None
    flat_low = [base.segs[0].start, *(seg.end for seg in base.segs)] if all_lines(base) else []
    flat_high = [top.segs[-1].end, *(seg.start for seg in reversed(top.segs))] if all_lines(top) else []
    assert np.array(roll_up(made, flat_low)) == pytest.approx(np.array(low.places), abs=1e-9)
    assert np.array(roll_up(made, flat_high)) == pytest.approx(np.array(high.places), abs=1e-9)


def all_lines(edge: Edge) -> bool:
    return all(isinstance(seg, Line) for seg in edge.segs)


@settings(max_examples=12 * OFTEN, deadline=None)
@given(st.floats(0.05, 0.3), st.floats(0.05, 0.3), st.floats(0.1, 0.5))
def test_a_transition_has_the_area_of_its_triangles(x: float, y: float, h: float) -> None:
    low, high = oval_rim(x, y, tolerance=5e-4), rectangle_rim(y, x, (0.0, 0.0, h))
    assert polygon.area(got(transition(low, high)).outline) == pytest.approx(triangle_area(low, high), rel=1e-9)


def triangle_area(low: Rim, high: Rim) -> float:
    total = 0.0
    steps = least_folding(low, high)
    for (i, j), (k, l) in pairwise(steps):
        third = low.places[k] if k > i else high.places[l]
        a, b, c = (np.array(p) for p in (low.places[i], high.places[j], third))
        total += float(np.linalg.norm(np.cross(b - a, c - a))) / 2
    return total


@laws
@given(radii, radii, heights)
def test_the_pattern_of_a_cone_has_its_area(a: float, b: float, h: float) -> None:
    b = unlike(a, b)
    lateral = math.pi * (a + b) * math.hypot(h, a - b)  # exact mathematics
    assert polygon.area(got(cone(a, b, h)).outline) == pytest.approx(lateral, rel=1e-9)


@laws
@given(st.one_of(smooth, flat_sided), st.integers(2, 5))
def test_parts_close_one_on_the_other_and_lose_no_metal(made: Development, count: int) -> None:
    read = split(made, count)
    assert read.value is not None
    parts = read.value
    assert len(parts) == count
    assert sum(polygon.area(part.outline) for part in parts) == pytest.approx(polygon.area(made.outline), rel=1e-9)
    assert all(polygon.closed_gap(part.outline) < 1e-9 for part in parts)
    assert seam_gap(*parts) < CLOSES
    lead = "base" if made.edge("base") else "top"
    whole, pieces = made.edge(lead), [part.edge(lead) for part in parts]
    assert whole is not None
    assert [p.length for p in pieces if p] == pytest.approx([whole.length / count] * count, abs=1e-9)


@laws
@given(st.one_of(any_cone, any_leaning, flat_sided), st.floats(-1, 1), st.floats(-1, 1), st.floats(-3, 3))
def test_where_the_pattern_lies_on_the_sheet_changes_nothing(
    made: Development, dx: float, dy: float, turn: float
) -> None:
    if isinstance(made.roll, CylinderRoll | ParallelRoll):  # equal ends: a cylinder's pattern keeps its height along y
        dy = turn = 0.0
    there = moved(made, dx, dy, turn)
    before = roll_up(made, along(made, "first", 5))
    after = roll_up(there, along(there, "first", 5))
    assert np.array(after) == pytest.approx(np.array(before), abs=1e-9)


# ---- the figures can fail


def test_a_pattern_cut_short_shows_its_gap() -> None:
    made = got(cone(0.1, 0.02, 0.1))
    seam = made.seams[0]
    far = math.dist(seam.last.start, (0.0, 0.0))

    def swung(p: Point, angle: float) -> Point:
        return polygon.point_moved(p, turn=angle)

    short = Line(swung(seam.last.start, -math.radians(1)), swung(seam.last.end, -math.radians(1)))
    gap = seam_gap(replace(made, seams=(replace(seam, last=short),)))
    # one degree short in the flat leaves far * 1 degree open along the rim; the gap is its chord round the base
    open_angle = far * math.radians(1) / 0.1
    assert gap == pytest.approx(2 * 0.1 * math.sin(open_angle / 2), rel=1e-9)


def test_a_strip_folded_a_degree_too_little_shows_its_gap() -> None:
    made = got(pyramid(4, 0.2, 0.1, 0.15))
    roll = made.roll
    assert hasattr(roll, "facets")
    facets = tuple(replace(f, angle=f.angle + math.radians(1)) if f.angle else f for f in roll.facets)
    assert seam_gap(replace(made, roll=replace(roll, facets=facets))) > 1e-3


# ---- convergence: a numerical method is proved by its order


def test_the_rim_of_a_leaning_cone_converges_with_the_square_of_the_step() -> None:
    def short(tolerance: float) -> float:
        edge = got(oblique_cone(0.1, 0.04, 0.2, (0.08, 0.0), tolerance)).edge("base")
        assert edge is not None
        return 2 * math.pi * 0.1 - edge.length  # the base rim is a circle, flat or rolled

    rough, fine = short(4e-5), short(1e-5)  # a quarter of the sagitta: half the step
    assert rough > fine > 0
    assert rough / fine == pytest.approx(4.0, rel=0.03)


def test_a_leaning_cone_with_its_top_over_its_base_is_a_right_one() -> None:
    right, nearly = got(cone(0.1, 0.04, 0.2)), got(oblique_cone(0.1, 0.04, 0.2, (1e-7, 0.0), 1e-7))
    assert polygon.area(nearly.outline) == pytest.approx(polygon.area(right.outline), rel=1e-5)
    assert polygon.bounds(nearly.outline)[1] == pytest.approx(polygon.bounds(right.outline)[1], abs=1e-5)


# ---- the dish keeps areas, not lengths


@laws
@given(radii, st.floats(0.05, 2.0))
def test_a_dished_disc_keeps_the_area_of_every_ring(rim: float, share: float) -> None:
    depth = share * rim
    sizes = cap_sizes(rim, depth)
    made = got(bowl(rim, depth))
    for part in (0.2, 0.7, 1.0):
        x, y, z = roll_up(made, [(part * sizes.disc, 0.0)])[0]
        assert y == 0.0
        assert math.pi * (x * x + z * z) == pytest.approx(math.pi * (part * sizes.disc) ** 2, rel=1e-9)
        assert math.hypot(x, z - sizes.ball) == pytest.approx(sizes.ball, rel=1e-9)
    assert (x, z) == pytest.approx((rim, depth), rel=1e-9, abs=1e-9)
