"""Who hangs on whom: from what the set is held by downward, with the places where two or more ties carry one body."""

from collections import deque
from collections.abc import Iterator
from dataclasses import dataclass, field

from bickern.geometry.pose import back, seen, within
from bickern.parts.hang.shut import loose
from bickern.parts.hang.swung import Pin
from bickern.parts.set.result import Link, Pivot, SetResult


@dataclass(frozen=True, slots=True)
class Hold:
    """One link read from above: `upper` and `lower` are body numbers, `number` the link's, `turned` if its second is
    the upper one."""

    number: int
    upper: int
    lower: int
    turned: bool


@dataclass(frozen=True, slots=True)
class Tie:
    """A way from one body down to another: its links from above, and the bodies between them (none: they touch)."""

    holds: tuple[Hold, ...]
    between: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Bridle:
    """One body carried by two ties or more that come down from one other."""

    top: int
    bottom: int
    ties: tuple[Tie, ...]


@dataclass(frozen=True, slots=True)
class Order:
    """The bodies from above: `holds` by lower body, `bridles`, and the bodies that nothing reaches.

    `tangled`: links left out because they tie the set in a way that is not reckoned. `down`: bodies in the order in
    which they hang, upper before lower. `pins`: by lower body, what turns on another's pin; `unturned`: pivots left
    out because they close a round.
    """

    root: int
    down: tuple[int, ...]
    holds: dict[int, Hold]
    bridles: tuple[Bridle, ...]
    beyond: tuple[int, ...]
    tangled: tuple[int, ...]
    pins: dict[int, Pin] = field(default_factory=dict)
    unturned: tuple[int, ...] = ()


def order_of(a_set: SetResult, root: int) -> Order:
    """The set read from the body it is held by."""
    holds, pins, down = _walk(a_set, root)
    used = {hold.number for hold in holds.values()}
    extra = [i for i, link in enumerate(a_set.links) if i not in used and link.first in down and link.second in down]
    bridles: list[Bridle] = []
    tangled = [i for i in extra if not _meets(a_set.links[i], holds)]
    extra = [i for i in extra if i not in tangled]
    for group in _groups(a_set.links, holds, root, extra):
        bridle = _bridle(a_set, holds, group, root)
        if bridle is None or any(_overlap(bridle, other) for other in bridles):
            tangled.extend(sorted(set(group) & set(extra)))
        else:
            bridles.append(bridle)
    beyond = tuple(i for i in range(len(a_set.bodies)) if i not in down)
    unturned = tuple(i for i, p in enumerate(a_set.pivots) if loose(p) and p.first in down and not _used(p, pins))
    return Order(root, tuple(down), holds, tuple(bridles), beyond, tuple(tangled), pins, unturned)


def _walk(a_set: SetResult, root: int) -> tuple[dict[int, Hold], dict[int, Pin], list[int]]:
    """Every body's nearest way up to the root, by a pin before a ring."""
    holds: dict[int, Hold] = {}
    pins: dict[int, Pin] = {}
    down, waiting = [root], deque((root,))
    while waiting:
        here = waiting.popleft()
        for pin in _pins_of(a_set.pivots, here):
            if pin.lower not in down:
                pins[pin.lower] = pin
                down.append(pin.lower)
                waiting.append(pin.lower)
        for number, link in enumerate(a_set.links):
            if here not in (link.first, link.second):
                continue
            there = link.second if link.first == here else link.first
            if there not in down:
                holds[there] = Hold(number, here, there, link.second == here)
                down.append(there)
                waiting.append(there)
    return holds, pins, down


def _pins_of(pivots: tuple[Pivot, ...], here: int) -> Iterator[Pin]:
    """What turns on a body's pins, read from that body."""
    for p in pivots:
        if loose(p) and p.first == here:
            yield Pin(here, p.second, p.point, p.axis, p.lies)
        elif loose(p) and p.second == here:
            yield Pin(here, p.first, within(p.lies, p.point), seen(p.lies, p.axis), back(p.lies))


def _used(pivot: Pivot, pins: dict[int, Pin]) -> bool:
    ends = {pivot.first, pivot.second}
    return any(body in pins and {body, pins[body].upper} == ends for body in ends)


