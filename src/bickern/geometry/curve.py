"""Flat spirals: arc length in closed form, the place at a length, and the missing size of a scroll.

A spiral is told by its polar radius about its own centre, from `r0` to `r1` [m] over `angle` [rad].
It starts along +x of its own plane and bends toward +y, whichever way the radius changes.
Exact mathematics (arc length of r(phi): integral of sqrt(r^2 + r'^2)).
"""

import math
from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum

from bickern.measure.finding import stop
from bickern.measure.units.words import Read


class SpiralKind(StrEnum):
    """How the radius changes: evenly with the angle, or by the same factor for each equal angle."""

    ARCHIMEDEAN = "archimedean"  # radius = r0 + (r1 - r0) * angle / total
    EQUIANGULAR = "equiangular"  # radius = r0 * (r1 / r0) ** (angle / total)


@dataclass(frozen=True, slots=True)
class Scroll:
    """Sizes of a spiral: polar radii `r0`, `r1` [m], `angle` [rad], and the kind."""

    r0: float
    r1: float
    angle: float
    kind: SpiralKind = SpiralKind.ARCHIMEDEAN


def opening_evenly(first: float, last: float, turns: float) -> Scroll:
    """The spiral from radius `first` to radius `last` [m] in so many turns, its radius growing evenly."""
    return Scroll(first, last, 2 * math.pi * turns)


def radius_and_rate(scroll: Scroll, phi: float) -> tuple[float, float]:
    """Polar radius [m] at polar angle `phi` [rad], and its change with the angle [m/rad]."""
    if scroll.angle <= 0:
        return scroll.r0, 0.0
    if scroll.kind is SpiralKind.EQUIANGULAR:
        b = _growth(scroll)
        r = scroll.r0 * math.exp(b * phi)
        return r, b * r
    c = (scroll.r1 - scroll.r0) / scroll.angle
    return scroll.r0 + c * phi, c


def scroll_length(scroll: Scroll, phi: float | None = None) -> float:
    """Arc length [m] from the start to polar angle `phi` [rad] (None: the whole spiral)."""
    to = scroll.angle if phi is None else phi
    if scroll.angle <= 0:
        return 0.0
    if scroll.kind is SpiralKind.EQUIANGULAR:
        b = _growth(scroll)
        grown = math.expm1(b * to) / b if b else to
        return scroll.r0 * math.sqrt(1 + b * b) * grown
    end, c = radius_and_rate(scroll, to)
    return _archimedean(scroll.r0, end, c, to)


def pitch(scroll: Scroll) -> float:
    """How far apart [m] two coils of an archimedean spiral lie, middle to middle; a circle has none."""
    return abs(radius_and_rate(scroll, 0.0)[1]) * 2 * math.pi


def angle_at(scroll: Scroll, s: float) -> float:
    """Polar angle [rad] at arc length `s` [m]: the closed-form length inverted by Newton's method."""
    whole = scroll_length(scroll)
    if s <= 0 or whole <= 0:
        return 0.0
    if s >= whole:
        return scroll.angle
    phi = _first_guess(scroll, s / whole)
    for _ in range(30):
        step = (scroll_length(scroll, phi) - s) / math.hypot(*radius_and_rate(scroll, phi))
        phi = min(max(phi - step, 0.0), scroll.angle)
        if abs(step) < 1e-13 * scroll.angle:
            break
    return phi


def local_at(scroll: Scroll, phi: float) -> tuple[float, float, float]:
    """(x, y) [m] and turn of the direction [rad] at polar angle `phi`: starts at (0, 0) along +x, bends toward +y.

    The tangent is not square to the radius: it leans by atan2(r, r'), so the start is turned to lie along +x.
    """
    r, rate = radius_and_rate(scroll, phi)
    r0, rate0 = radius_and_rate(scroll, 0.0)
    lean = math.atan2(r0, rate0)
    px, py = r * math.cos(phi) - r0, r * math.sin(phi)
    c, s = math.cos(lean), math.sin(lean)
    return px * c + py * s, py * c - px * s, phi + math.atan2(r, rate) - lean


