"""How thick the pieces are where a joint goes through them, and how far it is round a bundle."""

from math import sin

from bickern.parts.bar.result import BarResult, HoleCheck
from bickern.parts.bar.tracks import Face
from bickern.parts.joint.bundle import bundle_girth
from bickern.parts.joint.spec import JointKind, JointSpec
from bickern.parts.ring.spec import RingResult
from bickern.parts.set.pieces import PieceResult
from bickern.parts.set.places import eye_named, run_named, section_at_place, section_of_eye, section_on, split_place

Pieces = dict[str, PieceResult]


def grip_of(joint: JointSpec, pieces: Pieces) -> float | None:
    """Thickness [m] that a joint grips: what is told, else the sum over the places it names; None where unknown."""
    if joint.grip is not None:
        return joint.grip
    gripped = [name for name in joint.through if joint.kind is not JointKind.TENON or not is_tenon(name, pieces)]
    found = [_thick_at(name, pieces) for name in gripped]
    known = [t for t in found if t is not None]
    return sum(known) if known and len(known) == len(found) else None


def girth_of(joint: JointSpec, pieces: Pieces) -> float | None:
    """Girth [m] of the bundle that a collar or a wrap goes round; None where a bar of it is not known."""
    places = [split_place(name, pieces) for name in joint.through]
    found = [section_on(piece, spot) if isinstance(piece, BarResult) else None for piece, spot in places]
    bars = [b for b in found if b is not None]
    return bundle_girth(bars) if bars and len(bars) == len(found) else None


def is_tenon(place: str, pieces: Pieces) -> bool:
    """A stretch of bar named in a tenon joint is the tenon itself: it goes through, and is not gripped."""
    piece, spot = split_place(place, pieces)
    return isinstance(piece, BarResult) and run_named(piece, spot) is not None


def _thick_at(place: str, pieces: Pieces) -> float | None:
    piece, spot = split_place(place, pieces)
    if piece is None:
        return None
    if isinstance(piece, BarResult):
        return _bar_thick(piece, spot)
    return piece.spec.wire.thick if isinstance(piece, RingResult) else piece.spec.thick


def _bar_thick(bar: BarResult, spot: str) -> float | None:
    hole = next((check for check in bar.holes if spot in ("holes", check.hole.name)), None)
    if hole is not None:
        return plate_round(bar, hole)
    if (run := run_named(bar, spot)) is not None:
        return min(run.a.thick, run.b.thick)
    if (eye := eye_named(bar, spot)) is not None:
        end = section_of_eye(bar, eye)
        return end.width if abs(sin(eye.turn)) > 0.5 else end.thick
    whole = section_on(bar, spot)
    return whole.thick if whole else None


def plate_round(bar: BarResult, hole: HoleCheck) -> float | None:
    """Thickness [m] of the metal that a hole goes through."""
    section = section_at_place(bar.runs, hole.at)
    if section is None:
        return None
    return section.width if hole.hole.face in (Face.LEFT, Face.RIGHT) else section.thick
