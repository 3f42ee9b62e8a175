"""The main question of this room: how a set hangs, how far off plumb, in what band, and what would change it."""

from collections.abc import Iterator
from dataclasses import replace

from bickern.geometry.pose import HERE
from bickern.measure.finding import Finding, Where, note, warn
from bickern.measure.units.words import Style
from bickern.parts.bar.result import BarResult
from bickern.parts.hang.change import changes_of
from bickern.parts.hang.friction import IRON_ON_IRON
from bickern.parts.hang.hanging import Hanging, drop_of, hung_up, tilts_of
from bickern.parts.hang.held import DEEP, held_fast, is_stem, most_of_bar, pins_of_held
from bickern.parts.hang.result import HangResult, Touch
from bickern.parts.hang.spread import kept
from bickern.parts.ring.spec import RingResult
from bickern.parts.set.result import SetResult
from bickern.parts.set.spots.laid import stretch_named


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
    return replace(found, changes=changes_of(hanging, found, style))


def held_at(set_result: SetResult, angle: float, *, friction: float = IRON_ON_IRON.value) -> HangResult:
    """The set held in the hand with its free end raised by `angle` [rad] above level (below nothing: lowered)."""
    return hang(set_result, friction=friction, changes=False, angle=angle)


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


def _touches(hanging: Hanging) -> tuple[Touch, ...]:
    names = [body.name for body in hanging.a_set.bodies]
    return tuple(
        Touch(b.upper, b.lower, b.point, hanging.held.on if b.upper < 0 else names[b.upper], names[b.lower])
        for b in hanging.laid.bears
    )


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
    if not fast and _hangs_by_a_taper(hanging):
        found.append("thinned metal in a bend is taken to lie against what it was bent round")
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


def _hangs_by_a_taper(hanging: Hanging) -> bool:
    """Whether the bar is not as thick all along the bend that it hangs by."""
    seat = hanging.held.spot.seat
    bar = hanging.a_set.parts[hanging.held.part].piece
    stretch = stretch_named(bar, hanging.held.spot.name) if isinstance(bar, BarResult) and seat else None
    if stretch is None or not isinstance(bar, BarResult):
        return False
    within = [run for run in bar.runs if run.start < stretch[1] and run.end > stretch[0]]
    return len({(s.width, s.thick) for run in within for s in (run.a, run.b)}) > 1


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
