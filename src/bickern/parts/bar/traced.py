"""A reckoned bar's line traced again from its result: where metal lies on the line, and where named entries lie."""

from collections.abc import Iterator
from dataclasses import dataclass
from math import tan

from bickern.geometry.path import Arc, Kink, Leg, Spiral, Straight, leg_length, leg_starts
from bickern.parts.bar.line import Line
from bickern.parts.bar.places import Map
from bickern.parts.bar.resolve import Stretch
from bickern.parts.bar.result import BarResult
from bickern.parts.bar.tracks import BendLeg, Blank, Corner, EyeLeg, PathLeg, StraightLeg

_TINY = 1e-9


def traced_line(bar: BarResult) -> Line:
    """The line with the metal of each bend matched to the legs that it follows; straights are as long as their metal.

    What metal the line leaves over, or lacks, at its far end (a finding says so) goes on the last straight.
    """
    legs = bar.legs or (Straight(bar.length),)
    metal, line = [0.0], [0.0]
    for bend, long in zip(bar.bends, _bends_of_line(bar.spec.path, legs), strict=True):
        start = line[-1] + bend.start - metal[-1]
        metal += [bend.start, bend.end]
        line += [start, start + long]
    line.append(line[-1] + bar.length - metal[-1])
    metal.append(bar.length)
    return Line(legs, leg_starts(legs), tuple(metal), tuple(line))


@dataclass(frozen=True, slots=True)
class Forged:
    """A corner forged up sharp: `leg` is the number of its kink, which turns toward `roll` [rad].

    `radius` [m] is its inside radius, `thick` [m] the bar's thickness that way.
    """

    leg: int
    roll: float
    radius: float
    thick: float

    def share(self, turned: float, angle: float) -> float:
        """Share of the corner's metal up to `turned` of its whole `angle` [rad]: the outer kite less the fillet."""
        half = angle / 2
        up_to = self._metal(min(turned, half))
        return (up_to if turned <= half else 2 * self._metal(half) - self._metal(angle - turned)) / (
            2 * self._metal(half)
        )

    def _metal(self, turned: float) -> float:
        return (self.radius + self.thick) ** 2 * tan(turned) - self.radius**2 * turned


def forged_corners(bar: BarResult) -> tuple[Forged, ...]:
    """The corners forged up sharp outside; their straight tails end where the inside of the bend begins."""
    found = []
    kinks = iter([i for i, leg in enumerate(bar.legs) if isinstance(leg, Arc | Spiral | Kink)])
    bends = iter(bar.bends)
    for leg in bar.spec.path:
        if isinstance(leg, StraightLeg):
            continue
        i, bend = next(kinks), next(bends)
        if isinstance(leg, EyeLeg) and leg.centred:
            next(kinks)
        if isinstance(leg, BendLeg) and leg.corner is Corner.SQUARE:
            thick = 2 * (leg_length(bar.legs[i + 1]) / tan(leg.angle / 2) - bend.inside_radius)
            if thick > _TINY:
                found.append(Forged(i, getattr(bar.legs[i], "roll", 0.0), bend.inside_radius, thick))
    return tuple(found)


def _bends_of_line(path: tuple[PathLeg, ...], legs: tuple[Leg, ...]) -> Iterator[float]:
    """Length of line [m] of every bend in order; a sharp corner has the straight tails on both sides of its kink."""
    curved = iter([i for i, leg in enumerate(legs) if isinstance(leg, Arc | Spiral | Kink)])
    for leg in path:
        if isinstance(leg, StraightLeg):
            continue
        i = next(curved)
        if isinstance(leg, BendLeg) and leg.corner is Corner.SQUARE:
            yield 2 * leg_length(legs[i + 1])
        elif isinstance(leg, EyeLeg) and leg.centred:
            yield leg_length(legs[i]) + leg_length(legs[next(curved)])
        else:
            yield leg_length(legs[i])


def traced_names(bar: BarResult) -> Map:
    """The named entries of the bar's metal and path, and where each lies, metal first."""
    return Map(tuple(s for s in (*_metal(bar), *_path(bar)) if s.name), bar.length)


def _metal(bar: BarResult) -> Iterator[Stretch]:
    runs = iter(bar.runs)
    for entry in bar.spec.metal:
        first = last = next(runs)
        if first.name == (f"{entry.name} shoulder" if entry.name else "shoulder"):
            last = next(runs)
        yield Stretch(entry.name, first.start, last.end)


def _path(bar: BarResult) -> Iterator[Stretch]:
    """Bends where they were found; the straights between two bends in turn, an open one taking what is left."""
    bends = iter(bar.bends)
    at = 0.0
    waiting: list[StraightLeg] = []
    for leg in bar.spec.path:
        if isinstance(leg, StraightLeg):
            waiting.append(leg)
            continue
        bend = next(bends)
        yield from _between(waiting, at, bend.start)
        yield Stretch(bend.name, bend.start, bend.end)
        at, waiting = bend.end, []
    yield from _between(waiting, at, bar.length)


def _between(legs: list[StraightLeg], start: float, end: float) -> Iterator[Stretch]:
    told = [0.0 if isinstance(leg.length, Blank) or leg.to_corners else leg.length for leg in legs]
    open_ones = sum(isinstance(leg.length, Blank) or bool(leg.to_corners) for leg in legs)
    left = (end - start - sum(told)) / open_ones if open_ones else 0.0
    at = start
    for leg, long in zip(legs, told, strict=True):
        after = at + (left if isinstance(leg.length, Blank) or leg.to_corners else long)
        yield Stretch(leg.name, at, after)
        at = after
