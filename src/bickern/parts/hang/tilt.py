"""How far off plumb or off level a part hangs, and in which direction, in the smith's words."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from bickern.geometry.path import Arc, Spiral, Straight, bend_direction, leg_starts, on_leg
from bickern.geometry.pose import Pose, put, seen, then
from bickern.geometry.space import ORIGIN, Vec, cross, dot, minus, mixed, norm, times, unit
from bickern.parts.bar.result import BarResult
from bickern.parts.bar.tracks import StraightLeg
from bickern.parts.hang.bridle import UP
from bickern.parts.hang.friction import Band
from bickern.parts.hang.result import Tilt
from bickern.parts.ring.spec import RingResult
from bickern.parts.set.result import Part, SetResult
from bickern.parts.sheet.result import SheetResult
from bickern.parts.sheet.spec import Cone, Cylinder

TRUE = math.radians(0.05)
"""Below this a thing hangs plumb or level: nobody's eye tells it, and the reckoning promises no more."""
_SIDE = math.cos(math.radians(60))
_ASIDE = 1e-4
"""Metres from a straight's own line within which a bend is to neither side."""


@dataclass(frozen=True, slots=True)
class Side:
    """A direction on a part that should be plumb or level: `way` (unit, the part's coordinates), with its names.

    `low`, `high`: what stands at the start and the end of `way`, in words.
    """

    of: str
    way: Vec
    low: str
    high: str


@dataclass(frozen=True, slots=True)
class Leaning:
    """A side as it hangs: how far off what, the level axis (in the part's coordinates) about which it is turned.

    A turn of plumb about `axis` takes `angle` [rad] off it.
    """

    side: Side
    off: str
    angle: float
    axis: Vec | None


def straights(bar: BarResult) -> tuple[tuple[Side, float], ...]:
    """The straights of a bar with their lengths [m]."""
    stations = [s for s in leg_starts(bar.legs) if isinstance(s.leg, Straight) and s.length > 0]
    asked = [i for i, leg in enumerate(bar.spec.path) if isinstance(leg, StraightLeg)]
    named = asked if len(asked) == len(stations) else [None] * len(stations)
    return tuple(
        (Side(_named(bar, i), s.frame.along, _beside(bar, i, -1), _beside(bar, i, 1)), s.length)
        for s, i in zip(stations, named, strict=True)
    )


def _named(bar: BarResult, i: int | None) -> str:
    return "" if i is None else bar.spec.path[i].name


def _beside(bar: BarResult, i: int | None, step: int) -> str:
    """What stands at an end of a straight."""
    end = "datum end" if step < 0 else "far end"
    if i is None or not 0 <= i + step < len(bar.spec.path):
        return end
    return bar.spec.path[i + step].name or f"bend near the {end}"


def sides(part: Part) -> tuple[Side, ...]:
    """What of a part should be plumb or level: of sheet and of a hoop the axis, of a ring nothing."""
    if isinstance(part.piece, RingResult):
        return ()
    if isinstance(part.piece, SheetResult):
        return (Side("", (0.0, 0.0, 1.0), "", ""),)
    if part.piece.spec.closed:
        return (Side("", _hoop_axis(part.piece), "", ""),)
    found = straights(part.piece)
    longest = max((length for _, length in found), default=0.0)
    return tuple(side for side, length in found if length >= longest / 2)


def _is_hoop(part: Part) -> bool:
    return isinstance(part.piece, BarResult) and part.piece.spec.closed


def _hoop_axis(bar: BarResult) -> Vec:
    """The axis of a closed bar's round (of the bend that is its hoop)."""
    return next(
        (cross(s.frame.along, bend_direction(s.frame, s.leg.roll)) for s in leg_starts(bar.legs) if type(s.leg) is Arc),
        (0.0, 0.0, 1.0),
    )


def leaning(part: Part, up: Vec) -> Leaning | None:
    """The side of a part that is nearest to plumb or to level, `up` told in the part's coordinates.

    A hoop whose axis hangs plumb is level, and the other way about.
    """
    found = [_leans(side, up, isinstance(part.piece, SheetResult)) for side in sides(part)]
    if _is_hoop(part):
        found = [replace(one, off="level" if one.off == "plumb" else "plumb") for one in found]
    return min(found, key=lambda one: one.angle, default=None)


def _leans(side: Side, up: Vec, sheet: bool) -> Leaning:
    height = dot(side.way, up)
    off_level = math.asin(min(1.0, abs(height)))
    off_plumb = math.pi / 2 - off_level
    square = cross(up, side.way)
    axis = unit(square) if norm(square) > TRUE else None
    if sheet or off_plumb <= off_level:
        # plumb turned about up x way comes nearer to the way, if that looks upward
        return Leaning(side, "plumb", off_plumb, axis and times(axis, math.copysign(1.0, height)))
    return Leaning(side, "level", off_level, axis and times(axis, -math.copysign(1.0, height)))


def tilt_of(a_set: SetResult, number: int, poses: Sequence[Pose], held: Band | None, found: Leaning) -> Tilt:
    """A leaning told: which side is low or which way it leans, with the band of friction."""
    part = a_set.parts[number]
    pose = then(poses[part.body], part.pose)
    name = f"{part.name}, {found.side.of}" if found.side.of else part.name
    back, forth = (held.back, held.forth) if held else (0.0, 0.0)
    ends = sorted((found.angle - forth, found.angle - back))
    return Tilt(number, name, found.off, found.angle, _toward(a_set, number, pose, found), ends[0], ends[1])


