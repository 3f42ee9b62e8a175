"""A bar before and after one heat, small: what is hot, where it is held, and what it has become."""

import math
from collections.abc import Iterator, Sequence

from bickern.iron.section import Section, words_of
from bickern.measure.units.say import say_both, say_section_both, say_turns
from bickern.measure.units.words import Shape, Style
from bickern.paper.marks import (
    Anchor,
    Box,
    Drawing,
    Filled,
    Layer,
    Line,
    Mark,
    Point,
    Polyline,
    Text,
    Tick,
    TickKind,
    Tone,
    Weight,
    bounds,
    drawing,
    moved,
    text_width,
)
from bickern.paper.views.outline import bare_picture, numbered, parts_seen
from bickern.paper.views.ruler import levels
from bickern.paper.views.stage_figure import Figure, Task, Zone, drawable, figures_of
from bickern.parts.bar.resolve import same_section
from bickern.parts.bar.result import BarResult
from bickern.parts.bar.stage import Done, stage_of

SIDE = 0.004
"""Room on each side of the iron, for the flag of the datum end [m]."""
APART = 0.0025
"""Between the two figures [m]."""
LETTER = 0.0021
"""Capitals in these small pictures [m]."""
LINE = 0.0034
"""From one line of lettering to the next [m]."""
CLEAR = 0.0014
"""From the iron to a bracket or a jaw's end [m]."""
FLAG = 0.0044
"""Height of the flag at the datum end [m]."""
HATCH = 0.0011
"""Between two strokes of the hatching that means hot [m]."""
BREAK = 0.0009
"""Half the width of the gap between two break lines [m]."""
JAW = 0.0045
"""Length of a jaw of the tongs that are drawn [m]."""
RING = 0.0026
"""Radius of the ring round a bend's number [m]."""
TITLE = 0.0136
"""Room kept at the left, above a figure, for its title [m]."""
PULL = 0.002
"""How far inside its words' ends a line to them comes in [m]."""
HELD = "hold"
"""The word for where the bar is held."""
AT_END = 0.0065
"""What is hot from nearer to an end than this is hot from that end: no fire leaves so little cold [m]."""
_END = 1e-6


def heat_view(
    result: BarResult,
    before: Done,
    after: Done,
    hot: tuple[float, float],
    wide: float,
    style: Style,
    hold: float | None = None,
    abreast: bool = False,
    more: str = "",
) -> Drawing:
    """The bar before a heat, and under it (or `abreast`) the bar after it, at one scale, `wide` [m] at most.

    `hot`: from where to where on the finished bar [m] it is hot: hatched and bracketed, with its length now. `hold`: a
    place on the finished bar (past its end: on the grip) where it is held; `more`: what else to say of what is hot.
    Afterwards are told the sizes to stop at.
    Where nothing is hot (both places alike) it is work at the bench, and nothing is hatched.
    Proportions are true; long plain iron is left out between break lines.
    """
    asked = Task(result, before, after, hot, hold)
    task = drawable(asked)
    each = (wide - APART) / 2 if abreast else wide
    first, second = figures_of(task, each - 2 * SIDE)
    says = (*hot_words(asked, style), *((more,) if more else ()))
    upper = _block("before", _before(task, first, each, says))
    lower = _block("after", _after(task, second, each, style))
    if abreast:
        lower = moved(lower, each + APART, upper.bounds.top - lower.bounds.top)
        low = min(upper.bounds.bottom, lower.bounds.bottom)
        return Drawing((*upper.marks, *lower.marks), Box(0.0, low, wide, upper.bounds.top))
    top = moved(upper, 0.0, lower.bounds.top + APART - upper.bounds.bottom)
    return Drawing((*top.marks, *lower.marks), Box(0.0, lower.bounds.bottom, wide, top.bounds.top))


