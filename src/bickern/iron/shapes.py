"""Shapes of section in a box of 1 x 1: what every size of them has in common.

Each shape is star-shaped about the middle of its box, so it is told by its reach at each polar angle. Stretching the
box to width x thick gives the section. Sides and arcs are exact; the corners are listed so that sums can stop at them.
"""

import math
from dataclasses import dataclass

from bickern.measure.units.words import Shape


@dataclass(frozen=True, slots=True)
class UnitShape:
    """A shape in the unit box: its area, second moments about its centroid, and the polar angles of its corners [rad].

    `about_across` times width x thick^3 is the second moment about the left-right axis, `about_up` times
    width^3 x thick that about the up axis.
    """

    area: float
    about_across: float
    about_up: float
    corners: tuple[float, ...]


def _regular(n: int) -> float:
    """Second moment of a regular n-gon, one unit across flats: n a^4 cot(pi/n) (3 cot^2(pi/n) + 1) / 192."""
    side, cot = math.tan(math.pi / n), 1 / math.tan(math.pi / n)
    return n * side**4 * cot * (3 * cot**2 + 1) / 192


_BOX_CORNERS = tuple(math.pi / 4 + k * math.pi / 2 for k in range(4))
_SQUARE = UnitShape(1.0, 1 / 12, 1 / 12, _BOX_CORNERS)
_ROUND = UnitShape(math.pi / 4, math.pi / 64, math.pi / 64, ())
_MEANS = 12
"""Steps of the arithmetic-geometric mean; each doubles the digits, so this serves ellipses thinner than any foil."""
_SMALL = (math.pi / 8 - 8 / (9 * math.pi)) / 2

UNIT_SHAPES: dict[Shape, UnitShape] = {
    Shape.SQUARE: _SQUARE,
    Shape.FLAT: _SQUARE,
    Shape.ROUND: _ROUND,
    Shape.OVAL: _ROUND,
    # the box of a hexagon is measured across flats both ways; its corners stand out of it left and right
    Shape.HEXAGON: UnitShape(math.sqrt(3) / 2, _regular(6), _regular(6), tuple(k * math.pi / 3 for k in range(6))),
    Shape.OCTAGON: UnitShape(
        2 * (math.sqrt(2) - 1), _regular(8), _regular(8), tuple(math.pi / 8 + k * math.pi / 4 for k in range(8))
    ),
    # half an ellipse of half-axes 1/2 and 1, flat face down; moments are those of a half disc about its centroid
    Shape.HALF_ROUND: UnitShape(math.pi / 4, _SMALL, math.pi / 64, _BOX_CORNERS[2:]),
    Shape.POINT: UnitShape(0.0, 0.0, 0.0, ()),
}
"""Areas and moments are exact mathematics of the plain shapes."""


def polar_reach(shape: Shape, angle: float) -> float:
    """How far the unit shape reaches from the middle of its box at polar `angle` [rad]."""
    if shape in (Shape.SQUARE, Shape.FLAT):
        return 0.5 / max(abs(math.cos(angle)), abs(math.sin(angle)))
    if shape is Shape.HEXAGON:
        return _flats(angle - math.pi / 2, 6)
    if shape is Shape.OCTAGON:
        return _flats(angle, 8)
    if shape is Shape.HALF_ROUND:
        return _half_round(angle)
    return 0.0 if shape is Shape.POINT else 0.5


def _flats(angle: float, n: int) -> float:
    """A regular n-gon with a flat standing square to angle 0, half a unit away."""
    step = 2 * math.pi / n
    return 0.5 / math.cos(math.remainder(angle, step))


def _half_round(angle: float) -> float:
    """x = 2 r cos, y + 1/2 = r sin on the ellipse (2x)^2 + (y + 1/2)^2 = 1, cut off by the flat at y = -1/2."""
    c, s = math.cos(angle), math.sin(angle)
    square = 4 * c * c + s * s
    reach = (-s / 2 + math.sqrt(s * s / 4 + 0.75 * square)) / square
    return min(reach, 0.5 / -s) if s < 0 else reach


def ellipse_girth(width: float, thick: float) -> float:
    """Girth of an ellipse of these two axes by the arithmetic-geometric mean, exact to the last digits."""
    a, b = max(width, thick) / 2, min(width, thick) / 2
    if b == 0:
        return 4 * a
    x, y, gap, power = a, b, (a * a - b * b) / 2, 1.0
    for _ in range(_MEANS):
        gap += power * ((x - y) / 2) ** 2
        x, y, power = (x + y) / 2, math.sqrt(x * y), power * 2
    return 2 * math.pi * (a * a - gap) / x
