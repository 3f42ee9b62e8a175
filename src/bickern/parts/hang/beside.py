"""Things that hang side by side on one place: spread about its valley, touching, each as far aside as it is wide.

They hang plumb, so it is level that they take up room; how a body tilts goes by the valley all the same.
"""

import math
from collections.abc import Sequence
from itertools import accumulate

import numpy as np

from bickern.geometry.space import Vec, cross, dot, minus, mixed, norm, plus, times, unit
from bickern.parts.hang.order import Hold, Order, loads_of
from bickern.parts.hang.rests import Tracks
from bickern.parts.hang.track import OVER, Bearing, Track, arc_of, nearest_on, on_arc, support

_HALVINGS = 40
_FAR = 3.0
"""Along the metal no farther than so many times what is asked level: beyond, the metal stands too steep."""


def neighbours(order: Order, tracks: Tracks) -> tuple[tuple[Hold, ...], ...]:
    """Holds of two things or more that hang singly on one and the same place, and slide to its valley."""
    return tuple(group for group in together(order, tracks) if len(group) > 1 and group[0].number not in tracks.put)


def together(order: Order, tracks: Tracks) -> tuple[tuple[Hold, ...], ...]:
    """Holds of what hangs singly, by the place they share."""
    groups: list[list[Hold]] = []
    for body in order.down:
        loads = loads_of(order, body)
        here: list[list[Hold]] = []
        for hold in loads:
            own = tracks.links[hold.number][0]
            same = next((g for g in here if one_place(tracks.links[g[0].number][0], own)), None)
            if same is None:
                here.append([hold])
            else:
                same.append(hold)
        groups += here
    return tuple(tuple(group) for group in groups)


def one_place(one: Track, other: Track) -> bool:
    """Whether two tracks are one and the same metal."""
    return one.points.shape == other.points.shape and bool(np.allclose(one.points, other.points, atol=1e-7))


def asides(wide: Sequence[float]) -> tuple[float, ...]:
    """How far aside of the middle of all each of a row of things lies that touch, by the width of each [m]."""
    starts = accumulate(wide, initial=-math.fsum(wide) / 2)
    return tuple(start + own / 2 for start, own in zip(starts, wide, strict=False))


def width_of(track: Track, own: Bearing, up: Vec) -> float:
    """How wide a thing is across its own bar, level, where it bears [m]."""
    side = cross(own.along, up)
    if norm(side) < 1e-9:
        return 2 * own.half
    side = unit(side)
    arc = arc_of(track, own.segment)
    into = nearest_on(track, own.middle, own.segment)[1]
    return 2 * dot(support(track, own.segment, arc, into, side), side)


def beside(track: Track, valley: Bearing, up: Vec, aside: float, half: float) -> Bearing:
    """The place `aside` [m] of a valley, level, for a thing whose own bar is `half` [m] thick to its middle there."""
    level = mixed(valley.along, 1.0, up, -dot(valley.along, up))
    level = unit(level) if norm(level) > 1e-9 else valley.along
    start = nearest_on(track, valley.middle, valley.segment)
    first = _place(track, start, 0.0, up, half)
    sign, low, high = math.copysign(1.0, aside), 0.0, _FAR * abs(aside)
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        gone = sign * dot(minus(_place(track, start, sign * middle, up, half).point, first.point), level)
        low, high = (middle, high) if gone < abs(aside) else (low, middle)
    return _place(track, start, sign * low, up, half)


def _place(track: Track, start: tuple[int, float], way: float, up: Vec, half: float) -> Bearing:
    segment, into = walked(track, start, way)
    arc = arc_of(track, segment)
    middle, along = on_arc(arc, into)
    off = support(track, segment, arc, into, times(up, OVER))
    square = mixed(up, 1.0, along, -dot(up, along))
    square = unit(square) if norm(square) > 1e-9 else up
    # the thing's own round metal lies against the slope, its lowest place a little aside of where they touch
    point = plus(plus(middle, off), mixed(square, half, up, -half))
    return Bearing(point, middle, along, norm(off), arc.radius, segment)


def walked(track: Track, start: tuple[int, float], way: float) -> tuple[int, float]:
    """The place `way` [m] along a track's middle line from another; at most its end."""
    segment, into = start
    at = into * (arc_of(track, segment).radius if arc_of(track, segment).angle else arc_of(track, segment).long) + way
    for _ in range(4 * track.segments):
        long = arc_of(track, segment).long
        step = -1 if at < 0 else 1 if at > long else 0
        beyond = segment + step
        if not step or (not track.closed and not 0 <= beyond < track.segments):
            break
        at = at - long if step > 0 else at
        segment = beyond % track.segments
        at = at + arc_of(track, segment).long if step < 0 else at
    arc = arc_of(track, segment)
    at = min(max(at, 0.0), arc.long)
    return segment, at / arc.radius if arc.angle else at / arc.long if arc.long > 0 else 0.0
