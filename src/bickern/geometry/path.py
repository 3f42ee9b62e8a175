"""A line bent in space, as legs read along it: straights, arcs, spirals and sharp kinks, with a frame carried along.

The frame: `along` is the direction of travel, `up` is the normal of the reference face, `left = up x along`.
A leg bends toward `cos(roll) * left + sin(roll) * up`: roll 0 is left, pi/2 up, pi right, 3 pi/2 down.
A path starts at the origin along +x with its reference face up +z, unless another frame is given.
"""

import math
from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

from bickern.geometry.curve import Scroll, angle_at, local_at, scroll_for_length, scroll_length
from bickern.geometry.curve import SpiralKind as SpiralKind
from bickern.geometry.space import ORIGIN, Vec, cross, dot, mixed, plus
from bickern.measure.units.words import Read

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray


@dataclass(frozen=True, slots=True)
class Straight:
    """A straight of `length` [m]."""

    length: float


@dataclass(frozen=True, slots=True)
class Arc:
    """A circular arc: `radius` [m] of the line, `angle` [rad] > 0, bending toward `roll` [rad]."""

    radius: float
    angle: float
    roll: float = 0.0


@dataclass(frozen=True, slots=True)
class Spiral:
    """A flat spiral, polar radius about its own centre from `start_radius` to `end_radius` [m] over `angle` [rad]."""

    start_radius: float
    end_radius: float
    angle: float
    kind: SpiralKind = SpiralKind.ARCHIMEDEAN
    roll: float = 0.0


@dataclass(frozen=True, slots=True)
class Kink:
    """A sharp corner of no length: the direction turns by `angle` [rad] toward `roll` [rad]."""

    angle: float
    roll: float = 0.0


@dataclass(frozen=True, slots=True)
class Turned:
    """No length: the reference face turns by `angle` [rad] about the line (left toward up), as a twist leaves it."""

    angle: float


Leg = Straight | Arc | Spiral | Kink | Turned


@dataclass(frozen=True, slots=True)
class Frame:
    """A place on the line: `origin` [m], unit vectors `along` and `up`."""

    origin: Vec = ORIGIN
    along: Vec = (1.0, 0.0, 0.0)
    up: Vec = (0.0, 0.0, 1.0)

    @property
    def left(self) -> Vec:
        """Across the line to the left, reference face up."""
        return cross(self.up, self.along)


START = Frame()
"""Where a path starts: at the origin, along +x, up +z (so left is +y)."""


@dataclass(frozen=True, slots=True)
class Station:
    """One leg placed: `s` [m] and `frame` where it starts, and its `length` [m]."""

    s: float
    frame: Frame
    length: float
    leg: Leg


@dataclass(frozen=True, slots=True)
class Frames:
    """Frames along a path as arrays: `s` (n,) [m], `origin`, `along`, `up` (n, 3)."""

    s: "NDArray[np.float64]"
    origin: "NDArray[np.float64]"
    along: "NDArray[np.float64]"
    up: "NDArray[np.float64]"

    @property
    def left(self) -> "NDArray[np.float64]":
        """Unit vectors to the left, (n, 3)."""
        import numpy as np

        return np.cross(self.up, self.along)


def scroll_of(leg: Spiral) -> Scroll:
    """The flat spiral of a leg, in its own plane."""
    return Scroll(leg.start_radius, leg.end_radius, leg.angle, leg.kind)


def spiral_for_length(
    kind: SpiralKind,
    *,
    start_radius: float | None = None,
    end_radius: float | None = None,
    angle: float | None = None,
    length: float | None = None,
    roll: float = 0.0,
) -> Read[Spiral]:
    """The spiral leg with exactly one of start radius, end radius [m], angle [rad] and length [m] left open (None)."""
    read = scroll_for_length(kind, r0=start_radius, r1=end_radius, angle=angle, length=length)
    if read.value is None:
        return Read(None, read.findings)
    found = read.value
    return Read(Spiral(found.r0, found.r1, found.angle, kind, roll), read.findings)


def leg_length(leg: Leg) -> float:
    """Length of line [m] in a leg (0 for kinks and turns of the face)."""
    if isinstance(leg, Straight):
        return leg.length
    if isinstance(leg, Arc):
        return leg.radius * leg.angle
    if isinstance(leg, Spiral):
        return scroll_length(scroll_of(leg))
    return 0.0


def run_length(legs: Sequence[Leg]) -> float:
    """Length of the whole line [m]."""
    return math.fsum(leg_length(leg) for leg in legs)


def leg_turn(leg: Leg) -> float:
    """How far the direction turns in a leg [rad]; a spiral turns by a little more or less than its polar angle."""
    if isinstance(leg, Arc | Kink):
        return leg.angle
    if isinstance(leg, Spiral):
        return local_at(scroll_of(leg), leg.angle)[2]
    return 0.0


def leg_starts(legs: Sequence[Leg], start: Frame = START) -> tuple[Station, ...]:
    """Every leg with the length and the frame at which it starts."""
    out: list[Station] = []
    s, frame = 0.0, start
    for leg in legs:
        length = leg_length(leg)
        out.append(Station(s, frame, length, leg))
        s, frame = s + length, on_leg(out[-1], length)
    return tuple(out)


def on_leg(station: Station, into: float) -> Frame:
    """The frame `into` [m] past the start of a leg; at or past its whole length, the frame in which it ends."""
    leg = station.leg
    if isinstance(leg, Straight):
        origin = mixed(station.frame.origin, 1.0, station.frame.along, into)
        return Frame(origin, station.frame.along, station.frame.up)
    if isinstance(leg, Turned):
        return _faced(station.frame, leg.angle)
    if isinstance(leg, Kink):
        return _bent(station.frame, 0.0, 0.0, leg.angle, leg.roll)
    return at_angle(station, polar_angle(leg, into))[1]


