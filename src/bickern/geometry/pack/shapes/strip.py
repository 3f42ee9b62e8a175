"""Parts in rows along a strip of given height, as short as can be found; rectangular sheets filled as such strips.

The library that searches works in 32-bit numbers, knows simple outlines only (nothing is laid in another part's
hole) and is told a time, not a number of steps: with the same seed the first layout that is short enough is always
the same one, but the shortest found in a given time is another on a faster machine. What it lays is checked exactly.
"""

import json
import math
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import TYPE_CHECKING

from bickern.geometry.pack.child import Lost, in_child
from bickern.geometry.pack.shapes.asked import Part, Remnant, Spacing
from bickern.geometry.pack.shapes.check import EXACT, faults_of
from bickern.geometry.pack.shapes.chords import polygon_round
from bickern.geometry.pack.shapes.result import Laid, Nest
from bickern.geometry.pack.shapes.room import goes
from bickern.geometry.polygon import ArcSeg, Loop, Point, area, bounds, moved, rectangle

if TYPE_CHECKING:
    import spyrrow
    from shapely import Polygon

CURVE = 5e-5
"""How far straights leave the curves they stand for, always outward [m]."""
MOST_CORNERS = 240
"""Outlines of more corners than this are smoothed outward before the search."""
WORKERS = 2
"""Threads of the search; another number gives another layout from the same seed."""
GRACE = 5.0
"""Seconds that the search may take beyond its own limit before it counts as hung."""
UNIT = 1e-3
"""Metres in one unit of the searching library: its numbers have seven digits."""
TIGHT = 8e-6
"""How much higher the strip is told to be where a part just fits [m]: it would else be refused. The check decides."""
SHARES = (1.0, 0.9, 0.8)
"""How much of a sheet's area is tried to be filled with parts, one try each, where not all parts go on it."""

KeepGoing = Callable[[], bool]
Report = Callable[[str], None]


@dataclass(frozen=True, slots=True)
class Strip:
    """Parts laid on a strip whose lower left corner is the origin; `length` [m] from edge to edge, margins counted in.

    `cut_short`: the search was stopped by its time limit or by the asker; `why` in words ("": it ended by itself).
    """

    laid: tuple[Laid, ...]
    length: float
    cut_short: bool = False
    why: str = ""


def strip(
    parts: Sequence[Part],
    height: float,
    spacing: Spacing,
    *,
    seconds: float = 30.0,
    seed: int = 1,
    enough: float | None = None,
    key: str = "strip",
    keep_going: KeepGoing = lambda: True,
    report: Report = lambda says: None,
) -> Strip | Lost:
    """All parts on a strip of `height` [m], as short as is found in `seconds`; the first not over `enough` [m] will do.

    Every layout returned has been checked exactly; a search that was lost after it had found one returns that.
    """
    wanted = [part for part in parts if part.count > 0]
    if not wanted:
        return Strip((), 0.0)
    hindrance = _hindrance(wanted, height - 2 * spacing.margin)
    if hindrance:
        return Lost(hindrance)
    search = _Search(wanted, height, spacing, key, report)
    ended = in_child(
        "shapes.strip:searched",
        _asked(wanted, height, spacing, seconds, seed, enough),
        max(1.0, seconds) * 1.1 + GRACE,
        keep_going=keep_going,
        report=search.hear,
    )
    return search.best(ended, enough)


@dataclass(frozen=True, slots=True)
class _Fill:
    """What is still to be laid, and how."""

    parts: Sequence[Part]
    spacing: Spacing
    seed: int
    seconds: float
    shares: Sequence[float]
    steady: bool
    keep_going: KeepGoing
    report: Report


