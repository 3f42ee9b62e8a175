"""Paths: frames against closed forms and against their own derivatives."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bickern.geometry.path import (
    Arc,
    Kink,
    Leg,
    Spiral,
    SpiralKind,
    Straight,
    Turned,
    end_frame,
    frames,
    leg_length,
    leg_starts,
    place,
    run_length,
    sample,
    spiral_for_length,
)

rolls = st.floats(0.0, 2 * math.pi)
a_leg: st.SearchStrategy[Leg] = st.one_of(
    st.builds(Straight, st.floats(0.001, 0.5)),
    st.builds(Arc, st.floats(0.002, 0.2), st.floats(0.05, 7.0), rolls),
    st.builds(
        Spiral,
        st.floats(0.002, 0.1),
        st.floats(0.002, 0.1),
        st.floats(0.1, 9.0),
        st.sampled_from(list(SpiralKind)),
        rolls,
    ),
    st.builds(Kink, st.floats(0.0, 3.0), rolls),
    st.builds(Turned, st.floats(-7.0, 7.0)),
)
paths = st.lists(a_leg, min_size=1, max_size=6).map(tuple)


def close(a: tuple[float, ...], b: tuple[float, ...], tolerance: float = 1e-12) -> bool:
    return max(abs(x - y) for x, y in zip(a, b, strict=True)) <= tolerance


def test_a_quarter_to_the_left_runs_along_y() -> None:
    end = end_frame([Arc(2.0, math.pi / 2)])
    assert close(end.origin, (2.0, 2.0, 0.0))
    assert close(end.along, (0.0, 1.0, 0.0))
    assert close(end.up, (0.0, 0.0, 1.0))
    assert close(end.left, (-1.0, 0.0, 0.0))


@pytest.mark.parametrize(
    ("roll", "along"),
    [(0.0, (0, 1, 0)), (math.pi / 2, (0, 0, 1)), (math.pi, (0, -1, 0)), (3 * math.pi / 2, (0, 0, -1))],
    ids=["left", "up", "right", "down"],
)
def test_roll_says_which_way(roll: float, along: tuple[float, float, float]) -> None:
    assert close(end_frame([Kink(math.pi / 2, roll)]).along, along)


def test_bending_up_leans_the_reference_face_back() -> None:
    assert close(end_frame([Arc(1.0, math.pi / 2, math.pi / 2)]).up, (-1.0, 0.0, 0.0))


def test_a_turned_face_goes_from_left_toward_up() -> None:
    end = end_frame([Turned(math.pi / 2)])
    assert close(end.left, (0.0, 0.0, 1.0))
    assert close(end.up, (0.0, -1.0, 0.0))


def test_after_a_quarter_twist_left_is_up() -> None:
    assert close(end_frame([Straight(1.0), Turned(math.pi / 2), Arc(1.0, math.pi / 2)]).along, (0.0, 0.0, 1.0))


def test_a_full_ring_comes_back() -> None:
    end = end_frame([Arc(0.05, 2 * math.pi, 1.1)])
    assert close(end.origin, (0.0, 0.0, 0.0))
    assert close(end.along, (1.0, 0.0, 0.0))


def test_a_shallow_arc_keeps_its_digits() -> None:
    end = end_frame([Arc(1e6, 1e-7)])
    assert end.origin[1] == pytest.approx(1e6 * 1e-14 / 2, rel=1e-9)


def test_three_sharp_corners_close_a_square() -> None:
    side = (Straight(1.0), Kink(math.pi / 2))
    assert close(end_frame(side * 4).origin, (0.0, 0.0, 0.0))


def test_beyond_the_ends_it_goes_straight_on() -> None:
    legs = (Straight(1.0), Arc(1.0, math.pi / 2))
    assert close(place(legs, -0.5).origin, (-0.5, 0.0, 0.0))
    assert close(place(legs, run_length(legs) + 0.5).origin, (2.0, 1.5, 0.0))


@settings(max_examples=80, deadline=None)
@given(paths, st.floats(0.0, 1.0))
def test_frames_stay_square_and_of_unit_length(legs: tuple[Leg, ...], share: float) -> None:
    f = place(legs, share * run_length(legs))
    for a, b, dot in ((f.along, f.along, 1), (f.up, f.up, 1), (f.left, f.left, 1), (f.along, f.up, 0)):
        assert float(np.dot(a, b)) == pytest.approx(dot, abs=1e-9)


@settings(max_examples=60, deadline=None)
@given(paths, st.floats(0.0, 1.0))
def test_the_line_runs_along_its_own_direction_at_unit_speed(legs: tuple[Leg, ...], share: float) -> None:
    station = leg_starts(legs)[int(share * (len(legs) - 1))]
    if station.length < 1e-3:
        return
    h = 1e-5 * min(station.length, 0.005)
    s = station.s + station.length * (0.1 + 0.8 * share)
    a, b = place(legs, s - h), place(legs, s + h)
    step = (np.array(b.origin) - np.array(a.origin)) / (2 * h)
    assert step == pytest.approx(np.array(place(legs, s).along), abs=1e-5)


@settings(max_examples=40, deadline=None)
@given(paths)
def test_the_chords_of_a_sample_add_up_to_the_length(legs: tuple[Leg, ...]) -> None:
    dense = sample(legs, tolerance=1e-7)
    chords = np.linalg.norm(np.diff(dense.origin, axis=0), axis=1).sum()
    total = run_length(legs)
    assert chords <= total + 1e-9
    # an arc of angle a and sagitta t is longer than its chord by about 8 t^2 / (3 chord); 2e-4 is far above
    assert chords == pytest.approx(total, rel=2e-3)
    assert dense.s[-1] == pytest.approx(total, abs=1e-12)


@pytest.mark.parametrize("leg", [Arc(0.1, 3.0), Spiral(0.01, 0.1, 9.0), Spiral(0.1, 0.01, 9.0, SpiralKind.EQUIANGULAR)])
def test_chords_of_a_sample_stay_within_tolerance(leg: Leg) -> None:
    rough = sample((leg,), tolerance=5e-5)
    fine = frames((leg,), list(np.linspace(0, leg_length(leg), 4000)))
    for p in fine.origin[::7]:
        ab = rough.origin[1:] - rough.origin[:-1]
        t = np.clip(((p - rough.origin[:-1]) * ab).sum(1) / (ab * ab).sum(1), 0, 1)
        off = np.linalg.norm(rough.origin[:-1] + t[:, None] * ab - p, axis=1).min()
        assert off <= 5.5e-5


def test_a_kink_has_two_frames_at_one_place() -> None:
    dense = sample((Straight(1.0), Kink(math.pi / 2), Straight(1.0)))
    assert list(dense.s) == [0.0, 1.0, 1.0, 2.0]
    assert dense.along[1] == pytest.approx([1, 0, 0])
    assert dense.along[2] == pytest.approx([0, 1, 0], abs=1e-15)


def test_arrays_agree_with_single_places() -> None:
    legs = (Straight(0.1), Spiral(0.02, 0.05, 4.0, roll=1.0), Arc(0.05, 1.0, 2.0))
    many = frames(legs, [0.05, 0.2, 0.25])
    for i, s in enumerate(many.s):
        one = place(legs, float(s))
        assert many.origin[i] == pytest.approx(one.origin)
        assert many.left[i] == pytest.approx(one.left)


def test_the_spiral_leg_for_a_length() -> None:
    read = spiral_for_length(SpiralKind.ARCHIMEDEAN, start_radius=0.01, end_radius=0.05, length=0.2, roll=1.0)
    assert read.value is not None
    assert read.value.roll == 1.0
    assert leg_length(read.value) == pytest.approx(0.2, rel=1e-12)
