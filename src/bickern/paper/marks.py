"""Marks on paper: what a drawing is made of, whatever pen puts it down.

Places and lengths are metres, y up. Sizes of lettering, ticks and dimension offsets are sizes on the paper [m].
Nothing is told by colour: a layer is told by its line's width and dash, a tick by its shape.
"""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from enum import Enum, StrEnum

from bickern.geometry import polygon
from bickern.measure.source import Kind, Source

Point = tuple[float, float]

CAP_HEIGHT = 0.66
"""Height of a capital over the size of the type [-]: Source Sans Pro, its own OS/2 table (measured)."""
_NARROW = frozenset(" .,:;'|!()[]ijl/\u2032\u2033")


class Layer(StrEnum):
    """What a mark means to the hand that follows it."""

    CUT = "cut"
    BEND = "bend"
    MARK = "mark"
    OUTLINE = "outline"
    HIDDEN = "hidden"
    CENTRE = "centre"
    DIMENSION = "dimension"
    TEXT = "text"
    HATCH = "hatch"
    CHECK = "check"
    SEEN = "seen"  # edges of a whole set, drawn so small that a wide line would close up


@dataclass(frozen=True, slots=True)
class Stroke:
    """How a layer's lines are drawn: `width` on paper, `dash` as lengths drawn and skipped [m] (empty: unbroken)."""

    width: float
    dash: tuple[float, ...] = ()


STROKE_SOURCE = Source(
    "ISO",
    "ISO 128 line types: wide to narrow 2 to 1, dashed for hidden, long-dash dot for centre lines",
    2020,
    "part 2",
    Kind.MEMORY,
)
"""Widths and dashes below follow the general rule of technical drawing; the lengths of the dashes are ours."""

STROKES: dict[Layer, Stroke] = {
    Layer.CUT: Stroke(0.0006),
    Layer.BEND: Stroke(0.00035, (0.008, 0.002, 0.002, 0.002)),
    Layer.MARK: Stroke(0.00045),
    Layer.OUTLINE: Stroke(0.0005),
    Layer.HIDDEN: Stroke(0.00025, (0.003, 0.0015)),
    Layer.CENTRE: Stroke(0.00018, (0.010, 0.002, 0.001, 0.002)),
    Layer.DIMENSION: Stroke(0.00018),
    Layer.TEXT: Stroke(0.00018),
    Layer.HATCH: Stroke(0.00018),
    Layer.CHECK: Stroke(0.00025),
    Layer.SEEN: Stroke(0.0003),
}
"""Line width and dash of each layer, on paper."""


class Anchor(StrEnum):
    """Which part of a line of lettering stands at its place: sideways start, middle or end."""

    START = "start"
    MIDDLE = "middle"
    END = "end"


class Weight(StrEnum):
    """How heavy the letters are."""

    REGULAR = "regular"
    BOLD = "bold"


class Tone(StrEnum):
    """How an area is filled: solid, blanked out, or ruled with slanting lines."""

    BLACK = "black"
    WHITE = "white"
    HATCHED = "hatched"


class TickKind(Enum):
    """What was put on the iron, each with its own shape on paper."""

    CHALK = "chalk"  # a plain stroke across
    PUNCH = "punch"  # a dot in a ring
    CHISEL = "chisel"  # a stroke with a V at its upper end: cut here
    DATUM = "datum"  # a filled triangle on a stroke: measure from here


@dataclass(frozen=True, slots=True)
class Line:
    """A straight from `start` to `end` [m]."""

    start: Point
    end: Point
    layer: Layer = Layer.OUTLINE


@dataclass(frozen=True, slots=True)
class Arc:
    """A true arc about `centre`, `radius` [m], from angle `start` over `sweep` [rad] (positive counter-clockwise)."""

    centre: Point
    radius: float
    start: float
    sweep: float
    layer: Layer = Layer.OUTLINE


@dataclass(frozen=True, slots=True)
class Polyline:
    """Straights through `points` [m]; `closed` joins the last to the first."""

    points: tuple[Point, ...]
    closed: bool = False
    layer: Layer = Layer.OUTLINE


@dataclass(frozen=True, slots=True)
class Filled:
    """The area inside `points` [m], without a line round it; hatching is `spacing` [m] apart on paper."""

    points: tuple[Point, ...]
    tone: Tone = Tone.BLACK
    spacing: float = 0.002
    layer: Layer = Layer.HATCH


@dataclass(frozen=True, slots=True)
class Text:
    """One line of lettering: capitals `height` [m] tall, its baseline through `at`, turned by `angle` [rad]."""

    at: Point
    says: str
    height: float = 0.003
    anchor: Anchor = Anchor.START
    angle: float = 0.0
    weight: Weight = Weight.REGULAR
    layer: Layer = Layer.TEXT


@dataclass(frozen=True, slots=True)
class Dimension:
    """A length told between two points: the line stands `offset` [m] to the left of start-to-end (negative: right).

    `says` is the length already worded, in both systems; the mark never works a number out for itself.
    """

    start: Point
    end: Point
    offset: float
    says: str
    height: float = 0.003
    layer: Layer = Layer.DIMENSION


