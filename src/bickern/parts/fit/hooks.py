"""Open hooks: what hangs in a bend of a bar with two ends goes in by its mouth, and nothing need be threaded."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from math import pi

from bickern.geometry.space import Vec, distance, dot, minus, mixed, norm
from bickern.iron.section import Section
from bickern.measure.finding import Finding, stop, warn
from bickern.measure.units.words import Style
from bickern.parts.bar.result import BarResult, BendSpan
from bickern.parts.bar.tracks import BendLeg, StraightLeg
from bickern.parts.fit.checked import Checked, finding_at
from bickern.parts.fit.loops import Loop, loop_named, toward_the_middle
from bickern.parts.fit.openings import neighbours, openings_at
from bickern.parts.fit.result import FitRow, FitWord
from bickern.parts.fit.rings import Inside, bar_at, inside_of, wall_of
from bickern.parts.fit.words import moving, said_margin, spare
from bickern.parts.joint.spec import JointKind, JointSpec
from bickern.parts.ring.spec import Closing
from bickern.parts.set.pieces import Pieces
from bickern.parts.set.places import section_at_place, split_place
from bickern.parts.set.spots.laid import LaidBar, Stretch, laid_bar, stretch_named, with_bends

BENT = 2 * pi / 3
"""Radians: a bend of so much or more holds what hangs in it, and is taken for a hook (chosen here)."""


@dataclass(frozen=True, slots=True)
class Hung:
    """One hook on one thing: the `hook` bend, what it hangs `on`, and the hook's mouth [m]."""

    joint: JointSpec
    hook: str
    on: str
    mouth: float | None


def hooks_of(joints: Sequence[JointSpec], pieces: Pieces) -> tuple[Hung, ...]:
    """Every hook of all ring joints: as it is told, or a bend that a ring is put round and that is wide enough open."""
    mouths: dict[tuple[str, str], float | None] = {}  # hooks made alike are measured once
    return tuple(hung for joint in joints if joint.kind is JointKind.RING for hung in _hooks_in(joint, pieces, mouths))


def _hooks_in(joint: JointSpec, pieces: Pieces, mouths: dict[tuple[str, str], float | None]) -> Iterator[Hung]:
    if joint.hooked:
        yield from (Hung(joint, joint.ring, place, _measured(joint.ring, pieces, mouths)) for place in joint.through)
        return
    bends = [p for p in joint.through if (found := _bend_named(p, pieces)) is not None and found[0].angle >= BENT]
    loop = loop_named(joint.ring, pieces) if bends else None
    for place in bends if loop is not None else ():
        mouth = _measured(place, pieces, mouths)
        if loop is not None and mouth is not None and moving(mouth - _thin(loop.wire)) is not FitWord.NO:
            yield Hung(joint, place, joint.ring, mouth)


def _thin(section: Section) -> float:
    return min(section.width, section.thick)


def _measured(place: str, pieces: Pieces, mouths: dict[tuple[str, str], float | None]) -> float | None:
    bar, spot = split_place(place, pieces)
    key = (bar.spec.name if bar is not None else "", spot)
    if key not in mouths:
        mouths[key] = mouth_at(place, pieces)
    return mouths[key]


def _bend_named(place: str, pieces: Pieces) -> tuple[BendLeg, BendSpan, BarResult] | None:
    """A bend of an open bar, by its name."""
    bar, spot = split_place(place, pieces)
    if not isinstance(bar, BarResult) or bar.spec.closed or not spot:
        return None
    bends = (leg for leg in bar.spec.path if not isinstance(leg, StraightLeg))
    pairs = zip(bends, bar.bends, strict=False)
    return next(((leg, b, bar) for leg, b in pairs if isinstance(leg, BendLeg) and leg.name == spot), None)


def hook_named(place: str, pieces: Pieces) -> Loop | None:
    """A hook's bend as a loop, so wide inside as the bend; None where the place is no bend."""
    found = _bend_named(place, pieces)
    if found is None:
        return None
    leg, bend, bar = found
    section = section_at_place(bar.runs, (bend.start + bend.end) / 2)
    if section is None:
        return None
    inside = 2 * bend.inside_radius
    return Loop(place, toward_the_middle(section, leg.turn), inside, inside, Closing.OPEN)


def mouth_at(place: str, pieces: Pieces) -> float | None:
    """How wide [m] the mouth of a hook is: from its tip to the nearest of its own bar beyond the bend.

    The tip is the nearer end of the bar. None where the place is no stretch of an open bar, or is at its very end.
    """
    bar, spot = split_place(place, pieces)
    if not isinstance(bar, BarResult) or bar.spec.closed:
        return None
    stretch = stretch_named(bar, spot)
    if stretch is None:
        return None
    low, high = with_bends(bar, stretch)
    from_start = low <= bar.length - high
    beyond = (high, bar.length) if from_start else (0.0, low)
    if beyond[1] - beyond[0] <= 1e-6:
        return None
    return _gap(laid_bar(bar), 0.0 if from_start else bar.length, beyond)


