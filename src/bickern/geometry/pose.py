"""How a rigid thing lies: where its own origin and axes are in the world."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

from bickern.geometry.path import Frame
from bickern.geometry.space import ORIGIN, Vec, cross, dot, minus, mixed, plus, turned, unit

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray


@dataclass(frozen=True, slots=True)
class Pose:
    """A thing's own `origin` [m] and axes `x`, `y` (unit, at right angles), told in the coordinates it lies in."""

    origin: Vec = ORIGIN
    x: Vec = (1.0, 0.0, 0.0)
    y: Vec = (0.0, 1.0, 0.0)

    @property
    def z(self) -> Vec:
        """The third axis, x times y."""
        return cross(self.x, self.y)


HERE = Pose()
"""A thing that lies in its own coordinates."""


def put(pose: Pose, place: Vec) -> Vec:
    """Where a place of the thing [m] comes to lie [m]."""
    return plus(pose.origin, facing(pose, place))


def facing(pose: Pose, way: Vec) -> Vec:
    """How a direction of the thing comes to point."""
    return plus(mixed(pose.x, way[0], pose.y, way[1]), mixed(pose.z, way[2], pose.z, 0.0))


def seen(pose: Pose, way: Vec) -> Vec:
    """How a direction of the world points in the thing's own coordinates."""
    return (dot(pose.x, way), dot(pose.y, way), dot(pose.z, way))


def within(pose: Pose, place: Vec) -> Vec:
    """Where a place of the world [m] is in the thing's own coordinates [m]."""
    return seen(pose, minus(place, pose.origin))


def then(outer: Pose, inner: Pose) -> Pose:
    """The pose in the world of what lies by `inner` in a thing that lies by `outer`."""
    return Pose(put(outer, inner.origin), facing(outer, inner.x), facing(outer, inner.y))


def back(pose: Pose) -> Pose:
    """The pose that undoes a pose: the world told in the thing's coordinates."""
    x, y = (pose.x[0], pose.y[0], pose.z[0]), (pose.x[1], pose.y[1], pose.z[1])
    return Pose(within(pose, ORIGIN), x, y)


def turning(point: Vec, axis: Vec, angle: float) -> Pose:
    """The turn by `angle` [rad] about the unit vector `axis` through `point` [m], by the right-hand rule."""
    x, y = turned((1.0, 0.0, 0.0), axis, angle), turned((0.0, 1.0, 0.0), axis, angle)
    return Pose(minus(point, turned(point, axis, angle)), x, y)


def of_frame(frame: Frame) -> Pose:
    """A frame of a line as a pose: x along, y to the left, z up."""
    return Pose(frame.origin, frame.along, frame.left)


def standing(origin: Vec, z: Vec, near_x: Vec) -> Pose:
    """The pose at `origin` [m] with its z along `z` and its x as near to `near_x` as that allows (not along z)."""
    up = unit(z)
    x = unit(mixed(near_x, 1.0, up, -dot(near_x, up)))
    return Pose(origin, x, cross(up, x))


def put_all(pose: Pose, places: "NDArray[np.float64]") -> "NDArray[np.float64]":
    """Where places (n, 3) [m] of the thing come to lie (n, 3) [m]."""
    import numpy as np

    axes = np.array((pose.x, pose.y, pose.z))
    moved: NDArray[np.float64] = places @ axes + np.array(pose.origin)
    return moved
