"""Which of several ways to put a part: the order of the rules is told in `placing`."""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from bickern.geometry.pose import Pose, facing, put, then
from bickern.geometry.space import Vec, cross, distance, dot, norm, times
from bickern.parts.bar.result import BarResult
from bickern.parts.joint.spec import JointKind
from bickern.parts.set.contact import Contact
from bickern.parts.set.pieces import PieceResult
from bickern.parts.set.result import SpotKind
from bickern.parts.set.room import Room, run_through, shared
from bickern.parts.set.stacks import fills
from bickern.parts.set.ways import strays

_FINE = 1e4
"""Lengths nearer than a tenth of a millimetre are taken as equal."""
Lying = tuple[PieceResult, Pose]
"""A piece, and how it lies in its body."""


@dataclass(frozen=True, slots=True)
class Choice:
    """What is known where a part is to be put: its `piece`, its contacts, what lies there, what it is joined to.

    `room_of`: the room that a piece takes. `alike`: two halves of one piece that turn on one rivet. `eyes`: the axes of
    openings that rings hang in, of this piece in its own coordinates and of what it is joined to in the body's.
    """

    piece: PieceResult
    contacts: tuple[Contact, ...]
    there: tuple[Lying, ...]
    joined_to: Lying
    room_of: Callable[[PieceResult], Room]
    alike: bool = False
    eyes: tuple[tuple[Vec, ...], tuple[Vec, ...]] = ((), ())


def best_of(choice: Choice, tries: Sequence[Pose]) -> Pose:
    """The first way, by the rules in order, in which nothing runs through anything; else the one with least of that."""
    ordered = sorted(range(len(tries)), key=lambda i: (*_rank(choice, tries[i]), i))
    best, least = tries[ordered[0]], 0
    for count, i in enumerate(ordered):
        if count and round(_off(choice, tries[i]) * _FINE) > round(_off(choice, tries[ordered[0]]) * _FINE):
            break
        clashes = _clashes(choice, tries[i], least if count else math.inf)
        if not clashes:
            return tries[i]
        if not count or clashes < least:
            best, least = tries[i], clashes
    return best


def _off(choice: Choice, pose: Pose) -> float:
    return sum(strays(c, pose) for c in choice.contacts)


def _rank(choice: Choice, pose: Pose) -> tuple[float, ...]:
    if choice.contacts[0].guessed and not (isinstance(choice.piece, BarResult) and choice.piece.spec.make > 1):
        return ()  # the guesses come in order
    middle = put(pose, choice.room_of(choice.piece).middle)
    piece, lies = choice.joined_to
    up = up_of(piece, choice.contacts[0], lies)
    turned_over = _meeting(choice.contacts[0], pose) if choice.alike else 0.0
    boxes = sum(shared(choice.room_of(choice.piece), pose, choice.room_of(p), q) for p, q in choice.there)
    away = distance(middle, put(lies, choice.room_of(piece).middle))
    return (
        round(_off(choice, pose) * _FINE),
        turned_over,
        0.0 if choice.alike else round(dot(middle, up) * _FINE),
        _upright(choice, pose),
        round(boxes, 2),
        -round(away * _FINE),
    )


def _upright(choice: Choice, pose: Pose) -> float:
    """0 where the eyes that rings hang in lie across the bar that a tenon goes through, more as they lie along it."""
    contact, (mine, theirs) = choice.contacts[0], choice.eyes
    if contact.joint.kind is not JointKind.TENON:
        return 0.0
    along = contact.other.pose.x if fills(contact.joint, contact.own) else then(pose, contact.own.pose).x
    return round(sum(abs(dot(axis, along)) for axis in (*(facing(pose, m) for m in mine), *theirs)), 2)


def _meeting(contact: Contact, pose: Pose) -> float:
    """0 for two halves that run the same way, one turned over."""
    placed = then(pose, contact.own.pose)
    return round(2.0 - dot(placed.x, contact.other.pose.x) + dot(placed.z, contact.other.pose.z), 3)


def _clashes(choice: Choice, pose: Pose, enough: float) -> int:
    """How often anything runs through anything; not counted further than `enough`."""
    mine, found = choice.room_of(choice.piece), 0
    for piece, lies in choice.there:
        found += run_through(mine, pose, choice.room_of(piece), lies)
        if found >= enough:
            break
    return found


def up_of(piece: PieceResult, contact: Contact, lies: Pose) -> Vec:
    """Which way is up for what is joined to a piece: the axis of a sheet or a hoop, away from a tenon's tip.

    A plain bar has none of its own: its left, or its reference face where the rivet runs to the left.
    """
    if contact.joint.kind is JointKind.TENON and SpotKind.FACE in (contact.own.kind, contact.other.kind):
        axis = contact.other.pose.z
        return times(axis, -1.0) if contact.other.kind is SpotKind.FACE else axis
    if not isinstance(piece, BarResult):
        return lies.z
    if piece.spec.closed:
        return facing(lies, _plane_of(piece))
    sideways = norm(cross(lies.y, contact.other.pose.z))
    return lies.y if sideways > 0.5 else lies.z


def _plane_of(bar: BarResult) -> Vec:
    """The axis of a closed bar's round, the way it turns by the right-hand rule."""
    from bickern.parts.set.spots.bar import bar_spots

    return bar_spots(bar, "")[0].pose.z
