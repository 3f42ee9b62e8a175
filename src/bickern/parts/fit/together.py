"""Whether all that hangs in one ring, and all rings that go through one opening, have room side by side."""

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from bickern.measure.finding import Finding, stop, warn
from bickern.measure.units.words import Style
from bickern.parts.fit.checked import Bench, Checked
from bickern.parts.fit.hooks import hook_named
from bickern.parts.fit.loops import Loop, loop_named
from bickern.parts.fit.openings import Opening, how_many, neighbours, openings_at
from bickern.parts.fit.order import listed
from bickern.parts.fit.packing import room_in_link
from bickern.parts.fit.result import FitRow, FitWord
from bickern.parts.fit.rings import Inside, bar_at, inside_of, room_for, wall_of
from bickern.parts.fit.words import moving, said_margin, spare
from bickern.parts.joint.spec import JointKind, JointSpec
from bickern.parts.set.pieces import Pieces

EXACT_TO = 3
"""So many round bars in a ring are reckoned exactly; more of them amply."""


@dataclass(frozen=True, slots=True)
class Held:
    """All that one ring or opening has in it, and the last joint that puts something there."""

    joint: JointSpec
    parts: tuple[Inside, ...]


def in_rings(joints: Sequence[JointSpec], pieces: Pieces) -> dict[str, Held]:
    """What lies in each ring that a joint names: what it goes round, and the rings that go through it."""
    held: dict[str, Held] = {}
    met: set[frozenset[str]] = set()
    for joint in _ring_joints(joints):
        loop = _joining(joint, pieces)
        for place in joint.through if loop is not None else ():
            pair = frozenset((joint.ring, place))
            other = loop_named(place, pieces)
            if loop is None or (other is not None and pair in met):
                continue
            met.add(pair)
            places, rings = how_many(joint, place, pieces)
            if not joint.hooked:  # a hook is open upward: what hangs in it lies as high as it must
                _add(held, joint.ring, joint, _metal_at(place, pieces, places))
            if other is not None:
                _add(held, place, joint, (inside_of(joint.ring, loop.wire),) * rings)
    return _with_neighbours(held, met, pieces)


def _joining(joint: JointSpec, pieces: Pieces) -> Loop | None:
    return hook_named(joint.ring, pieces) if joint.hooked else loop_named(joint.ring, pieces)


def _ring_joints(joints: Iterable[JointSpec]) -> list[JointSpec]:
    return [j for j in joints if j.kind is JointKind.RING]


