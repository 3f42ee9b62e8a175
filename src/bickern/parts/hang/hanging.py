"""A set brought to rest and laid in the world, and how far its parts then lean."""

from collections.abc import Mapping
from dataclasses import dataclass

from bickern.geometry.pose import HERE, Pose, put, seen, then
from bickern.geometry.space import Vec, cross, norm, unit
from bickern.parts.hang.bridle import UP, facing_pose
from bickern.parts.hang.friction import Band, band
from bickern.parts.hang.held import fixed_pose, held_fast, root_seat
from bickern.parts.hang.lie import Laid, lay
from bickern.parts.hang.order import Order, carried_mass, order_of
from bickern.parts.hang.rests import Rests, Tracks, tracks_of
from bickern.parts.hang.result import Tilt
from bickern.parts.hang.settle import Hung, Rest
from bickern.parts.hang.shut import carriers, pose_of, shut
from bickern.parts.hang.spread import rests_with_spread
from bickern.parts.hang.tilt import TRUE, Leaning, leaning, tilt_of, told_parts
from bickern.parts.set.result import Held, SetResult


@dataclass(frozen=True, slots=True)
class Hanging:
    """Everything found on the way to an answer: who hangs on whom, on what, at rest, and laid in the world."""

    a_set: SetResult
    held: Held
    order: Order
    tracks: Tracks
    masses: Mapping[int, float]
    fixed: Pose | None
    rests: Rests
    laid: Laid
    on_rivets: Mapping[int, tuple[int, Pose]]

    @property
    def poses(self) -> tuple[Pose, ...]:
        """Every body's pose; one that hangs on nothing stays where it was drawn."""
        return tuple(pose_of(i, self.laid.poses, dict(self.on_rivets)) for i in range(len(self.a_set.bodies)))


def hung_up(a_set: SetResult, held: Held, angle: float = 0.0) -> Hanging:
    """The set brought to rest and laid in the world."""
    on_rivets = carriers(a_set, held.body)
    a_set = shut(a_set, on_rivets)
    order = order_of(a_set, held.body)
    fixed = fixed_pose(a_set, held, angle)
    tracks = tracks_of(a_set, order, None if fixed else root_seat(a_set, held))
    if fixed is None and tracks.root is None:
        fixed = _plumb_below(a_set, held)
    masses = carried_mass(a_set, order)
    tracks, rests = rests_with_spread(a_set, order, tracks, masses, fixed)
    centres = {i: body.centre for i, body in enumerate(a_set.bodies)}
    laid = lay(order, tracks, rests, centres, fixed)
    return Hanging(a_set, held, order, tracks, masses, fixed, rests, laid, on_rivets)


def _plumb_below(a_set: SetResult, held: Held) -> Pose:
    """Hung by a place with no metal to bear on: its own weight plumb below that place."""
    place = put(a_set.parts[held.part].pose, held.spot.pose.origin)
    centre = a_set.bodies[held.body].centre
    off = (place[0] - centre[0], place[1] - centre[1], place[2] - centre[2])
    up = unit(off) if norm(off) > 1e-9 else UP
    turn = facing_pose(up, held.spot.pose.x, (1.0, 0.0, 0.0))
    there = put(turn, place)
    return Pose((-there[0], -there[1], -there[2]), turn.x, turn.y)


def tilts_of(hanging: Hanging, body: int, poses: tuple[Pose, ...], friction: float | None) -> tuple[Tilt, ...]:
    """The tilts of one body's parts; without `friction` no band (both its ends are the rest itself)."""
    if body == hanging.order.root and hanging.fixed is not None and held_fast(hanging.held) == "wall":
        return ()
    if body in restless(hanging):
        return ()
    up = seen(poses[body], UP)
    found: list[Tilt] = []
    for number in told_parts(hanging.a_set, body):
        lean = leaning(hanging.a_set.parts[number], seen(hanging.a_set.parts[number].pose, up))
        if lean is None:
            continue
        rest, hung = hanging.rests.single.get(body), hanging.rests.hung.get(body)
        held = _band(hanging, number, lean, (hung, rest), friction) if friction and rest and hung else None
        found.append(tilt_of(hanging.a_set, number, poses, held, lean))
    return tuple(found)


def restless(hanging: Hanging) -> frozenset[int]:
    """Bodies of which no rest was found: how they are drawn says nothing."""
    pairs = zip(hanging.order.bridles, hanging.rests.bridles, strict=True)
    return frozenset((*hanging.rests.sliding, *(bridle.bottom for bridle, settled in pairs if settled is None)))


def _band(hanging: Hanging, number: int, lean: Leaning, body: tuple[Hung, Rest], friction: float) -> Band:
    """The band in the plane in which the part leans; of one that hangs true, along the bar it hangs by."""
    hung, rest = body
    if lean.axis is not None and lean.angle > TRUE:
        pose = hanging.a_set.parts[number].pose
        axis = then(pose, Pose(HERE.origin, lean.axis, _square(lean.axis))).x
    else:
        axis = unit(cross(rest.up, rest.carried.along))
    return band(hung, rest, axis, friction)


def _square(way: Vec) -> Vec:
    other = (1.0, 0.0, 0.0) if abs(way[0]) < 0.6 else (0.0, 1.0, 0.0)
    return unit(cross(way, other))


def drop_of(hanging: Hanging, poses: tuple[Pose, ...]) -> float:
    """From where the set is held down to where its lowest body balances [m]."""
    hung = hanging.order.down
    return max(-put(poses[i], hanging.a_set.bodies[i].centre)[2] for i in hung)
