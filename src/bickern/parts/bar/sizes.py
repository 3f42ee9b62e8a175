"""Overall sizes of the bent bar, metal included, in the bar's own axes."""

from collections.abc import Iterator, Sequence
from math import ceil, cos, hypot, pi, sin

from bickern.geometry.curve import angle_at, scroll_length
from bickern.geometry.extent import main_axes
from bickern.geometry.path import (
    START,
    Arc,
    Frame,
    Kink,
    Spiral,
    Station,
    bend_direction,
    leg_starts,
    on_leg,
    run_length,
    scroll_of,
)
from bickern.geometry.space import Vec, distance, dot, mixed
from bickern.measure.units.words import Shape
from bickern.parts.bar.line import Line, centre_at, uncut
from bickern.parts.bar.result import BarResult, MetalRun, Sizes

_ROUNDS = (Shape.ROUND, Shape.OVAL, Shape.TUBE)
_STEP = pi / 28
"""Angle between places looked at in a bend; the crest is then read off a parabola.

Good to 1e-5 of an arc's radius, and to 2e-4 of a scroll's outer radius though it open fifty times over in under a turn.
"""
_MITRE_LIMIT = pi * 5 / 6
_TINY = 1e-12

Spot = tuple[float, Frame]
"""A place on the line [m] and its frame."""
Slice = tuple[float, Vec, Vec, Vec]
"""The section there: share of the way along its run, its centre [m], and which way its left and its up point."""
Box = list[tuple[float, float]]
"""Lowest and highest [m] along reach, across and rise."""
Grown = tuple[Frame, BarResult]
"""A limb or branch, and the frame on this bar in which it starts."""
_NOWHERE: Box = [(0.0, 0.0)] * 3


def sizes_of(line: Line, runs: tuple[MetalRun, ...], grown: Sequence[Grown] = ()) -> Sizes:
    """Overall sizes [m] of the bent bar, with its thickness and all that grows from it.

    The axes are the bar's own, and end to end is between the two ends of its line. Round sections count as ellipses,
    all others as their box: a hexagon's or octagon's corners are cut a little wide.
    """
    axes = main_axes(uncut(line.legs))
    directions = (axes.reach, axes.across, axes.rise)
    boxes = [box for run in runs for box in _run_boxes(line, run, directions)] or [_NOWHERE]
    boxes += [box for frame, child in grown for box in _grown_boxes(frame, child, directions)]
    reach, across, rise = (max(b[i][1] for b in boxes) - min(b[i][0] for b in boxes) for i in range(3))
    return Sizes(reach, across, rise, distance(line.end.origin, START.origin), runs[-1].end)


def _grown_boxes(frame: Frame, child: BarResult, directions: Sequence[Vec]) -> Iterator[Box]:
    """Boxes of a limb or branch that starts in this frame, and of the limbs it is split into itself."""
    seen = [(dot(d, frame.along), dot(d, frame.left), dot(d, frame.up)) for d in directions]
    at = [dot(frame.origin, d) for d in directions]
    line = Line(child.legs, leg_starts(child.legs), (0.0, child.length), (0.0, run_length(child.legs)))
    limbs = [c for b, c in zip(child.spec.branches, child.children, strict=False) if b.at is None]
    own = (box for run in child.runs for box in _run_boxes(line, run, seen))
    for box in (*own, *(box for limb in limbs for box in _grown_boxes(line.end, limb, seen))):
        yield [(low + x, high + x) for (low, high), x in zip(box, at, strict=True)]


def _run_boxes(line: Line, run: MetalRun, directions: Sequence[Vec]) -> Iterator[Box]:
    start, end = line.on_line(run.start), line.on_line(run.end)
    for station in line.stations:
        low, high = max(start, station.s), min(end, station.s + station.length)
        if high < low - _TINY:
            continue
        if isinstance(station.leg, Kink):
            yield from _kink_boxes(line, run, station, directions)
        elif high > low + _TINY or run.end - run.start < _TINY:
            places = [_place(line, run, spot) for spot in _spots(station, low, high)]
            yield [_crest([_reach(run, place, d) for place in places]) for d in directions]


