"""Spirals against quadrature of their definition, and against circles and polylines."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad

from bickern.geometry.curve import (
    Scroll,
    SpiralKind,
    angle_at,
    local_at,
    radius_and_rate,
    scroll_for_length,
    scroll_length,
)

radii = st.floats(0.002, 0.2)
angles = st.floats(0.1, 20.0)
kinds = st.sampled_from(list(SpiralKind))


def by_quadrature(scroll: Scroll, phi: float) -> float:
    def speed(a: float) -> float:
        return math.hypot(*radius_and_rate(scroll, a))

    return float(quad(speed, 0, phi, epsabs=1e-14, epsrel=1e-11, limit=400)[0])


@settings(max_examples=60, deadline=None)
@given(radii, radii, angles, kinds, st.floats(0.0, 1.0))
def test_length_is_the_integral_of_the_speed(
    r0: float, r1: float, angle: float, kind: SpiralKind, share: float
) -> None:
    scroll = Scroll(r0, r1, angle, kind)
    assert scroll_length(scroll, share * angle) == pytest.approx(
        by_quadrature(scroll, share * angle), rel=1e-9, abs=1e-12
    )


@pytest.mark.parametrize("kind", SpiralKind)
def test_a_spiral_of_one_radius_is_a_circle(kind: SpiralKind) -> None:
    assert scroll_length(Scroll(0.1, 0.1, math.pi, kind)) == pytest.approx(0.1 * math.pi, rel=1e-15)


@pytest.mark.parametrize("change", [1e-3, 1e-6, 1e-9, 1e-12])
def test_nearly_a_circle_loses_no_digits(change: float) -> None:
    exact = 5.0 * 0.1 * (1 + change / 2)  # to first order in the change: mean radius times angle
    assert scroll_length(Scroll(0.1, 0.1 * (1 + change), 5.0)) == pytest.approx(exact, rel=change**2 + 1e-14)


def test_archimedean_from_the_centre() -> None:
    # r = c phi: length c/2 (phi sqrt(1 + phi^2) + asinh phi), exact mathematics
    phi = 2.5 * math.pi
    exact = 0.01 / 2 * (phi * math.sqrt(1 + phi * phi) + math.asinh(phi))
    assert scroll_length(Scroll(0.0, 0.01 * phi, phi)) == pytest.approx(exact, rel=1e-14)


@settings(max_examples=60, deadline=None)
@given(radii, radii, angles, kinds, st.floats(0.0, 1.0))
def test_length_inverts(r0: float, r1: float, angle: float, kind: SpiralKind, share: float) -> None:
    scroll = Scroll(r0, r1, angle, kind)
    s = share * scroll_length(scroll)
    assert scroll_length(scroll, angle_at(scroll, s)) == pytest.approx(s, abs=1e-12)


@settings(max_examples=40, deadline=None)
@given(radii, radii, angles, kinds)
def test_it_starts_along_x_and_turns_with_its_own_tangent(r0: float, r1: float, angle: float, kind: SpiralKind) -> None:
    scroll = Scroll(r0, r1, angle, kind)
    assert local_at(scroll, 0.0) == pytest.approx((0.0, 0.0, 0.0), abs=1e-15)
    for phi in (0.0, 0.3 * angle, 0.9 * angle):
        h = 1e-6 * angle
        (xa, ya, _), (xb, yb, _) = local_at(scroll, phi), local_at(scroll, phi + h)
        turn = local_at(scroll, phi + h / 2)[2]
        slant = math.atan2(yb - ya, xb - xa)
        assert math.remainder(slant - turn, 2 * math.pi) == pytest.approx(0.0, abs=1e-5)


@settings(max_examples=60, deadline=None)
@given(radii, radii, angles, kinds, st.sampled_from(["r0", "r1", "angle", "length"]))
def test_the_missing_size_is_found(r0: float, r1: float, angle: float, kind: SpiralKind, missing: str) -> None:
    length = scroll_length(Scroll(r0, r1, angle, kind))
    sizes: dict[str, float | None] = {"r0": r0, "r1": r1, "angle": angle, "length": length}
    sizes[missing] = None
    read = scroll_for_length(kind, **sizes)
    if missing in ("r0", "r1") and read.value is None:  # the falling branch near the least radius is not taken
        return
    assert read.value is not None
    assert scroll_length(read.value) == pytest.approx(length, rel=1e-9)


def test_a_length_too_short_is_a_finding() -> None:
    read = scroll_for_length(SpiralKind.ARCHIMEDEAN, r0=0.01, r1=0.06, length=0.04)
    assert read.value is None
    assert read.findings[0].name == "scroll-impossible"


def test_two_open_sizes_are_a_finding() -> None:
    read = scroll_for_length(SpiralKind.ARCHIMEDEAN, r0=0.01, length=0.04)
    assert read.findings[0].name == "scroll-openings"
