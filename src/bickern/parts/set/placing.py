"""How rigid parts come to lie: one after another, each put against what already lies there.

The first part of a body stays as it is in its own coordinates. Then, again and again, the part with the most joints to
what lies is put to it, sheet that names no place for them last. Holes that share a rivet come on one line, faces
touching; the place named first lies outermost (outside a sheet, in front of a bar). What the joint leaves open (which
face, which quarter turn) is chosen so, each rule only among what the one before leaves equal: the holes of further
rivets line up; nothing runs through another part; it hangs as low as it can (down is the bottom of a sheet, the far
side of a hoop, the way a tenon points); of what is tenoned in a bar the eyes that rings hang in lie across that bar,
as it stands on a wall; it keeps clear of the room that others take; it points away from what it is
joined to.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from bickern.geometry.pose import HERE, Pose, back, facing, put, then
from bickern.geometry.space import Vec
from bickern.measure.finding import Finding, note
from bickern.parts.joint.spec import JointKind
from bickern.parts.set.choosing import Choice, best_of
from bickern.parts.set.contact import Contact, contact_of
from bickern.parts.set.guessed import guess_notes
from bickern.parts.set.hollow import stand_off
from bickern.parts.set.lined_up import line_up_findings
from bickern.parts.set.result import Pivot
from bickern.parts.set.roll_call import Roll
from bickern.parts.set.stacks import OPEN, Rings, Stack
from bickern.parts.set.ways import poses_for

Eyes = dict[int, tuple[Vec, ...]]


@dataclass(frozen=True, slots=True)
class Laid:
    """Every part's body, and how it lies in the coordinates of that body."""

    body: tuple[int, ...]
    poses: tuple[Pose, ...]
    findings: tuple[Finding, ...] = ()


def lay_together(roll: Roll, stacks: Sequence[Stack], rings: Sequence[Rings] = ()) -> Laid:
    """Bodies in the order of their first parts, and every part laid in its body; `rings` hang in their openings."""
    eyes = _eyes(rings)
    body = _bodies(len(roll.singles), stacks)
    poses: dict[int, Pose] = {body.index(b): HERE for b in set(body)}
    notes: list[Finding] = []
    while waiting := [i for i in range(len(body)) if i not in poses]:
        contacts = {i: tuple(_contacts(roll, i, poses, stacks)) for i in waiting}
        part = max(waiting, key=lambda i: (_surely(contacts[i]), len(contacts[i]), -i))
        poses[part] = _laid(roll, part, contacts[part], poses, eyes)
        notes += guess_notes(roll, part, contacts[part])
    laid = tuple(poses[i] for i in range(len(body)))
    return Laid(body, laid, (*notes, *line_up_findings(roll, stacks, laid)))


def _bodies(count: int, stacks: Sequence[Stack]) -> tuple[int, ...]:
    """Parts that share a rigid joint are one body; bodies are numbered by their first parts."""
    first = list(range(count))
    for stack in stacks:
        joined = {first[p] for p in stack.parts}
        first = [min(joined) if f in joined else f for f in first]
    numbers = {f: i for i, f in enumerate(sorted(set(first)))}
    return tuple(numbers[f] for f in first)


def _contacts(roll: Roll, part: int, poses: dict[int, Pose], stacks: Sequence[Stack]) -> Iterator[Contact]:
    """Where the part meets what already lies, rivet by rivet: the nearest place beside it in the stack."""
    for stack in stacks:
        own = next((i for i, at in enumerate(stack.ats) if at.part == part), None)
        others = [i for i, at in enumerate(stack.ats) if at.part in poses]
        if own is not None and others:
            near = min(others, key=lambda i: abs(i - own))
            there = stack.ats[near].part
            middle, off = roll.middle(roll.singles[there].piece), stand_off(roll, stack, own, near)
            yield contact_of(stack, own, near, poses[there], middle, off)


