"""Whether a tenon drawn on its bar is as long as the joint wants it."""

from bickern.measure.finding import Finding, warn
from bickern.measure.units.say import say_both
from bickern.measure.units.words import INCH, Style
from bickern.parts.bar.result import BarResult, MetalRun
from bickern.parts.joint.spec import JointKind, JointResult
from bickern.parts.set.pieces import PieceResult
from bickern.parts.set.places import piece_named

NEAR = INCH / 32
"""Metres: a tenon this near the length asked for is taken as meant (common practice)."""


def tenon_findings(joint: JointResult, pieces: dict[str, PieceResult], style: Style) -> tuple[Finding, ...]:
    """A warning for each tenon drawn shorter or longer than the shop's rule asks; none where the grip is not known."""
    if joint.spec.kind is not JointKind.TENON or joint.metal <= 0 or joint.grip <= 0:
        return ()
    runs = [run for place in joint.spec.through if (run := _drawn(place, pieces)) is not None]
    wrong = [run for run in runs if abs(run.end - run.start - joint.metal) > NEAR]
    return tuple(_wrong(run, joint, style) for run in wrong)


def _drawn(place: str, pieces: dict[str, PieceResult]) -> MetalRun | None:
    name, _, spot = place.partition(".")
    piece = piece_named(name, pieces)
    if not isinstance(piece, BarResult):
        return None
    return next((run for run in piece.runs if run.name == spot), None)


def _wrong(run: MetalRun, joint: JointResult, style: Style) -> Finding:
    long, wanted = run.end - run.start, joint.metal
    says = (
        f"the tenon is drawn {say_both(long, style)} long; the joint wants {say_both(wanted, style)} past the shoulder"
    )
    return warn("tenon-length", says, "change its length, or tell the joint's `grip`", joint.spec.where)
