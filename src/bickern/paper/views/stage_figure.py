"""A bar before and after one heat as figures at one scale: from which side, and with what plain iron left out."""

import math
from dataclasses import dataclass, replace

from bickern.geometry.path import leg_starts, leg_steps, on_leg, place
from bickern.geometry.space import Vec, cross, dot, mixed, norm, times, unit
from bickern.paper.marks import Point
from bickern.paper.views.line import Station
from bickern.paper.views.looking import View
from bickern.paper.views.outline import Bent, bends_seen, bent, edges_seen, levelled, sides
from bickern.paper.views.profile import run_at, stoutest
from bickern.paper.views.shortened import Breaks, breaks, plain_iron
from bickern.parts.bar.result import BarResult
from bickern.parts.bar.stage import Done, Stage, stage_of
from bickern.parts.bar.tracks import Face, Overall

HIGH = 0.030
"""Most height of one figure, its lettering apart [m]."""
STOUT = 0.0032
"""Thickness of the stock on paper that long plain iron gives way for [m]."""
THICKEST = 0.008
"""Most thickness of the stock on paper [m]."""
GRIP = 5.0
"""Most grip that is drawn, in thicknesses of the stock."""
HELD = 2.5
"""Thicknesses of the stock on both sides of where it is held that stay in the picture, for the jaws."""
ROUGH = 0.1
"""Scale that stations are laid out for where only the best side is looked for."""
NEAR = 0.001
"""How near the line a bar is followed to find its size [m]."""
Zone = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Task:
    """One heat of one bar: what is done before and after it, what is hot and where it is held, on the finished bar."""

    result: BarResult
    before: Done
    after: Done
    hot: Zone
    hold: float | None = None

    @property
    def runs(self) -> list[int]:
        """Stretches forged in this heat, by number."""
        return sorted(i for i in self.after.runs - self.before.runs if not self.result.runs[i].kept)


@dataclass(frozen=True, slots=True)
class Figure:
    """A bar at one stage on the paper: how it is looked at, its scale, and where it was made shorter.

    `broken`: the places [m] along the bar as drawn where iron is left out.
    """

    stage: Stage
    line: Bent
    view: View
    scale: float
    broken: tuple[float, ...] = ()

    def station(self, finished: float) -> Station:
        """The line at a place on the finished bar [m]."""
        s = self.stage.at(finished) / self.line.factor
        return Station(s, place(self.line.result.legs, s))

    def edges(self, finished: float) -> tuple[Point, Point]:
        """Both edges of the iron at a place of the finished bar, the lower one first, on paper [m]."""
        return self.edges_of(self.station(finished))

    def edges_of(self, station: Station) -> tuple[Point, Point]:
        """Both edges of the iron at a station, the lower one first, on paper [m]."""
        ends = edges_seen(self.line, self.view, station, run_at(self.line.result.runs, self.line.metal(station)))
        one, two = ((x * self.scale, y * self.scale) for x, y in ends)
        return (one, two) if one[1] <= two[1] else (two, one)

    def middle(self, finished: float) -> Point:
        """The middle of the iron at a place of the finished bar, on paper [m]."""
        x, y = self.view.put(self.station(finished).at)
        return (x * self.scale, y * self.scale)

    def start(self) -> Point:
        """Where the datum end of the bar as it lies is, on paper [m]."""
        x, y = self.view.put(self.line.row[0].at)
        return (x * self.scale, y * self.scale)

    def lowest(self) -> float:
        """How low the iron reaches on paper, by its middle line and half its thickness [m]."""
        return self.scale * (min(self.view.put(s.at)[1] for s in self.line.row) - stoutest(self.stage.bar) / 2)

    def heading(self, finished: float) -> Point:
        """Which way the bar runs there on paper, as a unit vector; level where it runs at the eye."""
        x, y = self.view.put(self.station(finished).along)
        size = math.hypot(x, y)
        return (x / size, y / size) if size > 1e-6 else (1.0, 0.0)

    def row(self, zone: Zone) -> list[Station]:
        """The stations from one place of the finished bar to another."""
        low, high = self.stage.at(zone[0]), self.stage.at(zone[1])
        return [s for s in self.line.row if low - 1e-9 <= self.line.metal(s) <= high + 1e-9]

    def is_straight(self, zone: Zone) -> bool:
        """Whether no bend is made in a stretch of the finished bar."""
        low, high = self.stage.at(zone[0]), self.stage.at(zone[1])
        return all(b.end <= low + 1e-9 or b.start >= high - 1e-9 for b in self.stage.bar.bends)


def figures_of(task: Task, wide: float) -> tuple[Figure, Figure]:
    """The bar before and after, at one scale, in `wide` [m], long plain iron left out where it would be drawn small."""
    one, two = stage_of(task.result, task.before), stage_of(task.result, task.after)
    seen = sights(task, one, two)
    thick = max(task.result.stock_section.width, task.result.stock_section.thick)
    free = plain_iron(one, _taken(task, one, thick), task.result.length)

    laid: dict[tuple[Zone, ...], tuple[Stage, Stage]] = {(): (one, two)}

    def fits(left_out: tuple[Zone, ...]) -> float:
        laid[left_out] = laid.get(left_out) or _both(task, left_out)
        sizes = [_size(stage, view) for stage, view in zip(laid[left_out], seen, strict=True)]
        return min(1.0, THICKEST / thick, *(wide / w for w, _ in sizes), *(HIGH / h for _, h in sizes))

    found = breaks(free, fits, STOUT / thick)
    drawn = laid[found.left_out]
    return _figure(drawn[0], seen[0], found, task.hot), _figure(drawn[1], seen[1], found, task.hot)


