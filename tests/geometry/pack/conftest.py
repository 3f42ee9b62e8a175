"""A second measure of nests, apart from the project's own: distances of lines and arcs in closed form, no shapely."""

import math
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from itertools import pairwise

import pytest

from bickern.geometry.pack.shapes.asked import Part, Remnant, Spacing
from bickern.geometry.pack.shapes.result import Laid, Nest
from bickern.geometry.polygon import ArcSeg, Line, Loop, Point, Seg

Body = tuple[Loop, tuple[Loop, ...]]


def turned(point: Point, turn: float, x: float, y: float) -> Point:
    return (
        x + point[0] * math.cos(turn) - point[1] * math.sin(turn),
        y + point[0] * math.sin(turn) + point[1] * math.cos(turn),
    )


def laid_loop(loop: Loop, one: Laid) -> Loop:
    segs: list[Seg] = []
    for seg in loop.segs:
        if isinstance(seg, Line):
            segs.append(Line(turned(seg.start, one.turn, one.x, one.y), turned(seg.end, one.turn, one.x, one.y)))
        else:
            centre = turned(seg.centre, one.turn, one.x, one.y)
            segs.append(ArcSeg(centre, seg.radius, seg.start_angle + one.turn, seg.sweep))
    return Loop(tuple(segs))


def at(seg: Seg, share: float) -> Point:
    if isinstance(seg, Line):
        return (
            seg.start[0] + share * (seg.end[0] - seg.start[0]),
            seg.start[1] + share * (seg.end[1] - seg.start[1]),
        )
    angle = seg.start_angle + share * seg.sweep
    return (seg.centre[0] + seg.radius * math.cos(angle), seg.centre[1] + seg.radius * math.sin(angle))


def within(arc: ArcSeg, angle: float) -> bool:
    """Whether an arc goes through an angle."""
    first = arc.start_angle if arc.sweep > 0 else arc.start_angle + arc.sweep
    return (angle - first) % (2 * math.pi) <= abs(arc.sweep)


def from_point(p: Point, seg: Seg) -> float:
    """From a point to a line or arc."""
    ends = min(math.dist(p, at(seg, 0.0)), math.dist(p, at(seg, 1.0)))
    if isinstance(seg, ArcSeg):
        if within(seg, math.atan2(p[1] - seg.centre[1], p[0] - seg.centre[0])):
            return min(ends, abs(math.dist(p, seg.centre) - seg.radius))
        return ends
    dx, dy = seg.end[0] - seg.start[0], seg.end[1] - seg.start[1]
    long = math.hypot(dx, dy)
    along = ((p[0] - seg.start[0]) * dx + (p[1] - seg.start[1]) * dy) / long
    return abs((p[0] - seg.start[0]) * dy - (p[1] - seg.start[1]) * dx) / long if 0 < along < long else ends


def apart(a: Seg, b: Seg) -> float:
    """The least distance of two lines or arcs: 0 where they cross; else at an end, or square to both."""
    if any(from_point(p, a) < 1e-12 and from_point(p, b) < 1e-12 for p in meetings(a, b)):
        return 0.0
    spots = [(at(a, 0.0), b), (at(a, 1.0), b), (at(b, 0.0), a), (at(b, 1.0), a)]
    for one, other in ((a, b), (b, a)):
        if isinstance(one, ArcSeg):
            spots += [(p, other) for p in nearest_candidates(one, other)]
    return min(from_point(p, seg) for p, seg in spots)


def nearest_candidates(arc: ArcSeg, other: Seg) -> Iterator[Point]:
    """Points of an arc where it may be nearest to another line or arc."""
    if isinstance(other, ArcSeg):
        way = math.atan2(other.centre[1] - arc.centre[1], other.centre[0] - arc.centre[0])
    else:
        way = math.atan2(other.end[1] - other.start[1], other.end[0] - other.start[0]) + math.pi / 2
    for angle in (way, way + math.pi):
        if within(arc, angle):
            yield (arc.centre[0] + arc.radius * math.cos(angle), arc.centre[1] + arc.radius * math.sin(angle))


def meetings(a: Seg, b: Seg) -> list[Point]:
    """Where the whole lines or circles of two segments cross."""
    if isinstance(a, ArcSeg) and isinstance(b, ArcSeg):
        d = math.dist(a.centre, b.centre)
        if d < 1e-15 or d > a.radius + b.radius or d < abs(a.radius - b.radius):
            return []
        x = (d * d + a.radius**2 - b.radius**2) / (2 * d)
        h = math.sqrt(max(0.0, a.radius**2 - x * x))
        ux, uy = (b.centre[0] - a.centre[0]) / d, (b.centre[1] - a.centre[1]) / d
        return [(a.centre[0] + x * ux - s * h * uy, a.centre[1] + x * uy + s * h * ux) for s in (1, -1)]
    if isinstance(a, ArcSeg):
        return meetings(b, a)
    dx, dy = a.end[0] - a.start[0], a.end[1] - a.start[1]
    long = math.hypot(dx, dy)
    if isinstance(b, ArcSeg):
        along = ((b.centre[0] - a.start[0]) * dx + (b.centre[1] - a.start[1]) * dy) / long
        foot = (a.start[0] + along * dx / long, a.start[1] + along * dy / long)
        off = math.dist(foot, b.centre)
        h = math.sqrt(max(0.0, b.radius**2 - off**2))
        return [] if off > b.radius else [(foot[0] + s * h * dx / long, foot[1] + s * h * dy / long) for s in (1, -1)]
    ex, ey = b.end[0] - b.start[0], b.end[1] - b.start[1]
    cross = dx * ey - dy * ex
    if abs(cross) < 1e-18:
        return []
    t = ((b.start[0] - a.start[0]) * ey - (b.start[1] - a.start[1]) * ex) / cross
    return [(a.start[0] + t * dx, a.start[1] + t * dy)]


