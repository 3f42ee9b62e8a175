"""The straight lines of a surface from base to top, and cutting its pattern into parts along them."""

import math
from collections.abc import Callable, Sequence
from dataclasses import replace
from itertools import pairwise

from bickern.geometry.curve import rising_root
from bickern.geometry.develop.pattern import Development, Seam, joined, levelled, moved, side, strip_edges
from bickern.geometry.develop.rolling import ConeRoll, FanRoll, FoldRoll, Placement, Roll, around, placements
from bickern.geometry.develop.strip import facets_between
from bickern.geometry.polygon import ArcSeg, Line, Point, Seg, on_seg, point_moved, seg_end, seg_length, seg_start
from bickern.measure.finding import stop
from bickern.measure.units.words import Read


def generators(development: Development, count: int) -> tuple[Line, ...]:
    """Lines from base to top that part the pattern into `count` shares of even length along its base, ends included.

    Empty for patterns without generators (a pan, a bowl, a flat outline).
    """
    if count < 1 or not development.seams:
        return ()
    if isinstance(development.roll, FoldRoll):
        rungs, _, cuts = _ruled(development.roll, development.seams[0], count)
        return tuple(rungs[k] for k in cuts)
    return tuple(_generator(development, i / count) for i in range(count + 1))


def split(development: Development, count: int) -> Read[tuple[Development, ...]]:
    """The pattern cut along generators into `count` parts, even along its base."""
    if count == 1:
        return Read((development,))
    if count < 1 or not development.seams:
        says = "this pattern has no straight lines from base to top to cut it along"
        return Read(None, (stop("cannot-split", says, "leave it in one part"),))
    if isinstance(development.roll, FoldRoll):
        return Read(_split_folds(development, development.roll, count))
    lines = generators(development, count)
    return Read(tuple(_between(development, a, b) for a, b in pairwise(lines)))


def measure(roll: Roll) -> Callable[[Point], float]:
    """What is constant along a flat generator and grows from `first` to `last`: x, or the angle about the apex."""
    if isinstance(roll, ConeRoll | FanRoll):
        return lambda p: around(roll, p)
    return lambda p: p[0]


def _generator(development: Development, share: float) -> Line:
    """The generator a `share` of the way along the base (along the top where the base is a point)."""
    seam = development.seams[0]
    if share <= 0:
        return seam.first
    if share >= 1:
        return seam.last
    base, top = side(development, "base"), side(development, "top")
    across = measure(development.roll)
    lead = _along(base or top, share)
    tip = development.roll.apex if isinstance(development.roll, ConeRoll | FanRoll) else lead
    if not base:
        return Line(tip, lead)
    return Line(lead, _crossing(top, across, across(lead)) if top else tip)


def _along(segs: Sequence[Seg], share: float) -> Point:
    left = share * math.fsum(seg_length(seg) for seg in segs)
    for seg in segs:
        long = seg_length(seg)
        if left <= long:
            return on_seg(seg, left / long)
        left -= long
    return seg_end(segs[-1])


def _crossing(segs: Sequence[Seg], across: Callable[[Point], float], value: float) -> Point:
    seg = next((seg for seg in segs if across(seg_end(seg)) >= value), segs[-1])
    return on_seg(seg, _share_at(seg, across, value))


def _share_at(seg: Seg, across: Callable[[Point], float], value: float) -> float:
    """How far along a segment the generator with this measure crosses it (the measure grows along the segment)."""
    return rising_root(lambda share: across(on_seg(seg, share)) - value, 0.0, 1.0)


def _piece(segs: Sequence[Seg], across: Callable[[Point], float], low: float, high: float) -> tuple[Seg, ...]:
    out = []
    for seg in segs:
        start, end = across(seg_start(seg)), across(seg_end(seg))
        if end <= low + 1e-12 or start >= high - 1e-12:
            continue
        a = 0.0 if start >= low else _share_at(seg, across, low)
        b = 1.0 if end <= high else _share_at(seg, across, high)
        out.append(_part_of(seg, a, b))
    return tuple(out)


def _part_of(seg: Seg, a: float, b: float) -> Seg:
    if isinstance(seg, Line):
        return Line(on_seg(seg, a), on_seg(seg, b))
    return ArcSeg(seg.centre, seg.radius, seg.start_angle + a * seg.sweep, (b - a) * seg.sweep)


