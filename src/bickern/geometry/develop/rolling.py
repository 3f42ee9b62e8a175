"""How a point of a flat pattern goes back into space: bending without stretching (the dish alone stretches).

Every roll takes the distances and angles that are really drawn on the flat; the surface gives only how it is bent.
Flat patterns look at you with one face; `ez` of a placement points to you.
"""

import math
from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass, replace

from bickern.geometry.polygon import Line, Point, point_moved
from bickern.geometry.space import Vec, cross, dot, minus, mixed, norm, plus, times


@dataclass(frozen=True, slots=True)
class ConeRoll:
    """Round a right cone about z: flat polar coordinates about `apex`; flat direction `middle` goes to `space` [rad].

    `half_angle` [rad] between axis and generator; `apex_height` [m] on z; `hand` +1: apex above, -1: apex below.
    """

    apex: Point
    half_angle: float
    apex_height: float
    hand: float
    middle: float
    space: float


@dataclass(frozen=True, slots=True)
class CylinderRoll:
    """Round a cylinder of `radius` [m] about z: flat y is height; flat x = `start` goes to direction `space` [rad]."""

    radius: float
    start: float = 0.0
    space: float = 0.0


@dataclass(frozen=True, slots=True)
class FanRoll:
    """Round any cone: flat directions about `apex`, as `angles` [rad] from the `middle` one, and the unit rays there.

    `angles` ascend from the first to the last seam edge; `hand` +1: counter-clockwise in the flat, -1: clockwise.
    """

    apex: Point
    tip: Vec
    hand: float
    middle: float
    angles: tuple[float, ...]
    rays: tuple[Vec, ...]


@dataclass(frozen=True, slots=True)
class ParallelRoll:
    """Round any cylinder: flat x [m] (ascending), the points of a square cross-section they go to; flat y is `axis`."""

    places: tuple[float, ...]
    feet: tuple[Vec, ...]
    axis: Vec


@dataclass(frozen=True, slots=True)
class Placement:
    """A flat sheet in space: flat (u, v) goes to origin + u ex + v ey; `ez` = ex x ey looks at you."""

    origin: Vec = (0.0, 0.0, 0.0)
    ex: Vec = (1.0, 0.0, 0.0)
    ey: Vec = (0.0, 1.0, 0.0)

    @property
    def ez(self) -> Vec:
        """The normal of the face that looks at you."""
        return cross(self.ex, self.ey)


_UPRIGHT = Line((0.0, 0.0), (0.0, 1.0))


@dataclass(frozen=True, slots=True)
class Facet:
    """A flat piece: `corners` counter-clockwise in the flat, hanging on `parent` (-1: none) at the `hinge` line.

    The hinge runs with the facet on its right; `angle` [rad] is the fold, positive toward you; the bend takes up
    `width` [m] of flat metal beyond the hinge (0: sharp).
    """

    corners: tuple[Point, ...]
    parent: int = -1
    hinge: Line = _UPRIGHT
    angle: float = 0.0
    width: float = 0.0


@dataclass(frozen=True, slots=True)
class FoldRoll:
    """Folded facet by facet from the root (each parent stands before its children); `root` places the first."""

    facets: tuple[Facet, ...]
    root: Placement = Placement()


@dataclass(frozen=True, slots=True)
class DishRoll:
    """Dished into a ball of `radius` [m] with its lowest point at the origin, every patch keeping its area.

    Lambert's equal-area map: the flat radius is the straight distance from the lowest point.
    """

    radius: float


Roll = ConeRoll | CylinderRoll | FanRoll | ParallelRoll | FoldRoll | DishRoll


def rolled(roll: Roll, flat: Sequence[Point]) -> tuple[Vec, ...]:
    """The places in space [m] of flat points [m]."""
    if isinstance(roll, ConeRoll):
        return tuple(_on_cone(roll, p) for p in flat)
    if isinstance(roll, CylinderRoll):
        return tuple(_on_cylinder(roll, p) for p in flat)
    if isinstance(roll, FanRoll):
        return tuple(_on_fan(roll, p) for p in flat)
    if isinstance(roll, ParallelRoll):
        return tuple(_on_parallel(roll, p) for p in flat)
    if isinstance(roll, DishRoll):
        return tuple(_on_dish(roll, p) for p in flat)
    placed = placements(roll)
    return tuple(_on_folds(roll, placed, p) for p in flat)


