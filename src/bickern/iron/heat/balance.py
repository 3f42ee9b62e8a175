"""The heat balance that all curves share.

Seconds = density x area over girth x the sum of (step of heat held) / (flow through the skin).
"""

import math
from collections.abc import Callable
from dataclasses import dataclass
from itertools import accumulate, pairwise

from bickern.iron.heat.body import Body, Form
from bickern.iron.heat.steel_heat import DENSITY, KINKS, conductivity, enthalpy

Flow = Callable[[float], float]
"""Skin temperature [K] -> heat through the skin [W/m2], counted the way that the curve goes."""
STEPS = 20
"""Steps of a cooling curve: the error of the sum is then under 0.05 %."""


@dataclass(frozen=True, slots=True)
class Node:
    """One point of a curve: mean temperature [K], heat held [J/kg], skin [K], flow through it [W/m2], its slope.

    `slope` [W/m2K]: what the flow gains for each kelvin of the skin.
    """

    mean: float
    held: float
    skin: float
    flow: float
    slope: float


def drop(body: Body, mean: float) -> float:
    """How far the skin is from the mean, for each W/m2 through it [K m2/W]: steady parabola in a bar or slab.

    Cylinder of radius R: R/(4 k); slab of half thickness L: L/(3 k) (exact for constant properties). R is twice the
    area over girth, L is equal to it.
    """
    return body.hydraulic / ((2 if body.form is Form.BAR else 3) * conductivity(mean))


def nodes(body: Body, start: float, stop: float, flow: Flow, steps: int = STEPS) -> tuple[Node, ...]:
    """Points of a curve from start to stop [K], at even steps of temperature and at the kinks of the specific heat."""
    way = 1.0 if stop > start else -1.0
    found: list[Node] = []
    last = _first(body, start, way, flow)
    for mean in _stations(start, stop, steps):
        last = _next(last, mean, way * drop(body, mean), flow)
        found.append(last)
    return tuple(found)


def _stations(start: float, stop: float, steps: int) -> list[float]:
    low, high = min(start, stop), max(start, stop)
    step = (high - low) / steps
    kinks = [k for k in KINKS if low + step / 2 < k < high - step / 2]
    even = (start + (stop - start) * i / steps for i in range(1, steps))
    # an even step close to a kink gives way to it: two points so near would tell no slope
    between = [e for e in even if all(abs(e - k) > step / 2 for k in kinks)]
    return sorted([start, stop, *between, *kinks], reverse=stop < start)


def _first(body: Body, mean: float, way: float, flow: Flow) -> Node:
    """A rough first point, with the slope of the flow over the drop to the skin (or over a kelvin)."""
    at_mean = flow(mean)
    away = max(drop(body, mean) * abs(at_mean), 1.0)
    slope = (flow(mean + way * away) - at_mean) / (way * away)
    return Node(mean, 0.0, mean + way * away, at_mean + slope * way * away, slope)


def _next(last: Node, mean: float, across: float, flow: Flow) -> Node:
    """The skin by one step of the secant from the last point: near enough, since the lag hardly changes."""
    guess = mean + last.skin - last.mean
    q = flow(guess)
    slope = (q - last.flow) / (guess - last.skin) if abs(guess - last.skin) > 1e-3 else last.slope
    skin = guess + (mean + across * q - guess) / (1 - across * slope)
    return Node(mean, enthalpy(mean), skin, q + slope * (skin - guess), slope)


def seconds_at(body: Body, through: tuple[Node, ...]) -> tuple[float, ...]:
    """Seconds at each point since the first: the heat between two of them over the middle of their flows.

    Then less what iron that starts at one even heat gains on the steady parabola, which must first be built up, and
    which lags behind: R^3 / (96 k alpha) x slope, for a slab L^3 / (45 k alpha) x slope (from the series for a steady
    flow: the sums of 2/x^4 over the zeros of J1, and over the multiples of pi). `inf` where no heat flows that way.
    """
    heavy = DENSITY.value * body.hydraulic
    took = [_share(heavy, a, b) for a, b in pairwise(through)]
    plain = accumulate(took, initial=0.0)
    most, builds = _build_up(body, through[0], through[-1])
    return tuple(t - most * abs(n.slope) * -math.expm1(-t / builds) for t, n in zip(plain, through, strict=True))


def _share(heavy: float, a: Node, b: Node) -> float:
    if a.flow <= 0 or b.flow <= 0:
        return math.inf
    return heavy * abs(b.held - a.held) * (1 / a.flow + 1 / b.flow) / 2


def _build_up(body: Body, start: Node, stop: Node) -> tuple[float, float]:
    """How much is gained for each W/m2K of slope [m2 K s/W], and in what time the parabola builds up [s]."""
    k = conductivity(start.mean)
    capacity = abs(start.held - stop.held) / max(abs(start.mean - stop.mean), 1e-9)
    squared_over_alpha = DENSITY.value * capacity / k * body.hydraulic**2
    if body.form is Form.BAR:
        return 2 * body.hydraulic / k * 4 * squared_over_alpha / 96, 4 * squared_over_alpha / 3.8317**2
    return body.hydraulic / k * squared_over_alpha / 45, squared_over_alpha / math.pi**2
