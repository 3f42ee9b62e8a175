"""The room that a part takes: its skin, its box, and lines along its metal, to see what runs through what."""

from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

from bickern.geometry.pose import Pose, back, put_all, then
from bickern.geometry.solid.solid import Solid
from bickern.geometry.space import Vec
from bickern.parts.bar.result import BarResult
from bickern.parts.set.balance import centre_of
from bickern.parts.set.pieces import PieceResult
from bickern.parts.set.result import SpotKind
from bickern.parts.set.solids import kept_solid
from bickern.parts.set.spots.spots import spot_on
from bickern.parts.sheet.allowances import SheetRules

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

_TOGETHER = 8
"""Straights that are tried against a skin together."""
_INSET = 0.7
"""How far out from the middle of the metal the lines run, in shares of half its width and thickness."""


@dataclass(frozen=True, slots=True, eq=False)
class Room:
    """A part's skin, the corners of its box and its balance [m], its metal's lines (n, 2, 3) [m]; as it is made.

    `faces` (m, 3, 3): the skin's triangles [m]; `spans` (m, 2, 3): the least and the most of each; `normals` (m, 3):
    square to each, twice its area long.
    """

    skin: Solid
    box: "NDArray[np.float64]"
    middle: Vec
    lines: "NDArray[np.float64]"
    faces: "NDArray[np.float64]"
    spans: "NDArray[np.float64]"
    normals: "NDArray[np.float64]"


@lru_cache(maxsize=32)
def room_of(piece: PieceResult, rules: SheetRules) -> Room:
    """The room of one part; kept, for a job is put together again and again."""
    import numpy as np

    skin = kept_solid(piece, rules)
    faces = skin.points[skin.faces]
    normals = np.cross(faces[:, 1] - faces[:, 0], faces[:, 2] - faces[:, 0])
    return Room(skin, _box(skin), centre_of(piece, skin), _lines(piece), faces, _spans(faces), normals)


def _spans(rows: "NDArray[np.float64]") -> "NDArray[np.float64]":
    """The least and the most (m, 2, 3) of each of many rows of places (m, k, 3)."""
    import numpy as np

    spans: NDArray[np.float64] = np.stack((rows.min(axis=1), rows.max(axis=1)), axis=1)
    return spans


def _box(skin: Solid) -> "NDArray[np.float64]":
    """The eight corners of the box round a skin [m]."""
    import numpy as np

    ends = np.stack((skin.points.min(axis=0), skin.points.max(axis=0)))
    corners: NDArray[np.float64] = np.array([[ends[i, 0], ends[j, 1], ends[k, 2]] for i, j, k in np.ndindex(2, 2, 2)])
    return corners


def _lines(piece: PieceResult) -> "NDArray[np.float64]":
    """Along the middle of a bar and near its four edges, of a round its four sides; sheet has none."""
    import numpy as np

    seat = spot_on(piece, "")[0].seat if isinstance(piece, BarResult) else None
    if seat is None:
        return np.zeros((0, 2, 3))
    half = np.minimum(seat.half[:-1], seat.half[1:]) * _INSET  # at a shoulder the thinner of the two
    ends = np.stack((seat.points[:-1], seat.points[1:]), axis=1)
    side = np.stack([np.cross(seat.up[k], seat.along[k]) * half[:, :1] for k in (np.s_[:-1], np.s_[1:])], axis=1)
    over = np.stack([seat.up[k] * half[:, 1:] for k in (np.s_[:-1], np.s_[1:])], axis=1)
    corners = ((1, 1), (1, -1), (-1, 1), (-1, -1)) if seat.square else ((1, 0), (0, 1), (-1, 0), (0, -1))
    lines: NDArray[np.float64] = np.concatenate([_past(ends, piece), *(ends + a * side + b * over for a, b in corners)])
    return lines


def _past(ends: "NDArray[np.float64]", piece: PieceResult) -> "NDArray[np.float64]":
    """The lines along the middle that do not come by a hole: there is no metal."""
    import numpy as np

    holes = [s for s in spot_on(piece, "holes") if s.kind is SpotKind.OPENING]
    for hole in holes:
        way = ends[:, 1] - ends[:, 0]
        share = np.einsum("ij,ij->i", hole.pose.origin - ends[:, 0], way) / np.einsum("ij,ij->i", way, way)
        near = ends[:, 0] + np.clip(share, 0.0, 1.0)[:, None] * way
        ends = ends[np.linalg.norm(near - hole.pose.origin, axis=1) > hole.opening / 2]
    return ends


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
    """The lines are looked at where the skin was made; most lie clear of its box, and of most of its triangles."""
    if not len(liner.lines):
        return 0
    there = then(back(skin_lies), lies)
    if _clear(put_all(there, liner.box), skin.box[0], skin.box[-1]):
        return 0
    return _hits(put_all(there, liner.lines.reshape(-1, 3)).reshape(-1, 2, 3), skin)


def _clear(corners: "NDArray[np.float64]", low: "NDArray[np.float64]", high: "NDArray[np.float64]") -> bool:
    return bool(((corners.max(axis=0) < low) | (corners.min(axis=0) > high)).any())


def _hits(ends: "NDArray[np.float64]", skin: Room) -> int:
    """Straights (n, 2, 3) that cross triangles: their ends on both sides of it, and where they cross inside it.

    Straights that follow one another are tried together against what meets their box. (Exact mathematics; one that
    lies in a triangle's own plane does not cross it.)
    """
    import numpy as np

    lines = np.arange(-(-len(ends) // _TOGETHER) * _TOGETHER).reshape(-1, _TOGETHER)
    kept = lines < len(ends)
    lines = np.minimum(lines, len(ends) - 1)
    groups, faces = _beside(_spans(ends[lines].reshape(len(lines), -1, 3)), skin.spans)
    level = np.einsum("ij,ij->i", skin.faces[faces, 0], skin.normals[faces])[:, None]
    over, under = (np.einsum("ikj,ij->ik", ends[lines[groups], e], skin.normals[faces]) - level for e in (0, 1))
    rows, places = np.nonzero((over * under <= 0) & (np.abs(over - under) > 1e-30) & kept[groups])
    if not len(rows):
        return 0
    share = over[rows, places] / (over - under)[rows, places]
    start, end = (ends[lines[groups[rows], places], e] for e in (0, 1))
    a, b, c = (skin.faces[faces[rows], k] for k in range(3))
    return int(_inside(start + share[:, None] * (end - start), a, b, c, skin.normals[faces[rows]]).sum())


def _beside(some: "NDArray[np.float64]", others: "NDArray[np.float64]") -> "tuple[NDArray[np.intp], NDArray[np.intp]]":
    """All pairs of boxes (n, 2, 3) and (m, 2, 3) that meet."""
    import numpy as np

    low, high = some[:, 0].min(axis=0), some[:, 1].max(axis=0)
    near = np.flatnonzero(((others[:, 1] > low) & (others[:, 0] < high)).all(axis=1))
    met = np.ones((len(some), len(near)), dtype=bool)
    for k in range(3):
        met &= (some[:, 1, k, None] > others[near, 0, k]) & (some[:, 0, k, None] < others[near, 1, k])
    one, other = np.nonzero(met)
    return one, near[other]


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
