"""Full-size templates: outlines of the finished bars, scroll forms, and cards to hold against the iron."""

from collections.abc import Sequence

from bickern.paper.copy import Copy
from bickern.paper.marks import Drawing, Text, Weight, drawing, merge, moved
from bickern.paper.pens.page import Paper, Sheet
from bickern.paper.sheets.markout import bars_of
from bickern.paper.tiling import drawing_area, tile
from bickern.paper.views.gauges import cards, scroll_forms
from bickern.paper.views.outline import bent_outlines
from bickern.parts.bar.result import BarResult

APART = 0.006
"""Between two cards on one page [m]."""


def template_pages(copy: Copy, paper: Paper) -> tuple[Sheet, ...]:
    """Outlines and scroll forms on pages of their own, then the cards, many to a page."""
    pages: list[Sheet] = []
    for bar in bars_of(copy):
        for picture in outlines_of(bar):
            pages += tile(picture, paper, f"{copy.job.title}: {bar.spec.name}, full size").sheets
    small = [form for bar in bars_of(copy) for form in scroll_forms(bar)]
    small += [card for bar in bars_of(copy) for card in cards(bar, copy.shop.style)]
    for shelf in _shelves(small, paper):
        pages += tile(shelf, paper, f"{copy.job.title}: templates", turns=(0.0,)).sheets
    return tuple(pages)


def outlines_of(bar: BarResult) -> tuple[Drawing, ...]:
    """A bent bar's outline at full size, lettered; two where it is bent in two planes; none for a straight bar."""
    if not bar.bends:
        return ()
    views = bent_outlines(bar)
    names = [bar.spec.name] if len(views) == 1 else [f"{bar.spec.name}, broad side", f"{bar.spec.name}, from the edge"]
    return tuple(_named(view, name) for view, name in zip(views, names, strict=True))


def _named(picture: Drawing, name: str) -> Drawing:
    box = picture.bounds
    words = Text(
        (box.left, box.bottom - 0.006), f"{name}: full size, lay the bent bar on it", 0.003, weight=Weight.BOLD
    )
    return merge(picture, drawing([words]))


def _shelves(pictures: Sequence[Drawing], paper: Paper) -> list[Drawing]:
    """Small drawings set side by side in rows, as many rows to a page as it holds; a big one has its own page."""
    area = drawing_area(paper)
    pages: list[list[Drawing]] = []
    x = y = row = 0.0
    for picture in sorted(pictures, key=lambda one: -one.bounds.height):
        box = picture.bounds
        if pages and x > 0 and x + box.width > area.width:
            x, y, row = 0.0, y - row - APART, 0.0
        if not pages or -y + box.height > area.height:
            pages.append([])
            x, y, row = 0.0, 0.0, 0.0
        pages[-1].append(moved(picture, x - box.left, y - box.top))
        x, row = x + box.width + APART, max(row, box.height)
    return [merge(*page) for page in pages]
