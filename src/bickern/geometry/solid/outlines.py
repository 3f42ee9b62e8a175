"""The lines that a skin shows from one side, seen or not: sharp edges, and where a smooth surface turns away.

A smooth surface turns away between the triangles' edges, where the normals blended over a triangle lie square to the
view; so a round bar shows two clean lines and no facets.
"""

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

SHARP = math.cos(math.radians(38))
"""Flat triangles that turn more than this are an edge: an octagon's sides are (45), the facets of a round (36) not."""
EDGE_ON = 1e-6
"""A surface that turns less than this toward the viewer is seen on edge."""


@dataclass(frozen=True, slots=True, eq=False)
class Strokes:
    """Straight bits of lines (n): from and to, and the surfaces beside them.

    `keys` (n, 2): numbers of their ends, the same where bits meet. `ends` (n, 2, 3) [m]: right, up, toward the viewer.
    `toward` (n, 2, 2): how much the surface to the left, and that to the right, looks at the viewer at either end
    (-1..1). `slopes` (n, 2, 2): how much nearer these come for a step right and a step up. `beyond` (n,) [m]: how far
    the flat triangles stand out beyond a line where a smooth surface turns away; that surface lies to its left.
    """

    keys: "NDArray[np.intp]"
    ends: "NDArray[np.float64]"
    toward: "NDArray[np.float64]"
    slopes: "NDArray[np.float64]"
    beyond: "NDArray[np.float64]"


@dataclass(frozen=True, slots=True, eq=False)
class _Skin:
    """A closed skin as seen: corners (m, 3, 3) and unit normals (m, 3) of its faces, and what lies over each edge.

    The edge k of face f has the number 3 f + k and runs from corner k to the next. `twins`: its number in the
    neighbour. `sharp`: whether it is an edge to be drawn.
    """

    faces: "NDArray[np.intp]"
    corners: "NDArray[np.float64]"
    normals: "NDArray[np.float64]"
    twins: "NDArray[np.intp]"
    sharp: "NDArray[np.bool_]"


def strokes(points: "NDArray[np.float64]", faces: "NDArray[np.int32]") -> Strokes:
    """All lines of a closed skin: points (n, 3) told as right, up, toward the viewer [m], and faces (m, 3)."""
    skin = _skin(points, faces.astype(np.intp))
    blended = _blended(skin)
    edges, turns = _edges(skin, blended), _turns(skin, blended, len(points))
    return Strokes(
        *(
            np.concatenate((getattr(edges, name), getattr(turns, name)))
            for name in ("keys", "ends", "toward", "slopes", "beyond")
        )
    )


