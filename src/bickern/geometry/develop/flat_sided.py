"""Pyramids and n-sided frusta, folded pans, and free outlines: straight lines all, exact."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from bickern.geometry.develop.pattern import Bend, Development, Edge, Facing
from bickern.geometry.develop.rolling import Facet, FoldRoll, Placement
from bickern.geometry.develop.strip import Rung, laid_flat
from bickern.geometry.polygon import Line, Loop, Point, area, flipped
from bickern.geometry.space import Vec
from bickern.measure.finding import Finding, stop
from bickern.measure.units.words import Read

SIDES = ("front", "right", "back", "left")
"""A pan's sides in order round, seen from above: front is -y, right +x, back +y, left -x."""


def pyramid(
    sides: int, base: float, top: float, height: float, offset: tuple[float, float] = (0.0, 0.0)
) -> Read[Development]:
    """A regular pyramid or frustum with `sides`, told across flats at `base` and `top` (0: a point), and `height` [m].

    `offset` (x, y) shifts the top. The seam runs up the middle of the +x side.
    """
    if sides < 3:
        return Read(None, (stop("too-few-sides", "a pyramid has three sides at least"),))
    low, high = (_regular(sides, across / 2) for across in (base, top))
    return _between_polygons(low, high, (base, top, height), offset)


def rectangular_frustum(
    base: tuple[float, float], top: tuple[float, float], height: float, offset: tuple[float, float] = (0.0, 0.0)
) -> Read[Development]:
    """A four-sided frustum from a rectangle (along x, along y) to another, or to a point (0, 0) [m]."""
    low, high = (_corners_of(*sizes) for sizes in (base, top))
    if any(min(sizes) <= 0 < max(sizes) for sizes in (base, top)):
        return Read(None, (stop("no-width", "a rectangle needs both its sizes (or neither, for a point)"),))
    return _between_polygons(low, high, (max(base), max(top), height), offset)


def _between_polygons(
    low: Sequence[Point], high: Sequence[Point], sizes: tuple[float, float, float], offset: tuple[float, float]
) -> Read[Development]:
    faults = _no_frustum(*sizes)
    if faults:
        return Read(None, faults)
    height = sizes[2]
    below: list[Vec] = [(x, y, 0.0) for x, y in low]
    above: list[Vec] = [(x + offset[0], y + offset[1], height) for x, y in high]
    rungs = [Rung(a, b) for a, b in zip(below, above, strict=True)]
    return Read(laid_flat([*rungs, rungs[0]]))


def _no_frustum(base: float, top: float, height: float) -> tuple[Finding, ...]:
    if not all(math.isfinite(v) for v in (base, top, height)):
        return (stop("not-a-size", "a size of this surface is not a number"),)
    found = []
    if height <= 0:
        found.append(stop("no-height", "the height is nothing, so there are no sides to fold up", "give a height"))
    if min(base, top) < 0 or max(base, top) <= 0:
        found.append(stop("no-width", "the ends must be wider than nothing", "give the size across each end"))
    return tuple(found)


def _regular(sides: int, flat: float) -> list[Point]:
    """Corners counter-clockwise at distance `flat` to the middle of a side, from the middle of the +x side on."""
    corner = flat / math.cos(math.pi / sides)
    turns = [(2 * i + 1) * math.pi / sides for i in range(sides)]
    return [(flat, 0.0), *((corner * math.cos(t), corner * math.sin(t)) for t in turns)]


def _corners_of(x: float, y: float) -> list[Point]:
    a, b = x / 2, y / 2
    return [(a, 0.0), (a, b), (-a, b), (-a, -b), (a, -b)]


@dataclass(frozen=True, slots=True)
class PanSizes:
    """A pan's flat sizes [m]: `x`, `y` of the bottom between bend lines, and the flat height of each wall by side."""

    x: float
    y: float
    walls: tuple[tuple[str, float], ...]


def pan_sizes(x: float, y: float, high: float, walls: Sequence[str], deduction: float) -> PanSizes:
    """Flat sizes from outside sizes `x`, `y`, `high` [m]: each bend shortens its two outside legs by `deduction`.

    The bend line lies in the middle of the bend, so each leg gives up one half.
    """
    half = deduction / 2
    present = tuple(side for side in SIDES if side in walls)
    flat_x = x - half * (("left" in present) + ("right" in present))
    flat_y = y - half * (("front" in present) + ("back" in present))
    return PanSizes(flat_x, flat_y, tuple((side, high - half) for side in present))


