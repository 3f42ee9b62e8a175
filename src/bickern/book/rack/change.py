"""What is put into the rack, changed, or taken out without being cut. Each call is one transaction."""

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from bickern.book.database.faults import damaged
from bickern.book.database.work import Book, changed
from bickern.book.rack.entries import entry, put_in, write
from bickern.book.rack.read import gone, no_such
from bickern.book.rack.rows import COLUMNS, differences, id_of, piece_of, row_of, wrong_piece
from bickern.making.stock.rack import Stock
from bickern.measure.finding import Finding, note, stop

if TYPE_CHECKING:
    from sqlalchemy import Connection


def add(book: Book, pieces: Sequence[Stock], who: str = "", says: str = "") -> tuple[str, ...] | Finding:
    """Puts pieces into the rack; the ids that are to be painted on them, in their order."""
    wrong = next((fault for piece in pieces if (fault := wrong_piece(piece)) is not None), None)
    if wrong is not None:
        return wrong
    return changed(book, lambda connection: put_in(connection, pieces, "added", who, says))


def change(book: Book, piece: Stock, who: str = "", *, what: str = "changed", says: str = "") -> Stock | Finding:
    """Writes what is different about a piece; `piece.version` must be the one that is in the rack."""
    wrong = wrong_piece(piece)
    if wrong is not None:
        return wrong
    return changed(book, lambda connection: _changed(connection, piece, what, who, says))


def _changed(connection: "Connection", piece: Stock, what: str, who: str, says: str) -> Stock | Finding:
    found = row_to_change(connection, piece.id)
    if isinstance(found, Finding):
        return found
    if found["version"] != piece.version:
        return meanwhile(piece.id)
    fields = differences(found, row_of(piece))
    if not fields:
        return note("nothing-changed", f"{piece.id} is so already: nothing was changed")
    _write(connection, piece.id, piece.version + 1, fields, what, who, says)
    now = {**found, **fields, "version": piece.version + 1}
    return piece_of([now[name] for name in COLUMNS])


def meanwhile(piece_id: str) -> Finding:
    """That a piece is not any more as whoever would change it has seen it."""
    says = f"{piece_id} was changed by somebody else meanwhile"
    return stop("stock-already-changed", says, "look at it again, then say what is to be changed")


def remove(book: Book, ids: Sequence[str], because: str, who: str = "") -> tuple[Stock, ...] | Finding:
    """Takes pieces out of the rack, all or none, and says why; their rows and their history stay."""
    named = list(dict.fromkeys(id_of(one) for one in ids))
    try:
        return changed(book, lambda connection: _removed(connection, named, because, who))
    except (ValueError, TypeError, ArithmeticError) as wrong:
        return damaged(book.name, str(wrong))


def _removed(connection: "Connection", ids: Sequence[str], because: str, who: str) -> tuple[Stock, ...] | Finding:
    out = []
    for piece_id in sorted(ids):
        found = row_to_change(connection, piece_id)
        if isinstance(found, Finding):
            return found
        _write(connection, piece_id, found["version"] + 1, {"gone": "removed"}, "removed", who, because)
        out.append(piece_of([found[name] for name in COLUMNS]))
    return tuple(out)


def row_to_change(connection: "Connection", piece_id: str) -> dict[str, Any] | Finding:
    """The row of a piece that lies there, held so that nobody else can change it before this is through."""
    from bickern.book.database.tables import PIECE

    asked = PIECE.select().where(PIECE.c.id == piece_id).with_for_update()
    found = connection.execute(asked).mappings().first()
    if found is None:
        return no_such(piece_id)
    return gone(piece_id, found["gone"]) if found["gone"] else dict(found)


def _write(
    connection: "Connection", piece_id: str, version: int, fields: dict[str, Any], what: str, who: str, says: str
) -> None:
    from bickern.book.database.tables import PIECE

    connection.execute(PIECE.update().where(PIECE.c.id == piece_id).values(version=version, **fields))
    write(connection, [entry(piece_id, version, what, who, says=says, fields=fields)])
