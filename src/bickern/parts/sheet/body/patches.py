"""The flat of a piece in parts that are bent up each in its own way, and the solid that they make together."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bickern.geometry.polygon import Point
from bickern.geometry.solid.facets import Facets, Zone, cut_up
from bickern.geometry.solid.solid import Solid
from bickern.geometry.solid.thicken import thickened
from bickern.parts.sheet.body.profile import Profile, Turn

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Array = NDArray[np.float64]
    Ints = NDArray[np.int64]
    Flags = NDArray[np.bool_]

_LEAST, _MOST = 0.5, 2.0
"""How far packing or stretching may change a thickness here: beyond it something else is wrong, and it shows."""


@dataclass(frozen=True, slots=True, eq=False)
class Patch:
    """A part of the flat. `place`: middle places (n, 3) of flat points (n, 2), told with a place in a face beside each.

    `zone`: its outline. It hangs on the patch `parent` (0: the body) at the points for which `root` is true.
    """

    place: "Callable[[Array, Array], Array]"
    zone: Zone = ()
    parent: int = 0
    root: "Callable[[Array], Flags] | None" = None


@dataclass(frozen=True, slots=True, eq=False)
class Flat:
    """A flat to be bent up: its outline and holes, lines to cut it along, and its patches, the body first."""

    outline: tuple[Point, ...]
    holes: tuple[tuple[Point, ...], ...]
    lines: tuple[tuple[Point, ...], ...]
    patches: tuple[Patch, ...]


@dataclass(frozen=True, slots=True, eq=False)
class Middle:
    """The middle surface bent up: `points` (n, 3), `faces` (m, 3), the `flat` (n, 2) and patch that each came from."""

    points: "Array"
    faces: "Ints"
    flat: "Array"
    owner: "Ints"


def solid_of(flat: Flat, thick: float) -> Solid:
    """The flat bent up, with its thickness [m]; where sheet is stretched or packed it gets thinner or thicker."""
    middle = middle_of(flat)
    return thickened(middle.points, middle.faces, thick / 2 * kept(middle))


def middle_of(flat: Flat) -> Middle:
    """The middle of the sheet bent up."""
    zones = [patch.zone for patch in flat.patches[1:]]
    facets = cut_up(flat.outline, flat.holes, flat.lines, zones)
    owner = _owners(facets, flat.patches)
    whole, first, back = np.unique(
        (owner * len(facets.points) + facets.faces).ravel(), return_index=True, return_inverse=True
    )
    faces = back.reshape(-1, 3)
    points, owned = facets.points[facets.faces.ravel()[first]], whole // len(facets.points)
    near = _beside(facets, owner, faces, len(whole))
    places = np.zeros((len(whole), 3))
    for k, patch in enumerate(flat.patches):
        mine = owned == k
        if mine.any():
            places[mine] = patch.place(points[mine], near[mine])
    return Middle(places, faces, points, owned)


def _owners(facets: Facets, patches: Sequence[Patch]) -> "Ints":
    """The patch (m, 3) that places each corner of each face: its own, or the one that its own hangs on there."""
    owner = np.repeat(facets.zone[:, None], 3, axis=1)
    corners = facets.points[facets.faces]
    for k in range(len(patches) - 1, 0, -1):
        patch = patches[k]
        mine = owner == k
        if patch.root is not None and mine.any():
            there = np.zeros_like(mine)
            there[mine] = patch.root(corners[mine])
            owner[there] = patch.parent
    return owner


def _beside(facets: Facets, owner: "Ints", faces: "Ints", count: int) -> "Array":
    """For each point the middle of a face that it is a corner of, one of its own patch."""
    middles = facets.points[facets.faces].mean(axis=1)
    near = np.zeros((count, 2))
    near[faces.ravel()] = np.repeat(middles, 3, axis=0)
    own = (owner == facets.zone[:, None]).ravel()
    near[faces.ravel()[own]] = np.repeat(middles, 3, axis=0)[own]
    return near


def kept(middle: Middle) -> "Array":
    """How much thicker (n,) the sheet is at each point than in the flat, so that bending keeps its volume."""
    flat = _doubles(np.column_stack((middle.flat, np.zeros(len(middle.flat))))[middle.faces])
    bent = _doubles(middle.points[middle.faces])
    count = len(middle.points)
    sums = [sum(np.bincount(middle.faces[:, k], area, count) for k in range(3)) for area in (flat, bent)]
    thicker: Array = np.clip(sums[0] / np.maximum(sums[1], 1e-30), _LEAST, _MOST)
    return thicker


def _doubles(corners: "Array") -> "Array":
    """Twice the area of triangles (m, 3, 3)."""
    out: Array = np.linalg.norm(np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]), axis=1)
    return out


def turned(profile: Profile, along: "Array") -> "tuple[Array, Array, Array]":
    """Forward, up [m] and heading [rad] at lengths of the flat from a profile's start; see `profile.standing_at`."""
    forward, up, heading = np.minimum(along, 0.0), np.zeros_like(along), np.zeros_like(along)
    x = y = way = start = 0.0
    for turn in (*profile, Turn(np.inf)):
        here = along > start
        share = np.clip((along - start) / turn.flat if turn.flat < np.inf else along - start, 0.0, None)
        share = np.minimum(share, 1.0) if turn.flat < np.inf else share
        long = share * (turn.length if turn.flat < np.inf else 1.0)
        dx, dy = _run(long, share * turn.angle, way)
        forward = np.where(here, x + dx, forward)
        up = np.where(here, y + dy, up)
        heading = np.where(here, way + share * turn.angle, heading)
        if turn.flat < np.inf:
            end = _run(np.array([turn.length]), np.array([turn.angle]), way)
            x, y, way, start = x + float(end[0][0]), y + float(end[1][0]), way + turn.angle, start + turn.flat
    return forward, up, heading


def _run(long: "Array", angle: "Array", way: float) -> "tuple[Array, Array]":
    """Along an arc of a length that turns by an angle from a heading: by its chord, which has no middle at angle 0."""
    chord = long * np.sinc(angle / (2 * np.pi))
    return chord * np.cos(way + angle / 2), chord * np.sin(way + angle / 2)
