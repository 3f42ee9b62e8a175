"""Whether a ring goes through the holes and eyes, and round the metal, that it is put through: closed forms only."""

from dataclasses import dataclass, replace
from math import inf

from bickern.iron.section import Section, radius_of_circle_round
from bickern.measure.finding import Finding, stop, warn
from bickern.measure.units.words import Style
from bickern.parts.bar.result import BarResult
from bickern.parts.fit.checked import Bench, Checked, finding_at
from bickern.parts.fit.drifts import told, tried
from bickern.parts.fit.loops import ROUND, Loop
from bickern.parts.fit.openings import Opening
from bickern.parts.fit.packing import depth_of_box, room_for_box
from bickern.parts.fit.result import FitRow, FitWord
from bickern.parts.fit.words import FREE_FROM, moving, said_margin, spare
from bickern.parts.joint.holes import RingInHole, faults_in_hole, hole_for_ring
from bickern.parts.joint.spec import JointSpec
from bickern.parts.set.pieces import Pieces
from bickern.parts.set.places import section_on, split_place

_ROUND_IT, _EDGE = "ring-round-too-small", "ring-will-not-clear-edge"


@dataclass(frozen=True, slots=True)
class Inside:
    """Metal that a ring goes round: a box `wide` x `thick` [m], or a round of that diameter."""

    name: str
    wide: float
    thick: float
    rounded: bool

    @property
    def across(self) -> float:
        """Diameter [m] of the circle round it."""
        return self.wide if self.rounded else (self.wide**2 + self.thick**2) ** 0.5

    def depth(self, across: float) -> float:
        """How far [m] it reaches into a ring of that inside when it bears on it."""
        return self.wide if self.rounded else depth_of_box(self.wide, self.thick, across)


def inside_of(name: str, section: Section) -> Inside:
    """A bar, or another ring's bar, that lies in a ring: corners sharp, many-sided bars as the round about them."""
    if section.shape in ROUND or section.wall or section.thick <= 0:
        return Inside(name, max(section.width, section.thick), max(section.width, section.thick), True)
    if abs(2 * radius_of_circle_round(section) - (section.width**2 + section.thick**2) ** 0.5) > 1e-9:
        return Inside(name, 2 * radius_of_circle_round(section), 2 * radius_of_circle_round(section), True)
    return Inside(name, section.width, section.thick, False)


def wall_of(opening: Opening) -> Inside | None:
    """The metal between an opening and the edge, that a ring through the opening goes round; None where not known."""
    if opening.wall is None:
        return None
    wide = max(opening.plate, opening.wall) if opening.rounded else opening.plate
    return Inside(opening.place, wide, opening.wall, opening.rounded)


def bar_at(place: str, pieces: Pieces) -> Inside | None:
    """The bar that a ring goes round at a place of it."""
    piece, spot = split_place(place, pieces)
    section = section_on(piece, spot) if isinstance(piece, BarResult) else None
    return inside_of(place, section) if section is not None else None


def through(joint: JointSpec, loop: Loop, opening: Opening, bench: Bench) -> Checked:
    """A ring through one opening, and past the edge of the metal round it."""
    needed, sharp = _needed(loop, opening)
    asked = RingInHole(loop.wire.thick, needed, loop.across, sharp, opening.across, _what(joint))
    faults = tuple(f.at(joint.where) for f in faults_in_hole(asked, bench.style))
    what = f"{loop.name} through {opening.place}"
    if needed == inf:
        margin = loop.across - opening.plate
        says = f"the metal is {said_margin(opening.plate, bench.style)} thick, the {_what(joint)} no wider inside"
        check = "goes round the metal"
        row = FitRow(joint, what, check, FitWord.NO, opening.plate, loop.across, margin, says)
        return Checked((row,), faults)
    row = _row(joint, what, opening, needed, bench)
    return Checked((row,), faults) + _past_edge(joint, loop, opening, bench.style)


def _needed(loop: Loop, opening: Opening) -> tuple[float, float]:
    """How wide [m] the opening must be, and the thickness with corners that the ring's curve must clear in that width.

    In a slot that is free for its curve the long way the ring lies along it, and only its bar counts across.
    """
    curved = hole_for_ring(loop.wire, loop.across / 2, opening.sharp)
    slot = opening.tool != "inside" and opening.long > opening.across
    if slot and opening.long - curved >= FREE_FROM.value:
        return loop.wire.width, 0.0
    return curved, opening.sharp


