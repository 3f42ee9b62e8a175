"""What swings in a set that is shown in the round: how far, and what it comes near to or runs into at an angle."""

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from enum import StrEnum
from functools import lru_cache

from bickern.desk.whole.in_round import Round
from bickern.geometry.pose import Pose, back, then
from bickern.geometry.space import Vec
from bickern.measure.units.say import say_both
from bickern.measure.units.words import INCH, Style
from bickern.paper.sheets.fit_words import meets, swing_cells, the, way_names
from bickern.parts.fit.result import Swing
from bickern.parts.fit.swing.at_angle import Close, clashes_at, nearest_at
from bickern.parts.fit.swing.hinges import Hinge
from bickern.parts.fit.swing.swing import joints_of, lumps_of, swing_of
from bickern.parts.fit.swing.turning import Lump, posed
from bickern.parts.set.result import Held, SetResult, Spot, SpotKind
from bickern.parts.set.solids import kept_solid

AT_THE_END = math.radians(0.05)
"""So near to where it stops it touches [rad]: a twentieth of a degree, that nobody sees."""
TINY = INCH / 4
"""Room under this is told to the finer mark [m]."""


class Touching(StrEnum):
    """How a lot is at one angle."""

    FREE = "free"
    MEETS = "meets"
    INTO = "runs into"


@dataclass(frozen=True, slots=True)
class RoundSwing:
    """One way of one joint: its words, how far in words, the line it turns about, `low` to `high` [rad], 0 as it lies.

    `low_end`, `high_end`: what it meets there, in words ("" where it goes on); `ways`: what the two ways are called;
    `bodies`: those that turn with it, by number.
    """

    number: int
    name: str
    says: str
    point: Vec
    axis: Vec
    low: float
    high: float
    low_end: str
    high_end: str
    ways: tuple[str, str]
    bodies: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Turned:
    """A lot at an angle [rad]: `poses` of the bodies that turn, what it does there in words, and whose parts do it."""

    angle: float
    poses: dict[int, Pose]
    touching: Touching
    says: tuple[str, ...]
    parts: tuple[int, ...]


@dataclass(frozen=True, slots=True, eq=False)
class _Joint:
    """A swing with all that it is asked of again and again."""

    told: RoundSwing
    swing: Swing
    hinge: Hinge
    lumps: tuple[Lump, ...]


def swings_of(whole: Round) -> tuple[RoundSwing, ...]:
    """Every way of every joint; none where nothing is known of how it hangs. Slow once, then kept."""
    return tuple(joint.told for joint in _joints(whole))


def stuck(whole: Round) -> tuple[str, ...]:
    """What is in one another already as it lies, so that it cannot hang so and nothing swings there."""
    found: dict[str, None] = {}
    for joint in _joints(whole):
        if joint.swing.low_touches and max(-joint.swing.low, joint.swing.high) <= AT_THE_END:
            found |= dict.fromkeys(_in_one_another(joint))
    return tuple(found)


def _in_one_another(joint: _Joint) -> tuple[str, ...]:
    pairs = dict.fromkeys((one.turns.name, one.stays.name) for one in clashes_at(joint.hinge, joint.lumps, 0.0))
    told = tuple(f"{_first(the(a))} and {the(b)} are in one another as it lies: it cannot hang so." for a, b in pairs)
    return told or (f"{_first(meets(joint.swing.low_touches))} already as it lies.",)


@lru_cache(maxsize=3)
def _joints(whole: Round) -> tuple[_Joint, ...]:
    return tuple(_found(whole)) if whole.swings_from else ()


def _found(whole: Round) -> Iterator[_Joint]:
    poses = tuple(body.pose for body in whole.bodies)
    solids = [kept_solid(part.piece, whole.copy.shop.sheet) for part in whole.whole.parts]
    style, on_wall, number = whole.copy.shop.style, whole.wall is not None, 0
    for lot in whole.lots:
        one = _held_by(whole.whole, lot[0])
        lumps = lumps_of(one, poses, solids, whole.wall)
        for hinge, meets_what in joints_of(one, poses, lumps):
            swing = swing_of(hinge, meets_what, lumps)
            yield _Joint(_told(number, swing, hinge, style, on_wall=on_wall), swing, hinge, lumps)
            number += 1