def _toward(a_set: SetResult, number: int, pose: Pose, found: Leaning) -> str:
    if found.angle < TRUE:
        return ""
    part = a_set.parts[number]
    up = seen(pose, UP)
    if isinstance(part.piece, BarResult):
        if _is_hoop(part):
            return _hoop_low(a_set, number, part.piece, up) if found.off == "level" else "one side leans out"
        if found.off == "level":
            low = found.side.low if dot(found.side.way, up) > 0 else found.side.high
            return f"the {low} is low"
        return _leans_toward(part.piece, found.side, up)
    return _sheet_low(a_set, number, up)


def _leans_toward(bar: BarResult, side: Side, up: Vec) -> str:
    """Toward which bend of its own a straight's upper end leans; by its faces where it has none aside."""
    way = side.way if dot(side.way, up) > 0 else times(side.way, -1.0)
    level = unit(mixed(way, 1.0, up, -dot(way, up)))
    middle = _middle_of(bar, side)
    offs: dict[str, float] = {}
    asked = [leg.name for leg in bar.spec.path if not isinstance(leg, StraightLeg)]
    bends = [s for s in leg_starts(bar.legs) if isinstance(s.leg, Arc | Spiral)]
    for called, station in zip(asked, bends, strict=False):
        if called:
            offs[called] = dot(minus(on_leg(station, station.length / 2).origin, middle), level)
    near, away = (pick(offs, key=lambda name: offs[name], default="") for pick in (max, min))
    if near and offs[near] > _ASIDE:
        return f"its upper end leans to the side of the {near}"
    if away and offs[away] < -_ASIDE:
        return f"its upper end leans away from the {away}"
    return f"its upper end leans to the side of its {_face_toward(bar, side, level)} face"


def _face_toward(bar: BarResult, side: Side, way: Vec) -> str:
    """The face of a straight, as the job calls faces, that looks most that way."""
    frame = next((s.frame for s in leg_starts(bar.legs) if s.frame.along == side.way), leg_starts(bar.legs)[0].frame)
    looks = {
        "front": frame.up, "back": times(frame.up, -1.0), "left": frame.left, "right": times(frame.left, -1.0)
    }  # fmt: skip
    return max(looks, key=lambda face: dot(looks[face], way))


def _hoop_low(a_set: SetResult, number: int, bar: BarResult, up: Vec) -> str:
    """Which side of a hoop is low: by what it hangs by or what hangs on it there, or by its joint."""
    axis = _hoop_axis(bar)
    low = unit(mixed(axis, dot(axis, up), up, -1.0))
    marks = {"joint": ORIGIN}
    for link in a_set.links:
        marks |= {s.name: s.pose.origin for p, s in zip(link.parts, link.spots, strict=True) if p == number}
    middle = a_set.parts[number].centre
    ways = {name: dot(low, unit(minus(place, middle))) for name, place in marks.items() if place != middle}
    best = max(ways, key=lambda name: (round(abs(ways[name]), 3), ways[name]))
    return f"the side {'of' if ways[best] > 0 else 'away from'} the {best} is low"


def _middle_of(bar: BarResult, side: Side) -> Vec:
    for station in leg_starts(bar.legs):
        if isinstance(station.leg, Straight) and station.frame.along == side.way and station.length > 0:
            return on_leg(station, station.length / 2).origin
    return (0.0, 0.0, 0.0)


def _sheet_low(a_set: SetResult, number: int, up: Vec) -> str:
    """Which side of a sheet piece is low: by its seam, or by what is fixed to it; "" where nothing tells its sides."""
    low = unit((-up[0], -up[1], 0.0)) if up[2] >= 0 else unit((up[0], up[1], 0.0))
    mark, way = _mark(a_set, number)
    if way is None:
        return ""
    along = dot(low, way)
    if abs(along) <= _SIDE:
        return f"a side a quarter turn from {mark} is low"
    return f"the side of {mark} is low" if along > 0 else f"the side away from {mark} is low"


def _mark(a_set: SetResult, number: int) -> tuple[str, Vec | None]:
    """Something on a sheet piece to tell its sides by, and in which direction from its middle that is."""
    part = a_set.parts[number]
    for other in a_set.bodies[part.body].parts:
        if other == number or isinstance(a_set.parts[other].piece, SheetResult):
            continue
        inner = seen(part.pose, minus(put(a_set.parts[other].pose, a_set.parts[other].centre), part.pose.origin))
        off = minus(inner, part.centre)
        if math.hypot(off[0], off[1]) > 1e-3 and len(_alike(a_set, other)) == 1:
            return f"the {a_set.parts[other].name}", unit((off[0], off[1], 0.0))
    seamed = isinstance(part.piece, SheetResult) and isinstance(part.piece.spec.surface, Cone | Cylinder)
    return ("the seam", (1.0, 0.0, 0.0)) if seamed else ("", None)


def _alike(a_set: SetResult, number: int) -> tuple[int, ...]:
    """Parts of the same body that are the same piece: one of four posts tells no side from another."""
    part = a_set.parts[number]
    return tuple(i for i in a_set.bodies[part.body].parts if a_set.parts[i].piece is part.piece)


def told_parts(a_set: SetResult, body: int) -> tuple[int, ...]:
    """The parts of a body whose tilt is told: one of each piece."""
    found: list[int] = []
    for number in a_set.bodies[body].parts:
        if all(a_set.parts[number].piece is not a_set.parts[other].piece for other in found):
            found.append(number)
    return tuple(found)
