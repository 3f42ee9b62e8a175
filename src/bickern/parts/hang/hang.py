"""The main question of this room: how a set hangs, how far off plumb, in what band, and what would change it."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from bickern.geometry.pose import HERE, Pose, put, seen, then
from bickern.geometry.space import Vec, cross, norm, unit
from bickern.measure.finding import Finding, Where, note, warn
from bickern.measure.units.words import Style
from bickern.parts.hang.bridle import UP, facing_pose
from bickern.parts.hang.friction import IRON_ON_IRON, Band, band
from bickern.parts.hang.held import DEEP, fixed_pose, held_fast, is_stem, most_of_bar, pins_of_held, root_seat
from bickern.parts.hang.lie import Laid, lay
from bickern.parts.hang.order import Order, carried_mass, order_of
from bickern.parts.hang.rests import Rests, Tracks, tracks_of
from bickern.parts.hang.result import HangResult, Tilt, Touch
from bickern.parts.hang.settle import Hung, Rest
from bickern.parts.hang.shut import carriers, pose_of, shut
from bickern.parts.hang.spread import kept, rests_with_spread
from bickern.parts.hang.tilt import TRUE, Leaning, leaning, tilt_of, told_parts
from bickern.parts.ring.spec import RingResult
from bickern.parts.set.result import Held, SetResult


@dataclass(frozen=True, slots=True)
class Hanging:
    """Everything found on the way to an answer: who hangs on whom, on what, at rest, and laid in the world."""

    a_set: SetResult
    held: Held
    order: Order
    tracks: Tracks
    masses: Mapping[int, float]
    fixed: Pose | None
    rests: Rests
    laid: Laid
    on_rivets: Mapping[int, tuple[int, Pose]]

    @property
    def poses(self) -> tuple[Pose, ...]:
        """Every body's pose; one that hangs on nothing stays where it was drawn."""
        return tuple(pose_of(i, self.laid.poses, dict(self.on_rivets)) for i in range(len(self.a_set.bodies)))


def hang(
    set_result: SetResult,
    *,
    friction: float = IRON_ON_IRON.value,
    style: Style = Style(),  # noqa: B008 - frozen
    changes: bool = True,
    angle: float = 0.0,
) -> HangResult:
    """The set at rest, as it is held. `friction`: of the band; `changes`: also what would hang otherwise.

    `angle` [rad]: of a set held in the hand, how far its free end is raised above level.
    """
    if set_result.held is None:
        return _unheld(set_result, friction)
    hanging = hung_up(set_result, set_result.held, angle)
    found = _told(hanging, friction)
    if not changes:
        return found
    from bickern.parts.hang.change import changes_of

    return replace(found, changes=changes_of(hanging, found, style))


def held_at(set_result: SetResult, angle: float, *, friction: float = IRON_ON_IRON.value) -> HangResult:
    """The set held in the hand with its free end raised by `angle` [rad] above level (below nothing: lowered)."""
    return hang(set_result, friction=friction, changes=False, angle=angle)


def hung_up(a_set: SetResult, held: Held, angle: float = 0.0) -> Hanging:
    """The set brought to rest and laid in the world."""
    on_rivets = carriers(a_set, held.body)
    a_set = shut(a_set, on_rivets)
    order = order_of(a_set, held.body)
    fixed = fixed_pose(a_set, held, angle)
    tracks = tracks_of(a_set, order, None if fixed else root_seat(a_set, held))
    if fixed is None and tracks.root is None:
        fixed = _plumb_below(a_set, held)
    masses = carried_mass(a_set, order)
    tracks, rests = rests_with_spread(a_set, order, tracks, masses, fixed)
    centres = {i: body.centre for i, body in enumerate(a_set.bodies)}
    laid = lay(order, tracks, rests, centres, fixed)
    return Hanging(a_set, held, order, tracks, masses, fixed, rests, laid, on_rivets)


def _plumb_below(a_set: SetResult, held: Held) -> Pose:
    """Hung by a place with no metal to bear on: its own weight plumb below that place."""
    place = put(a_set.parts[held.part].pose, held.spot.pose.origin)
    centre = a_set.bodies[held.body].centre
    off = (place[0] - centre[0], place[1] - centre[1], place[2] - centre[2])
    up = unit(off) if norm(off) > 1e-9 else UP
    turn = facing_pose(up, held.spot.pose.x, (1.0, 0.0, 0.0))
    there = put(turn, place)
    return Pose((-there[0], -there[1], -there[2]), turn.x, turn.y)


def _unheld(a_set: SetResult, friction: float) -> HangResult:
    says = "the job does not say how the set is held, so how it hangs is not told"
    told = note("hangs-how", says, "add for example `hang: {from: hook.eye, on: nail}`")
    return HangResult(tuple(HERE for _ in a_set.bodies), (), (), (), friction, 0.0, (), (told,))


