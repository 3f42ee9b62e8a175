"""A ring or link as closed, with the sizes it must come to."""

import math

from bickern.measure.units.say import say_both
from bickern.measure.units.words import Style
from bickern.paper.marks import (
    Arc,
    Dimension,
    Drawing,
    Layer,
    Line,
    Mark,
    circle,
    drawing,
    merge,
    scaled,
)
from bickern.parts.ring.spec import Closing, RingResult

SIZE = 0.0026
"""Capitals of a dimension, on paper [m]."""


def ring_outline(result: RingResult) -> Drawing:
    """The closed ring or link at full size: inside and outside edge, and where its ends meet [m]."""
    inner, outer = result.inside_across / 2, result.outside_across / 2
    straight = max(0.0, result.inside_long - result.inside_across)
    if straight < 1e-6:
        marks: list[Mark] = [circle((0.0, 0.0), inner), circle((0.0, 0.0), outer)]
    else:
        marks = [mark for radius in (inner, outer) for mark in _stadium(radius, straight)]
    return drawing([*marks, *_joint(result, inner, outer)])


def _stadium(radius: float, straight: float) -> list[Mark]:
    """Two half circles and two straights, lying along x."""
    half = straight / 2
    return [
        Line((-half, -radius), (half, -radius)),
        Arc((half, 0.0), radius, -math.pi / 2, math.pi),
        Line((half, radius), (-half, radius)),
        Arc((-half, 0.0), radius, math.pi / 2, math.pi),
    ]


def _joint(result: RingResult, inner: float, outer: float) -> list[Mark]:
    """Where the ends meet, at the upper side: one line for a butt or a weld, a gap of one thickness left open."""
    if result.spec.closing is Closing.OPEN:
        gap = (outer - inner) / 2
        return [Line((side * gap, inner), (side * gap, outer)) for side in (-1, 1)]
    if result.spec.closing is Closing.WELDED:
        lean = (outer - inner) / 2
        return [Line((-lean, inner), (lean, outer), Layer.DIMENSION)]
    return [Line((0.0, inner), (0.0, outer), Layer.DIMENSION)]


def ring_view(result: RingResult, scale: float, style: Style) -> Drawing:
    """The ring at `scale` with its inside size below and, for a link, its inside length above."""
    picture = scaled(ring_outline(result), scale)
    half, low = result.inside_across / 2 * scale, result.outside_across / 2 * scale
    if result.inside_long - result.inside_across < 1e-6:
        below = Dimension((-half, -low), (half, -low), -0.006, f"inside {say_both(result.inside_across, style)}", SIZE)
        return merge(picture, drawing([below]))
    long = result.inside_long / 2 * scale
    says = (f"inside {say_both(result.inside_long, style)}", f"inside {say_both(result.inside_across, style)}")
    sides = Dimension((long, -half), (long, half), -(low - half) - 0.007, says[1], SIZE)
    return merge(picture, drawing([Dimension((-long, -low), (long, -low), -0.006, says[0], SIZE), sides]))
