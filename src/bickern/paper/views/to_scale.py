"""A piece at one scale over all its length: what is drawn twice as long is twice as long, and nothing gives way.

The scale is the largest whole one that goes into the room there is, or the one asked for; lettering keeps its size.
"""

from dataclasses import dataclass

from bickern.geometry.blank import min_blank
from bickern.iron.section import Section
from bickern.measure.units.words import Style
from bickern.paper.marks import Box, Drawing, Polyline, bounds, drawing, rectangle, scaled
from bickern.paper.views.bar import drawn_on
from bickern.paper.views.looking import View
from bickern.paper.views.outline import Bent, bent, levelled, parts_seen, sides, sized_view
from bickern.paper.views.profile import as_drawn, necked
from bickern.paper.views.ring import ring_view
from bickern.paper.views.ruler import Ruler
from bickern.paper.views.scale import fitting
from bickern.paper.views.sheet import pattern_view
from bickern.paper.views.standing import sheet_side
from bickern.paper.views.strip import dimensions_below, ends_of, named_marks, stock_on
from bickern.parts.bar.result import BarResult
from bickern.parts.ring.spec import RingResult
from bickern.parts.sheet.result import Pattern, SheetResult

SIZES = 0.022
"""Room that the sizes beside a drawing take [m]."""
PAST = 0.014
"""Room that the words at the ends of a straight bar take beyond it [m]."""
ROUGH = 1 / 16
"""Scale at which the line of a bar is laid out to find how large it is; nothing of that is shown."""

DOTS = 0.4
"""A screen shows no finer curve than paper at this scale."""


@dataclass(frozen=True, slots=True)
class Room:
    """What there is to draw in [m], and the scale asked for (None: the largest whole one that goes in)."""

    wide: float
    high: float
    scale: float | None = None

    def scale_for(self, wide: float, high: float, beside: tuple[float, float]) -> float:
        """The scale for a thing of that size [m] with so much room kept beside it (across, up) [m]."""
        room = (max(self.wide - beside[0], LEAST), max(self.high - beside[1], LEAST))
        return fitting(wide, high, room) if self.scale is None else self.scale


LEAST = 0.02
"""However small the room, a drawing gets that much [m]."""


@dataclass(frozen=True, slots=True)
class ToScale:
    """A drawing and its scale (1.0: full size)."""

    drawing: Drawing
    scale: float


def stock_to_scale(bar: BarResult, room: Room, style: Style) -> ToScale:
    """The straight bar as it is cut, with its marks and running sizes."""
    scale = room.scale_for(bar.cut_this, 0.0, (PAST, 0.0))
    return ToScale(stock_on(bar, _even(bar.cut_this, scale), bar.stock_section.width * scale, style), scale)


def drawn_to_scale(bar: BarResult, room: Room, style: Style) -> ToScale:
    """The bar drawn out and still straight, with its sections, marks and running sizes."""
    long = necked(as_drawn(bar)).length
    marks = named_marks(bar.marks_on_drawn, len(bar.marks_on_stock) + 1)
    scale = room.scale_for(long, 0.0, (PAST, 0.0))
    return ToScale(drawn_on(bar, marks, _even(long, scale), scale, style), scale)


def plain_to_scale(section: Section, cut: float, room: Room, style: Style) -> ToScale:
    """A straight bar of that section, `cut` [m] long, without marks."""
    scale = room.scale_for(cut, 0.0, (PAST, 0.0))
    box = Box(0.0, 0.0, cut * scale, section.width * scale)
    marks = [rectangle(box), *ends_of(box, "cut"), *dimensions_below([(box.right, cut)], style, cut=True)]
    return ToScale(drawing(marks), scale)


def _even(length: float, scale: float) -> Ruler:
    """Places laid out evenly."""
    return Ruler((0.0, length), (0.0, length * scale))


@dataclass(frozen=True, slots=True)
class LaidOut:
    """A bent bar laid out roughly, at little cost: from which sides it is looked at; each has a drawing of its own."""

    line: Bent
    sides: tuple[View, ...]

    def scale(self, room: Room) -> float:
        """The scale at which each of its drawings goes in."""
        if room.scale is not None:
            return room.scale
        boxes = [_extent(self.line, levelled(self.line, view)) for view in self.sides]
        wide, high = max(box.width for box in boxes), max(box.height for box in boxes)
        return room.scale_for(wide, high, (SIZES, SIZES))


def laid_out(bar: BarResult) -> LaidOut:
    """The finished, bent bar before it is drawn."""
    line = bent(bar, scale=ROUGH)
    return LaidOut(line, sides(line))


def _extent(line: Bent, view: View) -> Box:
    """The box round the bar as seen, near enough to choose a scale by [m]."""
    parts = [Polyline(points) for points in parts_seen(line, view, line.row)]
    return bounds(parts)


def bent_to_scale(bar: BarResult, scale: float, style: Style, side: int = 0) -> ToScale:
    """The finished, bent bar with its overall sizes, from one of its sides."""
    line = bent(bar, scale=scale * DOTS)
    seen = sides(line)
    return ToScale(sized_view(line, seen[min(side, len(seen) - 1)], scale, style, True), scale)


def ring_to_scale(ring: RingResult, room: Room, style: Style) -> ToScale:
    """The closed ring or link with its inside sizes."""
    scale = room.scale_for(ring.outside_long, ring.outside_across, (SIZES, SIZES))
    return ToScale(ring_view(ring, scale, style), scale)


def pattern_to_scale(pattern: Pattern, room: Room, style: Style) -> ToScale:
    """A pattern in its smallest blank, with the sizes of that."""
    blank = min_blank(pattern.outline)
    scale = room.scale_for(blank.width, blank.height, (SIZES, SIZES))
    return ToScale(pattern_view(pattern, scale, style), scale)


def sheet_to_scale(sheet: SheetResult, room: Room) -> ToScale:
    """A sheet piece rolled or folded, from the side."""
    side = sheet_side(sheet)
    scale = room.scale_for(side.bounds.width, side.bounds.height, (0.004, 0.004))
    return ToScale(scaled(side, scale), scale)
