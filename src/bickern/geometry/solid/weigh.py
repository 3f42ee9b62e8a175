"""What a closed skin holds: volume, centre, inertia, and whether it is closed; by signed tetrahedra.

Exact for the flat triangles that are there. How far those lie from a round surface is the matter of who made them.
"""

from typing import TYPE_CHECKING

import numpy as np

from bickern.geometry.solid.solid import Solid
from bickern.geometry.space import Vec

if TYPE_CHECKING:
    from numpy.typing import NDArray


def volume(solid: Solid) -> float:
    """The room inside the skin [m3]; negative for a skin turned inside out."""
    return float(_parts(solid)[0].sum())


def centre(solid: Solid) -> Vec:
    """Where a solid of even metal balances [m]."""
    parts, corners, origin = _parts(solid)
    whole = float(parts.sum())
    if whole == 0.0:
        msg = "a solid of no metal balances nowhere"
        raise ValueError(msg)
    x, y, z = origin + parts @ corners.sum(axis=1) / (4 * whole)
    return (float(x), float(y), float(z))


def inertia(solid: Solid) -> "NDArray[np.float64]":
    """The 3 x 3 tensor of inertia about the centre for a density of 1 kg/m3 [m5], in the solid's own axes."""
    parts, corners, _ = _parts(solid, np.array(centre(solid)))
    # a tetrahedron with a corner at the origin: integral of x x = volume / 20 (sum of squares + square of the sum)
    total = corners.sum(axis=1)
    spread = np.einsum("f,fki,fkj->ij", parts, corners, corners) + np.einsum("f,fi,fj->ij", parts, total, total)
    spread /= 20
    return np.asarray(np.trace(spread) * np.eye(3) - spread)


def is_closed(solid: Solid) -> bool:
    """Whether every edge is walked once in each direction: a skin without gaps that knows its inside."""
    if len(solid.faces) == 0:
        return False
    start = solid.faces.astype(np.int64).ravel()
    end = np.roll(solid.faces, -1, axis=1).astype(np.int64).ravel()
    count = len(solid.points)
    walked, back = np.sort(start * count + end), np.sort(end * count + start)
    return bool((np.diff(walked) > 0).all() and (walked == back).all() and (start != end).all())


def bounds(solid: Solid) -> tuple[Vec, Vec]:
    """The least and the greatest of x, y and z [m]."""
    low, high = solid.points.min(axis=0), solid.points.max(axis=0)
    return (float(low[0]), float(low[1]), float(low[2])), (float(high[0]), float(high[1]), float(high[2]))


def _parts(
    solid: Solid, about: "NDArray[np.float64] | None" = None
) -> "tuple[NDArray[np.float64], NDArray[np.float64], NDArray[np.float64]]":
    """Signed volumes (m,) and corners (m, 3, 3) of the tetrahedra from a middle point, and that point.

    The point lies inside the box of the solid, so that nothing is lost where a thing hangs far from the origin.
    """
    if len(solid.faces) == 0:
        return np.zeros(0), np.zeros((0, 3, 3)), np.zeros(3)
    middle = (solid.points.min(axis=0) + solid.points.max(axis=0)) / 2 if about is None else about
    corners = (solid.points - middle)[solid.faces]
    a, b, c = corners[:, 0], corners[:, 1], corners[:, 2]
    return np.einsum("ij,ij->i", a, np.cross(b, c)) / 6, corners, middle
