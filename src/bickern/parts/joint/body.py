"""What joins pieces as solids: rivets, pins, collars, wraps, each in its own coordinates for the caller to place."""

from math import atan2, cos, pi, sin, sqrt
from typing import TYPE_CHECKING

import numpy as np

from bickern.geometry.solid.solid import Fineness, Solid
from bickern.geometry.solid.sweep import evened, hollow, revolved, swept
from bickern.iron.section import OUTLINE_POINTS, Section, area, outline
from bickern.measure.units.words import Shape
from bickern.parts.joint.heads import HEADS, Head

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

_AROUND = {Fineness.PREVIEW: 24, Fineness.FINE: 64}
"""Facets round a rivet or a pin."""
_UP_A_HEAD = {Fineness.PREVIEW: 8, Fineness.FINE: 24}
"""Slices of a round head."""
_A_TURN = {Fineness.PREVIEW: 36, Fineness.FINE: 96}
"""Stations in a turn of a wrap."""
_ROUNDED = {Fineness.PREVIEW: 6, Fineness.FINE: 24}
"""Stations round a corner of a collar."""
_ROUNDS = (Head.SNAP, Head.ROUND)


def rivet_body(
    diameter: float, grip: float, head: Head, far_head: Head, fineness: Fineness = Fineness.PREVIEW
) -> Solid:
    """A rivet set in a hole that it fills: axis z, the metal it grips from z = 0 to `grip` [m].

    `head` lies below 0, `far_head` beyond the grip; a countersunk head lies in the metal, flush with its face.
    """
    low = [(r, -z) for r, z in _head(head, diameter, fineness)]
    high = [(r, grip + z) for r, z in reversed(_head(far_head, diameter, fineness))]
    return revolved(np.array([*low, *high]), _AROUND[fineness])


def _head(head: Head, diameter: float, fineness: Fineness) -> list[tuple[float, float]]:
    """(radius, height over the face) [m] from the middle of the top down to the shank."""
    shape = HEADS[head]
    wide, high, top, shank = shape.across * diameter / 2, shape.high * diameter, shape.top * diameter / 2, diameter / 2
    if head in _ROUNDS:
        return [*_cap(wide, high, _UP_A_HEAD[fineness]), (shank, 0.0)]
    if head is Head.COUNTERSUNK:
        return [(0.0, 0.0), (wide, 0.0), (shank, -high)]
    flat = [(top, high)] if top > 0.0 else []
    return [(0.0, high), *flat, (wide, 0.0), (shank, 0.0)]


def _cap(wide: float, high: float, count: int) -> list[tuple[float, float]]:
    """A slice of a ball from its top to its rim, chords in place of its arc.

    On the mean a chord lies two thirds of its sag inside the arc, R (1 - cos(d/2)) 2/3 for an angle d between points:
    they are set that much further out (to second order in d). The top and the rim stay.
    """
    ball = (wide**2 + high**2) / (2 * high)
    whole = atan2(wide, ball - high)
    far = ball * (1 + (1 - cos(whole / count / 2)) * 2 / 3)
    turns = [whole * i / count for i in range(count + 1)]
    inner = [(far * sin(t), far * cos(t) - ball + high) for t in turns[1:-1]]
    return [(0.0, high), *inner, (wide, 0.0)]


def pin_body(diameter: float, grip: float, over: float, fineness: Fineness = Fineness.PREVIEW) -> Solid:
    """A plain pin: axis z, the metal it goes through from z = 0 to `grip`, `over` [m] standing out at each end."""
    radius = diameter / 2
    rows = ((0.0, -over), (radius, -over), (radius, grip + over), (0.0, grip + over))
    return revolved(np.array(rows), _AROUND[fineness])


def collar_body(bar: Section, across: float, high: float, fineness: Fineness = Fineness.PREVIEW) -> Solid:
    """A collar closed round a bundle `across` (x) by `high` (y) [m]: axis z, its middle at the origin.

    A band `bar.width` wide and of one thickness, sharp inside and round outside at the corners; its lap or butt is not
    drawn. Its middle line is the bundle's girth and pi thicknesses (exact).
    """
    steps = _ROUNDED[fineness]
    inner, outer = [], []
    swelled = bar.thick * evened(4 * steps)
    for k, (x, y) in enumerate(((1, 1), (-1, 1), (-1, -1), (1, -1))):
        corner = np.array((x * across / 2, y * high / 2))
        for i in range(steps + 1):
            turn = (k + i / steps) * pi / 2
            reach = bar.thick if i in (0, steps) else swelled
            inner.append(corner)
            outer.append(corner + reach * np.array((cos(turn), sin(turn))))
    ends = [np.column_stack((np.array(loop), np.full(len(loop), z))) for loop in (outer, inner) for z in (-1.0, 1.0)]
    size = np.array((1.0, 1.0, bar.width / 2))
    return hollow(np.array(ends[:2]) * size, [np.array(ends[2:]) * size])


def wrap_body(bar: Section, radius: float, turns: float, fineness: Fineness = Fineness.PREVIEW) -> Solid:
    """Bar wound close round something round of `radius` [m]: axis z, its middle at the origin, `turns` side by side.

    Sections lie in planes through the axis, `bar.width` along it, so that it holds girth + pi thicknesses a turn.
    """
    count = max(3, round(turns * _A_TURN[fineness]))
    step = 2 * pi * turns / count
    whole = outline(bar, OUTLINE_POINTS)[:: 1 if bar.shape is Shape.OCTAGON else 2]
    x, y = whole[:, 0], whole[:, 1]
    there = float((x * np.roll(y, -1) - np.roll(x, -1) * y).sum()) / 2
    points = whole * sqrt(area(bar) / there * step / sin(step))
    turn = np.arange(count + 1) * step
    out = radius + bar.thick / 2 + points[None, :, 1]
    along = (turn[:, None] / (2 * pi) - turns / 2) * bar.width + points[None, :, 0]
    return swept(np.stack((out * np.cos(turn)[:, None], out * np.sin(turn)[:, None], along), axis=-1))
