"""What must be done before what: holes before rings, rings threaded before they are closed, links by turns."""

from collections.abc import Sequence

from bickern.iron.section import radius_of_circle_round
from bickern.measure.finding import Finding, note
from bickern.measure.units.say import say_percent
from bickern.measure.units.words import Style
from bickern.parts.bar.result import BarResult
from bickern.parts.bar.tracks import EyeLeg
from bickern.parts.fit.chains import implied
from bickern.parts.fit.hooks import Hung, hanging_lines, without_hooks
from bickern.parts.fit.loops import Loop, loop_named
from bickern.parts.fit.openings import neighbours, openings_at
from bickern.parts.fit.words import said_number
from bickern.parts.joint.spec import JointKind, JointSpec
from bickern.parts.ring.spec import Closing, RingResult
from bickern.parts.set.grip import drawn_pin, is_tenon
from bickern.parts.set.pieces import Pieces
from bickern.parts.set.places import number_of, section_of_eye, split_place, where_on

RIGID = (JointKind.WELD, JointKind.TENON, JointKind.COLLAR, JointKind.RIVET, JointKind.WRAP)
"""Made hot and for good, in this order; rings hang in what is made, pins and screws come last (common practice)."""
LAST = (JointKind.PIN, JointKind.SCREW)


def order_of(joints: Sequence[JointSpec], pieces: Pieces, style: Style, hooks: Sequence[Hung] = ()) -> tuple[str, ...]:
    """Lines that say in which order to close everything; none where nothing is joined. `hooks` are hung on last."""
    rigid = [_made(j, pieces, style) for kind in RIGID for j in joints if j.kind is kind]
    last = [_made(j, pieces, style) for kind in LAST for j in joints if j.kind is kind]
    rings = _rings(without_hooks(joints, hooks, pieces), pieces)
    return (*_holes_first(joints, pieces), *rigid, *rings, *last, *hanging_lines(hooks, pieces))


def _holes_first(joints: Sequence[JointSpec], pieces: Pieces) -> tuple[str, ...]:
    places = dict.fromkeys(p for j in joints if j.kind is JointKind.RING for p in j.through)
    open_ = [p for p in places if any(o.tool not in ("inside", "eye") for o in openings_at(p, pieces))]
    return (f"Make the hole first: {listed(open_)}.",) if open_ else ()


def _rings(joints: Sequence[JointSpec], pieces: Pieces) -> list[str]:
    """Rings that are threaded through nothing, chains by turns, then each ring through those closed before it."""
    wanted, chains = _wanted(joints), _chains(pieces)
    told = _threaded(wanted, chains)
    alone = [p for p in dict.fromkeys(p for row in wanted.values() for p in row) if _alone(p, wanted, pieces)]
    alone += [name for name, through in told.items() if not through]
    first = [f"Close first, by themselves: {listed(alone)}."] if alone else []
    turns = [line for ring in chains.values() for line in _chain(ring, wanted)]
    threaded = [_ring(name, through, pieces, chains) for name, through in told.items() if through]
    return [*first, *turns, *(t for t in threaded if t)]


def _wanted(joints: Sequence[JointSpec]) -> dict[str, list[str]]:
    """What each ring is to go through, over all its joints."""
    wanted: dict[str, list[str]] = {}
    for joint in joints:
        if joint.kind is JointKind.RING:
            wanted.setdefault(joint.ring, []).extend(joint.through)
    return wanted


def _chains(pieces: Pieces) -> dict[str, RingResult]:
    return {p.spec.name: p for p in pieces.values() if isinstance(p, RingResult) and p.chain is not None}


def _threaded(wanted: dict[str, list[str]], chains: dict[str, RingResult]) -> dict[str, list[str]]:
    """Each ring in its turn, with what it is threaded through then: rings not yet closed come through it later."""
    told: dict[str, list[str]] = {}
    for name in in_turn(wanted):
        linked = name.rpartition(" ")[0] in chains
        later = [p for p in wanted if name in wanted[p] and p in told and p not in wanted[name]]
        told[name] = [p for p in (*wanted[name], *later) if linked or p not in wanted or p in told]
    return told


