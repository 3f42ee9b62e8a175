"""What must always hold of rings, coils, chain and joints, against exact geometry and outside libraries."""

import os
from math import cos, pi, sin, sqrt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad
from shapely.geometry import LineString, MultiPoint, Point, box

from bickern.iron.section import Section, outline
from bickern.measure.units.words import Shape
from bickern.parts.joint.bundle import bundle_girth
from bickern.parts.joint.holes import hole_needed
from bickern.parts.joint.rules import wrap_length
from bickern.parts.ring.chain import nearest_links
from bickern.parts.ring.lengths import loop_of, up_to
from bickern.parts.ring.reckon import reckon_ring
from bickern.parts.ring.spec import ChainSpec, Closing, RingResult, RingRules, RingSpec
from bickern.parts.ring.strain import bent_tighter, opening_strain, ratio_of, spring_ratio, spring_ratio_round, sprung

OFTEN = 20 if os.environ.get("BICKERN_SOAK") else 1
"""How many times the sample of `make test` is tried in `make soak`."""

STEEL = 7850.0
wires = st.floats(0.002, 0.03)
shares = st.floats(1.2, 12.0)
LAWS = settings(max_examples=60 * OFTEN, deadline=None)


def _round(d: float) -> Section:
    return Section(Shape.ROUND, d, d)


def _ring(spec: RingSpec, rules: RingRules | None = None) -> RingResult:
    result = reckon_ring(spec, rules or RingRules(), STEEL).value
    assert result is not None
    return result


@LAWS
@given(wires, shares, st.floats(1.0, 4.0))
def test_length_is_the_middle_line_of_the_band_shapely_draws(d: float, share: float, longer: float):
    across, long = share * d, share * d * longer
    spine = LineString([(0, 0), (0, long - across)]) if long > across else Point(0, 0)
    middle = spine.buffer(across / 2 + d / 2, quad_segs=256)
    ring = _ring(RingSpec("ring", _round(d), "mild", inside_across=across, inside_long=long))
    assert ring.bare == pytest.approx(middle.exterior.length, rel=2e-5)  # 1024 chords: short by 2e-6


@pytest.mark.parametrize(("d", "inside"), [(0.008, 0.03), (0.012, 0.1)])
def test_mass_is_that_of_the_torus(d: float, inside: float):
    # exact mathematics, by way of trimesh's own torus; 256 x 256 faces lose 3e-4 of it
    import trimesh

    torus = trimesh.creation.torus((inside + d) / 2, d / 2, major_sections=256, minor_sections=256)
    ring = _ring(RingSpec("ring", _round(d), "mild", inside_across=inside))
    assert ring.mass / STEEL == pytest.approx(torus.volume, rel=5e-4)


def test_half_round_holds_the_volume_of_its_own_turned_shape():
    # a half disc of radius a, flat inside, turned round the axis: integral of 2 pi x over it (scipy)
    a, inside = 0.006, 0.04
    turned, _ = quad(lambda h: 2 * pi * (inside / 2 + h) * 2 * sqrt(a**2 - h**2), 0, a, epsabs=0)
    ring = _ring(RingSpec("ring", Section(Shape.HALF_ROUND, 2 * a, a), "mild", inside_across=inside))
    assert ring.mass / STEEL == pytest.approx(turned, rel=1e-9)


@LAWS
@given(wires, shares)
def test_inside_mean_and_outside_say_the_same_ring(d: float, share: float):
    across = share * d
    by_inside = _ring(RingSpec("ring", _round(d), "mild", inside_across=across))
    by_mean = _ring(RingSpec("ring", _round(d), "mild", mean_across=across + d))
    by_outside = _ring(RingSpec("ring", _round(d), "mild", outside_across=across + 2 * d))
    assert by_mean.bare == pytest.approx(by_inside.bare, rel=1e-12)
    assert by_outside.bare == pytest.approx(by_inside.bare, rel=1e-12)


@LAWS
@given(wires, shares, st.sampled_from(["none", "half a thickness", "one thickness"]))
def test_cut_this_never_falls_short_and_never_wastes_a_mark(d: float, share: float, weld: str):
    rules = RingRules(weld=weld)
    ring = _ring(RingSpec("ring", _round(d), "mild", inside_across=share * d, closing=Closing.WELDED), rules)
    assert -1e-5 * rules.tape < ring.cut_this - ring.stock.value < rules.tape
    assert ring.stock.low <= ring.stock.value <= ring.stock.high
    assert ring.stock.value == pytest.approx(ring.bare + ring.weld)