def _spots(station: Station, low: float, high: float) -> list[Spot]:
    leg, start = station.leg, station.s
    if isinstance(leg, Spiral) and station.length > _TINY:
        scroll = scroll_of(leg)
        first, last = (angle_at(scroll, s - start) for s in (low, high))
        places = [start + scroll_length(scroll, turned) for turned in _even(first, last)]
    elif isinstance(leg, Arc) and station.length > _TINY:
        first, last = ((s - start) / leg.radius for s in (low, high))
        places = [start + leg.radius * turned for turned in _even(first, last)]
    else:
        places = [low, high]
    return [(s, on_leg(station, s - start)) for s in places]


def _even(low: float, high: float) -> list[float]:
    """Angles [rad] from one to another, evenly spaced, no further apart than a step."""
    count = max(2, ceil((high - low) / _STEP))
    return [low + (high - low) * i / count for i in range(count + 1)]


def _crest(reaches: list[tuple[float, float]]) -> tuple[float, float]:
    """Lowest and highest of evenly spaced places, a parabola through the best and its neighbours between them."""
    return -_peak([-low for low, _ in reaches]), _peak([high for _, high in reaches])


def _peak(values: list[float]) -> float:
    best = max(values)
    if len(values) < 3:
        return best
    # A crest between an end and its neighbour is read off the parabola through the three places nearest to it.
    i = min(max(values.index(best), 1), len(values) - 2)
    before, middle, after = values[i - 1 : i + 2]
    rise, bend = (after - before) / 2, before - 2 * middle + after
    return max(best, middle - rise**2 / (2 * bend)) if abs(rise) < -bend else best


def _place(line: Line, run: MetalRun, spot: Spot) -> Slice:
    s, frame = spot
    long = run.end - run.start
    share = min(1.0, max(0.0, (line.on_metal(s) - run.start) / long)) if long > _TINY else 0.0
    return share, centre_at(frame, run, share), frame.left, frame.up


def _reach(run: MetalRun, place: Slice, direction: Vec) -> tuple[float, float]:
    share, centre, left, up = place
    middle = dot(centre, direction)
    half = _stands_out(run, share, dot(left, direction), dot(up, direction))
    return middle - half, middle + half


def _stands_out(run: MetalRun, share: float, left: float, up: float) -> float:
    """How far the section stands out from its centre toward a direction with these parts left and up [m]."""
    wide = (run.a.width + share * (run.b.width - run.a.width)) / 2
    thick = (run.a.thick + share * (run.b.thick - run.a.thick)) / 2
    if run.roll:
        c, s = cos(run.roll), sin(run.roll)
        left, up = c * left + s * up, c * up - s * left
    is_round = (run.a if share < 0.5 else run.b).shape in _ROUNDS
    return hypot(left * wide, up * thick) if is_round else abs(left) * wide + abs(up) * thick


def _kink_boxes(line: Line, run: MetalRun, station: Station, directions: Sequence[Vec]) -> Iterator[Box]:
    """The mitre of a sharp corner: there the section is drawn out along the bend (none past 150 degrees)."""
    kink = station.leg
    if not isinstance(kink, Kink) or kink.angle > _MITRE_LIMIT:
        return
    half = on_leg(Station(station.s, station.frame, 0.0, Kink(kink.angle / 2, kink.roll)), 0.0)
    toward = bend_direction(half, kink.roll)
    longer = 1 / cos(kink.angle / 2) - 1
    box, place = [], _place(line, run, (station.s, half))
    for d in directions:
        seen = mixed(d, 1.0, toward, longer * dot(d, toward))
        middle = dot(half.origin, d)
        low, high = _reach(run, place, seen)
        reach = (high - low) / 2
        box.append((middle - reach, middle + reach))
    yield box
