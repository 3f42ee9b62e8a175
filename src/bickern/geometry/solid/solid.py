"""A solid thing as a closed skin of triangles."""

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from bickern.geometry.pose import Pose, put_all

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray


class Fineness(StrEnum):
    """How closely a skin follows the true surface."""

    PREVIEW = "preview"  # quick: for swinging, hanging and drawing
    FINE = "fine"  # for files that leave the house


@dataclass(frozen=True, slots=True, eq=False)
class Solid:
    """A closed skin: `points` (n, 3) [m], and `faces` (m, 3) numbers of three points, counter-clockwise from outside.

    Every edge belongs to exactly two faces (`weigh.is_closed`). Nothing of a mesh library goes out of this room.
    """

    points: "NDArray[np.float64]"
    faces: "NDArray[np.int32]"


@dataclass(frozen=True, slots=True, eq=False)
class Named:
    """A solid with the name of the piece that it is."""

    name: str
    solid: Solid


def moved(solid: Solid, pose: Pose) -> Solid:
    """The solid as it comes to lie by a pose."""
    return Solid(put_all(pose, solid.points), solid.faces)
