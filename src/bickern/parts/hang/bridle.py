"""One body carried by two ties or more from one other: both come to rest together.

What is sought is the least height of all weights (the upper body turns under what carries it, the lower lies anywhere)
with no tie longer than it is. Each tie's pull is found by pressing on it ever better guessed (augmented Lagrangian), so
that a tie that is slack comes out with no pull. Turns that change nothing stay as they began.
"""

import math
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

import numpy as np

from bickern.geometry.pose import Pose, facing, put, seen, then, within
from bickern.geometry.space import ORIGIN, Vec, cross, dot, minus, mixed, norm, plus, times, turned, unit
from bickern.parts.hang.settle import Hung, Load, borne, settle, square_to
from bickern.parts.hang.ties import Drawn, Stay, drawn, mean_place, spread
from bickern.parts.hang.track import OVER, UNDER, Bearing, Track, bearing

if TYPE_CHECKING:
    from numpy.typing import NDArray

UP: Vec = (0.0, 0.0, 1.0)
_PRESSES = 14
_STEPS = 60
STIFF = 300.0
"""How hard a tie that is too long is pressed on, in weights of everything over the size of the thing."""
_STILL = 1e-5
"""The share of all weight that may be left over when a lie is called rest: a hundredth of a degree and less."""
_SLIP = 1e-9
"""Metres by which a tie may be too long when it is found."""


@dataclass(frozen=True, slots=True)
class Bridled:
    """A body hung on stays: the upper (`carried` None: held fast, `fixed` how it lies) and the lower, its loads.

    `size` [m]: from where the lower balances to its farthest stay's other end; turns are counted as ways at that size.
    """

    upper_mass: float
    upper_centre: Vec
    carried: Track | None
    upper_loads: tuple[Load, ...]
    lower_mass: float
    lower_centre: Vec
    lower_loads: tuple[Load, ...]
    stays: tuple[Stay, ...]
    fixed: Pose | None = None
    size: float = 1.0

    @property
    def total(self) -> float:
        """All weight together [kg]."""
        loads = math.fsum(load.mass for load in (*self.upper_loads, *self.lower_loads))
        return self.upper_mass + self.lower_mass + loads + math.fsum(stay.mass for stay in self.stays)


@dataclass(frozen=True, slots=True)
class Lies:
    """How two bodies lie: both poses in one upright frame."""

    upper: Pose
    lower: Pose


@dataclass(frozen=True, slots=True)
class Settled:
    """A bridle at rest: up in the upper body's coordinates, the lower body's pose in them, and the ties as they lie."""

    up: Vec
    relative: Pose
    ties: tuple[Drawn, ...]
    pulls: tuple[float, ...]


@dataclass(slots=True)
class _Press:
    """What the settling holds from step to step: pulls guessed [kg], stiffness [kg/m], and where the ties were."""

    pulls: list[float]
    stiff: float
    ties: list[Drawn | None]
    halves: list[tuple[Vec, Vec]] = field(default_factory=list)
    inverse: "NDArray[np.float64] | None" = None


def size_of(centre: Vec, stays: tuple[Stay, ...]) -> float:
    """How far a body's stays reach [m] from where it balances."""
    return max((*(norm(minus(mean_place(s.bottom), centre)) + s.long for s in stays), 1e-4))


def settle_bridle(bridle: Bridled, near: Settled | None = None) -> Settled | None:
    """How a bridle comes to rest; None where it finds none (what carries it would slide off).

    `near`: how one much like it rests, to begin with.
    """
    lies = begun(bridle) if near is None else _begun_near(bridle, near)
    if lies is None:
        return None
    pulls = [0.0] * len(bridle.stays) if near is None else list(near.pulls)
    press = _Press(pulls, STIFF * bridle.total / bridle.size, [None] * len(bridle.stays))
    for _ in range(_PRESSES):
        lies_now = _pressed(bridle, lies, press)
        if lies_now is None:
            return None
        lies = lies_now
        ties = _ties(bridle, lies, press)
        before = press.pulls
        press.pulls = [max(0.0, p + press.stiff * t.over) for p, t in zip(before, ties, strict=True)]
        changed = max(abs(p - q) for p, q in zip(before, press.pulls, strict=True))
        if changed < _SLIP * press.stiff:
            found = _slope(bridle, lies, press)
            if found is not None and float(np.abs(found[1]).max()) < _STILL * bridle.total:
                return _settled(bridle, lies, press, ties)
    return None