def _block(title: str, picture: Drawing) -> Drawing:
    """A figure moved to the left edge of the room, its title in the upper corner: over it where that is not free."""
    placed = moved(picture, -picture.bounds.left, 0.0)
    level, long = placed.bounds.top - 1.1 * LETTER, text_width(title, LETTER)
    room = Box(0.0, level - 0.3 * LETTER, long + 0.002, placed.bounds.top)
    if any(bounds([mark]).meets(room) for mark in placed.marks):
        level = placed.bounds.top + 0.5 * LETTER
    return drawing([*placed.marks, Text((0.0, level), title, LETTER, weight=Weight.BOLD)])


def hot_words(task: Task, style: Style) -> tuple[str, ...]:
    """How long the hot part is on the bar as it lies, and how far it is from the end it is told from."""
    stage, length = stage_of(task.result, task.before), task.result.length
    low, high = (min(length, max(0.0, at)) for at in (min(task.hot), max(task.hot)))
    start, end = stage.at(low) if low > _END else 0.0, stage.at(high)
    behind = stage.bar.length - end
    from_start, from_end = start <= AT_END, behind <= AT_END and task.result.grip <= 0.0
    long = (stage.bar.length if from_end else end) - (0.0 if from_start else start)
    says = f"hot {say_both(long, style)}"
    if from_start or from_end:
        return (says,)
    if behind < start and task.result.grip <= 0.0:
        return says, f"{say_both(behind, style)} from the other end"
    return says, f"{say_both(start, style)} from the datum end"


def _before(task: Task, figure: Figure, wide: float, says: tuple[str, ...]) -> Drawing:
    """The bar as it goes into the fire: hot part hatched and named, and where it is held."""
    marks = _bare(figure)
    room = _room(drawing(marks).bounds, wide)
    held = [] if task.hold is None else _jaws(figure, _beside(figure, task.hold, task.hot))
    is_hot = task.hot[1] - task.hot[0] > _END
    if is_hot:
        marks += _hatched(figure, task.hot)
        marks += _bracket(figure, task.hot, 1) if figure.is_straight(task.hot) else _ends_of(figure, task.hot)
    marks += held
    if is_hot:  # above the jaws too
        marks += _told([(_top_of(figure, task.hot), says)], drawing(marks).bounds.top, room)
    return drawing([*marks, *(_hold_word(figure, held, room) if held else ())])


def _bare(figure: Figure) -> list[Mark]:
    """The iron itself, its datum end, and its break lines."""
    marks = list(bare_picture(figure.line, figure.view, figure.scale).marks)
    marks += [mark for at in figure.broken for mark in _broken(figure, at)]
    return marks if figure.stage.bar.spec.closed else [*marks, _flag(figure)]


def _flag(figure: Figure) -> Tick:
    """The flag at the datum end, clear of the iron."""
    (x, y), (ahead, up) = figure.start(), figure.heading(0.0)
    return Tick((x - 0.0006 * ahead, y - 0.0006 * up), TickKind.DATUM, FLAG, math.atan2(up, ahead) - math.pi / 2)


def _hatched(figure: Figure, zone: Zone) -> list[Mark]:
    parts = parts_seen(figure.line, figure.view, figure.row(zone))
    by = figure.scale
    return [Filled(tuple((x * by, y * by) for x, y in part), Tone.HATCHED, HATCH) for part in parts]


def _broken(figure: Figure, at: float) -> list[Mark]:
    """Two break lines across the iron with nothing between them."""
    (low, high), ahead = figure.edges(at), figure.heading(at)
    past = 0.0008
    span = math.dist(low, high) or 1.0
    up = ((high[0] - low[0]) / span, (high[1] - low[1]) / span)
    foot, head = _step(low, up, -past), _step(high, up, past)
    steps = ((0.0, 0.0), (0.42, 0.0), (0.46, -0.0006), (0.54, 0.0006), (0.58, 0.0), (1.0, 0.0))
    lines = [
        tuple(_step(_between(foot, head, share), ahead, off + side * BREAK) for share, off in steps) for side in (-1, 1)
    ]
    gap = Filled((*lines[0], *reversed(lines[1])), Tone.WHITE, layer=Layer.DIMENSION)
    return [gap, *(Polyline(points, layer=Layer.DIMENSION) for points in lines)]


