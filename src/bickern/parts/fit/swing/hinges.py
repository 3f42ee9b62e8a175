"""Which lots of a hanging set swing, and about what: found from who hangs from whom and where the two touch."""

from dataclasses import dataclass, field

from bickern.geometry.pose import Pose, facing, put
from bickern.geometry.space import ORIGIN, Vec, distance, minus, plus, times, unit
from bickern.parts.fit.swing.contact import Contact, contact_of
from bickern.parts.ring.spec import RingResult
from bickern.parts.set.result import Link, Pivot, SetResult, SpotKind

SIDE_BY_SIDE = 1e-4
"""Two places nearer than this [m] are one: no line can be laid through them."""
FACES = 2e-4
"""How far two faces that lie on one another on a rivet are drawn apart before one is turned [m]."""


@dataclass(frozen=True, slots=True)
class Hinge:
    """One way in which a lot of bodies can turn as one stiff thing.

    It turns about `axis` (unit) through `point` [m] in the hanging set, once it has been moved by `lift` [m]. `movers`:
    the bodies of the lot. `hung` and `carriers`: numbers of the parts that touch by nature; within `reach` [m] or so of
    each of `touches` the carriers are left out of what may be run into (no places: nothing is left out).
    """

    what: str
    way: str
    point: Vec
    axis: Vec
    movers: frozenset[int]
    hung: frozenset[int]
    carriers: frozenset[int]
    touches: tuple[Vec, ...] = ()
    reach: float = 0.0
    lift: Vec = field(default=ORIGIN)


def hinges(whole: SetResult, poses: tuple[Pose, ...]) -> tuple[Hinge, ...]:
    """Every way of every joint, from what the set is held by downward; links of one chain that are alike once.

    A lot that hangs by one link swings to and fro about the wire above and sideways about its own. One that hangs by
    several from one body (a hood on two rings that meet in one) swings as a whole, and what hangs by two eyes tips
    about the line through both.
    """
    root = root_of(whole)
    out: list[Hinge] = []
    for body in hanging_from(whole, root):
        for lot in _lots(whole, root, body):
            links = [k for k in whole.links if _ends(k) & lot and body in _ends(k)]
            pivots = [p for p in whole.pivots if {p.first, p.second} & lot and body in (p.first, p.second)]
            out.extend(_ways(whole, poses, body, lot, links, pivots))
        out.extend(_on_two_eyes(whole, poses, root, body))
    return _once(out)


def _ways(
    whole: SetResult, poses: tuple[Pose, ...], body: int, lot: frozenset[int], links: list[Link], pivots: list[Pivot]
) -> list[Hinge]:
    """All ways in which what hangs from one body can turn against it."""
    if len(pivots) == 1 and not links:
        return [_on_pivot(whole, poses, lot, pivots[0])]
    if pivots or not links:
        return []
    met = [contact_of(whole, poses, link, body) for link in links]
    if len(met) > 1:
        return [_bridle(whole, lot, met)]
    return _in_hole(whole, lot, met[0]) if met[0].hole else _on_wire(whole, lot, met[0])


def _on_wire(whole: SetResult, lot: frozenset[int], met: Contact) -> list[Hinge]:
    """About the wire that carries, and about the wire that hangs."""
    what, upper = _what(whole, met)
    parts = (frozenset((met.lower,)), frozenset((met.upper,)), (met.on_upper,), met.reach)
    return [
        Hinge(what, f"to and fro on {upper}", met.on_upper, met.along_upper, lot, *parts),
        Hinge(what, f"sideways on {upper}", met.on_lower, met.along_lower, lot, *parts),
    ]


def _in_hole(whole: SetResult, lot: frozenset[int], met: Contact) -> list[Hinge]:
    """A wire in a hole, from the middle of the hole: round the hole's axis, and tipping till the wire binds in it."""
    assert met.hole is not None
    what, upper = _what(whole, met)
    hole = f"the hole of {upper if met.hole.in_upper else _called(whole, met.lower, met.spots[1])}"
    across = met.along_upper if met.hole.in_upper else met.along_lower
    parts = (lot, frozenset((met.lower,)), frozenset((met.upper,)), (), 0.0, met.hole.lift)
    return [
        Hinge(what, f"round in {hole}", met.hole.middle, met.hole.axis, *parts),
        Hinge(what, f"tipping in {hole}", met.hole.middle, across, *parts),
    ]


def _bridle(whole: SetResult, lot: frozenset[int], met: list[Contact]) -> Hinge:
    """The lot on several rings that hang side by side in one thing: about the line through where they bear."""
    what = " and ".join(dict.fromkeys(whole.parts[m.lower].name for m in met))
    upper = " and ".join(dict.fromkeys(_called(whole, m.upper, m.spots[0]) for m in met))
    point, axis = _line(met, upper=True)
    carriers, hung = frozenset(m.upper for m in met), frozenset(m.lower for m in met)
    touches, reach = tuple(m.on_upper for m in met), max(m.reach for m in met)
    return Hinge(what, f"to and fro on {upper}", point, axis, lot, hung, carriers, touches, reach)


