"""Long narrow drawings at real size, cut into strips that fit the paper: paper rules to lay on the bar."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import count

from bickern.paper.clip import clip
from bickern.paper.furniture import Imprint, foot, frame, joint_tick, letters
from bickern.paper.glyphs import plain
from bickern.paper.marks import Box, Drawing, Layer, Mark, Text, bounds, moved, text_width, turned
from bickern.paper.pens.page import Paper, Sheet, on_paper, sideways
from bickern.paper.tiling import OVERLAP, Tile, Tiling, drawing_area, lettering_inside, tile

GAP = 0.004
"""Room between strips on one page [m]."""
HEADROOM = 0.004
"""Room above each strip for its name and the letters of its joints [m]."""
YIELDING = 0.100
"""How much shorter than the page a strip may end so that its joint does not run through lettering [m]."""
LEAST = 0.012
"""Least height of a strip [m]: there is something to hold."""


@dataclass(frozen=True, slots=True)
class Rule:
    """A long drawing and what its strips are called."""

    picture: Drawing
    name: str = ""


@dataclass(frozen=True, slots=True)
class _Strip:
    """One part of a rule laid flat: number `number` of `of`, joined to its neighbours under the letters given."""

    laid: Drawing
    name: str
    number: int
    of: int
    window: Box
    before: str
    after: str


@dataclass(frozen=True, slots=True)
class _Shelf:
    """A row of strips on a page: its top [m] from the top of the drawing area, its height, and how far it is filled."""

    page: int
    top: float
    high: float
    filled: float


def strips(picture: Drawing, paper: Paper, title: str = "", overlap: float = OVERLAP) -> Tiling:
    """A long narrow drawing at real size as strips to cut out and join end to end, several to a page.

    Each joint is a line with a letter on both strips: lay line on line. A drawing too high for a page is tiled.
    """
    if not picture.marks:
        return Tiling(overlap, 0.0, (), ())
    if _too_high(picture, paper):
        return tile(picture, paper, title, overlap)
    fed, tiles, cut = _fewest([Rule(picture)], paper, overlap)
    turn = math.pi / 2 if picture.bounds.height > picture.bounds.width else 0.0
    return Tiling(overlap, turn, tiles, _sheets(fed, tiles, cut, overlap, title))


def strip_pages(rules: Sequence[Rule], paper: Paper, title: str = "", overlap: float = OVERLAP) -> tuple[Sheet, ...]:
    """Several rules as strips on as few pages as they go on in order, strips of different rules side by side."""
    long = [rule for rule in rules if rule.picture.marks and not _too_high(rule.picture, paper)]
    high = [rule for rule in rules if rule.picture.marks and _too_high(rule.picture, paper)]
    sheets: list[Sheet] = []
    if long:
        fed, tiles, cut = _fewest(long, paper, overlap)
        sheets += _sheets(fed, tiles, cut, overlap, title)
    for rule in high:
        sheets += tile(rule.picture, paper, title, overlap).sheets
    return tuple(sheets)


def _too_high(picture: Drawing, paper: Paper) -> bool:
    narrow = min(picture.bounds.width, picture.bounds.height)
    return narrow + HEADROOM > max(drawing_area(fed).height for fed in (paper, sideways(paper)))


def _fewest(rules: Sequence[Rule], paper: Paper, overlap: float) -> tuple[Paper, tuple[Tile, ...], list[_Strip]]:
    """The way of feeding the paper that takes fewer pages, with the strips and where each lies."""
    tried = []
    for fed in (sideways(paper), paper):
        cut = list(_cut(rules, drawing_area(fed).width, overlap))
        if all(strip.window.height + HEADROOM <= drawing_area(fed).height + 1e-9 for strip in cut):
            tried.append((fed, _placed(cut, fed), cut))
    return min(tried, key=lambda one: (1 + max(each.page for each in one[1]), len(one[1])))


def _cut(rules: Sequence[Rule], length: float, overlap: float) -> Iterator[_Strip]:
    """Every rule in strips no longer than `length` [m], their joints lettered through."""
    named = count()
    for rule in rules:
        upright = rule.picture.bounds.height > rule.picture.bounds.width
        flat = turned(rule.picture, math.pi / 2) if upright else rule.picture
        laid = Drawing(plain(flat.marks), flat.bounds)
        spans, before = _spans(laid, length, overlap), ""
        shown = _shown(laid, spans)
        for number, (left, right) in enumerate(spans, start=1):
            after = letters(next(named)) if shown[number - 1] and number < len(spans) and shown[number] else ""
            if shown[number - 1]:
                yield _Strip(laid, rule.name, number, len(spans), _window(laid, left, right), before, after)
            before = after


def _shown(laid: Drawing, spans: Sequence[tuple[float, float]]) -> list[bool]:
    """Which strips have a mark on them; the first, which has the end to measure from, also where its neighbour has."""
    there = [bool(_marked(laid, left, right)) for left, right in spans]
    if not any(there):
        return [True] * len(spans)
    return [there[0] or any(there[1:2]), *there[1:]]


def _marked(laid: Drawing, left: float, right: float) -> list[Mark]:
    """The strokes of marks, and the ends of what is laid along them, that a strip shows."""
    inside = clip(laid, replace(laid.bounds, left=left, right=right)).marks
    return [mark for mark in inside if mark.layer is Layer.MARK or (mark.layer is Layer.CUT and _upright(mark))]


def _upright(mark: Mark) -> bool:
    box = bounds((mark,))
    return box.width < 1e-9 < box.height and box.left > 1e-6


def _window(laid: Drawing, left: float, right: float) -> Box:
    """What one strip shows: as high as its own lettering and marks reach, edges not counted."""
    full = replace(laid.bounds, left=left, right=right)
    inside = clip(laid, full).marks
    tops = [bounds((mark,)).top for mark in inside if mark.layer not in (Layer.DIMENSION, Layer.CUT)]
    top = max([full.bottom + LEAST, *(top + 0.0015 for top in tops)])
    return replace(full, top=min(full.top, top))


def _placed(cut: Sequence[_Strip], paper: Paper) -> tuple[Tile, ...]:
    """Each strip on the first row that has room for it, else on a new row or page."""
    area = drawing_area(paper)
    shelves: list[_Shelf] = []
    tiles: list[Tile] = []
    for strip in cut:
        wide, high = strip.window.width, strip.window.height + HEADROOM
        i = _shelf_for(shelves, wide, high, area)
        shelf = shelves[i]
        top = area.top - shelf.top
        shift = (area.left + shelf.filled - strip.window.left, top - HEADROOM - strip.window.top)
        tiles.append(Tile(str(strip.number), i, strip.number - 1, strip.window, shift, shelf.page))
        shelves[i] = replace(shelf, filled=shelf.filled + wide + GAP)
    return tuple(tiles)


def _shelf_for(shelves: list[_Shelf], wide: float, high: float, area: Box) -> int:
    """The row that takes a strip, a new one put down where none does."""
    for i, shelf in enumerate(shelves):
        if shelf.filled > 0 and shelf.filled + wide <= area.width + 1e-9 and high <= shelf.high + 1e-9:
            return i
    pages = 1 + max((shelf.page for shelf in shelves), default=-1)
    for page in range(pages + 1):
        used = sum(shelf.high + GAP for shelf in shelves if shelf.page == page)
        if used + high <= area.height + 1e-9:
            shelves.append(_Shelf(page, used, high, 0.0))
            return len(shelves) - 1
    raise ValueError("a strip is higher than a page")


def _spans(laid: Drawing, length: float, overlap: float) -> tuple[tuple[float, float], ...]:
    """Where each strip starts and ends [m], neighbours sharing `overlap`."""
    lettered = [bounds((mark,)) for mark in laid.marks if isinstance(mark, Text)]
    marked = [bounds((mark,)) for mark in laid.marks if mark.layer is Layer.MARK]
    spans, left = [], laid.bounds.left
    while left + length < laid.bounds.right - 1e-9:
        right = _clear_end(left + length, overlap, lettered, marked)
        spans.append((left, right))
        left = right - overlap
    return (*spans, (left, laid.bounds.right))


def _clear_end(limit: float, overlap: float, lettered: Sequence[Box], marked: Sequence[Box]) -> float:
    """The end nearest to the limit whose joint runs through no lettering and no mark; the limit where there is none.

    Failing that, one that runs through no lettering, or one that leaves every line of it whole beside its mark: on the
    strip before the joint, or where both lie in the overlap or beyond it, on the one after.
    """
    ends = [limit - step * 0.001 for step in range(round(YIELDING / 0.001))]

    def clear(end: float, boxes: Sequence[Box]) -> bool:
        return not any(box.left < end and box.right > end - overlap for box in boxes)

    def whole(end: float) -> bool:
        return not any(box.left - BESIDE < end - overlap and box.right > end for box in lettered)

    first = next((end for end in ends if clear(end, (*lettered, *marked))), None)
    second = first or next((end for end in ends if clear(end, lettered)), None)
    return second or next((end for end in ends if whole(end)), limit)


BESIDE = 0.0015
"""From a mark's stroke to its lettering, and a hair [m]."""


