"""Who hangs on whom: from what the set is held by downward, with the places where two or more ties carry one body."""

from collections import deque
from dataclasses import dataclass

from bickern.parts.set.result import Link, SetResult


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
    which they hang, upper before lower.
    """

    root: int
    down: tuple[int, ...]
    holds: dict[int, Hold]
    bridles: tuple[Bridle, ...]
    beyond: tuple[int, ...]
    tangled: tuple[int, ...]


def order_of(a_set: SetResult, root: int) -> Order:
    """The set read from the body it is held by."""
    holds, down = _walk(a_set.links, root)
    used = {hold.number for hold in holds.values()}
    extra = [i for i, link in enumerate(a_set.links) if i not in used and link.first in down and link.second in down]
    bridles: list[Bridle] = []
    tangled: list[int] = []
    for group in _groups(a_set.links, holds, root, extra):
        bridle = _bridle(a_set, holds, group, root)
        if bridle is None or any(_overlap(bridle, other) for other in bridles):
            tangled.extend(sorted(set(group) & set(extra)))
        else:
            bridles.append(bridle)
    beyond = tuple(i for i in range(len(a_set.bodies)) if i not in down)
    return Order(root, tuple(down), holds, tuple(bridles), beyond, tuple(tangled))


def _walk(links: tuple[Link, ...], root: int) -> tuple[dict[int, Hold], list[int]]:
    """Every body's nearest way up to the root."""
    holds: dict[int, Hold] = {}
    down, waiting = [root], deque((root,))
    while waiting:
        here = waiting.popleft()
        for number, link in enumerate(links):
            if here not in (link.first, link.second):
                continue
            there = link.second if link.first == here else link.first
            if there not in down:
                holds[there] = Hold(number, here, there, link.second == here)
                down.append(there)
                waiting.append(there)
    return holds, down


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
