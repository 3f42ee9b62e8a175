"""The bent line of the bar: its legs, places on it, and where it balances."""

from bisect import bisect_left
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from itertools import pairwise
from math import ceil, pi, sqrt

from bickern.geometry.path import (
    Arc,
    Frame,
    Leg,
    Spiral,
    Station,
    Straight,
    Turned,
    end_frame,
    leg_length,
    leg_starts,
    place_on,
)
from bickern.geometry.space import Vec, mixed, plus, times
from bickern.iron.section import area
from bickern.parts.bar.length import Span
from bickern.parts.bar.result import HoleCheck, MetalRun, TwistCheck
from bickern.parts.bar.volume import outline_balance

_PIECE = pi / 6
"""Angle of a bend taken in one piece when it is weighed: three-point Gauss is then good to 1e-7 of the radius."""
_GAUSS = ((0.5 - sqrt(0.15), 5 / 18), (0.5, 4 / 9), (0.5 + sqrt(0.15), 5 / 18))
_TINY = 1e-12


@dataclass(frozen=True, slots=True)
class Line:
    """The bent line: its `legs` placed, and for each leg of the path where it starts in `metal` and in `line` [m].

    A corner forged up or upset holds more or less metal than its line is long; `on_line` takes the one to the other.
    """

    legs: tuple[Leg, ...]
    stations: tuple[Station, ...]
    metal: tuple[float, ...]
    line: tuple[float, ...]

    def on_line(self, at: float) -> float:
        """Place on the line [m] of a place on the metal [m]."""
        return _across(self.metal, self.line, at)

    def on_metal(self, at: float) -> float:
        """Place on the metal [m] of a place on the line [m]."""
        return _across(self.line, self.metal, at)

    def frame(self, at: float) -> Frame:
        """The frame at a place on the metal [m]."""
        return place_on(self.stations, self.on_line(at))

    @property
    def end(self) -> Frame:
        """The frame in which the line ends."""
        return end_frame(self.legs)


def _across(one: tuple[float, ...], other: tuple[float, ...], at: float) -> float:
    i = min(max(1, bisect_left(one, at)), len(one) - 1)
    long = one[i] - one[i - 1]
    share = (at - one[i - 1]) / long if long > _TINY else 0.0
    return other[i - 1] + share * (other[i] - other[i - 1])


def line_of(spans: tuple[Span, ...], twists: tuple[TwistCheck, ...]) -> Line:
    """The line of the spans, with the reference face turned where a twist ends."""
    legs: list[Leg] = []
    metal, line = [0.0], [0.0]
    for i, span in enumerate(spans):
        last = i == len(spans) - 1
        legs += _with_turns(span, [t for t in twists if span.start < t.end and (last or t.end <= span.end)])
        metal.append(span.end)
        line.append(line[-1] + sum(map(leg_length, span.line)))
    made = tuple(legs)
    return Line(made, leg_starts(made), tuple(metal), tuple(line))


def _with_turns(span: Span, twists: list[TwistCheck]) -> list[Leg]:
    """The span's legs: a straight is cut where a twist ends, a bend turned at its end (a twist there is a fault)."""
    if not twists:
        return list(span.line)
    turned = [(t.end, Turned(2 * pi * t.twist.turns)) for t in sorted(twists, key=lambda t: t.end)]
    if span.is_bend:
        return [*span.line, *(turn for _, turn in turned)]
    legs: list[Leg] = []
    at = span.start
    for end, turn in turned:
        here = min(end, span.end)
        legs += [Straight(here - at), turn]
        at = here
    return [*legs, Straight(span.end - at)] if span.end - at > _TINY else legs


def uncut(legs: tuple[Leg, ...]) -> list[Leg]:
    """The legs with straights that a twist cut in two made whole (the turn moved to their end), to find the longest."""
    whole: list[Leg] = []
    for leg in legs:
        if isinstance(leg, Straight) and len(whole) > 1 and isinstance(whole[-1], Turned):
            before = whole[-2]
            if isinstance(before, Straight):
                whole[-2] = Straight(before.length + leg.length)
                continue
        whole.append(leg)
    return whole


def _off_line(run: MetalRun, share: float) -> tuple[float, float]:
    left = run.offset_a[0] + share * (run.offset_b[0] - run.offset_a[0])
    return left, run.offset_a[1] + share * (run.offset_b[1] - run.offset_a[1])


def centre_at(frame: Frame, run: MetalRun, share: float) -> Vec:
    """Centre of the section [m] a `share` of the way along a run, off the line where it is offset."""
    left, up = _off_line(run, share)
    if not left and not up:
        return frame.origin
    return plus(frame.origin, mixed(frame.left, left, frame.up, up))


def centre_of_mass(
    line: Line, runs: tuple[MetalRun, ...], holes: Iterable[HoleCheck], others: Iterable[tuple[float, Vec]]
) -> Vec:
    """Where the bar balances [m], in the coordinates the line starts in; `others` are (volume, place) of branches."""
    total, moment = 0.0, (0.0, 0.0, 0.0)
    for volume, place in (*_weights(line, runs), *_lost(line, holes), *others):
        total += volume
        moment = mixed(moment, 1.0, place, volume)
    return times(moment, 1 / total) if total > 0.0 else moment


def _lost(line: Line, holes: Iterable[HoleCheck]) -> Iterator[tuple[float, Vec]]:
    for hole in holes:
        yield -hole.slug, line.frame(hole.at).origin


def _weights(line: Line, runs: tuple[MetalRun, ...]) -> Iterator[tuple[float, Vec]]:
    """Small weights (volume [m^3], place) that stand for the runs: exact on straights, Gauss's points in bends."""
    cuts = [line.on_metal(s) for s in _pieces(line)]
    for i, run in enumerate(runs):
        if run.outline is not None:
            share = outline_balance(run.outline)
            share = 1 - share if i == 0 else share
            at = run.start + share * (run.end - run.start)
            yield run.volume, centre_at(line.frame(at), run, share)
        elif run.end - run.start > _TINY:
            yield from _run_weights(line, run, cuts)


def _run_weights(line: Line, run: MetalRun, cuts: list[float]) -> Iterator[tuple[float, Vec]]:
    long = run.end - run.start
    area_at = _area_law(run, long)
    ends = [run.start, *(c for c in cuts if run.start + _TINY < c < run.end - _TINY), run.end]
    for low, high in pairwise(ends):
        for place, weight in _GAUSS:
            at = low + place * (high - low)
            share = (at - run.start) / long
            yield weight * (high - low) * area_at(share), centre_at(line.frame(at), run, share)


def _area_law(run: MetalRun, long: float) -> Callable[[float], float]:
    first, last = area(run.a), area(run.b)
    middle = 3 * run.volume / long - first - last
    return lambda u: (1 - u) ** 2 * first + 2 * u * (1 - u) * middle + u**2 * last


def _pieces(line: Line) -> Iterator[float]:
    for station in line.stations:
        leg = station.leg
        count = ceil(leg.angle / _PIECE) if isinstance(leg, Arc | Spiral) else 1
        for i in range(count):
            yield station.s + station.length * i / count
