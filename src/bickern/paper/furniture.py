"""What stands round a drawing on a full-size page: check rule, page label, map of the pages, match marks, frame."""

from dataclasses import dataclass, replace

from bickern.measure.units.words import INCH
from bickern.paper.marks import (
    Anchor,
    Arc,
    Box,
    Drawing,
    Filled,
    Layer,
    Line,
    Mark,
    Point,
    Polyline,
    Text,
    Tone,
    Weight,
    corners,
    moved,
    rectangle,
    scaled,
    text_width,
)

FOOT = 0.024
"""Height kept at the foot of a page for rule, label and map [m]."""
SMALL = 0.0021
"""Capitals of the small print [m]."""
MAP = (0.032, 0.020)
"""Largest width and height of the map of the pages [m]."""
RULE_MM = 0.100
RULE_INCH = 4 * INCH
MEASURE_THIS = "Measure this before you cut."
"""Said beside the check rule on every full-size page."""


@dataclass(frozen=True, slots=True)
class Imprint:
    """What the foot of one page says; `here` is the place of this page in `windows`, and `shape` what they show."""

    label: str
    number: int
    count: int
    title: str
    joining: str
    windows: tuple[Box, ...]
    here: int
    shape: Drawing


def foot(imprint: Imprint, printable: Box) -> tuple[Mark, ...]:
    """Everything at the foot of a page whose printable part is given."""
    corner = (printable.left, printable.bottom)
    right = printable.right - (MAP[0] + 0.003 if len(imprint.windows) > 1 else 0.0)
    room = Box(printable.left + 0.107, printable.bottom, right, printable.bottom + FOOT)
    place = Box(printable.right - MAP[0], printable.bottom, printable.right, printable.bottom + MAP[1])
    return (*check_rule(corner), *_label(imprint, room), *page_map(imprint, place))


def check_rule(corner: Point) -> tuple[Mark, ...]:
    """A rule of 4 in along its upper edge and 100 mm along its lower, from zero at the left."""
    x, y = corner[0], corner[1] + 0.0075
    line = Line((x, y), (x + RULE_INCH, y), Layer.CHECK)
    words = f"{MEASURE_THIS} Print at 100 %: 4 in above, 100 mm below."
    said = Text((x, y + 0.0085), words, SMALL, weight=Weight.BOLD, layer=Layer.CHECK)
    return (line, said, *_inches(x, y), *_millimetres(x, y))


def _inches(x: float, y: float) -> list[Mark]:
    marks: list[Mark] = []
    for quarter in range(17):
        at, whole = x + quarter * INCH / 4, quarter % 4 == 0
        marks.append(Line((at, y), (at, y + (0.004 if whole else 0.002)), Layer.CHECK))
        if whole:
            marks.append(_figure((at, y + 0.0048), f"{quarter // 4}" + (" in" if quarter == 16 else ""), x))
    return marks


def _millimetres(x: float, y: float) -> list[Mark]:
    marks: list[Mark] = []
    for five in range(21):
        at, whole = x + five * RULE_MM / 20, five % 2 == 0
        marks.append(Line((at, y), (at, y - (0.004 if whole else 0.002)), Layer.CHECK))
        if whole:
            marks.append(_figure((at, y - 0.0068), f"{five * 5}" + (" mm" if five == 20 else ""), x))
    return marks


def _figure(at: Point, says: str, start: float) -> Text:
    """A figure on the rule; the first stands right of its tick, so that none stands left of the rule."""
    return Text(at, says, SMALL, Anchor.START if at[0] == start else Anchor.MIDDLE, layer=Layer.CHECK)


def _label(imprint: Imprint, room: Box) -> tuple[Mark, ...]:
    """The page's name, large, how pages are joined, whole, and what it belongs to as far as there is room."""
    pages = f"page {imprint.number} of {imprint.count}"
    joining = wrapped(imprint.joining, SMALL, room.width)
    lines = [*_title_lines(imprint.title, max(1, LINES - len(joining)), room.width), *joining]
    big = Text((room.left, room.bottom + 0.0115), imprint.label, 0.0075, weight=Weight.BOLD, layer=Layer.CHECK)
    beside = room.left + text_width(imprint.label, 0.0075) + 0.003
    small = Text((beside, room.bottom + 0.0115), shortened(pages, SMALL, room.right - beside), SMALL, layer=Layer.CHECK)
    under = [
        Text((room.left, room.bottom + 0.0075 - 0.0033 * i), line, SMALL, layer=Layer.CHECK)
        for i, line in enumerate(lines)
        if line
    ]
    return (big, small, *under)


