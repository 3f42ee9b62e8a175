"""Whether a rivet, a pin, a screw or a tenon enters the holes that it is put through, and is not slack in them."""

from bickern.desk.spots import piece_named
from bickern.measure.finding import Finding, stop, warn
from bickern.measure.units.say import say_both
from bickern.measure.units.words import Style
from bickern.paper.copy import PieceResult
from bickern.parts.bar.result import BarResult
from bickern.parts.joint.holes import hole_for_rivet, hole_for_screw
from bickern.parts.joint.spec import JointKind, JointSpec
from bickern.parts.sheet.result import SheetResult

SAME = 1e-6
"""Metres: sizes nearer than this are one size."""
FILLS = frozenset((JointKind.RIVET, JointKind.PIN, JointKind.SCREW, JointKind.TENON))
"""Joints that fill a hole. A rivet or a tenon may be as thick as its hole is called, a pin or a screw may not."""
TURNS = frozenset((JointKind.PIN, JointKind.SCREW))


def hole_findings(joint: JointSpec, pieces: dict[str, PieceResult], style: Style) -> tuple[Finding, ...]:
    """Faults of what fills each hole that the joint goes through by name."""
    if joint.kind not in FILLS or joint.size <= 0:
        return ()
    holes = {size for place in joint.through for size in _holes(place, pieces)}
    return tuple(f.at(joint.where) for size in sorted(holes) if (f := _fit(joint, size, style)) is not None)


def _holes(place: str, pieces: dict[str, PieceResult]) -> tuple[float, ...]:
    name, _, spot = place.partition(".")
    piece = piece_named(name, pieces)
    if not spot or not isinstance(piece, BarResult | SheetResult):
        return ()
    if isinstance(piece, SheetResult):
        return tuple(h.size for h in piece.spec.holes if spot in ("holes", h.name))
    return tuple(h.size for h in piece.spec.holes if spot in ("holes", h.name, h.at.name))


def _fit(joint: JointSpec, hole: float, style: Style) -> Finding | None:
    what, size = f"a {joint.kind} of {_said(joint.size, style)}", f"a hole of {_said(hole, style)}"
    if joint.size > hole + SAME:
        return stop(f"{joint.kind}-fills-hole", f"{what} does not enter {size}", _way(joint, style))
    if joint.kind in TURNS and joint.size > hole - SAME:
        return warn(
            f"{joint.kind}-fills-hole", f"{what} is as thick as its hole: it must be driven", _way(joint, style)
        )
    if joint.kind is JointKind.RIVET and hole > hole_for_rivet(joint.size) + SAME:
        most = _said(hole_for_rivet(joint.size), style)
        return warn("rivet-slack", f"{what} is slack in {size}", f"make the hole no bigger than {most}")
    return None


def _way(joint: JointSpec, style: Style) -> str:
    hole = hole_for_screw(joint.size) if joint.kind is JointKind.SCREW else None
    if joint.kind is JointKind.RIVET:
        return f"open the hole to {_said(joint.size, style)} or a little over, or take a thinner rivet"
    return f"open the hole{f' to {_said(hole, style)}' if hole else ''}, or take a thinner {joint.kind}"


def _said(length: float, style: Style) -> str:
    return say_both(length, style, fit=True)
