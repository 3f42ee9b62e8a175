"""A hot zone that is short along the bar: its heat runs into the cold bar beside it, as well as into the air."""

import math
from collections.abc import Callable
from itertools import pairwise

from bickern.iron.heat.balance import Node, nodes, seconds_at
from bickern.iron.heat.body import Body, Surround
from bickern.iron.heat.loss import skin_loss
from bickern.iron.heat.steel_heat import DENSITY, conductivity, diffusivity
from bickern.measure.known import Known
from bickern.measure.source import Kind, Source

LEAST = 1e-6
"""Under this length [m] nothing is hot."""
LONG = 6.0
"""A hot zone longer than this many sqrt(alpha t) keeps its middle as if it were endless (under 3 % of its time)."""
_FITTED = Source(
    "", "a fit of this project to finite volumes along the bar, nothing measured", None,
    "found so that 20 to 200 mm hot zones of 5 to 50 mm bar stand within 6 % of them", Kind.MEMORY,
)  # fmt: skip
SPREADING = Known(4.8e-6, "m2/s", _FITTED)
"""One figure for how fast heat spreads along the bar, hot and cold taken together."""
HELD_BACK = Known(0.95, "1", _FITTED)
"""Share of the heat that would run into cold bar of constant properties: the change near 735 C holds it back."""


def reach(temperature: float, seconds: float) -> float:
    """How far heat spreads along steel in some seconds [m]: sqrt(alpha t), alpha that of the temperature [K]."""
    return math.sqrt(diffusivity(temperature) * seconds)


def matters(hot_length: float, temperature: float, seconds: float) -> bool:
    """Whether a hot zone [m] is so short that its middle is colder for it, after some seconds from a temperature."""
    return hot_length < LONG * reach(temperature, seconds)


def kept(hot_length: float, spread: float, cold_sides: int = 1) -> float:
    """Share of its warmth that the middle of a hot zone keeps, with nothing lost to the air (exact, constant alpha).

    `spread` = sqrt(alpha t) [m]. One cold side: the other end is a free tip that heat does not leave. Two: cold bar on
    both.
    """
    if spread == 0:
        return 1.0
    near = math.erf(hot_length / (4 * spread))
    far = math.erf(3 * hot_length / (4 * spread)) if cold_sides == 1 else near
    return (near + far) / 2


def fin_seconds(
    body: Body, start: float, stop: float, surround: Surround, hot_length: float, cold_sides: int = 1
) -> float:
    """Seconds for the middle of a hot zone [m] to fall from start to stop [K]: at most those of an endless one.

    Within 6 % of finite volumes along the bar, zones of 20 mm and more, 5 to 50 mm across.

    The zone is at one heat and ends sharply, the bar beside it is at the heat of the air: a bar that has lain long in
    the fire is warm beside its hot zone, and keeps it longer. The face of the free tip loses nothing (it adds its
    share of the skin: little, but for short stubs).
    """
    if stop >= start or body.hydraulic <= 0 or hot_length < LEAST:
        return 0.0
    through = nodes(body, start, stop, lambda skin: skin_loss(body, skin, surround))
    if min(node.flow for node in through) <= 0:
        return math.inf

    def left(seconds: float) -> float:
        return math.log(kept(hot_length, math.sqrt(SPREADING.value * seconds), cold_sides))

    seconds = 0.0
    for a, b in pairwise(through):
        seconds += _step(body, a, b, (a.mean + b.mean) / 2 - surround.air, left, seconds)
    return min(seconds, seconds_at(body, through)[-1])


def _step(body: Body, a: Node, b: Node, warmer: float, left: Callable[[float], float], since: float) -> float:
    """Seconds from one node to the next: until air and bar together have taken the heat between them.

    The bar takes its part of what stands over the air (`warmer` [K]) as the logarithm of what is `left` falls.
    """
    heat = a.held - b.held
    into_air = (a.flow + b.flow) / 2 / (DENSITY.value * body.hydraulic)
    for_left = HELD_BACK.value * conductivity((a.mean + b.mean) / 2) / (DENSITY.value * SPREADING.value) * warmer
    before = left(since)
    return _rising_root(lambda t: into_air * t + for_left * (before - left(since + t)) - heat, heat, heat / into_air)


def _rising_root(lacks: Callable[[float], float], at_nought: float, most: float) -> float:
    """Where a rising function is nought, between 0 (there -`at_nought`) and `most`: false position, Illinois rule."""
    low, high, f_low, f_high = 0.0, most, -at_nought, lacks(most)
    if f_high <= (near := 1e-4 * at_nought):
        return most
    last = 0.0
    for _ in range(40):
        middle = (low * f_high - high * f_low) / (f_high - f_low)
        f = lacks(middle)
        if abs(f) <= near:
            return middle
        if f < 0:
            # an end that stays twice counts half, or it would stay for ever
            low, f_low, f_high = middle, f, f_high / 2 if last < 0 else f_high
        else:
            high, f_high, f_low = middle, f, f_low / 2 if last > 0 else f_low
        last = f
    return (low + high) / 2