def _between(development: Development, first: Line, last: Line) -> Development:
    """The part of a rolled pattern between two of its generators, turned or shifted to stand upright."""
    across = measure(development.roll)
    base, top = side(development, "base"), side(development, "top")
    low, high = (across(line.start if base else line.end) for line in (first, last))
    cut = strip_edges(_piece(base, across, low, high), last, _piece(top, across, low, high), first)
    inside = tuple(b for b in development.bends if low < across(b.line.start) < high)
    part = replace(development, edges=cut, bends=inside, seams=(Seam(first, last),), holes=())
    middle = (low + high) / 2
    if isinstance(development.roll, ConeRoll | FanRoll):
        return _about_apex(part, development.roll, middle)
    return moved(part, dx=-middle)


def _about_apex(part: Development, roll: ConeRoll | FanRoll, middle: float) -> Development:
    turn = -roll.hand * middle
    x, y = point_moved(roll.apex, turn=turn)
    return recentred(moved(part, roll.apex[0] - x, roll.apex[1] - y, turn), middle)


def recentred(part: Development, middle: float) -> Development:
    """The same pattern with flat angles told from a new middle direction, `middle` [rad] on from the old one."""
    roll = part.roll
    if isinstance(roll, ConeRoll):
        roll = replace(
            roll, middle=roll.middle + roll.hand * middle, space=roll.space + middle / math.sin(roll.half_angle)
        )
    elif isinstance(roll, FanRoll):
        angles = tuple(a - middle for a in roll.angles)
        roll = replace(roll, middle=roll.middle + roll.hand * middle, angles=angles)
    return replace(part, roll=roll)


# ---- folded strips


def _ruled(roll: FoldRoll, seam: Seam, count: int) -> tuple[list[Line], list[float], list[int]]:
    """Rungs with new ones put in at even shares of the base, the fold at each (0 at a new one), and which are cuts.

    Shares are told along the top where the base is a point. A facet is flat, so it may be cut anywhere.
    """
    old = [seam.first, *(facet.hinge for facet in roll.facets[1:]), seam.last]
    folds = [0.0, *(facet.angle for facet in roll.facets[1:]), 0.0]
    base, top = ([getattr(rung, end) for rung in old] for end in ("start", "end"))
    lead = _running(base) if _running(base)[-1] > 1e-9 else _running(top)
    wanted = [lead[-1] * i / count for i in range(1, count)]
    rungs, angles, cuts = [old[0]], [folds[0]], [0]
    for k, (a, b) in enumerate(pairwise(lead), start=1):
        for place in [w for w in wanted if a + 1e-9 < w < b - 1e-9]:
            share = (place - a) / (b - a)
            cuts.append(len(rungs))
            rungs.append(Line(on_seg(Line(base[k - 1], base[k]), share), on_seg(Line(top[k - 1], top[k]), share)))
            angles.append(0.0)
        if any(abs(w - b) <= 1e-9 for w in wanted) and b > a:
            cuts.append(len(rungs))
        rungs.append(old[k])
        angles.append(folds[k])
    return rungs, angles, [*cuts, len(rungs) - 1]


def _running(places: Sequence[Point]) -> list[float]:
    out = [0.0]
    for a, b in pairwise(places):
        out.append(out[-1] + math.dist(a, b))
    return out


def _split_folds(development: Development, roll: FoldRoll, count: int) -> tuple[Development, ...]:
    rungs, angles, cuts = _ruled(roll, development.seams[0], count)
    placed = placements(FoldRoll(facets_between(rungs, angles), roll.root))
    return tuple(_fold_part(development, rungs[a : b + 1], angles[a : b + 1], placed[a]) for a, b in pairwise(cuts))


def _fold_part(
    development: Development, rungs: Sequence[Line], angles: Sequence[float], root: Placement
) -> Development:
    base, top = (joined([getattr(rung, end) for rung in rungs]) for end in ("start", "end"))
    inner = set(rungs[1:-1])
    part = replace(
        development,
        edges=strip_edges(base, rungs[-1], top, rungs[0]),
        roll=FoldRoll(facets_between(rungs, angles), root),
        bends=tuple(bend for bend in development.bends if bend.line in inner),
        seams=(Seam(rungs[0], rungs[-1]),),
        holes=(),
    )
    return levelled(part)