def fill(
    parts: Sequence[Part],
    sheets: Sequence[Remnant],
    spacing: Spacing,
    *,
    seed: int = 1,
    seconds: float = 30.0,
    shares: Sequence[float] = SHARES,
    steady: bool = False,
    keep_going: KeepGoing = lambda: True,
    report: Report = lambda says: None,
) -> Nest | Lost:
    """Rectangular sheets (`is_rectangle`) filled one after another in the order given, every sheet's layout checked.

    `seconds` are shared out over sheets and tries; `shares` of a sheet's area, one try each. `steady`: only a try of
    which all goes on its sheet counts, so that the same seed gives the same nest wherever the time is enough for it.
    A sheet on which nothing is laid costs nothing. Lost only where nothing at all could be laid because the search was.
    """
    count = max(1, len(sheets) * len(shares))
    how = _Fill(parts, spacing, seed, seconds / count, shares, steady, keep_going, report)
    left = Counter({part.key: part.count for part in parts})
    laid: list[Laid] = []
    cut_short, lost = False, list[Lost]()
    for sheet in sheets:
        if not left.total() or not keep_going():
            break
        found = _on_sheet(how, left, sheet)
        if isinstance(found, Lost):
            lost.append(found)
            continue
        laid += found.laid
        cut_short = cut_short or found.cut_short
        left -= Counter(one.part for one in found.laid)
    if lost and not laid:
        return lost[0]
    cost = math.fsum(sheet.cost for sheet in sheets if any(one.remnant == sheet.key for one in laid))
    why = "filled as strips one after another" + (": where the search ends hangs on the machine" if cut_short else "")
    nest = Nest(tuple(laid), tuple(sorted((+left).items())), cost, cut_short, why)
    faults = faults_of(nest, parts, sheets, spacing)
    return Lost(f"what it laid was not sound: {faults[0]}") if faults else nest


def is_rectangle(sheet: Remnant) -> bool:
    """Whether a sheet is an upright rectangle without holes."""
    low, high = bounds(sheet.outline)
    box = (high[0] - low[0]) * (high[1] - low[1])
    straight = not any(isinstance(seg, ArcSeg) for seg in sheet.outline.segs)
    return straight and not sheet.cutouts and math.isclose(abs(area(sheet.outline)), box, rel_tol=1e-9)


def _on_sheet(how: _Fill, left: Counter[str], sheet: Remnant) -> Strip | Lost:
    """The most that was laid on one sheet: all that is left if it goes, else the try with most metal."""
    (x, y), (right, top) = bounds(sheet.outline)
    width, height = right - x, top - y
    best: Strip | None = None
    lost: Lost | None = None
    within = width - 2 * how.spacing.margin, height - 2 * how.spacing.margin
    able = [p for p in how.parts if goes(p, within[0] + EXACT / 4, within[1] + EXACT / 4) and _low(p, within[1])]
    for parts in _tries(able, left, width * height, how.shares):
        found = strip(
            parts,
            height,
            how.spacing,
            seconds=how.seconds,
            seed=how.seed,
            enough=width,
            key=sheet.key,
            keep_going=how.keep_going,
            report=how.report,
        )
        if isinstance(found, Lost):
            lost = found
            continue
        if how.steady and found.length > width + EXACT:
            continue
        inside = _inside(found, how.parts, width - how.spacing.margin)
        if best is None or _metal(inside.laid, how.parts) > _metal(best.laid, how.parts):
            best = inside
        if len(best.laid) == left.total() or not how.keep_going():
            break
    if best is None:
        return lost or Strip((), 0.0)
    return replace(best, laid=tuple(replace(one, x=one.x + x, y=one.y + y) for one in best.laid))


def _tries(parts: Sequence[Part], left: Counter[str], room: float, shares: Sequence[float]) -> Iterator[list[Part]]:
    """What may go on a sheet of area `room` [m2]: the biggest first until a share of it is full; each set once."""
    seen: list[list[Part]] = []
    for share in shares:
        chosen, free = [], share * room
        for part in sorted(parts, key=lambda part: -area(part.outline)):
            count = min(left[part.key], int(free / abs(area(part.outline))))
            free -= count * abs(area(part.outline))
            chosen += [replace(part, count=count)] if count else []
        if chosen and chosen not in seen:
            seen.append(chosen)
            yield chosen


def _inside(found: Strip, parts: Sequence[Part], width: float) -> Strip:
    """What of a strip lies wholly left of `width` [m]."""
    outlines = {part.key: part.outline for part in parts}
    kept = [one for one in found.laid if bounds(_lying(outlines[one.part], one))[1][0] <= width + EXACT / 4]
    return replace(found, laid=tuple(kept))


def _metal(laid: Sequence[Laid], parts: Sequence[Part]) -> float:
    areas = {part.key: abs(area(part.outline)) for part in parts}
    return math.fsum(areas[one.part] for one in laid)


def _lying(outline: Loop, one: Laid) -> Loop:
    return moved(outline, one.x, one.y, one.turn)


# ---- the asking side