def scroll_for_length(
    kind: SpiralKind,
    *,
    r0: float | None = None,
    r1: float | None = None,
    angle: float | None = None,
    length: float | None = None,
) -> Read[Scroll]:
    """The scroll with exactly one of start radius, end radius, angle and length left open (None)."""
    if sum(v is None for v in (r0, r1, angle, length)) != 1:
        return Read(None, (stop("scroll-openings", "a scroll needs all but one of turns, both radii and length"),))
    if length is None and r0 is not None and r1 is not None and angle is not None:
        return Read(Scroll(r0, r1, angle, kind))
    if length is None or length <= 0:
        return _none()
    if angle is None and r0 is not None and r1 is not None:
        return _solved(lambda x: Scroll(r0, r1, x, kind), length, _least_angle(r0, r1, kind))
    known, turn = (r0 if r1 is None else r1), angle
    if known is None or turn is None:
        return _none()
    least = known * 1e-9 if kind is SpiralKind.EQUIANGULAR else 0.0
    if r1 is None:
        return _solved(lambda x: Scroll(known, x, turn, kind), length, least)
    return _solved(lambda x: Scroll(x, known, turn, kind), length, least)


def _growth(scroll: Scroll) -> float:
    return math.log(scroll.r1 / scroll.r0) / scroll.angle


def _archimedean(r0: float, r1: float, c: float, phi: float) -> float:
    big = max(abs(r0), abs(r1))
    if (
        abs(r1 - r0) <= 1e-3 * big
    ):  # the closed form would subtract nearly equal numbers; Simpson is exact to 1e-16 here
        mean = (r0 + r1) / 2
        return phi / 6 * (math.hypot(r0, c) + 4 * math.hypot(mean, c) + math.hypot(r1, c))
    return (_antiderivative(r1, c) - _antiderivative(r0, c)) / c


def _antiderivative(r: float, c: float) -> float:
    return 0.5 * (r * math.hypot(r, c) + c * c * math.asinh(r / abs(c)))


def _first_guess(scroll: Scroll, share: float) -> float:
    """Length grows nearly as the area swept: the square of the radius is nearly even in the length."""
    r0, r1 = scroll.r0, scroll.r1
    if abs(r1 - r0) < 1e-9 * max(r0, r1):
        return share * scroll.angle
    if scroll.kind is SpiralKind.EQUIANGULAR:
        return math.log1p((r1 / r0 - 1) * share) / _growth(scroll)
    return (math.sqrt(r0 * r0 + (r1 * r1 - r0 * r0) * share) - r0) / (r1 - r0) * scroll.angle


def _least_angle(r0: float, r1: float, kind: SpiralKind) -> float:
    return 1e-9 if kind is SpiralKind.EQUIANGULAR or r0 != r1 else 0.0


def _none() -> Read[Scroll]:
    says = "no scroll has these turns, radii and length: the length is less than the least such a scroll can take"
    return Read(None, (stop("scroll-impossible", says, "more length, or fewer turns, or a smaller radius"),))


def _solved(make: Callable[[float], Scroll], length: float, least: float) -> Read[Scroll]:
    """The scroll on the rising branch of its length (length falls, if at all, only near the least radius)."""

    def excess(x: float) -> float:
        return scroll_length(make(x)) - length

    low = _lowest(excess, least)
    high = max(2 * low, length, 1e-3)
    while excess(high) < 0 and high < 1e9:
        high *= 2
    if excess(low) > 0 or excess(high) < 0:
        return _none()
    return Read(make(rising_root(excess, low, high)))


def _lowest(excess: Callable[[float], float], least: float) -> float:
    """Where a convex excess of length is lowest at or above `least`."""
    low, high = least, least + 1.0
    for _ in range(200):
        third = (high - low) / 3
        if excess(low + third) < excess(high - third):
            high -= third
        else:
            low += third
        if high - low < 1e-12:
            break
    return low if excess(low) < excess(least) else least


def rising_root(f: Callable[[float], float], low: float, high: float) -> float:
    """Where `f`, negative or 0 at `low` and not negative at `high`, crosses 0, by halving down to the last digit."""
    for _ in range(200):
        middle = (low + high) / 2
        if middle in (low, high):
            break
        if f(middle) < 0:
            low = middle
        else:
            high = middle
    return (low + high) / 2