def _told(hanging: Hanging, friction: float) -> HangResult:
    """What is found, as the room's answer."""
    poses = hanging.poses
    tilts = tuple(tilt for body in hanging.order.down for tilt in tilts_of(hanging, body, poses, friction))
    return HangResult(
        poses, _touches(hanging), tilts, (), friction, drop_of(hanging, poses), _how(hanging), _findings(hanging)
    )


def tilts_of(hanging: Hanging, body: int, poses: tuple[Pose, ...], friction: float | None) -> tuple[Tilt, ...]:
    """The tilts of one body's parts; without `friction` no band (both its ends are the rest itself)."""
    if body == hanging.order.root and hanging.fixed is not None and held_fast(hanging.held) == "wall":
        return ()
    if body in _restless(hanging):
        return ()
    up = seen(poses[body], UP)
    found: list[Tilt] = []
    for number in told_parts(hanging.a_set, body):
        lean = leaning(hanging.a_set.parts[number], seen(hanging.a_set.parts[number].pose, up))
        if lean is None:
            continue
        rest, hung = hanging.rests.single.get(body), hanging.rests.hung.get(body)
        held = _band(hanging, number, lean, (hung, rest), friction) if friction and rest and hung else None
        found.append(tilt_of(hanging.a_set, number, poses, held, lean))
    return tuple(found)


def _restless(hanging: Hanging) -> frozenset[int]:
    """Bodies of which no rest was found: how they are drawn says nothing."""
    pairs = zip(hanging.order.bridles, hanging.rests.bridles, strict=True)
    return frozenset((*hanging.rests.sliding, *(bridle.bottom for bridle, settled in pairs if settled is None)))


def _band(hanging: Hanging, number: int, lean: Leaning, body: tuple[Hung, Rest], friction: float) -> Band:
    """The band in the plane in which the part leans; of one that hangs true, along the bar it hangs by."""
    hung, rest = body
    if lean.axis is not None and lean.angle > TRUE:
        pose = hanging.a_set.parts[number].pose
        axis = then(pose, Pose(HERE.origin, lean.axis, _square(lean.axis))).x
    else:
        axis = unit(cross(rest.up, rest.carried.along))
    return band(hung, rest, axis, friction)


def _square(way: Vec) -> Vec:
    other = (1.0, 0.0, 0.0) if abs(way[0]) < 0.6 else (0.0, 1.0, 0.0)
    return unit(cross(way, other))


def _touches(hanging: Hanging) -> tuple[Touch, ...]:
    names = [body.name for body in hanging.a_set.bodies]
    return tuple(
        Touch(b.upper, b.lower, b.point, hanging.held.on if b.upper < 0 else names[b.upper], names[b.lower])
        for b in hanging.laid.bears
    )


def drop_of(hanging: Hanging, poses: tuple[Pose, ...]) -> float:
    """From where the set is held down to where its lowest body balances [m]."""
    hung = hanging.order.down
    return max(-put(poses[i], hanging.a_set.bodies[i].centre)[2] for i in hung)


def _how(hanging: Hanging) -> tuple[str, ...]:
    """What was taken for granted."""
    fast = held_fast(hanging.held)
    said = {
        "wall": "held fast: its flat against the wall, upright",
        "hand": "held fast in the hand: level unless an angle is told",
        "": "hung on a round bar, level, thinner than the bend or eye it lies in",
    }
    stem = fast == "wall" and is_stem(hanging.a_set, hanging.held)
    found = [_in_wall(hanging) if stem else said[fast]]
    if fast == "wall" and pins_of_held(hanging.a_set, hanging.held):
        found.append("of the ways it can go on the wall, taken is the one that stands its pin upright")
    if hanging.order.bridles:
        found.append("what hangs on two ties or more lies without friction; no band of friction is told for it")
        if any(tie.between for bridle in hanging.order.bridles for tie in bridle.ties):
            straight = "each tie is taken as straight, half of its weight at either end"
            found.append(f"{straight}; a heavy chain sags, which can turn it by about a tenth of a degree")
    if hanging.on_rivets:
        shut_on = ", ".join(hanging.a_set.bodies[i].name for i in hanging.on_rivets)
        found.append(f"on its rivet, as it was put together and not opened by its weight: {shut_on}")
    found += _on_pins(hanging)
    found += _on_loops(hanging)
    if hanging.laid.aside:
        names = [hanging.a_set.bodies[b].name for b in hanging.laid.aside]
        found.append(f"side by side on one place, touching; for the tilt all at its lowest: {', '.join(names)}")
    if hanging.laid.rested:
        names = [hanging.a_set.links[i].joint.ring or "what hangs" for i in hanging.laid.rested]
        found.append(f"on a level straight it stays where it is put, taken as the middle: {', '.join(names)}")
    if hanging.order.down and any(_is_ring(hanging.a_set, b) for b in hanging.order.down):
        found.append("where two bars cross they are taken to cross square; nothing else turns it about plumb")
    return tuple(found)