def pan(
    x: float,
    y: float,
    high: float,
    walls: Sequence[str] = SIDES,
    deduction: float = 0.0,
    allowance: float = 0.0,
) -> Read[Development]:
    """A folded pan, outside sizes `x`, `y`, `high` [m], walls at right angles on the named sides, corners notched.

    `deduction` [m] for each bend, and `allowance` [m], the flat metal in the bend (both 0: a sharp fold). The pattern
    shows the inside, bends toward you. Corners are notched to where bend lines cross; they are not seams.
    """
    faults = _no_pan((x, y, high), walls, deduction, allowance)
    if faults:
        return Read(None, faults)
    flat = pan_sizes(x, y, high, walls, deduction)
    facets: list[Facet] = [Facet(_box(-flat.x / 2, -flat.y / 2, flat.x / 2, flat.y / 2))]
    edges: list[Edge] = []
    bends: list[Bend] = []
    up = dict(flat.walls)
    for side, line in zip(SIDES, _base_sides(flat.x, flat.y), strict=True):
        wall = up.get(side, 0.0)
        out = _outward(line)
        edges.append(Edge(side, _wall_edge(line, out, wall)))
        if wall:
            bends.append(Bend(line, math.pi / 2, allowance))
            facets.append(_wall(line, out, wall, allowance))
    return Read(Development(tuple(edges), FoldRoll(tuple(facets), Placement()), tuple(bends), facing=Facing.INSIDE))


def _no_pan(
    sizes: tuple[float, float, float], walls: Sequence[str], deduction: float, allowance: float
) -> tuple[Finding, ...]:
    unknown = [side for side in walls if side not in SIDES]
    if unknown:
        says = f"a pan has no side called {unknown[0]!r}"
        return (stop("no-such-side", says, "front, back, left or right"),)
    if not min(sizes) > 0 or not math.isfinite(sum(sizes)):
        return (stop("no-width", "a pan needs a length, a width and a wall height greater than nothing"),)
    if sizes[2] <= (deduction + allowance) / 2 or min(sizes[:2]) <= deduction + allowance:
        says = "the bends take more metal than these walls or this bottom have"
        return (stop("bend-too-wide", says, "a smaller bend radius, or a higher wall"),)
    return ()


def _base_sides(x: float, y: float) -> tuple[Line, ...]:
    a, b = x / 2, y / 2
    corners = ((-a, -b), (a, -b), (a, b), (-a, b))
    return tuple(Line(p, q) for p, q in zip(corners, corners[1:] + corners[:1], strict=True))


def _outward(line: Line) -> Point:
    (x0, y0), (x1, y1) = line.start, line.end
    long = math.dist(line.start, line.end)
    return ((y1 - y0) / long, -(x1 - x0) / long)


def _shifted(p: Point, out: Point, by: float) -> Point:
    return (p[0] + out[0] * by, p[1] + out[1] * by)


def _wall_edge(line: Line, out: Point, wall: float) -> tuple[Line, ...]:
    if not wall:
        return (line,)
    a, b = _shifted(line.start, out, wall), _shifted(line.end, out, wall)
    return (Line(line.start, a), Line(a, b), Line(b, line.end))


def _wall(line: Line, out: Point, wall: float, allowance: float) -> Facet:
    inner = -allowance / 2  # the bend starts half its metal inside the bend line
    hinge = Line(_shifted(line.start, out, inner), _shifted(line.end, out, inner))
    a, b = _shifted(line.start, out, wall), _shifted(line.end, out, wall)
    return Facet((a, b, hinge.end, hinge.start), 0, hinge, math.pi / 2, allowance)


def _box(x0: float, y0: float, x1: float, y1: float) -> tuple[Point, ...]:
    return ((x0, y0), (x1, y0), (x1, y1), (x0, y1))


def free_outline(outer: Loop, holes: Sequence[Loop] = ()) -> Read[Development]:
    """A flat piece of any outline, made counter-clockwise; its holes clockwise."""
    if abs(area(outer)) < 1e-12:
        return Read(None, (stop("no-area", "this outline encloses nothing", "close the outline"),))
    around = outer if area(outer) > 0 else flipped(outer)
    inner = tuple(hole if area(hole) < 0 else flipped(hole) for hole in holes)
    flat = Facet(((-1e9, -1e9), (1e9, -1e9), (1e9, 1e9), (-1e9, 1e9)))
    return Read(Development((Edge("outline", around.segs),), FoldRoll((flat,)), holes=inner, facing=Facing.INSIDE))