def _settled(bridle: Bridled, lies: Lies, press: _Press, ties: tuple[Drawn, ...]) -> Settled:
    up = seen(lies.upper, UP)
    relative = _inside(lies.upper, lies.lower)
    return Settled(up, relative, ties, tuple(press.pulls))


def _inside(outer: Pose, world: Pose) -> Pose:
    """A pose of the world told in the coordinates of a thing that lies by another."""
    return Pose(within(outer, world.origin), seen(outer, world.x), seen(outer, world.y))


def begun(bridle: Bridled) -> Lies | None:
    """A fair first lie: the lower body plumb below the middle of its stays, the upper's bend facing their spread."""
    downs = tuple(mean_place(stay.bottom) for stay in bridle.stays)
    middle = times(_sum(downs), 1 / len(downs))
    lower_up = _up_over(bridle.lower_centre, middle, downs)
    low_spread = spread(downs)
    upper = bridle.fixed or _upper_begun(bridle)
    if upper is None:
        return None
    tops = tuple(put(upper, mean_place(stay.top)) for stay in bridle.stays)
    way = spread(tops)
    sag = min(stay.long or _part_way(stay.bottom, lower_up) for stay in bridle.stays)
    if norm(way) == 0:
        valley = bearing(bridle.stays[0].top, seen(upper, UP), OVER)
        way = facing(upper, valley.along) if valley else (1.0, 0.0, 0.0)
        place = put(upper, valley.point) if valley else tops[0]
        lower = facing_pose(lower_up, low_spread, way)
    else:
        place = times(_sum(tops), 1 / len(tops))
        lower = drawn_along(low_spread, lower_up, way, UP)
    origin = minus(minus(place, times(UP, sag)), facing(lower, middle))
    return Lies(upper, Pose(origin, lower.x, lower.y))


def _begun_near(bridle: Bridled, near: Settled) -> Lies | None:
    upper = bridle.fixed
    if upper is None:
        carried = bearing(bridle.carried, near.up, UNDER) if bridle.carried is not None else None
        if carried is None:
            return None
        upper = _hung_at(facing_pose(near.up, carried.along, (1.0, 0.0, 0.0)), carried)
    return Lies(upper, then(upper, near.relative))


def _part_way(eye: Track, up: Vec) -> float:
    """How far an eye hangs below the bar it goes round, to begin with: so that its upper side is the nearer one [m]."""
    heights = eye.points @ np.array(up)
    return float(np.ptp(heights)) / 4


def _up_over(centre: Vec, middle: Vec, places: tuple[Vec, ...]) -> Vec:
    """Square to the stays, on the side away from where the body balances."""
    arm = minus(middle, centre)
    square = max((cross(minus(p, middle), minus(q, middle)) for p in places for q in places), key=norm)
    wide = spread(places)
    if norm(square) > 1e-3 * _farthest(places) ** 2:
        return times(unit(square), 1.0 if dot(square, arm) >= 0 else -1.0)
    up = minus(arm, times(wide, dot(arm, wide)))
    return unit(up) if norm(up) > 1e-6 else square_to(wide if norm(wide) > 0 else UP)[0]


def _farthest(places: tuple[Vec, ...]) -> float:
    return max(norm(minus(p, q)) for p in places for q in places)


def _sum(places: tuple[Vec, ...]) -> Vec:
    total = ORIGIN
    for place in places:
        total = plus(total, place)
    return total


def _upper_begun(bridle: Bridled) -> Pose | None:
    """The upper body as it would hang with all the weight at the middle of its stays' valleys."""
    if bridle.carried is None:
        return None
    share = (bridle.total - bridle.upper_mass - math.fsum(x.mass for x in bridle.upper_loads)) / len(bridle.stays)
    loads = (*bridle.upper_loads, *(Load(share, stay.top) for stay in bridle.stays))
    rest = settle(Hung(bridle.upper_mass, bridle.upper_centre, bridle.carried, loads))
    return None if rest is None else _hung_at(facing_pose(rest.up, rest.carried.along, (1.0, 0.0, 0.0)), rest.carried)


def _hung_at(pose: Pose, carried: Bearing) -> Pose:
    """The pose with the bearing at height 0 and the body's origin plumb under or over the middle of the world."""
    return Pose(times(UP, -facing(pose, carried.point)[2]), pose.x, pose.y)


def facing_pose(up: Vec, way: Vec, world_way: Vec) -> Pose:
    """The turn about the origin that brings `up` plumb and the level part of `way` along that of `world_way`."""
    level = _level(way, up)
    east = _level(world_way, UP)
    x_body, y_body = level, cross(up, level)
    north = cross(UP, east)
    # rows of the turn: body axes told in the world
    axes = [plus(plus(times(east, x_body[i]), times(north, y_body[i])), times(UP, up[i])) for i in range(3)]
    return Pose(ORIGIN, axes[0], axes[1])


