"""How far each joint of a hanging set swings, and what stops it there."""

import math
from collections.abc import Iterator, Sequence
from itertools import groupby

import numpy as np

from bickern.geometry.pose import HERE, Pose, put_all, then
from bickern.geometry.solid.apart import ready
from bickern.geometry.solid.solid import Fineness, Solid
from bickern.geometry.solid.sweep import swept
from bickern.parts.fit.result import Swing
from bickern.parts.fit.swing.hinges import Hinge, hanging_from, hinges, root_of
from bickern.parts.fit.swing.turning import HALF_ROUND, Lump, Meeting, Turn, meetings, room_along, turned_both_ways
from bickern.parts.set.result import SetResult
from bickern.parts.set.solids import fixing_solid

ROUND = math.radians(170.0)
"""What is free so far both ways goes right round: beyond, it would only be laid on what it hangs from [rad]."""

PLATES = 4
"""No triangle is longer than this part of its solid: a longer one is split."""

WALL = "the wall"
"""What the wall is called that the set is held to."""
NOBODY = -1
"""The number of the wall's part and body: it is none of the set."""


def swings(
    whole: SetResult, poses: tuple[Pose, ...], solids: Sequence[Solid], wall: float | None = None
) -> tuple[Swing, ...]:
    """How far every joint of a set swings from how it hangs, all that hangs below it taken as one stiff lot.

    `poses`: how the bodies lie, z up. `solids`: one for each part, in the part's own coordinates. Of the links of a
    chain, that are alike, the first stands for all. Nothing where the poses are not known. `wall`: where the face of
    the wall is that the set is held to, which fills all that has less x [m].
    """
    if len(poses) != len(whole.bodies):
        return ()
    lumps = lumps_of(whole, poses, solids, wall)
    return tuple(swing_of(*asked, lumps) for asked in joints_of(whole, poses, lumps))


def joints_of(
    whole: SetResult, poses: tuple[Pose, ...], lumps: tuple[Lump, ...]
) -> Iterator[tuple[Hinge, tuple[Meeting, ...]]]:
    """Every way of every joint, with what may run into what when it swings."""
    for _, ways in groupby(hinges(whole, poses), key=_contact):
        alike = tuple(ways)
        meets = meetings(alike[0], lumps)
        yield from ((hinge, meets) for hinge in alike)


def _contact(hinge: Hinge) -> tuple[object, ...]:
    """What the ways of one joint have in common: what turns, from where, and what is left out."""
    return hinge.movers, hinge.hung, hinge.carriers, hinge.touches, hinge.lift


def lumps_of(
    whole: SetResult, poses: tuple[Pose, ...], solids: Sequence[Solid], wall: float | None = None
) -> tuple[Lump, ...]:
    """Every part's solid as it hangs, every rivet or collar that something cannot turn on, and the wall.

    What is joined to nothing is left out: it lies anywhere.
    """
    there = frozenset(hanging_from(whole, root_of(whole)))
    hung = [(k, part, solids[k]) for k, part in enumerate(whole.parts) if part.body in there]
    made = {id(solid): ready(solid, PLATES) for _, _, solid in hung}
    out = [Lump(p.name, k, p.body, then(poses[p.body], p.pose), made[id(solid)]) for k, p, solid in hung]
    slab = () if wall is None else (_wall(out, [solid for _, _, solid in hung], wall),)
    return (*out, *(lump for lump in _fixings(whole, poses) if lump.body in there), *slab)


def _fixings(whole: SetResult, poses: tuple[Pose, ...]) -> list[Lump]:
    """What stands out of the pieces that it fixes; but a pivot fills the hole of what turns on it."""
    pivots = [pivot.joint for pivot in whole.pivots]
    out = []
    for number, fixing in enumerate(whole.fixings, start=1):
        solid = None if fixing.joint in pivots else fixing_solid(fixing, Fineness.PREVIEW)
        if solid is not None:
            pose = then(poses[fixing.body], fixing.pose)
            out.append(Lump(f"{fixing.joint.kind} {number}", NOBODY, fixing.body, pose, ready(solid, PLATES)))
    return out


def _wall(lumps: Sequence[Lump], solids: Sequence[Solid], face: float) -> Lump:
    """A slab that is wider than anything can reach that turns about a line through the set."""
    places = np.concatenate([put_all(k.pose, solid.points) for k, solid in zip(lumps, solids, strict=True)])
    size = np.linalg.norm(np.ptp(places, axis=0))
    _, y, z = places.mean(axis=0)
    square = np.array(((y - size, z - size), (y + size, z - size), (y + size, z + size), (y - size, z + size)))
    loops = np.stack([np.insert(square, 0, x, axis=1) for x in (face - size, face)])
    return Lump(WALL, NOBODY, NOBODY, HERE, ready(swept(loops), PLATES))


def swing_of(hinge: Hinge, meets: tuple[Meeting, ...], lumps: tuple[Lump, ...]) -> Swing:
    """How far one way of one joint goes, and how near it comes to anything between."""
    back, on = turned_both_ways(hinge, meets)
    if min(back.angle, on.angle) >= ROUND:
        back = on = Turn(HALF_ROUND)
    room, near = room_along(hinge, lumps, -back.angle, on.angle)
    ends = (_met(hinge, back), _met(hinge, on))
    return Swing(hinge.what, hinge.way, hinge.point, hinge.axis, -back.angle, on.angle, *ends, room, near)


def _met(hinge: Hinge, turn: Turn) -> str:
    """What it comes up against, and with what if that is not the thing that hangs in the joint itself."""
    itself = not turn.turns or turn.turns in hinge.what.split(" and ") or turn.turns in hinge.what.split(" on ")
    return turn.stops if itself else f"{turn.stops} (with {turn.turns})"
