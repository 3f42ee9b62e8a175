"""What rectangle an outline needs, turned any way, and whether it fits in one that is there: exact with arcs."""

import math
from collections.abc import Callable
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

from bickern.geometry.polygon import ArcSeg, Line, Loop, reach, seg_end, seg_start

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

_STEP = math.radians(1.0)
_BEST = 5
_ZOOMS = 6
_ACROSS = 13


@dataclass(frozen=True, slots=True)
class Blank:
    """A rectangle round an outline: `width` >= `height` [m] once the outline is turned by `turn` [rad]."""

    width: float
    height: float
    turn: float


@dataclass(frozen=True, slots=True)
class Fit:
    """Whether an outline goes into a rectangle; turned by `turn` [rad], by how much it misses along both sides [m]."""

    fits: bool
    short_width: float
    short_height: float
    turn: float


def sizes_turned(loop: Loop, turn: float) -> tuple[float, float]:
    """Width and height [m] of the upright box round the loop once it is turned by `turn` [rad]; exact with arcs."""
    width = reach(loop, -turn) + reach(loop, math.pi - turn)
    height = reach(loop, math.pi / 2 - turn) + reach(loop, -math.pi / 2 - turn)
    return width, height


def min_blank(outline: Loop) -> Blank:
    """The smallest rectangle by area round an outline, turned any way; `width` is the longer side."""
    reaches = _reaches(outline)
    turn = _least(lambda w, h: w * h, reaches, math.pi / 2)
    width, height = reaches.sizes_at(turn)
    if height > width:
        width, height, turn = height, width, turn + math.pi / 2
    return Blank(width, height, turn % math.pi)


def fits_in(outline: Loop, wide: float, high: float) -> Fit:
    """Whether an outline goes on a sheet `wide` x `high` [m], turned any way; else the turn that misses by least."""
    import numpy as np

    def short(w: "Array", h: "Array") -> "Array":
        over = np.maximum(w - wide, 0.0) + np.maximum(h - high, 0.0)
        # Where it fits, the turn that leaves most room on its tightest side is looked for.
        roomy: Array = np.where(over > 0.0, over, np.maximum(w - wide, h - high))
        return roomy

    reaches = _reaches(outline)
    turn = _least(short, reaches, math.pi)
    w, h = reaches.sizes_at(turn)
    misses = max(w - wide, 0.0), max(h - high, 0.0)
    return Fit(max(misses) <= 1e-9, misses[0], misses[1], turn)


@dataclass(frozen=True, slots=True)
class _Reaches:
    """Corners (n, 2), arcs (m, 5: centre, radius, first angle, sweep); `flush`: turns that lay a straight on a side."""

    corners: "Array"
    arcs: "Array"
    flush: "Array"

    def sizes(self, turns: "Array") -> "tuple[Array, Array]":
        """Width and height [m] of the upright box round the outline at each turn [rad]."""
        quarter = math.pi / 2
        right, up = self._reach(-turns), self._reach(quarter - turns)
        return right + self._reach(math.pi - turns), up + self._reach(-quarter - turns)

    def sizes_at(self, turn: float) -> tuple[float, float]:
        """Width and height [m] at one turn."""
        import numpy as np

        width, height = self.sizes(np.array([turn]))
        return float(width[0]), float(height[0])

    def _reach(self, directions: "Array") -> "Array":
        import numpy as np

        ways = np.stack([np.cos(directions), np.sin(directions)])
        far: Array = (self.corners @ ways).max(axis=0)
        if len(self.arcs):
            swept = (directions[None, :] - self.arcs[:, 3:4]) % (2 * math.pi) <= self.arcs[:, 4:5]
            bulge = np.where(swept, self.arcs[:, :2] @ ways + self.arcs[:, 2:3], -np.inf)
            far = np.maximum(far, bulge.max(axis=0))
        return far


def _reaches(outline: Loop) -> _Reaches:
    import numpy as np

    corners = np.array([p for seg in outline.segs for p in (seg_start(seg), seg_end(seg))])
    arcs = [
        (*s.centre, s.radius, s.start_angle + min(s.sweep, 0.0), abs(s.sweep))
        for s in outline.segs
        if isinstance(s, ArcSeg)
    ]
    return _Reaches(corners, np.array(arcs).reshape(-1, 5), np.array(_flush(outline, corners)))


def _flush(outline: Loop, corners: "Array") -> list[float]:
    """Turns that lay a straight, or a chord of the hull over a hollow, along a side of the rectangle."""
    from shapely.geometry import MultiPoint, Polygon

    straights = [(seg.start, seg.end) for seg in outline.segs if isinstance(seg, Line)]
    hull = MultiPoint(corners.tolist()).convex_hull
    if isinstance(hull, Polygon):
        ring = [(float(x), float(y)) for x, y in hull.exterior.coords]
        straights += list(pairwise(ring))
    return [-math.atan2(b[1] - a[1], b[0] - a[0]) for a, b in straights]


def _least(cost: "Callable[[Array, Array], Array]", reaches: _Reaches, over: float) -> float:
    """The turn of least cost: even steps and straights laid along a side, then closer and closer round the best."""
    import numpy as np

    even = np.arange(0.0, over, _STEP)
    turns = np.concatenate([even, reaches.flush % over])
    step = _STEP
    for _ in range(_ZOOMS):
        costs = cost(*reaches.sizes(turns))
        best = turns[np.argsort(costs, kind="stable")[:_BEST]]
        turns = np.concatenate([best, (best[:, None] + np.linspace(-step, step, _ACROSS)).ravel()])
        step *= 2.5 / (_ACROSS - 1)
    return float(turns[int(cost(*reaches.sizes(turns)).argmin())])
