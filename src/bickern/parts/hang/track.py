"""A seat made ready: where its metal is highest or lowest, whichever way the thing hangs.

Between two stations the line is the arc that leaves one and comes into the next (exact for arcs, however far apart the
stations are). The section is an oval or a box; a box that lies in a curved bed rests on its two edges, and is read as
if its flat were an arc of the bed's radius through them: it then slides in the bed as it does in truth.
"""

import math
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

import numpy as np

from bickern.geometry.space import ORIGIN, Vec, cross, distance, dot, minus, mixed, norm, plus, times, turned, unit
from bickern.parts.set.result import Seat, Spot

if TYPE_CHECKING:
    from numpy.typing import NDArray

STRAIGHT = 50.0
"""Metres: the radius of a bed that is straight; flats then rest level within a few thousandths of a degree."""
UNDER, OVER = -1, 1
"""The underside, by which a thing is carried (at its ridge); the upper side, on which others hang (in its valley)."""
_TINY = 1e-9
_TAPERS = 6


@dataclass(frozen=True, slots=True, eq=False)
class Track:
    """Stations of a seat as arrays and as plain rows; `slope` (n, 2) is how the half sizes change along it.

    `bed` [m]: radius of the metal that it bears on, across its own line. `arcs`: those already worked out.
    """

    name: str
    points: "NDArray[np.float64]"
    along: "NDArray[np.float64]"
    up: "NDArray[np.float64]"
    left: "NDArray[np.float64]"
    half: "NDArray[np.float64]"
    slope: "NDArray[np.float64]"
    square: bool
    closed: bool
    bed: float
    arcs: "dict[int, Arc]" = field(default_factory=dict)

    @property
    def segments(self) -> int:
        """How many arcs there are between stations."""
        return len(self.points) - (0 if self.closed else 1)


@dataclass(frozen=True, slots=True)
class Bearing:
    """Where a track bears: `point` on the metal, `middle` of the bar there [m], which way the line runs, its `curve`.

    `curve` [m] is the radius of the middle line; `half` [m] from the middle to the metal; `segment` the arc's number.
    """

    point: Vec
    middle: Vec
    along: Vec
    half: float
    curve: float
    segment: int


@dataclass(frozen=True, slots=True)
class Arc:
    """The line between two stations: from `start` along `along`, bending toward `toward`; `angle` [rad] in all."""

    start: Vec
    along: Vec
    toward: Vec
    radius: float
    angle: float
    long: float


def track_of(seat: Seat, spot: Spot | None = None, bed: float = STRAIGHT) -> Track:
    """A seat made ready; the edge of a hole through thick metal is read as wide as the metal is thick."""
    points, along, up, half = _whole(seat)
    square = seat.square
    plate = spot.plate if spot else 0.0
    if plate > 0 and not half.any():
        axis = np.array(loop_axis(along))
        up, square = np.cross(along, axis), True
        half = np.tile((plate / 2, 0.0), (len(points), 1))
    slope = _slopes(points, along, half, seat.closed)
    return Track(seat.name, points, along, up, np.cross(up, along), half, slope, square, seat.closed, bed)


def _whole(seat: Seat) -> "tuple[NDArray[np.float64], ...]":
    """Stations without the one that a closed line repeats at its end."""
    last = len(seat.points)
    if seat.closed and last > 2 and np.linalg.norm(seat.points[0] - seat.points[-1]) < _TINY:
        last -= 1
    return seat.points[:last], seat.along[:last], seat.up[:last], seat.half[:last]


def _slopes(
    points: "NDArray[np.float64]", along: "NDArray[np.float64]", half: "NDArray[np.float64]", closed: bool
) -> "NDArray[np.float64]":
    """How fast the half sizes grow along the metal inside the bend, at every station.

    The metal inside a bend is shorter than the middle line by half the bar over the radius, so it rises the steeper.
    """
    if closed or len(points) < 3 or float(np.ptp(half, axis=0).max()) < _TINY:
        return np.zeros_like(half)
    steps = np.linalg.norm(np.diff(points, axis=0), axis=1) + _TINY
    curve = np.linalg.norm(np.diff(along, axis=0), axis=1) / steps
    at_stations = np.maximum(np.append(curve, curve[-1]), np.insert(curve, 0, curve[0]))
    s = np.concatenate(((0.0,), np.cumsum(steps)))
    inside = np.maximum(1 - half * at_stations[:, None], 0.1)
    found: NDArray[np.float64] = np.gradient(half, s, axis=0) / inside
    return found


