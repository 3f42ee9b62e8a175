"""A surface of triangles given its thickness: two skins on either side of it, joined round its edges."""

from typing import TYPE_CHECKING

import numpy as np

from bickern.geometry.solid.solid import Solid

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Array = NDArray[np.float64]
    Ints = NDArray[np.int64]

_SLACK = 1e-7
_LONGEST = 40.0
_TOO_FAR = 2.0
"""So many times further out than the mean of the normals tells, and further than the faces themselves reach, is no
meeting: small faces are folded back on one another there."""


def thickened(points: "Array", faces: "Ints", half: "Array") -> Solid:
    """The solid about a surface: `points` (n, 3), `faces` (m, 3), `half` (n,) the thickness on either side [m].

    The normal of a face looks to the skin that comes first. Every face is moved out by `half`: a point goes to where
    the moved faces round it meet (at a fold: its mitre), so that folds and rounds keep their thickness.
    """
    ways = meeting(points, faces, half)
    count = len(points)
    both = np.vstack((points + ways, points - ways))
    rim = _rim(faces)
    sides = np.vstack(
        (
            np.column_stack((rim[:, 1], rim[:, 0], rim[:, 0] + count)),
            np.column_stack((rim[:, 1], rim[:, 0] + count, rim[:, 1] + count)),
        )
    )
    return Solid(both, np.vstack((faces, faces[:, ::-1] + count, sides)).astype(np.int32))


def meeting(points: "Array", faces: "Ints", half: "Array") -> "Array":
    """For each point the way (n, 3) [m] to where the faces round it meet, when all are moved out by its `half` (n,).

    Where many faces do not meet in one place, the larger have the more say, so that little metal is lost or won.
    """
    corners = points[faces]
    normal = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    size = np.linalg.norm(normal, axis=1)
    normal = normal / np.where(size > 0.0, size, 1.0)[:, None]
    count = len(points)
    pull, stiff = np.zeros((count, 3)), np.zeros((count, 3, 3))
    for k in range(3):
        for i in range(3):
            pull[:, i] += np.bincount(faces[:, k], size * normal[:, i], count)
            for j in range(i, 3):
                stiff[:, i, j] += np.bincount(faces[:, k], size * normal[:, i] * normal[:, j], count)
    for i, j in ((1, 0), (2, 0), (2, 1)):
        stiff[:, i, j] = stiff[:, j, i]
    return _solved(stiff, pull, half)


def _solved(stiff: "Array", pull: "Array", half: "Array") -> "Array":
    """The least-squares meeting; where the faces leave a direction open, or do not meet, the mean normal decides.

    Faces that lean alike meet as far out as the mean of their normals is short: a mitre, or the tip of a cone.
    """
    length = np.maximum(np.linalg.norm(pull, axis=1, keepdims=True), 1e-30)
    mean = pull / length
    total = np.maximum(np.trace(stiff, axis1=1, axis2=2), 1e-30)
    slack = _SLACK * total
    held = stiff + slack[:, None, None] * np.eye(3)
    ways = np.linalg.solve(held, (pull + slack[:, None] * mean)[:, :, None])[:, :, 0]
    long = np.linalg.norm(ways, axis=1, keepdims=True)
    kept = ways * np.minimum(1.0, _LONGEST / np.maximum(long, 1e-30))
    spike = (long > _TOO_FAR * total[:, None] / length) & (long * half[:, None] > np.sqrt(total)[:, None])
    out: Array = np.where(spike, mean, kept) * half[:, None]
    return out


def _rim(faces: "Ints") -> "Ints":
    """Directed edges (k, 2) that only one face has, as that face runs them."""
    edges = np.vstack((faces[:, (0, 1)], faces[:, (1, 2)], faces[:, (2, 0)]))
    top = int(edges.max()) + 1
    forward, backward = edges[:, 0] * top + edges[:, 1], edges[:, 1] * top + edges[:, 0]
    return edges[~np.isin(forward, backward)]
