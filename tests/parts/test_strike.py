"""The first touch of turning triangles: its closed form against what the triangles do, turned step by step."""

import math

import numpy as np
import pytest
from numpy.typing import NDArray

from bickern.geometry.solid.triangles import crossing, nearest
from bickern.parts.fit.swing.ahead import ahead_of, crossed, first_touch, skin_of
from bickern.parts.fit.swing.spans import spans_of
from bickern.parts.fit.swing.strike import first_strike

Array = NDArray[np.float64]
STEPS = np.radians(np.arange(0.25, 360, 0.25))


def turned(corners: Array, angle: float) -> Array:
    c, s = math.cos(angle), math.sin(angle)
    there: Array = corners @ np.array(((c, s, 0.0), (-s, c, 0.0), (0.0, 0.0, 1.0)))
    return there


def soup(rng: np.random.Generator, count: int, size: float) -> Array:
    """Triangles strewn about the z axis, up to 1 off it and 0.2 high."""
    angle, off = rng.uniform(0, math.tau, count), rng.uniform(0, 1, count)
    middle = np.stack((off * np.cos(angle), off * np.sin(angle), rng.uniform(-0.1, 0.1, count)), axis=1)
    return middle[:, None] + rng.uniform(-size, size, (count, 3, 3))


@pytest.mark.parametrize("way", [1.0, -1.0])
@pytest.mark.parametrize("seed", range(25))
def test_two_triangles_touch_at_the_strike_and_never_cross_before(seed: int, way: float) -> None:
    """Exact mathematics: before the first touch no edge of one goes through the other; at it they are no way apart."""
    rng = np.random.default_rng(seed)
    moving, still = soup(rng, 1, 0.4), soup(rng, 1, 0.4)
    if crossing(moving, still) is not None:
        return
    strike = first_strike(moving, still, way, math.tau)
    crosses = [a for a in STEPS if crossing(turned(moving, way * a), still) is not None]
    if strike.pair < 0:
        assert not crosses
        return
    assert all(a > strike.angle - 1e-9 for a in crosses)
    assert nearest(turned(moving, way * strike.angle), still)[0] < 1e-8


def test_the_seeds_above_hold_triangles_that_meet_and_some_that_never_do() -> None:
    met = []
    for seed in range(25):
        rng = np.random.default_rng(seed)
        met.append(first_strike(soup(rng, 1, 0.4), soup(rng, 1, 0.4), 1.0, math.tau).pair >= 0)
    assert 3 < sum(met) < 22


def test_a_corner_comes_to_a_plate() -> None:
    """A point 1 off the line comes to the plane y = 0.5 at 30 degrees (exact)."""
    still = np.array([[[0.0, 0.5, -1.0], [2.0, 0.5, -1.0], [1.0, 0.5, 2.0]]])
    moving = np.array([[[1.0, 0.0, 0.0], [0.9, -0.1, 0.01], [0.9, -0.1, -0.01]]])
    assert first_strike(moving, still, 1.0, math.pi).angle == pytest.approx(math.pi / 6, abs=1e-12)


def test_an_edge_comes_to_an_edge() -> None:
    """A post at (1, 0) meets a rail from (0.3, 0.8) to (0.9, 0.8) where its circle is so high: asin 0.8 (exact)."""
    post = np.array([[[1.0, 0.0, -1.0], [1.0, 0.0, 1.0], [0.9, -0.5, 0.0]]])
    rail = np.array([[[0.3, 0.8, 0.0], [0.9, 0.8, 0.0], [0.6, 2.0, 0.0]]])
    assert first_strike(post, rail, 1.0, math.pi).angle == pytest.approx(math.asin(0.8), abs=1e-12)


@pytest.mark.parametrize("way", [1.0, -1.0])
@pytest.mark.parametrize("seed", range(12))
def test_of_many_triangles_the_first_is_the_least_of_all_pairs(seed: int, way: float) -> None:
    rng = np.random.default_rng(100 + seed)
    moving, still = soup(rng, 45, 0.03), soup(rng, 60, 0.05)
    one, two = np.indices((45, 60)).reshape(2, -1)
    together = crossing(moving[one], still[two]) is not None
    ahead = ahead_of(skin_of([moving[:20], moving[20:]]), skin_of([still[:30], still[30:]]))
    assert ahead is not None
    assert (crossed(ahead) is not None) == together
    least, touch = first_strike(moving[one], still[two], way, math.pi), first_touch(ahead, way, math.pi)
    if least.pair < 0:
        assert touch is None
        return
    assert touch is not None
    assert touch.angle == pytest.approx(least.angle, abs=1e-12)
    assert (touch.moving, touch.still) == (int(one[least.pair] >= 20), int(two[least.pair] >= 30))


@pytest.mark.parametrize("seed", range(10))
def test_every_place_of_a_triangle_is_in_its_span(seed: int) -> None:
    rng = np.random.default_rng(seed)
    corners = soup(rng, 30, 0.3)
    spans = spans_of(corners)
    weights = rng.dirichlet((1.0, 1.0, 1.0), 200)
    places = np.einsum("kj,njd->nkd", weights, corners)
    off, high = np.hypot(places[:, :, 0], places[:, :, 1]), places[:, :, 2]
    assert (spans.near[:, None] <= off).all()
    assert (off <= spans.far[:, None]).all()
    assert (spans.low[:, None] <= high).all()
    assert (high <= spans.high[:, None]).all()
    round_it = np.arctan2(places[:, :, 1], places[:, :, 0]) - spans.mid[:, None]
    assert (np.abs((round_it + math.pi) % math.tau - math.pi) <= spans.half[:, None]).all()
