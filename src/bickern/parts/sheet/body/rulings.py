"""Lines along which a flat is cut so that it follows its surface once rolled up, and outlines in chords that meet."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from bickern.geometry.develop.pattern import Development
from bickern.geometry.develop.rolling import ConeRoll, CylinderRoll, DishRoll, FanRoll, FoldRoll, ParallelRoll, around
from bickern.geometry.polygon import ArcSeg, Point, Seg, seg_points, seg_start
from bickern.geometry.solid.solid import Fineness
from bickern.parts.sheet.chain import Chain, spot_at
from bickern.parts.sheet.net import Net

Lines = tuple[tuple[Point, ...], ...]

STEP = {Fineness.PREVIEW: math.radians(3.75), Fineness.FINE: math.radians(1.5)}
"""Turn from one line to the next on a round: 96 or 240 to the full round."""
TURN = {Fineness.PREVIEW: math.radians(15), Fineness.FINE: math.radians(5)}
"""Turn from one line to the next in eyes and folds."""
TIGHT = {Fineness.PREVIEW: math.radians(30), Fineness.FINE: math.radians(10)}
"""Turn from one line to the next in hems and wires, and in the hooks of seams."""
ROUND = {Fineness.PREVIEW: 24, Fineness.FINE: 64}
"""Corners of a round hole."""
_STRAY = 2e-5
_SAME = 1e-6


@dataclass(frozen=True, slots=True)
class Rulings:
    """Cut `lines`, and the directions [rad] about `centre` at which arcs about it are parted into chords."""

    lines: Lines
    centre: Point = (0.0, 0.0)
    directions: tuple[float, ...] = ()

    def chords(self, chain: Sequence[Seg]) -> tuple[Point, ...]:
        """Points along segments, their last end left out; arcs about the centre have points where the lines cross."""
        return tuple(p for seg in chain for p in self._points(seg)[:-1])

    def _points(self, seg: Seg) -> tuple[Point, ...]:
        if not isinstance(seg, ArcSeg) or not self.directions or math.dist(seg.centre, self.centre) > 1e-9:
            return seg_points(seg, _STRAY)
        sweep = abs(seg.sweep)
        way = math.copysign(1.0, seg.sweep)
        shares = sorted((way * (d - seg.start_angle)) % (2 * math.pi) / sweep for d in self.directions)
        slight = _SAME / (seg.radius * sweep)
        inner = [s for s in shares if slight < s < 1 - slight]
        arcs = [seg.start_angle + s * seg.sweep for s in (0.0, *inner, 1.0)]
        (x, y), r = seg.centre, seg.radius
        return tuple((x + r * math.cos(a), y + r * math.sin(a)) for a in arcs)


def rulings_of(development: Development, net: Net, outline: Sequence[Seg], fineness: Fineness) -> Rulings:
    """The straight lines of a skin, so close that it turns by one step between them, over the whole of its outline."""
    roll, step = development.roll, STEP[fineness]
    corners = [p for seg in outline for p in seg_points(seg, 1e-3)]
    if isinstance(roll, ConeRoll):
        count = math.ceil(abs(_spread(roll, net)) / (step * math.sin(roll.half_angle)) - 1e-9)
        return _fan(
            roll, _evenly(*_ends(roll, net), max(count, 2), *_reach([around(roll, p) for p in corners])), corners
        )
    if isinstance(roll, FanRoll):
        return _fan(
            roll, _chosen(roll.angles, step, _ends(roll, net), _reach([around(roll, p) for p in corners])), corners
        )
    if isinstance(roll, CylinderRoll | ParallelRoll):
        ends = net.corners[0][0], net.corners[1][0]
        reach = _reach([p[0] for p in corners])
        if isinstance(roll, CylinderRoll):
            count = max(2, math.ceil((ends[1] - ends[0]) / roll.radius / step - 1e-9))
            return _upright(_evenly(*ends, count, *reach), corners)
        return _upright(_chosen(roll.places, step, ends, reach), corners)
    assert isinstance(roll, FoldRoll)
    return Rulings(tuple((f.hinge.start, f.hinge.end) for f in roll.facets[1:]))


def dish_rulings(roll: DishRoll, radius: float, fineness: Fineness) -> Rulings:
    """Rays and circles on the flat of a bowl, out to `radius` [m]."""
    count = round(2 * math.pi / STEP[fineness])
    turns = [2 * math.pi * i / count for i in range(count)]
    deep = 2 * math.asin(min(1.0, radius / (2 * roll.radius)))
    rings = max(2, math.ceil(deep / (2 * STEP[fineness])))
    rays = tuple(((0.0, 0.0), (1.01 * radius * math.cos(t), 1.01 * radius * math.sin(t))) for t in turns[::2])
    circles = []
    for i in range(1, rings):
        r = 2 * roll.radius * math.sin(deep * i / rings / 2)
        circles.append(tuple((r * math.cos(t), r * math.sin(t)) for t in (*turns[::2], 0.0)))
    return Rulings((*rays, *circles), (0.0, 0.0), tuple(turns))


def mitres(chain: Chain, out: float) -> Lines:
    """Lines from the corners inside an edge of straights, `out` [m] over it: halfway between the edge's two sides."""
    found = []
    for before, after in pairwise(chain):
        (a, b), (c, d) = (spot_at((seg,), 0.0).outward for seg in (before, after))
        long = math.hypot(a + c, b + d)
        if long > 1.0:
            reach = 2.2 * out / long
            x, y = seg_start(after)
            found.append(((x, y), (x + reach * (a + c) / long, y + reach * (b + d) / long)))
    return tuple(found)


