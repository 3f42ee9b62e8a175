"""Many points of a thick flat sheet rolled up at once: where a point of the flat goes, and one lifted off it.

The same rolls as `rolling.rolled`, for arrays; `lift` is measured along the normal of the face that looks at you.
"""

import math
from typing import TYPE_CHECKING

import numpy as np

from bickern.geometry.develop.rolling import (
    ConeRoll,
    CylinderRoll,
    DishRoll,
    FanRoll,
    FoldRoll,
    ParallelRoll,
    Roll,
    placements,
)

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

_ON = 1e-7
"""How near a fold [m] a point lies on it."""


def rolled_thick(roll: Roll, flat: "Array", lift: "Array", near: "Array | None" = None) -> "Array":
    """Places (n, 3) [m] of flat points (n, 2) [m] lifted by `lift` (n,) [m] toward you.

    `near` (n, 2): for folded sheet, a place inside the facet that each point belongs to (a point may lie on a fold).
    """
    if isinstance(roll, ConeRoll):
        return _on_cone(roll, flat, lift)
    if isinstance(roll, CylinderRoll):
        phi = roll.space + (flat[:, 0] - roll.start) / roll.radius
        far = roll.radius + lift
        return np.column_stack((far * np.cos(phi), far * np.sin(phi), flat[:, 1]))
    if isinstance(roll, FanRoll):
        return _on_fan(roll, flat, lift)
    if isinstance(roll, ParallelRoll):
        return _on_parallel(roll, flat, lift)
    if isinstance(roll, DishRoll):
        return _on_dish(roll, flat, lift)
    return _on_folds(roll, flat, lift, flat if near is None else near)


def _on_cone(roll: ConeRoll, flat: "Array", lift: "Array") -> "Array":
    sine, cosine = math.sin(roll.half_angle), math.cos(roll.half_angle)
    far = np.hypot(flat[:, 0] - roll.apex[0], flat[:, 1] - roll.apex[1])
    phi = roll.space + _around(roll, flat) / sine
    out = far * sine + lift * cosine
    up = roll.apex_height + roll.hand * (lift * sine - far * cosine)
    return np.column_stack((out * np.cos(phi), out * np.sin(phi), up))


def _around(roll: ConeRoll | FanRoll, flat: "Array") -> "Array":
    angle = np.arctan2(flat[:, 1] - roll.apex[1], flat[:, 0] - roll.apex[0])
    turned: Array = roll.hand * ((angle - roll.middle + math.pi) % (2 * math.pi) - math.pi)
    return turned


def _slots(steps: "Array", x: "Array") -> "tuple[NDArray[np.int64], Array]":
    """Which step each x falls in, and the share of the way through it; what goes past an end comes round again."""
    whole = steps[-1] - steps[0]
    x = steps[0] + (x - steps[0]) % whole if len(x) and (x.max() > steps[-1] or x.min() < steps[0]) else x
    i = np.clip(np.searchsorted(steps, x, side="right") - 1, 0, len(steps) - 2)
    return i, (x - steps[i]) / (steps[i + 1] - steps[i])


def _smooth(across: "Array") -> "Array":
    """Unit normals at the rays, from those of the facets between them; the round is closed."""
    both = np.vstack((across[-1:] + across[:1], across[:-1] + across[1:], across[-1:] + across[:1]))
    return _unit(both)


def _unit(v: "Array") -> "Array":
    out: Array = v / np.linalg.norm(v, axis=1, keepdims=True)
    return out


def _on_fan(roll: FanRoll, flat: "Array", lift: "Array") -> "Array":
    rays, angles = np.array(roll.rays), np.array(roll.angles)
    i, share = _slots(angles, _around(roll, flat))
    normals = _smooth(_unit(roll.hand * np.cross(rays[:-1], rays[1:])))
    s = share[:, None]
    ray = _unit(_between(rays[i], rays[i + 1], share))
    out = _unit(normals[i] * (1 - s) + normals[i + 1] * s)
    far = np.hypot(flat[:, 0] - roll.apex[0], flat[:, 1] - roll.apex[1])
    return np.array(roll.tip) + ray * far[:, None] + out * lift[:, None]


