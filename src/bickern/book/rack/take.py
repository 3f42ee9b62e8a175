"""Takes all that a plan cuts out of the rack, and puts what is left of it back, in one transaction."""

import json
from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from bickern.book.database.work import Book, changed
from bickern.book.rack.change import row_to_change
from bickern.book.rack.entries import entry, put_in, write
from bickern.book.rack.rows import COLUMNS, piece_of, wrong_piece
from bickern.making.stock.rack import Stock, StockBar, StockSheet, Taking, Use
from bickern.measure.finding import Finding, stop

if TYPE_CHECKING:
    from sqlalchemy import Connection

SLACK = 1e-6
"""Share of a piece that rounding may add to what is left of it (choice of ours)."""


def take(book: Book, taking: Taking, who: str = "") -> tuple[str, ...] | Finding:
    """Writes every cut and puts every drop back; the ids of the drops, in the order of the uses. All, or nothing.

    Each piece must be as the plan has seen it: where somebody was faster, a finding names the piece, who, and when.
    """
    drops = [drop for use in taking.uses for drop in use.left]
    wrong = next((fault for drop in drops if (fault := wrong_piece(drop)) is not None), None)
    if wrong is not None:
        return wrong
    return changed(book, lambda connection: _taken(connection, taking, who))


def _taken(connection: "Connection", taking: Taking, who: str) -> tuple[str, ...] | Finding:
    # always in one order: two who take several pieces at once then never wait for each other
    for use in sorted(taking.uses, key=lambda one: one.id):
        fault = _cut(connection, use, taking.jobs, who)
        if fault is not None:
            return fault
    drops = [replace(drop, of=use.id, offcut=True) for use in taking.uses for drop in use.left]
    return put_in(connection, drops, "drop", who)


def _cut(connection: "Connection", use: Use, jobs: Sequence[str], who: str) -> Finding | None:
    """Marks one piece as cut, or says why it cannot be."""
    from bickern.book.database.tables import PIECE

    now = PIECE.update().where(PIECE.c.id == use.id, PIECE.c.version == use.version, PIECE.c.gone == "")
    fields = {"gone": "cut"}
    done = connection.execute(now.values(version=use.version + 1, **fields))
    if done.rowcount != 1:
        return _too_late(connection, use)
    write(connection, [entry(use.id, use.version + 1, "cut", who, fields=fields, jobs=jobs, cuts=use.cuts)])
    row = connection.execute(PIECE.select().where(PIECE.c.id == use.id)).mappings().one()
    return _more_than_was(piece_of([row[name] for name in COLUMNS]), use.left)


def _too_late(connection: "Connection", use: Use) -> Finding:
    from bickern.book.database.tables import CHANGE

    last = CHANGE.select().where(CHANGE.c.piece == use.id).order_by(CHANGE.c.version.desc()).limit(1)
    found = connection.execute(last).mappings().first()
    if found is None:
        missing = row_to_change(connection, use.id)
        assert isinstance(missing, Finding), "a piece has at least one row of history"
        return missing
    says = f"{use.id} is not as this plan has seen it: {_told(found)}"
    return stop("stock-already-taken", says, "plan again from the rack as it is now; nothing was taken")


def _told(found: Any) -> str:
    """`it was cut by Ann at 2026-11-26 04:40 UTC for porch lantern`."""
    jobs = ", ".join(json.loads(found["jobs"]))
    at = f"{found['at'][:10]} {found['at'][11:16]} UTC"
    by = f" by {found['who']}" if found["who"] else ""
    return f"it was {found['what']}{by} at {at}{f' for {jobs}' if jobs else ''}"


def _more_than_was(piece: Stock, left: Sequence[Stock]) -> Finding | None:
    """Drops of another kind than the piece, or longer or larger in all than it was."""
    if isinstance(piece, StockBar):
        alike = all(isinstance(drop, StockBar) and drop.section == piece.section for drop in left)
        out = sum(drop.length for drop in left if isinstance(drop, StockBar))
        whole = piece.length
    else:
        alike = all(isinstance(drop, StockSheet) and drop.thick == piece.thick for drop in left)
        out, whole = sum(drop.area for drop in left if isinstance(drop, StockSheet)), piece.area
    if alike and out <= whole * (1 + SLACK):
        return None
    says = f"more is said to be left of {piece.id} than there was of it, or something else"
    return stop("more-left-than-was", says, "nothing was taken; look at the plan")
