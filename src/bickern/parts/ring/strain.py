"""What bending a ring cold does to the wire: how far it springs back, and how much it is strained when opened."""

from math import asin, pi, sqrt

from bickern.iron.section import Section
from bickern.measure.units.words import Shape
from bickern.parts.ring.rules import POISSON

_HALVINGS = 60
"""Bisection steps: the last is far below a nanometre."""


def spring_ratio(radius: float, thick: float, yield_strength: float, stiffness: float) -> float:
    """Radius before over radius after letting go, rectangular bar: 4 x^3 - 3 x + 1, x = R Y/(E t), 0 where all elastic.

    `radius` and `thick` [m], `yield_strength` and `stiffness` [Pa]. Elastic and perfectly plastic, no hardening. The
    textbooks take the inside radius; the theory's own is the middle line's, which is what this room passes.
    """
    x = radius * yield_strength / (stiffness * thick)
    return 4 * x**3 - 3 * x + 1 if x < 0.5 else 0.0


def spring_ratio_round(radius: float, thick: float, yield_strength: float, stiffness: float) -> float:
    """The same for round wire of diameter `thick` [m]: the same theory, its moment summed over a circle (ours).

    1 - c m(c): c = 2 R Y/(E d) is the elastic share of the depth, m the moment over that at first yield.
    """
    core = 2 * radius * yield_strength / (stiffness * thick)
    return 1 - core * _moment(core) if core < 1 else 0.0


def _moment(core: float) -> float:
    """Moment of a circular section over the moment at first yield; `core` (0..1] is the elastic share of its depth.

    In a circle of radius 1: (4/core) integral of y^2 sqrt(1 - y^2) over 0..core (elastic), and 4 times the integral of
    y sqrt(1 - y^2) over core..1 (plastic), over pi/4. At core 1 it is 1, at core 0 it is 16/(3 pi).
    """
    side = sqrt(1 - core**2)
    elastic = (asin(core) - core * side * (1 - 2 * core**2)) / (2 * core)
    return (elastic + 4 * side**3 / 3) / (pi / 4)


def ratio_of(wire: Section, radius: float, yield_strength: float, stiffness: float) -> float:
    """Radius before over after for this wire bent to `radius` [m] of its middle line; other shapes as rectangles."""
    law = spring_ratio_round if wire.shape is Shape.ROUND else spring_ratio
    return law(radius, wire.thick, yield_strength, stiffness)


def sprung(wire: Section, radius: float, yield_strength: float, stiffness: float) -> float:
    """Radius [m] of the middle line after letting go; infinite where the wire springs straight again."""
    ratio = ratio_of(wire, radius, yield_strength, stiffness)
    return radius / ratio if ratio > 0 else float("inf")


def bent_tighter(wire: Section, wanted: float, yield_strength: float, stiffness: float) -> float:
    """Radius [m] to bend the middle line to, so that it springs to `wanted` [m]: found by halving, always there."""
    low, high = 0.0, wanted
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        if sprung(wire, middle, yield_strength, stiffness) < wanted:
            low = middle
        else:
            high = middle
    return (low + high) / 2


def opening_strain(wire: Section, mean_radius: float) -> float:
    """Stretch of the skin, as much as a pull would do, when a ring's ends are moved sideways by one wire's width.

    Model: an elastic split ring of round wire, pulled sideways at its ends (Castigliano). The twist is greatest
    opposite the gap: 2 (1 + n) w / (pi (1 + 3 (1 + n)) R^2) [rad/m], n Poisson's ratio; shear at the skin is that times
    half the thickness, and over sqrt(3) it counts as stretch (von Mises). Other shapes are taken as round.
    """
    n = POISSON.value
    twist = 2 * (1 + n) * wire.width / (pi * (1 + 3 * (1 + n)) * mean_radius**2)
    return twist * wire.thick / 2 / sqrt(3)
