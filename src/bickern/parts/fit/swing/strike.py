"""At what angle a triangle that turns about the z axis first strikes one that stands: exact mathematics.

Two triangles first touch where a corner of one comes to the plate of the other, or an edge to an edge. A corner p that
turns by f is at the plate with normal n through q where n . R(f) p = n . q. An edge along u through p and one along v
through q meet where v . R(f) (p x u) = (v x q) . R(f) u. Both are of the kind A cos f + B sin f = C.
"""

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

HAIR = 1e-9
"""How far beyond a triangle's edge, in parts of it, and before the start [rad], a touch counts: for rounding's sake."""
APART = 1e-7
"""What two places may be apart that are one [m]: of edges that only run the same way no place is one."""


@dataclass(frozen=True, slots=True)
class Strike:
    """The least angle [rad] and the number of the pair; infinite where none of them meets."""

    angle: float = math.inf
    pair: int = -1


def first_strike(moving: "Array", still: "Array", way: float, limit: float) -> Strike:
    """The first touch of pairs of triangles (n, 3, 3) [m] at an angle up to the limit.

    `way`: 1 by the right-hand rule about z, -1 against it.
    """
    best = _corner_on_plate(moving, still, way, Strike(limit))
    best = _corner_on_plate(still, moving, -way, best)
    best = _edge_on_edge(moving, still, way, best)
    return best if best.pair >= 0 else Strike()


def _corner_on_plate(corners: "Array", plates: "Array", way: float, best: Strike) -> Strike:
    """Each corner of the first (that turns) against the plate of its pair."""
    origin, u, v = plates[:, 0], plates[:, 1] - plates[:, 0], plates[:, 2] - plates[:, 0]
    n = _cross(u, v)
    x, y, z = (corners[:, :, k] for k in range(3))
    nx, ny, nz = (n[:, None, k] for k in range(3))
    level = np.einsum("ni,ni->n", n, origin)[:, None] - nz * z
    angles, (pair, corner) = _roots(nx * x + ny * y, ny * x - nx * y, level, way, best.angle)
    off = _turned(corners[pair, corner], way * angles) - origin[pair]
    u, v, n = u[pair], v[pair], n[pair]
    size = np.maximum(np.einsum("ni,ni->n", n, n), 1e-60)
    s = np.einsum("ni,ni->n", _cross(off, v), n) / size
    t = np.einsum("ni,ni->n", _cross(u, off), n) / size
    inside = (s >= -HAIR) & (t >= -HAIR) & (s + t <= 1 + HAIR)
    return _least(angles, pair, inside & _small(off - s[:, None] * u - t[:, None] * v), best)


def _edge_on_edge(moving: "Array", still: "Array", way: float, best: Strike) -> Strike:
    """Each edge of the first (that turns) against each edge of its pair."""
    p, q = moving, still
    u, v = p[:, (1, 2, 0)] - p, q[:, (1, 2, 0)] - q
    m, w = _cross(p, u), _cross(v, q)

    def by(k: int) -> "tuple[Array, Array, Array, Array]":
        return v[:, None, :, k], m[:, :, None, k], w[:, None, :, k], u[:, :, None, k]

    (vx, mx, wx, ux), (vy, my, wy, uy), (vz, mz, wz, uz) = by(0), by(1), by(2)
    a = vx * mx + vy * my - wx * ux - wy * uy
    b = vy * mx - vx * my - wy * ux + wx * uy
    angles, (pair, one, two) = _roots(a, b, wz * uz - vz * mz, way, best.angle)
    turned_p, turned_u = (_turned(k[pair, one], way * angles) for k in (p, u))
    off, v_two = q[pair, two] - turned_p, v[pair, two]
    k = _cross(turned_u, v_two)
    size = np.maximum(np.einsum("ni,ni->n", k, k), 1e-60)
    s = np.einsum("ni,ni->n", _cross(off, v_two), k) / size
    t = np.einsum("ni,ni->n", _cross(off, turned_u), k) / size
    both = (s >= -HAIR) & (s <= 1 + HAIR) & (t >= -HAIR) & (t <= 1 + HAIR)
    return _least(angles, pair, both & _small(off + t[:, None] * v_two - s[:, None] * turned_u), best)


def _roots(
    a: "Array", b: "Array", c: "Array", way: float, limit: float
) -> "tuple[Array, tuple[NDArray[np.intp], ...]]":
    """Angles [rad] the way it turns, up to the limit, where a cos f + b sin f = c, and where in the arrays they are."""
    at = np.nonzero(c * c < a * a + b * b)
    a, b, c = a[at], b[at], c[at]
    middle, wide = np.arctan2(b, a), np.arccos(c / np.hypot(a, b))
    both = np.concatenate((middle - wide, middle + wide))
    angles = (way * both + HAIR) % math.tau - HAIR
    soon = np.flatnonzero(angles < limit)
    return angles[soon], tuple(np.concatenate((k, k))[soon] for k in at)


def _turned(places: "Array", angles: "Array") -> "Array":
    c, s = np.cos(angles), np.sin(angles)
    x, y = places[:, 0], places[:, 1]
    return np.stack((c * x - s * y, s * x + c * y, places[:, 2]), axis=1)


def _least(angles: "Array", pairs: "NDArray[np.intp]", touch: "NDArray[np.bool_]", best: Strike) -> Strike:
    angles, pairs = angles[touch], pairs[touch]
    if not len(angles):
        return best
    at = int(angles.argmin())
    return Strike(max(float(angles[at]), 0.0), int(pairs[at])) if angles[at] < best.angle else best


def _small(off: "Array") -> "NDArray[np.bool_]":
    return np.asarray(np.einsum("ni,ni->n", off, off) < APART * APART)


def _cross(a: "Array", b: "Array") -> "Array":
    """The vector product along the last axis: many times quicker here than numpy's own."""
    x, y, z = a[..., 0], a[..., 1], a[..., 2]
    u, v, w = b[..., 0], b[..., 1], b[..., 2]
    return np.stack((y * w - z * v, z * u - x * w, x * v - y * u), axis=-1)