def drawn_along(body_way: Vec, body_along: Vec, way: Vec, along: Vec) -> Pose:
    """The turn that brings a direction of the body along `way`, and its `along` as near to the other as it goes."""
    e1, e2 = _frame(body_way, body_along)
    f1, f2 = _frame(way, along)
    e3, f3 = cross(e1, e2), cross(f1, f2)
    axes = [plus(plus(times(f1, e1[i]), times(f2, e2[i])), times(f3, e3[i])) for i in range(3)]
    return Pose(ORIGIN, axes[0], axes[1])


def _frame(way: Vec, near: Vec) -> tuple[Vec, Vec]:
    flat = mixed(near, 1.0, way, -dot(near, way))
    return way, unit(flat) if norm(flat) > 1e-9 else unit(cross(way, (0.3, 0.5, 0.7)))


def _level(way: Vec, up: Vec) -> Vec:
    flat = mixed(way, 1.0, up, -dot(way, up))
    return unit(flat) if norm(flat) > 1e-9 else square_to(up)[0]


def _ties(bridle: Bridled, lies: Lies, press: _Press) -> tuple[Drawn, ...]:
    relative, up = _inside(lies.upper, lies.lower), seen(lies.upper, UP)
    found = [drawn(stay, relative, up, tie) for stay, tie in zip(bridle.stays, press.ties, strict=True)]
    press.ties = list(found)
    return tuple(found)


def _pressed(bridle: Bridled, lies: Lies, press: _Press) -> Lies | None:
    """The least of height and pressing together, by steps that learn the bend as they go (BFGS)."""
    ties = _ties(bridle, lies, press)
    press.halves = [(tie.middles[0], tie.middles[1]) for tie in ties]
    found = _slope(bridle, lies, press)
    if found is None:
        return None
    f, slope = found
    for _ in range(_STEPS):
        if float(np.abs(slope).max()) < 1e-9 * bridle.total:
            return lies
        if press.inverse is None:
            press.inverse = _inverse_bend(bridle, lies, press, slope)
        moved = _downhill(bridle, lies, press, (f, slope), -press.inverse @ slope)
        if moved is None:
            return lies
        lies, f, new, step = moved
        press.inverse = _learnt(press.inverse, step, new - slope)
        slope = new
    return lies


def _learnt(
    inverse: "NDArray[np.float64]", step: "NDArray[np.float64]", change: "NDArray[np.float64]"
) -> "NDArray[np.float64]":
    along = float(step @ change)
    if along <= 1e-14 * float(np.linalg.norm(step) * np.linalg.norm(change)):
        return inverse
    side = inverse @ change
    grown = np.outer(step, step) * ((along + float(change @ side)) / along**2)
    return np.asarray(inverse + grown - (np.outer(side, step) + np.outer(step, side)) / along)


def _downhill(
    bridle: Bridled,
    lies: Lies,
    press: _Press,
    here: "tuple[float, NDArray[np.float64]]",
    step: "NDArray[np.float64]",
) -> "tuple[Lies, float, NDArray[np.float64], NDArray[np.float64]] | None":
    f, slope = here
    step = step * min(1.0, 0.3 * bridle.size / max(float(np.abs(step).max()), 1e-30))
    fall = float(slope @ step)
    for halving in range(25):
        share = 0.5**halving
        there = stepped(bridle, lies, step * share)
        found = _slope(bridle, there, press)
        if found is None:
            continue
        lower = found[0] <= f + 1e-4 * share * fall
        as_low = found[0] <= f + 1e-12 * bridle.total * bridle.size and np.abs(found[1]).max() < np.abs(slope).max()
        if lower or as_low:
            return there, found[0], found[1], step * share
    return None


def _inverse_bend(bridle: Bridled, lies: Lies, press: _Press, slope: "NDArray[np.float64]") -> "NDArray[np.float64]":
    """The inverse of the bend found by small steps, every main direction taken as downhill and none without bend."""
    count, small = len(slope), 1e-6 * bridle.size
    bend = np.zeros((count, count))
    for i in range(count):
        step = np.zeros(count)
        step[i] = small
        found = _slope(bridle, stepped(bridle, lies, step), press)
        bend[i] = (found[1] - slope) / small if found else 0.0
    values, ways = np.linalg.eigh((bend + bend.T) / 2)
    sizes = np.maximum(np.abs(values), 1e-6 * float(np.abs(values).max() + 1e-30))
    return np.asarray(ways / sizes @ ways.T)


