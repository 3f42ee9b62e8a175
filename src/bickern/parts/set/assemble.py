"""The main question of this room: the pieces put together by their joints.

Parts that rivets, screws, tenons, welds and collars hold are one body; a ring or a chain's link hangs loosely in what
it goes through; a pin, and one single rivet through one hole of each of two parts, let them turn.
"""

from collections.abc import Mapping, Sequence

from bickern.geometry.pose import put
from bickern.geometry.space import ORIGIN, Vec, mixed, times
from bickern.measure.finding import NOWHERE, Finding, Where, note, warn
from bickern.parts.joint.spec import JointKind, JointResult, JointSpec
from bickern.parts.set.balance import mass_of
from bickern.parts.set.fixings import fixings_of
from bickern.parts.set.pieces import PieceResult
from bickern.parts.set.placing import Laid, lay_together, pivots_of
from bickern.parts.set.result import Body, Fixing, Held, Link, Part, SetResult
from bickern.parts.set.roll_call import At, Roll, roll_call
from bickern.parts.set.spots.seats import moved_seat
from bickern.parts.set.stacks import Rings, Stack, chained, rings_of, stacks_of, turns
from bickern.parts.set.two_pins import held_fast_by_two
from bickern.parts.sheet.allowances import SheetRules

Joined = tuple[Stack, ...]
Balance = tuple[float, Vec]
"""Mass [kg], and the place where it balances [m]."""


def assemble(
    pieces: Mapping[str, PieceResult],
    joints: Sequence[JointSpec],
    made: Sequence[JointResult] = (),
    *,
    hung_from: str = "",
    on: str = "",
    where: Where = NOWHERE,
    rules: SheetRules = SheetRules(),  # noqa: B008 - frozen
) -> SetResult:
    """One set put together. `made`: the joints reckoned, for the mass of rivets; `hung_from` a named place, `on` what.

    How rigid parts come to lie is told in `placing`. Faults are findings in the result.
    """
    roll = roll_call(pieces, rules)
    rigid, turning, rings, findings = _taken_apart(joints, roll)
    laid = lay_together(roll, rigid, rings)
    masses = {s.kind: (mass_of(s.piece), roll.middle(s.piece)) for s in roll.singles}
    parts = tuple(
        Part(s.name, s.piece, laid.body[i], laid.poses[i], *masses[s.kind]) for i, s in enumerate(roll.singles)
    )
    links = _links(rings, laid)
    pivots, turned = pivots_of(roll, turning, laid)
    held, unheld = _held(roll, laid, hung_from, on, where)
    loose = _loose(roll, (*rigid, *turning), rings, held)
    found = (*findings, *laid.findings, *turned, *unheld, *_loose_note(roll, loose, bool(joints)))
    fixings = fixings_of((*rigid, *turning), laid, pivots, made)
    bodies = _bodies(parts, laid, fixings)
    return SetResult(parts, bodies, links, pivots, held, loose, tuple(dict.fromkeys(found)), fixings)


def _taken_apart(
    joints: Sequence[JointSpec], roll: Roll
) -> tuple[Joined, Joined, tuple[Rings, ...], tuple[Finding, ...]]:
    rigid: list[Stack] = []
    turning: list[Stack] = []
    rings: list[Rings] = [*chained(roll)]
    findings: list[Finding] = []
    for joint in joints:
        if joint.kind is JointKind.RING:
            more, lost = rings_of(joint, roll)
            rings += more
        else:
            stacks, lost = stacks_of(joint, roll)
            (turning if turns(joint, stacks) else rigid).extend(stacks)
        findings += lost
    fast, loose, notes = held_fast_by_two(turning)
    return (*rigid, *fast), loose, tuple(rings), (*findings, *notes)


def _links(rings: Sequence[Rings], laid: Laid) -> tuple[Link, ...]:
    """Each ring with each place that it goes through, once however often the job says so."""
    found: dict[tuple[frozenset[int], str], Link] = {}
    for one in rings:
        for at in one.through:
            if laid.body[at.part] == laid.body[one.ring.part]:
                continue
            both_rings = at.spot.name if at.spot.kind != one.ring.spot.kind else ""
            key = (frozenset((at.part, one.ring.part)), both_rings)
            found.setdefault(key, _link(at, one.ring, one.joint, laid))
    return tuple(found.values())


def _link(at: At, ring: At, joint: JointSpec, laid: Laid) -> Link:
    seats = tuple(moved_seat(x.spot.seat, laid.poses[x.part]) for x in (at, ring) if x.spot.seat is not None)
    first, second = laid.body[at.part], laid.body[ring.part]
    return Link(first, second, (at.part, ring.part), (seats[0], seats[1]), (at.spot, ring.spot), joint)


def _held(roll: Roll, laid: Laid, hung_from: str, on: str, where: Where) -> tuple[Held | None, tuple[Finding, ...]]:
    if not hung_from:
        return None, ()
    places = roll.places(hung_from)
    if not places:
        says = f"“{hung_from}” is not to be found on the pieces: how the set hangs cannot be told"
        return None, (warn("place-not-found", says, "name a bend, an eye, a hole or a stretch of metal", where),)
    at = places[0]
    return Held(laid.body[at.part], at.part, at.spot, on), ()


def _loose(roll: Roll, stacks: Joined, rings: Sequence[Rings], held: Held | None) -> tuple[int, ...]:
    joined = {part for stack in stacks for part in stack.parts}
    joined |= {part for one in rings for part in (one.ring.part, *(at.part for at in one.through))}
    return tuple(i for i in range(len(roll.singles)) if i not in joined and (held is None or held.part != i))


def _loose_note(roll: Roll, loose: Sequence[int], has_joints: bool) -> tuple[Finding, ...]:
    if not loose or not has_joints or len(loose) == len(roll.singles):
        return ()
    names = list(dict.fromkeys(roll.singles[i].kind for i in loose))
    says = f"joined to nothing in this job: {', '.join(names)}"
    return (note("loose", says, "a line under `joins` says what holds it", roll.singles[loose[0]].piece.spec.where),)


def _bodies(parts: Sequence[Part], laid: Laid, fixings: Sequence[Fixing]) -> tuple[Body, ...]:
    weights: dict[int, list[Balance]] = {}
    for part in parts:
        weights.setdefault(part.body, []).append((part.mass, put(part.pose, part.centre)))
    for fixing in fixings:
        weights[fixing.body].append((fixing.mass, put(fixing.pose, (0.0, 0.0, fixing.grip / 2))))
    members = {b: tuple(i for i, p in enumerate(parts) if p.body == b) for b in sorted(weights)}
    return tuple(Body(parts[m[0]].name, m, *_together(weights[b])) for b, m in members.items())


def _together(weights: Sequence[Balance]) -> Balance:
    total, moment = 0.0, ORIGIN
    for mass, place in weights:
        total += mass
        moment = mixed(moment, 1.0, place, mass)
    return total, times(moment, 1 / total) if total > 0 else moment