def _alone(place: str, wanted: dict[str, list[str]], pieces: Pieces) -> bool:
    """Whether a place is a ring that is threaded through nothing itself."""
    return place not in wanted and loop_named(place, pieces) is not None and not neighbours(place, pieces)


def in_turn(wanted: dict[str, list[str]]) -> list[str]:
    """Rings so that each comes after those it is threaded through; rings told in a circle come as they are told."""
    done: list[str] = []
    left = list(wanted)
    while left:
        ready = next((r for r in left if not any(p in left and p != r for p in wanted[r])), left[0])
        done.append(ready)
        left.remove(ready)
    return done


def _ring(name: str, through: list[str], pieces: Pieces, chains: dict[str, RingResult]) -> str:
    loop = loop_named(name, pieces)
    if loop is None:
        return ""
    chain = chains.get(name.rpartition(" ")[0])
    whom, others = _whom(name, pieces), _others(through, pieces)
    if chain is not None and loop.closing is Closing.WELDED:
        return f"Leave {whom} open until it is {others}; then weld it."
    return _closing(loop).format(name=whom, others=others)


def _whom(name: str, pieces: Pieces) -> str:
    """`links 2`, `the ring`, or all of several that are told by one name."""
    if number_of(name):
        return name
    piece = pieces.get(name)
    return f"each of the {piece.spec.make} {name}" if piece is not None and piece.spec.make > 1 else f"the {name}"


def _others(through: list[str], pieces: Pieces) -> str:
    """`through boss.hole and links 2`, `round arm.scroll`."""
    places = list(dict.fromkeys(through))
    open_ = [p for p in places if openings_at(p, pieces)]
    bars = [p for p in places if p not in open_]
    told = (f"through {listed(open_)}" if open_ else "", f"round {listed(bars)}" if bars else "")
    return " and ".join(t for t in told if t)


def _closing(loop: Loop) -> str:
    """How a ring is got round what it holds, by its ends."""
    if loop.closing is Closing.WELDED:
        return "Thread {name} {others}, then weld it."
    if loop.closing is Closing.OPEN:
        return "Hook {name} {others}; it stays open."
    strained = f" (that strains its skin {say_percent(loop.opening)} each way)" if loop.opening > 0 else ""
    return "Open {name} sideways" + strained + ", thread it {others}, close it."


def _chain(ring: RingResult, wanted: dict[str, list[str]]) -> tuple[str, ...]:
    """Every second link is closed by itself, the others through their neighbours: the links that joints name last."""
    count, name = (ring.chain.links if ring.chain else 0), ring.spec.name
    told = [number_of(r) for r in wanted if r.rpartition(" ")[0] == name]
    named = [(n - 1) % count + 1 for n in told if n]
    who = f"{name}, each of {ring.spec.make}" if ring.spec.make > 1 else name
    odd_last = not named or sum(1 for n in named if n % 2) * 2 >= len(named)
    first = [n for n in range(1, count + 1) if (n % 2 == 0) is odd_last]
    second = [n for n in range(1, count + 1) if n not in first]
    verb = {Closing.WELDED: "weld", Closing.OPEN: "close"}.get(ring.spec.closing, "close")
    return (
        f"{who}: {verb} {len(first)} links by themselves ({_numbers(first)}).",
        f"{who}: thread each of the others ({_numbers(second)}) through its two neighbours, then {verb} it.",
    )


def _numbers(numbers: Sequence[int]) -> str:
    """`2, 4 and 6`; a long row is told by its ends."""
    if len(numbers) > 4:
        return f"{numbers[0]}, {numbers[1]}, {numbers[2]} ... {numbers[-1]}"
    return listed([str(n) for n in numbers])