def _surely(contacts: tuple[Contact, ...]) -> bool:
    return bool(contacts) and not contacts[0].guessed


def _eyes(rings: Sequence[Rings]) -> Eyes:
    """Of each part the axes of the openings that rings hang in, in its own coordinates."""
    found: Eyes = {}
    for at in (at for one in rings for at in one.through if at.spot.kind in OPEN):
        found[at.part] = (*found.get(at.part, ()), at.spot.pose.z)
    return found


def _laid(roll: Roll, part: int, contacts: tuple[Contact, ...], poses: dict[int, Pose], eyes: Eyes) -> Pose:
    joined = contacts[0].part
    tries = poses_for(roll, part, contacts, poses[joined])
    there = tuple((roll.singles[i].piece, pose) for i, pose in poses.items())
    lying = roll.singles[joined].piece, poses[joined]
    theirs = tuple(facing(poses[joined], axis) for axis in eyes.get(joined, ()))
    choice = Choice(roll.singles[part].piece, contacts, there, lying, roll.room, eyes=(eyes.get(part, ()), theirs))
    return best_of(choice, tries)


def pivots_of(roll: Roll, stacks: Sequence[Stack], laid: Laid) -> tuple[tuple[Pivot, ...], tuple[Finding, ...]]:
    """Two bodies on each pin or single rivet; two halves of one piece meet turned over, running the same way."""
    found: list[Pivot] = []
    held: set[frozenset[int]] = set()  # two pins on one line are one hinge
    for stack in stacks:
        one = stack.ats[0]
        if frozenset(stack.parts) in held:
            continue
        held.add(frozenset(stack.parts))
        others = {laid.body[at.part]: i for i, at in reversed(tuple(enumerate(stack.ats)))}
        for body, i in sorted(others.items()):
            if body != laid.body[one.part]:
                found.append(_pivot(roll, stacks, stack, i, laid))
    return tuple(found), _not_turning(stacks, laid)


def _pivot(roll: Roll, stacks: Sequence[Stack], stack: Stack, i: int, laid: Laid) -> Pivot:
    one, other = stack.ats[0], stack.ats[i]
    body, pose = laid.body[one.part], laid.poses[one.part]
    first = contact_of(stack, i, 0, pose, stands_off=stand_off(roll, stack, i, 0))
    contacts = (first, *_further(stacks, stack, (other.part, one.part), pose))
    there = tuple((roll.singles[k].piece, laid.poses[k]) for k, b in enumerate(laid.body) if b == body)
    single, held = roll.singles[other.part], roll.singles[one.part]
    choice = Choice(single.piece, contacts, there, (held.piece, pose), roll.room, single.kind == held.kind)
    lies = then(best_of(choice, poses_for(roll, other.part, contacts, pose)), back(laid.poses[other.part]))
    point, axis = put(pose, one.spot.pose.origin), then(pose, one.spot.pose).z
    return Pivot(body, laid.body[other.part], point, axis, stack.joint, lies)


def _further(stacks: Sequence[Stack], stack: Stack, parts: tuple[int, int], pose: Pose) -> Iterator[Contact]:
    """Where the same two parts (what turns, what carries it) meet on further pins."""
    for other in stacks:
        if other is not stack and set(other.parts) == set(stack.parts):
            own, there = (next(i for i, at in enumerate(other.ats) if at.part == part) for part in parts)
            yield contact_of(other, own, there, pose)


def _not_turning(stacks: Sequence[Stack], laid: Laid) -> tuple[Finding, ...]:
    """A pin through one body alone turns nothing."""
    found = []
    for stack in stacks:
        if stack.joint.kind is JointKind.PIN and len({laid.body[p] for p in stack.parts}) == 1:
            says = f"the pin through {' and '.join(stack.joint.through)} lets nothing turn"
            found.append(note("pin-turns-nothing", says, "name a place on each of the two parts", stack.joint.where))
    return tuple(found)