def _row(joint: JointSpec, what: str, opening: Opening, needed: float, bench: Bench) -> FitRow:
    margin = opening.across - needed
    mine = bench.drifts if opening.tool == "drift" else ()
    sizes = tried(needed, bench.style, mine)
    says = told(sizes, opening.tool, bench.style) if opening.tool != "inside" else spare(margin, bench.style)
    return FitRow(joint, what, "goes through", moving(margin), needed, opening.across, margin, says, sizes)


def _past_edge(joint: JointSpec, loop: Loop, opening: Opening, style: Style) -> Checked:
    """The wall must lie inside the ring; a ring at the end of a bar also wants to pass the corner of it."""
    wall = wall_of(opening)
    if wall is None:
        return Checked()
    if opening.tool == "inside":
        found = _round(joint, loop, wall, "goes round", _ROUND_IT, style)
        return found if joint.hooked else _slides(found, loop, opening, style)
    past = _round(joint, loop, wall, "clears the edge", _ROUND_IT if opening.rounded else _EDGE, style)
    if opening.end is None or any(f.stops for f in past.findings):
        return past
    corner = Inside(opening.place, opening.plate, opening.end, False)
    margin = room_for_box(corner.wide, corner.thick, loop.across, loop.long)
    row = _room_row(joint, f"{loop.name} round the end at {opening.place}", "passes the end", loop, margin, style)
    if margin > 0:
        return past + Checked((row,))
    says = f"{loop.name} does not pass the end at {opening.place}: {said_margin(margin, style)} too small inside"
    tries = "If it is to swing right round, make it bigger, or put the hole nearer the end."
    return past + Checked((row,), (finding_at(joint, warn("ring-stops-at-end", says, tries)),))


def _slides(checked: Checked, loop: Loop, other: Opening, style: Style) -> Checked:
    """How far two rings slide in one another: until the bar of either meets the other's far end inside."""
    free = min(other.long - loop.wire.thick, loop.long - (other.wall or 0.0))
    if free <= 0:
        return checked
    told = f"slides {said_margin(free, style)} from end to end"
    return replace(checked, rows=tuple(replace(row, says=f"{row.says}; {told}") for row in checked.rows))


def round_metal(joint: JointSpec, loop: Loop, metal: Inside, style: Style) -> Checked:
    """A ring round a bar, or round another ring's bar."""
    return _round(joint, loop, metal, "goes round", _ROUND_IT, style)


def _round(joint: JointSpec, loop: Loop, metal: Inside, check: str, name: str, style: Style) -> Checked:
    margin = room_for(metal, loop)
    row = _room_row(joint, f"{loop.name} round {metal.name}", check, loop, margin, style)
    return Checked((row,), tuple(finding_at(joint, f) for f in _tight(row, name, metal, loop, style)))


def _what(joint: JointSpec) -> str:
    return "hook" if joint.hooked else "ring"


def room_for(metal: Inside, loop: Loop) -> float:
    """What is left over [m] inside a ring with one thing in it."""
    if metal.rounded:
        return loop.across - metal.across
    return room_for_box(metal.wide, metal.thick, loop.across, loop.long)


def _room_row(joint: JointSpec, what: str, check: str, loop: Loop, margin: float, style: Style) -> FitRow:
    says = spare(margin, style)
    return FitRow(joint, what, check, moving(margin), loop.across - margin, loop.across, margin, says)


def _tight(row: FitRow, name: str, metal: Inside, loop: Loop, style: Style) -> tuple[Finding, ...]:
    inside, ring = said_margin(loop.across, style), _what(row.joint)
    if row.word is FitWord.BINDS:
        says = f"{loop.name} goes round {metal.name} with {said_margin(row.margin, style)} to spare only"
        return (warn("ring-just-goes-round", says, f"Make the {ring} bigger, or the metal in it thinner."),)
    if row.word is not FitWord.NO:
        return ()
    size = said_margin(metal.across, style)
    if name == _ROUND_IT:
        says = f"{metal.name} is {size} across: the {ring}, {inside} inside, does not go round it"
        return (stop("ring-round-too-small", says, f"Make the {ring} bigger, or name a thinner place."),)
    says = f"From {metal.name} to the edge is {size} across: the {ring}, {inside} inside, does not go round that"
    return (stop("ring-will-not-clear-edge", says, f"Make the {ring} bigger, or put the hole nearer the edge."),)