@LAWS
@given(st.floats(0.01, 3.0))
def test_a_length_on_the_mark_stays_there(length: float):
    once = up_to(length, 0.001)
    assert up_to(once, 0.001) == pytest.approx(once, abs=1e-12)


def _moment_by_summing(radius: float, depth: float, wide: object, y: float, e: float) -> float:
    """Moment of an elastic and perfectly plastic section, summed numerically."""
    assert callable(wide)
    half, core = depth / 2, min(depth / 2, radius * y / e)
    inner, _ = quad(lambda h: wide(h) * h * e * h / radius, 0, core, epsabs=1e-13, epsrel=1e-10)
    outer, _ = quad(lambda h: wide(h) * h * y, core, half, epsabs=1e-13, epsrel=1e-10)
    return 2 * (inner + outer)


@LAWS
@given(st.floats(2.0, 300.0))
def test_spring_back_is_the_moment_let_go_rectangle(share: float):
    t, y, e = 0.005, 300e6, 205e9
    radius = share * t
    moment = _moment_by_summing(radius, t, lambda h: 1.0, y, e)
    kept = 1 - moment / (e * t**3 / 12) * radius  # radius before over after
    assert spring_ratio(radius, t, y, e) == pytest.approx(kept, abs=1e-7)


@LAWS
@given(st.floats(2.0, 300.0))
def test_spring_back_is_the_moment_let_go_round(share: float):
    d, y, e = 0.005, 300e6, 205e9
    radius = share * d
    moment = _moment_by_summing(radius, d, lambda h: 2 * sqrt(max(0.0, (d / 2) ** 2 - h**2)), y, e)
    kept = 1 - moment / (e * pi * d**4 / 64) * radius
    assert spring_ratio_round(radius, d, y, e) == pytest.approx(kept, abs=1e-6)


def test_wire_that_never_yields_springs_straight():
    assert sprung(_round(0.001), 1.0, 300e6, 205e9) == float("inf")
    assert ratio_of(Section(Shape.SQUARE, 0.001, 0.001), 1.0, 300e6, 205e9) == 0


@LAWS
@given(wires, st.floats(1.2, 200.0), st.sampled_from([Shape.ROUND, Shape.SQUARE]))
def test_bending_tighter_undoes_the_spring_back(d: float, share: float, shape: Shape):
    wire, wanted = Section(shape, d, d), share * d
    tight = bent_tighter(wire, wanted, 300e6, 205e9)
    assert 0 < tight < wanted
    assert sprung(wire, tight, 300e6, 205e9) == pytest.approx(wanted, rel=1e-9)


@LAWS
@given(wires, shares, st.integers(1, 200), st.booleans())
def test_winding_on_the_mandrel_that_was_found_gives_the_ring_asked(d: float, share: float, n: int, welded: bool):
    closing = Closing.WELDED if welded else Closing.BUTTED
    asked = RingSpec("ring", _round(d), "mild", inside_across=share * d, closing=closing, wound=True, make=n)
    found = _ring(asked)
    assert found.coil is not None
    assert found.coil.inside_after_cut == pytest.approx(share * d, rel=1e-9)
    again = RingSpec(
        "ring", _round(d), "mild", share * d, closing=closing, wound=True, make=n, mandrel=found.coil.mandrel
    )
    wound = _ring(again)
    assert wound.coil is not None
    assert wound.coil.inside_after_cut == pytest.approx(share * d, rel=1e-7)
    assert wound.coil.wire == pytest.approx(found.coil.wire, rel=1e-7)
    assert found.coil.wire >= n * (found.bare + found.weld + RingRules().kerf)


@LAWS
@given(wires, shares)
def test_opening_sideways_is_near_the_evenly_twisted_helix(d: float, share: float):
    # exact geometry: a ring drawn out evenly to a helix of rise d has twist d/(2 pi R^2); elastic rings twist 6 % more
    # opposite the gap. Shear at the skin is twist x d/2, and over sqrt(3) as a pull
    radius = share * d
    even = d / (2 * pi * radius**2) * d / 2 / sqrt(3)
    assert even < opening_strain(_round(d), radius) < 1.1 * even


def test_opening_sideways_by_summing_castigliano():
    # split ring, sideways pull P at its ends: bending P R sin a, twisting P R (1 - cos a), summed by scipy
    d, radius, n = 0.005, 0.03, 0.3
    bend, _ = quad(lambda a: (radius**2) * sin(a) ** 2 * radius, 0, 2 * pi)
    twist, _ = quad(lambda a: (radius**2) * (1 - cos(a)) ** 2 * radius, 0, 2 * pi)
    ei = 205e9 * pi * d**4 / 64
    gj = ei / (1 + n)
    pull = d / (bend / ei + twist / gj)
    skin = 2 * pull * radius / gj * d / 2 / sqrt(3)
    assert opening_strain(_round(d), radius) == pytest.approx(skin, rel=1e-9)