@dataclass(frozen=True, slots=True)
class Tick:
    """A mark for the iron at `at`, of `size` [m] on paper; `angle` [rad] is the direction of the stroke."""

    at: Point
    kind: TickKind = TickKind.CHALK
    size: float = 0.006
    angle: float = math.pi / 2
    layer: Layer = Layer.MARK


Plain = Line | Arc | Polyline | Filled | Text
"""Marks that every pen can put down as they are; a dimension and a tick are made of these."""
Mark = Plain | Dimension | Tick


@dataclass(frozen=True, slots=True)
class Box:
    """An upright rectangle from its lower left to its upper right corner [m]."""

    left: float
    bottom: float
    right: float
    top: float

    @property
    def width(self) -> float:
        """Sideways size [m]."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """Upright size [m]."""
        return self.top - self.bottom

    @property
    def centre(self) -> Point:
        """The middle [m]."""
        return ((self.left + self.right) / 2, (self.bottom + self.top) / 2)

    def grown(self, by: float) -> "Box":
        """The box with `by` [m] more on each side."""
        return Box(self.left - by, self.bottom - by, self.right + by, self.top + by)

    def meets(self, other: "Box") -> bool:
        """Whether the two share at least a point."""
        across = self.left <= other.right and other.left <= self.right
        return across and self.bottom <= other.top and other.bottom <= self.top


EMPTY = Box(0.0, 0.0, 0.0, 0.0)


@dataclass(frozen=True, slots=True)
class Drawing:
    """Marks, and the box they lie in [m]."""

    marks: tuple[Mark, ...]
    bounds: Box


def drawing(marks: Iterable[Mark], margin: float = 0.0) -> Drawing:
    """A drawing of these marks, its bounds found and grown by `margin` [m]."""
    kept = tuple(marks)
    return Drawing(kept, bounds(kept).grown(margin) if kept else EMPTY)


def merge(*drawings: Drawing) -> Drawing:
    """All marks of several drawings in one; the bounds enclose theirs."""
    full = [each for each in drawings if each.marks]
    if not full:
        return Drawing((), EMPTY)
    marks = tuple(mark for each in full for mark in each.marks)
    return Drawing(marks, around([each.bounds for each in full]))


def outline(loop: polygon.Loop, layer: Layer = Layer.CUT) -> tuple[Line | Arc, ...]:
    """A loop's exact lines and arcs as marks on `layer`."""
    return tuple(_seg_mark(seg, layer) for seg in loop.segs)


def _seg_mark(seg: polygon.Seg, layer: Layer) -> Line | Arc:
    if isinstance(seg, polygon.Line):
        return Line(seg.start, seg.end, layer)
    return Arc(seg.centre, seg.radius, seg.start_angle, seg.sweep, layer)


def circle(centre: Point, radius: float, layer: Layer = Layer.OUTLINE) -> Arc:
    """A whole circle [m]."""
    return Arc(centre, radius, 0.0, 2 * math.pi, layer)


def rectangle(box: Box, layer: Layer = Layer.OUTLINE) -> Polyline:
    """The four sides of a box."""
    return Polyline(corners(box), closed=True, layer=layer)


def corners(box: Box) -> tuple[Point, Point, Point, Point]:
    """A box's corners, counter-clockwise from the lower left [m]."""
    return ((box.left, box.bottom), (box.right, box.bottom), (box.right, box.top), (box.left, box.top))


def polar(centre: Point, radius: float, angle: float) -> Point:
    """The point `radius` [m] from `centre` in the direction `angle` [rad]."""
    return (centre[0] + radius * math.cos(angle), centre[1] + radius * math.sin(angle))


def text_width(says: str, height: float) -> float:
    """Room to keep for a line of lettering with capitals `height` [m] tall [m]; a safe estimate, not a measurement."""
    return height * sum(_letter_width(letter) for letter in says)


def _letter_width(letter: str) -> float:
    """Share of a capital's height kept for one letter, a little over the bold letters of the packed typeface [-]."""
    if letter in _NARROW:
        return 0.53
    if letter in "MWmw@%&¼½¾" or ord(letter) > 0x2FF:
        return 1.45
    return 1.04 if letter.isupper() else 0.87


def moved(picture: Drawing, right: float, up: float) -> Drawing:
    """The drawing shifted by so many metres."""
    likeness, box = _Likeness(1.0, 0.0, right, up), picture.bounds
    marks = tuple(_map(mark, likeness) for mark in picture.marks)
    return Drawing(marks, Box(box.left + right, box.bottom + up, box.right + right, box.top + up))


def turned(picture: Drawing, angle: float) -> Drawing:
    """The drawing turned about the origin by `angle` [rad], counter-clockwise; lettering turns with it."""
    return _mapped(picture, _Likeness(1.0, angle, 0.0, 0.0))


def scaled(picture: Drawing, factor: float) -> Drawing:
    """The drawing made `factor` times as large about the origin; lettering, ticks, offsets keep their size on paper."""
    if factor <= 0:
        raise ValueError(f"a drawing is scaled by more than nothing, not by {factor}")
    return _mapped(picture, _Likeness(factor, 0.0, 0.0, 0.0))


