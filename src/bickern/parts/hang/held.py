"""How a set is held: fast against a wall, fast in the hand at an angle, or hung freely on a round bar."""

import math

import numpy as np

from bickern.geometry.pose import Pose, facing, seen, then, within
from bickern.geometry.space import ORIGIN, Vec, cross, dot, minus, mixed, norm, times, unit
from bickern.parts.bar.result import BarResult
from bickern.parts.hang.bridle import UP
from bickern.parts.hang.shut import loose
from bickern.parts.hang.track import OVER, Track, bearing, rises, track_of
from bickern.parts.set.result import Held, Link, Seat, SetResult, SpotKind
from bickern.parts.set.spots.laid import stretch_named
from bickern.parts.set.spots.seats import moved_seat

OUT: Vec = (1.0, 0.0, 0.0)
"""In the world: out of the wall, or along a level handle."""
WALL, HAND = "wall", "hand"
STEM = 1.5
"""A place at the end of a bar, no more than so many times as wide as thick and without a hole, goes into the wall."""
MOST = 0.75
"""A place that is more than such a share of its bar was named to say where it is held, not how deep (chosen here)."""
DEEP = 3.0
"""A tail that is named as most of its bar is in the wall so many times its thickness (chosen here)."""
_END = 1e-6
_LEVEL = 1e-6
_SQUARE = 0.9
"""How nearly square (of 1) a pin must stand to what looks out of the wall to be stood upright."""


def held_fast(held: Held) -> str:
    """`wall`, `hand`, or nothing where the set hangs freely."""
    said = held.on.lower().split()
    return next((word for word in (WALL, HAND) if word in said), "")


def root_seat(a_set: SetResult, held: Held) -> Seat | None:
    """What a set that hangs freely is hung by, in its body's coordinates."""
    seat = held.spot.seat
    return None if seat is None else moved_seat(seat, a_set.parts[held.part].pose)


