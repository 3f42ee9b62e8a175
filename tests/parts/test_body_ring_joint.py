"""Solid rings, rivets, pins, collars and wraps: sizes as told, metal as exact mathematics has it."""

from math import pi

import numpy as np
import pytest

from bickern.geometry.pose import Pose
from bickern.geometry.solid.combine import overlap
from bickern.geometry.solid.solid import Fineness, moved
from bickern.geometry.solid.weigh import bounds, is_closed, volume
from bickern.iron.section import Section, area
from bickern.measure.units.words import Shape
from bickern.parts.joint.body import collar_body, pin_body, rivet_body, wrap_body
from bickern.parts.joint.heads import Head, head_sizes, head_volume
from bickern.parts.ring.body import ring_body
from bickern.parts.ring.reckon import reckon_ring
from bickern.parts.ring.spec import Closing, RingResult, RingRules, RingSpec

ROUND, SQUARE = Section(Shape.ROUND, 0.006, 0.006), Section(Shape.SQUARE, 0.006, 0.006)
HALF_ROUND, FLAT = Section(Shape.HALF_ROUND, 0.012, 0.006), Section(Shape.FLAT, 0.02, 0.004)


def ring(wire: Section, across: float, long: float | None = None, closing: Closing = Closing.BUTTED) -> RingResult:
    spec = RingSpec("ring", wire, "mild", across, inside_long=long, closing=closing)
    read = reckon_ring(spec, RingRules(), 7850.0)
    assert read.value is not None, read.findings
    return read.value


@pytest.mark.parametrize("fineness", list(Fineness))
@pytest.mark.parametrize("wire", [ROUND, SQUARE, HALF_ROUND, FLAT])
def test_a_ring_is_as_wide_as_told(wire: Section, fineness: Fineness) -> None:
    body = ring_body(ring(wire, 0.05), fineness)
    out = np.hypot(body.points[:, 0], body.points[:, 1])
    near = 2e-4 if fineness is Fineness.PREVIEW else 4e-5
    assert out.min() == pytest.approx(0.025, abs=near)
    assert out.max() == pytest.approx(0.025 + wire.thick, abs=near)
    low, high = bounds(body)
    assert (-low[2], high[2]) == pytest.approx((wire.width / 2,) * 2, rel=0.01)


def test_a_link_lies_the_long_way_along_x() -> None:
    low, high = bounds(ring_body(ring(ROUND, 0.02, 0.05), Fineness.FINE))
    assert high[0] - low[0] == pytest.approx(0.062, abs=3e-5)
    assert high[1] - low[1] == pytest.approx(0.032, abs=3e-5)


def test_a_half_round_ring_has_its_flat_inside() -> None:
    points = ring_body(ring(HALF_ROUND, 0.05), Fineness.FINE).points
    out, up = np.hypot(points[:, 0], points[:, 1]), np.abs(points[:, 2])
    assert up[out < 0.0252].max() == pytest.approx(0.006, rel=1e-2)
    assert up[out > 0.0308].max() < 0.002


@pytest.mark.parametrize("wire", [ROUND, SQUARE])
def test_an_open_ring_has_its_ends_side_by_side(wire: Section) -> None:
    closed, opened = ring_body(ring(wire, 0.03)), ring_body(ring(wire, 0.03, closing=Closing.OPEN))
    assert is_closed(opened)
    assert volume(opened) == pytest.approx(volume(closed), rel=1e-9)
    low, high = bounds(opened)
    assert high[2] - low[2] == pytest.approx(2 * wire.width, rel=0.02)


def test_two_links_of_a_chain_hang_in_each_other_without_meeting() -> None:
    link = ring_body(ring(ROUND, 0.016, 0.04))
    other = moved(link, Pose((0.0399, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 0.0, 1.0)))
    assert overlap(link, other) < 1e-12
    pulled = moved(link, Pose((0.0403, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 0.0, 1.0)))
    assert overlap(link, pulled) > 1e-10


@pytest.mark.parametrize("fineness", list(Fineness))
@pytest.mark.parametrize("head", list(Head))
def test_a_rivet_holds_its_shank_and_its_heads(head: Head, fineness: Fineness) -> None:
    body = rivet_body(0.006, 0.012, head, Head.SNAP, fineness)
    wanted = pi / 4 * 0.006**2 * 0.012 + head_volume(head, 0.006) + head_volume(Head.SNAP, 0.006)
    assert is_closed(body)
    assert volume(body) == pytest.approx(wanted, rel=1e-3)
    low, high = bounds(body)
    sunk = 0.0 if head is Head.COUNTERSUNK else head_sizes(head, 0.006)[1]
    assert (low[2], high[2]) == pytest.approx((-sunk, 0.012 + 0.6 * 0.006))


def test_a_pin_stands_out_at_both_ends() -> None:
    body = pin_body(0.01, 0.03, 0.01)
    assert volume(body) == pytest.approx(pi / 4 * 0.01**2 * 0.05, rel=1e-9)
    assert (bounds(body)[0][2], bounds(body)[1][2]) == pytest.approx((-0.01, 0.04))


def test_a_collar_goes_round_its_bundle() -> None:
    """A band of even thickness with round corners holds girth + pi thicknesses (exact)."""
    body = collar_body(FLAT, 0.03, 0.012, Fineness.FINE)
    assert is_closed(body)
    assert volume(body) == pytest.approx(area(FLAT) * (2 * 0.042 + pi * 0.004), rel=1e-4)
    assert bounds(body)[1] == pytest.approx((0.019, 0.010, 0.010), abs=1e-5)


@pytest.mark.parametrize("bar", [ROUND, SQUARE, FLAT])
def test_a_wrap_lies_turn_beside_turn(bar: Section) -> None:
    body = wrap_body(bar, 0.01, 3.0)
    assert is_closed(body)
    assert volume(body) == pytest.approx(area(bar) * 3 * pi * (0.02 + bar.thick), rel=1e-3)
    low, high = bounds(body)
    assert high[2] - low[2] == pytest.approx(4 * bar.width, rel=0.02)
    assert np.hypot(body.points[:, 0], body.points[:, 1]).min() == pytest.approx(0.01, abs=1e-4)
    assert -low[0] == pytest.approx(0.01 + bar.thick, abs=1e-4)