def _meets(link: Link, holds: dict[int, Hold]) -> bool:
    """Whether both ends of a link hang from one body, with no pin between."""
    return not set(_up(holds, link.first)).isdisjoint(_up(holds, link.second))


def _up(holds: dict[int, Hold], body: int) -> list[int]:
    """The bodies above one, itself first."""
    found = [body]
    while found[-1] in holds:
        found.append(holds[found[-1]].upper)
    return found


def _groups(links: tuple[Link, ...], holds: dict[int, Hold], root: int, extra: list[int]) -> list[set[int]]:
    """Links that together make rounds: those of rounds that share a link are one group."""
    groups: list[set[int]] = []
    for number in extra:
        link = links[number]
        one, two = _up(holds, link.first), _up(holds, link.second)
        meet = next(b for b in one if b in two)
        round_links = {number} | {holds[b].number for way in (one, two) for b in way[: way.index(meet)]}
        joined = [g for g in groups if g & round_links]
        groups = [g for g in groups if not g & round_links]
        groups.append(round_links.union(*joined))
    return groups


def _bridle(a_set: SetResult, holds: dict[int, Hold], group: set[int], root: int) -> Bridle | None:
    """The group as ties between two bodies; None where it is tied in another way."""
    ends: dict[int, list[int]] = {}
    for number in sorted(group):
        for body in (a_set.links[number].first, a_set.links[number].second):
            ends.setdefault(body, []).append(number)
    top = min(ends, key=lambda b: len(_up(holds, b)))
    branching = [b for b in ends if b != top and len(ends[b]) > 2]
    if len(branching) > 1:
        return None
    below = [b for b in ends if b != top]
    bottom = branching[0] if branching else max(below, key=lambda b: a_set.bodies[b].mass)
    ties = [_tie(a_set.links, ends, top, bottom, number) for number in ends[top]]
    found = tuple(tie for tie in ties if tie is not None)
    return Bridle(top, bottom, found) if len(found) == len(ends[top]) == len(ends[bottom]) else None


def _tie(links: tuple[Link, ...], ends: dict[int, list[int]], top: int, bottom: int, number: int) -> Tie | None:
    """From the top along one link after the other to the bottom."""
    holds: list[Hold] = []
    between: list[int] = []
    here = top
    while len(holds) <= len(ends):
        link = links[number]
        there = link.second if link.first == here else link.first
        holds.append(Hold(number, here, there, link.second == here))
        if there == bottom:
            return Tie(tuple(holds), tuple(between))
        onward = [n for n in ends[there] if n != number]
        if len(onward) != 1:
            return None
        between.append(there)
        here, number = there, onward[0]
    return None


def _overlap(one: Bridle, other: Bridle) -> bool:
    """Whether two bridles would settle the same body at once."""
    return bool({one.top, one.bottom} & {other.top, other.bottom})


def carried_mass(a_set: SetResult, order: Order) -> dict[int, float]:
    """Each body's mass with all that hangs below it [kg]; of a tie's bodies, with what hangs on them besides."""
    inside = {b for bridle in order.bridles for tie in bridle.ties for b in tie.between}
    bottoms = {bridle.bottom: bridle for bridle in order.bridles}
    found = {i: body.mass for i, body in enumerate(a_set.bodies)}
    for body in reversed(order.down):
        if body in bottoms:
            # the ties' own weight reaches the top through the tie's bodies, the bottom's only once
            found[bottoms[body].top] += found[body]
        elif body in order.holds:
            found[_carrier(order, body, inside)] += found[body]
        elif body in order.pins:
            found[order.pins[body].upper] += found[body]
    return found


def _carrier(order: Order, body: int, inside: set[int]) -> int:
    """What takes a body's weight: the body above it, of one in a tie the top of its bridle."""
    if body not in inside:
        return order.holds[body].upper
    return next(b.top for b in order.bridles for tie in b.ties if body in tie.between)


def loads_of(order: Order, body: int) -> tuple[Hold, ...]:
    """What hangs on a body singly: without what hangs in a bridle."""
    tied = {b for bridle in order.bridles for b in (bridle.bottom, *(i for tie in bridle.ties for i in tie.between))}
    return tuple(h for h in order.holds.values() if h.upper == body and h.lower not in tied)