LINES = 3
"""Lines of small print that stand under a page's name."""


def _title_lines(title: str, most: int, room: float) -> list[str]:
    lines = wrapped(title, SMALL, room)
    return lines if len(lines) <= most else [*lines[: most - 1], shortened(" ".join(lines[most - 1 :]), SMALL, room)]


def wrapped(says: str, height: float, room: float) -> list[str]:
    """The wording in lines that go into `room` [m], broken between words."""
    lines: list[str] = []
    for word in says.split():
        if lines and text_width(f"{lines[-1]} {word}", height) <= room:
            lines[-1] = f"{lines[-1]} {word}"
        else:
            lines.append(word)
    return lines


def shortened(says: str, height: float, room: float) -> str:
    """The wording, or as much of it as fits in `room` [m] with a sign that some is missing."""
    if text_width(says, height) <= room:
        return says
    kept = says
    while kept and text_width(kept + "…", height) > room:
        kept = kept[:-1]
    return kept.rstrip() + "…" if kept else ""


def page_map(imprint: Imprint, place: Box) -> tuple[Mark, ...]:
    """A small picture of all pages with the shape across them; this page is hatched and has a heavy border."""
    if len(imprint.windows) < 2:
        return ()
    full = Box(
        min(w.left for w in imprint.windows),
        min(w.bottom for w in imprint.windows),
        max(w.right for w in imprint.windows),
        max(w.top for w in imprint.windows),
    )
    factor = min(place.width / full.width, place.height / full.height)
    right, up = place.right - full.right * factor, place.bottom - full.bottom * factor
    boxes = [_shrunk(window, factor, right, up) for window in imprint.windows]
    here = boxes[imprint.here]
    shape = moved(scaled(imprint.shape, factor), right, up)
    pages = [rectangle(box, Layer.DIMENSION) for box in boxes]
    return (
        Filled(corners(here), Tone.HATCHED, 0.001),
        *pages,
        *shape.marks,
        rectangle(here, Layer.CUT),
    )


def _shrunk(box: Box, factor: float, right: float, up: float) -> Box:
    return Box(box.left * factor + right, box.bottom * factor + up, box.right * factor + right, box.top * factor + up)


def shape_of(picture: Drawing) -> Drawing:
    """The bare lines of a drawing, thin, without lettering, for the map of the pages."""
    small = (Layer.HATCH, Layer.DIMENSION, Layer.MARK, Layer.TEXT)
    lines = [mark for mark in picture.marks if isinstance(mark, Line | Arc | Polyline) and mark.layer not in small]
    thin = [replace(mark, layer=Layer.TEXT) for mark in lines]
    return Drawing(tuple(thin), picture.bounds)


def frame(box: Box) -> tuple[Mark, ...]:
    """The edge of what a page shows: the line to trim to."""
    return (rectangle(box, Layer.DIMENSION),)


def diamond(at: Point, letter: str, size: float = 0.008) -> tuple[Mark, ...]:
    """A match mark: a diamond with a letter in it, a whisker at each corner to lay it by."""
    half, x, y = size / 2, at[0], at[1]
    tips = ((x + half, y), (x, y + half), (x - half, y), (x, y - half))
    height = 0.0022 if len(letter) == 1 else 0.0015
    named = Text((x, y - height / 2), letter, height, Anchor.MIDDLE, weight=Weight.BOLD, layer=Layer.CHECK)
    return (Polyline(tips, closed=True, layer=Layer.CHECK), named)


def cross(at: Point, size: float = 0.006) -> tuple[Mark, ...]:
    """A match mark where four pages meet."""
    half = size / 2
    return (
        Line((at[0] - half, at[1]), (at[0] + half, at[1]), Layer.CHECK),
        Line((at[0], at[1] - half), (at[0], at[1] + half), Layer.CHECK),
    )


def joint_tick(x: float, bottom: float, top: float, letter: str) -> tuple[Mark, ...]:
    """Where two strips are laid over one another: a line across with a letter above, the same on both."""
    named = Text((x + 0.0008, top - 0.0028), letter, 0.0022, weight=Weight.BOLD, layer=Layer.CHECK)
    return (Line((x, bottom), (x, top), Layer.CHECK), named)


def letters(number: int) -> str:
    """a, b, ... z, aa, ab, ... for 0, 1, ..."""
    name = ""
    number += 1
    while number > 0:
        number, last = divmod(number - 1, 26)
        name = chr(ord("a") + last) + name
    return name


def quarter_places(low: float, high: float) -> tuple[float, float]:
    """A quarter and three quarters of the way [m]."""
    return (low + (high - low) / 4, low + 3 * (high - low) / 4)
