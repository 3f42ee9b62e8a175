"""The SVG pen: real size in millimetres, one group a layer, no script, no style sheet, no font file."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from enum import StrEnum
from xml.sax.saxutils import escape

from bickern.measure.units.words import MILLIMETRE
from bickern.paper.glyphs import arc_pieces, plain
from bickern.paper.marks import (
    CAP_HEIGHT,
    STROKES,
    Arc,
    Box,
    Drawing,
    Filled,
    Layer,
    Line,
    Mark,
    Plain,
    Point,
    Polyline,
    Text,
    Tone,
    Weight,
    polar,
)

TYPEFACE = "Source Sans Pro"
"""The typeface that pages are set in; where a viewer lacks it, any plain one will do."""

ORDER = (
    Layer.HATCH,
    Layer.HIDDEN,
    Layer.CENTRE,
    Layer.SEEN,
    Layer.OUTLINE,
    Layer.BEND,
    Layer.CUT,
    Layer.MARK,
    Layer.DIMENSION,
    Layer.CHECK,
    Layer.TEXT,
)
"""Layers from the lowest to the uppermost; within one layer, marks lie in the order they were given."""

JOINED = 1e-9
"""A line that starts this near to where the last one ended goes on with it [m]."""


class Rounds(StrEnum):
    """How an arc is written: as a true arc, or as cubic curves (within 1e-6 of the radius)."""

    ARCS = "arcs"
    CURVES = "curves"


@dataclass(frozen=True, slots=True)
class Look:
    """What the pen leaves to whoever shows the picture: the colour of lines and of blanked areas, and the typeface.

    `named`: the attribute that a layer's group is known by, and what stands before the layer's name; `least`: no line
    is thinner [m]; `letters`: what is round the letters.
    """

    ink: str = "#000"
    field: str = "#fff"
    typeface: str = f"{TYPEFACE}, sans-serif"
    named: tuple[str, str] = ("id", "")
    least: float = 0.0
    letters: str = 'stroke="none"'


ON_PAPER = Look()
"""Black on white, a file of its own."""
_HALO = 'stroke="var(--field, #fff)" stroke-width="0.9" stroke-linejoin="round" paint-order="stroke"'
ON_SCREEN = Look("currentColor", "var(--field, #fff)", "inherit", ("class", "ink-"), 0.00026, _HALO)
"""Inside a page: in the page's own ink, field and letters; several may stand in one page.