def around(roll: ConeRoll | FanRoll, p: Point) -> float:
    """Flat angle [rad] of a point from the middle direction, within half a turn, growing from first to last edge."""
    angle = math.atan2(p[1] - roll.apex[1], p[0] - roll.apex[0])
    return roll.hand * ((angle - roll.middle + math.pi) % (2 * math.pi) - math.pi)


def _on_cone(roll: ConeRoll, p: Point) -> Vec:
    far = math.dist(p, roll.apex)
    sine = math.sin(roll.half_angle)
    phi = roll.space + around(roll, p) / sine
    r = far * sine
    return (r * math.cos(phi), r * math.sin(phi), roll.apex_height - roll.hand * far * math.cos(roll.half_angle))


def _on_cylinder(roll: CylinderRoll, p: Point) -> Vec:
    phi = roll.space + (p[0] - roll.start) / roll.radius
    return (roll.radius * math.cos(phi), roll.radius * math.sin(phi), p[1])


def _slot(steps: Sequence[float], x: float) -> tuple[int, float]:
    """Which step `x` falls in, and the share of the way through it; past the ends the first and last step go on."""
    i = min(max(bisect_right(steps, x) - 1, 0), len(steps) - 2)
    return i, (x - steps[i]) / (steps[i + 1] - steps[i])


def _on_fan(roll: FanRoll, p: Point) -> Vec:
    i, share = _slot(roll.angles, around(roll, p))
    return plus(roll.tip, times(_turned_between(roll.rays[i], roll.rays[i + 1], share), math.dist(p, roll.apex)))


def _turned_between(a: Vec, b: Vec, share: float) -> Vec:
    """The unit vector a `share` of the way from a to b along their great circle."""
    angle = math.atan2(norm(cross(a, b)), dot(a, b))
    if angle < 1e-9:
        return mixed(a, 1 - share, b, share)
    sine = math.sin(angle)
    return mixed(a, math.sin((1 - share) * angle) / sine, b, math.sin(share * angle) / sine)


def _on_parallel(roll: ParallelRoll, p: Point) -> Vec:
    i, share = _slot(roll.places, p[0])
    return plus(mixed(roll.feet[i], 1 - share, roll.feet[i + 1], share), times(roll.axis, p[1]))


def _on_dish(roll: DishRoll, p: Point) -> Vec:
    far = math.hypot(*p)
    drawn_in = math.sqrt(max(0.0, 1 - (far / (2 * roll.radius)) ** 2))
    return (p[0] * drawn_in, p[1] * drawn_in, far * far / (2 * roll.radius))


# ---- folding


def at(placed: Placement, p: Point) -> Vec:
    """Where a flat point goes on a placed sheet."""
    return plus(placed.origin, mixed(placed.ex, p[0], placed.ey, p[1]))


def folded(parent: Placement, hinge: Line, angle: float, width: float) -> Placement:
    """The sheet beyond a bend of `angle` [rad] (positive toward you) that takes up `width` [m] beyond the hinge."""
    (x0, y0), (x1, y1) = hinge.start, hinge.end
    long = math.hypot(x1 - x0, y1 - y0)
    out = ((y1 - y0) / long, -(x1 - x0) / long)  # to the right of the hinge, where the facet lies
    away = mixed(parent.ex, out[0], parent.ey, out[1])
    line = mixed(parent.ex, (x1 - x0) / long, parent.ey, (y1 - y0) / long)
    there = mixed(away, math.cos(angle), parent.ez, math.sin(angle))
    foot = at(parent, hinge.start)
    if width > 0 and angle:
        radius = width / angle
        foot = plus(foot, mixed(away, radius * math.sin(angle), parent.ez, radius * (1 - math.cos(angle))))
    elif width > 0:
        foot = plus(foot, times(away, width))
    # flat axes on the new sheet: a flat vector's part along the hinge keeps `line`, its part outward goes `there`
    along = ((x1 - x0) / long, (y1 - y0) / long)
    ex = mixed(line, along[0], there, out[0])
    ey = mixed(line, along[1], there, out[1])
    flat_foot = (x0 + width * out[0], y0 + width * out[1])
    return Placement(minus(foot, mixed(ex, flat_foot[0], ey, flat_foot[1])), ex, ey)


