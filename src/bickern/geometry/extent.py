"""The overall box of a bar swept along a path, in the bar's own axes.

Axes: `reach` along the longest straight (no straight: end to end; a closed ring: the first direction),
`across` square to it in the plane of the first bend, `rise` out of that plane.
"""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from bickern.geometry.path import (
    START,
    Arc,
    Frame,
    Kink,
    Leg,
    Spiral,
    Station,
    Straight,
    at_angle,
    bend_direction,
    end_frame,
    leg_starts,
    on_leg,
    polar_angle,
)
from bickern.geometry.space import Vec, cross, dot, minus, mixed, norm, times, unit

Support = Callable[[float, float, float], float]
"""support(s, l, u) [m]: how far the section at length `s` reaches in the direction with components `l` to the left and
`u` up (not of unit length when the direction leans along the line): the greatest l x + u y over the section."""

_STEP = math.radians(15)
_ROUNDS = 3


@dataclass(frozen=True, slots=True)
class Axes:
    """Three unit vectors square to one another, in which overall sizes are told."""

    reach: Vec = (1.0, 0.0, 0.0)
    across: Vec = (0.0, 1.0, 0.0)
    rise: Vec = (0.0, 0.0, 1.0)


@dataclass(frozen=True, slots=True)
class Box:
    """Lowest and highest coordinates [m] along reach, across and rise."""

    low: Vec
    high: Vec

    @property
    def sizes(self) -> Vec:
        """Overall (reach, across, rise) [m]."""
        return minus(self.high, self.low)


def boxy(half_width: Callable[[float], float], half_thick: Callable[[float], float]) -> Support:
    """Support of a rectangular section: half sizes [m] at each length."""
    return lambda s, l, u: half_width(s) * abs(l) + half_thick(s) * abs(u)


def rounded(radius: Callable[[float], float]) -> Support:
    """Support of a round section: radius [m] at each length."""
    return lambda s, l, u: radius(s) * math.hypot(l, u)


def main_axis(legs: Sequence[Leg], start: Frame = START) -> Vec:
    """Direction of the longest straight, else from end to end, else the first direction."""
    straights = [st for st in leg_starts(legs, start) if isinstance(st.leg, Straight) and st.length > 0]
    if straights:
        return max(straights, key=lambda st: st.length).frame.along
    chord = minus(end_frame(legs, start).origin, start.origin)
    return unit(chord) if norm(chord) > 1e-9 else start.along


def main_axes(legs: Sequence[Leg], start: Frame = START) -> Axes:
    """The axes in which overall sizes of this path are told."""
    reach = main_axis(legs, start)
    across = _square_to(reach, _first_bend_plane(legs, start))
    return Axes(reach, across, cross(reach, across))


def extent(
    legs: Sequence[Leg],
    support: Support,
    axes: Axes | None = None,
    *,
    breaks: Sequence[float] = (),
    start: Frame = START,
) -> Box:
    """The overall box of a section swept along the path: exact at extremes of arcs and spirals to 1e-6 m.

    `breaks` are the lengths [m] where sections change; between them sections run straight.
    """
    stations = leg_starts(legs, start) or (Station(0.0, start, 0.0, Straight(0.0)),)
    spots = [spot for station in stations for spot in _spots(station, breaks)]
    found = axes or main_axes(legs, start)
    ends = [
        (_farthest(spots, support, times(d, -1.0)), _farthest(spots, support, d))
        for d in (found.reach, found.across, found.rise)
    ]
    low = (-ends[0][0], -ends[1][0], -ends[2][0])
    return Box(low, (ends[0][1], ends[1][1], ends[2][1]))


@dataclass(frozen=True, slots=True)
class _Spot:
    """A place looked at: its frame `s` [m] along, and on a curved leg its polar angle and that to its neighbours."""

    station: Station
    s: float
    frame: Frame
    phi: float = 0.0
    before: float = 0.0
    after: float = 0.0
    mitre: float = 1.0
    bend: Vec = (0.0, 0.0, 0.0)


def _spots(station: Station, breaks: Sequence[float]) -> list[_Spot]:
    leg = station.leg
    cuts = [b - station.s for b in breaks if 0 < b - station.s < station.length]
    if isinstance(leg, Kink):
        return _kink_spots(station, leg)
    if isinstance(leg, Arc | Spiral):
        return _curve_spots(station, leg, cuts)
    return [_Spot(station, station.s + into, on_leg(station, into)) for into in (0.0, *cuts, station.length)]


def _curve_spots(station: Station, leg: Arc | Spiral, cuts: Sequence[float]) -> list[_Spot]:
    count = max(1, math.ceil(leg.angle / _STEP))
    phis = sorted({*(polar_angle(leg, c) for c in cuts), *(leg.angle * i / count for i in range(count + 1))})
    out = []
    for i, phi in enumerate(phis):
        into, frame = at_angle(station, phi)
        before = phi - phis[i - 1] if i > 0 else 0.0
        after = phis[i + 1] - phi if i + 1 < len(phis) else 0.0
        out.append(_Spot(station, station.s + into, frame, phi, before, after))
    return out