def _sheets(
    paper: Paper, tiles: Sequence[Tile], cut: Sequence[_Strip], overlap: float, title: str
) -> tuple[Sheet, ...]:
    return tuple(
        _sheet(paper, tiles, cut, page, overlap, title) for page in range(1 + max(each.page for each in tiles))
    )


def _sheet(paper: Paper, tiles: Sequence[Tile], cut: Sequence[_Strip], page: int, overlap: float, title: str) -> Sheet:
    marks: list[Mark] = []
    joined = False
    for each, strip in zip(tiles, cut, strict=True):
        if each.page == page:
            marks += moved(_strip_drawing(strip, overlap), *each.shift).marks
            joined = joined or strip.of > 1
    joining = "Cut out; lay line on line, same letter." if joined else "Cut out."
    pages = 1 + max(each.page for each in tiles)
    says = Imprint(str(page + 1), page + 1, pages, title, joining, (), 0, cut[0].laid)
    marks += foot(says, paper.printable)
    return on_paper(Drawing(tuple(marks), paper.printable), paper)


NAME = 0.0022
"""Capitals of a strip's name [m]."""
LETTERED = 0.0045
"""Room for the letter of a joint [m]."""


def _called(strip: _Strip, room: float) -> str:
    """What a strip is called, as fully as there is room for."""
    number = f"strip {strip.number} of {strip.of}"
    loose = strip.number > 1 and not strip.before
    tried = [f"{strip.name}: {number}".removeprefix(": "), f"{strip.name} {strip.number}/{strip.of}".strip(), number]
    tried = [f"{says}; {BY_TAPE}" for says in tried if loose] + tried
    return next((says for says in tried if text_width(says, NAME) <= room), f"{strip.number}/{strip.of}")


BY_TAPE = "no strip before it: set its marks by the tape"
"""Said on a strip whose neighbour has nothing on it and is not printed."""


def _strip_drawing(strip: _Strip, overlap: float) -> Drawing:
    """One strip: what it shows, its edge to cut along, its name, and the lines of its joints."""
    window, half = strip.window, overlap / 2
    left = window.left + (half if strip.before else 0.0)
    right = window.right - (half if strip.after else 0.0)
    edge = replace(window, top=window.top + HEADROOM)
    shown = lettering_inside(clip(strip.laid, window), window, replace(window, left=left, right=right))
    marks: list[Mark] = [*shown.marks, *frame(edge)]
    if strip.of > 1:
        start, end = left + (LETTERED if strip.before else 0.002), right - (0.0 if strip.after else 0.001)
        marks.append(Text((start, edge.top - 0.0028), _called(strip, end - start), NAME))
    if strip.before:
        marks += joint_tick(left, edge.bottom, edge.top, strip.before)
    if strip.after:
        marks += joint_tick(right, edge.bottom, edge.top, strip.after)
    return Drawing(tuple(marks), window)