def _both(task: Task, left_out: tuple[Zone, ...]) -> tuple[Stage, Stage]:
    one, two = (stage_of(task.result, done, left_out) for done in (task.before, task.after))
    return one, two


def _figure(stage: Stage, view: View, found: Breaks, hot: Zone) -> Figure:
    line = bent(stage.bar, more=[stage.at(at) for at in hot], scale=found.scale)
    return Figure(stage, line, view, found.scale, tuple(a for a, _ in found.left_out))


def _taken(task: Task, stage: Stage, thick: float) -> list[Zone]:
    """What no break may touch, on the bar as it lies before the heat [m]."""
    result, after = task.result, task.after
    zones = [task.hot, *((result.runs[i].start, result.runs[i].end) for i in task.runs)]
    zones += [(b.start, b.end) for i, b in enumerate(result.bends) if i in after.bends]
    zones += [(t.start, t.end) for i, t in enumerate(result.twists) if i in after.twists]
    zones += [(h.at - h.hole.size, h.at + h.hole.size) for i, h in enumerate(result.holes) if i in after.holes]
    zones += [] if task.hold is None else [(task.hold - HELD * thick, task.hold + HELD * thick)]
    return [(stage.at(low) - thick, stage.at(high) + thick) for low, high in zones]


def _size(stage: Stage, view: View) -> tuple[float, float]:
    """Width and height [m] of a stage seen that way, near enough to choose a scale by."""
    thick = stoutest(stage.bar)
    ends = [
        view.put(on_leg(leg, into).origin) for leg in leg_starts(stage.bar.legs) for into in leg_steps(leg.leg, NEAR)
    ]
    xs, ys = [x for x, _ in ends], [y for _, y in ends]
    round_about = thick if stage.bar.bends else 0.0
    return max(xs) - min(xs) + round_about, max(ys) - min(ys) + thick


ABOVE = View((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), Overall.REACH, Overall.ACROSS)
ASIDE = View((1.0, 0.0, 0.0), (0.0, 0.0, 1.0), Overall.REACH, Overall.RISE)
"""A straight bar from above and from the side."""


def sights(task: Task, one: Stage, two: Stage) -> tuple[View, View]:
    """How the bar is looked at before and after: from one side, the one that shows what is done."""
    after = bent(two.bar, scale=ROUGH)
    choice = (ABOVE, ASIDE) if not two.bar.bends else sides(after)
    best = max(choice, key=lambda view: _shows(task, two, after, view))
    if not two.bar.bends:
        return best, best
    return _alike(one, best), levelled(after, best)


def _shows(task: Task, two: Stage, after: Bent, view: View) -> float:
    """How well a side shows what was done: new bends first, then the size that changed or the hole."""
    made = sorted(task.after.bends)
    new = [i for i, number in enumerate(made, start=1) if number not in task.before.bends]
    seen = {number for number, _ in bends_seen(after, view)}
    at = two.at((task.hot[0] + task.hot[1]) / 2) / after.factor
    frame = place(two.bar.legs, at)
    facing = frame.up if _from_above(task) else frame.left
    return 10.0 * len(seen.intersection(new)) + abs(dot(facing, view.toward))


def _from_above(task: Task) -> bool:
    """Whether what was done changes the width, or pierces the front: else it is looked at from the side."""
    holes = [task.result.holes[i].hole.face for i in task.after.holes - task.before.holes]
    if holes:
        return any(face in (Face.FRONT, Face.BACK) for face in holes)
    stock = task.result.stock_section
    runs = [task.result.runs[i] for i in task.runs]
    wide = max((abs(s.width - stock.width) for run in runs for s in (run.a, run.b)), default=0.0)
    high = max((abs(s.thick - stock.thick) for run in runs for s in (run.a, run.b)), default=0.0)
    return wide >= high - 1e-9 or any(run.outline is not None for run in runs)


def _alike(stage: Stage, view: View) -> View:
    """The bar before, looked at from the side that it is looked at from afterwards, lying level."""
    if stage.bar.bends:
        line = bent(stage.bar, scale=ROUGH)
        return levelled(line, max(sides(line), key=lambda one: abs(dot(one.toward, view.toward))))
    along: Vec = (1.0, 0.0, 0.0)
    toward = mixed(view.toward, 1.0, along, -dot(view.toward, along))
    if norm(toward) < 0.5:
        return ABOVE
    upward = cross(unit(toward), along)
    flip = dot(upward, (0.0, 1.0, 1.0)) < -1e-9
    return View(along, times(upward, -1.0) if flip else upward, view.along_right, view.along_up)


def drawable(task: Task) -> Task:
    """The same heat with a long grip cut short for the picture, and all places on the bar."""
    result, length = task.result, task.result.length
    drawn = min(result.grip, GRIP * max(result.stock_section.width, result.stock_section.thick))
    hot = (max(0.0, min(task.hot)), min(length, max(task.hot)))
    hold = task.hold
    if hold is not None and hold > length:
        hold = length + (hold - length) * (drawn / result.grip if result.grip > 0.0 else 0.0)
    return replace(task, result=replace(result, grip=drawn), hot=hot, hold=hold)
