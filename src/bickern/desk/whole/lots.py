"""How a set that nobody says how to hang is set out for its picture and its files: each lot stands beside the last.

The job does not say how it stands, so this is a guess for the eye; nothing is reckoned from it.
"""

import math
from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from bickern.desk.whole.standing import stood
from bickern.geometry.pose import HERE, Pose, back, put, put_all, then, turning
from bickern.geometry.solid.solid import Named, moved
from bickern.geometry.space import ORIGIN, Vec, mixed
from bickern.measure.units.words import MILLIMETRE
from bickern.paper.views.whole import broadest
from bickern.parts.set.result import Held, Part, SetResult, Spot, SpotKind
from bickern.parts.sheet.result import SheetResult
from bickern.parts.sheet.spec import Bowl, Pan

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

APART = 50 * MILLIMETRE
"""Between two lots [m]."""
UP: Vec = (0.0, 0.0, 1.0)
UPSIDE_DOWN = 0.5
"""Cosine from which on a pan's open side counts as looking down."""


def lots_of(whole: SetResult) -> tuple[tuple[int, ...], ...]:
    """Bodies that hang in one another or turn on one another's rivets, by number, in the set's order."""
    lot_of = {body: {body} for body in range(len(whole.bodies))}
    pairs = [(link.first, link.second) for link in whole.links]
    for one, other in (*pairs, *((pivot.first, pivot.second) for pivot in whole.pivots)):
        first, second = lot_of[one], lot_of[other]
        if first is not second:
            small, large = sorted((first, second), key=len)
            large |= small
            lot_of.update(dict.fromkeys(small, large))
    lots = {id(lot): lot for lot in lot_of.values()}
    return tuple(tuple(sorted(lot)) for lot in lots.values())


def set_out(whole: SetResult, own: Mapping[int, Sequence[Named]]) -> dict[int, Pose]:
    """Every body's pose in the world: each lot stood, its broad side in front, side by side from the left.

    `own`: for each body its solids, in its own coordinates.
    """
    found: dict[int, Pose] = {}
    right = 0.0
    for lot in lots_of(whole):
        poses = _lot(whole, lot, own)
        low, high = _box(poses, own)
        shift = Pose((right - low[0], -(low[1] + high[1]) / 2, -low[2]))
        found |= {body: then(shift, pose) for body, pose in poses.items()}
        right += high[0] - low[0] + APART
    return found


def _lot(whole: SetResult, lot: Sequence[int], own: Mapping[int, Sequence[Named]]) -> dict[int, Pose]:
    """One lot with z up, its broad side looking to the front."""
    inside = set(lot)
    if any(link.first in inside for link in whole.links):
        poses = _hanging(whole, lot)
    else:
        shut = _shut(whole, lot)
        up = stood(_points(shut, own), _centre(whole, shut))
        if _open_below(whole, shut, up):
            up = then(turning(ORIGIN, (1.0, 0.0, 0.0), math.pi), up)
        poses = {body: then(up, pose) for body, pose in shut.items()}
    x, y, _ = broadest(_placed(poses, own))
    front = turning(ORIGIN, UP, -math.atan2(y, x))
    return {body: then(front, pose) for body, pose in poses.items()}


def _open_below(whole: SetResult, shut: Mapping[int, Pose], up: Pose) -> bool:
    """Whether a pan or a bowl lies upside down."""
    rims = [part for part in whole.parts if part.body in shut and _has_rim(part)]
    return any(then(then(up, shut[part.body]), part.pose).z[2] < -UPSIDE_DOWN for part in rims)


def _has_rim(part: Part) -> bool:
    return isinstance(part.piece, SheetResult) and isinstance(part.piece.spec.surface, Bowl | Pan)


def _hanging(whole: SetResult, lot: Sequence[int]) -> dict[int, Pose]:
    """The first body held level as it lies, and all that hangs in it at rest."""
    from bickern.parts.hang.hang import hang

    first = whole.bodies[lot[0]]
    spot = Spot(first.name, SpotKind.FACE, back(whole.parts[first.parts[0]].pose))
    held = replace(whole, held=Held(lot[0], first.parts[0], spot, "hand"))
    rest = hang(held, changes=False)
    return {body: rest.poses[body] for body in lot}


def _shut(whole: SetResult, lot: Sequence[int]) -> dict[int, Pose]:
    """Bodies on one another's rivets as they were put together, in the coordinates of the first."""
    poses = {lot[0]: HERE}
    for _ in lot:
        for pivot in whole.pivots:
            if pivot.first in poses and pivot.second not in poses:
                poses[pivot.second] = then(poses[pivot.first], pivot.lies)
            elif pivot.second in poses and pivot.first not in poses:
                poses[pivot.first] = then(poses[pivot.second], back(pivot.lies))
    return poses


def _centre(whole: SetResult, poses: Mapping[int, Pose]) -> Vec:
    """Where bodies balance together [m]."""
    mass, centre = 0.0, ORIGIN
    for body, pose in poses.items():
        one = whole.bodies[body]
        mass += one.mass
        share = one.mass / mass if mass > 0 else 0.0
        centre = mixed(centre, 1.0 - share, put(pose, one.centre), share)
    return centre


def _placed(poses: Mapping[int, Pose], own: Mapping[int, Sequence[Named]]) -> list[Named]:
    return [Named(one.name, moved(one.solid, pose)) for body, pose in poses.items() for one in own[body]]


def _points(poses: Mapping[int, Pose], own: Mapping[int, Sequence[Named]]) -> "NDArray[np.float64]":
    import numpy as np

    return np.vstack([put_all(pose, one.solid.points) for body, pose in poses.items() for one in own[body]])


def _box(poses: Mapping[int, Pose], own: Mapping[int, Sequence[Named]]) -> tuple[list[float], list[float]]:
    points = _points(poses, own)
    return points.min(axis=0).tolist(), points.max(axis=0).tolist()