def _hindrance(parts: Sequence[Part], room: float) -> str:
    """Why no strip can hold these parts ("": nothing stands against it)."""
    for part in parts:
        shape = enclosing(part.outline)
        if not shape.is_valid or shape.is_empty:
            return f"the outline of {part.key} crosses itself"
        if not _low(part, room):
            return (
                f"{part.key} is {_least_height(part) * 1000:.1f} mm high at least, the strip has {room * 1000:.1f} mm"
            )
    return ""


def _low(part: Part, room: float) -> bool:
    """Whether a strip of height `room` [m] can hold a part."""
    return _least_height(part) <= room + EXACT


def _least_height(part: Part) -> float:
    """The least height [m] of a part over its turns; where any will do, one side of its hull then lies flat."""
    if part.turns is not None:
        return min((_height(part.outline, turn) for turn in part.turns), default=math.inf)
    corners = list(enclosing(part.outline).convex_hull.exterior.coords)
    return min(_height(part.outline, -math.atan2(b[1] - a[1], b[0] - a[0])) for a, b in pairwise(corners) if a != b)


def _height(loop: Loop, turn: float) -> float:
    low, high = bounds(moved(loop, turn=turn))
    return high[1] - low[1]


def enclosing(loop: Loop) -> "Polygon":
    """A polygon round the loop, its arcs left by `CURVE` at most; of very many corners, smoothed by twice as much."""
    shape = polygon_round(loop, CURVE)
    if len(shape.exterior.coords) > MOST_CORNERS and shape.is_valid:
        smooth = shape.buffer(CURVE, join_style="mitre").simplify(CURVE)
        return smooth if smooth.geom_type == "Polygon" else shape
    return shape


@dataclass(frozen=True, slots=True)
class _Asked:
    """What the library is asked, in its own units and degrees: items as (number, corners, count, turns)."""

    items: tuple[tuple[int, tuple[Point, ...], int, tuple[float, ...] | None], ...]
    height: float
    gap: float
    seconds: int
    seed: int
    enough: float


def _asked(
    parts: Sequence[Part], height: float, spacing: Spacing, seconds: float, seed: int, enough: float | None
) -> _Asked:
    """The library keeps the gap to the edges too: its strip is higher by what the gap is more than the margin."""
    more = 2 * (spacing.gap - spacing.margin)
    tallest = max(_least_height(part) for part in parts)
    tight = TIGHT if tallest > height - 2 * spacing.margin - TIGHT else 0.0
    return _Asked(
        tuple((number, _corners(part), part.count, _degrees(part.turns)) for number, part in enumerate(parts)),
        (height + more + tight) / UNIT,
        spacing.gap / UNIT,
        max(1, round(seconds)),
        seed,
        -math.inf if enough is None else (enough + more) / UNIT,
    )


def _corners(part: Part) -> tuple[Point, ...]:
    """An outline for the library: counter-clockwise, no corner twice."""
    corners = [(x / UNIT, y / UNIT) for x, y in enclosing(part.outline).exterior.coords[:-1]]
    return tuple(a for a, b in zip(corners, [*corners[1:], corners[0]], strict=True) if math.dist(a, b) > 1e-4)


def _degrees(turns: tuple[float, ...] | None) -> tuple[float, ...] | None:
    return None if turns is None else tuple(math.degrees(turn) for turn in turns)


Layout = list[tuple[int, float, float, float]]
"""For each copy the number of its part, its turn [degrees], and its shift in units of the library."""


