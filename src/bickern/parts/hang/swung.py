"""What turns on a pin of a body, as a load of that body: it balances as low below the pin as the pin lets it.

With the turn left free its height of all weights is m (point.u - arm |axis x u|) for u the up direction, and the slope
of that is m times the place where it then balances (exact mathematics): so it settles as a load at that place.
"""

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bickern.geometry.pose import Pose, then, turning
from bickern.geometry.space import Vec, cross, dot, minus, mixed, norm, plus, times, unit

if TYPE_CHECKING:
    from numpy.typing import NDArray

_TINY = 1e-9


@dataclass(frozen=True, slots=True)
class Pin:
    """The body `lower` on a pin of `upper`: `axis` (unit) through `point` [m], in the upper's coordinates.

    `lies`: how the lower lies in them as it was put together.
    """

    upper: int
    lower: int
    point: Vec
    axis: Vec
    lies: Pose


@dataclass(frozen=True, slots=True)
class Swung:
    """What turns on a `pin`, with all below it: `drawn` [m] where it balances as it was put together, `up` in its own
    coordinates; `foot` [m] on the pin's line abreast of that, `arm` [m] from there (0: it stays as it was drawn).
    """

    pin: Pin
    drawn: Vec
    foot: Vec
    arm: float
    up: Vec


def balanced(swung: Swung, up: Vec) -> Vec:
    """Where it balances with `up` upward, in the upper's coordinates [m]."""
    aside = mixed(up, 1.0, swung.pin.axis, -dot(swung.pin.axis, up))
    if swung.arm == 0.0 or norm(aside) < _TINY:
        return swung.drawn
    return minus(swung.foot, times(unit(aside), swung.arm))


def balanced_heights(swung: Swung, ways: "NDArray[np.float64]") -> "NDArray[np.float64]":
    """Height (m,) of that place for each of `ways` (m, 3) as up [m]."""
    if swung.arm == 0.0:
        return np.asarray(ways @ np.array(swung.drawn))
    along = ways @ np.array(swung.pin.axis)
    return np.asarray(ways @ np.array(swung.foot) - swung.arm * np.sqrt(np.maximum(1 - along * along, 0.0)))


def turned_down(swung: Swung, up: Vec) -> Pose:
    """How it lies in the upper's coordinates with `up` upward: turned about its pin to where it balances lowest."""
    there = balanced(swung, up)
    one, two = minus(swung.drawn, swung.foot), minus(there, swung.foot)
    axis = swung.pin.axis
    angle = math.atan2(dot(cross(one, two), axis), dot(one, two)) if swung.arm else 0.0
    return then(turning(swung.pin.point, axis, angle), swung.pin.lies)


def abreast(pin: Pin, place: Vec) -> tuple[Vec, float]:
    """The foot [m] of a place on the pin's line, and how far it is from there [m]."""
    foot = plus(pin.point, times(pin.axis, dot(minus(place, pin.point), pin.axis)))
    return foot, norm(minus(place, foot))
