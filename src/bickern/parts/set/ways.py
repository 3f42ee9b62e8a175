"""Every way in which a part can be put to what it is joined to."""

from collections.abc import Iterator, Sequence
from math import atan2, cos, pi, sin

from bickern.geometry.pose import Pose, back, put, seen, standing, then
from bickern.geometry.space import Vec, cross, dot, minus, mixed, norm, plus, times
from bickern.parts.joint.spec import JointKind
from bickern.parts.set.contact import Contact
from bickern.parts.set.guessed import guessed_poses
from bickern.parts.set.result import Spot, SpotKind
from bickern.parts.set.roll_call import Roll
from bickern.parts.set.stacks import OPEN, fills
from bickern.parts.sheet.result import SheetResult

QUARTERS = (0.0, pi / 2, pi, -pi / 2)
_SQUARE = 0.05
"""A place is at an end of its bar where its line comes this near to it, in shares of its own length."""


def poses_for(roll: Roll, part: int, contacts: Sequence[Contact], lies: Pose) -> tuple[Pose, ...]:
    """Every way to put a part to its first contact (its further ones turn it); `lies`: the other's pose."""
    first = contacts[0]
    own, other = roll.singles[part].piece, roll.singles[first.part].piece
    if _tenoned(first):
        return tuple(_tenons(first))
    if first.guessed:
        return guessed_poses(roll, part, contacts, lies)
    if first.axial or isinstance(own, SheetResult) or isinstance(other, SheetResult):
        return tuple(_riveted(contacts, isinstance(own, SheetResult), isinstance(other, SheetResult)))
    return tuple(_WAYS.get(first.joint.kind, _faced)(first))


def _onto(own: Spot, target: Pose) -> Pose:
    """How a part lies whose place comes to lie by a target."""
    return then(target, back(own.pose))


def _about(pose: Pose, angle: float) -> Pose:
    """The pose turned about its own z."""
    c, s = cos(angle), sin(angle)
    return Pose(pose.origin, mixed(pose.x, c, pose.y, s), mixed(pose.y, c, pose.x, -s))


def _over(pose: Pose) -> Pose:
    """The pose turned over about its own x."""
    return Pose(pose.origin, pose.x, times(pose.y, -1.0))


def _shifted(pose: Pose, along_z: float) -> Pose:
    return Pose(mixed(pose.origin, 1.0, pose.z, along_z), pose.x, pose.y)


def _riveted(contacts: Sequence[Contact], own_sheet: bool, other_sheet: bool) -> Iterator[Pose]:
    """Holes on one line, faces touching, in the order told; turned as a second rivet wants it, else by quarters."""
    first = contacts[0]
    side = 1.0 if first.outside else -1.0
    for at_side in (side,) if other_sheet or not own_sheet else (1.0, -1.0):
        level = _shifted(first.other.pose, at_side * first.apart)
        # a sheet's outside looks away from what it is told to lie outside of
        facing_out = at_side if first.outside else -at_side
        for target in (level, _over(level)):
            if own_sheet and dot(target.z, first.other.pose.z) * facing_out < 0:
                continue
            for turn in (*_second_turn(contacts, target), *QUARTERS):
                yield _onto(first.own, _about(target, turn))


def _second_turn(contacts: Sequence[Contact], target: Pose) -> Iterator[float]:
    """The turn about the first hole's axis at which another rivet's holes come on one line too."""
    first = contacts[0]
    for other in (c for c in contacts[1:] if c.axial):
        mine = seen(first.own.pose, minus(other.own.pose.origin, first.own.pose.origin))
        want = seen(target, minus(other.other.pose.origin, first.other.pose.origin))
        if norm((mine[0], mine[1], 0.0)) > 1e-4 and norm((want[0], want[1], 0.0)) > 1e-4:
            yield atan2(want[1], want[0]) - atan2(mine[1], mine[0])


def _tenoned(contact: Contact) -> bool:
    spots = (contact.own, contact.other)
    return any(fills(contact.joint, s) for s in spots) and any(s.kind in OPEN for s in spots)