def loops(body: Body) -> tuple[Loop, ...]:
    return (body[0], *body[1])


def circle_round(seg: Seg) -> tuple[Point, float]:
    """A circle that a segment lies in."""
    if isinstance(seg, ArcSeg):
        return seg.centre, seg.radius
    return at(seg, 0.5), math.dist(seg.start, seg.end) / 2


def edges_apart(a: Body, b: Body) -> float:
    """The least distance of any two lines of two bodies; pairs whose circles are farther apart are passed over."""
    best = math.inf
    rounds = [(seg, *circle_round(seg)) for loop in loops(b) for seg in loop.segs]
    for loop in loops(a):
        for seg in loop.segs:
            centre, radius = circle_round(seg)
            for other, there, reach in rounds:
                if math.dist(centre, there) - radius - reach < best:
                    best = min(best, apart(seg, other))
    return best


def winds(p: Point, loop: Loop) -> bool:
    """Whether a point is inside, by the angle that the loop turns about it."""
    total = 0.0
    for seg in loop.segs:
        count = 1 if isinstance(seg, Line) else max(8, math.ceil(abs(seg.sweep) * 200))
        angles = [math.atan2(q[1] - p[1], q[0] - p[0]) for q in (at(seg, i / count) for i in range(count + 1))]
        total += sum((b - a + math.pi) % (2 * math.pi) - math.pi for a, b in pairwise(angles))
    return abs(total) > math.pi


def holds(body: Body, p: Point) -> bool:
    return winds(p, body[0]) and not any(winds(p, hole) for hole in body[1])


def depth(a: Body, b: Body) -> float:
    """How deep points on the lines of `a` lie in `b`, as far as 24 points on each line show it."""
    spots = [at(seg, i / 24) for loop in loops(a) for seg in loop.segs for i in range(24)]
    xs, ys = zip(*(at(seg, i / 24) for seg in b[0].segs for i in range(24)), strict=True)
    more = (max(xs) - min(xs) + max(ys) - min(ys)) / 10  # arcs reach beyond the points on them, by far less than this
    spots = [p for p in spots if min(xs) - more < p[0] < max(xs) + more and min(ys) - more < p[1] < max(ys) + more]
    inner = [p for p in spots if holds(b, p)]
    return max((min(from_point(p, s) for m in loops(b) for s in m.segs) for p in inner), default=0.0)


def breaches_of(
    nest: Nest, parts: Sequence[Part], remnants: Sequence[Remnant], spacing: Spacing, near: float = 1e-5
) -> list[str]:
    """What is wrong with a nest by more than `near` [m]."""
    by_key = {part.key: part for part in parts}
    wrong = []
    laid, short = Counter(one.part for one in nest.laid), Counter(dict(nest.short))
    if any(laid[part.key] + short[part.key] != part.count for part in parts) or set(laid + short) - set(by_key):
        wrong.append("counts")
    for sheet in remnants:
        room = (sheet.outline, sheet.cutouts)
        bodies = []
        for one in nest.laid:
            if one.remnant == sheet.key:
                part = by_key[one.part]
                bodies.append((laid_loop(part.outline, one), tuple(laid_loop(hole, one) for hole in part.cutouts)))
        for i, body in enumerate(bodies):
            edge = edges_apart(body, room)
            if edge < spacing.margin - near:
                wrong.append(f"margin {edge}")
            out = [p for p in (at(s, k / 8) for s in body[0].segs for k in range(8)) if not holds(room, p)]
            far = max((min(from_point(p, s) for m in loops(room) for s in m.segs) for p in out), default=0.0)
            if far > near or any(holds(body, at(hole.segs[0], 0.0)) for hole in sheet.cutouts if edge > near):
                wrong.append("outside")
            for other in bodies[:i]:
                between = edges_apart(body, other)
                if between < spacing.gap - near:
                    wrong.append(f"gap {between}")
                if max(depth(body, other), depth(other, body)) > near:
                    wrong.append("overlap")
    return wrong


@pytest.fixture(scope="session")
def breaches() -> Callable[..., list[str]]:
    """What is wrong with a nest, found by other means than the project's."""
    return breaches_of


@pytest.fixture(scope="session")
def bodies_apart() -> Callable[[Part, Laid, Part, Laid], float]:
    """How far two laid parts are from each other, lines and arcs exact; 0 where one lies in the other."""

    def measure(a: Part, one: Laid, b: Part, other: Laid) -> float:
        first = (laid_loop(a.outline, one), tuple(laid_loop(hole, one) for hole in a.cutouts))
        second = (laid_loop(b.outline, other), tuple(laid_loop(hole, other) for hole in b.cutouts))
        inside = holds(first, at(second[0].segs[0], 0.0)) or holds(second, at(first[0].segs[0], 0.0))
        return 0.0 if inside else edges_apart(first, second)

    return measure
