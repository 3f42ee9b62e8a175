"""Labels for pieces of the rack, as a PDF."""

from collections.abc import Sequence

from bickern.desk.rack.rack import Keeper
from bickern.desk.rack.rows import mind_says, size_says, stock_says
from bickern.making.stock.fire import may_be_heated
from bickern.making.stock.rack import Rack, Stock
from bickern.measure.finding import Finding, stop
from bickern.paper.pens.page import PAPERS, compile_pdf
from bickern.paper.sheets.labels import Label, label_pages

MOST_LABELS = 1000
"""Labels of one printing."""


def labels_pdf(pieces: Sequence[Stock], by: Keeper, paper: str) -> bytes | Finding:
    """Pages of labels to cut out."""
    if paper not in PAPERS:
        return stop("unknown-paper", f"there is no paper “{paper}”", f"say {', '.join(sorted(PAPERS))}")
    if not pieces:
        return stop("nothing-to-print", "there is nothing in the rack to print a label for", "add it first")
    if len(pieces) > MOST_LABELS:
        says = f"these would be {len(pieces)} labels; {MOST_LABELS} are printed at once"
        return stop("too-many-labels", says, "name the ids: bickern rack label B1 B2")
    source, files = label_pages([_label(piece, by) for piece in pieces], PAPERS[paper], by.shop.name)
    return compile_pdf(source, files, 0)


def _label(piece: Stock, by: Keeper) -> Label:
    fire = may_be_heated(piece)
    style = by.shop.style
    mind = mind_says(piece).replace("`", "")
    steel = piece.steel or "metal not known"
    stock, size = stock_says(piece, style), size_says(piece, style)
    return Label(piece.id, stock, size, steel, piece.place, mind, fire is not None and fire.stops)


def chosen(rack: Rack, ids: Sequence[str]) -> tuple[Stock, ...] | Finding:
    """The pieces with these ids, in their order; without ids all of them."""
    pieces: tuple[Stock, ...] = (*rack.bars, *rack.sheets)
    there = {piece.id: piece for piece in pieces}
    if not ids:
        return tuple(there.values())
    named = [one.strip().upper() for one in ids]
    missing = next((one for one in named if one not in there), None)
    if missing is not None:
        says = f"there is no `{missing[:20]}` in the rack now"
        return stop("no-such-stock", says, "`bickern rack list` shows what there is")
    return tuple(there[one] for one in dict.fromkeys(named))
