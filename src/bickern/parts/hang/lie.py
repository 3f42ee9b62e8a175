"""Every body laid in the world, from the one that is held down to the last that hangs.

What no weight decides is taken so: where two bars cross they cross square, as one link lies a quarter turn from the
next; the bar by which all hangs runs along y of the world, so that the hung bar's own line runs along x.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field

import numpy as np

from bickern.geometry.pose import HERE, Pose, facing, put, seen, then
from bickern.geometry.space import ORIGIN, Vec, cross, dot, minus, mixed, norm, plus, times, unit
from bickern.parts.hang.beside import asides, beside, neighbours, width_of
from bickern.parts.hang.bridle import UP, Settled, drawn_along, facing_pose
from bickern.parts.hang.order import Bridle, Hold, Order, Tie
from bickern.parts.hang.rests import Rests, Tracks, carrying_track
from bickern.parts.hang.swung import turned_down
from bickern.parts.hang.ties import Drawn, mean_place
from bickern.parts.hang.track import OVER, UNDER, Bearing, Track, arc_of, bearing, heights, on_arc, rises, support

_LEVEL = 0.02
"""A slope (rise over run) on which a hung ring is taken to stay where it is put."""


@dataclass(frozen=True, slots=True)
class Bears:
    """One place where a body bears on another: their numbers (upper -1: what holds the set) and where [m]."""

    upper: int
    lower: int
    point: Vec


@dataclass(slots=True)
class Laid:
    """What is laid so far: poses by body number, where they bear, and links whose upper seat has no valley.

    `aside` [m]: how far from the valley a body hangs that shares it with others.
    """

    poses: dict[int, Pose]
    bears: list[Bears]
    slid: list[int]
    rested: list[int]
    aside: dict[int, float] = field(default_factory=dict)


def lay(order: Order, tracks: Tracks, rests: Rests, centres: Mapping[int, Vec], fixed: Pose | None) -> Laid:
    """The whole set in the world, z up; what the set is held by is at the origin (or where `fixed` puts it)."""
    laid = Laid({}, [], [], [])
    tied = {b: (bridle, s) for bridle, s in zip(order.bridles, rests.bridles, strict=True) for b in _below(bridle)}
    tops = {bridle.top: s for bridle, s in zip(order.bridles, rests.bridles, strict=True)}
    for group in neighbours(order, tracks):
        wide = [_width(tracks.links[h.number][1], _rest_up(rests, tops, h.lower), centres[h.lower]) for h in group]
        laid.aside.update(zip((h.lower for h in group), asides(wide), strict=True))
    for body in order.down:
        if body in laid.poses:
            continue
        if body in tied:
            bridle, settled = tied[body]
            _lay_bridle(laid, bridle, settled, tracks, centres)
        elif body == order.root and fixed is not None:
            laid.poses[body] = fixed
        elif body in order.pins:
            upper = laid.poses[order.pins[body].upper]
            laid.poses[body] = then(upper, turned_down(tracks.pins[body], seen(upper, UP)))
        else:
            _lay_one(laid, order, body, tracks, _rest_up(rests, tops, body), centres[body])
    return laid


def _below(bridle: Bridle) -> tuple[int, ...]:
    return (bridle.bottom, *(b for tie in bridle.ties for b in tie.between))


def _rest_up(rests: Rests, tops: Mapping[int, Settled | None], body: int) -> Vec | None:
    settled = tops.get(body)
    if settled is not None:
        return settled.up
    return rests.single[body].up if body in rests.single else None


def _lay_one(laid: Laid, order: Order, body: int, tracks: Tracks, up: Vec | None, centre: Vec) -> None:
    """One body hung on what is above it."""
    track = carrying_track(order, body, tracks)
    if track is None:
        # nothing to hang by: plumb under the place that holds it is all that can be said
        laid.poses[body] = HERE
        return
    up, own = _borne(track, up, centre)
    if body == order.root:
        place, way, upper = ORIGIN, (1.0, 0.0, 0.0), -1
    else:
        hold = order.holds[body]
        place, way = _hung_on(laid, tracks, hold, own)
        upper = hold.upper
    pose = facing_pose(up, own.along, way)
    laid.poses[body] = Pose(minus(place, facing(pose, own.point)), pose.x, pose.y)
    laid.bears.append(Bears(upper, body, place))


def _borne(track: Track, up: Vec | None, centre: Vec) -> tuple[Vec, Bearing]:
    """Which way is up in a body, and by what it is carried then."""
    up = up or unit(minus(mean_place(track), centre))
    return up, bearing(track, up, UNDER) or halfway(track, up, UNDER)


def _width(track: Track, up: Vec | None, centre: Vec) -> float:
    up, own = _borne(track, up, centre)
    return width_of(track, own, up)


def _hung_on(laid: Laid, tracks: Tracks, hold: Hold, own: Bearing) -> tuple[Vec, Vec]:
    """Where on the body above a thing hangs [m], and which way its own bar runs there: square across."""
    pose, track = laid.poses.get(hold.upper, HERE), tracks.links[hold.number][0]
    kept = tracks.put.get(hold.number)
    if kept is not None:
        return put(pose, kept.point), across(facing(pose, kept.along))
    up = seen(pose, UP)
    valley = bearing(track, up, OVER)
    if valley is None:
        level = float(np.abs(rises(track, np.array((up,)), OVER)).max()) < _LEVEL
        (laid.rested if level else laid.slid).append(hold.number)
        valley = halfway(track, up, OVER) if level else lowest(track, up)
    if laid.aside.get(hold.lower):
        valley = beside(track, valley, up, laid.aside[hold.lower], own.half)
    return put(pose, valley.point), across(facing(pose, valley.along))


def across(way: Vec) -> Vec:
    """The level direction square to a bar's, of the two the one that looks along +x, or +y where neither does."""
    side = cross(UP, way)
    side = unit(side) if norm(side) > 1e-9 else (1.0, 0.0, 0.0)
    forward = side[0] > 1e-6 or (abs(side[0]) <= 1e-6 and side[1] > 0)
    return side if forward else times(side, -1.0)


