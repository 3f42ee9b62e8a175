"""One finished ring or link as a solid: its bar's section drawn round a circle or a stadium."""

from math import ceil, pi, sqrt
from typing import TYPE_CHECKING

import numpy as np

from bickern.geometry.solid.solid import Fineness, Solid
from bickern.geometry.solid.sweep import hollow, ringed, swept
from bickern.iron.section import OUTLINE_POINTS, Section, area, hole_of, outline, solid_of
from bickern.measure.units.words import Shape
from bickern.parts.ring.lengths import middle_of
from bickern.parts.ring.spec import Closing, RingResult

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

_TURN = {Fineness.PREVIEW: pi / 18, Fineness.FINE: pi / 48}
"""Most that the ring turns between two stations."""
_STRAY = {Fineness.PREVIEW: 2e-4, Fineness.FINE: 2e-5}
"""Most that a chord leaves the ring [m]."""
_SQUARED = (Shape.SQUARE, Shape.FLAT)
_KEPT = {Fineness.PREVIEW: 2, Fineness.FINE: 1}
"""Of the 48 points round a section each so-manieth is kept."""


def ring_body(ring: RingResult, fineness: Fineness = Fineness.PREVIEW) -> Solid:
    """One ring or link as asked: centre at the origin, axis z, the long way along x, its joint at -y.

    A ring welded or butted is whole; one left open has its ends side by side, as it is opened to be hung in. It holds
    the metal of its own middle line, whatever bar a rule of the shop cuts for it.
    """
    wire = ring.spec.wire
    turn, middle, factors = _round(ring, fineness)
    around = [_drawn(s, fineness) for s in (solid_of(wire), hole_of(wire)) if area(s) > 0.0]
    out = np.column_stack((np.cos(turn), np.sin(turn), np.zeros_like(turn)))
    radius = (ring.inside_across + wire.thick) / 2
    tubes = [_set(points, out, radius, middle, factors) for points in around]
    if ring.spec.closing is not Closing.OPEN:
        whole = [tube[:-1] for tube in tubes]
        return ringed(*whole) if len(whole) == 2 else swept(whole[0], closed=True)
    for tube in tubes:  # shifted in the planes of its sections, so that it holds as much as before
        tube[:, :, 2] += np.linspace(-wire.width / 2, wire.width / 2, len(tube))[:, None]
    return hollow(tubes[0], tubes[1:]) if len(tubes) == 2 else swept(tubes[0])


def _set(points: "Array", out: "Array", radius: float, middle: "Array", factors: "Array") -> "Array":
    """Sections (n, 2), thick way outward, set round the ring (k, n, 3) [m]."""
    drawn = points[None] * np.sqrt(factors)[:, None, None]
    places: Array = (radius + drawn[:, :, 1:]) * out[:, None]
    places[:, :, 0] += middle[:, None]
    places[:, :, 2] += drawn[:, :, 0]
    return places


def _drawn(section: Section, fineness: Fineness) -> "Array":
    """The outline (n, 2) [m], drawn out to the section's own area: chords cut a little off a curve."""
    whole = outline(section, OUTLINE_POINTS)
    step = OUTLINE_POINTS // 8 if section.shape in _SQUARED else _KEPT[fineness]
    points = whole[:: 1 if section.shape is Shape.OCTAGON else step]  # an octagon's corners are not among the 24
    x, y = points[:, 0], points[:, 1]
    there = float((x * np.roll(y, -1) - np.roll(x, -1) * y).sum()) / 2
    drawn: Array = points * sqrt(area(section) / there)
    return drawn


def _round(ring: RingResult, fineness: Fineness) -> "tuple[Array, Array, Array]":
    """Stations: angle from x [rad], x of the middle of the bend [m], and how much bigger (by area) to draw.

    A bend of angle d between two stations keeps the share sin(d)/d of its metal (exact). Where it runs into a straight
    the station between takes its share of both, by their lengths.
    """
    wire = ring.spec.wire
    radius = ring.inside_across / 2 + middle_of(wire)
    half = (ring.inside_long - ring.inside_across) / 2
    step = min(_TURN[fineness], 2 * sqrt(2 * _STRAY[fineness] / radius))
    count = 2 * ceil(pi / 2 / step)
    right = np.linspace(-pi / 2, pi / 2, count + 1)
    bend = pi / count
    if half <= 0.0:
        turn = np.concatenate((right, right[1:] + pi))
        return turn, np.zeros_like(turn), np.full_like(turn, bend / np.sin(bend))
    turn = np.concatenate(([-pi / 2], right, right + pi, [3 * pi / 2]))
    middle = np.concatenate(([0.0], np.full(count + 1, half), np.full(count + 1, -half), [0.0]))
    lengths = np.concatenate(([half], np.full(count, radius * bend), [2 * half], np.full(count, radius * bend), [half]))
    grown = np.where(np.arange(len(lengths)) % (count + 1) == 0, 1.0, bend / np.sin(bend))
    weights = np.concatenate(([0.0], lengths)) + np.concatenate((lengths, [0.0]))
    shares = np.concatenate(([0.0], lengths * grown)) + np.concatenate((lengths * grown, [0.0]))
    return turn, middle, shares / weights
