"""From one section to another in straight lines: tapers, points, chisel edges, square to round, tube to closed end.

How points are matched: each section is stretched from its box (width x thick) to a unit square, points of the two
outlines at the same polar angle there belong together, and straight lines join them. So flat to flat is exactly
width(u) x thick(u), a flat to a chisel edge is exactly a wedge, square to round of one size is plain polar matching.

The law that follows is exact, with u from 0 (section a) to 1 (section b):

    A(u) = (1 - u)^2 Aa + u^2 Ab + 2 u (1 - u) M      with the mixed area M = (X wa tb + Y ta wb) / 2

X and Y belong to the pair of shapes alone (contour sums of one unit outline against the other). For two of one shape
both are its area in the unit box. A tube is what its outside encloses less its hole, each blended by itself.
Fullness is blended as if each outline were drawn in by sqrt(fullness): then the law stays a quadratic,
M is multiplied by sqrt(fa fb), and equal fullness at both ends is that fullness everywhere.
"""

import math
from functools import lru_cache
from itertools import pairwise
from typing import TYPE_CHECKING

from bickern.iron.section import POINT, Section, area, hole_of, outline, solid_of
from bickern.iron.shapes import UNIT_SHAPES, polar_reach
from bickern.measure.units.words import Shape

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

_SAME = {Shape.FLAT: Shape.SQUARE, Shape.OVAL: Shape.ROUND}
_GAUSS_POINTS = 40
_HALVINGS = 60


def mixed_area(a: Section, b: Section) -> float:
    """The mixed area M [m2] of two sections: what the middle of a blend takes from both at once."""
    if a.wall or b.wall:
        return mixed_area(solid_of(a), solid_of(b)) - mixed_area(hole_of(a), hole_of(b))
    x, y = _pair(_SAME.get(a.shape, a.shape), _SAME.get(b.shape, b.shape))
    return math.sqrt(a.fullness * b.fullness) * (x * a.width * b.thick + y * a.thick * b.width) / 2


def blend_area(a: Section, b: Section, u: float) -> float:
    """Area [m2] at the share `u` of the way from `a` to `b`."""
    return (1 - u) ** 2 * area(a) + u**2 * area(b) + 2 * u * (1 - u) * mixed_area(a, b)


def blend_volume(a: Section, b: Section, length: float) -> float:
    """Volume [m3] of a blend of `length` [m]: length (Aa + Ab + M) / 3, the prismoid."""
    return length * (area(a) + area(b) + mixed_area(a, b)) / 3


def blend_centroid(a: Section, b: Section, length: float) -> float:
    """How far from the start [m] a blend balances; the middle where there is no metal at all."""
    volume = blend_volume(a, b, length)
    if volume == 0:
        return length / 2
    return length**2 * (area(a) / 12 + area(b) / 4 + mixed_area(a, b) / 6) / volume


def volume_to(a: Section, b: Section, length: float, x: float) -> float:
    """Volume [m3] of a blend from its start to the place `x` [m], 0 <= x <= length."""
    if length == 0:
        return 0.0
    first, last, mixed, u = area(a), area(b), mixed_area(a, b), x / length
    return length * (first * u + (mixed - first) * u**2 + (first + last - 2 * mixed) * u**3 / 3)


def place_where(a: Section, b: Section, length: float, volume: float) -> float:
    """The place [m] from the start up to which a blend holds `volume` [m3]; clipped to its two ends."""
    if volume <= 0:
        return 0.0
    if volume >= blend_volume(a, b, length):
        return length
    low, high = 0.0, length
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        low, high = (middle, high) if volume_to(a, b, length, middle) < volume else (low, middle)
    return (low + high) / 2


def blend_section(a: Section, b: Section, u: float, n: int = 96) -> "NDArray[np.float64]":
    """Outline (m, 2) [m] of the outside at the share `u`, about the middle of the boxes (see `section.outline`)."""
    return (1 - u) * outline(a, n) + u * outline(b, n)


def blend_hole(a: Section, b: Section, u: float, n: int = 96) -> "NDArray[np.float64] | None":
    """Outline (m, 2) [m] of the hole at the share `u`, closing toward a solid end; None where neither end is a tube."""
    hole_a, hole_b = hole_of(a), hole_of(b)
    if hole_a == POINT and hole_b == POINT:
        return None
    return (1 - u) * outline(hole_a, n) + u * outline(hole_b, n)


