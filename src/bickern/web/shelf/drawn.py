"""A cut plan on the page: each bar with its marks, each sheet with its parts, what is short, what to buy."""

from collections.abc import Iterable, Sequence
from html import escape

from nicegui import ui

from bickern.desk.cut.pictures import CutPictures, Drawn, StockCut, Together
from bickern.web.parts import cautions, heading, words
from bickern.web.shelf.folded import folded, folded_html

AT_BENCH, IN_HAND = 1.4, 1.2
"""How much larger than on paper drawings are shown: a screen at the bench is looked at from farther than paper."""
STYLE = """
.cut-of{margin:0 0 1.1rem}
.cut-of h3{font-size:1.15rem}
.cut-of h3 b{font-size:1.6rem;margin-right:.5rem}
.cut-of .drawing{margin:.4rem 0}
.cut-of table.figures.folds th[scope=row]{width:3rem;font-weight:700;font-size:1.3rem}
.in-hand{display:none}
@media (max-width:760px){.at-bench{display:none}.in-hand{display:block}}
"""


def plan_drawn(told: CutPictures) -> None:
    """The whole plan, in the order in which it is cut."""
    for group in told.groups:
        _group(group)
    if told.marks:
        words(told.marks, quiet=True)
    if told.short:
        heading("Short")
        folded(("", "piece", "how many", "of"), told.short, "What no stock is left for")
        _lines(told.short_says)
    if told.instead:
        heading("Other stock that would do")
        folded(("", "instead"), told.instead, "Other stock that would do")
    if told.buy:
        heading("To buy")
        folded(("how much", "of"), told.buy, "What to buy")
    cautions(told.cautions)


def _group(group: Together) -> None:
    heading(group.title[:1].upper() + group.title[1:])
    words(group.sure[:1].upper() + group.sure[1:] + ".", quiet=True)
    heads = ("", "part", "where", "lies") if group.kind == "sheet" else ("", "becomes", "cut", "how many")
    for one in group.stock:
        ui.html(_stock(one, heads), tag="section", sanitize=False).classes("cut-of").props["aria-label"] = one.id


def _stock(one: StockCut, heads: Sequence[str]) -> str:
    """One bar or sheet: its id as it is painted on it, its drawing for either width, its cuts, what is left."""
    paint = f" <b>{escape(one.paint)}</b>" if one.paint else ""
    bench, hand = _drawings(one.wide, AT_BENCH), _drawings(one.narrow, IN_HAND)
    cuts = folded_html(heads, one.rows, f"Cuts of {one.id}")
    return (
        f"<h3><b>{escape(one.id)}</b>{escape(one.what)}</h3><p class='quiet'>{escape(one.where)}</p>"
        f'<div class="at-bench">{bench}</div><div class="in-hand">{hand}</div>'
        f'<table class="figures folds" role="table">{cuts}</table>'
        f"<p>Left over: {escape(one.left)}.{paint}</p>"
    )


def _drawings(drawn: Iterable[Drawn], larger: float) -> str:
    return "".join(
        f'<div class="drawing" role="img" aria-label="{escape(one.says, quote=True)}" '
        f'style="--wide:{1000 * larger * one.wide:.0f}mm">{one.svg}</div>'
        for one in drawn
    )


def _lines(says: Iterable[str]) -> None:
    for one in says:
        words(one, quiet=True)
