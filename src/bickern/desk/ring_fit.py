"""Whether a ring goes through the holes and eyes, and round the bars, that it is put through: closed forms only."""

from dataclasses import dataclass

from bickern.desk.grip import plate_round
from bickern.desk.spots import eye_named, piece_named, section_of_eye, section_on, split_place
from bickern.iron.section import Section, radius_of_circle_round
from bickern.measure.finding import Finding, note, stop
from bickern.measure.units.say import say_both
from bickern.measure.units.words import Style
from bickern.paper.copy import PieceResult
from bickern.parts.bar.result import BarResult
from bickern.parts.joint.holes import ring_in_hole
from bickern.parts.joint.spec import JointKind, JointSpec
from bickern.parts.ring.spec import Closing, RingResult

Pieces = dict[str, PieceResult]


@dataclass(frozen=True, slots=True)
class Opening:
    """A hole or eye: its size and the thickness of the metal round it [m]."""

    size: float
    plate: float


def ring_findings(joint: JointSpec, pieces: Pieces, style: Style) -> tuple[Finding, ...]:
    """Faults of a ring in every opening and round every bar that it is put through; other joints have none."""
    ring = piece_named(joint.ring, pieces)
    if joint.kind is not JointKind.RING or not isinstance(ring, RingResult):
        return ()
    openings = [o for place in joint.through if (o := _opening(place, pieces)) is not None]
    wire, radius = ring.spec.wire.thick, ring.inside_across / 2
    jams = [f for o in openings for f in ring_in_hole(wire, radius, o.plate, o.size, joint.where)]
    return (*jams, *_too_full(ring, joint, pieces, style), *_close_after(ring, joint, openings))


def _opening(place: str, pieces: Pieces) -> Opening | None:
    piece, spot = split_place(place, pieces)
    if isinstance(piece, RingResult):
        return Opening(piece.inside_across, piece.spec.wire.thick)
    if isinstance(piece, BarResult):
        return _in_bar(piece, spot)
    lug = next((g for g in piece.spec.lugs if spot in (g.name, "lugs")), None) if piece else None
    return Opening(lug.eye, lug.width) if lug and lug.eye else None


def _in_bar(bar: BarResult, spot: str) -> Opening | None:
    hole = next((check for check in bar.holes if spot in ("holes", check.hole.name)), None)
    if hole is not None:
        plate = plate_round(bar, hole)
        return Opening(hole.hole.size, plate) if plate is not None else None
    eye = eye_named(bar, spot)
    return Opening(eye.inside_across, section_of_eye(bar, eye).thick) if eye else None


def _too_full(ring: RingResult, joint: JointSpec, pieces: Pieces, style: Style) -> tuple[Finding, ...]:
    """Bars that the ring goes round, and wires that lie in it side by side, against its inside."""
    within = [(place, s) for place in joint.through if (s := _inside_it(place, pieces)) is not None]
    inside = say_both(ring.inside_across, style)
    for place, section in within:
        if (size := 2 * radius_of_circle_round(section)) >= ring.inside_across:
            says = f"{place} is {say_both(size, style)} across: the ring, {inside} inside, does not go round it"
            return (stop("ring-round-too-small", says, "Make the ring bigger, or name a thinner place.", joint.where),)
    both = sum(sorted((min(s.width, s.thick) for _, s in within), reverse=True)[:2])
    if both > ring.inside_across:
        says = f"What lies in the ring side by side is {say_both(both, style)} together; the ring is {inside} inside"
        return (stop("ring-too-full", says, "Make the ring bigger, or what goes through it thinner.", joint.where),)
    return ()


def _inside_it(place: str, pieces: Pieces) -> Section | None:
    """The section that lies inside the ring at a place: another ring's wire, or a bar that the ring goes round."""
    piece, spot = split_place(place, pieces)
    if isinstance(piece, RingResult):
        return piece.spec.wire
    if not isinstance(piece, BarResult) or _in_bar(piece, spot) is not None:
        return None
    return section_on(piece, spot)


def _close_after(ring: RingResult, joint: JointSpec, openings: list[Opening]) -> tuple[Finding, ...]:
    if ring.spec.closing is not Closing.WELDED or not openings:
        return ()
    says = f"{joint.ring} is welded: it must be through {' and '.join(joint.through)} before its weld is made"
    return (note("thread-first", says, "Punch the hole first, thread the ring, then weld it.", joint.where),)