def loop_axis(along: "NDArray[np.float64]") -> Vec:
    """The axis about which a flat loop runs, from the way its line runs at every station."""
    turns = np.cross(along, np.roll(along, -1, axis=0)).sum(axis=0)
    return unit((float(turns[0]), float(turns[1]), float(turns[2])))


def bedded(track: Track, bed: float) -> Track:
    """The same track on metal of another radius."""
    return replace(track, bed=bed)


def moved_by(track: Track, way: Vec) -> Track:
    """The same track elsewhere on the body, by `way` [m]."""
    return replace(track, points=track.points + np.array(way), arcs={})


def rises(track: Track, ways: "NDArray[np.float64]", side: int) -> "NDArray[np.float64]":
    """How the metal's height grows along the track at its stations (n, m), with each of `ways` (m, 3) as up."""
    rise = track.along @ ways.T
    if not track.slope.any():
        return np.asarray(rise)
    left, up = track.left @ ways.T, track.up @ ways.T
    long = np.maximum(np.hypot(left, up), _TINY)
    left, up = np.abs(left / long), np.abs(up / long)
    share = (left, up) if track.square else (left * left, up * up)
    return np.asarray(rise + side * (track.slope[:, :1] * share[0] + track.slope[:, 1:] * share[1]))


def heights(track: Track, ways: "NDArray[np.float64]", side: int) -> "NDArray[np.float64]":
    """Height of the metal (n, m) at the stations with each of `ways` (m, 3) as up: its under or upper side [m]."""
    left, up = track.left @ ways.T, track.up @ ways.T
    wide, thick = track.half[:, :1], track.half[:, 1:]
    reach = np.abs(left) * wide + np.abs(up) * thick if track.square else np.hypot(left * wide, up * thick)
    return np.asarray(track.points @ ways.T + side * reach)


def _following(values: "NDArray[np.float64]", closed: bool) -> "tuple[NDArray[np.float64], NDArray[np.float64]]":
    """Values at both ends of every segment."""
    return (values, np.roll(values, -1, axis=0)) if closed else (values[:-1], values[1:])


def coarse(track: Track, ways: "NDArray[np.float64]", side: int) -> "NDArray[np.float64]":
    """Height (m,) of the best ridge (under) or valley (over) inside the track, for each of `ways`; nan: none.

    The middle line alone is looked at, at every few stations: good enough to begin with.
    """
    few = _few(len(track.points), track.closed)
    first, second = _following((track.along[few] @ ways.T) * -side, track.closed)
    low, high = _following((track.points[few] @ ways.T) * -side, track.closed)
    there = (first >= 0) & (second < 0)
    best = np.where(there, np.maximum(low, high), -np.inf).max(axis=0, initial=-np.inf)
    return np.asarray(np.where(np.isfinite(best), best * -side, np.nan))


