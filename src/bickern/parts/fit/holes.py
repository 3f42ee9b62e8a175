"""Whether a rivet, a pin, a screw or a tenon enters the holes that it is put through, and is not slack in them."""

from bickern.iron.section import Section, radius_of_circle_round
from bickern.measure.finding import Finding, stop, warn
from bickern.measure.units.say import say_both
from bickern.measure.units.words import Style
from bickern.parts.bar.result import BarResult
from bickern.parts.fit.checked import Bench, Checked
from bickern.parts.fit.drifts import told, tried
from bickern.parts.fit.loops import ROUND
from bickern.parts.fit.openings import Opening, openings_at
from bickern.parts.fit.result import FitRow, FitWord
from bickern.parts.fit.words import FREE_FROM, riveted, said_number, screwed, tenoned, turning_in
from bickern.parts.joint.holes import SAME, hole_for_rivet, hole_for_screw
from bickern.parts.joint.spec import JointKind, JointSpec
from bickern.parts.set.grip import drawn_pin
from bickern.parts.set.pieces import Pieces
from bickern.parts.set.places import run_named, split_place

FILLS = frozenset((JointKind.RIVET, JointKind.PIN, JointKind.SCREW, JointKind.TENON))
"""Joints that fill a hole. A rivet or a tenon may be as thick as its hole is called, a pin or a screw may not."""
TURNS = frozenset((JointKind.PIN, JointKind.SCREW))


def filled(joint: JointSpec, pieces: Pieces, bench: Bench) -> Checked:
    """What fills each hole that the joint goes through by name: rows and faults."""
    if joint.kind not in FILLS or joint.size <= 0:
        return Checked()
    drawn = drawn_of(joint, pieces)
    found = [
        _in_hole(joint, drawn, opening, bench)
        for place in joint.through
        for opening in openings_at(place, pieces, filled=True)
        if opening.tool != "inside"
    ]
    rows = dict.fromkeys(row for checked in found for row in checked.rows)  # holes alike are told once
    faults = (*_otherwise(joint, drawn, bench.style), *(f for c in found for f in c.findings))
    return Checked(tuple(rows), tuple(dict.fromkeys(faults)))


def _otherwise(joint: JointSpec, drawn: Section | None, style: Style) -> tuple[Finding, ...]:
    """A pin that the job draws of another size than it tells."""
    if drawn is None or joint.kind is not JointKind.PIN or abs(drawn.thick - joint.size) <= SAME:
        return ()
    says = f"the pin is told {_said(joint.size, style)} and drawn {_said(drawn.thick, style)}: as drawn it is reckoned"
    return (warn("pin-drawn-otherwise", says, "tell the joint the size that is drawn", joint.where),)


def drawn_of(joint: JointSpec, pieces: Pieces) -> Section | None:
    """The thickest section of the tenon or the pin that is drawn on its bar, where the joint names it."""
    if joint.kind is JointKind.PIN:
        pins = [p for place in joint.through if (p := drawn_pin(joint, place, pieces)) is not None]
        return max(pins, key=radius_of_circle_round, default=None)
    if joint.kind is not JointKind.TENON:
        return None
    named = [split_place(place, pieces) for place in joint.through]
    runs = [r for piece, spot in named if isinstance(piece, BarResult) and (r := run_named(piece, spot)) is not None]
    ends = [section for run in runs for section in (run.a, run.b)]
    return max(ends, key=radius_of_circle_round, default=None)


def _in_hole(joint: JointSpec, drawn: Section | None, opening: Opening, bench: Bench) -> Checked:
    margin = _margin(joint.size, drawn, opening)
    needed = opening.across - margin
    word = _word(joint, needed, opening.across)
    size = joint.size if drawn is None or joint.kind is JointKind.TENON else drawn.thick
    what = f"{joint.kind} {said_number(size, bench.style)} through {opening.place}"
    mine = bench.drifts if opening.tool == "drift" else ()
    sizes = tried(needed, bench.style, mine, lambda size: _does(joint, needed, size))
    says = told(sizes, opening.tool, bench.style)
    row = FitRow(joint, what, "fills", word, needed, opening.across, margin, says, sizes)
    fault = _corners(drawn, opening, margin, bench.style) or _fault(joint, needed, opening.across, bench.style)
    return Checked((row,), (fault.at(joint.where),) if fault else ())