def _gap(laid: LaidBar, tip: float, beyond: Stretch) -> float:
    """Least distance [m] between the metal at the tip and that of a stretch, both as thick as toward one another."""
    end = laid.frame(tip).origin
    places = [(at, laid.frame(at).origin) for at in laid.stations(beyond)]
    gaps = []
    for (a, start), (b, stop_) in pairwise(places):
        share = _foot(end, start, stop_)
        near = mixed(start, 1.0, minus(stop_, start), share)
        way = minus(near, end)
        gaps.append(distance(near, end) - _reach(laid, tip, way) - _reach(laid, a + share * (b - a), way))
    return max(0.0, min(gaps))


def _foot(place: Vec, start: Vec, end: Vec) -> float:
    """Share of the way along a straight where it is nearest to a place."""
    along = minus(end, start)
    long = dot(along, along)
    return min(1.0, max(0.0, dot(minus(place, start), along) / long)) if long > 0 else 0.0


def _reach(laid: LaidBar, at: float, way: Vec) -> float:
    """How far [m] the section reaches from its middle that way; round bar half its thickness."""
    wide, thick, cornered = laid.box(at)
    if not cornered or norm(way) <= 0:
        return min(wide, thick) / 2
    frame, far = laid.frame(at), norm(way)
    return (abs(dot(way, frame.left)) * wide + abs(dot(way, frame.up)) * thick) / 2 / far


def hook_rows(hooks: Sequence[Hung], pieces: Pieces, style: Style) -> Checked:
    """What each hook hangs on, against the hook's mouth."""
    found = Checked()
    for hung in hooks:
        metal = _metal(hung.on, pieces)
        if hung.mouth is not None and metal is not None:
            found += _mouth(hung, hung.mouth, metal, style)
    return found


def _metal(place: str, pieces: Pieces) -> Inside | None:
    """What a hook that hangs there goes round: a ring's bar, the metal beside a hole, a bar."""
    loop = loop_named(place, pieces)
    if loop is not None:
        return inside_of(place, loop.wire)
    openings = openings_at(place, pieces)
    return wall_of(openings[0]) if openings else bar_at(place, pieces)


def _mouth(hung: Hung, mouth: float, metal: Inside, style: Style) -> Checked:
    """Flat metal goes in by its thin way."""
    needed = min(metal.wide, metal.thick)
    margin = mouth - needed
    says = f"its mouth is {said_margin(mouth, style)}: {spare(margin, style)}"
    row = FitRow(hung.joint, f"{hung.hook} on {hung.on}", "hook mouth", moving(margin), needed, mouth, margin, says)
    fault = _fault(row, hung, style)
    return Checked((row,), (finding_at(hung.joint, fault),) if fault else ())


def _fault(row: FitRow, hung: Hung, style: Style) -> Finding | None:
    said = f"The mouth of {hung.hook} is {said_margin(row.has, style)}, and {hung.on} {said_margin(row.needed, style)}"
    tries = "Open the hook, or hang it on thinner metal."
    if row.word is FitWord.NO:
        return stop("hook-too-shut", f"{said}: it does not go in", tries)
    if row.word is FitWord.BINDS:
        return warn("hook-just-opens", f"{said}: it goes in with a knock", tries)
    return None


def without_hooks(joints: Sequence[JointSpec], hooks: Sequence[Hung], pieces: Pieces) -> tuple[JointSpec, ...]:
    """The joints as their closing sees them: hooks hang by themselves, and a ring that they hang on is closed alone."""
    left: list[JointSpec] = []
    for joint in joints:
        mine = {hung.hook for hung in hooks if hung.joint is joint}
        if joint.hooked:
            left += [replace(joint, ring=p, through=()) for p in joint.through if _closed_alone(p, pieces)]
        else:
            left.append(replace(joint, through=tuple(p for p in joint.through if p not in mine)) if mine else joint)
    return tuple(left)


def _closed_alone(place: str, pieces: Pieces) -> bool:
    return loop_named(place, pieces) is not None and not neighbours(place, pieces)


def hanging_lines(hooks: Sequence[Hung], pieces: Pieces) -> tuple[str, ...]:
    """Hooks are hung on when all is made: one line for all that hang by the same bend on the same thing."""
    found: dict[tuple[str, str], list[str]] = {}
    for hung in hooks:
        hook, _, bend = hung.hook.partition(".")
        row = found.setdefault((bend, hung.on), [])
        if hook not in row:
            row.append(hook)
    return tuple(_line(row, bend, on, pieces) for (bend, on), row in found.items())


def _line(hooks: Sequence[str], bend: str, on: str, pieces: Pieces) -> str:
    who = [_each(hook, pieces) for hook in hooks]
    told = " and ".join((", ".join(who[:-1]), who[-1])) if len(who) > 1 else who[0]
    return f"When all else is done, hang {told} on {on} by the {bend}: a hook needs no threading."


def _each(hook: str, pieces: Pieces) -> str:
    piece = pieces.get(hook)
    return f"each of the {piece.spec.make} {hook}" if piece is not None and piece.spec.make > 1 else hook
