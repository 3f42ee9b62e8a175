"""Overall sizes against closed forms and against brute force."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bickern.geometry.extent import Axes, Support, boxy, extent, main_axes, main_axis, rounded
from bickern.geometry.path import Arc, Kink, Leg, Spiral, Straight, frames, run_length

INCH = 0.0254
BODY = Axes()


def test_a_ring_of_round_bar() -> None:
    assert extent((Arc(0.05, 2 * math.pi),), rounded(lambda s: 0.006)).sizes == pytest.approx(
        (0.112, 0.112, 0.012), abs=1e-9
    )


def test_a_ring_of_square_bar() -> None:
    assert extent((Arc(0.05, 2 * math.pi),), boxy(lambda s: 0.005, lambda s: 0.007)).sizes == pytest.approx(
        (0.11, 0.11, 0.014), abs=1e-9
    )


def test_an_s_hook_reads_its_height_along_the_straight() -> None:
    # 1/4 round, half circles of 1 inside, 1 1/2 straight between, 1/2 tips: 1.5 + 2 (0.5 + 0.25) = 3.00 high,
    # 2 (1 + 2 x 0.25) less the bar that both share = 2.75 wide (exact mathematics)
    mean = 0.625 * INCH
    legs = (
        Straight(0.5 * INCH),
        Arc(mean, math.pi),
        Straight(1.5 * INCH),
        Arc(mean, math.pi, math.pi),
        Straight(0.5 * INCH),
    )
    box = extent(legs, rounded(lambda s: 0.125 * INCH))
    assert [v / INCH for v in box.sizes] == pytest.approx([3.0, 2.75, 0.25], abs=1e-7)
    assert run_length(legs) / INCH == pytest.approx(2.5 + 1.25 * math.pi)


def test_a_square_corner_reaches_its_outside_faces() -> None:
    legs = (Straight(1.0), Kink(math.pi / 2), Straight(2.0))
    box = extent(legs, boxy(lambda s: 0.1, lambda s: 0.2), BODY)
    assert box.low == pytest.approx((0.0, -0.1, -0.2))
    assert box.high == pytest.approx((1.1, 2.0, 0.2))


def test_a_sharp_corner_seen_along_its_mitre() -> None:
    half = math.pi / 4
    axes = Axes((math.cos(half), -math.sin(half), 0.0), (math.sin(half), math.cos(half), 0.0), (0.0, 0.0, 1.0))
    box = extent((Straight(1.0), Kink(math.pi / 2), Straight(1.0)), boxy(lambda s: 0.1, lambda s: 0.1), axes)
    assert box.high[0] == pytest.approx(1.1 * math.cos(half) - (-0.1) * math.sin(half), abs=1e-12)


def test_a_taper_round_a_bend_is_followed() -> None:
    legs = (Arc(0.05, math.pi),)
    length = run_length(legs)
    box = extent(legs, rounded(lambda s: 0.01 * (1 - s / length)), BODY)
    s = np.linspace(0, length, 200_001)
    far = 0.05 * np.sin(s / 0.05) + 0.01 * (1 - s / length) * np.abs(np.sin(s / 0.05))
    assert box.high[0] == pytest.approx(far.max(), abs=1e-9)


@settings(max_examples=25, deadline=None)
@given(
    st.lists(
        st.one_of(
            st.builds(Straight, st.floats(0.01, 0.2)),
            st.builds(Arc, st.floats(0.01, 0.1), st.floats(0.2, 6.0), st.floats(0.0, 6.0)),
            st.builds(
                Spiral, st.floats(0.01, 0.05), st.floats(0.01, 0.08), st.floats(0.5, 6.0), roll=st.floats(0.0, 6.0)
            ),
        ),
        min_size=1,
        max_size=4,
    ).map(tuple),
    st.sampled_from([boxy(lambda s: 0.004, lambda s: 0.009), rounded(lambda s: 0.005)]),
)
def test_brute_force_finds_nothing_farther(legs: tuple[Leg, ...], support: Support) -> None:
    box = extent(legs, support, BODY)
    many = frames(legs, list(np.linspace(0, run_length(legs), 1500)))
    for axis in range(3):
        for sign, end in ((1.0, box.high[axis]), (-1.0, -box.low[axis])):
            d = np.zeros(3)
            d[axis] = sign
            brute = max(
                float(o @ d) + support(float(s), float(l @ d), float(u @ d))
                for s, o, l, u in zip(many.s, many.origin, many.left, many.up, strict=True)
            )
            assert brute <= end + 1e-6
            assert end <= brute + 2e-4  # the brute force itself steps past the peak


def test_main_axis_rules() -> None:
    assert main_axis((Straight(1.0), Arc(1.0, 1.0), Straight(0.5))) == pytest.approx((1, 0, 0))
    assert main_axis((Arc(1.0, math.pi),)) == pytest.approx((0, 1, 0), abs=1e-12)  # no straight: end to end
    assert main_axis((Arc(1.0, 2 * math.pi),)) == pytest.approx((1, 0, 0))  # a closed ring: the first direction


def test_across_lies_in_the_plane_of_the_first_bend() -> None:
    axes = main_axes((Straight(0.1), Arc(0.05, 1.0, math.pi / 2), Straight(0.05)))
    assert axes.reach == pytest.approx((1, 0, 0))
    assert abs(axes.across[2]) == pytest.approx(1.0)
    assert abs(axes.rise[1]) == pytest.approx(1.0)
