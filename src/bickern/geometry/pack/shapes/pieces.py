"""Any polygon as a few convex pieces, and how deep convex pieces lie in each other."""

from collections.abc import Iterable
from functools import lru_cache
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

if TYPE_CHECKING:
    from shapely import Geometry

Array = NDArray[np.float64]
Point = tuple[float, float]


def convex_pieces(shape: "Geometry") -> tuple[Array, ...]:
    """The shape (holes and all) as convex pieces that do not overlap, each counter-clockwise (k, 2) [m]."""
    import shapely

    found: list[Array] = []
    for part in shapely.get_parts(shape):
        if part.geom_type != "Polygon" or part.area <= 1e-12:
            continue
        whole = shapely.orient_polygons(part)
        ring = [tuple(p) for p in whole.exterior.coords[:-1]]
        if not part.interiors and _is_convex(ring):
            found.append(np.array(ring))
        else:
            found += [np.array(piece) for piece in _merged(_triangles(whole))]
    return tuple(found)


def _triangles(polygon: "Geometry") -> list[list[Point]]:
    import shapely

    cut = shapely.orient_polygons(shapely.get_parts(shapely.constrained_delaunay_triangles(polygon)))
    return [list(one.exterior.coords[:-1]) for one in cut if one.area > 1e-14]


def _is_convex(ring: list[Point]) -> bool:
    return all(_turn(ring[i - 2], ring[i - 1], ring[i]) >= -1e-12 for i in range(len(ring)))


def _turn(a: Point, b: Point, c: Point) -> float:
    return (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0])


def _merged(rings: list[list[Point]]) -> list[list[Point]]:
    """Neighbours joined over their shared edges, the longest first, as long as what comes of it is convex."""
    rings = [list(r) for r in rings]
    owner = {(r[i - 1], r[i]): n for n, r in enumerate(rings) for i in range(len(r))}
    shared = [e for e in owner if e < e[::-1] and e[::-1] in owner]
    for a, b in sorted(shared, key=lambda e: (-_length2(*e), e)):
        left, right = owner[a, b], owner[b, a]
        if left == right:
            continue
        whole = _joined(rings[left], rings[right], a, b)
        if whole is None or not _is_convex(whole):
            continue
        rings[left], rings[right] = whole, []
        owner.update(((whole[i - 1], whole[i]), left) for i in range(len(whole)))
    return [r for r in rings if r]


def _length2(a: Point, b: Point) -> float:
    return (b[0] - a[0]) ** 2 + (b[1] - a[1]) ** 2


def _joined(left: list[Point], right: list[Point], a: Point, b: Point) -> list[Point] | None:
    i, j = left.index(b), right.index(a)
    return left[i:] + left[:i] + (right[j:] + right[:j])[1:-1]


def normals(piece: Array) -> Array:
    """Outward unit normals of a convex piece's edges (k, 2)."""
    return _normals(piece.tobytes())


@lru_cache(maxsize=20_000)
def _normals(corners: bytes) -> Array:
    piece = np.frombuffer(corners).reshape(-1, 2)
    edge = np.concatenate([piece[1:], piece[:1]]) - piece
    size = np.sqrt(edge[:, 0] ** 2 + edge[:, 1] ** 2)
    edge, size = edge[size > 1e-12], size[size > 1e-12, None]
    found: Array = np.column_stack([edge[:, 1], -edge[:, 0]]) / size
    return found


def apart_rows(moving: Array, fixed: Array) -> tuple[Array, Array]:
    """Half planes of all the shifts of `moving` that make it meet `fixed`: normals (m, 2) and supports (m) [m].

    A shift d is a clash by the least of `support - normal . d`: so deep must one be moved to leave the other. Exact
    for convex pieces (the Minkowski sum of one and the other reflected has no other edges).
    """
    ways = np.concatenate([normals(fixed), -normals(moving)])
    if len(ways) > 16:  # fewer cost less than finding the repeats among them
        ways = _once(ways)
    return ways, (ways @ fixed.T).max(axis=1) - (ways @ moving.T).min(axis=1)


def _once(ways: Array) -> Array:
    """Directions without repeats."""
    kept = {(round(x * 1e9), round(y * 1e9)): n for n, (x, y) in enumerate(ways.tolist())}
    return ways[list(kept.values())]


def bounds_of(pieces: Iterable[Array]) -> tuple[float, float, float, float]:
    """Least and greatest x and y of some pieces: x0, y0, x1, y1 [m]."""
    every = np.concatenate(list(pieces))
    (x0, y0), (x1, y1) = every.min(axis=0), every.max(axis=0)
    return float(x0), float(y0), float(x1), float(y1)