def _few(count: int, closed: bool) -> "NDArray[np.intp]":
    """About two dozen of the stations, both ends of an open line among them."""
    found = np.arange(0, count, max(1, count // 24))
    return found if closed or found[-1] == count - 1 else np.append(found, count - 1)


def crest(track: Track, way: Vec, side: int) -> int | None:
    """The segment that holds the highest ridge (under) or the deepest valley (over), `way` being up; None: none."""
    ways = np.array((way,))
    first, second = _following(_levelled(rises(track, ways, side)[:, 0] * -side, track.closed), track.closed)
    there = (first >= 0) & (second < 0)
    if not there.any():
        return None
    low, high = _following(heights(track, ways, side)[:, 0] * -side, track.closed)
    return int(np.where(there, np.maximum(low, high), -np.inf).argmax())


def _levelled(values: "NDArray[np.float64]", closed: bool) -> "NDArray[np.float64]":
    """Rises with what is level but for rounding told as level; a level end after a fall closes a hollow.

    (One that begins level does so anyhow.)
    """
    values = np.where(np.abs(values) < _TINY, 0.0, values)
    steep = np.flatnonzero(values)
    if not closed and len(steep) and values[-1] == 0 and values[steep[-1]] > 0:
        values[steep[-1] + 1 :] = -_TINY
    return values


def bearing(track: Track, way: Vec, side: int, segment: int | None = None) -> Bearing | None:
    """Where the track bears when `way` (unit) is up; None where it has no ridge or valley inside its length."""
    at = crest(track, way, side) if segment is None else segment
    if at is None:
        return None
    arc = arc_of(track, at)
    return _borne(track, at, arc, _crown(track, at, arc, way, side), way, side)


def arc_of(track: Track, segment: int) -> Arc:
    """The arc between a station and the next."""
    found = track.arcs.get(segment)
    if found is None:
        found = track.arcs[segment] = _arc(track, segment)
    return found


def _arc(track: Track, segment: int) -> Arc:
    k = (segment + 1) % len(track.points)
    start, end = row(track.points, segment), row(track.points, k)
    a, b = row(track.along, segment), row(track.along, k)
    normal = cross(a, b)
    angle = math.atan2(norm(normal), dot(a, b))
    chord = distance(start, end)
    if angle < 1e-7:
        return Arc(start, a, ORIGIN, math.inf, 0.0, chord)
    radius = chord / (2 * math.sin(angle / 2))
    return Arc(start, a, cross(unit(normal), a), radius, angle, radius * angle)


def row(rows: "NDArray[np.float64]", i: int) -> Vec:
    """One row as a plain vector."""
    x, y, z = rows[i].tolist()
    return (x, y, z)


def _crown(track: Track, at: int, arc: Arc, way: Vec, side: int) -> float:
    """Angle [rad] into the arc (of a straight: share of its length) at which the metal is highest or lowest."""
    k = (at + 1) % len(track.points)
    slopes = (_slope(track, at, way), _slope(track, k, way)) if track.slope.any() else (0.0, 0.0)
    if not arc.angle:
        first = dot(row(track.along, at), way) + side * slopes[0]
        second = dot(row(track.along, k), way) + side * slopes[1]
        return 0.5 if first == second else min(max(first / (first - second), 0.0), 1.0)
    a, b = dot(way, arc.along), dot(way, arc.toward)
    steep = math.hypot(a, b)
    if steep < _TINY:
        return arc.angle / 2
    middle, into = math.atan2(b, a), 0.0
    for _ in range(_TAPERS if slopes[0] or slopes[1] else 1):
        # the metal is level where the middle line falls as fast as the bar thickens
        slope = slopes[0] + (slopes[1] - slopes[0]) * into / arc.angle
        into = math.remainder(middle - side * math.acos(min(max(-side * slope / steep, -1.0), 1.0)), 2 * math.pi)
    return into


def _slope(track: Track, at: int, way: Vec) -> float:
    """How fast the half size toward `way` grows at a station."""
    left, up = dot(row(track.left, at), way), dot(row(track.up, at), way)
    long = max(math.hypot(left, up), _TINY)
    left, up = abs(left / long), abs(up / long)
    share = (left, up) if track.square else (left * left, up * up)
    wide, thick = track.slope[at].tolist()
    return float(wide * share[0] + thick * share[1])


def _borne(track: Track, at: int, arc: Arc, into: float, way: Vec, side: int) -> Bearing:
    middle, along = on_arc(arc, into)
    reach = support(track, at, arc, into, times(way, side))
    return Bearing(plus(middle, reach), middle, along, norm(reach), arc.radius, at)


def on_arc(arc: Arc, into: float) -> tuple[Vec, Vec]:
    """The place `into` an arc [rad] (of a straight: by share of its length) and the way the line runs there."""
    if not arc.angle:
        return mixed(arc.start, 1.0, arc.along, arc.long * into), arc.along
    s, c = math.sin(into), math.cos(into)
    aside = mixed(arc.along, arc.radius * s, arc.toward, arc.radius * (1 - c))
    return plus(arc.start, aside), mixed(arc.along, c, arc.toward, s)


def support(track: Track, at: int, arc: Arc, into: float, way: Vec) -> Vec:
    """From the middle of the bar to the metal that is farthest toward `way`."""
    return reach(track, at, arc, into, way)[0]


def reach(track: Track, at: int, arc: Arc, into: float, way: Vec) -> tuple[Vec, Vec]:
    """From the middle of the bar to the metal that is farthest toward `way`, and to the middle of its roundness there.

    About that second place the metal is an arc: of a round bar it is the middle, of a corner the corner itself.
    """
    share = min(max(into / arc.angle if arc.angle else into, 0.0), 1.0)
    k = (at + 1) % len(track.points)
    wide, thick = (track.half[at] * (1 - share) + track.half[k] * share).tolist()
    if wide <= 0 and thick <= 0:
        return ORIGIN, ORIGIN
    if not track.square and wide == thick:
        along = mixed(arc.along, math.cos(into), arc.toward, math.sin(into)) if arc.angle else arc.along
        square = unit(mixed(way, 1.0, along, -dot(way, along)))
        return times(square, wide), ORIGIN
    left, up = row(track.left, at), row(track.up, at)
    if arc.angle:
        axis = cross(arc.along, arc.toward)
        left, up = turned(left, axis, into), turned(up, axis, into)
    a, b = dot(left, way), dot(up, way)
    long = math.hypot(a, b)
    if long < _TINY:
        return ORIGIN, ORIGIN
    (x, y), round_by = (_box if track.square else _oval)(a / long, b / long, wide, thick, track.bed)
    middle = mixed(left, x - round_by * a / long, up, y - round_by * b / long)
    return mixed(left, x, up, y), middle


_Corner = tuple[tuple[float, float], float]
"""The farthest place of a section toward a direction (across, up), and how round it is there [m]."""


def _oval(a: float, b: float, wide: float, thick: float, bed: float) -> _Corner:
    far = math.hypot(a * wide, b * thick)
    if far <= 0:
        return (0.0, 0.0), 0.0
    return (a * wide * wide / far, b * thick * thick / far), (wide * thick) ** 2 / far**3


def _box(a: float, b: float, wide: float, thick: float, bed: float) -> _Corner:
    """A box's flats are arcs of the bed's radius through their two edges."""
    if abs(a) * bed < wide and abs(b) >= abs(a):
        return (bed * a, math.copysign(1.0, b) * (thick - _hollow(bed, wide)) + bed * b), bed
    if abs(b) * bed < thick and abs(a) > abs(b):
        return (math.copysign(1.0, a) * (wide - _hollow(bed, thick)) + bed * a, bed * b), bed
    return (math.copysign(wide, a), math.copysign(thick, b)), 0.0


def _hollow(bed: float, half: float) -> float:
    """From a flat of a box back to the middle of the arc through its edges [m]."""
    return math.sqrt(max(bed * bed - half * half, 0.0))


def nominal_bed(track: Track) -> float:
    """Radius [m] of the metal's own bed where nothing says where on the track a thing bears: the middle of all arcs."""
    found = sorted(arc_of(track, i).radius for i in range(track.segments))
    return bed_of(found[len(found) // 2] if found else math.inf, float(track.half.max(initial=0.0)))


def bed_of(curve: float, half: float) -> float:
    """Radius [m] of the bed that a bar bent to `curve` (of its middle) offers to what lies inside the bend."""
    return min(max(curve - half, _TINY), STRAIGHT)


def nearest_on(track: Track, place: Vec, segment: int) -> tuple[int, float]:
    """The segment, and how far into its arc, nearest to a place; sought from `segment` on."""
    last = track.segments
    at = segment
    for _ in range(last):
        arc = arc_of(track, at)
        into, end = _into(arc, place), (arc.angle or 1.0)
        step = 1 if into > end else -1 if into < 0 else 0
        beyond = at + step
        if not step or (not track.closed and not 0 <= beyond < last):
            return at, min(max(into, 0.0), end)
        if step < 0 and _into(arc_of(track, beyond % last), place) > (arc_of(track, beyond % last).angle or 1.0):
            return at, 0.0
        at = beyond % last
    return at, 0.0


def _into(arc: Arc, place: Vec) -> float:
    off = minus(place, arc.start)
    if not arc.angle:
        return dot(off, arc.along) / arc.long if arc.long > 0 else 0.5
    x, y = dot(off, arc.along), arc.radius - dot(off, arc.toward)
    middle = math.atan2(x, y)
    # measured about the middle of the arc, so that what is off either end is told apart
    return math.remainder(middle - arc.angle / 2, 2 * math.pi) + arc.angle / 2
