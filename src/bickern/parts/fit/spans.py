"""How far solids lie from a line and how high along it: what turns about the line keeps both."""

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bickern.geometry.pose import standing
from bickern.geometry.solid.combine import shared
from bickern.geometry.solid.solid import Solid, moved
from bickern.geometry.solid.sweep import revolved
from bickern.geometry.space import Vec

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

FACETS = 64
"""Sides of what stands for a cylinder."""
OVER = 1.0 / math.cos(math.pi / FACETS) + 0.002
"""How much larger a cylinder of so many sides is drawn that the round one lies wholly inside it."""


@dataclass(frozen=True, slots=True)
class Span:
    """From `near` to `far` off a line, from `low` to `high` along it [m]."""

    near: float
    far: float
    low: float
    high: float

    def both(self, other: "Span") -> "Span":
        """What lies in both; `far` below `near` or `high` below `low` where nothing does."""
        return Span(
            max(self.near, other.near), min(self.far, other.far), max(self.low, other.low), min(self.high, other.high)
        )

    def hull(self, other: "Span") -> "Span":
        """The least that holds both."""
        return Span(
            min(self.near, other.near), max(self.far, other.far), min(self.low, other.low), max(self.high, other.high)
        )

    @property
    def empty(self) -> bool:
        """Whether nothing lies in it."""
        return self.far <= self.near or self.high <= self.low


def span_of(solid: Solid, point: Vec, axis: Vec) -> Span:
    """The span of a solid about the line along `axis` (unit) through `point`."""
    line = np.array(axis)
    off = solid.points - np.array(point)
    along = off @ line
    flat = (off - along[:, None] * line)[solid.faces]
    far = float(np.linalg.norm(flat, axis=2).max())
    return Span(float(_nearest(flat, line).min()), far, float(along.min()), float(along.max()))


def _nearest(flat: "Array", line: "Array") -> "Array":
    """The least distance of triangles (n, 3, 3), seen along the line, from the line itself (the origin)."""
    ahead = np.roll(flat, -1, axis=1)
    edge = ahead - flat
    long = np.maximum(np.einsum("nij,nij->ni", edge, edge), 1e-30)
    share = np.clip(-np.einsum("nij,nij->ni", flat, edge) / long, 0.0, 1.0)
    least = np.linalg.norm(flat + share[:, :, None] * edge, axis=2).min(axis=1)
    side = np.einsum("nij,j->ni", np.cross(flat, ahead), line)
    round_it = (side > 0).all(axis=1) | (side < 0).all(axis=1)
    return np.where(round_it, 0.0, least)


def inside(solid: Solid, span: Span, point: Vec, axis: Vec) -> Solid:
    """The part of a solid that lies in a span, and a little beyond; may be nothing."""
    out, tall = span.far * OVER, (span.high - span.low) * 0.01
    low, high = span.low - tall, span.high + tall
    inner = span.near / OVER
    rows = [(inner, low), (out, low), (out, high), (inner, high), (inner, low)]
    profile = np.array(rows if inner > 1e-6 else [(0.0, low), (out, low), (out, high), (0.0, high)])
    near_x = (1.0, 0.0, 0.0) if abs(axis[0]) < 0.7 else (0.0, 1.0, 0.0)
    return shared(solid, moved(revolved(profile, FACETS), standing(point, axis, near_x)))
