"""The bent line of a bar as a row of stations, near enough to one another to be drawn as straights."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from bickern.geometry.path import START, Frame, Leg, Straight, Turned, leg_starts, leg_steps, leg_turn, on_leg
from bickern.geometry.space import Vec

WIDEST = math.radians(5)
"""Largest turn from one station to the next [rad]."""
SAGITTA = 0.00002
"""How far a straight between two stations may lie inside the bend [m]: a fifth of the thinnest line."""


@dataclass(frozen=True, slots=True)
class Station:
    """A place on the line, `s` [m] from the datum end: where it is, which way it runs, left and up of the bar there."""

    s: float
    frame: Frame

    @property
    def at(self) -> Vec:
        """The place [m]."""
        return self.frame.origin

    @property
    def along(self) -> Vec:
        """The way the bar runs."""
        return self.frame.along

    @property
    def up(self) -> Vec:
        """The way the reference face looks."""
        return self.frame.up

    @property
    def left(self) -> Vec:
        """Across the bar, to the left with the reference face up."""
        return self.frame.left


def stations(
    legs: Sequence[Leg], cuts: Iterable[float] = (), length: float = 0.0, start: Frame = START, scale: float = 1.0
) -> tuple[Station, ...]:
    """Stations along the legs from the datum end, one at each of `cuts` [m] too.

    At a sharp corner there are two, one looking each way. No legs: one straight of `length` [m]. For a picture at a
    `scale` less than 1 they are as much farther apart as looks the same on paper.
    """
    wanted = sorted(set(cuts))
    small = min(1.0, scale)
    # how far a chord lies inside an arc goes by the square of the turn
    widest = WIDEST / math.sqrt(small)
    row = [Station(0.0, start)]
    for leg in leg_starts(legs or (Straight(length),), start):
        steps = leg_steps(leg.leg, SAGITTA / small)
        even = math.ceil(leg_turn(leg.leg) / widest)
        if even > len(steps) - 1 and leg.length > 0:
            steps = tuple(leg.length * i / even for i in range(even + 1))
        inside = [cut - leg.s for cut in wanted if 0.0 < cut - leg.s < leg.length]
        row += [Station(leg.s + into, on_leg(leg, into)) for into in sorted({*steps[1:], *inside})]
    return tuple(row)


def uncut(legs: Sequence[Leg]) -> tuple[Leg, ...]:
    """The legs with each straight that a turn of the face cuts in two made whole, the turn moved to its end."""
    whole: list[Leg] = []
    for leg in legs:
        i = len(whole) - 1
        while i >= 0 and isinstance(whole[i], Turned):
            i -= 1
        before = whole[i] if i >= 0 else None
        if isinstance(leg, Straight) and isinstance(before, Straight):
            whole[i] = Straight(before.length + leg.length)
        else:
            whole.append(leg)
    return tuple(whole)
