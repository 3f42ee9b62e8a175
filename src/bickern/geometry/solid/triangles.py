"""Triangles in pairs, many at once: the least distance, and whether they cross.

Exact mathematics; everything is an array over pairs, so that thousands cost what one does.
"""

from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

TINY = 1e-30
"""What stands for the square of no length [m2]: a triangle may be a line or a point."""


def split(triangles: "NDArray[np.float64]", longest: float, flat: bool = False) -> "NDArray[np.float64]":
    """The same surface in triangles (m, 3, 3) with no edge over `longest` [m]: the longest is halved, again and again.

    Corners may lie on edges of neighbours: good for distances, not a skin any more. `flat`: only x and y count.
    """
    done = [np.zeros((0, 3, 3))]
    counted = 2 if flat else 3
    while len(triangles):
        way = (triangles - triangles[:, (1, 2, 0)])[:, :, :counted]
        sides = np.einsum("nij,nij->ni", way, way)
        edge = sides.argmax(axis=1)
        long = sides.max(axis=1) > longest * longest
        done.append(triangles[~long])
        triangles = _halved(triangles[long], edge[long])
    return np.concatenate(done)


def _halved(triangles: "NDArray[np.float64]", edge: "NDArray[np.intp]") -> "NDArray[np.float64]":
    """Both halves of triangles, parted at the middle of the edge that is told."""
    rows, after = np.arange(len(triangles)), (edge + 1) % 3
    middle = (triangles[rows, edge] + triangles[rows, after]) / 2
    near, far = triangles.copy(), triangles.copy()
    near[rows, after] = middle
    far[rows, edge] = middle
    return np.concatenate((near, far))


def by_place(triangles: "NDArray[np.float64]") -> "NDArray[np.float64]":
    """The triangles in an order in which neighbours in the list are neighbours in space.

    Every run of 2^k, from the longest down to pairs, is sorted along its own widest way and so falls into two halves.
    """
    rows = np.arange(len(triangles))
    order, middles = rows, (triangles[:, 0] + triangles[:, 1] + triangles[:, 2]) / 3
    size = 1 << max(len(triangles) - 1, 1).bit_length()
    while size > 2:
        starts = np.arange(0, len(rows), size)
        low, high = np.minimum.reduceat(middles, starts), np.maximum.reduceat(middles, starts)
        axis, wide = (high - low).argmax(axis=1), np.maximum((high - low).max(axis=1), TINY)
        run = rows // size
        along = (middles[rows, axis[run]] - low[run, axis[run]]) / wide[run]
        change = np.argsort(run + 0.999 * along)
        order, middles = order[change], middles[change]
        size //= 2
    return triangles[order]


def nearest(
    first: "NDArray[np.float64]", second: "NDArray[np.float64]"
) -> "tuple[float, NDArray[np.float64], NDArray[np.float64]]":
    """The least distance [m] over pairs of triangles (n, 3, 3), and a place on either; 0 where a pair crosses."""
    if (met := crossing(first, second)) is not None:
        return 0.0, met, met
    places = [_edges_nearest(first, second), _corners_over(first, second), _corners_over(second, first)[::-1]]
    squares = [np.square(p - q).sum(axis=-1) for p, q in places]
    which = int(np.argmin([s.min(initial=np.inf) for s in squares]))
    at = int(squares[which].argmin())
    p, q = places[which]
    return float(np.sqrt(squares[which][at])), p[at], q[at]


def crossing(first: "NDArray[np.float64]", second: "NDArray[np.float64]") -> "NDArray[np.float64] | None":
    """A place where an edge of one triangle goes through the other of its pair (n, 3, 3); None where none does."""
    met = _pierced(first, second)
    return met if met is not None else _pierced(second, first)


def _pierced(edged: "NDArray[np.float64]", plates: "NDArray[np.float64]") -> "NDArray[np.float64] | None":
    """Where an edge of the first goes through the plate of its pair; edges that only touch the plate do not."""
    origin = plates[:, 0]
    normal = np.cross(plates[:, 1] - origin, plates[:, 2] - origin)
    heights = np.einsum("nij,nj->ni", edged - origin[:, None], normal)
    over = np.roll(heights, -1, axis=1)
    pair, edge = np.nonzero(heights * over < 0)
    if len(pair) == 0:
        return None
    here, there = heights[pair, edge], over[pair, edge]
    share = (here / (here - there))[:, None]
    place = (1 - share) * edged[pair, edge] + share * edged[pair, (edge + 1) % 3]
    through = np.nonzero(_over_plate(place, plates[pair], normal[pair]))[0]
    found: NDArray[np.float64] | None = place[through[0]] if len(through) else None
    return found


def _over_plate(
    places: "NDArray[np.float64]", plates: "NDArray[np.float64]", normal: "NDArray[np.float64]"
) -> "NDArray[np.bool_]":
    """Whether each place stands straight over (or under) its triangle."""
    edges = np.roll(plates, -1, axis=1) - plates
    sides = np.einsum("nij,nj->ni", np.cross(edges, places[:, None] - plates), normal)
    inside: NDArray[np.bool_] = (sides >= 0).all(axis=1)
    return inside


def _corners_over(
    cornered: "NDArray[np.float64]", plates: "NDArray[np.float64]"
) -> "tuple[NDArray[np.float64], NDArray[np.float64]]":
    """Corners of the first that stand over the plate of their pair, and their feet on it."""
    origin = plates[:, :1]
    normal = np.cross(plates[:, 1] - plates[:, 0], plates[:, 2] - plates[:, 0])
    size = np.maximum(np.square(normal).sum(axis=1), TINY)
    drop = np.einsum("nij,nj->ni", cornered - origin, normal) / size[:, None]
    feet = cornered - drop[:, :, None] * normal[:, None]
    corners, feet, three = cornered.reshape(-1, 3), feet.reshape(-1, 3), np.repeat(np.arange(len(plates)), 3)
    over = _over_plate(feet, plates[three], normal[three]) & (size[three] > TINY)
    return corners[over], feet[over]


def _edges_nearest(
    first: "NDArray[np.float64]", second: "NDArray[np.float64]"
) -> "tuple[NDArray[np.float64], NDArray[np.float64]]":
    """The nearest places of each edge of the first to each edge of the second, (9 n, 3) both."""
    p, q = np.repeat(first, 3, axis=1), np.tile(second, (1, 3, 1))
    u = np.repeat(np.roll(first, -1, axis=1) - first, 3, axis=1)
    v = np.tile(np.roll(second, -1, axis=1) - second, (1, 3, 1))
    r = p - q
    a, e, b = (np.maximum(np.einsum("nij,nij->ni", *pair), low) for pair, low in (((u, u), TINY), ((v, v), TINY),
                                                                                  ((u, v), -np.inf)))  # fmt: skip
    c, f = np.einsum("nij,nij->ni", u, r), np.einsum("nij,nij->ni", v, r)
    flat = a * e - b * b
    with np.errstate(divide="ignore", invalid="ignore"):
        s = np.where(flat > 1e-12 * a * e, np.clip((b * f - c * e) / flat, 0, 1), 0.0)
    t = np.clip((b * s + f) / e, 0, 1)
    s = np.clip((b * t - c) / a, 0, 1)
    return (p + s[..., None] * u).reshape(-1, 3), (q + t[..., None] * v).reshape(-1, 3)