def _in_wall(hanging: Hanging) -> str:
    """How deep a tail is in the wall."""
    name = hanging.held.spot.name
    if most_of_bar(hanging.a_set, hanging.held):
        return f"held fast: the end of {name} goes square into the wall, {DEEP:g} times as deep as it is thick"
    return f"held fast: {name} goes square into the wall"


def _on_pins(hanging: Hanging) -> Iterator[str]:
    """How what turns on pins was taken to lie."""
    names = hanging.a_set.bodies
    turned = [names[b].name for b, swung in hanging.tracks.pins.items() if swung.arm > 0]
    stays = [names[b].name for b, swung in hanging.tracks.pins.items() if swung.arm == 0]
    if turned:
        turns = "turned about its middle to where it balances lowest, as far along it as it was put together"
        yield f"on its pin, {turns}: {', '.join(turned)}"
    if stays:
        yield f"on a pin that stands upright (or balanced on it), turned as it was put together: {', '.join(stays)}"
    if any(bridle.top in hanging.order.pins for bridle in hanging.order.bridles):
        yield "what hangs on several ties from a thing on a pin is taken to turn it by as much at each tie"


def _on_loops(hanging: Hanging) -> Iterator[str]:
    """Where what hangs on a level loop was taken to stay."""
    names = hanging.a_set.bodies
    for group in kept(hanging.order, hanging.tracks):
        loop = hanging.tracks.links[group[0].number][0].name or names[group[0].upper].name
        hung = ", ".join(names[h.lower].name for h in group)
        if len(group) > 1:
            yield f"{hung}: spread evenly round the {loop}, where friction keeps them"
        else:
            yield f"{hung}: halfway round the {loop} from its joint, where friction keeps it"


def _is_ring(a_set: SetResult, body: int) -> bool:
    return all(isinstance(a_set.parts[i].piece, RingResult) for i in a_set.bodies[body].parts)


def _findings(hanging: Hanging) -> tuple[Finding, ...]:
    found = [_slides(hanging, body) for body in hanging.rests.sliding]
    found += [_slides_off(hanging, number) for number in hanging.laid.slid]
    for bridle, settled in zip(hanging.order.bridles, hanging.rests.bridles, strict=True):
        if settled is None:
            name = hanging.a_set.bodies[bridle.bottom].name
            says = f"{name} finds no rest on its {len(bridle.ties)} ties"
            found.append(warn("finds-no-rest", says, "see that its eyes are above where it balances"))
    found += [_tangled(hanging, number) for number in hanging.order.tangled]
    found += [_unturned(hanging, number) for number in hanging.order.unturned]
    found += _beyond(hanging)
    return tuple(found)


def _slides(hanging: Hanging, body: int) -> Finding:
    """A body that does not rest inside what it is carried by, or whose load does not rest on it."""
    name = hanging.a_set.bodies[body].name
    hold = hanging.order.holds.get(body)
    where = hanging.a_set.links[hold.number].joint.where if hold else Where()
    track = hanging.tracks.links[hold.number][1] if hold else hanging.tracks.root
    by = f" by its {track.name}" if track and track.name and track.name != name else ""
    says = f"hung{by}, {name} does not come to rest: it slides to the end, or what hangs on it does"
    return warn("slides-off", says, "a longer bend, an eye, or another place to hang it by", where)


def _slides_off(hanging: Hanging, number: int) -> Finding:
    link = hanging.a_set.links[number]
    names = [hanging.a_set.bodies[i].name for i in (link.first, link.second)]
    says = f"as it is held, nothing keeps {names[1]} and {names[0]} together: there is no hollow to hang in"
    return warn("slides-off", says, "turn the bend so that its hollow looks upward", link.joint.where)


def _tangled(hanging: Hanging, number: int) -> Finding:
    link = hanging.a_set.links[number]
    names = [hanging.a_set.bodies[i].name for i in (link.first, link.second)]
    says = f"{names[0]} and {names[1]} are tied in a round that is not reckoned: this joint is left out of how it hangs"
    return warn("tied-round", says, "", link.joint.where)


def _unturned(hanging: Hanging, number: int) -> Finding:
    joint = hanging.a_set.pivots[number].joint
    says = f"the pin through {' and '.join(joint.through)} closes a round: it is left out of how the set hangs"
    return warn("tied-round", says, "", joint.where)


def _beyond(hanging: Hanging) -> list[Finding]:
    names = [hanging.a_set.bodies[i].name for i in hanging.order.beyond if i not in hanging.on_rivets]
    if not names:
        return []
    says = f"hangs on nothing, so it is left out of how the set hangs: {', '.join(names)}"
    return [note("hangs-on-nothing", says, "a line under `joins` says what it hangs on")]