def rolled_on(roll: FoldRoll, facet: int, flat: Sequence[Point]) -> tuple[Vec, ...]:
    """The places in space [m] of flat points known to lie on one facet, where a pattern may lie over itself."""
    placed = placements(roll)[facet]
    return tuple(at(placed, p) for p in flat)


def placements(roll: FoldRoll) -> tuple[Placement, ...]:
    """Every facet placed, folding outward from the root."""
    placed: list[Placement] = []
    for facet in roll.facets:
        if facet.parent < 0:
            placed.append(roll.root)
        else:
            placed.append(folded(placed[facet.parent], facet.hinge, facet.angle, facet.width))
    return tuple(placed)


def _on_folds(roll: FoldRoll, placed: tuple[Placement, ...], p: Point) -> Vec:
    i = max(range(len(roll.facets)), key=lambda k: _depth(roll.facets[k].corners, p))
    facet = roll.facets[i]
    while facet.parent >= 0 and facet.width > 0:
        beyond = _right_of(facet.hinge, p)
        if beyond >= facet.width:
            break
        if beyond >= 0:
            share = beyond / facet.width
            return at(folded(placed[facet.parent], facet.hinge, facet.angle * share, beyond), p)
        i, facet = facet.parent, roll.facets[facet.parent]
    return at(placed[i], p)


def _right_of(line: Line, p: Point) -> float:
    (x0, y0), (x1, y1) = line.start, line.end
    return ((x1 - x0) * (y0 - p[1]) - (y1 - y0) * (x0 - p[0])) / math.hypot(x1 - x0, y1 - y0)


def _depth(corners: tuple[Point, ...], p: Point) -> float:
    """How far inside a convex facet a point lies [m] (negative: outside)."""
    sides = zip(corners, corners[1:] + corners[:1], strict=True)
    return min(-_right_of(Line(a, b), p) for a, b in sides if a != b)


# ---- moving the flat


def roll_moved(roll: Roll, dx: float, dy: float, turn: float) -> Roll:
    """The same roll for a pattern turned by `turn` [rad] about the origin, then shifted by (dx, dy) [m].

    A cylinder's pattern keeps its y for the height: it may only be shifted along x.
    """
    if isinstance(roll, ConeRoll | FanRoll):
        return replace(roll, apex=point_moved(roll.apex, dx, dy, turn), middle=roll.middle + turn)
    if isinstance(roll, FoldRoll):
        return _folds_moved(roll, dx, dy, turn)
    if dy or turn or isinstance(roll, DishRoll):
        raise ValueError("a cylinder's pattern only shifts along x, a dish's pattern not at all")
    if isinstance(roll, CylinderRoll):
        return replace(roll, start=roll.start + dx)
    return replace(roll, places=tuple(x + dx for x in roll.places))


def _folds_moved(roll: FoldRoll, dx: float, dy: float, turn: float) -> FoldRoll:
    def there(p: Point) -> Point:
        return point_moved(p, dx, dy, turn)

    facets = tuple(
        replace(f, corners=tuple(map(there, f.corners)), hinge=Line(there(f.hinge.start), there(f.hinge.end)))
        for f in roll.facets
    )
    c, s = math.cos(turn), math.sin(turn)
    ex, ey = mixed(roll.root.ex, c, roll.root.ey, -s), mixed(roll.root.ex, s, roll.root.ey, c)
    return FoldRoll(facets, Placement(minus(roll.root.origin, mixed(ex, dx, ey, dy)), ex, ey))
