"""How thick the pieces are where a joint goes through them."""

from math import sin

from bickern.iron.blend import section_at
from bickern.iron.section import Section
from bickern.paper.copy import PieceResult
from bickern.parts.bar.result import BarResult, MetalRun
from bickern.parts.bar.tracks import EyeLeg, Face
from bickern.parts.joint.bundle import bundle_girth
from bickern.parts.joint.spec import JointKind, JointSpec
from bickern.parts.ring.spec import RingResult

_SHARES = {"": 0.5, "bar": 0.5, "start": 0.0, "middle": 0.5, "end": 1.0}
"""Where along a bar a joint stands that names no part of it."""


def grip_of(joint: JointSpec, pieces: dict[str, PieceResult]) -> float | None:
    """Thickness [m] that a joint grips: what is told, else the sum over the places it names; None where unknown."""
    if joint.grip is not None:
        return joint.grip
    gripped = [name for name in joint.through if joint.kind is not JointKind.TENON or not _is_tenon(name, pieces)]
    found = [_thick_at(name, pieces) for name in gripped]
    known = [t for t in found if t is not None]
    return sum(known) if known and len(known) == len(found) else None


def girth_of(joint: JointSpec, pieces: dict[str, PieceResult]) -> float | None:
    """Girth [m] of the bundle that a collar or a wrap goes round; None where a bar of it is not known."""
    found = [_bar_at(name, pieces) for name in joint.through]
    bars = [b for b in found if b is not None]
    return bundle_girth(bars) if bars and len(bars) == len(found) else None


def piece_named(name: str, pieces: dict[str, PieceResult]) -> PieceResult | None:
    """A piece by its name, or by the name of one of several (`links 2`)."""
    head, _, last = name.rpartition(" ")
    return pieces.get(name) or (pieces.get(head) if last.isdigit() else None)


def _bar_at(place: str, pieces: dict[str, PieceResult]) -> Section | None:
    name, _, spot = place.partition(".")
    piece = piece_named(name, pieces)
    if not isinstance(piece, BarResult):
        return None
    run = next((r for r in piece.runs if r.name == spot), piece.runs[0] if not spot else None)
    return run.a if run else None


def _is_tenon(place: str, pieces: dict[str, PieceResult]) -> bool:
    """A stretch of bar named in a tenon joint is the tenon itself: it goes through, and is not gripped."""
    name, _, spot = place.partition(".")
    piece = piece_named(name, pieces)
    return isinstance(piece, BarResult) and any(run.name == spot for run in piece.runs)


def _thick_at(place: str, pieces: dict[str, PieceResult]) -> float | None:
    name, _, spot = place.partition(".")
    piece = piece_named(name, pieces)
    if piece is None:
        return None
    if isinstance(piece, BarResult):
        return _bar_thick(piece, spot)
    return piece.spec.wire.thick if isinstance(piece, RingResult) else piece.spec.thick


def _bar_thick(bar: BarResult, spot: str) -> float | None:
    for check in bar.holes:
        if check.hole.name == spot:
            across = section_at_place(bar.runs, check.at)
            side = check.hole.face in (Face.LEFT, Face.RIGHT)
            return (across.width if side else across.thick) if across else None
    if (run := next((r for r in bar.runs if r.name == spot), None)) is not None:
        return min(run.a.thick, run.b.thick)
    if (eye := next((e for e in bar.spec.path if isinstance(e, EyeLeg) and e.name == spot), None)) is not None:
        end = bar.runs[0].a if eye is bar.spec.path[0] else bar.runs[-1].b
        return end.width if abs(sin(eye.turn)) > 0.5 else end.thick
    share = _SHARES.get(spot)
    whole = section_at_place(bar.runs, share * bar.length) if share is not None else None
    return whole.thick if whole else None


def section_at_place(runs: tuple[MetalRun, ...], at: float) -> Section | None:
    """The section at a place [m] along a finished bar; None off its ends."""
    for run in runs:
        if run.start <= at <= run.end and run.end > run.start:
            return section_at(run.a, run.b, (at - run.start) / (run.end - run.start))
    return None
