"""What hangs on a loop that lies level: friction keeps it where it is put, and it is taken as spread evenly round.

Without friction all of it would run to the lowest place of a loop, and the loop tip after it until nothing rests.
"""

import math
from collections.abc import Mapping, Sequence
from dataclasses import replace
from itertools import pairwise

from bickern.geometry.pose import Pose
from bickern.geometry.space import Vec, distance, dot, norm, plus
from bickern.parts.hang.beside import one_place, together, walked
from bickern.parts.hang.friction import IRON_ON_IRON
from bickern.parts.hang.order import Hold, Order
from bickern.parts.hang.pins import rests_on_pins, ups_of
from bickern.parts.hang.rests import Rests, Tracks
from bickern.parts.hang.ties import mean_place
from bickern.parts.hang.track import Bearing, Track, arc_of, loop_axis, nearest_on, on_arc, row, support
from bickern.parts.set.result import SetResult, SpotKind

LEVEL = math.atan(IRON_ON_IRON.value)
"""How far off level a loop may lie with things on it that stay where they are put: the angle of friction [rad]."""
_LOOPS = (SpotKind.RING, SpotKind.BAR)
"""A hoop or ring as a whole, and the rim of a skin; not an eye or a hole."""

Group = tuple[Hold, ...]


def rests_with_spread(
    a_set: SetResult, order: Order, tracks: Tracks, masses: Mapping[int, float], fixed: Pose | None
) -> tuple[Tracks, Rests]:
    """Every body at rest, and the tracks with what stays on level loops put there.

    A loop is level if it lies so without what hangs on it, and still with it; else all that hangs on it slides.
    """
    groups = [group for group in together(order, tracks) if _on_loop(a_set, order, tracks, group)]
    if not groups:
        return rests_on_pins(a_set, order, tracks, masses, fixed)
    bare = replace(tracks, put={hold.number: None for group in groups for hold in group})
    ups = ups_of(order, *rests_on_pins(a_set, order, bare, masses, fixed), fixed)
    kept_there = [group for group in groups if _lies_level(tracks, group, ups)]
    while True:
        put = {number: place for group in kept_there for number, place in _evenly(tracks, group, ups).items()}
        there, rests = rests_on_pins(a_set, order, replace(tracks, put=put), masses, fixed)
        now = ups_of(order, there, rests, fixed)
        still = [group for group in kept_there if _lies_level(tracks, group, now)]
        if len(still) == len(kept_there):
            return there, rests
        kept_there = still


def _on_loop(a_set: SetResult, order: Order, tracks: Tracks, group: Group) -> bool:
    """Whether a group hangs on a closed loop; one that hangs by the loop itself stands upright in any case."""
    hold = group[0]
    loop = tracks.links[hold.number][0]
    if not loop.closed or a_set.links[hold.number].spots[1 if hold.turned else 0].kind not in _LOOPS:
        return False
    bottoms = {bridle.bottom for bridle in order.bridles}
    above = order.holds.get(hold.upper)
    own = tracks.root if hold.upper == order.root else tracks.links[above.number][1] if above else None
    return own is None or hold.upper in bottoms or not one_place(own, loop)


def _lies_level(tracks: Tracks, group: Group, ups: Mapping[int, Vec]) -> bool:
    up = ups.get(group[0].upper)
    return up is not None and lies_level(tracks.links[group[0].number][0], up)


def lies_level(loop: Track, up: Vec) -> bool:
    """Whether a loop is so nearly level with `up` upward that friction keeps things on it where they are."""
    return abs(dot(loop_axis(loop.along), up)) >= math.cos(LEVEL)


def kept(order: Order, tracks: Tracks) -> tuple[Group, ...]:
    """What stays where it is put, by the loop on which it hangs."""
    return tuple(group for group in together(order, tracks) if tracks.put.get(group[0].number) is not None)


def _evenly(tracks: Tracks, group: Group, ups: Mapping[int, Vec]) -> dict[int, Bearing]:
    """Each thing in the middle of its even share of the loop, counted from where the loop begins (its joint)."""
    loop, up = tracks.links[group[0].number][0], ups[group[0].upper]
    return {hold.number: place_on(loop, (i + 0.5) / len(group), up) for i, hold in enumerate(group)}


def place_on(loop: Track, share: float, up: Vec) -> Bearing:
    """The upper side of a loop so far round it, as a share of the whole way."""
    segment, into = walked(loop, (0, 0.0), (share % 1.0) * _round(loop, loop.segments))
    arc = arc_of(loop, segment)
    middle, along = on_arc(arc, into)
    off = support(loop, segment, arc, into, up)
    return Bearing(plus(middle, off), middle, along, norm(off), arc.radius, segment)


def _round(loop: Track, segments: int) -> float:
    """How long the first so many arcs of a loop are together [m]."""
    return math.fsum(arc_of(loop, i).long for i in range(segments))


def aside(order: Order, tracks: Tracks, group: Group, up: Vec) -> Tracks:
    """The tracks with the whole group on one side of its loop, `up` upward.

    That side is the middle of the widest gap between the ties that carry the loop; of a loop without, where the first
    of the group hangs.
    """
    loop = tracks.links[group[0].number][0]
    ties = [tracks.links[t.holds[-1].number][1] for b in order.bridles if b.bottom == group[0].upper for t in b.ties]
    share = _widest(loop, [mean_place(tie) for tie in ties]) if ties else 0.5 / len(group)
    place = place_on(loop, share, up)
    return replace(tracks, put={**tracks.put, **{hold.number: place for hold in group}})


def _widest(loop: Track, places: Sequence[Vec]) -> float:
    """The middle of the widest gap between places round a loop, as a share of the whole; of gaps alike the first."""
    whole = _round(loop, loop.segments)
    shares = sorted(_way_to(loop, place) / whole for place in places)
    gaps = [(round(b - a, 6), -a) for a, b in pairwise((*shares, shares[0] + 1.0))]
    wide, start = max(gaps)
    return -start + wide / 2


def _way_to(loop: Track, place: Vec) -> float:
    """How far round a loop the place is that is nearest to another [m]."""
    near = min(range(loop.segments), key=lambda i: distance(row(loop.points, i), place))
    segment, into = nearest_on(loop, place, near)
    arc = arc_of(loop, segment)
    return _round(loop, segment) + into * (arc.radius if arc.angle else arc.long)