@LAWS
@given(st.floats(0.01, 0.2), st.floats(2.0, 500.0))
def test_no_other_count_of_links_is_nearer(pitch: float, share: float):
    length = pitch * share
    links = nearest_links(length, pitch)
    miss = abs(links * pitch - length)
    assert all(miss <= abs((links + more) * pitch - length) + 1e-12 for more in (-1, 1))


@LAWS
@given(wires, st.floats(2.2, 6.0), st.integers(2, 300))
def test_a_chain_is_its_links(d: float, share: float, links: int):
    spec = RingSpec("link", _round(d), "mild", inside_across=share * d, chain=ChainSpec(links=links))
    ring = _ring(spec)
    assert ring.chain is not None
    assert ring.chain.mass == pytest.approx(links * ring.mass)
    assert ring.chain.bar == pytest.approx(links * ring.stock.value)
    assert ring.chain.outside == pytest.approx(links * share * d + 2 * d)
    assert ring.chain.last_lies.startswith("in the same plane" if links % 2 else "a quarter turn")


@settings(max_examples=40 * OFTEN, deadline=None)
@given(st.floats(0.003, 0.03), st.floats(1.0, 6.0), st.floats(0.05, 0.9))
def test_hole_needed_is_what_shapely_measures(d: float, share: float, of_radius: float):
    # the ring as a flat band, cut to the thickness of the plate: how far it reaches across is the hole it needs
    radius = share * d
    plate = 2 * radius * of_radius
    band = Point(0, 0).buffer(radius + d, quad_segs=2048).difference(Point(0, 0).buffer(radius, quad_segs=2048))
    within = band.intersection(box(0, -plate / 2, 2 * (radius + d), plate / 2))
    left, _, right, _ = within.bounds
    assert hole_needed(d, radius, plate) == pytest.approx(right - left, rel=1e-4)


@LAWS
@given(st.lists(st.tuples(st.sampled_from([Shape.FLAT, Shape.ROUND]), st.floats(0.003, 0.03), st.floats(0.2, 1.0)),
                min_size=1, max_size=4))  # fmt: skip
def test_girth_is_the_hull_shapely_finds(bars: list[tuple[Shape, float, float]]):
    sections = [Section(s, w, w if s is Shape.ROUND else w * k) for s, w, k in bars]
    points, up = [], 0.0
    for section in sections:
        points += [(x, y + up + section.thick / 2) for x, y in outline(section, 480)]
        up += section.thick
    assert bundle_girth(sections) == pytest.approx(MultiPoint(points).convex_hull.length, rel=1e-9)


@LAWS
@given(st.floats(0.005, 0.05), st.floats(0.2, 1.0), st.floats(0.001, 0.01))
def test_a_turn_of_wrap_is_the_line_half_a_thickness_out(w: float, k: float, t: float):
    around = box(0, 0, w, w * k).buffer(t / 2, quad_segs=256).exterior.length
    assert wrap_length(1, 2 * w * (1 + k), t) == pytest.approx(around, rel=1e-5)


odd_askings = st.builds(
    RingSpec,
    st.just("ring"),
    st.sampled_from([0.0, 0.003, 0.02]).map(_round),
    st.just("mild"),
    inside_across=st.sampled_from([None, -1.0, 0.0, 1e-9, 0.004, 0.02, 1.0]),
    inside_long=st.sampled_from([None, 0.0, 0.001, 0.02, 0.5]),
    closing=st.sampled_from(list(Closing)),
    chain=st.sampled_from([None, ChainSpec(), ChainSpec(links=0), ChainSpec(length=-1.0), ChainSpec(length=1.0)]),
    wound=st.booleans(),
    mandrel=st.sampled_from([0.0, 0.02]),
    make=st.integers(-2, 3),
)


@settings(max_examples=300 * OFTEN, deadline=None)
@given(odd_askings)
def test_no_asking_ends_in_a_trace_or_in_less_than_nothing(spec: RingSpec):
    read = reckon_ring(spec, RingRules(), STEEL)
    assert read.value is not None or any(f.stops for f in read.findings)
    if read.value is not None:
        assert min(read.value.bare, read.value.inside_across, read.value.cut_this, read.value.mass) > 0
        assert loop_of(spec) is not None
