"""Rivets whose holes do not come on one line once the parts lie."""

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from bickern.geometry.pose import HERE, Pose
from bickern.measure.finding import Finding, warn
from bickern.measure.units.say import say_both
from bickern.measure.units.words import Style
from bickern.parts.set.contact import contact_of
from bickern.parts.set.hollow import stand_off
from bickern.parts.set.roll_call import Roll
from bickern.parts.set.spots.bar import moved_spot
from bickern.parts.set.stacks import Stack
from bickern.parts.set.ways import strays

OFF = 0.5e-3
"""Metres off one line that a rivet draws together (common practice: half a millimetre, 1/64 in and a little)."""


def line_up_findings(
    roll: Roll,
    stacks: Sequence[Stack],
    poses: Sequence[Pose],
    style: Style = Style(),  # noqa: B008 - frozen
) -> tuple[Finding, ...]:
    """One warning for each joint: the rivet that is furthest off, and by how much."""
    worst: dict[int, tuple[float, Stack]] = {}
    for stack in stacks:
        off = max((_off(roll, stack, i, j, poses) for i, j in pairwise(range(len(stack.ats)))), default=0.0)
        if off > max(OFF, worst.get(id(stack.joint), (0.0, stack))[0]):
            worst[id(stack.joint)] = off, stack
    return tuple(_warning(roll, off, stack, style) for off, stack in worst.values())


def _off(roll: Roll, stack: Stack, i: int, j: int, poses: Sequence[Pose]) -> float:
    """Of two neighbours in a stack; a rivet that goes through one part twice says nothing of how that is bent."""
    if stack.ats[i].part == stack.ats[j].part:
        return 0.0
    contact = contact_of(stack, i, j, poses[stack.ats[j].part], stands_off=stand_off(roll, stack, i, j))
    placed = moved_spot(stack.ats[i].spot, poses[stack.ats[i].part])
    return strays(replace(contact, own=placed), HERE)


def _warning(roll: Roll, off: float, stack: Stack, style: Style) -> Finding:
    names = " and ".join(f"{roll.singles[at.part].name}, {at.spot.name}," for at in stack.ats)
    kind = stack.joint.kind
    says = f"the holes of {names} are {say_both(off, style)} off one line: the {kind} does not go through"
    return warn("holes-off-line", says, "move a hole, or change a length between them", stack.joint.where)
