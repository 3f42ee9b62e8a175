"""How a set is held: fast against a wall, fast in the hand at an angle, or hung freely on a round bar."""

import math

from bickern.geometry.pose import Pose, facing, then
from bickern.geometry.space import ORIGIN, Vec, cross, dot, minus, mixed, times
from bickern.parts.bar.result import BarResult
from bickern.parts.hang.bridle import UP
from bickern.parts.hang.track import OVER, bearing, track_of
from bickern.parts.set.laid import stretch_named
from bickern.parts.set.result import Held, Link, Seat, SetResult, SpotKind
from bickern.parts.set.seats import moved_seat

OUT: Vec = (1.0, 0.0, 0.0)
"""In the world: out of the wall, or along a level handle."""
WALL, HAND = "wall", "hand"
STEM = 1.5
"""A place at the end of a bar, no more than so many times as wide as thick and without a hole, goes into the wall."""
_END = 1e-6


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
    stretch = stretch_named(piece, held.spot.name)
    if stretch is None or (stretch[0] > _END and stretch[1] < piece.length - _END):
        return False
    thin, wide = sorted(float(v) for v in seat.half[len(seat.half) // 2])
    return wide <= STEM * thin and not any(stretch[0] <= hole.at <= stretch[1] for hole in piece.holes)


def fixed_pose(a_set: SetResult, held: Held, angle: float = 0.0) -> Pose | None:
    """How the held body lies where it is held fast, the held place at the origin; None where it hangs freely.

    On a wall (x of the world looks out of it, the piece stands on that side): a flat lies against it with its bar
    upright, that end up which leaves what hangs in valleys; of two such the one with the palm running down from the
    piece. A tail goes into it square, that side up which leaves what hangs in valleys, eyes and holes on edge. In the
    hand: the bar level at `angle` 0 [rad], its free end along x and raised by a positive angle, with its reference face
    up unless only another side leaves what hangs in valleys.
    """
    way = held_fast(held)
    if not way:
        return None
    spot = then(a_set.parts[held.part].pose, held.spot.pose)
    if way == HAND or is_stem(a_set, held):
        return _end_on(a_set, held, spot, angle)
    return _on_wall(a_set, held, spot)


def wall_face(a_set: SetResult, held: Held, pose: Pose) -> float | None:
    """Where the wall's face is along x of the world [m], the held body lying by `pose`; None where there is no wall."""
    if held_fast(held) != WALL:
        return None
    if not is_stem(a_set, held) or held.spot.seat is None:
        return -held.spot.plate / 2
    seat = moved_seat(held.spot.seat, then(pose, a_set.parts[held.part].pose))
    return float(seat.points[:, 0].max())


def _on_wall(a_set: SetResult, held: Held, spot: Pose) -> Pose:
    off = minus(a_set.bodies[held.body].centre, spot.origin)
    out = times(spot.z, 1.0 if dot(off, spot.z) >= 0 else -1.0)
    down = 1.0 if dot(off, spot.x) >= 0 else -1.0
    ups = sorted((times(spot.x, down), times(spot.x, -down)), key=lambda up: -_valleys(a_set, held.body, up))
    return _standing(spot.origin, ups[0], out, 0.0)


def _end_on(a_set: SetResult, held: Held, spot: Pose, angle: float) -> Pose:
    off = minus(a_set.bodies[held.body].centre, spot.origin)
    along = times(spot.x, 1.0 if dot(off, spot.x) >= 0 else -1.0)
    ways = (spot.z, times(spot.z, -1.0), spot.y, times(spot.y, -1.0))
    up = min(ways, key=lambda way: -_valleys(a_set, held.body, way))
    return _standing(spot.origin, up, along, angle)


def _valleys(a_set: SetResult, body: int, up: Vec) -> float:
    """How many of the things that hang on a body would hang in a valley; less than one more for openings on edge."""
    ends = [(link, i) for link in a_set.links for i, b in enumerate((link.first, link.second)) if b == body]
    hold = sum(bearing(track_of(link.seats[i], link.spots[i]), up, OVER) is not None for link, i in ends)
    return hold + sum(_on_edge(a_set, link, i, up) for link, i in ends) / (1 + len(ends))


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