def _made(joint: JointSpec, pieces: Pieces, style: Style) -> str:
    places, size = listed(list(dict.fromkeys(joint.through))), said_number(joint.size, style)
    drawn = [p for p in joint.through if drawn_pin(joint, p, pieces) is not None]
    if drawn:
        return f"Put {listed(drawn)} through {listed([p for p in joint.through if p not in drawn])}."
    if joint.kind in (JointKind.RIVET, JointKind.PIN, JointKind.SCREW):
        many = f"{joint.number} {joint.kind}s" if joint.number > 1 else f"the {joint.kind}"
        return f"Set {many} of {size} through {places}."
    if joint.kind is JointKind.TENON:
        return f"Put the tenon through {listed([p for p in joint.through if not is_tenon(p, pieces)])}, rivet it over."
    if joint.kind is JointKind.WELD:
        return f"Forge weld {places}."
    return f"Close the {joint.kind} round {places}."


def listed(names: Sequence[str]) -> str:
    """`a, b and c`."""
    return " and ".join((", ".join(names[:-1]), names[-1])) if len(names) > 1 else "".join(names)


def closing_findings(joints: Sequence[JointSpec], pieces: Pieces) -> tuple[Finding, ...]:
    """What must not be closed too early: welded rings, and chains that are welded link by link."""
    rings = [j for j in joints if j.kind is JointKind.RING]
    told = _threaded(_wanted(rings), _chains(pieces))
    welded = [f for j in rings for f in _welded(j, told[j.ring], pieces)]
    return (*welded, *(f for p in pieces.values() for f in _by_turns(p)))


def _welded(joint: JointSpec, threaded: list[str], pieces: Pieces) -> tuple[Finding, ...]:
    """A welded ring must be through everything first; of two welded rings only one may be closed before."""
    loop = loop_named(joint.ring, pieces)
    if loop is None or loop.closing is not Closing.WELDED:
        return ()
    others = [p for p in joint.through if p not in neighbours(joint.ring, pieces)]
    loops = {p: loop_named(p, pieces) for p in others}
    closed = [p for p, o in loops.items() if p in threaded and o is not None and o.closing is Closing.WELDED]
    holes = [p for p, o in loops.items() if o is None and openings_at(p, pieces)]
    found = []
    if holes:
        says = f"{joint.ring} is welded: it must be through {listed(holes)} before its weld is made"
        found.append(note("thread-first", says, "Make the hole first, thread the ring, then weld it.", joint.where))
    bars = [] if holes or closed else [p for p in others if loops[p] is None and _between_ends(loop, p, pieces)]
    if bars:
        says = f"{joint.ring} is welded, and passes neither end of {listed(bars)}: it must be round it before its weld"
        found.append(note("thread-first", says, "Thread the ring, then weld it.", joint.where))
    if closed:
        says = f"{listed([joint.ring, *closed])} are welded: closed one by one they can never be got together"
        found.append(note("closed-rings", says, f"Leave {joint.ring} open, thread it, and weld it last.", joint.where))
    return tuple(found)


def _between_ends(loop: Loop, place: str, pieces: Pieces) -> bool:
    """Whether a closed ring round a bar cannot be slid on from either end: thicker metal, or an eye, is in its way."""
    bar, spot = split_place(place, pieces)
    at = where_on(bar, spot) if isinstance(bar, BarResult) else None
    if at is None or not isinstance(bar, BarResult):
        return False
    ways = ([r for r in bar.runs if r.start < at], [r for r in bar.runs if r.end > at])
    thick = [max((2 * radius_of_circle_round(s) for r in runs for s in (r.a, r.b)), default=0.0) for runs in ways]
    for i, leg in enumerate((bar.spec.path[0], bar.spec.path[-1]) if bar.spec.path else ()):
        if isinstance(leg, EyeLeg):
            thick[i] = max(thick[i], leg.inside_across + 2 * section_of_eye(bar, leg).thick)
    return min(thick) > max(loop.across, loop.long)


def _by_turns(piece: object) -> tuple[Finding, ...]:
    joint = implied(piece) if isinstance(piece, RingResult) else None
    if joint is None or not isinstance(piece, RingResult) or piece.spec.closing is not Closing.WELDED:
        return ()
    says = f"every link of {piece.spec.name} is welded: links closed by themselves can never be put together"
    tries = "Weld every second link by itself; thread the others through their neighbours before their weld."
    return (note("links-by-turns", says, tries, joint.where),)
