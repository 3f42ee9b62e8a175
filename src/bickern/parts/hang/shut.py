"""Bodies on one rivet or pin, taken as stiff together as they were put together: how far they open is not reckoned."""

from dataclasses import replace

from bickern.geometry.pose import HERE, Pose, put, then
from bickern.geometry.space import Vec, mixed
from bickern.parts.set.result import Body, Link, Seat, SetResult
from bickern.parts.set.seats import moved_seat


def carriers(a_set: SetResult, root: int) -> dict[int, tuple[int, Pose]]:
    """For each body that turns on another's rivet: that other, and how it lies in its coordinates."""
    found: dict[int, tuple[int, Pose]] = {}
    for pivot in a_set.pivots:
        if pivot.second not in found and pivot.second != root and pivot.first not in found:
            found[pivot.second] = (pivot.first, pivot.lies)
    return found


def shut(a_set: SetResult, on: dict[int, tuple[int, Pose]]) -> SetResult:
    """The set with the weight of such bodies, and what hangs on them, moved to the body that carries them."""
    if not on:
        return a_set
    bodies = list(a_set.bodies)
    for second, (first, lies) in on.items():
        bodies[first] = _heavier(bodies[first], bodies[second], lies)
        bodies[second] = replace(bodies[second], mass=0.0)
    links = tuple(_moved(link, on) for link in a_set.links)
    return replace(a_set, bodies=tuple(bodies), links=tuple(x for x in links if x.first != x.second))


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


def pose_of(body: int, poses: dict[int, Pose], on: dict[int, tuple[int, Pose]]) -> Pose:
    """How a body lies; one on a rivet lies with what carries it, one that hangs on nothing where it was drawn."""
    if body in on:
        return then(poses.get(on[body][0], HERE), on[body][1])
    return poses.get(body, HERE)