def halfway(track: Track, up: Vec, side: int) -> Bearing:
    """The middle of a track as the place where it bears."""
    return _at(track, min(len(track.points) // 2, track.segments - 1), up, side)


def lowest(track: Track, up: Vec) -> Bearing:
    """The lowest station of a track: the end from which a thing slides off."""
    low = int(heights(track, np.array((up,)), OVER)[:, 0].argmin())
    return _at(track, min(low, track.segments - 1), up, OVER, 1.0 if low >= track.segments else 0.0)


def _at(track: Track, segment: int, up: Vec, side: int, share: float = 0.0) -> Bearing:
    arc = arc_of(track, segment)
    into = share * (arc.angle or 1.0)
    middle, along = on_arc(arc, into)
    reach = support(track, segment, arc, into, times(up, side))
    return Bearing(plus(middle, reach), middle, along, norm(reach), arc.radius, segment)


def _lay_bridle(
    laid: Laid, bridle: Bridle, settled: Settled | None, tracks: Tracks, centres: Mapping[int, Vec]
) -> None:
    """The bottom of a bridle and its ties, below the top that is laid already."""
    top = laid.poses[bridle.top]
    if settled is None:
        for body in _below(bridle):
            laid.poses[body] = Pose(minus(top.origin, centres[body]))
        return
    bottom = then(top, settled.relative)
    laid.poses[bridle.bottom] = bottom
    for tie, line in zip(bridle.ties, settled.ties, strict=True):
        _lay_tie(laid, tie, line, (top, bottom), tracks)


def _lay_tie(laid: Laid, tie: Tie, line: Drawn, ends: tuple[Pose, Pose], tracks: Tracks) -> None:
    """The bodies of a tie one below the other along its line, each a quarter turn from the one before."""
    top, bottom = ends
    place, way = put(top, line.on_top), facing(top, line.way)
    last = facing(bottom, line.alongs[1])
    bar = facing(top, line.alongs[0])
    for i, body in enumerate(tie.between):
        above, below = tracks.links[tie.holds[i].number][1], tracks.links[tie.holds[i + 1].number][0]
        high, low, along = longest(above, below)
        if len(tie.between) == 1:
            bar = _halfway_turned(bar, last)
        pose = drawn_along(unit(minus(low, high)), along, way, unit(cross(way, bar)))
        inside_high = plus(high, times(unit(minus(low, high)), _inner(above)))
        laid.poses[body] = Pose(minus(place, facing(pose, inside_high)), pose.x, pose.y)
        laid.bears.append(Bears(tie.holds[i].upper, body, place))
        inside_low = minus(low, times(unit(minus(low, high)), _inner(below)))
        place = put(laid.poses[body], inside_low)
        bar = facing(pose, along)
    laid.bears.append(Bears(tie.holds[-1].upper, tie.holds[-1].lower, place))


def _inner(track: Track) -> float:
    return float(track.half[:, 1].mean())


def _halfway_turned(one: Vec, other: Vec) -> Vec:
    """Between the ways two bars run, so that one ring crosses both as nearly square as it can."""
    mean = mixed(one, 1.0, other, 1.0 if dot(one, other) >= 0 else -1.0)
    return unit(mean) if norm(mean) > 1e-9 else one


def longest(above: Track, below: Track) -> tuple[Vec, Vec, Vec]:
    """The two places of a tie's body that lie farthest apart (high, low), and how its bar runs at the high one."""
    apart = np.linalg.norm(above.points[:, None] - below.points[None], axis=2)
    i, j = divmod(int(apart.argmax()), apart.shape[1])
    x, y, z = above.points[i].tolist()
    a, b, c = below.points[j].tolist()
    u, v, w = above.along[i].tolist()
    return (x, y, z), (a, b, c), (u, v, w)
