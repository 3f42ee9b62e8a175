"""Places along a bent bar at which its section is drawn: where the line bends, the section changes, a hole swells."""

from bisect import bisect_left
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from itertools import pairwise, takewhile
from math import ceil, cos, pi, sin, sqrt, tan

from bickern.geometry.path import (
    Arc,
    Frame,
    Kink,
    Spiral,
    Station,
    Straight,
    Turned,
    at_angle,
    bend_direction,
    leg_turn,
    on_leg,
)
from bickern.geometry.solid.solid import Fineness
from bickern.geometry.space import mixed
from bickern.parts.bar.length import box_at
from bickern.parts.bar.line import Line
from bickern.parts.bar.resolve import same_section
from bickern.parts.bar.result import BarResult, MetalRun
from bickern.parts.bar.traced import Forged, forged_corners

_TURN = {Fineness.PREVIEW: pi / 18, Fineness.FINE: pi / 48}
"""Most that a bend turns between two stations."""
_STRAY = {Fineness.PREVIEW: 2e-4, Fineness.FINE: 2e-5}
"""Most that a chord leaves a bend [m]: a wide hoop gets more stations than its angle asks for."""
_TWISTS = {Fineness.PREVIEW: 18, Fineness.FINE: 64}
"""Stations for each whole turn of a twist."""
_OUTLINE = {Fineness.PREVIEW: 36, Fineness.FINE: 64}
"""Stations along an end with a curved outline, closer at its two ends, where it curves most."""
_BLEND = {Fineness.PREVIEW: 6, Fineness.FINE: 12}
"""Stations between two sections of unlike shape."""
_MITRE = 5
"""Stations over which the section is brought from a mitre back square to the line."""
_NEAR = 1e-6
"""Metres within which two stations are one."""
_HAIR = 1e-5
"""Metres between the two sections of a step, so that no face folds on to another where they cross."""
_SPARED = 2e-5
"""Metres from a station that must be within which another is not worth while."""


@dataclass(frozen=True, slots=True)
class Place:
    """One station: `at` [m] of metal and `line` [m] of line, the `frame`, and `run`, the number of the metal's run.

    `twist` [rad] is how far all twists have turned the section by here, `rest` what of that the frame has not taken.
    `curve` [1/m] is how sharply the line before it bends toward `roll` [rad]. In a corner forged up (`forged`) the
    section is `stretch` times as wide that way. `kink`: the line turns sharply right behind it.
    `hair` [m]: how far on it is drawn, where it is the second section of a step.
    """

    at: float
    line: float
    frame: Frame
    run: int = 0
    twist: float = 0.0
    rest: float = 0.0
    curve: float = 0.0
    roll: float = 0.0
    stretch: float = 1.0
    forged: bool = False
    kink: bool = False
    hair: float = 0.0


@dataclass(frozen=True, slots=True)
class Mitre:
    """A kink at `line` [m] by `angle` toward `roll` [rad]; `before`, `after` [m]: within what the section leans to it.

    `curves`: how sharply the line bends [1/m] before and after it toward the same side (away from it: below nothing).
    """

    line: float
    angle: float
    roll: float
    before: float
    after: float
    curves: tuple[float, float] = (0.0, 0.0)


def mitres(bar: BarResult, line: Line) -> tuple[Mitre, ...]:
    """The kinks of eyes (corners forged up are fans); the lean lasts for twice what the mitre reaches.

    It is shorter where there is less room; where nothing follows a kink the bar just ends.
    """
    forged = {corner.leg for corner in forged_corners(bar)}
    found = []
    for i, station in enumerate(line.stations):
        leg = station.leg
        if isinstance(leg, Kink) and i not in forged and 0 < i < len(line.stations) - 1:
            a, b, _, _ = box_at(bar.runs, line.on_metal(station.s))
            reach = max(a.width, a.thick, b.width, b.thick) * tan(leg.angle / 2)
            sides = line.stations[i - 1 :: -1], line.stations[i + 1 :]
            before, after = (min(reach, _room(side)) for side in sides)
            if min(before, after) > _NEAR:
                bent = _bent_toward(sides[0][0], leg.roll), _bent_toward(sides[1][0], leg.roll)
                found.append(Mitre(station.s, leg.angle, leg.roll, before, after, bent))
    return tuple(found)