@dataclass(frozen=True, slots=True)
class _Likeness:
    """Scale, then turn, then shift."""

    factor: float
    angle: float
    right: float
    up: float

    def put(self, point: Point) -> Point:
        if self.angle == 0.0:
            return (point[0] * self.factor + self.right, point[1] * self.factor + self.up)
        c, s = _cos_sin(self.angle)
        x, y = point[0] * self.factor, point[1] * self.factor
        return (c * x - s * y + self.right, s * x + c * y + self.up)


def _cos_sin(angle: float) -> Point:
    """Cosine and sine, exact for quarter turns."""
    quarters = angle / (math.pi / 2)
    if abs(quarters - round(quarters)) < 1e-12:
        return ((1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0))[round(quarters) % 4]
    return (math.cos(angle), math.sin(angle))


def _mapped(picture: Drawing, likeness: _Likeness) -> Drawing:
    marks = tuple(_map(mark, likeness) for mark in picture.marks)
    margin = _margin(picture)
    return Drawing(marks, bounds(marks).grown(margin * likeness.factor) if marks else EMPTY)


def _margin(picture: Drawing) -> float:
    """The even margin a drawing was given beyond its marks [m]."""
    if not picture.marks:
        return 0.0
    tight = bounds(picture.marks)
    return max(0.0, tight.left - picture.bounds.left)


def _map(mark: Mark, likeness: _Likeness) -> Mark:
    put = likeness.put
    match mark:
        case Line() | Dimension():
            return replace(mark, start=put(mark.start), end=put(mark.end))
        case Polyline() | Filled():
            return replace(mark, points=tuple(put(point) for point in mark.points))
        case Arc():
            radius = mark.radius * likeness.factor
            return replace(mark, centre=put(mark.centre), radius=radius, start=mark.start + likeness.angle)
        case Text() | Tick():
            return replace(mark, at=put(mark.at), angle=mark.angle + likeness.angle)


def bounds(marks: Sequence[Mark]) -> Box:
    """The smallest upright box round the marks [m]; lettering counts with the room kept for it."""
    return around([_bounds(mark) for mark in marks]) if marks else EMPTY


def around(boxes: Sequence[Box]) -> Box:
    """The smallest upright box round several [m]."""
    return Box(
        min(box.left for box in boxes),
        min(box.bottom for box in boxes),
        max(box.right for box in boxes),
        max(box.top for box in boxes),
    )


def _round(points: Sequence[Point]) -> Box:
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return Box(min(xs), min(ys), max(xs), max(ys))


def _bounds(mark: Mark) -> Box:
    match mark:
        case Line():
            return _round((mark.start, mark.end))
        case Polyline() | Filled():
            return _round(mark.points)
        case Arc():
            return _arc_bounds(mark)
        case Text():
            return _round(text_corners(mark))
        case Dimension():
            return _dimension_bounds(mark)
        case Tick():
            return _tick_bounds(mark)


def _tick_bounds(mark: Tick) -> Box:
    if mark.kind is TickKind.CHALK:
        return _round([polar(mark.at, reach, mark.angle) for reach in (-mark.size / 2, mark.size / 2)])
    return _round((mark.at,)).grown(mark.size)


def _arc_bounds(arc: Arc) -> Box:
    angles = [arc.start, arc.start + arc.sweep]
    low, high = min(angles), max(angles)
    first = math.ceil(low / (math.pi / 2))
    quarters = range(first, math.floor(high / (math.pi / 2)) + 1)
    ends = [polar(arc.centre, arc.radius, angle) for angle in angles]
    for quarter in list(quarters)[:4]:
        c, s = _cos_sin(quarter * math.pi / 2)
        ends.append((arc.centre[0] + arc.radius * c, arc.centre[1] + arc.radius * s))
    return _round(ends)


def text_corners(text: Text) -> tuple[Point, ...]:
    """The four corners of the room kept for a line of lettering, tails of letters included [m]."""
    width = text_width(text.says, text.height)
    left = {Anchor.START: 0.0, Anchor.MIDDLE: -width / 2, Anchor.END: -width}[text.anchor]
    put = _Likeness(1.0, text.angle, *text.at).put
    upright = corners(Box(left, -0.3 * text.height, left + width, 1.1 * text.height))
    return tuple(put(corner) for corner in upright)


def _dimension_bounds(mark: Dimension) -> Box:
    (x0, y0), (x1, y1) = mark.start, mark.end
    length = math.hypot(x1 - x0, y1 - y0) or 1.0
    reach = mark.offset + math.copysign(2.5 * mark.height, mark.offset)
    nx, ny = -(y1 - y0) / length * reach, (x1 - x0) / length * reach
    half = max(length, text_width(mark.says, mark.height)) / 2
    ux, uy = (x1 - x0) / length * half, (y1 - y0) / length * half
    mx, my = (x0 + x1) / 2 + nx, (y0 + y1) / 2 + ny
    return _round(
        (mark.start, mark.end, (x0 + nx, y0 + ny), (x1 + nx, y1 + ny), (mx - ux, my - uy), (mx + ux, my + uy))
    )