def _kink_spots(station: Station, kink: Kink) -> list[_Spot]:
    """The faces on both sides of a sharp corner, and the mitre between them (none past 150 degrees: folded flat)."""
    after = on_leg(station, 0.0)
    ends = [_Spot(station, station.s, f) for f in (station.frame, after)]
    if kink.angle > math.radians(150):
        return ends
    half = on_leg(Station(station.s, station.frame, 0.0, Kink(kink.angle / 2, kink.roll)), 0.0)
    toward = bend_direction(half, kink.roll)
    return [*ends, _Spot(station, station.s, half, mitre=1 / math.cos(kink.angle / 2), bend=toward)]


def _farthest(spots: Sequence[_Spot], support: Support, d: Vec) -> float:
    """The farthest the swept section reaches in direction `d`; peaks on curved legs are refined between spots."""
    reaches = [_reach(spot, support, d) for spot in spots]
    best = max(reaches)
    for i, spot in enumerate(spots):
        left = reaches[i - 1] if spot.before > 0 else -math.inf
        right = reaches[i + 1] if spot.after > 0 else -math.inf
        peak = reaches[i] >= max(left, right)
        # a peak between neighbours rises above them by no more than they differ over so small a turn
        if peak and spot.before + spot.after > 0 and reaches[i] > best - _spare(spot):
            best = max(best, _refined(spot, reaches[i], support, d))
    return best


def _spare(spot: _Spot) -> float:
    return 0.25 * _big(spot) * (spot.before + spot.after)


def _big(spot: _Spot) -> float:
    leg = spot.station.leg
    return leg.radius if isinstance(leg, Arc) else max(_radii(leg))


def _radii(leg: Leg) -> tuple[float, float]:
    return (leg.start_radius, leg.end_radius) if isinstance(leg, Spiral) else (0.0, 0.0)


def _reach(spot: _Spot, support: Support, d: Vec) -> float:
    # at a mitre the section is stretched along the bend: a direction meets it with that component stretched
    seen = mixed(d, 1.0, spot.bend, (spot.mitre - 1) * dot(d, spot.bend)) if spot.mitre != 1.0 else d
    return _reach_at(spot.s, spot.frame, support, d, seen)


def _reach_at(s: float, frame: Frame, support: Support, d: Vec, seen: Vec) -> float:
    return dot(frame.origin, d) + support(s, dot(frame.left, seen), dot(frame.up, seen))


def _refined(spot: _Spot, reach: float, support: Support, d: Vec) -> float:
    """The highest reach near a spot: the best of five places, closer each round, or a parabola's top."""

    def at(phi: float) -> float:
        into, frame = at_angle(spot.station, phi)
        return _reach_at(spot.station.s + into, frame, support, d, d)

    low, high = spot.phi - spot.before, spot.phi + spot.after
    middle, best, step = spot.phi, reach, max(spot.before, spot.after) / 3
    for _ in range(_ROUNDS):
        phis = [p for p in (middle + step * i for i in (-2, -1, 1, 2)) if low <= p <= high]
        tried = [(best, middle), *((at(p), p) for p in phis)]
        three = sorted(tried, key=lambda it: -it[0])[:3]
        if len(three) == 3:
            top = _parabola_top(*((p, v) for v, p in three))
            if top is not None and low <= top <= high:
                tried.append((at(top), top))
        best, middle = max(tried, key=lambda it: it[0])
        step /= 6
    return best


def _parabola_top(a: tuple[float, float], m: tuple[float, float], b: tuple[float, float]) -> float | None:
    p, q = (m[0] - a[0]) * (m[1] - b[1]), (m[0] - b[0]) * (m[1] - a[1])
    if abs(p - q) < 1e-300:
        return None
    return m[0] - 0.5 * ((m[0] - a[0]) * p - (m[0] - b[0]) * q) / (p - q)


def _first_bend_plane(legs: Sequence[Leg], start: Frame) -> Vec:
    """The unit vector toward which the first bend bends, and where there is none, the left."""
    for station in leg_starts(legs, start):
        if isinstance(station.leg, Arc | Spiral | Kink) and station.leg.angle:
            toward = bend_direction(station.frame, station.leg.roll)
            return cross(station.frame.along, toward)
    return start.up


def _square_to(reach: Vec, normal: Vec) -> Vec:
    """In the plane with this normal and square to `reach`; if that plane is square to `reach`, any direction in it."""
    across = cross(normal, reach)
    if norm(across) > 1e-6:
        return unit(across)
    spare = (0.0, 1.0, 0.0) if abs(reach[1]) < 0.9 else (0.0, 0.0, 1.0)
    return unit(minus(spare, times(reach, dot(reach, spare))))
