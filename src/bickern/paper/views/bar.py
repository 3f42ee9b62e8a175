"""The bar drawn out and still straight, each section named, with its marks told from the datum end."""

import math
from collections.abc import Sequence

from bickern.measure.units.words import Style
from bickern.paper.marks import (
    EMPTY,
    Anchor,
    Drawing,
    Layer,
    Line,
    Mark,
    Point,
    Polyline,
    Text,
    Tick,
    TickKind,
    Weight,
    drawing,
    moved,
    text_width,
)
from bickern.paper.views.profile import FINE, as_drawn, necked, size_in, stoutest
from bickern.paper.views.ruler import Ruler, levels, ruler
from bickern.paper.views.strip import DEEPEST, FIGURE, RISE, SIDE, SMALL, Named, dimensions_below, tags
from bickern.parts.bar.result import BarResult, HoleCheck, MarkKind, MetalRun, TwistCheck
from bickern.parts.bar.tracks import Face

ABOVE = 0.0075
"""From the top of the bar to the names of its sections [m]."""
LOWEST = 0.0022
"""From the top of the bar to the lowest names of its marks [m]."""
VIEWS_APART = 0.006
"""Between the view from above and the view from the side [m]."""


def bar_side(result: BarResult, marks: Sequence[Named], wide: float, style: Style) -> Drawing:
    """The drawn bar, straight, `wide` [m] at most: from above, and from the side too where width and thickness differ.

    Lengths give way to the paper (the figures are true); thickness is drawn to one scale.
    """
    drawn = as_drawn(result)
    places = [run.start for run in drawn.runs] + [named.mark.at for named in marks]
    rule = ruler(places, drawn.length, wide - 2 * SIDE)
    return drawn_on(result, marks, rule, min(1.0, DEEPEST / max(stoutest(necked(drawn)), 1e-6)), style)


def drawn_on(result: BarResult, marks: Sequence[Named], rule: Ruler, scale: float, style: Style) -> Drawing:
    """The same with its places laid out by `rule`, thickness at `scale`."""
    result = necked(as_drawn(result))
    above = _view(result, rule, scale, over=True)
    signs = _marks(marks, rule, scale * stoutest(result) / 2)
    top = max([stoutest(result) * scale / 2, *(m.at[1] - LOWEST for m in signs if isinstance(m, Text))])
    found = [*above, *_names(result, rule, top), *signs]
    low = -scale * stoutest(result) / 2
    if _unlike(result):
        drop = low - VIEWS_APART - scale * _thickest(result) / 2
        found += _dropped(_view(result, rule, scale, over=False), drop)
        found += [Text((-0.004, y - SMALL / 2), word, SMALL, Anchor.END) for y, word in ((0.0, "top"), (drop, "side"))]
        low = drop - scale * _thickest(result) / 2
    figures = [(rule.put(s), s) for s in _told(result, marks)]
    return drawing([*found, *_dropped(dimensions_below(figures, style), low)])


def _told(result: BarResult, marks: Sequence[Named]) -> list[float]:
    """Places that get a figure: ends of sections and marks, each once, without the datum end [m]."""
    told: list[float] = []
    for s in sorted([*(run.end for run in result.runs), *(named.mark.at for named in marks)]):
        if s > 1e-4 and (not told or s - told[-1] > 1e-4):
            told.append(s)
    return told


def _dropped(marks: Sequence[Mark], by: float) -> list[Mark]:
    return list(moved(Drawing(tuple(marks), EMPTY), 0.0, by).marks)


def _unlike(result: BarResult) -> bool:
    ends = [section for run in result.runs for section in (run.a, run.b)]
    return any(abs(s.width - s.thick) > 1e-6 for s in ends) or any(run.outline for run in result.runs)


def _thickest(result: BarResult) -> float:
    return max(max(r.a.thick, r.b.thick, r.outline.thick if r.outline else 0.0) for r in result.runs)