def _margin(size: float, tenon: Section | None, opening: Opening) -> float:
    """Room [m] beside it: in a round hole a tenon's corners count, in a slot each side by itself."""
    if tenon is None:
        return opening.across - size
    if opening.long > opening.across:
        low, high = sorted((tenon.width, tenon.thick))
        return min(opening.across - low, opening.long - high)
    return opening.across - 2 * radius_of_circle_round(tenon)


def _word(joint: JointSpec, needed: float, hole: float) -> FitWord:
    if joint.kind is JointKind.RIVET:
        return riveted(needed, hole)
    if joint.kind is JointKind.SCREW:
        return screwed(needed, hole)
    return tenoned(hole - needed) if joint.kind is JointKind.TENON else turning_in(hole - needed)


def _does(joint: JointSpec, needed: float, hole: float) -> str:
    """What a hole of another size does: `slack` of what should fill it."""
    word = _word(joint, needed, hole)
    if word is FitWord.FREE and joint.kind not in TURNS:
        return "slack"
    return "turns" if word is FitWord.FREE else str(word)


def _corners(tenon: Section | None, opening: Opening, margin: float, style: Style) -> Finding | None:
    """A tenon with corners that goes into its round hole by its sides alone."""
    if tenon is None or tenon.shape in ROUND or opening.long > opening.across or margin >= -SAME:
        return None
    side, corner = max(tenon.width, tenon.thick), 2 * radius_of_circle_round(tenon)
    if side > opening.across + SAME:
        return None
    hole = _said(opening.across, style)
    says = f"the tenon is {_said(corner, style)} across its corners: it does not enter a round hole of {hole}"
    return stop("tenon-corners", says, "make the tenon round, or drift the hole to its shape")


def _fault(joint: JointSpec, needed: float, hole: float, style: Style) -> Finding | None:
    what, size = f"a {joint.kind} of {_said(needed, style)}", f"a hole of {_said(hole, style)}"
    if needed > hole + SAME:
        return _fills(joint, what, size, _way(joint, needed, style))
    if joint.kind in TURNS and needed > hole - SAME:
        driven = "pin-fills-hole" if joint.kind is JointKind.PIN else "screw-fills-hole"
        return warn(driven, f"{what} is as thick as its hole: it must be driven", _way(joint, needed, style))
    if joint.kind is JointKind.RIVET and hole > hole_for_rivet(needed) + SAME:
        most = _said(hole_for_rivet(needed), style)
        return warn("rivet-slack", f"{what} is slack in {size}", f"make the hole no bigger than {most}")
    return None


def _fills(joint: JointSpec, what: str, size: str, tries: str) -> Finding:
    name = (
        "rivet-fills-hole"
        if joint.kind is JointKind.RIVET
        else "pin-fills-hole"
        if joint.kind is JointKind.PIN
        else "screw-fills-hole"
        if joint.kind is JointKind.SCREW
        else "tenon-fills-hole"
    )
    return stop(name, f"{what} does not enter {size}", tries)


def _way(joint: JointSpec, needed: float, style: Style) -> str:
    if joint.kind is JointKind.RIVET:
        return f"open the hole to {_said(joint.size, style)} or a little over, or take a thinner rivet"
    if joint.kind is JointKind.TENON:
        return f"open the hole to {_said(needed, style)}, or take a thinner tenon"
    free = needed + FREE_FROM.value
    hole = (hole_for_screw(joint.size) or free) if joint.kind is JointKind.SCREW else free
    return f"open the hole to {_said(hole, style)}, or take a thinner {joint.kind}"


def _said(length: float, style: Style) -> str:
    return say_both(length, style, fit=True)