def stepped(bridle: Bridled, lies: Lies, step: "NDArray[np.float64]") -> Lies:
    """Both bodies moved: the lower by a way [m] and a turn, the upper by a turn (turns told as ways at `size`)."""
    size = bridle.size
    x, y, z, a, b, c = (float(v) for v in step[:6])
    lower = _swung(lies.lower, bridle.lower_centre, (a / size, b / size, c / size), (x, y, z))
    if bridle.carried is None or len(step) < 9:
        return Lies(lies.upper, lower)
    a, b, c = (float(v) for v in step[6:])
    upper = _swung(lies.upper, ORIGIN, (a / size, b / size, c / size), ORIGIN)
    carried = bearing(bridle.carried, seen(upper, UP), UNDER)
    return Lies(_hung_at(upper, carried) if carried else upper, lower)


def _swung(pose: Pose, about: Vec, turn: Vec, move: Vec) -> Pose:
    """A pose turned by a vector [rad] about a place of its own, and moved [m]."""
    angle = norm(turn)
    if angle == 0.0:
        return Pose(plus(pose.origin, move), pose.x, pose.y)
    axis, place = unit(turn), put(pose, about)
    origin = plus(place, turned(minus(pose.origin, place), axis, angle))
    return Pose(plus(origin, move), unit(turned(pose.x, axis, angle)), unit(turned(pose.y, axis, angle)))


def _slope(bridle: Bridled, lies: Lies, press: _Press) -> "tuple[float, NDArray[np.float64]] | None":
    """Height of all weights with the pressing of the ties [kg m], and how it grows with every step [kg]."""
    pulls: list[tuple[bool, Vec, Vec]] = []  # on the upper body?, where [m, in the world], push [kg]
    weighed = _weights(bridle, lies, press)
    if weighed is None:
        return None
    f = 0.0
    for upper, place, mass in weighed:
        f += mass * place[2]
        pulls.append((upper, place, times(UP, mass)))
    for stay, tie, pull in zip(bridle.stays, _ties(bridle, lies, press), press.pulls, strict=True):
        now = max(0.0, pull + press.stiff * tie.over)
        f += (now * now - pull * pull) / (2 * press.stiff)
        push = times(facing(lies.upper, tie.way), stay.sign * now)
        pulls.append((False, put(lies.lower, tie.on_bottom), push))
        pulls.append((True, put(lies.upper, tie.on_top), times(push, -1.0)))
    return f, _gathered(bridle, lies, pulls)


def _weights(bridle: Bridled, lies: Lies, press: _Press) -> list[tuple[bool, Vec, float]] | None:
    """Every weight: on the upper body or not, where it is [m], and its mass [kg]."""
    found = [
        (True, put(lies.upper, bridle.upper_centre), bridle.upper_mass),
        (False, put(lies.lower, bridle.lower_centre), bridle.lower_mass),
    ]
    for stay, (a, b) in zip(bridle.stays, press.halves, strict=True):
        found += [(True, put(lies.upper, a), stay.mass / 2), (False, put(lies.lower, b), stay.mass / 2)]
    for upper, pose, loads in (
        (True, lies.upper, bridle.upper_loads),
        (False, lies.lower, bridle.lower_loads),
    ):
        for load in loads:
            valley = borne(load, seen(pose, UP))
            if valley is None:
                return None
            found.append((upper, put(pose, valley.point), load.mass))
    return found


def _gathered(bridle: Bridled, lies: Lies, pulls: list[tuple[bool, Vec, Vec]]) -> "NDArray[np.float64]":
    """Pushes [kg] as slopes along every step: move and turn of the lower body, turn of the upper."""
    about = put(lies.lower, bridle.lower_centre)
    move, turn, upper, lift = ORIGIN, ORIGIN, ORIGIN, 0.0
    for on_upper, place, push in pulls:
        if on_upper:
            upper, lift = plus(upper, cross(minus(place, lies.upper.origin), push)), lift + push[2]
        else:
            move, turn = plus(move, push), plus(turn, cross(minus(place, about), push))
    parts = [move, times(turn, 1 / bridle.size)]
    if bridle.carried is not None:
        carried = bearing(bridle.carried, seen(lies.upper, UP), UNDER)
        arm = facing(lies.upper, carried.point) if carried else ORIGIN
        # the upper body rises and sinks so that what carries it stays at one height
        parts.append(times(minus(upper, cross(arm, times(UP, lift))), 1 / bridle.size))
    return np.array([v for part in parts for v in part])
