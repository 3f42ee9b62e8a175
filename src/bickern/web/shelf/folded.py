"""A table that folds: on a narrow screen each row becomes a few lines, each with the head of its column."""

from collections.abc import Iterable, Sequence
from html import escape

from nicegui import ui
from nicegui.elements.html import Html

STYLE = """
.found:empty,.card:empty,.q-loading-bar{display:none}
table.figures.folds th[scope=row]{width:auto;color:var(--ink)}
@media (max-width:760px){
  .folds,.folds tbody,.folds tr,.folds th,.folds td{display:block}
  .folds thead{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%)}
  .folds tr{border-bottom:1px solid var(--line);padding:.4rem 0}
  table.figures.folds th,table.figures.folds td{border:0;padding:.05rem 0;width:auto}
  .folds td:not([data-head=""])::before{content:attr(data-head) ": ";color:var(--soft)}
  .folds td:empty{display:none}
}
"""


def folded(heads: Sequence[str], rows: Iterable[Sequence[str]], named: str) -> Html:
    """The table; its first column names the row."""
    made = ui.html(folded_html(heads, rows, named), tag="table", sanitize=False).classes("figures folds")
    return made.props("role=table")


def folded_html(heads: Sequence[str], rows: Iterable[Sequence[str]], named: str) -> str:
    """The inside of such a table; its parts say what they are, since some browsers forget it when they are folded."""
    told = [escape(head) for head in heads]
    top = "".join(
        f'<th scope="col" role="columnheader">{head or "<span class=unseen>letter</span>"}</th>' for head in told
    )
    lines = "".join(_row(told, row) for row in rows)
    return (
        f'<caption class="unseen">{escape(named)}</caption><thead role="rowgroup"><tr role="row">{top}</tr></thead>'
        f'<tbody role="rowgroup">{lines}</tbody>'
    )


def _row(heads: Sequence[str], row: Sequence[str]) -> str:
    first, *rest = (escape(cell) for cell in row)
    cells = "".join(
        f'<td role="cell" data-head="{head}">{cell}</td>' for head, cell in zip(heads[1:], rest, strict=True)
    )
    return f'<tr role="row"><th scope="row" role="rowheader">{first}</th>{cells}</tr>'