def _between(a: "Array", b: "Array", share: "Array") -> "Array":
    """The unit vectors a share of the way from a to b along their great circle."""
    angle = np.arctan2(np.linalg.norm(np.cross(a, b), axis=1), np.sum(a * b, axis=1))
    sine = np.where(angle > 1e-9, np.sin(angle), 1.0)
    low = np.where(angle > 1e-9, np.sin((1 - share) * angle) / sine, 1 - share)
    high = np.where(angle > 1e-9, np.sin(share * angle) / sine, share)
    out: Array = a * low[:, None] + b * high[:, None]
    return out


def _on_parallel(roll: ParallelRoll, flat: "Array", lift: "Array") -> "Array":
    feet, axis = np.array(roll.feet), np.array(roll.axis)
    i, share = _slots(np.array(roll.places), flat[:, 0])
    normals = _smooth(_unit(np.cross(feet[1:] - feet[:-1], axis)))
    s = share[:, None]
    out = _unit(normals[i] * (1 - s) + normals[i + 1] * s)
    places: Array = feet[i] * (1 - s) + feet[i + 1] * s + axis * flat[:, 1:2] + out * lift[:, None]
    return places


def _on_dish(roll: DishRoll, flat: "Array", lift: "Array") -> "Array":
    far = np.hypot(flat[:, 0], flat[:, 1])
    drawn = np.sqrt(np.maximum(0.0, 1 - (far / (2 * roll.radius)) ** 2))
    middle = np.column_stack((flat[:, 0] * drawn, flat[:, 1] * drawn, far * far / (2 * roll.radius)))
    inward = (np.array((0.0, 0.0, roll.radius)) - middle) / roll.radius
    out: Array = middle + inward * lift[:, None]
    return out


def _on_folds(roll: FoldRoll, flat: "Array", lift: "Array", near: "Array") -> "Array":
    if any(facet.width > 0 for facet in roll.facets):
        raise ValueError("bends that take up width are not rolled here")
    placed, depths = placements(roll), _depths(roll, near)
    which = np.argmax(depths, axis=0)
    origin, ex, ey, ez = (np.array([getattr(p, name) for p in placed]) for name in ("origin", "ex", "ey", "ez"))
    up = _mitred(ez, _depths(roll, flat) > -_ON, which) if lift.any() else ez[which]
    places: Array = origin[which] + ex[which] * flat[:, :1] + ey[which] * flat[:, 1:2] + up * lift[:, None]
    return places


def _mitred(normals: "Array", touched: "NDArray[np.bool_]", which: "NDArray[np.int64]") -> "Array":
    """On a fold the way in which both facets are lifted alike; elsewhere the facet's own normal."""
    touched = touched.copy()
    touched[which, np.arange(len(which))] = True
    total = touched.T.astype(float) @ normals
    mean = total / np.maximum(np.linalg.norm(total, axis=1, keepdims=True), 1e-30)
    along = np.einsum("ij,ij->i", total, mean) / touched.sum(axis=0)
    out: Array = mean / np.maximum(along, 0.2)[:, None]
    return out


def _depths(roll: FoldRoll, flat: "Array") -> "Array":
    """How deep (facets, n) flat points (n, 2) lie in each facet [m]; less than nothing outside it."""
    depth = np.full((len(roll.facets), len(flat)), np.inf)
    for row, facet in zip(depth, roll.facets, strict=True):
        for a, b in zip(facet.corners, facet.corners[1:] + facet.corners[:1], strict=True):
            long = math.dist(a, b)
            if long > 0.0:
                left = (b[0] - a[0]) * (flat[:, 1] - a[1]) - (b[1] - a[1]) * (flat[:, 0] - a[0])
                np.minimum(row, left / long, out=row)
    return depth
