"""Leaning cones and cylinders between two level circles: true developments, their curves drawn as short straights.

Every point of the pattern lies where it belongs: generators keep their lengths, and the angle between them is the
integral of the turn of the generator, not the sum of chords. Only the straights between points leave the true curve.
"""

import math
from collections.abc import Callable, Sequence
from itertools import pairwise

from bickern.geometry.develop.pattern import Development, Seam, joined, strip_edges
from bickern.geometry.develop.rolling import FanRoll, ParallelRoll
from bickern.geometry.develop.turned import cone, far_apex, impossible
from bickern.geometry.polygon import Line, Point
from bickern.geometry.space import Vec, cross, dot, minus, mixed, norm, times, unit
from bickern.measure.units.words import Read

# five-point Gauss-Legendre places and weights on (0, 1): Abramowitz and Stegun, Handbook of Mathematical Functions,
# 1964, table 25.4 (from memory; the tests hold the integrals against another way of reckoning them)
_GAUSS = (
    (0.5, 0.2844444444444444),
    (0.2307653449471585, 0.2393143352496832),
    (0.7692346550528415, 0.2393143352496832),
    (0.0469100770306680, 0.1184634425280945),
    (0.9530899229693320, 0.1184634425280945),
)


def oblique_cone(
    base: float, top: float, height: float, offset: tuple[float, float], tolerance: float = 2e-5
) -> Read[Development]:
    """A cone, frustum or cylinder whose top circle stands `offset` (x, y) from its base's centre [m].

    `base` (z = 0) and `top` (z = height) are radii [m]. The seam is the shortest generator. Straights in the pattern
    leave the true curve by no more than `tolerance` [m].
    """
    faults = impossible(base, top, height)
    if faults:
        return Read(None, faults)
    if math.hypot(*offset) < 1e-12:
        return cone(base, top, height)
    seam_at = math.atan2(offset[1], offset[0]) + (0.0 if base >= top else math.pi)
    count = min(2880, max(48, math.ceil(math.pi / math.acos(1 - min(0.1, tolerance / max(base, top))))))
    turns = [seam_at + 2 * math.pi * i / count for i in range(count + 1)]
    stray = max(base, top) * (1 - math.cos(math.pi / count))
    if abs(base - top) <= 1e-9 * max(base, top):
        return Read(_leaning_cylinder(base, (offset[0], offset[1], height), turns, stray))
    tip = times((offset[0], offset[1], height), base / (base - top))
    made = _leaning_cone((base, top), height, offset, tip, turns, stray)
    swing = max(math.dist(p, (0.0, 0.0)) for p in (made.seams[0].first.start, made.seams[0].first.end))
    return Read(made, far_apex(swing, 2 * max(base, top)))


def _leaning_cone(
    radii: tuple[float, float],
    height: float,
    offset: tuple[float, float],
    tip: Vec,
    turns: Sequence[float],
    stray: float,
) -> Development:
    base, top = radii
    lead, centre = (base, (0.0, 0.0, 0.0)) if base >= top else (top, (offset[0], offset[1], height))
    small = min(radii) / lead  # the two circles are alike as seen from the tip

    def ray(t: float) -> Vec:
        return minus(_on_circle(lead, centre, t), tip)

    def turn_rate(t: float) -> float:
        v = ray(t)
        return norm(cross(v, _circle_rate(lead, t))) / dot(v, v)

    angles = _gathered(turn_rate, turns)
    angles = [a - angles[-1] / 2 for a in angles]
    hand = 1.0 if base > top else -1.0
    middle = -hand * math.pi / 2
    far = [norm(ray(t)) for t in turns]
    rim = [_polar(d, middle + hand * a) for d, a in zip(far, angles, strict=True)]
    near = [(x * small, y * small) for x, y in rim]
    roll = FanRoll((0.0, 0.0), tip, hand, middle, tuple(angles), tuple(unit(ray(t)) for t in turns))
    low, high = (rim, near) if base > top else (near, rim)
    return _strip(low, high, roll, stray)


def _leaning_cylinder(radius: float, lean: Vec, turns: Sequence[float], stray: float) -> Development:
    axis, long = unit(lean), norm(lean)

    def square_part(v: Vec) -> Vec:
        return mixed(v, 1.0, axis, -dot(v, axis))

    places = _gathered(lambda t: norm(square_part(_circle_rate(radius, t))), turns)
    places = [x - places[-1] / 2 for x in places]
    rim = [_on_circle(radius, (0.0, 0.0, 0.0), t) for t in turns]
    low = [(x, dot(p, axis)) for x, p in zip(places, rim, strict=True)]
    high = [(x, y + long) for x, y in low]
    return _strip(low, high, ParallelRoll(tuple(places), tuple(map(square_part, rim)), axis), stray)


def _strip(low: Sequence[Point], high: Sequence[Point], roll: FanRoll | ParallelRoll, stray: float) -> Development:
    seam = Seam(Line(low[0], high[0]), Line(low[-1], high[-1]))
    edges = strip_edges(joined(low), seam.last, joined(high), seam.first)
    return Development(edges, roll, seams=(seam,), stray=stray)


def _gathered(rate: Callable[[float], float], turns: Sequence[float]) -> list[float]:
    """The running integral of a rate over the turns, by five Gauss points in each step."""
    out = [0.0]
    for a, b in pairwise(turns):
        out.append(out[-1] + (b - a) * sum(w * rate(a + x * (b - a)) for x, w in _GAUSS))
    return out


def _on_circle(radius: float, centre: Vec, turn: float) -> Vec:
    return (centre[0] + radius * math.cos(turn), centre[1] + radius * math.sin(turn), centre[2])


def _circle_rate(radius: float, turn: float) -> Vec:
    return (-radius * math.sin(turn), radius * math.cos(turn), 0.0)


def _polar(far: float, angle: float) -> Point:
    return (far * math.cos(angle), far * math.sin(angle))
