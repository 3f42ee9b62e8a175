"""How a set that does not hang is stood for its picture and its files: on what it stands steadily on, feet down.

The job does not say how it stands, so this is a guess for the eye; nothing is reckoned from it.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from bickern.geometry.pose import Pose
from bickern.geometry.space import Vec, cross, dot, times

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

AXES: tuple[Vec, ...] = ((0.0, 0.0, 1.0), (0.0, 1.0, 0.0), (1.0, 0.0, 0.0))
"""Ways up that are tried, each both ways round."""
TOUCHING = 0.02
"""Share of its height up to which a set is taken to touch the ground."""
FEET = 0.35
"""A thing stands on its feet rather than its top where they take at least this share of the room of the top."""


@dataclass(frozen=True, slots=True)
class Stand:
    """One way up: the ground between what touches it [m2], and how high above it the set balances [m]."""

    up: Vec
    ground: float
    balance: float

    @property
    def steadiness(self) -> float:
        """How far it can be tipped before it falls, as a share [-]."""
        return self.ground / max(self.balance, 1e-9) ** 2


def stood(points: "NDArray[np.float64]", centre: Vec) -> Pose:
    """The pose in which a set of these points (n, 3) [m] that balances at `centre` [m] stands, z up."""
    pairs = [(_stand(points, centre, axis), _stand(points, centre, times(axis, -1.0))) for axis in AXES]
    steadiest = max(pairs, key=lambda pair: max(one.steadiness for one in pair))
    return _upright(_feet_down(*steadiest).up)


def _feet_down(one: Stand, other: Stand) -> Stand:
    """Of the two ways up the one with its weight above, if what it stands on then is no mere point."""
    high, low = (one, other) if one.balance >= other.balance else (other, one)
    return high if high.ground >= FEET * low.ground else low


def _stand(points: "NDArray[np.float64]", centre: Vec, up: Vec) -> Stand:
    aside = AXES[(AXES.index(tuple(abs(one) for one in up)) + 1) % 3]
    across = cross(up, aside)
    heights = points @ up
    low, high = float(heights.min()), float(heights.max())
    feet = points[heights <= low + TOUCHING * (high - low)]
    ground = _area([(dot(place, aside), dot(place, across)) for place in feet.tolist()])
    return Stand(up, ground, dot(centre, up) - low)


def _area(places: Sequence[tuple[float, float]]) -> float:
    """Area of the taut string round these places [m2]."""
    ordered = sorted(set(places))
    around = (*_half(ordered), *_half(ordered[::-1]))
    return abs(math.fsum(a[0] * b[1] - a[1] * b[0] for a, b in zip(around, (*around[1:], around[0]), strict=True))) / 2


def _half(ordered: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
    """One side of the string, its last place left to the other side."""
    string: list[tuple[float, float]] = []
    for x, y in ordered:
        while len(string) > 1:
            (ax, ay), (bx, by) = string[-2:]
            if (bx - ax) * (y - ay) - (by - ay) * (x - ax) > 0:
                break
            string.pop()
        string.append((x, y))
    return string[:-1] or string


def _upright(up: Vec) -> Pose:
    """The pose that brings the direction `up` of a set to point up in the world."""
    aside = AXES[(AXES.index(tuple(abs(one) for one in up)) + 1) % 3]
    rows = (aside, cross(up, aside), up)
    x, y = ((rows[0][i], rows[1][i], rows[2][i]) for i in (0, 1))
    return Pose(x=x, y=y)