def _on_two_eyes(whole: SetResult, poses: tuple[Pose, ...], root: int, body: int) -> list[Hinge]:
    """What hangs by two eyes from two things, each of which hangs on: it tips about the line through both."""
    rest = _reached(whole, root, without=body)
    links = [k for k in whole.links if body in _ends(k) and (_ends(k) - {body}) <= rest]
    carriers = {_other(k, body) for k in links}
    if body == root or len(links) != 2 or len(carriers) != 2 or all(_is_ring(k, body) for k in links):
        return []
    met = [contact_of(whole, poses, k, _other(k, body)) for k in links]
    if distance(met[0].on_lower, met[1].on_lower) < SIDE_BY_SIDE:
        return []
    point, axis = _line(met, upper=False)
    lot = frozenset(range(len(whole.bodies))) - rest
    what = " and ".join(dict.fromkeys(whole.parts[m.lower].name for m in met))
    hung, upper = frozenset(m.lower for m in met), frozenset(m.upper for m in met)
    touches, reach = tuple(m.on_upper for m in met), max(m.reach for m in met)
    names = " and ".join(whole.parts[m.upper].name for m in met)
    return [Hinge(what, f"tipping on {names}", point, axis, lot, hung, upper, touches, reach)]


def _on_pivot(whole: SetResult, poses: tuple[Pose, ...], lot: frozenset[int], pivot: Pivot) -> Hinge:
    """About a rivet or pin; the lot is drawn off its neighbour by a hair so that faces do not rub."""
    pose = poses[pivot.first]
    axis, point = unit(facing(pose, pivot.axis)), put(pose, pivot.point)
    mover = pivot.second if pivot.second in lot else pivot.first
    other = pivot.first if mover == pivot.second else pivot.second
    apart = minus(put(poses[mover], whole.bodies[mover].centre), put(poses[other], whole.bodies[other].centre))
    side = 1.0 if sum(a * b for a, b in zip(apart, axis, strict=True)) >= 0 else -1.0
    what = f"{whole.bodies[mover].name} on {whole.bodies[other].name}"
    hung, carriers = frozenset(whole.bodies[mover].parts), frozenset(whole.bodies[other].parts)
    return Hinge(what, f"on its {pivot.joint.kind}", point, axis, lot, hung, carriers, lift=times(axis, side * FACES))


def _line(met: list[Contact], *, upper: bool) -> tuple[Vec, Vec]:
    """The middle of the places of contact, and the way from first to last; where they are one, along the wire."""
    places = [m.on_upper if upper else m.on_lower for m in met]
    middle = times(_sum(places), 1 / len(places))
    if distance(places[0], places[-1]) < SIDE_BY_SIDE:
        return middle, met[0].along_upper if upper else met[0].along_lower
    return middle, unit(minus(places[-1], places[0]))


def _sum(places: list[Vec]) -> Vec:
    total = ORIGIN
    for place in places:
        total = plus(total, place)
    return total


def _what(whole: SetResult, met: Contact) -> tuple[str, str]:
    """What swings, and what it swings on."""
    return whole.parts[met.lower].name, _called(whole, met.upper, met.spots[0])


def _called(whole: SetResult, part: int, spot: str) -> str:
    """A bar by the name of the place on it, a ring by its own."""
    name = whole.parts[part].name
    return name if isinstance(whole.parts[part].piece, RingResult) or not spot else f"{name}.{spot}"


def _is_ring(link: Link, body: int) -> bool:
    return link.spots[0 if link.first == body else 1].kind is SpotKind.RING


def _ends(link: Link) -> set[int]:
    return {link.first, link.second}


def _other(link: Link, body: int) -> int:
    return link.second if link.first == body else link.first


def _pairs(whole: SetResult) -> list[tuple[int, int]]:
    """Which bodies are joined."""
    return [(k.first, k.second) for k in whole.links] + [(p.first, p.second) for p in whole.pivots]


def _reached(whole: SetResult, root: int, without: int) -> set[int]:
    """All bodies that hold to the root when one is taken away."""
    pairs = [pair for pair in _pairs(whole) if without not in pair]
    seen, edge = {root}, [root]
    while edge:
        here = edge.pop()
        near = {b if a == here else a for a, b in pairs if here in (a, b)} - seen
        seen |= near
        edge.extend(near)
    return seen


def root_of(whole: SetResult) -> int:
    """The body that the set is held by; the first where the job does not say."""
    return whole.held.body if whole.held else 0


def hanging_from(whole: SetResult, root: int) -> list[int]:
    """All bodies that hang together with the root, from it downward."""
    pairs = _pairs(whole)
    order = [root]
    for here in order:
        near = sorted({b if a == here else a for a, b in pairs if here in (a, b)} - set(order))
        order.extend(near)
    return order


def _lots(whole: SetResult, root: int, body: int) -> list[frozenset[int]]:
    """The lots of bodies that would fall if one body were taken away; of the root, all that hangs from it."""
    held = {body} if body == root else _reached(whole, root, body) | {body}
    left, lots = [b for b in hanging_from(whole, root) if b not in held], []
    while left:
        lot = frozenset(_reached(whole, left[0], body))
        lots.append(lot)
        left = [b for b in left if b not in lot]
    return lots


def _once(found: list[Hinge]) -> tuple[Hinge, ...]:
    """Of links of one chain, which differ by their numbers alone, the first of each way."""
    firsts: dict[str, Hinge] = {}
    for hinge in found:
        what, way = _unnumbered(hinge.what), _unnumbered(hinge.way)
        firsts.setdefault(f"{what}, {way}" if what in way else f"{hinge.what}, {hinge.way}", hinge)
    return tuple(firsts.values())


def _unnumbered(name: str) -> str:
    return "".join(c for c in name if not c.isdigit()).strip()
