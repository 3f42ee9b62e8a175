"""The section of a bar: its shape, sizes and what follows from them."""

import math
from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from bickern.iron.shapes import UNIT_SHAPES, ellipse_girth, polar_reach
from bickern.measure.finding import Finding, stop
from bickern.measure.units.words import Read, SectionWords, Shape

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray


@dataclass(frozen=True, slots=True)
class Section:
    """A bar's section. `width` is across (left to right, reference face up), `thick` is up and down [m].

    square, round, hexagon, octagon: both equal (hexagon and octagon across flats); half-round: width x width/2, flat
    face down; tube: outside size, `wall` [m]; point: both 0. A chisel edge is a flat of thickness 0.
    `fullness` (0..1] is the share of the sharp-cornered area that is really there: forged corners are never full.
    """

    shape: Shape
    width: float
    thick: float
    wall: float = 0.0
    fullness: float = 1.0


POINT = Section(Shape.POINT, 0.0, 0.0)
"""The end of a taper that is carried to nothing."""

OUTLINE_POINTS = 48
"""An outline has a multiple of this many points: then every corner of every shape is one of them."""


def section_from(words: SectionWords) -> Read[Section]:
    """A section from what was read; a size left open, or a tube whose wall fills it, is a finding."""
    sizes = [s for s in words.sizes if s is not None]
    if len(sizes) < len(words.sizes):
        says = f"A size of this {words.shape} is left open, and here it must be known."
        return Read(None, (stop("open-size", says, "Write the size in place of `?`."),))
    if words.shape is Shape.POINT:
        return Read(POINT)
    width, second = sizes[0], sizes[-1]
    if words.shape in (Shape.TUBE, Shape.SQUARE_TUBE):
        return _tube(words.shape, width, second)
    thick = width / 2 if words.shape is Shape.HALF_ROUND else second
    return Read(Section(words.shape, width, thick))


def _tube(shape: Shape, outside: float, wall: float) -> Read[Section]:
    if wall >= outside / 2:
        return Read(None, (_no_hole(shape),))
    return Read(Section(shape, outside, outside, wall))


def _no_hole(shape: Shape) -> Finding:
    return stop("no-hole-in-tube", f"Two walls of this {shape} fill it: no hole is left.", "Look at the wall's size.")


def words_of(section: Section) -> SectionWords:
    """The section as it would be ordered: shape and sizes [m]."""
    if section.shape is Shape.POINT:
        return SectionWords(Shape.POINT, ())
    if section.wall:
        return SectionWords(section.shape, (section.width, section.wall))
    if section.shape in (Shape.FLAT, Shape.OVAL):
        return SectionWords(section.shape, (section.width, section.thick))
    return SectionWords(section.shape, (section.width,))


def with_sizes(section: Section, width: float, thick: float | None = None) -> Section:
    """The same kind of section at another size [m]; `thick` is needed for flats and ovals only.

    A square, round, hexagon or octagon keeps its shape (thick = width), a half-round its half; a square given two
    unlike sizes is a flat, a round given two is an oval.
    """
    shape = section.shape
    if shape is Shape.HALF_ROUND:
        return replace(section, width=width, thick=width / 2)
    if thick is None:
        return replace(section, width=width, thick=width)
    if thick != width:
        shape = {Shape.SQUARE: Shape.FLAT, Shape.ROUND: Shape.OVAL}.get(shape, shape)
    return replace(section, shape=shape, width=width, thick=thick)


def hole_of(section: Section) -> Section:
    """The section of the hole in a tube, as if it were solid; of a solid bar, a point."""
    if not section.wall:
        return POINT
    shape = Shape.ROUND if section.shape is Shape.TUBE else Shape.SQUARE
    inside = section.width - 2 * section.wall
    return Section(shape, inside, section.thick - 2 * section.wall, fullness=section.fullness)


def solid_of(section: Section) -> Section:
    """The section with its hole filled: what the outside of a tube encloses."""
    if not section.wall:
        return section
    shape = Shape.ROUND if section.shape is Shape.TUBE else Shape.SQUARE
    return replace(section, shape=shape, wall=0.0)


def area(section: Section) -> float:
    """Area [m2] of metal, corners as full as `fullness` says."""
    if section.wall:
        return area(solid_of(section)) - area(hole_of(section))
    return section.fullness * UNIT_SHAPES[section.shape].area * section.width * section.thick


def perimeter(section: Section) -> float:
    """Girth [m] of the outside, corners taken as sharp: what cools and scales, and what a collar goes round."""
    w, t = section.width, section.thick
    return _GIRTHS[solid_of(section).shape](w, t)


def _hexagon_girth(w: float, t: float) -> float:
    """Corners left and right: four sloping sides and two flats, at any proportion of the box."""
    reach = w / math.sqrt(3)
    return 4 * math.hypot(reach / 2, t / 2) + 2 * reach


