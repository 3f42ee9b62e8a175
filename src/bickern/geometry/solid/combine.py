"""Solids put together and cut: union, difference and what two of them share.

manifold3d does the cutting in double precision: what comes out is closed again, and right to about 1e-12 of its size.
"""

from typing import TYPE_CHECKING

import numpy as np

from bickern.geometry.solid.solid import Solid

if TYPE_CHECKING:
    from manifold3d import Manifold

NOTHING = Solid(np.zeros((0, 3)), np.zeros((0, 3), dtype=np.int32))
"""A solid of no metal."""


def joined(*solids: Solid) -> Solid:
    """All the solids as one body: where they overlap, the metal counts once."""
    from manifold3d import Manifold, OpType

    return _out(Manifold.batch_boolean([told(s) for s in solids], OpType.Add))


def without(solid: Solid, *tools: Solid) -> Solid:
    """The solid with the room of every tool cut out of it; may leave nothing."""
    from manifold3d import Manifold, OpType

    return _out(Manifold.batch_boolean([told(s) for s in (solid, *tools)], OpType.Subtract)) if tools else solid


def shared(a: Solid, b: Solid) -> Solid:
    """The room that is in both solids; may be nothing."""
    return _out(told(a) ^ told(b))


def overlap(a: Solid, b: Solid) -> float:
    """How much room two solids share [m3]; solids that only touch share none, but for rounding (1e-12 of their size).

    A solid whose own parts overlap (`gathered`) counts that room once for each part.
    """
    return max(float((told(a) ^ told(b)).volume()), 0.0) if _boxes_meet(a, b) else 0.0


def gathered(*solids: Solid) -> Solid:
    """The skins side by side as one solid, nothing cut: quick, and right only where they do not overlap."""
    if not solids:
        return NOTHING
    first = np.cumsum([0, *(len(s.points) for s in solids[:-1])])
    faces = [s.faces + at for s, at in zip(solids, first, strict=True)]
    return Solid(np.vstack([s.points for s in solids]), np.vstack(faces).astype(np.int32))


def _boxes_meet(a: Solid, b: Solid) -> bool:
    if not (len(a.points) and len(b.points)):
        return False
    apart = (a.points.min(0) > b.points.max(0)) | (b.points.min(0) > a.points.max(0))
    return not bool(apart.any())


def told(solid: Solid) -> "Manifold":
    """A solid as the cutting library holds it, for this room alone.

    A skin that is not closed is a fault of whoever made it.
    """
    from manifold3d import Error, Manifold, Mesh64

    # the library takes no arrays that are locked against writing: those are copied
    points = np.require(solid.points, np.float64, ("C", "W"))
    made = Manifold(Mesh64(points, np.require(solid.faces, np.uint64, ("C", "W"))))
    if made.status() != Error.NoError:
        msg = f"a skin of {len(solid.faces)} triangles is not closed and cannot be cut: {made.status().name}"
        raise ValueError(msg)
    return made


def _out(made: "Manifold") -> Solid:
    skin = made.to_mesh64()
    points = np.array(skin.vert_properties[:, :3], dtype=np.float64)
    return Solid(points, skin.tri_verts.astype(np.int32))
