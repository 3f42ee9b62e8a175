"""The room that a part takes: its skin, its box, and lines along its metal, to see what runs through what."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

from bickern.geometry.pose import Pose, put_all
from bickern.geometry.solid.solid import Fineness, Solid
from bickern.geometry.space import Vec
from bickern.parts.bar.result import BarResult
from bickern.parts.set.balance import centre_of
from bickern.parts.set.pieces import PieceResult
from bickern.parts.set.solids import piece_solid
from bickern.parts.set.spots import spot_on
from bickern.parts.sheet.allowances import SheetRules

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

_INSET = 0.7
"""How far out from the middle of the metal the lines run, in shares of half its width and thickness."""


@dataclass(frozen=True, slots=True, eq=False)
class Room:
    """A part's skin, the corners of its box and its balance [m], its metal's lines (n, 2, 3) [m]; as it is made."""

    skin: Solid
    box: "NDArray[np.float64]"
    middle: Vec
    lines: "NDArray[np.float64]"


def room_of(piece: PieceResult, rules: SheetRules) -> Room:
    """The room of one part."""
    skin = piece_solid(piece, Fineness.PREVIEW, rules)
    return Room(skin, _box(skin), centre_of(piece, skin), _lines(piece))


def _box(skin: Solid) -> "NDArray[np.float64]":
    """The eight corners of the box round a skin [m]."""
    import numpy as np

    ends = np.stack((skin.points.min(axis=0), skin.points.max(axis=0)))
    corners: NDArray[np.float64] = np.array([[ends[i, 0], ends[j, 1], ends[k, 2]] for i, j, k in np.ndindex(2, 2, 2)])
    return corners


def _lines(piece: PieceResult) -> "NDArray[np.float64]":
    """Along the middle of a bar and near its four edges; sheet has none."""
    import numpy as np

    seat = spot_on(piece, "")[0].seat if isinstance(piece, BarResult) else None
    if seat is None:
        return np.zeros((0, 2, 3))
    side = np.cross(seat.up, seat.along) * seat.half[:, :1] * _INSET
    over = seat.up * seat.half[:, 1:] * _INSET
    rows = [seat.points, *(seat.points + a * side + b * over for a in (1, -1) for b in (1, -1))]
    lines: NDArray[np.float64] = np.concatenate([np.stack((row[:-1], row[1:]), axis=1) for row in rows])
    return lines


def shared(one: Room, lies: Pose, other: Room, other_lies: Pose) -> float:
    """How much of the smaller part's box lies inside the other's (0 to 1), both boxed upright in the body."""
    import numpy as np

    a, b = put_all(lies, one.box), put_all(other_lies, other.box)
    low, high = np.maximum(a.min(axis=0), b.min(axis=0)), np.minimum(a.max(axis=0), b.max(axis=0))
    sizes = [float(np.prod(p.max(axis=0) - p.min(axis=0))) for p in (a, b)]
    return float(np.prod(np.maximum(high - low, 0.0))) / max(min(sizes), 1e-15)


def run_through(one: Room, lies: Pose, other: Room, other_lies: Pose) -> int:
    """How often the metal lines of either part go through the other's skin; 0 where they keep clear of one another."""
    return _through(one, lies, other, other_lies) + _through(other, other_lies, one, lies)


def _through(liner: Room, lies: Pose, skin: Room, skin_lies: Pose) -> int:
    if not len(liner.lines):
        return 0
    ends = put_all(lies, liner.lines.reshape(-1, 3)).reshape(-1, 2, 3)
    corners = put_all(skin_lies, skin.skin.points)[skin.skin.faces]
    low, high = corners.min(axis=(0, 1)), corners.max(axis=(0, 1))
    near = ((ends.max(axis=1) > low) & (ends.min(axis=1) < high)).all(axis=1)
    if not near.any():
        return 0
    ends = ends[near]
    low, high = ends.min(axis=(0, 1)), ends.max(axis=(0, 1))
    corners = corners[((corners.max(axis=1) > low) & (corners.min(axis=1) < high)).all(axis=1)]
    return _hits(ends, corners) if len(corners) else 0


def _hits(ends: "NDArray[np.float64]", corners: "NDArray[np.float64]") -> int:
    """Straights that cross triangles, all against all (each solves its two equations: exact mathematics)."""
    import numpy as np

    a, b, c = (corners[:, k] for k in range(3))
    normal = np.cross(b - a, c - a)
    start, way = ends[:, 0], ends[:, 1] - ends[:, 0]
    across = way @ normal.T
    safe = np.where(np.abs(across) > 1e-30, across, 1.0)
    share = (np.einsum("ij,ij->i", a, normal)[None, :] - start @ normal.T) / safe
    met = (np.abs(across) > 1e-30) & (share >= 0) & (share <= 1)
    rows, faces = np.nonzero(met)
    if not len(rows):
        return 0
    point = start[rows] + share[rows, faces][:, None] * way[rows]
    return int(_inside(point, a[faces], b[faces], c[faces], normal[faces]).sum())


def _inside(
    point: "NDArray[np.float64]",
    a: "NDArray[np.float64]",
    b: "NDArray[np.float64]",
    c: "NDArray[np.float64]",
    normal: "NDArray[np.float64]",
) -> "NDArray[np.bool_]":
    import numpy as np

    sides = [np.einsum("ij,ij->i", np.cross(q - p, point - p), normal) for p, q in ((a, b), (b, c), (c, a))]
    inside: NDArray[np.bool_] = np.min(sides, axis=0) >= 0
    return inside