def _octagon_girth(w: float, t: float) -> float:
    side = math.sqrt(2) - 1
    corner = (1 - side) / 2
    return 2 * side * (w + t) + 4 * corner * math.hypot(w, t)


_GIRTHS: dict[Shape, "Callable[[float, float], float]"] = {
    Shape.SQUARE: lambda w, t: 2 * (w + t),
    Shape.FLAT: lambda w, t: 2 * (w + t),
    Shape.ROUND: ellipse_girth,
    Shape.OVAL: ellipse_girth,
    Shape.HALF_ROUND: lambda w, t: w + ellipse_girth(w, 2 * t) / 2,
    Shape.HEXAGON: _hexagon_girth,
    Shape.OCTAGON: _octagon_girth,
    Shape.POINT: lambda w, t: 0.0,
}


def hydraulic(section: Section) -> float:
    """Area over girth [m]: the thickness of metal behind each bit of skin; 0 for a point."""
    girth = perimeter(section)
    return area(section) / girth if girth else 0.0


def inertia(section: Section) -> tuple[float, float]:
    """Second moments of area [m4] about the left-right and the up axis through the centroid, corners taken as full."""
    if section.wall:
        outer, hole = inertia(solid_of(section)), inertia(hole_of(section))
        return outer[0] - hole[0], outer[1] - hole[1]
    shape, w, t = UNIT_SHAPES[section.shape], section.width, section.thick
    return shape.about_across * w * t**3, shape.about_up * w**3 * t


def middle_height(section: Section) -> float:
    """Height [m] of the middle of the metal over its lower face: half the thickness but for a half-round.

    A half-round lies on its flat; the centroid of half a circle is 4/(3 pi) of its height up (exact).
    """
    return section.thick * (4 / (3 * math.pi) if section.shape is Shape.HALF_ROUND else 0.5)


def radius_of_circle_round(section: Section) -> float:
    """Radius [m] of the least circle that the section goes into: half the diagonal of a flat."""
    w, t = section.width, section.thick
    if section.shape in (Shape.SQUARE, Shape.FLAT, Shape.SQUARE_TUBE):
        return math.hypot(w, t) / 2
    if section.shape is Shape.HEXAGON:
        return max(w / math.sqrt(3), math.hypot(w / math.sqrt(12), t / 2))
    if section.shape is Shape.OCTAGON:
        side = math.sqrt(2) - 1
        return max(math.hypot(w, t * side), math.hypot(w * side, t)) / 2
    return max(w, t) / 2


def largest_round_inside(section: Section) -> float:
    """Diameter [m] of the largest round that could be forged or filed out of the section without upsetting."""
    if section.shape is Shape.HALF_ROUND:
        return min(section.width / 2, section.thick)
    return min(section.width, section.thick)


def largest_square_inside(section: Section) -> float:
    """Side [m] of the largest square inside a round, square, flat, hexagon or octagon (others: inside their round)."""
    least = min(section.width, section.thick)
    share = {
        Shape.SQUARE: 1.0,
        Shape.FLAT: 1.0,
        Shape.SQUARE_TUBE: 1.0,
        Shape.HEXAGON: math.sqrt(3) - 1,
        Shape.OCTAGON: math.sqrt(2 - math.sqrt(2)),
    }
    if section.shape in share:
        return least * share[section.shape]
    return largest_round_inside(section) / math.sqrt(2)


def outline(section: Section, n: int = 2 * OUTLINE_POINTS) -> "NDArray[np.float64]":
    """Points (m, 2) [m] round the outside, counter-clockwise from the right, about the middle of the section's box.

    `m` is `n` rounded up to a multiple of 48, so that every corner is a point. Points of two sections with the same
    number belong together in a blend. Fullness draws the outline in evenly. A tube's hole is the outline of `hole_of`.
    """
    import numpy as np

    angles = outline_angles(n)
    shape = solid_of(section).shape
    reach = np.array([polar_reach(shape, float(a)) for a in angles], dtype=np.float64)
    scale = math.sqrt(section.fullness)
    x, y = section.width * reach * np.cos(angles), section.thick * reach * np.sin(angles)
    points: NDArray[np.float64] = np.column_stack((x, y)).astype(np.float64) * scale
    return points


def outline_angles(n: int) -> "NDArray[np.float64]":
    """Evenly spaced polar angles [rad] of the unit box that hit the corners of every shape."""
    import numpy as np

    whole = max(1, -(-n // OUTLINE_POINTS)) * OUTLINE_POINTS
    angles: NDArray[np.float64] = np.arange(whole, dtype=np.float64) * (2 * math.pi / whole)
    return angles
