"""What must be done before what: holes before rings, rings threaded before they are closed, a chain from one end.

Each new link is put on the end of the chain while it is open, then closed: T. F. Googerty, Practical Forging and Art
Smithing, 1915, ex. 8; W. L. Ilgen, Forge Work, 1912, s. 80; J. B. Stokes, Intermediate Blacksmithing, FAO 88/2, 1992,
job 7 (handbooks, read in the source).
"""

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
from bickern.parts.set.places import number_of, piece_named, section_of_eye, split_place, where_on

RIGID = (JointKind.WELD, JointKind.TENON, JointKind.COLLAR, JointKind.RIVET, JointKind.WRAP)
"""Made hot and for good, in this order; rings hang in what is made, pins and screws come last (common practice)."""
LAST = (JointKind.PIN, JointKind.SCREW)
_ON_THE_END = "through the end link of the chain"


def order_of(joints: Sequence[JointSpec], pieces: Pieces, style: Style, hooks: Sequence[Hung] = ()) -> tuple[str, ...]:
    """Lines that say in which order to close everything; none where nothing is joined. `hooks` are hung on last."""
    weld, *cooler = ([_made(j, pieces, style) for j in joints if j.kind is kind] for kind in RIGID)
    last = [_made(j, pieces, style) for kind in LAST for j in joints if j.kind is kind]
    early, hung = hung_first(joints, pieces), without_hooks(joints, hooks, pieces)
    first = _threading(threaded([j for j in hung if j.ring in early], pieces), pieces) if early else []
    rings = _rings([j for j in hung if j.ring not in early], pieces)
    rigid = (*weld, *first, *(line for lines in cooler for line in lines))
    return (*_holes_first(joints, pieces), *rigid, *rings, *last, *hanging_lines(hooks, pieces))


def hung_first(joints: Sequence[JointSpec], pieces: Pieces) -> frozenset[str]:
    """Welded rings that hang in one bar alone, which is then riveted or bound to another: they are welded before that.

    Else all that it is fixed to would lie in the ring's white heat (common practice).
    """
    fixed = {name for j in joints if j.kind in RIGID[1:] for p in j.through if (name := _on(p, pieces))}
    through: dict[str, set[str]] = {}
    for joint in joints:
        if joint.kind is JointKind.RING and not joint.hooked:
            through.setdefault(joint.ring, set()).update(_on(p, pieces) for p in joint.through)
    return frozenset(r for r, on in through.items() if len(on) == 1 and on <= fixed and _is_welded(r, pieces))


def _on(place: str, pieces: Pieces) -> str:
    """The bar that a place lies on; "" where it is none."""
    piece = piece_named(place.partition(".")[0], pieces)
    return piece.spec.name if isinstance(piece, BarResult) else ""


def _is_welded(name: str, pieces: Pieces) -> bool:
    ring = piece_named(name, pieces)
    return isinstance(ring, RingResult) and ring.chain is None and ring.spec.closing is Closing.WELDED


def _holes_first(joints: Sequence[JointSpec], pieces: Pieces) -> tuple[str, ...]:
    places = dict.fromkeys(p for j in joints if j.kind is JointKind.RING for p in j.through)
    open_ = [p for p in places if any(o.tool not in ("inside", "eye") for o in openings_at(p, pieces))]
    return (f"Make the hole first: {listed(open_)}.",) if open_ else ()


def _rings(joints: Sequence[JointSpec], pieces: Pieces) -> list[str]:
    """Rings that are threaded through nothing, then each ring and link through those that are closed before it."""
    told = threaded(joints, pieces)
    alone = [p for p in dict.fromkeys(p for row in told.values() for p in row) if _alone(p, told, pieces)]
    alone += [name for name, through in told.items() if not through]
    first = [f"Close first, by themselves: {listed(alone)}."] if alone else []
    return [*first, *_untied(told, pieces), *_threading(told, pieces)]


def _wanted(joints: Sequence[JointSpec], pieces: Pieces) -> dict[str, list[str]]:
    """What each ring is to go through, over all its joints, and each link of a chain that joints speak of."""
    told: dict[str, list[str]] = {}
    for joint in joints:
        if joint.kind is JointKind.RING:
            told.setdefault(joint.ring, []).extend(joint.through)
    chains = dict.fromkeys(_chain_with(name, pieces) for ring, row in told.items() for name in (ring, *row))
    links = {link: row for chain in chains if chain for link, row in _from_one_end(chain, told, pieces).items()}
    return links | {ring: row for ring, row in told.items() if ring not in links}


