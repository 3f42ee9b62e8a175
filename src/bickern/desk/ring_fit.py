"""Whether a ring enters the holes and eyes it is put through: closed forms only, no motion."""

from dataclasses import dataclass

from bickern.desk.grip import piece_named, section_at_place
from bickern.measure.finding import Finding
from bickern.paper.copy import PieceResult
from bickern.parts.bar.result import BarResult, HoleCheck
from bickern.parts.bar.tracks import EyeLeg, Face
from bickern.parts.joint.holes import ring_in_hole
from bickern.parts.joint.spec import JointKind, JointSpec
from bickern.parts.ring.spec import RingResult


@dataclass(frozen=True, slots=True)
class Opening:
    """A hole or eye: its size and the thickness of the metal round it [m]."""

    size: float
    plate: float


def ring_findings(joint: JointSpec, pieces: dict[str, PieceResult]) -> tuple[Finding, ...]:
    """Faults of a ring in every opening that it goes through; other joints have none."""
    ring = piece_named(joint.ring, pieces)
    if joint.kind is not JointKind.RING or not isinstance(ring, RingResult):
        return ()
    openings = [o for place in joint.through if (o := _opening(place, pieces)) is not None]
    wire, radius = ring.spec.wire.thick, ring.inside_across / 2
    return tuple(f for o in openings for f in ring_in_hole(wire, radius, o.plate, o.size, joint.where))


def _opening(place: str, pieces: dict[str, PieceResult]) -> Opening | None:
    name, _, spot = place.partition(".")
    piece = piece_named(name, pieces)
    if isinstance(piece, RingResult):
        return Opening(piece.inside_across, piece.spec.wire.thick)
    if isinstance(piece, BarResult):
        return _in_bar(piece, spot)
    lug = next((g for g in piece.spec.lugs if g.name == spot or spot == "lugs"), None) if piece else None
    return Opening(lug.eye, lug.width) if lug and lug.eye else None


def _in_bar(bar: BarResult, spot: str) -> Opening | None:
    for check in bar.holes:
        if check.hole.name == spot:
            return _round_hole(bar, check)
    eye = next((e for e in bar.spec.path if isinstance(e, EyeLeg) and e.name == spot), None)
    ends = bar.runs[0].a if eye is bar.spec.path[0] else bar.runs[-1].b
    return Opening(eye.inside_across, ends.thick) if eye else None


def _round_hole(bar: BarResult, check: HoleCheck) -> Opening | None:
    section = section_at_place(bar.runs, check.at)
    if section is None:
        return None
    side = check.hole.face in (Face.LEFT, Face.RIGHT)
    return Opening(check.hole.size, section.width if side else section.thick)
