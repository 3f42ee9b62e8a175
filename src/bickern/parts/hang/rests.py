"""Every body of a set brought to rest, each in its own coordinates: single ones alone, bridles together."""

from collections.abc import Mapping
from dataclasses import dataclass, field

import numpy as np

from bickern.geometry.pose import Pose
from bickern.parts.hang.bridle import Bridled, Settled, facing_pose, settle_bridle, size_of
from bickern.parts.hang.order import Bridle, Hold, Order, Tie, loads_of
from bickern.parts.hang.settle import Hung, Load, Rest, settle, square_to
from bickern.parts.hang.swung import Swung
from bickern.parts.hang.ties import Stay, inside_between, inside_long
from bickern.parts.hang.track import STRAIGHT, Bearing, Track, bedded, nominal_bed, track_of
from bickern.parts.set.result import Seat, SetResult


@dataclass(frozen=True, slots=True)
class Tracks:
    """The seats of every link made ready, as (upper's, lower's), by the number of the link; and the root's own.

    `pins`: by body number, what turns on another's pin. `put`: by the number of the link, the one place of the upper
    body where friction keeps what hangs there; None: left out of how the upper body settles.
    """

    links: Mapping[int, tuple[Track, Track]]
    root: Track | None = None
    pins: Mapping[int, Swung] = field(default_factory=dict)
    put: Mapping[int, Bearing | None] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Rests:
    """How each body rests: `single` by body number, `bridles` in the order's sequence; `sliding` bodies do not."""

    single: Mapping[int, Rest]
    bridles: tuple[Settled | None, ...]
    hung: Mapping[int, Hung] = field(default_factory=dict)
    sliding: tuple[int, ...] = ()


def tracks_of(a_set: SetResult, order: Order, seat: Seat | None) -> Tracks:
    """All seats made ready, each on the bed that the other of its link offers; what the root hangs by is straight."""
    found: dict[int, tuple[Track, Track]] = {}
    for hold in _every_hold(order):
        link = a_set.links[hold.number]
        seats, spots = link.seats, link.spots
        upper, lower = (1, 0) if hold.turned else (0, 1)
        pair = track_of(seats[upper], spots[upper]), track_of(seats[lower], spots[lower])
        found[hold.number] = _on_each_other(pair)
    return Tracks(found, track_of(seat, None if a_set.held is None else a_set.held.spot) if seat else None)


def _every_hold(order: Order) -> tuple[Hold, ...]:
    tied = [hold for bridle in order.bridles for tie in bridle.ties for hold in tie.holds]
    ways = {hold.number: hold for hold in order.holds.values()}
    return tuple((ways | {hold.number: hold for hold in tied}).values())


def _on_each_other(pair: tuple[Track, Track]) -> tuple[Track, Track]:
    """Both tracks with the other's middle curve as their bed."""
    upper, lower = pair
    beds = nominal_bed(lower) if upper.square else STRAIGHT, nominal_bed(upper) if lower.square else STRAIGHT
    return bedded(upper, beds[0]), bedded(lower, beds[1])


def rests_of(a_set: SetResult, order: Order, tracks: Tracks, masses: Mapping[int, float], fixed: Pose | None) -> Rests:
    """Every body at rest; `fixed` is how the root lies where it is held fast."""
    single: dict[int, Rest] = {}
    hungs: dict[int, Hung] = {}
    sliding: list[int] = []
    bridles = tuple(settle_bridle(bridled(a_set, order, b, tracks, masses, fixed)) for b in order.bridles)
    tied = _tied(order)
    for body in order.down:
        if body in tied or body in order.pins or (body == order.root and (fixed is not None or tracks.root is None)):
            continue
        hung = hung_of(a_set, order, body, tracks, masses)
        rest = settle(hung)
        hungs[body] = hung
        if rest is None:
            sliding.append(body)
        else:
            single[body] = rest
    return Rests(single, bridles, hungs, tuple(sliding))


def _tied(order: Order) -> frozenset[int]:
    """Bodies that settle in a bridle: top, bottom and what is between."""
    return frozenset(
        b for bridle in order.bridles for b in (bridle.top, bridle.bottom, *(i for t in bridle.ties for i in t.between))
    )


def carrying_track(order: Order, body: int, tracks: Tracks) -> Track | None:
    """What a body is carried by."""
    return tracks.root if body == order.root else tracks.links[order.holds[body].number][1]


def hung_of(a_set: SetResult, order: Order, body: int, tracks: Tracks, masses: Mapping[int, float]) -> Hung:
    """A body with what hangs on it singly."""
    carried = carrying_track(order, body, tracks)
    if carried is None:
        raise ValueError("what is held fast does not settle")
    here = a_set.bodies[body]
    loads = loads_on(order, body, tracks, masses)
    return Hung(here.mass, here.centre, carried, loads)


def loads_on(order: Order, body: int, tracks: Tracks, masses: Mapping[int, float]) -> tuple[Load, ...]:
    """What hangs on a body singly, and what turns on its pins."""
    places = ((h.lower, tracks.put.get(h.number, tracks.links[h.number][0])) for h in loads_of(order, body))
    hung = tuple(Load(masses[lower], place) for lower, place in places if place is not None)
    on_pins = (pin.lower for pin in order.pins.values() if pin.upper == body)
    return (*hung, *(Load(masses[lower], tracks.pins[lower]) for lower in on_pins if lower in tracks.pins))


def bridled(
    a_set: SetResult, order: Order, bridle: Bridle, tracks: Tracks, masses: Mapping[int, float], fixed: Pose | None
) -> Bridled:
    """A bridle ready to settle; one whose top is itself held fast, or hangs."""
    top, bottom = a_set.bodies[bridle.top], a_set.bodies[bridle.bottom]
    stays = tuple(stay_of(a_set, tie, tracks, masses) for tie in bridle.ties)
    fast = fixed if bridle.top == order.root else _on_pin(tracks, bridle.top)
    carried = None if fast is not None else carrying_track(order, bridle.top, tracks)
    return Bridled(
        top.mass, top.centre, carried, loads_on(order, bridle.top, tracks, masses),
        bottom.mass, bottom.centre, loads_on(order, bridle.bottom, tracks, masses),
        stays, fast, size_of(bottom.centre, stays),
    )  # fmt: skip


def _on_pin(tracks: Tracks, body: int) -> Pose | None:
    """How a body on a pin lies, but for where and which way about plumb."""
    swung = tracks.pins.get(body)
    return facing_pose(swung.up, square_to(swung.up)[0], (1.0, 0.0, 0.0)) if swung else None


def stay_of(a_set: SetResult, tie: Tie, tracks: Tracks, masses: Mapping[int, float]) -> Stay:
    """A tie: the tracks at its two ends, and the insides of all that is between."""
    first, last = tie.holds[0].number, tie.holds[-1].number
    top, bottom = tracks.links[first][0], tracks.links[last][1]
    long = 0.0
    for body, above, below in zip(tie.between, tie.holds, tie.holds[1:], strict=False):
        long += _inside(a_set, tracks.links[above.number][1], tracks.links[below.number][0], body)
    mass = sum(masses[b] for b in tie.between)
    return Stay(top, bottom, long, mass)


def _inside(a_set: SetResult, one: Track, two: Track, body: int) -> float:
    same = one.points.shape == two.points.shape and np.allclose(one.points, two.points)
    return inside_long(one) if same and one.closed else inside_between(one, two)
