"""A reckoned bar's line laid out again: the frame of its section at each place, and where named stretches lie."""

from bisect import bisect_left
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from math import ceil, cos, pi, sin

from bickern.geometry.curve import scroll_length
from bickern.geometry.path import Arc, Frame, Spiral, Station, scroll_of
from bickern.geometry.space import mixed
from bickern.iron.section import Section
from bickern.measure.units.words import Shape
from bickern.parts.bar.line import Line, centre_at
from bickern.parts.bar.resolve import Stretch as Named
from bickern.parts.bar.result import BarResult, MetalRun
from bickern.parts.bar.traced import traced_line, traced_names

_STEP = pi / 36
"""Most a bend, an eye or a scroll turns between two stations."""
_TWIST_STEP = pi / 12
_IN_STRAIGHT = 8
"""Stations along a straight: its section may taper, and what hangs on it needs places to lie."""
_TINY = 1e-9
_JOINED = 1e-6
"""Metres between the end of a straight and the bend that follows it."""
Stretch = tuple[float, float]
"""From where to where along the finished bar [m]."""
BOXES = (Shape.SQUARE, Shape.FLAT, Shape.SQUARE_TUBE, Shape.HEXAGON, Shape.OCTAGON)
"""Sections that bear on corners."""


@dataclass(frozen=True, slots=True)
class LaidBar:
    """A bar with its `line`."""

    bar: BarResult
    line: Line

    def frame(self, at: float) -> Frame:
        """The section at a place [m] along the bar: its middle, the way the bar runs, and where its own face looks."""
        base = self.line.frame(at)
        run = self.run(at)
        long = run.end - run.start
        share = min(1.0, max(0.0, (at - run.start) / long)) if long > _TINY else 0.0
        twisted = _faced(base, self._turn_within(at))
        middle = centre_at(twisted, run, share)
        return _faced(Frame(middle, twisted.along, twisted.up), run.roll)

    def run(self, at: float) -> MetalRun:
        """The stretch of metal at a place [m]."""
        runs = [r for r in self.bar.runs if r.end - r.start > _TINY] or list(self.bar.runs)
        return runs[min(bisect_left([r.end for r in runs], at), len(runs) - 1)]

    def box(self, at: float) -> tuple[float, float, bool]:
        """Width and thickness [m] of the section's box at a place, and whether it has corners."""
        run = self.run(at)
        long = run.end - run.start
        share = min(1.0, max(0.0, (at - run.start) / long)) if long > _TINY else 0.0
        wide = run.a.width + share * (run.b.width - run.a.width)
        return wide, run.a.thick + share * (run.b.thick - run.a.thick), _cornered(run.a) or _cornered(run.b)

    def fuller(self, at: float) -> float:
        """How many times thicker the metal would have to be for its inside to lie where the bend's inside is told.

        1 outside bends and where the metal is as thick as the bend was told for. A bend is made round a mandrel or the
        horn: a taper in it lies against that, while its line is drawn for the full bar.
        """
        told = next((b.inside_radius for b in self.bar.bends if b.start <= at <= b.end), None)
        s = self.line.on_line(at)
        arc = next(
            (st.leg for st in self.line.stations if st.s <= s <= st.s + st.length and isinstance(st.leg, Arc)), None
        )
        if told is None or arc is None:
            return 1.0
        wide, thick, _ = self.box(at)
        toward = (abs(cos(arc.roll)) * wide + abs(sin(arc.roll)) * thick) / 2
        return max(1.0, (arc.radius - told) / toward) if toward > _TINY else 1.0

    def stations(self, stretch: Stretch) -> tuple[float, ...]:
        """Places [m] dense enough along a stretch: at most 5 degrees of a bend between two of them."""
        low, high = stretch
        found = {low, high, *(s for s in self._cuts() if low + _TINY < s < high - _TINY)}
        ordered = sorted(found)
        return tuple(b for a, b in pairwise((low - 1.0, *ordered)) if b - a > 1e-7)

    def _turn_within(self, at: float) -> float:
        """How far [rad] the section has turned inside a twist; at its end the line itself has turned."""
        for check in self.bar.twists:
            if check.start < at < check.end:
                return 2 * pi * check.twist.turns * (at - check.start) / (check.end - check.start)
        return 0.0

    def _cuts(self) -> Iterator[float]:
        yield from (end for run in self.bar.runs for end in (run.start, run.end))
        for check in self.bar.twists:
            count = max(1, ceil(2 * pi * abs(check.twist.turns) / _TWIST_STEP))
            yield from (check.start + i * (check.end - check.start) / count for i in range(count + 1))
        for station in self.line.stations:
            yield from (self.line.on_metal(station.s + into) for into in _steps(station))


def _cornered(section: Section) -> bool:
    return section.shape in BOXES


def _steps(station: Station) -> list[float]:
    """Lengths [m] into a leg."""
    leg = station.leg
    if isinstance(leg, Spiral):
        count = max(1, ceil(leg.angle / _STEP - _TINY))
        scroll = scroll_of(leg)
        return [scroll_length(scroll, leg.angle * i / count) for i in range(count + 1)]
    count = max(1, ceil(leg.angle / _STEP - _TINY)) if isinstance(leg, Arc) else _IN_STRAIGHT
    return [station.length * i / count for i in range(count + 1)]


def _faced(frame: Frame, angle: float) -> Frame:
    """The frame turned about the line, left toward up."""
    if not angle:
        return frame
    return Frame(frame.origin, frame.along, mixed(frame.up, cos(angle), frame.left, -sin(angle)))


def laid_bar(bar: BarResult) -> LaidBar:
    """The bar with its line; each bend of the metal is matched with the legs that it follows."""
    return LaidBar(bar, traced_line(bar))


def stretch_named(bar: BarResult, name: str) -> Stretch | None:
    """Where a named stretch lies: metal first, then bends and straights of the path, then twists."""
    names = traced_names(bar).with_names(Named(t.twist.name, t.start, t.end) for t in bar.twists)
    found = names.stretch(name)
    return (found.start, found.end) if found is not None and name else None


def with_bends(bar: BarResult, stretch: Stretch) -> Stretch:
    """A straight between two bends with these, as the crown of a staple: what hangs there does not slide off it."""
    low, high = stretch
    if any(b.start < (low + high) / 2 < b.end for b in bar.bends):
        return stretch
    before = [b.start for b in bar.bends if abs(b.end - low) < _JOINED]
    after = [b.end for b in bar.bends if abs(b.start - high) < _JOINED]
    return (before or [low])[0], (after or [high])[0]
