"""Full-size templates: outlines of the finished bars, scroll forms, and cards to hold against the iron."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from bickern.paper.clip import clip
from bickern.paper.copy import Copy
from bickern.paper.marks import Box, Drawing, Text, Weight, around, drawing, merge, moved, turned
from bickern.paper.pens.page import Paper, Sheet
from bickern.paper.sheets.markout import bars_of
from bickern.paper.tiling import drawing_area, one_page, tile
from bickern.paper.views.gauges import cards, merged, scroll_forms
from bickern.paper.views.outline import bend_pictures
from bickern.parts.bar.result import BarResult

APART = 0.006
"""Between two cards on one page [m]."""


STUB = 0.030
"""How much is printed round a bend where the whole bar does not go on a page [m]."""


def template_pages(copy: Copy, paper: Paper) -> tuple[Sheet, ...]:
    """Outlines too large to share a page, each on its own; then smaller ones, scroll forms and cards, many to one."""
    every = [(bar.spec.name, picture) for bar in bars_of(copy) for picture in outlines_of(bar, paper)]
    area = drawing_area(paper)
    large = [one for one in every if not _within(one[1].bounds, area.width, area.height)]
    pages: list[Sheet] = []
    for name, picture in large:
        pages += tile(picture, paper, f"{copy.job.title}: {name}, full size").sheets
    shared = list(merged([one[1] for one in every if one not in large]))
    shared += [form for bar in bars_of(copy) for form in scroll_forms(bar)]
    every_card = merged([card for bar in bars_of(copy) for card in cards(bar, copy.shop.style)])
    shared += [laid for card in every_card for laid in _laid(card, area)]
    shelves, title = _shelves(shared, paper), f"{copy.job.title}: templates"
    pages += [one_page(page, paper, title, i, len(shelves)) for i, page in enumerate(shelves, start=1)]
    return tuple(pages)


def _laid(card: Drawing, area: Box) -> list[Drawing]:
    """A card as it goes on a page, upright where it is too long to lie; none where it is too long for any page."""
    if _within(card.bounds, area.width, area.height):
        return [card]
    upright = turned(card, math.pi / 2)
    return [upright] if _within(upright.bounds, area.width, area.height) else []


def _within(box: Box, wide: float, high: float) -> bool:
    return box.width <= wide and box.height <= high


def outlines_of(bar: BarResult, paper: Paper) -> tuple[Drawing, ...]:
    """A bent bar's outline at full size, lettered: whole where a page holds it, else its bends with stubs of straight.

    Two sides where it is bent in two planes; nothing for a straight bar.
    """
    area = drawing_area(paper)
    found: list[Drawing] = []
    for picture, seen in bend_pictures(bar):
        numbers = _numbers([number for number, _ in seen])
        wide, high = picture.bounds.width, picture.bounds.height + FOOT_LINE
        if _within(Box(0.0, 0.0, wide, high), area.width, area.height):
            found.append(_named(picture, f"{bar.spec.name}, {numbers}"))
        elif _within(Box(0.0, 0.0, wide, high), area.height, area.width):
            found.append(_named(turned(picture, math.pi / 2), f"{bar.spec.name}, {numbers}"))
        else:
            found += _bends_alone(bar, picture, seen)
    return tuple(found)


FOOT_LINE = 0.009
"""Room for the words under a template [m]."""


def _numbers(seen: Sequence[int]) -> str:
    """`B1`, `B1 and B2`."""
    names = [f"B{number}" for number in seen]
    return " and ".join(filter(None, [", ".join(names[:-1]), names[-1]])) if names else ""


def _bends_alone(bar: BarResult, picture: Drawing, seen: Sequence[tuple[int, Box]]) -> list[Drawing]:
    """The outline cut to where it bends; bends whose neighbourhoods meet stay together."""
    groups: list[tuple[list[int], Box]] = []
    for number, box in seen:
        near = box.grown(STUB)
        if groups and groups[-1][1].meets(near):
            numbers, before = groups[-1]
            groups[-1] = ([*numbers, number], around((before, near)))
        else:
            groups.append(([number], near))
    return [_named(_cut_to(picture, box), f"{bar.spec.name}, {_numbers(numbers)}") for numbers, box in groups]


def _cut_to(picture: Drawing, box: Box) -> Drawing:
    kept = clip(picture, box)
    return drawing(kept.marks)


def _named(picture: Drawing, name: str) -> Drawing:
    box = picture.bounds
    words = Text((box.left, box.bottom - 0.005), f"{name}: full size, lay it on", 0.0026, weight=Weight.BOLD)
    return merge(picture, drawing([words]))


@dataclass(frozen=True, slots=True)
class _Shelf:
    """A row on a page: how far down it starts, its height, and how far it is filled [m]."""

    page: int
    down: float
    high: float
    filled: float


def _shelves(pictures: Sequence[Drawing], paper: Paper) -> list[Drawing]:
    """Small drawings set side by side in rows, each on the first row that has room; a big one has its own page."""
    area = drawing_area(paper)
    shelves: list[_Shelf] = []
    pages: dict[int, list[Drawing]] = {}
    for picture in sorted(pictures, key=lambda one: -one.bounds.height):
        box = picture.bounds
        i = _shelf_for(shelves, box.width, box.height, area)
        shelf = shelves[i]
        pages.setdefault(shelf.page, []).append(moved(picture, shelf.filled - box.left, -shelf.down - box.top))
        shelves[i] = replace(shelf, filled=shelf.filled + box.width + APART)
    return [merge(*pages[number]) for number in sorted(pages)]


def _shelf_for(shelves: list[_Shelf], wide: float, high: float, area: Box) -> int:
    for i, shelf in enumerate(shelves):
        if shelf.filled + wide <= area.width and high <= shelf.high:
            return i
    last = max((shelf.page for shelf in shelves), default=-1)
    for page in range(last + 2):
        down = sum(shelf.high + APART for shelf in shelves if shelf.page == page)
        if down + high <= area.height or page > last:
            shelves.append(_Shelf(page, down, high, 0.0))
            break
    return len(shelves) - 1
