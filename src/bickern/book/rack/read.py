"""The rack as values."""

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from bickern.book.database.faults import damaged
from bickern.book.database.work import Book, looked
from bickern.book.rack.rows import COLUMNS, clean, id_of, piece_of
from bickern.making.stock.rack import Rack, Stock, StockBar, StockSheet
from bickern.measure.finding import Finding, stop

if TYPE_CHECKING:
    from sqlalchemy import Connection


def rack_of(book: Book) -> Rack | Finding:
    """All that lies there now, bars and sheets each by their numbers."""
    rows = looked(book, _rows)
    if isinstance(rows, Finding):
        return rows
    try:
        pieces = [piece_of(row) for row in rows]
    except (ValueError, TypeError, ArithmeticError) as wrong:
        return damaged(book.name, str(wrong))
    return Rack(
        tuple(p for p in pieces if isinstance(p, StockBar)), tuple(p for p in pieces if isinstance(p, StockSheet))
    )


def _rows(connection: "Connection") -> Sequence[Sequence[Any]]:
    from bickern.book.database.tables import PIECE

    columns = [PIECE.c[name] for name in COLUMNS]
    asked = PIECE.select().with_only_columns(*columns).where(PIECE.c.gone == "")
    return connection.execute(asked.order_by(PIECE.c.kind, PIECE.c.number)).all()


def piece_in(book: Book, piece_id: str) -> Stock | Finding:
    """One piece that lies there, by its id (`b12` is B12)."""
    from bickern.book.database.tables import PIECE

    named = id_of(piece_id)
    columns = [PIECE.c[name] for name in COLUMNS]
    asked = PIECE.select().with_only_columns(*columns).where(PIECE.c.id == named)
    row = looked(book, lambda connection: connection.execute(asked).first())
    if isinstance(row, Finding):
        return row
    if row is None:
        return no_such(piece_id)
    return gone(named, row.gone) if row.gone else _read(row, book)


def _read(row: Sequence[Any], book: Book) -> Stock | Finding:
    try:
        return piece_of(row)
    except (ValueError, TypeError, ArithmeticError) as wrong:
        return damaged(book.name, f"{row[0]}: {wrong}")


def no_such(piece_id: str) -> Finding:
    """An id that was never given."""
    says = f"there is no `{clean(piece_id)[:20]}` in the rack, and never was"
    return stop("no-such-stock", says, "`bickern rack list` shows what there is")


def gone(piece_id: str, why: str) -> Finding:
    """An id of something that is there no more."""
    says = f"{piece_id} is not in the rack any more: it was {why}"
    return stop("stock-gone", says, f"`bickern rack history {piece_id}` tells what happened to it")