def _step(point: Point, way: Point, by: float) -> Point:
    return (point[0] + way[0] * by, point[1] + way[1] * by)


def _between(one: Point, other: Point, share: float) -> Point:
    return (one[0] + share * (other[0] - one[0]), one[1] + share * (other[1] - one[1]))


def _bracket(figure: Figure, zone: Zone, side: int) -> list[Mark]:
    """A bracket along a straight stretch, above the iron (`side` 1) or below it (-1)."""
    upper = side > 0
    start, end = (figure.edges(at)[upper] for at in zone)
    ahead = figure.heading(zone[0])
    up = (-ahead[1], ahead[0]) if (ahead[0] >= 0) == upper else (ahead[1], -ahead[0])
    # between stations the edges run straight
    over = [start, end, *(figure.edges_of(station)[upper] for station in figure.row(zone))]
    level = max(_along(point, up) for point in over) + CLEAR
    ends = [_step(point, up, level - _along(point, up)) for point in (start, end)]
    feet = [_step(point, up, -0.8 * CLEAR) for point in ends]
    return [Polyline((feet[0], *ends, feet[1]), layer=Layer.MARK)]


def _along(point: Point, way: Point) -> float:
    return point[0] * way[0] + point[1] * way[1]


def _ends_of(figure: Figure, zone: Zone) -> list[Mark]:
    """A stroke across the iron at each end of a bent stretch."""
    strokes: list[Mark] = []
    for at in zone:
        low, high = figure.edges(at)
        span = math.dist(low, high) or 1.0
        up = ((high[0] - low[0]) / span, (high[1] - low[1]) / span)
        strokes.append(Line(_step(low, up, -CLEAR), _step(high, up, CLEAR), Layer.MARK))
    return strokes


def _top_of(figure: Figure, zone: Zone) -> Point:
    """The place on a hot stretch that its words point at: the middle of its upper side."""
    places = [zone[0] + (zone[1] - zone[0]) * share for share in (0.5, 0.4, 0.6, 0.3, 0.7)]
    if figure.is_straight(zone):
        box = drawing(_bracket(figure, zone, 1)).bounds
        return (box.centre[0], box.top)
    return max((figure.edges(at)[1] for at in places), key=lambda point: point[1])


Callout = tuple[Point, tuple[str, ...]]
"""A place on the iron, and the lines of words that are told of it."""


def _told(callouts: Sequence[Callout], top: float, room: Zone) -> list[Mark]:
    """Words above a figure, in the room from left to right [m], each with a line down to what they are told of."""
    ordered = sorted((one for one in callouts if one[1]), key=lambda one: one[0][0])
    spans = [_reach(point, lines, room) for point, lines in ordered]
    tall = max((len(lines) for _, lines in ordered), default=1)
    marks: list[Mark] = []
    for (point, lines), span, level in zip(ordered, spans, levels(spans), strict=True):
        foot = top + 0.0014 + level * tall * LINE
        marks.append(Line(point, (min(max(point[0], span[0] + PULL), span[1] - PULL), foot - 0.0004), Layer.DIMENSION))
        marks += _lines(point, lines, foot + 0.0006, room)
    return marks


def _lines(point: Point, lines: Sequence[str], foot: float, room: Zone) -> Iterator[Text]:
    """Lines of words over a place; the uppermost, which is bold, keeps clear of the figure's title."""
    for i, (says, (start, end)) in enumerate(zip(lines, _spans(point, lines, room), strict=True)):
        weight = Weight.REGULAR if i else Weight.BOLD
        at = ((start + end) / 2, foot + (len(lines) - 1 - i) * LINE)
        yield Text(at, says, LETTER, Anchor.MIDDLE, weight=weight)


def _spans(point: Point, lines: Sequence[str], room: Zone) -> list[Zone]:
    """From where to where each line reaches, the uppermost clear of the title [m]."""
    beside = (room[0] + TITLE, room[1])
    return [_span(point, says, room if i else beside) for i, says in enumerate(lines)]