def _skin(points: "NDArray[np.float64]", faces: "NDArray[np.intp]") -> _Skin:
    corners = points[faces]
    normals = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    normals /= np.maximum(np.sqrt(np.einsum("ij,ij->i", normals, normals)), 1e-300)[:, None]
    start, end = faces.ravel(), faces[:, (1, 2, 0)].ravel()
    along = np.argsort(start * len(points) + end)
    against = np.argsort(end * len(points) + start)
    twins = np.empty_like(along)
    twins[along] = against  # closed: every edge is walked once each way
    over = normals[twins // 3]
    sharp = np.einsum("ij,ij->i", np.repeat(normals, 3, axis=0), over) < SHARP
    return _Skin(faces, corners, normals, twins, sharp)


# ---- sharp edges


def _edges(skin: _Skin, blended: "NDArray[np.float64]") -> Strokes:
    """Every sharp edge once, as its first face walks it: that face lies to the left where it looks at the viewer."""
    edge = np.nonzero(skin.sharp & (np.arange(len(skin.twins)) < skin.twins))[0]
    twin = skin.twins[edge]
    start, end = (edge // 3, edge % 3), (edge // 3, (edge + 1) % 3)
    mine = blended[start][:, 2], blended[end][:, 2]
    yours = blended[twin // 3, (twin + 1) % 3][:, 2], blended[twin // 3, twin % 3][:, 2]
    return Strokes(
        np.stack((skin.faces[start], skin.faces[end]), axis=1),
        np.stack((skin.corners[start], skin.corners[end]), axis=1),
        np.stack((np.stack(mine, axis=1), np.stack(yours, axis=1)), axis=1),
        _slopes(skin.normals[np.stack((edge, twin), axis=1) // 3]),
        np.zeros(len(edge)),
    )


def _slopes(normals: "NDArray[np.float64]") -> "NDArray[np.float64]":
    """How much nearer a surface comes for a step right and a step up on the paper; no more than 8 counts."""
    toward = np.maximum(normals[..., 2:], EDGE_ON)
    slopes = -normals[..., :2] / toward
    steep = np.linalg.norm(slopes, axis=-1, keepdims=True)
    return np.asarray(slopes * np.minimum(1.0, 8 / np.maximum(steep, 1e-300)))


# ---- where a smooth surface turns away


def _turns(skin: _Skin, blended: "NDArray[np.float64]", offset: int) -> Strokes:
    """A straight bit in every triangle whose blended normal turns from the viewer; `offset`: the first number free."""
    toward = np.where(np.abs(blended[..., 2]) < EDGE_ON, EDGE_ON, blended[..., 2])
    looks = toward > 0
    face = np.nonzero(looks.any(axis=1) & ~looks.all(axis=1))[0]
    lone = (looks[face] == (looks[face].sum(axis=1) == 1)[:, None]).argmax(axis=1)
    ends, normals, keys = [], [], []
    for other, edge in (((lone + 1) % 3, lone), ((lone + 2) % 3, (lone + 2) % 3)):
        here, there = toward[face, lone], toward[face, other]
        share = (here / (here - there))[:, None]
        ends.append((1 - share) * skin.corners[face, lone] + share * skin.corners[face, other])
        normals.append((1 - share) * blended[face, lone] + share * blended[face, other])
        number = 3 * face + edge
        keys.append(offset + np.where(skin.sharp[number], number, np.minimum(number, skin.twins[number])))
    shown = _rounds_off(skin.corners[face], skin.normals[face], toward[face])
    flat = _as_strokes(skin.corners[face], np.stack(keys, axis=1), np.stack(ends, axis=1), normals[0] + normals[1])
    return replace(flat, toward=flat.toward * np.where(shown, 1.0, 0.0)[:, None, None])


def _as_strokes(
    corners: "NDArray[np.float64]",
    keys: "NDArray[np.intp]",
    ends: "NDArray[np.float64]",
    normals: "NDArray[np.float64]",
) -> Strokes:
    """Bits of a smooth outline, walked so that the surface lies to the left and its normals point to the right."""
    way = ends[:, 1, :2] - ends[:, 0, :2]
    backward = way[:, 0] * normals[:, 1] - way[:, 1] * normals[:, 0] > 0
    keys, ends = (np.where(backward.reshape(-1, *[1] * (a.ndim - 1)), a[:, ::-1], a) for a in (keys, ends))
    outward = normals[:, :2] / np.maximum(np.linalg.norm(normals[:, :2], axis=1), 1e-300)[:, None]
    out = np.einsum("nij,nj->ni", (corners - ends.mean(axis=1)[:, None])[:, :, :2], outward)
    toward = np.tile([[1.0, 1.0], [-1.0, -1.0]], (len(keys), 1, 1))
    return Strokes(keys, ends, toward, np.zeros((len(keys), 2, 2)), out.max(axis=1, initial=0.0))


def _rounds_off(
    corners: "NDArray[np.float64]", normals: "NDArray[np.float64]", toward: "NDArray[np.float64]"
) -> "NDArray[np.bool_]":
    """Whether a surface looks the more at the viewer the nearer it comes; a hollow does not, and hides its own line."""
    across = corners[:, (2, 0, 1)] - corners[:, (1, 2, 0)]
    rising = np.cross(normals[:, None], across)[..., 2]
    rounded: NDArray[np.bool_] = np.einsum("ni,ni->n", toward, rising) > 0
    return rounded


def _blended(skin: _Skin) -> "NDArray[np.float64]":
    """The normal at each corner of each face (m, 3, 3), blended over the faces there up to the next sharp edge.

    Each face counts by its angle at the corner, so that it does not matter how a flat side is cut into triangles.
    """
    group = _rounds(skin)
    ahead, behind = (skin.corners[:, order] - skin.corners for order in ((1, 2, 0), (2, 0, 1)))
    wide = np.linalg.norm(np.cross(ahead, behind), axis=2)
    angles = np.arctan2(wide, np.einsum("nij,nij->ni", ahead, behind))
    shares = (angles[:, :, None] * skin.normals[:, None]).reshape(-1, 3)
    total = np.stack([np.bincount(group, shares[:, k], len(group)) for k in range(3)], axis=1)[group]
    long = np.maximum(np.linalg.norm(total, axis=1), 1e-300)
    return np.asarray((total / long[:, None]).reshape(-1, 3, 3))


def _rounds(skin: _Skin) -> "NDArray[np.intp]":
    """A number for each corner of each face, the same for those round one point with no sharp edge between them."""
    own = np.arange(len(skin.twins))
    # the corner at the start of an edge lies, over that edge, at the end of its twin; and so the other way round
    across = np.where(skin.sharp, own, skin.twins - skin.twins % 3 + (skin.twins + 1) % 3)
    before = own - own % 3 + (own + 2) % 3
    back = np.where(skin.sharp[before], own, skin.twins[before])
    label = own
    while True:
        least = np.minimum(label, np.minimum(label[across], label[back]))
        least = least[least]
        if (least == label).all():
            return label
        label = least
