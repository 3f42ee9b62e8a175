"""Skins drawn through loops of points: along a line, round an axis, with a hole down the middle.

Two triangles take the place of each four-sided patch. Where the section turns from loop to loop the patch is not flat,
and the way it is split decides whether the skin lies outside or inside it: all split one way, a square bar twisted by
24 divisions a turn holds 12 % too much. So the splits alternate like a chess board and cancel each other.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import pi, sin, sqrt
from typing import TYPE_CHECKING

import numpy as np

from bickern.geometry.solid.solid import Solid

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Loops = NDArray[np.float64]
    Faces = NDArray[np.int32]

_SAME = 1e-9
"""Metres within which two points of an end are one."""


def swept(loops: "Loops", closed: bool = False) -> Solid:
    """The skin through loops (k, n, 3) [m], point j of one to point j of the next; ends capped, or `closed` to a ring.

    An end that has run out to a point or an edge gets no cap, its points are merged. Loops are star-shaped about their
    middle. Either way round will do: the skin comes out with its outside outward.
    """
    count, round_ = loops.shape[:2]
    last = count - 1
    ends = [] if closed else [_End(loops[0], 0, True), _End(loops[last], last * round_, False)]
    return _finished(loops.reshape(-1, 3), [_sides(count, round_, closed)], ends, _standing_still(loops))


def _standing_still(loops: "Loops") -> "Faces":
    """For every point the first in its row of those that stay in one place from loop to loop: inside a sharp corner."""
    names = np.arange(loops.shape[0] * loops.shape[1], dtype=np.int32).reshape(loops.shape[:2])
    still: NDArray[np.bool_] = np.abs(np.diff(loops, axis=0)).max(axis=2) < _SAME
    for i in np.flatnonzero(np.count_nonzero(still, axis=1)):
        names[i + 1] = np.where(still[i], names[i], names[i + 1])
    return names.reshape(-1)


def ringed(outer: "Loops", inner: "Loops") -> Solid:
    """A hollow bar closed to a ring: no ends."""
    k, n = outer.shape[:2]
    sides = [_sides(k, n, True), _sides(k, n, True)[:, ::-1] + k * n]
    return _finished(np.concatenate((outer.reshape(-1, 3), inner.reshape(-1, 3))), sides, [])


@dataclass(frozen=True, slots=True, eq=False)
class _End:
    """The `loop` (n, 3) [m] in which a skin ends, the number of its first point, and whether its cap looks back."""

    loop: "Loops"
    first: int
    back: bool


def hollow(outer: "Loops", inners: "Sequence[Loops]", first_open: bool = True, last_open: bool = True) -> Solid:
    """The skin of `outer` loops with hollows (loops too, in order along it) taken out; all go the same way round.

    An end is open where the first (the last) hollow runs out of it: both then have the same number of points there. A
    hollow that stops within is capped, or runs out to a point.
    """
    tubes = [outer, *inners]
    faces, heads, tails, at = list["Faces"](), list[_End](), list[_End](), 0
    for i, tube in enumerate(tubes):
        rows, round_ = tube.shape[:2]
        faces.append(_sides(rows, round_, False)[:, :: -1 if i else 1] + np.int32(at))
        heads.append(_End(tube[0], at, i == 0))
        tails.append(_End(tube[-1], at + (rows - 1) * round_, i > 0))
        at += rows * round_
    for is_open, ends, inner in ((first_open, heads, 1), (last_open, tails, -1)):
        if is_open:
            faces.append(_washer(ends[0], ends[inner]))
            del ends[inner], ends[0]
    return _finished(np.concatenate([tube.reshape(-1, 3) for tube in tubes]), faces, [*heads, *tails])


def revolved(profile: "Loops", count: int) -> Solid:
    """A profile (n, 2) of (radius, height) [m] turned about z in `count` facets; closed where its ends are one point.

    The facets are as far out as makes every slice's area that of its circle (exact: see `evened`).
    """
    angles = np.arange(count) * (2 * pi / count)
    ring = np.column_stack((np.cos(angles), np.sin(angles))) * evened(count)
    closed = bool(np.abs(profile[0] - profile[-1]).max() < _SAME) and len(profile) > 3
    rows = profile[:-1] if closed else profile
    loops = np.empty((len(rows), count, 3))
    loops[:, :, :2] = rows[:, None, :1] * ring[None]
    loops[:, :, 2] = rows[:, 1:]
    return swept(loops, closed)


def evened(count: int) -> float:
    """How much larger a polygon of `count` corners is drawn than the circle round it, to have the circle's area.

    A polygon of radius r has count/2 r^2 sin(2 pi/count) (exact).
    """
    step = 2 * pi / count
    return sqrt(step / sin(step))


def _sides(count: int, round_: int, closed: bool) -> "Faces":
    """The patches between loop i and loop i + 1, each split across, one way on black fields and the other on white."""
    rows = np.arange(count if closed else count - 1, dtype=np.int32)[:, None]
    places = np.arange(round_, dtype=np.int32)[None, :]
    after, beside = (rows + 1) % count * round_, (places + 1) % round_
    a, b = rows * round_ + places, rows * round_ + beside
    c, d = after + places, after + beside
    black = (rows + places) % 2 == 0
    one = np.stack((a, b, np.where(black, d, c)), axis=-1)
    other = np.stack((np.where(black, a, b), d, c), axis=-1)
    return np.concatenate((one.reshape(-1, 3), other.reshape(-1, 3)))


def _finished(points: "Loops", faces: "list[Faces]", ends: "list[_End]", names: "Faces | None" = None) -> Solid:
    """The skin with its ends capped, or merged where they have run out to nothing; `names`: points that are one."""
    names = np.arange(len(points), dtype=np.int32) if names is None else names
    middles: list[Loops] = []
    for end in ends:
        merged = _merged(end.loop)
        if merged is not None:
            names[end.first : end.first + len(merged)] = end.first + merged
            continue
        faces.append(_fan(end, len(points) + len(middles)))
        middles.append(end.loop.mean(axis=0))
    whole = np.concatenate((points, np.array(middles))) if middles else points
    return _outward(_closed_up(whole, np.concatenate(faces), names))


def _fan(end: _End, centre: int) -> "Faces":
    count = len(end.loop)
    places = np.arange(count, dtype=np.int32)
    beside = (places + 1) % count
    one, two = (beside, places) if end.back else (places, beside)
    return np.column_stack((np.full(count, centre, dtype=np.int32), end.first + one, end.first + two)).astype(np.int32)


def _washer(outer: _End, inner: _End) -> "Faces":
    """The ring between the outside and the hollow where it runs out of the end."""
    places = np.arange(len(outer.loop), dtype=np.int32)
    beside = (places + 1) % len(outer.loop)
    a, b, c, d = outer.first + places, outer.first + beside, inner.first + places, inner.first + beside
    faces = np.concatenate((np.column_stack((a, b, d)), np.column_stack((a, d, c)))).astype(np.int32)
    return faces[:, ::-1] if outer.back else faces


def _merged(loop: "Loops") -> "Faces | None":
    """For an end run out to a point or an edge: the first point at the same place as each; None for an end with area.

    An edge is one only where both its sides have the same points, so that they close on each other.
    """
    middle = loop.mean(axis=0)
    off = loop - middle
    far = int(np.argmax((off**2).sum(axis=1)))
    reach = float(np.sqrt((off[far] ** 2).sum()))
    if reach < _SAME:
        return np.zeros(len(loop), dtype=np.int32)
    along = off @ (off[far] / reach)
    if float(np.abs(off - along[:, None] * (off[far] / reach)).max()) > _SAME:
        return None
    places = np.round(along / _SAME / 10)
    first = np.argmax(np.abs(places[:, None] - places[None, :]) <= 1, axis=1).astype(np.int32)
    steps = {(int(p), int(q)) for p, q in zip(first, np.roll(first, -1), strict=True) if p != q}
    return first if steps == {(q, p) for p, q in steps} else None


def _closed_up(points: "Loops", faces: "Faces", names: "Faces") -> Solid:
    """The skin with merged points made one, and without the triangles that have shrunk to nothing by it."""
    if bool((names == np.arange(len(names))).all()):
        return Solid(points, faces.astype(np.int32))
    named = np.concatenate((names, np.arange(len(names), len(points), dtype=np.int32)))[faces]
    kept = (named[:, 0] != named[:, 1]) & (named[:, 1] != named[:, 2]) & (named[:, 2] != named[:, 0])
    used, again = np.unique(named[kept], return_inverse=True)
    return Solid(points[used], again.reshape(-1, 3).astype(np.int32))


def _outward(solid: Solid) -> Solid:
    corners = (solid.points - solid.points[0])[solid.faces]
    six = np.einsum("ij,ij->", corners[:, 0], np.cross(corners[:, 1], corners[:, 2]))
    return solid if six >= 0.0 else _turned_in(solid)


def _turned_in(solid: Solid) -> Solid:
    return Solid(solid.points, np.ascontiguousarray(solid.faces[:, ::-1]))