def _tenons(contact: Contact) -> Iterator[Pose]:
    """A tenon or a pin in its hole, the shoulder against the face; the hole either way round, turned by quarters."""
    own, other = contact.own, contact.other
    if other.kind is SpotKind.FACE:
        level = _shifted(other.pose, contact.between + own.plate / 2)
        yield from (_onto(own, _about(side, turn)) for side in (level, _over(level)) for turn in QUARTERS)
        return
    for side in (other.pose, _over(other.pose)):
        level = _shifted(side, -contact.between - other.plate / 2)
        yield from (_onto(own, _about(level, turn)) for turn in QUARTERS)


def _outward(spot: Spot) -> Vec | None:
    """The way out of the bar at an end of it; None where the place is not at an end."""
    seat = spot.seat
    if seat is None or not spot.name.startswith(("start", "end")):
        return None
    return times(spot.pose.x, -1.0) if spot.name.startswith("start") else spot.pose.x


def _welded(contact: Contact) -> Iterator[Pose]:
    """Ends in one line; an end on a middle stands square on its reference face; two middles cross, faces together."""
    mine, theirs = _outward(contact.own), _outward(contact.other)
    if mine is None and theirs is None:
        yield from _faced(contact)
        return
    out = theirs if theirs is not None else contact.other.pose.z
    place = contact.other.pose.origin
    if theirs is None:
        place = mixed(place, 1.0, out, contact.other.plate / 2)
    near = contact.other.pose.z if theirs is not None else contact.other.pose.x
    target = standing(place, out, near)
    way_in = times(mine, -1.0) if mine is not None else times(contact.own.pose.z, -1.0)
    beside = contact.own.pose.z if mine is not None else contact.own.pose.x
    own = standing(contact.own.pose.origin, way_in, beside)
    shift = 0.0 if mine is not None else contact.own.plate / 2
    yield from (then(_about(_shifted(target, shift), turn), back(own)) for turn in QUARTERS)


def _collared(contact: Contact) -> Iterator[Pose]:
    """Side by side in one row, wide faces together, running the same way; then the other side, and turned over."""
    own, other = contact.own.pose, contact.other.pose
    across, room = _row_way(contact.other)
    _, own_room = _row_way(contact.own)
    way = other.y if across else other.z
    for side in (1.0, -1.0):
        place = mixed(other.origin, 1.0, way, side * (room + own_room + contact.between))
        level = Pose(place, other.x, other.y)
        yield from (then(turned, back(own)) for turned in (level, _over(level), _about(level, pi)))


def _row_way(spot: Spot) -> tuple[bool, float]:
    """Whether the row runs across the bar (its width is its thin way), and half its size that way [m]."""
    if spot.seat is None:
        return False, spot.plate / 2
    wide, thick = (float(v) for v in spot.seat.half[len(spot.seat.half) // 2])
    return wide < thick, min(wide, thick)


def _faced(contact: Contact) -> Iterator[Pose]:
    """Faces together where no hole says where: the first named lies in front; along, or across by quarters."""
    side = 1.0 if contact.outside else -1.0
    level = _shifted(contact.other.pose, side * contact.apart)
    yield from (_onto(contact.own, _about(face, turn)) for face in (level, _over(level)) for turn in QUARTERS)


_WAYS = {
    JointKind.WELD: _welded,
    JointKind.COLLAR: _collared,
    JointKind.WRAP: _collared,
}


def strays(contact: Contact, pose: Pose) -> float:
    """How far [m] a rivet's two holes are off one line in a pose of the part, or how far apart their faces are."""
    if not contact.axial:
        return 0.0
    placed = then(pose, contact.own.pose)
    axis = contact.other.pose.z
    way = minus(placed.origin, contact.other.pose.origin)
    lateral = norm(cross(way, axis))
    lean = norm(cross(placed.z, axis)) * contact.apart
    return lateral + lean + abs(abs(dot(way, axis)) - contact.apart)


def middle_of(contact: Contact, pose: Pose) -> Vec:
    """Where a contact lies in the body once the part is placed [m]."""
    return times(plus(put(pose, contact.own.pose.origin), contact.other.pose.origin), 0.5)