def _reach(point: Point, lines: Sequence[str], room: Zone) -> Zone:
    spans = _spans(point, lines, room)
    return min(low for low, _ in spans), max(high for _, high in spans)


def _span(point: Point, says: str, room: Zone) -> Zone:
    """From where to where words reach, over their place as nearly as the room allows [m]."""
    wide = text_width(says, LETTER)
    start = max(room[0], min(point[0] - wide / 2, room[1] - wide))
    return start, start + wide


def _room(iron: Box, wide: float) -> Zone:
    """From where to where a figure's words may go: its left edge is the left edge of the picture [m]."""
    return iron.left, iron.left + wide


def _beside(figure: Figure, at: float, hot: Zone) -> float:
    """Where jaws are drawn that hold the bar there: out of what is hot, as long as there is iron for them."""
    stage, half = figure.stage, (JAW / 2 + CLEAR / 2) / figure.scale
    now, low, high = (stage.at(place) for place in (at, *hot))
    before, behind = low - half, high + half
    if hot[1] - hot[0] <= _END or now <= before or now >= behind:
        return at
    free = [place for place in (before, behind) if half <= place <= stage.now[-1] - half]
    return stage.back(min(free, key=lambda place: abs(place - now))) if free else at


def _jaws(figure: Figure, at: float) -> list[Mark]:
    """Two jaws on the iron."""
    (low, high), ahead = figure.edges(at), figure.heading(at)
    span = math.dist(low, high) or 1.0
    up = ((high[0] - low[0]) / span, (high[1] - low[1]) / span)
    jaws: list[Mark] = []
    for edge, out in ((low, -1.0), (high, 1.0)):
        inner = [_step(edge, ahead, end * JAW / 2) for end in (-1, 1)]
        inner = [_step(point, up, out * 0.0003) for point in inner]
        outer = [_step(point, up, out * 0.0011) for point in inner]
        jaws.append(Filled((*inner, *reversed(outer)), Tone.BLACK, layer=Layer.MARK))
    return jaws


def _hold_word(figure: Figure, jaws: Sequence[Mark], room: Zone) -> list[Mark]:
    """The word for where it is held under all iron, with a line to the jaws where they are far above it."""
    box = drawing(jaws).bounds
    foot = min(box.bottom, figure.lowest())
    start, end = _span(box.centre, HELD, room)
    word = Text(((start + end) / 2, foot - 0.0012 - LETTER), HELD, LETTER, Anchor.MIDDLE)
    leader = [Line((box.centre[0], box.bottom), (box.centre[0], foot - 0.0008), Layer.DIMENSION)]
    return [*(leader if box.bottom - foot > LETTER else []), word]


def _after(task: Task, figure: Figure, wide: float, style: Style) -> Drawing:
    """The bar as it should be after the heat, with the sizes to stop at."""
    marks = _bare(figure)
    iron = drawing(marks).bounds
    callouts = [*_sections(task, figure, style), *_holes(task, figure, style), *_twists(task, figure, style)]
    marks += _numbers(task, figure, marks)
    room = _room(iron, wide)
    marks += _told(callouts, drawing(marks).bounds.top, room)
    for zone in _forged(task):
        if figure.is_straight(zone):
            marks += _long(figure, zone, style, room)
    return drawing(marks)


def _forged(task: Task) -> list[Zone]:
    """The stretches forged in this heat, neighbours taken together."""
    zones: list[Zone] = []
    for run in (task.result.runs[i] for i in task.runs):
        if zones and run.start - zones[-1][1] < _END:
            zones[-1] = (zones[-1][0], run.end)
        else:
            zones.append((run.start, run.end))
    return zones


def _long(figure: Figure, zone: Zone, style: Style, room: Zone) -> list[Mark]:
    """The length of a forged stretch under it."""
    bracket = _bracket(figure, zone, -1)
    box, says = drawing(bracket).bounds, say_both(zone[1] - zone[0], style)
    start, end = _span(box.centre, says, room)
    return [*bracket, Text(((start + end) / 2, box.bottom - 0.0009 - LETTER), says, LETTER, Anchor.MIDDLE)]


