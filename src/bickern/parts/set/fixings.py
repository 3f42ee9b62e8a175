"""Rivets, pins, screws, collars and wraps where they sit, and what each weighs."""

from collections.abc import Sequence

from bickern.geometry.pose import HERE, Pose, seen, standing, then
from bickern.geometry.space import Vec, dot, minus, mixed
from bickern.parts.joint.spec import JointKind, JointResult
from bickern.parts.set.placing import Laid
from bickern.parts.set.result import Fixing, Pivot, Spot
from bickern.parts.set.spots.bar import moved_spot
from bickern.parts.set.stacks import OPEN, Stack, fills

_ROUND = (JointKind.COLLAR, JointKind.WRAP)
_NO_METAL = (JointKind.TENON, JointKind.WELD)
"""These are metal of their pieces."""


def fixings_of(
    stacks: Sequence[Stack], laid: Laid, pivots: Sequence[Pivot], made: Sequence[JointResult]
) -> tuple[Fixing, ...]:
    """One for each single rivet, pin, screw or collar of the set."""
    return tuple(_fixing(stack, laid, pivots, made) for stack in stacks if not _of_its_piece(stack))


def _of_its_piece(stack: Stack) -> bool:
    """Whether it has no metal of its own."""
    return stack.joint.kind in _NO_METAL or any(fills(stack.joint, at.spot) for at in stack.ats)


def _fixing(stack: Stack, laid: Laid, pivots: Sequence[Pivot], made: Sequence[JointResult]) -> Fixing:
    spots = _together(stack, laid, pivots)
    body = laid.body[stack.ats[0].part]
    mass = _mass(stack, made)
    if stack.joint.kind in _ROUND:
        middle, across, high = _bundle(spots)
        return Fixing(stack.joint, body, middle, 0.0, mass, across, high)
    pose, grip = _through(spots)
    return Fixing(stack.joint, body, pose, grip, mass)


def _together(stack: Stack, laid: Laid, pivots: Sequence[Pivot]) -> tuple[Spot, ...]:
    """The places in the first one's body; what turns on it lies as it was put together."""
    body = laid.body[stack.ats[0].part]
    lies = {p.second: p.lies for p in reversed(pivots) if p.first == body} | {body: HERE}
    there = ((at, lies[laid.body[at.part]]) for at in stack.ats if laid.body[at.part] in lies)
    return tuple(moved_spot(at.spot, then(pose, laid.poses[at.part])) for at, pose in there)


def _mass(stack: Stack, made: Sequence[JointResult]) -> float:
    result = next((m for m in made if m.spec == stack.joint), None)
    count = 1 if stack.joint.kind is JointKind.WRAP else max(1, stack.joint.number)
    return result.mass / count if result else 0.0


def _through(spots: Sequence[Spot]) -> tuple[Pose, float]:
    """The axis from the first face it meets to the last, and the metal between [m]: by a hole, if there is one.

    What has no hole there lies against the rest, on the side where it is.
    """
    first = next((s for s in spots if s.kind in OPEN), spots[0])
    axis, place = first.pose.z, first.pose.origin
    holes = [s for s in spots if s.kind in OPEN] or [first]
    ends = [dot(minus(s.pose.origin, place), axis) + side * s.plate / 2 for s in holes for side in (1.0, -1.0)]
    low, high = min(ends), max(ends)
    for spot in (s for s in spots if s not in holes):
        below = dot(minus(spot.pose.origin, place), axis) < 0
        low, high = (low - spot.plate, high) if below else (low, high + spot.plate)
    return standing(mixed(place, 1.0, axis, low), axis, first.pose.x), high - low


def _bundle(spots: Sequence[Spot]) -> tuple[Pose, float, float]:
    """The middle of the bundle, z along the bars, x across the first bar, and its size across and high [m]."""
    first = spots[0].pose
    frame = Pose(first.origin, first.y, first.z)
    corners = [seen(frame, minus(c, first.origin)) for s in spots for c in _corners(s)]
    low = tuple(min(c[k] for c in corners) for k in range(2))
    high = tuple(max(c[k] for c in corners) for k in range(2))
    middle: Vec = ((low[0] + high[0]) / 2, (low[1] + high[1]) / 2, 0.0)
    return then(frame, Pose(middle)), high[0] - low[0], high[1] - low[1]


def _corners(spot: Spot) -> list[Vec]:
    """The section's corners there [m]."""
    wide, thick = spot.plate / 2, spot.plate / 2
    if spot.seat is not None:
        wide, thick = (float(v) for v in spot.seat.half[len(spot.seat.half) // 2])
    ways = [(a, b) for a in (1.0, -1.0) for b in (1.0, -1.0)]
    return [mixed(mixed(spot.pose.origin, 1.0, spot.pose.y, a * wide), 1.0, spot.pose.z, b * thick) for a, b in ways]