def _room(side: tuple[Station, ...]) -> float:
    """Length [m] that there is to lean over beside a kink: part of a bend, or most of a straight, twisted or not."""
    if not isinstance(side[0].leg, Straight | Turned):
        return 0.45 * side[0].length
    straight = takewhile(lambda station: isinstance(station.leg, Straight | Turned), side)
    return 0.9 * sum(station.length for station in straight)


def _bent_toward(station: Station, roll: float) -> float:
    leg = station.leg
    return cos(leg.roll - roll) / leg.radius if isinstance(leg, Arc) and leg.radius > 0.0 else 0.0


def stations(bar: BarResult, line: Line, fineness: Fineness, swollen: Iterable[float]) -> tuple[Place, ...]:
    """Every station in order, those `swollen` [m of metal] too; where the section steps there are two in one place."""
    cuts = sorted({*_cuts(bar, fineness), *_lean(bar, line), *swollen})
    corners = {c.leg: c for c in forged_corners(bar)}
    tails = {i + k for i in corners for k in (-1, 1)}
    found: list[Place] = []
    faced: list[float] = []
    turned = 0.0
    for i, station in enumerate(line.stations):
        made: list[Place] = []
        if i in corners:
            made = _fan(line, i, corners[i], fineness)
        elif isinstance(station.leg, Turned):
            turned += station.leg.angle
        elif isinstance(station.leg, Kink) and found and i < len(line.stations) - 1:
            found[-1] = replace(found[-1], kink=True)
        elif station.length > _NEAR and i not in tails:
            made = _on_leg(line, station, cuts, fineness)
        goes_on = bool(found) and not found[-1].kink
        found += made[1 if goes_on else 0 :]
        faced += [turned] * (len(found) - len(faced))
    return tuple(p for place, face in zip(found, faced, strict=True) for p in _stepped(bar, place, face))


def _on_leg(line: Line, station: Station, cuts: list[float], fineness: Fineness) -> list[Place]:
    """Stations from the start of a leg to its end: its own steps, but for those next to a cut, and the cuts."""
    told = [c - station.s for c in map(line.on_line, cuts) if _NEAR < c - station.s < station.length - _NEAR]
    first, *steps, last = _steps(station, fineness)
    between = [*((s, on_leg(station, s)) for s in told), *(p for p in steps if not _beside(told, p[0]))]
    roll = getattr(station.leg, "roll", 0.0)
    return [
        Place(line.on_metal(station.s + s), station.s + s, frame, curve=_curve(station, s), roll=roll)
        for s, frame in (first, *sorted(between, key=lambda p: p[0]), last)
    ]


def _beside(told: list[float], step: float) -> bool:
    """Whether a place told, in order, is so near to a step that the step can be spared."""
    i = bisect_left(told, step)
    return any(abs(t - step) < _SPARED for t in told[max(0, i - 1) : i + 1])


def _steps(station: Station, fineness: Fineness) -> list[tuple[float, Frame]]:
    leg = station.leg
    if not isinstance(leg, Arc | Spiral):
        return [(0.0, station.frame), (station.length, on_leg(station, station.length))]
    radius = leg.radius if isinstance(leg, Arc) else max(leg.start_radius, leg.end_radius)
    step = min(_TURN[fineness], 2 * sqrt(2 * _STRAY[fineness] / max(radius, _NEAR)))
    count = max(2, ceil(leg.angle / step - 1e-9))
    return [at_angle(station, leg.angle * i / count) for i in range(count + 1)]


def _curve(station: Station, into: float) -> float:
    """How sharply [1/m] the line bends there; a spiral by its polar radius, a little more than it does."""
    leg = station.leg
    if isinstance(leg, Arc):
        return 1 / leg.radius if leg.radius > 0.0 else 0.0
    if isinstance(leg, Spiral):
        share = into / station.length if station.length > 0.0 else 0.0
        return 1 / max(leg.start_radius + share * (leg.end_radius - leg.start_radius), _NEAR)
    return 0.0


