"""How far each joint of a hanging set swings, and what stops it there."""

import math
from collections.abc import Sequence
from itertools import groupby

from bickern.geometry.pose import Pose, then
from bickern.geometry.solid.apart import ready
from bickern.geometry.solid.solid import Solid, moved
from bickern.parts.fit.hinges import Hinge, hinges
from bickern.parts.fit.result import Swing
from bickern.parts.fit.turning import Lump, Meeting, Turn, meetings, room_along, turned_both_ways
from bickern.parts.set.result import SetResult

ROUND = math.radians(170.0)
"""What is free so far both ways goes right round: beyond, it would only be laid on what it hangs from [rad]."""


def swings(whole: SetResult, poses: tuple[Pose, ...], solids: Sequence[Solid]) -> tuple[Swing, ...]:
    """How far every joint of a set swings from how it hangs, all that hangs below it taken as one stiff lot.

    `poses`: how the bodies lie, z up. `solids`: one for each part, in the part's own coordinates. Of the links of a
    chain, that are alike, the first stands for all. Nothing where the poses are not known.
    """
    if len(poses) != len(whole.bodies):
        return ()
    lumps = lumps_of(whole, poses, solids)
    out: list[Swing] = []
    for _, ways in groupby(hinges(whole, poses), key=_contact):
        alike = tuple(ways)
        meets = meetings(alike[0], lumps)
        out.extend(swing_of(hinge, meets, lumps) for hinge in alike)
    return tuple(out)


def _contact(hinge: Hinge) -> tuple[object, ...]:
    """What the ways of one joint have in common: what turns, from where, and what is left out."""
    return hinge.movers, hinge.hung, hinge.carriers, hinge.touches, hinge.lift


def lumps_of(whole: SetResult, poses: tuple[Pose, ...], solids: Sequence[Solid]) -> tuple[Lump, ...]:
    """Every part's solid as it hangs."""
    made = {id(solid): ready(solid) for solid in solids}
    out = []
    for number, (part, solid) in enumerate(zip(whole.parts, solids, strict=True)):
        pose = then(poses[part.body], part.pose)
        out.append(Lump(part.name, number, part.body, pose, moved(solid, pose), made[id(solid)]))
    return tuple(out)


def swing_of(hinge: Hinge, meets: tuple[Meeting, ...], lumps: tuple[Lump, ...]) -> Swing:
    """How far one way of one joint goes, and how near it comes to anything between."""
    back, on = turned_both_ways(hinge, meets)
    if min(back.angle, on.angle) >= ROUND:
        back = on = Turn(math.pi)
    room, near = room_along(hinge, lumps, -back.angle, on.angle)
    ends = (_met(hinge, back), _met(hinge, on))
    return Swing(hinge.what, hinge.way, hinge.point, hinge.axis, -back.angle, on.angle, *ends, room, near)


def _met(hinge: Hinge, turn: Turn) -> str:
    """What it comes up against, and with what if that is not the thing that hangs in the joint itself."""
    itself = not turn.turns or turn.turns in hinge.what.split(" and ") or turn.turns in hinge.what.split(" on ")
    return turn.stops if itself else f"{turn.stops} (with {turn.turns})"