No line is under a dot wide, and lines stop short of letters, which there is less room to keep clear of.
"""


def svg(picture: Drawing, title: str = "", rounds: Rounds = Rounds.ARCS, look: Look = ON_PAPER) -> str:
    """The drawing as an SVG document whose bounds are its page; one unit is one millimetre."""
    box = picture.bounds
    wide, high = _mm(box.width), _mm(box.height)
    head = f'<svg xmlns="http://www.w3.org/2000/svg" width="{wide}mm" height="{high}mm" viewBox="0 0 {wide} {high}">'
    named = [f"<title>{_words(title)}</title>"] if title else []
    marks = plain(picture.marks)
    groups = [_group(layer, [mark for mark in marks if mark.layer is layer], box, rounds, look) for layer in ORDER]
    return "\n".join([head, *named, *(group for group in groups if group), "</svg>"]) + "\n"


def _group(layer: Layer, marks: Sequence[Plain], box: Box, rounds: Rounds, look: Look) -> str:
    if not marks:
        return ""
    stroke = STROKES[layer]
    dash = f' stroke-dasharray="{" ".join(_mm(part) for part in stroke.dash)}"' if stroke.dash else ""
    width, (attribute, before) = max(stroke.width, look.least), look.named
    head = f'<g {attribute}="{before}{layer.value}" fill="none" stroke="{look.ink}" stroke-width="{_mm(width)}"{dash}'
    body = [_element(chain, box, rounds, look) for chain in chains(marks)]
    return "\n".join([head + ' stroke-linecap="butt" stroke-linejoin="round">', *body, "</g>"])


def chains(marks: Iterable[Mark]) -> list[tuple[Mark, ...]]:
    """Lines and arcs that go on from one another gathered into one chain each; all other marks stand alone."""
    runs: list[list[Mark]] = []
    for mark in marks:
        if runs and _goes_on(runs[-1][-1], mark):
            runs[-1].append(mark)
        else:
            runs.append([mark])
    return [tuple(run) for run in runs]


def _goes_on(before: Mark, mark: Mark) -> bool:
    if not (isinstance(before, Line | Arc) and isinstance(mark, Line | Arc)):
        return False
    return math.dist(ends(before)[1], ends(mark)[0]) < JOINED


def ends(mark: Line | Arc) -> tuple[Point, Point]:
    """Where a line or an arc starts and ends [m]."""
    if isinstance(mark, Line):
        return mark.start, mark.end
    first = polar(mark.centre, mark.radius, mark.start)
    return first, polar(mark.centre, mark.radius, mark.start + mark.sweep)


def _element(chain: Sequence[Mark], box: Box, rounds: Rounds, look: Look) -> str:
    first = chain[0]
    match first:
        case Text():
            return _text(first, box, look)
        case Filled():
            tone = look.ink if first.tone is Tone.BLACK else look.field
            return f'<path d="{_through(first.points, box)}Z" fill="{tone}" stroke="none"/>'
        case Polyline():
            return f'<path d="{_through(first.points, box)}{"Z" if first.closed else ""}"/>'
    segs = [mark for mark in chain if isinstance(mark, Line | Arc)]
    start, end = ends(segs[0])[0], ends(segs[-1])[1]
    steps = "".join(_seg(mark, box, rounds) for mark in segs)
    closed = "Z" if math.dist(start, end) < JOINED else ""
    return f'<path d="M{_at(start, box)}{steps}{closed}"/>'


def _through(points: Sequence[Point], box: Box) -> str:
    return "M" + "L".join(_at(point, box) for point in points)


def _seg(mark: Line | Arc, box: Box, rounds: Rounds) -> str:
    if isinstance(mark, Line):
        return f"L{_at(mark.end, box)}"
    draw = _true_arc if rounds is Rounds.ARCS else _curve
    return "".join(draw(piece, box) for piece in arc_pieces(mark))


def _true_arc(piece: Arc, box: Box) -> str:
    # The page's y runs down, so a counter-clockwise sweep is written with the flag 0.
    radius = _mm(piece.radius)
    return f"A{radius} {radius} 0 0 {0 if piece.sweep > 0 else 1} {_at(ends(piece)[1], box)}"


def _curve(piece: Arc, box: Box) -> str:
    reach = 4 / 3 * math.tan(piece.sweep / 4) * piece.radius
    first, last = ends(piece)
    a0, a1 = piece.start, piece.start + piece.sweep
    one = (first[0] - reach * math.sin(a0), first[1] + reach * math.cos(a0))
    two = (last[0] + reach * math.sin(a1), last[1] - reach * math.cos(a1))
    return f"C{_at(one, box)} {_at(two, box)} {_at(last, box)}"


def _text(text: Text, box: Box, look: Look) -> str:
    x, y = _at(text.at, box).split(" ")
    turn = f' transform="rotate({_number(-math.degrees(text.angle))} {x} {y})"' if text.angle else ""
    weight = ' font-weight="700"' if text.weight is Weight.BOLD else ""
    size = _mm(text.height / CAP_HEIGHT)
    letters = f'font-family="{look.typeface}" font-size="{size}"{weight} text-anchor="{text.anchor.value}"'
    return f'<text x="{x}" y="{y}" {letters}{turn} fill="{look.ink}" {look.letters}>{_words(text.says)}</text>'


def _words(says: str) -> str:
    """Any string, safe inside a document: markup is escaped, and signs that XML forbids become a space."""
    return escape("".join(sign if _allowed(sign) else " " for sign in says))


def _allowed(sign: str) -> bool:
    code = ord(sign)
    return 0x20 <= code <= 0xD7FF or 0xE000 <= code <= 0xFFFD or 0x10000 <= code <= 0x10FFFF


def _at(point: Point, box: Box) -> str:
    return f"{_mm(point[0] - box.left)} {_mm(box.top - point[1])}"


def _mm(metres: float) -> str:
    return _number(metres / MILLIMETRE)


def _number(value: float) -> str:
    """To a ten-thousandth, without trailing zeros and without a minus before nothing."""
    return f"{round(value, 4) + 0.0:.4f}".rstrip("0").rstrip(".")