def _chain_with(name: str, pieces: Pieces) -> tuple[str, ...]:
    """All links of the chain that a link is of; of several chains alike the links are numbered on."""
    piece, number = piece_named(name, pieces), number_of(name)
    if not isinstance(piece, RingResult) or piece.chain is None or number is None:
        return ()
    first = number - (number - 1) % piece.chain.links
    return tuple(f"{piece.spec.name} {n}" for n in range(first, first + piece.chain.links))


def _from_one_end(chain: Sequence[str], told: dict[str, list[str]], pieces: Pieces) -> dict[str, list[str]]:
    """Each link through the one before it, and what its joints say.

    A chain is begun at an end that hangs in something else; the end that shuts it to a circle comes last.
    """
    others = {link: [p for p in told.get(link, ()) if p not in neighbours(link, pieces)] for link in chain}
    first, last = (0 if set(others[end]) - set(chain) else 2 if others[end] else 1 for end in (chain[0], chain[-1]))
    row = chain if first <= last else chain[::-1]
    return {link: [*row[max(0, i - 1) : i], *others[link]] for i, link in enumerate(row)}


def threaded(joints: Sequence[JointSpec], pieces: Pieces) -> dict[str, list[str]]:
    """Each ring in its turn, with what it is threaded through then: rings not yet closed come through it later."""
    wanted = _wanted(joints, pieces)
    holds: dict[str, list[str]] = {}
    for ring, row in wanted.items():
        for place in row:
            holds.setdefault(place, []).append(ring)
    told: dict[str, list[str]] = {}
    for name in in_turn(wanted):
        places = dict.fromkeys((*wanted[name], *(p for p in holds.get(name, ()) if p in told)))
        told[name] = [p for p in places if p not in wanted or p in told]
    return told


def _alone(place: str, told: dict[str, list[str]], pieces: Pieces) -> bool:
    """Whether a place is a ring that is threaded through nothing itself."""
    return place not in told and loop_named(place, pieces) is not None


def in_turn(wanted: dict[str, list[str]]) -> list[str]:
    """Rings so that each comes after those it is threaded through; rings told in a circle come as they are told."""
    done: list[str] = []
    left = dict(wanted)
    while left:
        ready = next((r for r in left if not any(p in left and p != r for p in wanted[r])), next(iter(left)))
        done.append(ready)
        del left[ready]
    return done


def _threading(told: dict[str, list[str]], pieces: Pieces) -> list[str]:
    """A line for each ring that is threaded; links that only go on the end of their chain are told together."""
    runs: list[list[str]] = []
    for name, through in told.items():
        if runs and through == runs[-1][-1:] and through[0] in neighbours(name, pieces):
            runs[-1].append(name)
        else:
            runs.append([name])
    lines = []
    for first, *rest in runs:
        lines += [_line(first, _whom(first, pieces), _others(told[first], pieces), pieces)] if told[first] else []
        many = f"each of {first.rpartition(' ')[0]} {_numbers(rest)}" if rest[1:] else "".join(rest)
        lines += [_line(rest[0], many, _ON_THE_END, pieces)] if rest else []
    return [line for line in lines if line]


def _untied(told: dict[str, list[str]], pieces: Pieces) -> list[str]:
    """Chains that hang in nothing, by their names."""
    lines = []
    for name, ring in pieces.items():
        if isinstance(ring, RingResult) and ring.chain is not None:
            make = ring.spec.make
            left = make - sum(link.rpartition(" ")[0] == name for link in told) // ring.chain.links
            who = f"{name} ({left} of {make})" if make > 1 else name
            each = _line(name, "each next one", _ON_THE_END, pieces)
            lines += [f"{who}: begin with one link. {each}"] if left > 0 else []
    return lines


def _line(name: str, whom: str, others: str, pieces: Pieces) -> str:
    loop = loop_named(name, pieces)
    return _closing(loop).format(name=whom, others=others) if loop is not None else ""


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


def _numbers(links: Sequence[str]) -> str:
    """`2, 3 and 4`; a long row is told by its ends."""
    numbers = [link.rpartition(" ")[2] for link in links]
    if len(numbers) > 4:
        return f"{numbers[0]}, {numbers[1]}, {numbers[2]} ... {numbers[-1]}"
    return listed(numbers)


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
    told = threaded(rings, pieces)
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
        tries = f"Leave {joint.ring} open until it is threaded, then weld it."
        found.append(note("closed-rings", says, tries, joint.where))
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
    tries = "Put each new link through the end link of the chain, then weld it."
    return (note("links-by-turns", says, tries, joint.where),)