class _Search:
    """Hears of layouts while they are found, and keeps them; the last is the shortest."""

    def __init__(self, parts: Sequence[Part], height: float, spacing: Spacing, key: str, report: Report) -> None:
        self.parts, self.height, self.spacing, self.key, self.report = parts, height, spacing, key, report
        self.layouts: list[Layout] = []
        self.metal = math.fsum(area(part.outline) * part.count for part in parts)

    def hear(self, says: str) -> None:
        """Keeps a layout, and says how long its strip is."""
        width, layout = json.loads(says)
        self.layouts.append(layout)
        length = width * UNIT - 2 * (self.spacing.gap - self.spacing.margin)
        self.report(f"a strip of {length * 1000:.1f} mm, {100 * self.metal / (length * self.height):.1f} % full")

    def best(self, ended: object, enough: float | None) -> Strip | Lost:
        """The last layout that is sound."""
        faults: tuple[str, ...] = ()
        for layout in reversed(self.layouts[-5:]):
            found = self.laid_out(layout)
            faults = self.faults(found)
            if not faults:
                return _told(found, ended, enough)
        if isinstance(ended, Lost):
            return ended
        return Lost(f"what it laid was not sound: {faults[0]}" if faults else "it laid nothing")

    def laid_out(self, layout: Layout) -> Strip:
        """The parts where the layout has them, pushed to the strip's corner by what rounding has left."""
        laid = [self.placed(*one) for one in layout]
        lows, highs = zip(*(bounds(self.lying(one)) for one in laid), strict=True)
        left, low, right, top = (
            min(x for x, _ in lows),
            min(y for _, y in lows),
            max(x for x, _ in highs),
            max(y for _, y in highs),
        )
        margin = self.spacing.margin
        free = self.height - 2 * margin - (top - low)
        bottom = margin + (min(max(0.0, low - margin), free) if free > 0 else free / 2)
        pushed = tuple(replace(one, x=one.x - left + margin, y=one.y - low + bottom) for one in laid)
        return Strip(pushed, right - left + 2 * margin)

    def placed(self, number: int, degrees: float, x: float, y: float) -> Laid:
        part = self.parts[number]
        turn = _nearest(math.radians(degrees), part.turns)
        return Laid(part.key, self.key, turn, x * UNIT, y * UNIT)

    def lying(self, one: Laid) -> Loop:
        outline = next(part.outline for part in self.parts if part.key == one.part)
        return _lying(outline, one)

    def faults(self, found: Strip) -> tuple[str, ...]:
        sheet = Remnant(self.key, rectangle(found.length, self.height))
        return faults_of(Nest(found.laid, (), 0.0), self.parts, (sheet,), self.spacing)


def _told(found: Strip, ended: object, enough: float | None) -> Strip:
    if enough is not None and found.length <= enough + EXACT:
        return found
    if isinstance(ended, Lost):
        return replace(found, cut_short=True, why=f"the search was lost ({ended.why}); this is the best till then")
    if ended == "time":
        return replace(found, cut_short=True, why="the search was stopped by its time")
    return found


def _nearest(turn: float, allowed: tuple[float, ...] | None) -> float:
    """The turn that was allowed and is meant: the library rounds its angles, and lets them run over a whole turn."""
    if allowed is None:
        return turn
    return min(allowed, key=lambda one: abs((turn - one + math.pi) % (2 * math.pi) - math.pi))


# ---- the working side: run in a process of its own


def searched(asked: object, report: Report) -> str:
    """Searches, reports every layout that is shorter than those before, and says how it ended: "enough" or "time"."""
    import threading

    import spyrrow

    assert isinstance(asked, _Asked)
    found, through, fault = spyrrow.ProgressQueue(), threading.Event(), list[BaseException]()

    def search() -> None:
        try:
            _instance(asked).solve(_setting(asked), found)
        except BaseException as one:  # a panic of the library is none of Exception
            fault.append(one)
        through.set()

    threading.Thread(target=search, daemon=True).start()
    shortest, ended = math.inf, False
    sound = [int(kind) for kind in (spyrrow.ReportType.ExplFeas, spyrrow.ReportType.CmprFeas, spyrrow.ReportType.Final)]
    while not ended:
        ended = through.wait(0.05)
        for kind, layout in found.drain():
            if int(kind) in sound and layout.width < shortest:
                shortest = layout.width
                report(_written(layout))
                if shortest <= asked.enough:
                    return "enough"
    if fault:
        raise fault[0]
    return "time"


def _instance(asked: _Asked) -> "spyrrow.StripPackingInstance":
    import spyrrow

    items = [spyrrow.Item(str(number), corners, count, turns) for number, corners, count, turns in asked.items]
    return spyrrow.StripPackingInstance("strip", asked.height, items)


def _setting(asked: _Asked) -> "spyrrow.StripPackingConfig":
    import spyrrow

    return spyrrow.StripPackingConfig(
        min_items_separation=asked.gap or None,
        total_computation_time=asked.seconds,
        num_workers=WORKERS,
        seed=asked.seed,
    )


def _written(layout: "spyrrow.StripPackingSolution") -> str:
    return json.dumps([layout.width, [[int(one.id), one.rotation, *one.translation] for one in layout.placed_items]])