def blend_box(a: Section, b: Section, u: float) -> tuple[float, float]:
    """Width and thickness [m] of the blend's box at the share `u`."""
    return (1 - u) * a.width + u * b.width, (1 - u) * a.thick + u * b.thick


def section_at(a: Section, b: Section, u: float) -> Section:
    """The section at the share `u` as a section again: exact where both ends are of one shape.

    Between unlike shapes it is the shape that fills its box better, in the box of the blend, with the fullness that
    gives the true area. A blend of a tube and a solid bar is told by its outside, its hole as missing fullness.
    """
    if u in (0, 1):
        return b if u else a
    fuller = max((a, b), key=lambda s: (UNIT_SHAPES[solid_of(s).shape].area, s.wall > 0))
    width, thick = blend_box(a, b, u)
    wall = (1 - u) * a.wall + u * b.wall if a.wall and b.wall else 0.0
    shape = fuller.shape if wall else _shape_for(solid_of(fuller).shape, width, thick)
    sharp = area(Section(shape, width, thick, wall))
    return Section(shape, width, thick, wall, blend_area(a, b, u) / sharp if sharp else 1.0)


def _shape_for(shape: Shape, width: float, thick: float) -> Shape:
    """A square that is no longer as thick as wide is a flat, a round an oval."""
    plain = _SAME.get(shape, shape)
    if plain not in (Shape.SQUARE, Shape.ROUND):
        return shape
    if math.isclose(width, thick, rel_tol=1e-12):
        return plain
    return Shape.FLAT if plain is Shape.SQUARE else Shape.OVAL


@lru_cache(maxsize=128)
def _pair(a: Shape, b: Shape) -> tuple[float, float]:
    """X and Y of two unit shapes: the contour sums of x_a dy_b and of -y_a dx_b round the whole turn."""
    if Shape.POINT in (a, b):
        return 0.0, 0.0
    if a is b:
        return UNIT_SHAPES[a].area, UNIT_SHAPES[a].area
    if {a, b} == {Shape.ROUND, Shape.SQUARE}:
        return math.log(1 + math.sqrt(2)), math.log(1 + math.sqrt(2))
    return _summed(a, b)


def _summed(a: Shape, b: Shape) -> tuple[float, float]:
    """Gauss sums between corners, where both outlines are smooth: right to about 14 digits."""
    corners = {c % (2 * math.pi) for c in UNIT_SHAPES[a].corners + UNIT_SHAPES[b].corners}
    stops = sorted(corners | {k * math.pi / 2 for k in range(5)})
    pieces = [_piece(a, b, low, high) for low, high in pairwise(stops) if high - low > 1e-12]
    return math.fsum(p[0] for p in pieces), math.fsum(p[1] for p in pieces)


def _piece(a: Shape, b: Shape, low: float, high: float) -> tuple[float, float]:
    """The two sums over one smooth piece of the turn, polar angles `low` to `high` [rad].

    The derivative of b's outline is not written out for each shape: the outline is interpolated at the Gauss points,
    and the derivative of that polynomial is as good as the sum itself.
    """
    import numpy as np

    nodes, weights, slope = _gauss()
    half = (high - low) / 2
    angles = low + half * (nodes + 1)
    reach_a = np.array([polar_reach(a, float(t)) for t in angles])
    reach_b = np.array([polar_reach(b, float(t)) for t in angles])
    c, s = np.cos(angles), np.sin(angles)
    x = float(weights @ (reach_a * c * (slope @ (reach_b * s))))
    y = -float(weights @ (reach_a * s * (slope @ (reach_b * c))))
    return x, y


@lru_cache(maxsize=1)
def _gauss() -> "tuple[NDArray[np.float64], NDArray[np.float64], NDArray[np.float64]]":
    """Gauss-Legendre points and weights on -1..1, and the matrix that takes values there to their derivatives there."""
    import numpy as np

    nodes, weights = np.polynomial.legendre.leggauss(_GAUSS_POINTS)
    gaps = nodes[:, None] - nodes[None, :] + np.eye(_GAUSS_POINTS)
    scale = gaps.prod(axis=1)
    slope = (scale[:, None] / scale[None, :]) / gaps
    np.fill_diagonal(slope, 0.0)
    np.fill_diagonal(slope, -slope.sum(axis=1))
    return nodes, weights, slope
