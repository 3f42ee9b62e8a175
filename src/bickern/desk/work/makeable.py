"""Which pieces and joints of a job an order of work is offered for, and why not for the others."""

from collections.abc import Iterator
from math import sqrt

from bickern.desk.forge_fit import forge_findings
from bickern.iron.section import area
from bickern.making.shop import Shop
from bickern.measure.finding import Finding, note
from bickern.measure.units.words import MILLIMETRE
from bickern.paper.copy import Copy, PieceResult
from bickern.parts.bar.result import BarResult
from bickern.parts.joint.spec import JointKind, JointResult, JointSpec
from bickern.parts.set.places import split_place

STOPPED = "something stops this piece: see what was found"
TOO_THICK = "it is thicker than anything that is warmed through and forged by hand"
LEFT_OPEN = "something stops what it is threaded through, or their joint: closed now, it would go through nothing"
"""Why no order of work is offered for a piece."""
THICKEST = 400 * MILLIMETRE
"""Side [m] of a square as big as the biggest section that an order of work is offered for: a choice of ours, far beyond
a hand's work. The curves of heat are checked to 50 mm and mean nothing beyond 2 m."""

Pieces = tuple[PieceResult, ...]


def able(copy: Copy, pieces: Pieces) -> dict[str, PieceResult]:
    """The pieces that can be made, by name: nothing stops them, and no ring would be closed before what it holds."""
    there = {piece.spec.name: piece for piece in pieces if not _refusal(piece, copy.shop)}
    while True:
        lacking = [j for j in _left_out(copy, there) if j.kind is JointKind.RING and not j.hooked]
        rings = {ring.spec.name for j in lacking if (ring := split_place(j.ring, there)[0]) is not None}
        if not rings:
            return there
        there = {name: piece for name, piece in there.items() if name not in rings}


def joints_of(copy: Copy, there: dict[str, PieceResult]) -> tuple[JointResult, ...]:
    """The joints that can be made of these pieces."""
    return tuple(j for j in copy.joints if _all_there(j.spec, there) and not _joint_stopped(j, copy))


def refused(copy: Copy) -> dict[str, str]:
    """The pieces of the job that no order of work is offered for, by name, and why."""
    made = able(copy, copy.pieces)
    reckoned = {piece.spec.name: _refusal(piece, copy.shop) or LEFT_OPEN for piece in copy.pieces}
    return {spec.name: reckoned.get(spec.name, STOPPED) for spec in copy.job.pieces if spec.name not in made}


def joints_left_out(copy: Copy) -> tuple[Finding, ...]:
    """Joints that no order of work is offered for, since something stops them or a piece of theirs."""
    says = "this joint is left out of the order of work"
    way = "mend first what stops it, or the pieces it takes in"
    out = _left_out(copy, able(copy, copy.pieces))
    return tuple(note("joint-left-out", says, way, spec.where) for spec in out)


def _refusal(piece: PieceResult, shop: Shop) -> str:
    """Why a piece by itself cannot be made; "" where it can."""
    if any(f.stops for f in (*piece.findings, *forge_findings(piece, shop))):
        return STOPPED
    return TOO_THICK if max(_thicks(piece), default=0.0) > THICKEST else ""


def _thicks(piece: PieceResult) -> Iterator[float]:
    """Side [m] of a square as big as each section of a bar and of its limbs; sheet and rings are never so thick."""
    if isinstance(piece, BarResult):
        yield from (sqrt(area(section)) for run in piece.runs for section in (run.a, run.b))
        yield from (thick for limb in piece.children for thick in _thicks(limb))


def _left_out(copy: Copy, there: dict[str, PieceResult]) -> tuple[JointSpec, ...]:
    """The joints of the job that cannot be made of these pieces."""
    made = [joint.spec for joint in joints_of(copy, there)]
    return tuple(spec for spec in copy.job.joints if spec not in made)


def _joint_stopped(joint: JointResult, copy: Copy) -> bool:
    """Whether the joint cannot be made: by itself, since it does not go together, or thicker than a hand forges."""
    if joint.spec.size > THICKEST:
        return True
    fit = (f for f in copy.fit.findings if f.where == joint.spec.where)
    return any(f.stops for f in (*joint.findings, *fit))


def _all_there(joint: JointSpec, there: dict[str, PieceResult]) -> bool:
    """Whether every piece that a joint takes in is among those that are made."""
    places = (*joint.through, joint.ring)
    return all(split_place(place, there)[0] is not None for place in places if place)