def place(legs: Sequence[Leg], s: float, start: Frame = START) -> Frame:
    """The frame at length `s` [m]; at a kink, the frame after it; beyond either end, straight on."""
    return place_on(leg_starts(legs, start), s, start)


def place_on(stations: Sequence[Station], s: float, start: Frame = START) -> Frame:
    """As `place`, on legs already placed by `leg_starts`: quicker when many places are asked for."""
    if not stations or s < 0:
        return Frame(mixed(start.origin, 1.0, start.along, s), start.along, start.up)
    i = bisect_right(stations, s, key=lambda st: st.s) - 1
    station = stations[i]
    into = s - station.s
    frame = on_leg(station, min(into, station.length))
    beyond = into - station.length
    return Frame(mixed(frame.origin, 1.0, frame.along, beyond), frame.along, frame.up) if beyond > 0 else frame


def end_frame(legs: Sequence[Leg], start: Frame = START) -> Frame:
    """The frame in which a path ends, all its kinks and turns made."""
    stations = leg_starts(legs, start)
    return on_leg(stations[-1], stations[-1].length) if stations else start


def frames(legs: Sequence[Leg], s_values: Sequence[float], start: Frame = START) -> Frames:
    """Frames at many lengths [m], as arrays in the order given."""
    stations = leg_starts(legs, start)
    return stacked([(s, place_on(stations, s, start)) for s in s_values])


def sample(legs: Sequence[Leg], tolerance: float = 5e-5, start: Frame = START) -> Frames:
    """Frames dense enough that straights between them leave the line by no more than `tolerance` [m].

    At a kink or a turned face there are two frames at the same length: before and after.
    """
    stations = leg_starts(legs, start)
    rows: list[tuple[float, Frame]] = [(0.0, start)]
    for station in stations:
        rows.extend((station.s + into, on_leg(station, into)) for into in leg_steps(station.leg, tolerance)[1:])
    return stacked(rows)


def leg_steps(leg: Leg, tolerance: float) -> tuple[float, ...]:
    """Lengths into a leg [m], from 0 to its end, between which chords leave it by no more than `tolerance` [m]."""
    if isinstance(leg, Spiral):
        scroll = scroll_of(leg)
        count = pieces(max(leg.start_radius, leg.end_radius), leg.angle, tolerance)
        return tuple(scroll_length(scroll, leg.angle * i / count) for i in range(count + 1))
    length = leg_length(leg)
    count = pieces(leg.radius, leg.angle, tolerance) if isinstance(leg, Arc) else 1
    return tuple(length * i / count for i in range(count + 1))


def pieces(radius: float, angle: float, tolerance: float) -> int:
    """Number of chords for an arc whose middle may lie `tolerance` [m] off the chord (at most 30 degrees each)."""
    step = math.pi / 6 if radius <= tolerance else min(2 * math.acos(1 - tolerance / radius), math.pi / 6)
    return max(1, math.ceil(abs(angle) / step - 1e-9))


def stacked(rows: Sequence[tuple[float, Frame]]) -> Frames:
    """Frames as arrays."""
    import numpy as np

    return Frames(
        np.array([s for s, _ in rows], dtype=float),
        np.array([f.origin for _, f in rows], dtype=float).reshape(-1, 3),
        np.array([f.along for _, f in rows], dtype=float).reshape(-1, 3),
        np.array([f.up for _, f in rows], dtype=float).reshape(-1, 3),
    )


def at_angle(station: Station, phi: float) -> tuple[float, Frame]:
    """Length into an arc or spiral [m] and the frame there, by its polar angle `phi` [rad]."""
    leg = station.leg
    if isinstance(leg, Spiral):
        scroll = scroll_of(leg)
        x, y, turn = local_at(scroll, phi)
        return scroll_length(scroll, phi), _bent(station.frame, x, y, turn, leg.roll)
    if isinstance(leg, Arc):
        x, y = _on_arc(leg, phi)
        return leg.radius * phi, _bent(station.frame, x, y, phi, leg.roll)
    raise ValueError("only arcs and spirals have a polar angle")


@lru_cache(maxsize=8192)
def polar_angle(leg: Arc | Spiral, into: float) -> float:
    """Polar angle [rad] at a length [m] into an arc or spiral; kept, since one bar is drawn and followed many times."""
    if isinstance(leg, Spiral):
        return angle_at(scroll_of(leg), into)
    return into / leg.radius if leg.radius > 0 else leg.angle


def _on_arc(arc: Arc, turn: float) -> tuple[float, float]:
    half = math.sin(turn / 2)
    return arc.radius * math.sin(turn), 2 * arc.radius * half * half


def bend_direction(frame: Frame, roll: float) -> Vec:
    """The unit vector toward which a leg of this roll bends from a frame."""
    return mixed(frame.left, math.cos(roll), frame.up, math.sin(roll))


def _bent(frame: Frame, x: float, y: float, turn: float, roll: float) -> Frame:
    toward = bend_direction(frame, roll)
    axis = cross(frame.along, toward)
    c, s = math.cos(turn), math.sin(turn)
    along = mixed(frame.along, c, toward, s)
    inward = mixed(toward, c, frame.along, -s)
    up = mixed(inward, dot(frame.up, toward), axis, dot(frame.up, axis))
    return Frame(plus(frame.origin, mixed(frame.along, x, toward, y)), along, up)


def _faced(frame: Frame, angle: float) -> Frame:
    up = mixed(frame.up, math.cos(angle), frame.left, -math.sin(angle))
    return Frame(frame.origin, frame.along, up)