def is_stem(a_set: SetResult, held: Held) -> bool:
    """Whether the held place is a tail or a tang that goes into the wall, and not a flat that lies against it."""
    piece, seat = a_set.parts[held.part].piece, held.spot.seat
    if not isinstance(piece, BarResult) or held.spot.kind is not SpotKind.BAR or seat is None:
        return False
    stretch = _stretch_held(piece, held.spot.name)
    if stretch is None or (stretch[0] > _END and stretch[1] < piece.length - _END):
        return False
    thin, wide = sorted(float(v) for v in seat.half[len(seat.half) // 2])
    return wide <= STEM * thin and not any(stretch[0] <= hole.at <= stretch[1] for hole in piece.holes)


def _stretch_held(bar: BarResult, name: str) -> tuple[float, float] | None:
    """From where to where [m] the bar is held: a named stretch, or one of its ends."""
    ends = {"start": (0.0, 0.0), "end": (bar.length, bar.length)}
    return ends.get(name) or stretch_named(bar, name)


def fixed_pose(a_set: SetResult, held: Held, angle: float = 0.0) -> Pose | None:
    """How the held body lies where it is held fast, the held place at the origin; None where it hangs freely.

    On a wall (x of the world looks out of it, the piece stands on that side): a flat lies against it with its bar
    upright, that end up which leaves what hangs in valleys; of two such the one with the palm running down from the
    piece. A tail goes into it square, that side up which leaves what hangs in valleys, stands its pins upright, and
    its eyes and holes on edge. In the hand: the bar level at `angle` 0 [rad], its free end along x and raised by a
    positive angle, with its reference face up unless only another side leaves what hangs in valleys.
    """
    way = held_fast(held)
    if not way:
        return None
    spot = then(a_set.parts[held.part].pose, held.spot.pose)
    if way == HAND or is_stem(a_set, held):
        return _end_on(a_set, held, spot, angle)
    return _on_wall(a_set, held, spot)


def wall_face(a_set: SetResult, held: Held, pose: Pose) -> float | None:
    """Where the wall's face is along x of the world [m], the held body lying by `pose`; None where there is no wall.

    A tail is in the wall as far as it is named; where that is most of its bar, as told at `DEEP`.
    """
    if held_fast(held) != WALL:
        return None
    if not is_stem(a_set, held) or held.spot.seat is None:
        return -held.spot.plate / 2
    seat = moved_seat(held.spot.seat, then(pose, a_set.parts[held.part].pose))
    near, far = float(seat.points[:, 0].max()), float(seat.points[:, 0].min())
    return min(near, far + _deep(held)) if most_of_bar(a_set, held) else near


def most_of_bar(a_set: SetResult, held: Held) -> bool:
    """Whether the held place is most of its bar, so that it cannot all be in the wall."""
    piece = a_set.parts[held.part].piece
    stretch = stretch_named(piece, held.spot.name) if isinstance(piece, BarResult) else None
    return stretch is not None and isinstance(piece, BarResult) and stretch[1] - stretch[0] > MOST * piece.length


def _deep(held: Held) -> float:
    seat = held.spot.seat
    return DEEP * 2 * float(seat.half[len(seat.half) // 2].max()) if seat is not None else 0.0


def _on_wall(a_set: SetResult, held: Held, spot: Pose) -> Pose:
    off = minus(a_set.bodies[held.body].centre, spot.origin)
    out = times(spot.z, _sign(dot(off, spot.z)))
    first = times(spot.x, _sign(dot(off, spot.x)))
    ways = [first, times(first, -1.0), *(way for way in _pin_ways(a_set, held, out) if abs(dot(way, spot.y)) > _SQUARE)]
    return _standing(spot.origin, _best_up(a_set, held, spot, ways), out, 0.0)


def _end_on(a_set: SetResult, held: Held, spot: Pose, angle: float) -> Pose:
    off = minus(a_set.bodies[held.body].centre, spot.origin)
    along = times(spot.x, _sign(dot(off, spot.x)))
    ways = [spot.z, times(spot.z, -1.0), spot.y, times(spot.y, -1.0)]
    if held_fast(held) == WALL:
        ways += _pin_ways(a_set, held, along)
    return _standing(spot.origin, _best_up(a_set, held, spot, ways), along, angle)


def _sign(value: float) -> float:
    """Of what is as good as nothing always the same."""
    return 1.0 if value > -_END else -1.0


def _best_up(a_set: SetResult, held: Held, spot: Pose, ways: list[Vec]) -> Vec:
    """The way that leaves most in valleys, stands the pins upright and openings on edge; of ways alike the first."""
    pins = pins_of_held(a_set, held) if held_fast(held) == WALL else ()

    def worth(up: Vec) -> tuple[int, float, float]:
        hold, edge = _valleys(a_set, held.body, up)
        # a pin looks up from its bar
        stands = sum(abs(dot(axis, up)) + 0.01 * (dot(minus(point, spot.origin), up) > _END) for point, axis in pins)
        return -hold, -round(stands, 6), -round(edge, 6)

    return min(ways, key=worth)


def pins_of_held(a_set: SetResult, held: Held) -> tuple[tuple[Vec, Vec], ...]:
    """A place [m] and the axis of every pin on which something turns on the held body, in its coordinates."""
    loose_ones = [p for p in a_set.pivots if loose(p)]
    own = [(p.point, p.axis) for p in loose_ones if p.first == held.body]
    others = [(within(p.lies, p.point), seen(p.lies, p.axis)) for p in loose_ones if p.second == held.body]
    return (*own, *others)


def _pin_ways(a_set: SetResult, held: Held, out: Vec) -> list[Vec]:
    """Both ways of every pin that stands square to what looks out of the wall, or nearly."""
    found: list[Vec] = []
    for _, axis in pins_of_held(a_set, held):
        flat = mixed(axis, 1.0, out, -dot(axis, out))
        if norm(flat) > _SQUARE:
            found += [unit(flat), times(unit(flat), -1.0)]
    return found


def _valleys(a_set: SetResult, body: int, up: Vec) -> tuple[int, float]:
    """How many of the things that hang on a body would hang in a valley, and how many of their openings on edge."""
    ends = [(link, i) for link in a_set.links for i, b in enumerate((link.first, link.second)) if b == body]
    hold = sum(_holds(track_of(link.seats[i], link.spots[i]), up) for link, i in ends)
    return hold, sum(_on_edge(a_set, link, i, up) for link, i in ends)


def _holds(track: Track, up: Vec) -> bool:
    """Whether a track has a valley, and is not level all along."""
    steep = float(np.abs(rises(track, np.array((up,)), OVER)).max())
    return steep > _LEVEL and bearing(track, up, OVER) is not None


def _on_edge(a_set: SetResult, link: Link, i: int, up: Vec) -> float:
    """1 where the axis of an opening is level, 0 where it looks up; of plain bar 0."""
    if link.spots[i].kind not in (SpotKind.OPENING, SpotKind.EYE):
        return 0.0
    return 1.0 - abs(dot(facing(a_set.parts[link.parts[i]].pose, link.spots[i].pose.z), up))


def _standing(origin: Vec, up: Vec, out: Vec, angle: float) -> Pose:
    """The pose that brings the body's `up` and `out` (square to each other) plumb and level, raised by an angle."""
    c, s = math.cos(angle), math.sin(angle)
    out_there, up_there = mixed(OUT, c, UP, s), mixed(OUT, -s, UP, c)
    side, side_there = cross(up, out), cross(up_there, out_there)
    axes = [mixed(mixed(out_there, out[i], up_there, up[i]), 1.0, side_there, side[i]) for i in range(3)]
    turn = Pose(ORIGIN, axes[0], axes[1])
    return Pose(times(facing(turn, origin), -1.0), turn.x, turn.y)