def _sections(task: Task, figure: Figure, style: Style) -> Iterator[Callout]:
    """The sections that the stretches forged in this heat stop at, each told once."""
    said: set[tuple[str, ...]] = set()
    for at, says in (told for i in task.runs for told in _stop_sizes(task.result, i, style)):
        if says not in said:
            said.add(says)
            yield figure.edges(at)[1], says


def _stop_sizes(result: BarResult, i: int, style: Style) -> Iterator[tuple[float, tuple[str, ...]]]:
    """Where on the finished bar a stretch's sizes are told, and the sizes; those that its neighbours tell left out."""
    runs, run = result.runs, result.runs[i]
    if run.outline is not None:
        wide, thick = say_both(run.outline.width, style), say_both(run.outline.thick, style)
        yield (run.start + run.end) / 2, (f"{run.outline.shape} {wide} wide", f"{thick} thick")
    elif same_section(run.a, run.b):
        yield (run.start + run.end) / 2, (section_words(run.a, style),)
    else:
        before = runs[i - 1].b if i > 0 else None
        after = runs[i + 1].a if i + 1 < len(runs) else None
        for at, section, beside in ((run.start, run.a, before), (run.end, run.b, after)):
            as_it_was = same_section(section, result.stock_section)
            if beside is None or not (as_it_was or same_section(section, beside)):
                yield at, (section_words(section, style),)


def section_words(section: Section, style: Style) -> str:
    """`1/2 in sq (12.5 mm)`; a point and a chisel edge by name."""
    if section.shape is Shape.POINT or max(section.width, section.thick) < 1e-7:
        return "to a point"
    if section.shape is Shape.FLAT and section.thick < 1e-7:
        return f"chisel edge {say_both(section.width, style)}"
    words = words_of(section)
    return say_section_both(words.shape, words.sizes, style)


def _holes(task: Task, figure: Figure, style: Style) -> Iterator[Callout]:
    said: set[str] = set()
    for i in sorted(task.after.holes - task.before.holes):
        check = task.result.holes[i]
        says = f"hole {say_both(check.hole.size, style)}"
        if says not in said:
            said.add(says)
            yield figure.middle(check.at), (says,)


def _twists(task: Task, figure: Figure, style: Style) -> Iterator[Callout]:
    for i in sorted(task.after.twists - task.before.twists):
        check = task.result.twists[i]
        says = (say_turns(abs(check.twist.turns), style), f"over {say_both(check.end - check.start, style)}")
        yield figure.edges((check.start + check.end) / 2)[1], says


def _numbers(task: Task, figure: Figure, there: Sequence[Mark]) -> list[Mark]:
    """The number of each bend made in this heat, beside it and clear of the iron."""
    import shapely

    new = sorted(task.after.bends - task.before.bends)
    loops = [shapely.Polygon(m.points).buffer(0) for m in there if isinstance(m, Polyline) and m.closed and new]
    iron = shapely.union_all(loops)
    marks: list[Mark] = []
    for i in new:
        bend = task.result.bends[i]
        (low, high), middle = figure.edges((bend.start + bend.end) / 2), figure.middle((bend.start + bend.end) / 2)
        tried = [_off(middle, edge, RING * reach) for reach in (1.4, 2.0) for edge in (low, high)]
        best = max(tried, key=lambda at: min(shapely.distance(iron, shapely.Point(at)), RING * 1.3))
        marks += numbered(best, f"B{i + 1}", RING)
    return marks


def _off(middle: Point, edge: Point, by: float) -> Point:
    """A point beyond an edge of the iron, straight out from its middle."""
    size = math.dist(middle, edge)
    out = ((edge[0] - middle[0]) / size, (edge[1] - middle[1]) / size) if size > 0 else (0.0, 1.0)
    return _step(edge, out, by)
