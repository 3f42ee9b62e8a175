"""A long narrow drawing at real size, cut into strips that fit the paper: a paper rule to lay on the bar."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from bickern.paper.clip import clip
from bickern.paper.furniture import Imprint, foot, frame, joint_tick, letters
from bickern.paper.glyphs import plain
from bickern.paper.marks import Anchor, Box, Drawing, Mark, Text, bounds, moved, turned
from bickern.paper.pens.page import Paper, Sheet, on_paper, sideways
from bickern.paper.tiling import OVERLAP, Tile, Tiling, drawing_area, lettering_inside, tile

GAP = 0.004
"""Room between strips on one page [m]."""
HEADROOM = 0.004
"""Room above each strip for its name and the letters of its joints [m]."""
YIELDING = 0.060
"""How much shorter than the page a strip may end so that its joint does not run through lettering [m]."""


@dataclass(frozen=True, slots=True)
class _Cutting:
    """How a long drawing is cut: each strip from `left` to `right` [m], `high` with its headroom, so many to a page."""

    paper: Paper
    spans: tuple[tuple[float, float], ...]
    high: float
    each_page: int

    @property
    def pages(self) -> int:
        return math.ceil(len(self.spans) / self.each_page)


def strips(picture: Drawing, paper: Paper, title: str = "", overlap: float = OVERLAP) -> Tiling:
    """A long narrow drawing at real size as strips to cut out and join end to end, several to a page.

    Each joint is a line with a letter on both strips: lay line on line. A drawing too high for a page is tiled.
    """
    if not picture.marks:
        return Tiling(overlap, 0.0, (), ())
    turn = math.pi / 2 if picture.bounds.height > picture.bounds.width else 0.0
    flat = turned(picture, turn)
    laid = Drawing(plain(flat.marks), flat.bounds)
    cuttings = [_cutting(laid, fed, overlap) for fed in (sideways(paper), paper)]
    fitting = [cutting for cutting in cuttings if cutting.each_page > 0]
    if not fitting:
        return tile(picture, paper, title, overlap)
    cutting = min(fitting, key=lambda each: (each.pages, len(each.spans)))
    tiles = tuple(_strip(cutting, laid.bounds, number) for number in range(len(cutting.spans)))
    sheets = tuple(_sheet(laid, cutting, tiles, page, overlap, title) for page in range(cutting.pages))
    return Tiling(overlap, turn, tiles, sheets)


def _cutting(laid: Drawing, paper: Paper, overlap: float) -> _Cutting:
    area, high = drawing_area(paper), laid.bounds.height + HEADROOM
    each_page = math.floor((area.height + GAP) / (high + GAP) + 1e-9)
    return _Cutting(paper, _spans(laid, area.width, overlap), high, each_page)


def _spans(laid: Drawing, length: float, overlap: float) -> tuple[tuple[float, float], ...]:
    """Where each strip starts and ends [m], neighbours sharing `overlap`."""
    lettered = [bounds((mark,)) for mark in laid.marks if isinstance(mark, Text)]
    spans, left = [], laid.bounds.left
    while left + length < laid.bounds.right - 1e-9:
        right = _clear_end(left + length, overlap, lettered)
        spans.append((left, right))
        left = right - overlap
    return (*spans, (left, laid.bounds.right))


def _clear_end(limit: float, overlap: float, lettered: Sequence[Box]) -> float:
    """The end nearest to the limit whose joint runs through no lettering; the limit itself where there is none."""
    for step in range(round(YIELDING / 0.001)):
        end = limit - step * 0.001
        if not any(box.left < end and box.right > end - overlap for box in lettered):
            return end
    return limit


def _strip(cutting: _Cutting, box: Box, number: int) -> Tile:
    left, right = cutting.spans[number]
    page, row = divmod(number, cutting.each_page)
    area = drawing_area(cutting.paper)
    top = area.top - row * (cutting.high + GAP)
    window = Box(left, box.bottom, right, box.top)
    return Tile(str(number + 1), row, number, window, (area.left - left, top - HEADROOM - box.top), page)


def _sheet(laid: Drawing, cutting: _Cutting, tiles: Sequence[Tile], page: int, overlap: float, title: str) -> Sheet:
    marks: list[Mark] = []
    for each in tiles:
        if each.page == page:
            marks += moved(_strip_drawing(laid, each, len(tiles), overlap), *each.shift).marks
    joining = "Cut out; lay line on line, same letter." if len(tiles) > 1 else "Cut out."
    says = Imprint(str(page + 1), page + 1, cutting.pages, title, joining, (), 0, laid)
    marks += foot(says, cutting.paper.printable)
    return on_paper(Drawing(tuple(marks), laid.bounds), cutting.paper)


def _strip_drawing(laid: Drawing, strip: Tile, count: int, overlap: float) -> Drawing:
    """One strip: what it shows, its edge to cut along, its name, and the lines of its joints."""
    window, half, number = strip.window, overlap / 2, strip.column
    first, last = number == 0, number == count - 1
    left, right = window.left + (0.0 if first else half), window.right - (0.0 if last else half)
    edge = replace(window, top=window.top + HEADROOM)
    shown = lettering_inside(clip(laid, window), window, replace(window, left=left, right=right))
    marks: list[Mark] = [*shown.marks, *frame(edge)]
    if count > 1:
        named = f"strip {strip.label} of {count}"
        marks.append(Text((edge.centre[0], edge.top - 0.0028), named, 0.0022, Anchor.MIDDLE))
    if not first:
        marks += joint_tick(left, edge.bottom, edge.top, letters(number - 1))
    if not last:
        marks += joint_tick(right, edge.bottom, edge.top, letters(number))
    return Drawing(tuple(marks), window)
