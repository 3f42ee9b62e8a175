"""Rings wound on a mandrel and cut off the coil: mandrel with spring back, turns, coil length, wire."""

from math import pi, sqrt

from bickern.parts.ring.lengths import Loop
from bickern.parts.ring.rules import LOST_TURNS
from bickern.parts.ring.spec import Coil, RingRules, RingSpec
from bickern.parts.ring.strain import bent_tighter, sprung


def turn_length(across: float, straights: float, wire_wide: float) -> float:
    """Wire [m] in one close turn: round the middle line `across` [m] and its straights, and forward by one wire."""
    return sqrt((pi * across + straights) ** 2 + wire_wide**2)


def across_of_turn(turn: float, straights: float, wire_wide: float) -> float:
    """The middle line's diameter [m] of a close coil with that much wire in a turn [m]."""
    return (sqrt(turn**2 - wire_wide**2) - straights) / pi


def wind(spec: RingSpec, rules: RingRules, loop: Loop, stock: float, rings: int) -> Coil:
    """The coil for `rings` rings that each take `stock` [m] once cut off; each saw cut takes a kerf more.

    With a mandrel given, the rings come out as it makes them; without, the mandrel is found that makes them as asked.
    An oval is wound on an oval mandrel: the figure is its size across, and spring back is reckoned for its ends only.
    """
    straights, wide = 2 * (loop.long - loop.across), spec.wire.width
    if spec.mandrel > 0:
        mandrel = spec.mandrel
        radius = sprung(spec.wire, mandrel / 2 + loop.middle, rules.yield_strength, rules.stiffness)
        turn = turn_length(2 * radius, straights, wide)
    else:
        turn = stock + rules.kerf
        radius = across_of_turn(turn, straights, wide) / 2
        tight = bent_tighter(spec.wire, radius, rules.yield_strength, rules.stiffness)
        mandrel = 2 * (tight - loop.middle)
    turns = rings + LOST_TURNS
    after = loop.across + (turn - rules.kerf - stock) / pi
    return Coil(mandrel, turns, turns * wide, turns * turn, after)
