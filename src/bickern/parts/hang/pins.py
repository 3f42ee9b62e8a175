"""Bodies on pins brought to rest with all else: each turns about its pin to where it and all below it balance lowest.

What hangs on such a body hangs in its valleys as it then lies. How far its pin is off level goes by what carries it,
and how that hangs goes by where the body balances: a few rounds settle both. A pin has no friction here and no slack,
and nothing moves along it.
"""

import math
from collections.abc import Callable, Mapping
from dataclasses import replace

from bickern.geometry.pose import Pose, put, seen, within
from bickern.geometry.space import ORIGIN, Vec, distance, dot, minus, mixed, plus, times
from bickern.parts.hang.bridle import UP
from bickern.parts.hang.lie import lowest
from bickern.parts.hang.order import Order
from bickern.parts.hang.rests import Rests, Tracks, loads_on, rests_of
from bickern.parts.hang.settle import Load, borne, square_to
from bickern.parts.hang.swung import Pin, Swung, abreast, turned_down
from bickern.parts.hang.track import Track
from bickern.parts.set.result import SetResult

UPRIGHT = math.sin(math.radians(3))
"""A pin no more than 3 degrees off plumb lets a thing stay wherever it is put (chosen here: a gate hangs so)."""
_ARM = 1e-6
"""Metres from its pin's line at which a thing balances on it anyhow."""
_ROUNDS = 6
_SAME = 1e-7
_TURNS = 48
_HALVINGS = 44


def rests_on_pins(
    a_set: SetResult, order: Order, tracks: Tracks, masses: Mapping[int, float], fixed: Pose | None
) -> tuple[Tracks, Rests]:
    """Every body at rest, and the tracks with what is on pins as it then lies."""
    if not order.pins:
        return tracks, rests_of(a_set, order, tracks, masses, fixed)
    ups: dict[int, Vec] = {}
    for _ in range(_ROUNDS):
        tracks = replace(tracks, pins=_swung(a_set, order, tracks, masses, ups))
        rests = rests_of(a_set, order, tracks, masses, fixed)
        before, ups = ups, ups_of(order, tracks, rests, fixed)
        if before.keys() == ups.keys() and all(distance(before[b], up) < _SAME for b, up in ups.items()):
            break
    return tracks, rests


def ups_of(order: Order, tracks: Tracks, rests: Rests, fixed: Pose | None) -> dict[int, Vec]:
    """Which way is up in each body's own coordinates, where that is known."""
    ups = {body: rest.up for body, rest in rests.single.items()}
    if fixed is not None:
        ups[order.root] = seen(fixed, UP)
    for bridle, settled in zip(order.bridles, rests.bridles, strict=True):
        if settled is not None:
            ups[bridle.top], ups[bridle.bottom] = settled.up, seen(settled.relative, settled.up)
    for body in order.down:
        if body in order.pins and order.pins[body].upper in ups:
            up = ups[order.pins[body].upper]
            ups[body] = seen(turned_down(tracks.pins[body], up), up)
    return ups


def _swung(
    a_set: SetResult, order: Order, tracks: Tracks, masses: Mapping[int, float], ups: Mapping[int, Vec]
) -> dict[int, Swung]:
    """Everything on pins, what is lowest first; where nothing is known yet of what carries it, its pin is level."""
    found: dict[int, Swung] = {}
    for body in reversed(order.down):
        if body in order.pins:
            here = a_set.bodies[body]
            loads = (*loads_on(order, body, replace(tracks, pins=found), masses), *_tied(order, tracks, masses, body))
            found[body] = _swings(order.pins[body], (here.mass, here.centre), loads, ups.get(order.pins[body].upper))
    return found


def _tied(order: Order, tracks: Tracks, masses: Mapping[int, float], body: int) -> tuple[Load, ...]:
    """What a body on a pin carries by several ties, as much by each."""
    found: list[Load] = []
    for bridle in order.bridles:
        if bridle.top == body:
            between = math.fsum(masses[b] for tie in bridle.ties for b in tie.between)
            share = (masses[bridle.bottom] + between) / len(bridle.ties)
            found += [Load(share, tracks.links[tie.holds[0].number][0]) for tie in bridle.ties]
    return tuple(found)


def _swings(pin: Pin, own: tuple[float, Vec], loads: tuple[Load, ...], up: Vec | None) -> Swung:
    axis, point = seen(pin.lies, pin.axis), within(pin.lies, pin.point)
    lean = dot(pin.axis, up) if up is not None else 0.0
    as_drawn = seen(pin.lies, up) if up is not None else square_to(axis)[0]
    total = own[0] + math.fsum(load.mass for load in loads)

    def lever(at: Vec) -> Vec:
        arm = times(minus(own[1], point), own[0])
        for load in loads:
            arm = plus(arm, times(minus(_place(load, at), point), load.mass))
        return times(arm, 1 / total)

    upright = math.sqrt(max(1 - lean * lean, 0.0)) < UPRIGHT
    turned = as_drawn if upright else _lowest_up(axis, lean, lever)
    drawn = put(pin.lies, plus(point, lever(turned)))
    foot, arm_long = abreast(pin, drawn)
    if upright or arm_long < _ARM:
        return Swung(pin, drawn, drawn, 0.0, as_drawn)
    return Swung(pin, drawn, foot, arm_long, turned)


def _place(load: Load, up: Vec) -> Vec:
    """Where a load hangs; where it has no valley at the low end."""
    there = borne(load, up)
    if there is not None or not isinstance(load.track, Track):
        return there.point if there is not None else ORIGIN
    return lowest(load.track, up).point


def _lowest_up(axis: Vec, lean: float, lever: Callable[[Vec], Vec]) -> Vec:
    """Of all up directions that lean so far along the pin the one with the least height of what is on it."""
    one, two = square_to(axis)
    wide = math.sqrt(1 - lean * lean)

    def up_at(turn: float) -> Vec:
        aside = mixed(one, wide * math.cos(turn), two, wide * math.sin(turn))
        return mixed(axis, lean, aside, 1.0)

    def slope(turn: float) -> float:
        return dot(lever(up_at(turn)), mixed(one, -math.sin(turn), two, math.cos(turn)))

    step = 2 * math.pi / _TURNS
    low = min((i * step for i in range(_TURNS)), key=lambda turn: dot(lever(up_at(turn)), up_at(turn)))
    down, up = low - step, low + step
    for _ in range(_HALVINGS):
        middle = (down + up) / 2
        if slope(middle) > 0:
            up = middle
        else:
            down = middle
    return up_at((down + up) / 2)
