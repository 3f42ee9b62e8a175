"""Joints taken apart: each single rivet, pin, tenon, weld or collar with the places that it holds, in their order."""

from collections.abc import Iterable
from dataclasses import dataclass, replace

from bickern.geometry.pose import standing
from bickern.geometry.space import cross, dot, minus, plus
from bickern.measure.finding import Finding, warn
from bickern.parts.bar.result import BarResult
from bickern.parts.joint.spec import JointKind, JointSpec
from bickern.parts.set.grip import is_pin
from bickern.parts.set.result import Spot, SpotKind
from bickern.parts.set.roll_call import At, Roll
from bickern.parts.set.spots.bar import as_hook, as_pin, as_tenon

FILLED = (JointKind.RIVET, JointKind.PIN, JointKind.SCREW, JointKind.TENON)
"""Joints that go through holes."""
_ROUND = 1e-6
"""Metres that a round's width and thickness may differ."""
OPEN = (SpotKind.OPENING, SpotKind.EYE)


@dataclass(frozen=True, slots=True)
class Stack:
    """One single rivet (or weld, collar ...) of a joint and what it holds, the outermost first."""

    joint: JointSpec
    ats: tuple[At, ...]

    @property
    def parts(self) -> tuple[int, ...]:
        """The parts that it holds, each once."""
        return tuple(dict.fromkeys(at.part for at in self.ats))


@dataclass(frozen=True, slots=True)
class Rings:
    """One ring closed through places: `ring` where on the ring, and every place that it goes through."""

    joint: JointSpec
    ring: At
    through: tuple[At, ...]


def stacks_of(joint: JointSpec, roll: Roll) -> tuple[tuple[Stack, ...], tuple[Finding, ...]]:
    """Every single rivet of a joint that is no ring; a place that is not there is a finding and is left out."""
    found = [roll.places(said, filled=joint.kind in FILLED) for said in joint.through]
    found = [tuple(_as_held(joint, roll, at) for at in row) for row in found]
    lost = _lost(joint, found)
    rows = [_share(row, joint.through, i) for i, row in enumerate(found) if row]
    count = max((len(row) for row in rows), default=0)
    return tuple(_stack(joint, rows, i) for i in range(count)), lost


def _as_held(joint: JointSpec, roll: Roll, at: At) -> At:
    """A stretch named in a tenon joint is the tenon, a round one as thick as a pin joint's pin is the pin.

    A ring that is fixed is held at its far side, from outside.
    """
    piece = roll.singles[at.part].piece
    if isinstance(piece, BarResult) and at.spot.kind is SpotKind.BAR:
        if joint.kind is JointKind.TENON:
            return At(at.part, as_tenon(piece, at.spot))
        if joint.kind is JointKind.PIN and _is_pin(joint, at.spot):
            return At(at.part, as_pin(piece, at.spot))
    return At(at.part, on_ring(at.spot)) if at.spot.kind is SpotKind.RING else at


def _is_pin(joint: JointSpec, spot: Spot) -> bool:
    if spot.seat is None:
        return False
    wide, thick = (2 * float(v) for v in spot.seat.half[len(spot.seat.half) // 2])
    return is_pin(joint.size, thick, rounded=not spot.seat.square and abs(wide - thick) < _ROUND)


def fills(joint: JointSpec, spot: Spot) -> bool:
    """Whether a place is a bar that goes through the rest itself: a tenon, a pin drawn on its piece."""
    return joint.kind in (JointKind.TENON, JointKind.PIN) and spot.kind is SpotKind.FACE and spot.seat is not None


def on_ring(whole: Spot) -> Spot:
    """A place on the metal of a ring, farthest along the ring's x; z looks out of the ring."""
    seat = whole.seat
    if seat is None:
        return whole
    outs = [minus((float(x), float(y), float(z)), whole.pose.origin) for x, y, z in seat.points]
    far = max(outs, key=lambda out: dot(out, whole.pose.x))
    pose = standing(plus(whole.pose.origin, far), far, cross(whole.pose.z, far))
    return replace(whole, kind=SpotKind.BAR, pose=pose, opening=0.0)


def _share(row: tuple[At, ...], through: tuple[str, ...], i: int) -> tuple[At, ...]:
    """A place named twice is gone through twice by each rivet: the first time by one half of its holes."""
    times, before = through.count(through[i]), through[:i].count(through[i])
    return row[before::times] if times > 1 and len(row) % times == 0 else row


def _stack(joint: JointSpec, rows: list[tuple[At, ...]], i: int) -> Stack:
    return Stack(joint, tuple(row[i % len(row)] for row in rows))


def _lost(joint: JointSpec, found: Iterable[tuple[At, ...]]) -> tuple[Finding, ...]:
    lost = [said for said, row in zip(joint.through, found, strict=True) if not row]
    says = "“{}” is not to be found where the pieces are put together: the {} there is left out"
    try_this = "name a stretch of metal, a bend, a hole or a lug of that piece"
    return tuple(warn("place-not-found", says.format(s, joint.kind), try_this, joint.where) for s in lost)


def turns(joint: JointSpec, stacks: tuple[Stack, ...]) -> bool:
    """Whether two parts turn on it: a pin always; one single rivet through one hole in each of two parts."""
    if joint.kind is JointKind.PIN:
        return True
    alone = joint.kind is JointKind.RIVET and joint.number == 1 and len(stacks) == 1
    return alone and len(stacks[0].parts) == 2 and all(at.spot.kind in OPEN for at in stacks[0].ats)


def rings_of(joint: JointSpec, roll: Roll) -> tuple[tuple[Rings, ...], tuple[Finding, ...]]:
    """Every single ring, or hook, of a ring joint; several rings through as many places go one through each."""
    rings = roll.places(joint.ring)
    if joint.hooked:
        rings = tuple(At(at.part, as_hook(roll.singles[at.part].piece, at.spot)) for at in rings)
    rows = [roll.places(said) for said in joint.through]
    lost = _lost(replace(joint, through=(joint.ring, *joint.through)), (rings, *rows))
    return tuple(Rings(joint, ring, _through(rows, i, len(rings))) for i, ring in enumerate(rings)), lost


def _through(rows: list[tuple[At, ...]], i: int, rings: int) -> tuple[At, ...]:
    one_each = [rings > 1 and len(row) == rings for row in rows]
    return tuple(at for row, one in zip(rows, one_each, strict=True) for at in ((row[i],) if one else row))


def chained(roll: Roll) -> tuple[Rings, ...]:
    """A chain's links, each closed through the next."""
    found = []
    for part, single in enumerate(roll.singles):
        if single.in_chain > 1 and single.number % single.in_chain:
            ring, following = roll.places(single.name)[0], roll.places(roll.singles[part + 1].name)[0]
            where = single.piece.spec.where
            joint = JointSpec(JointKind.RING, (roll.singles[part + 1].name,), single.name, where=where)
            found.append(Rings(joint, ring, (following,)))
    return tuple(found)
