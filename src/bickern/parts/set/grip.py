"""How thick the pieces are where a joint goes through them, and how far it is round a bundle."""

from math import sin

from bickern.iron.section import Section
from bickern.measure.units.words import Shape
from bickern.parts.bar.result import BarResult, HoleCheck
from bickern.parts.bar.tracks import Face
from bickern.parts.joint.bundle import bundle_girth
from bickern.parts.joint.spec import JointKind, JointSpec
from bickern.parts.ring.spec import RingResult
from bickern.parts.set.pieces import PieceResult
from bickern.parts.set.places import (
    eye_named,
    number_of,
    one_of,
    run_named,
    section_at_place,
    section_of_eye,
    section_on,
    split_place,
)

Pieces = dict[str, PieceResult]
TOO_THICK = 0.5
"""A pin more than so many times as thick as the bar it is said to go through is that bar itself (chosen here)."""


def grip_of(joint: JointSpec, pieces: Pieces) -> float | None:
    """Thickness [m] that a joint grips: what is told, else the sum over the places it names; None where unknown."""
    if joint.grip is not None:
        return joint.grip
    gripped = [name for name in joint.through if not _fills(joint, name, pieces)]
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


def _fills(joint: JointSpec, place: str, pieces: Pieces) -> bool:
    """Whether a place is what fills the others, and is not gripped."""
    if joint.kind is JointKind.TENON:
        return is_tenon(place, pieces)
    return drawn_pin(joint, place, pieces) is not None


def is_pin(size: float, thick: float, *, rounded: bool) -> bool:
    """Whether a pin of that size [m] is the bar it is said to go through: it leaves too little of it to be in it."""
    return rounded and size > TOO_THICK * thick


def drawn_pin(joint: JointSpec, place: str, pieces: Pieces) -> Section | None:
    """The section of round bar without a hole that a pin joint names, where that is the pin itself."""
    piece, spot = split_place(place, pieces)
    if joint.kind is not JointKind.PIN or not isinstance(piece, BarResult) or eye_named(piece, spot) is not None:
        return None
    holed = any((spot and spot in (c.hole.name, c.hole.at.name)) or one_of(spot, c.hole.name) for c in piece.holes)
    section = None if holed or one_of(spot, "holes") else section_on(piece, spot)
    if section is None or not is_pin(joint.size, section.thick, rounded=section.shape is Shape.ROUND):
        return None
    return section


def place_of_pin(joint: JointSpec, pieces: Pieces) -> str:
    """The place that is the pin itself, "" where the pin is cut for itself."""
    return next((place for place in joint.through if drawn_pin(joint, place, pieces) is not None), "")


def _thick_at(place: str, pieces: Pieces) -> float | None:
    piece, spot = split_place(place, pieces)
    if piece is None:
        return None
    if isinstance(piece, BarResult):
        return _bar_thick(piece, spot)
    return piece.spec.wire.thick if isinstance(piece, RingResult) else piece.spec.thick


def _bar_thick(bar: BarResult, spot: str) -> float | None:
    holes = [c for c in bar.holes if spot == c.hole.name or one_of(spot, "holes") or one_of(spot, c.hole.name)]
    if holes:
        which = number_of(spot) or 1
        return plate_round(bar, holes[min(which, len(holes)) - 1])
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