def hole_points(centre: Point, size: float, fineness: Fineness) -> tuple[Point, ...]:
    """A round hole of the diameter `size` [m] as a polygon of the same area."""
    count = ROUND[fineness]
    radius = size / 2 * math.sqrt(2 * math.pi / (count * math.sin(2 * math.pi / count)))
    turns = (2 * math.pi * (i + 0.5) / count for i in range(count))
    return tuple((centre[0] + radius * math.cos(t), centre[1] + radius * math.sin(t)) for t in turns)


def _spread(roll: ConeRoll, net: Net) -> float:
    low, high = _ends(roll, net)
    return high - low


def _ends(roll: ConeRoll | FanRoll, net: Net) -> tuple[float, float]:
    """Flat angles [rad] of the seam's two edges, read where they are furthest from the apex."""
    first, last, last_top, first_top = net.corners
    low = max(first, first_top, key=lambda p: math.dist(p, roll.apex))
    high = max(last, last_top, key=lambda p: math.dist(p, roll.apex))
    return around(roll, low), around(roll, high)


def _reach(values: Sequence[float]) -> tuple[float, float]:
    return min(values), max(values)


def _evenly(first: float, last: float, count: int, low: float, high: float) -> list[float]:
    step = (last - first) / count
    before, after = (max(0, math.ceil(x / step - 1e-6)) for x in (first - low, high - last))
    # the two edges of the seam are lines already
    return [first + step * i for i in range(-before, count + after + 1) if i not in (0, count)]


def _chosen(steps: Sequence[float], turn: float, ends: tuple[float, float], reach: tuple[float, float]) -> list[float]:
    """Every so many of a closed round of steps, from `low` to `high`, past the round's ends as they come again."""
    each = max(1, int(turn / (2 * math.pi / (len(steps) - 1)) + 1e-9))
    whole, near = steps[-1] - steps[0], 1e-3 * (steps[-1] - steps[0]) / len(steps)
    found = [s + whole * k for k in (-1, 0, 1) for s in steps[:-1:each]]
    inner = [s for s in found if reach[0] < s < reach[1] and all(abs(s - e) > near for e in ends)]
    return sorted(inner)


def _fan(roll: ConeRoll | FanRoll, angles: Sequence[float], corners: Sequence[Point]) -> Rulings:
    near, far = _reach([math.dist(p, roll.apex) for p in corners])
    directions = tuple(roll.middle + roll.hand * a for a in angles)
    (x, y), inner, outer = roll.apex, 0.0 if near < _SAME else 0.98 * near, 1.02 * far
    lines = tuple(
        ((x + inner * math.cos(d), y + inner * math.sin(d)), (x + outer * math.cos(d), y + outer * math.sin(d)))
        for d in directions
    )
    return Rulings(lines, roll.apex, directions)


def _upright(places: Sequence[float], corners: Sequence[Point]) -> Rulings:
    low, high = _reach([p[1] for p in corners])
    over = 0.01 * (high - low)
    return Rulings(tuple(((x, low - over), (x, high + over)) for x in places))