def _view(result: BarResult, rule: Ruler, scale: float, over: bool) -> list[Mark]:
    """The bar's edges, shoulders, twists and holes from above (`over`) or from the side, its line along y = 0."""
    marks: list[Mark] = []
    for run in result.runs:
        upper = _edge(run, rule, scale, over, 1)
        lower = _edge(run, rule, scale, over, -1)
        marks.append(Polyline((*upper, *reversed(lower)), closed=True, layer=Layer.OUTLINE))
    marks += [mark for twist in result.twists for mark in _twist(result, twist, rule, scale)]
    marks += [mark for hole in result.holes for mark in _hole(result, hole, rule, scale, over)]
    return marks


def _edge(run: MetalRun, rule: Ruler, scale: float, over: bool, side: int) -> list[Point]:
    steps = FINE if run.outline is not None else 1
    points = []
    for i in range(steps + 1):
        s = run.start + (run.end - run.start) * i / steps
        size = size_in(run, s)
        half, off = (size.width / 2, size.left) if over else (size.thick / 2, size.up)
        points.append((rule.put(s), scale * (off + side * half)))
    return points


def _half(result: BarResult, s: float, over: bool) -> float:
    run = next((r for r in result.runs if r.start - 1e-9 <= s <= r.end + 1e-9), result.runs[-1])
    size = size_in(run, s)
    return (size.width if over else size.thick) / 2


def _twist(result: BarResult, twist: TwistCheck, rule: Ruler, scale: float) -> list[Mark]:
    """Slanting strokes over the twisted stretch; their slope is the hand of the twist."""
    left, right = rule.put(twist.start), rule.put(twist.end)
    count = max(3, min(24, round(abs(twist.twist.turns) * 4)))
    lean = (right - left) / count * (1 if twist.twist.turns >= 0 else -1)
    half = scale * _half(result, (twist.start + twist.end) / 2, over=True)
    marks: list[Mark] = []
    for i in range(count):
        x = left + (right - left) * (i + 0.5) / count
        marks.append(Line((x - lean / 2, -half), (x + lean / 2, half), Layer.DIMENSION))
    return marks


def _hole(result: BarResult, hole: HoleCheck, rule: Ruler, scale: float, over: bool) -> list[Mark]:
    """A hole looked into is drawn open; one seen from the side is two hidden lines."""
    x, size = rule.put(hole.at), scale * hole.hole.size / 2
    long = scale * (hole.hole.long or hole.hole.size) / 2
    if (hole.hole.face in (Face.FRONT, Face.BACK)) == over:
        points = [(x + long * math.cos(a * math.pi / 16), size * math.sin(a * math.pi / 16)) for a in range(32)]
        return [Polyline(tuple(points), closed=True)]
    half = scale * _half(result, hole.at, over)
    return [Line((x + side * long, -half), (x + side * long, half), Layer.HIDDEN) for side in (-1, 1)]


def _names(result: BarResult, rule: Ruler, top: float) -> list[Mark]:
    """S1, S2, ... over the middle of each section, with its name where there is room."""
    named: list[tuple[float, str]] = []
    for number, run in enumerate(result.runs, start=1):
        left, right = rule.put(run.start), rule.put(run.end)
        says = f"S{number} {run.name}".strip()
        if text_width(says, FIGURE) > right - left:
            says = f"S{number}"
        named.append(((left + right) / 2, says))
    halves = [text_width(says, FIGURE) / 2 for _, says in named]
    rows = levels([(x - half, x + half) for (x, _), half in zip(named, halves, strict=True)], 0.0008)
    return [
        Text((x, top + ABOVE + row * RISE * FIGURE), says, FIGURE, Anchor.MIDDLE, weight=Weight.BOLD)
        for (x, says), row in zip(named, rows, strict=True)
    ]


def _marks(marks: Sequence[Named], rule: Ruler, half: float) -> list[Mark]:
    found: list[Mark] = []
    for named in marks:
        x = rule.put(named.mark.at)
        punch = named.mark.kind is MarkKind.PUNCH
        tick = Tick((x, 0.0), TickKind.PUNCH, 0.004) if punch else Tick((x, 0.0), TickKind.CHALK, 2 * half + 0.003)
        found.append(tick)
    found += tags(marks, rule, half + LOWEST, SMALL)
    return [*found, Tick((0.0, half + LOWEST), TickKind.DATUM, 0.006)]