def _fan(line: Line, i: int, corner: Forged, fineness: Fineness) -> list[Place]:
    """Stations of a corner forged up, like a fan about the middle of its inside radius.

    Outside they end on the two straight faces, inside on the radius (its chords drawn so that no metal is lost).
    """
    start, kink, end = line.stations[i - 1 : i + 2]
    frame, angle, roll = start.frame, leg_turn(kink.leg), corner.roll
    middle = mixed(frame.origin, 1.0, bend_direction(frame, roll), corner.radius + corner.thick / 2)
    count = 2 * max(1, ceil(angle / 2 / _TURN[fineness])) if corner.radius > _NEAR else 2
    step = angle / count
    inside = corner.radius * sqrt(step / sin(step))
    first, last = line.on_metal(start.s), line.on_metal(end.s + end.length)
    found = []
    for k in range(count + 1):
        near = inside if 0 < k < count else corner.radius
        high = (corner.radius + corner.thick) / cos(min(k, count - k) * step) - near
        there = on_leg(Station(0.0, frame, 0.0, Kink(k * step, roll)), 0.0)
        origin = mixed(middle, 1.0, bend_direction(there, roll), -(near + high / 2))
        at = first + (last - first) * corner.share(k * step, angle)
        on_line = start.s + (start.length + end.length) * k / count
        placed = Frame(origin, there.along, there.up)
        found.append(Place(at, on_line, placed, roll=roll, stretch=high / corner.thick, forged=True))
    return found


def _twist_at(bar: BarResult, at: float) -> float:
    """How far all twists together have turned the section by a place [rad]."""
    total = 0.0
    for check in bar.twists:
        long = check.end - check.start
        share = min(1.0, max(0.0, (at - check.start) / long)) if long > 0.0 else 0.0
        total += 2 * pi * check.twist.turns * share
    return total


def _stepped(bar: BarResult, place: Place, turned: float) -> Iterator[Place]:
    """The place once for each run that is there, but only once where the section goes on the same.

    `turned` [rad] of the twists is in its frame already.
    """
    runs, twist = bar.runs, _twist_at(bar, place.at)
    here = [i for i, r in enumerate(runs) if r.start - _NEAR <= place.at <= r.end + _NEAR and r.end - r.start > _NEAR]
    here = here or [len(runs) - 1]
    first = replace(place, run=here[0], twist=twist, rest=twist - turned)
    yield first
    for one, two in pairwise(here):
        if not _goes_on(runs[one], runs[two]):
            yield replace(first, run=two, hair=min(_HAIR, (runs[two].end - runs[two].start) / 4))


def _goes_on(one: MetalRun, two: MetalRun) -> bool:
    plain = one.outline is None and two.outline is None and one.roll == two.roll
    level = max(abs(a - b) for a, b in zip(one.offset_b, two.offset_a, strict=True)) < _NEAR
    return plain and level and same_section(one.b, two.a) and one.b.fullness == two.a.fullness


def _cuts(bar: BarResult, fineness: Fineness) -> Iterator[float]:
    """Where the section begins to change, and between [m]."""
    for run in bar.runs:
        for share in _shares(run, fineness):
            yield run.start + share * (run.end - run.start)
    for check in bar.twists:
        count = max(1, ceil(abs(check.twist.turns) * _TWISTS[fineness]))
        for i in range(count + 1):
            yield check.start + (check.end - check.start) * i / count


def _shares(run: MetalRun, fineness: Fineness) -> list[float]:
    if run.outline is not None:
        count = _OUTLINE[fineness]
        told = [p[0] for p in run.outline.profile]
        return [*((1 - cos(pi * i / count)) / 2 for i in range(count + 1)), *told, *(1 - p for p in told)]
    count = 1 if run.a.shape is run.b.shape else _BLEND[fineness]
    return [i / count for i in range(count + 1)]


def _lean(bar: BarResult, line: Line) -> Iterator[float]:
    for mitre in mitres(bar, line):
        for i in range(1, _MITRE + 1):
            yield line.on_metal(mitre.line - mitre.before * i / _MITRE)
            yield line.on_metal(mitre.line + mitre.after * i / _MITRE)
