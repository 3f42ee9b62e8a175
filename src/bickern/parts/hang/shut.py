"""Bodies on one rivet, taken as stiff together as they were put together: how far they open is not reckoned.

A rivet is tight. A pin is not: what turns on one swings by its own weight (see `pins`).
"""

from collections.abc import Iterable
from dataclasses import replace

from bickern.geometry.pose import HERE, Pose, back, facing, put, then
from bickern.geometry.space import Vec, mixed
from bickern.parts.joint.spec import JointKind
from bickern.parts.set.result import Body, Link, Pivot, Seat, SetResult
from bickern.parts.set.spots.seats import moved_seat


def loose(pivot: Pivot) -> bool:
    """Whether what turns on it turns by its own weight."""
    return pivot.joint.kind is JointKind.PIN


def carriers(a_set: SetResult, root: int) -> dict[int, tuple[int, Pose]]:
    """For each body that is riveted to another: that other, and how it lies in its coordinates.

    Of bodies riveted together one carries the rest: the held one, or the one named first.
    """
    tight = [pivot for pivot in a_set.pivots if not loose(pivot)]
    found: dict[int, tuple[int, Pose]] = {}
    for body in (root, *(pivot.first for pivot in tight)):
        if body not in found:
            _gather(found, tight, body, (root, body))
    return found


def _gather(
    found: dict[int, tuple[int, Pose]], tight: Iterable[Pivot], carrier: int, not_carried: tuple[int, int]
) -> None:
    """All that is riveted to a body, and to what is riveted to it."""
    lies, waiting = {carrier: HERE}, [carrier]
    while waiting:
        here = waiting.pop(0)
        for pivot in tight:
            pairs = ((pivot.first, pivot.second, pivot.lies), (pivot.second, pivot.first, back(pivot.lies)))
            for one, other, pose in pairs:
                if one == here and other not in lies and other not in found and other not in not_carried:
                    lies[other] = then(lies[here], pose)
                    found[other] = (carrier, lies[other])
                    waiting.append(other)


def shut(a_set: SetResult, on: dict[int, tuple[int, Pose]]) -> SetResult:
    """The set with the weight of such bodies, and what hangs on them, moved to the body that carries them."""
    if not on:
        return a_set
    bodies = list(a_set.bodies)
    for second, (first, lies) in on.items():
        bodies[first] = _heavier(bodies[first], bodies[second], lies)
        bodies[second] = replace(bodies[second], mass=0.0)
    links = tuple(_moved(link, on) for link in a_set.links)
    pivots = tuple(_turned(pivot, on) for pivot in a_set.pivots if loose(pivot))
    return replace(
        a_set,
        bodies=tuple(bodies),
        links=tuple(x for x in links if x.first != x.second),
        pivots=tuple(x for x in pivots if x.first != x.second),
    )


def _heavier(one: Body, other: Body, lies: Pose) -> Body:
    mass = one.mass + other.mass
    if mass <= 0:
        return one
    centre: Vec = mixed(one.centre, one.mass / mass, put(lies, other.centre), other.mass / mass)
    return replace(one, mass=mass, centre=centre)


def _moved(link: Link, on: dict[int, tuple[int, Pose]]) -> Link:
    first, one = _where(link.first, link.seats[0], on)
    second, other = _where(link.second, link.seats[1], on)
    return replace(link, first=first, second=second, seats=(one, other))


def _where(body: int, seat: Seat, on: dict[int, tuple[int, Pose]]) -> tuple[int, Seat]:
    if body not in on:
        return body, seat
    return on[body][0], moved_seat(seat, on[body][1])


def _turned(pivot: Pivot, on: dict[int, tuple[int, Pose]]) -> Pivot:
    first, one = on.get(pivot.first, (pivot.first, HERE))
    second, other = on.get(pivot.second, (pivot.second, HERE))
    lies = then(then(one, pivot.lies), back(other))
    return Pivot(first, second, put(one, pivot.point), facing(one, pivot.axis), pivot.joint, lies)


def pose_of(body: int, poses: dict[int, Pose], on: dict[int, tuple[int, Pose]]) -> Pose:
    """How a body lies; one on a rivet lies with what carries it, one that hangs on nothing where it was drawn."""
    if body in on:
        return then(poses.get(on[body][0], HERE), on[body][1])
    return poses.get(body, HERE)