def _metal_at(place: str, pieces: Pieces, places: int) -> tuple[Inside, ...]:
    """The metal that comes to lie in a ring at so many places; of an opening, the wall beside it."""
    openings = openings_at(place, pieces)
    metal = [wall_of(o) for o in openings for _ in range(o.number)] or [bar_at(place, pieces)]
    parts = max(1, places // len(metal))
    return tuple(m for m in (metal * parts)[:places] if m is not None)


def _add(held: dict[str, Held], name: str, joint: JointSpec, parts: tuple[Inside, ...]) -> None:
    before = held[name].parts if name in held else ()
    held[name] = Held(joint, (*before, *parts))


def _with_neighbours(held: dict[str, Held], met: set[frozenset[str]], pieces: Pieces) -> dict[str, Held]:
    """A link of a chain also holds the links before and after it."""
    full = dict(held)
    for name, one in held.items():
        for neighbour in neighbours(name, pieces):
            loop = loop_named(neighbour, pieces)
            if loop is not None and frozenset((name, neighbour)) not in met:
                full[name] = Held(one.joint, (*full[name].parts, inside_of(neighbour, loop.wire)))
    return full


def all_in_ring(name: str, held: Held, pieces: Pieces, bench: Bench) -> Checked:
    """Whether everything in one ring has room there at once; nothing is said where it holds one thing."""
    loop = loop_named(name, pieces)
    in_chain = neighbours(name, pieces)
    if loop is None or len(held.parts) < 2 or all(p.name in in_chain for p in held.parts):
        return Checked()
    margin = _room(held.parts, loop)
    certain = all(p.rounded for p in held.parts) and len(held.parts) <= EXACT_TO
    word = _word(margin, held.parts, loop, certain=certain)
    names = _named(p.name for p in held.parts)
    says = f"{names} at once: {spare(margin, bench.style)}" if certain or margin > 0 else f"{names} at once: tight"
    row = FitRow(held.joint, f"all in {name}", "holds all", word, loop.long - margin, loop.long, margin, says)
    return Checked((row,), tuple(f.at(held.joint.where) for f in _full(row, held, loop, bench.style)))


def _named(names: Iterable[str]) -> str:
    """`a, b and c`; of several alike, how many."""
    return listed([f"{n} of {name}" if n > 1 else name for name, n in Counter(names).items()])


def _room(parts: tuple[Inside, ...], loop: Loop) -> float:
    """What is left over [m]: each in the round about it; two things also as they hang, against opposite ends."""
    packed = room_in_link([p.across for p in parts], loop.across, loop.long)
    if len(parts) != 2 or any(room_for(p, loop) <= 0 for p in parts):
        return packed
    return max(packed, loop.long - sum(p.depth(loop.across) for p in parts))


def _word(margin: float, parts: tuple[Inside, ...], loop: Loop, *, certain: bool) -> FitWord:
    """Where the sum is ample only, what it finds too tight binds, unless the two thickest have no room even flat."""
    if margin > 0 or certain:
        return moving(margin)
    return FitWord.NO if _flat(parts) >= loop.long else FitWord.BINDS


def _flat(parts: tuple[Inside, ...]) -> float:
    """The two thickest side by side, each the thin way [m]: less room than this is never enough."""
    return sum(sorted((min(p.wide, p.thick) for p in parts), reverse=True)[:2])


def _full(row: FitRow, held: Held, loop: Loop, style: Style) -> tuple[Finding, ...]:
    tries = "Make the ring bigger, or what goes through it thinner."
    inside = said_margin(loop.long, style)
    if row.word is FitWord.NO:
        needs = said_margin(row.needed, style)
        says = f"What lies in {loop.name} side by side wants a ring {needs} inside; it is {inside}"
        return (stop("ring-too-full", says, tries),)
    if row.word is FitWord.BINDS:
        names = _named(p.name for p in held.parts)
        says = f"{names} lie tight in {loop.name}, which is {inside} inside: they may not move"
        return (warn("ring-tight-together", says, tries),)
    return ()


def through_openings(joints: Sequence[JointSpec], pieces: Pieces) -> dict[str, tuple[JointSpec, tuple[Loop, ...]]]:
    """Rings that go through each single opening by name; one of several that are told together is not known which."""
    found: dict[str, tuple[JointSpec, tuple[Loop, ...]]] = {}
    for joint in _ring_joints(joints):
        loop = _joining(joint, pieces)
        for place in joint.through:
            if loop is None or loop_named(place, pieces) is not None:
                continue
            openings = openings_at(place, pieces)
            if len(openings) == 1 and openings[0].number == 1:
                before = found[place][1] if place in found else ()
                found[place] = (joint, (*before, *(loop,) * how_many(joint, place, pieces)[1]))
    return found


def all_through(joint: JointSpec, loops: tuple[Loop, ...], opening: Opening, bench: Bench) -> Checked:
    """Whether several rings have room in one hole or eye, side by side; their curve is not counted here."""
    if len(loops) < 2:
        return Checked()
    parts = [inside_of(loop.name, loop.wire) for loop in loops]
    margin = room_in_link([p.across for p in parts], opening.across, opening.long)
    word, names = moving(margin), _named(loop.name for loop in loops)
    says = f"{names} at once: {spare(margin, bench.style)}"
    needed = opening.across - margin
    row = FitRow(joint, f"all in {opening.place}", "holds all", word, needed, opening.across, margin, says)
    if word is not FitWord.NO:
        return Checked((row,))
    said = f"{names} do not go through {opening.place} together: they want {said_margin(needed, bench.style)}"
    found = stop("opening-too-full", said, "Open the hole, or take thinner bar.", joint.where)
    return Checked((row,), (found,))