def _held_by(whole: SetResult, body: int) -> SetResult:
    """The set held by that body, so that all else of its lot is what swings."""
    if whole.held is not None and whole.held.body == body:
        return whole
    part = whole.bodies[body].parts[0]
    spot = Spot(whole.bodies[body].name, SpotKind.FACE, back(whole.parts[part].pose))
    return replace(whole, held=Held(body, part, spot, "hand"))


def _told(number: int, swing: Swing, hinge: Hinge, style: Style, *, on_wall: bool) -> RoundSwing:
    name, says = swing_cells(swing, style, on_wall=on_wall)
    low_end, high_end = (meets(one) if one else "" for one in (swing.low_touches, swing.high_touches))
    ways, bodies, line = way_names(swing, on_wall=on_wall), tuple(sorted(hinge.movers)), (swing.point, swing.axis)
    return RoundSwing(number, name, says, *line, swing.low, swing.high, low_end, high_end, ways, bodies)


def snapped(swing: RoundSwing, degrees: float) -> float:
    """The angle of a slider that goes by whole degrees [rad]: the first beyond an end is that very end."""
    angle, one = math.radians(degrees), math.radians(1.0)
    if swing.high_end and swing.high < angle < swing.high + one:
        return swing.high
    if swing.low_end and swing.low - one < angle < swing.low:
        return swing.low
    return angle


def swung(whole: Round, number: int, angle: float) -> Turned:
    """One way of one joint turned to an angle [rad], and what comes near, touches or runs into what."""
    joint = _joints(whole)[number]
    way = posed(joint.hinge, angle)
    poses = {body: then(way, whole.bodies[body].pose) for body in joint.told.bodies}
    end, beyond = _end(joint.swing, angle)
    if not end:
        says, parts = _near(joint, angle, whole.copy.shop.style)
        return Turned(angle, poses, Touching.FREE, says, parts)
    if beyond <= AT_THE_END:
        return Turned(angle, poses, Touching.MEETS, (f"Here {meets(end)}.",), _called(whole, joint, end))
    found = clashes_at(joint.hinge, joint.lumps, angle)
    into = dict.fromkeys(f"{_first(the(one.turns.name))} runs into {the(one.stays.name)}." for one in found)
    past = f"{math.degrees(beyond):.0f}° past where {meets(end)}: it cannot go there."
    parts = tuple(sorted({*_called(whole, joint, end), *(p for one in found for p in _parts(whole, one))}))
    return Turned(angle, poses, Touching.INTO, (past, *into), parts)


def _end(swing: Swing, angle: float) -> tuple[str, float]:
    """What stops it at or before this angle ("" where nothing does), and how far beyond that it is [rad]."""
    if swing.high_touches and angle > swing.high - AT_THE_END:
        return swing.high_touches, angle - swing.high
    if swing.low_touches and angle < swing.low + AT_THE_END:
        return swing.low_touches, swing.low - angle
    return "", 0.0


def _near(joint: _Joint, angle: float, style: Style) -> tuple[tuple[str, ...], tuple[int, ...]]:
    """What comes nearest, with the room between."""
    near = nearest_at(joint.hinge, joint.lumps, angle)
    if near is None:
        return ("Nothing touches.",), ()
    room = say_both(near.room, style, fit=near.room < TINY)
    return (f"Nothing touches. Nearest: {the(near.turns.name)} to {the(near.stays.name)}, {room}.",), ()


def _first(says: str) -> str:
    return says[:1].upper() + says[1:]


def _called(whole: Round, joint: _Joint, end: str) -> tuple[int, ...]:
    """The parts that a stop names, by number; of what turns all that hangs in the joint where it names none."""
    stops, _, turns = end.removesuffix(")").partition(" (with ")
    named = {part.number for part in whole.parts if part.name in (stops, turns)}
    return tuple(sorted(named if turns else named | joint.hinge.hung))


def _parts(whole: Round, one: Close) -> tuple[int, ...]:
    names = (one.turns.name, one.stays.name)
    return tuple(part.number for part in whole.parts if part.name in names)
