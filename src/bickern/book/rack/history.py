"""What happened to a piece of stock, oldest first."""

import json
from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from bickern.book.database.faults import damaged
from bickern.book.database.work import Book, looked
from bickern.book.rack.read import no_such
from bickern.book.rack.rows import id_of
from bickern.measure.finding import Finding

if TYPE_CHECKING:
    from sqlalchemy import Connection


@dataclass(frozen=True, slots=True)
class Change:
    """One thing that happened to `piece`, and the version it made of it.

    `at`: UTC, ISO 8601. `what`: added, drop, changed, moved, cut, removed. `fields`: what became different, by column;
    `jobs` and `cuts`: what it was cut for and into.
    """

    piece: str
    version: int
    at: str
    who: str
    what: str
    says: str
    fields: Mapping[str, Any]
    jobs: tuple[str, ...] = ()
    cuts: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class History:
    """The changes of one piece, and the ids of what was left of it when it was cut."""

    changes: tuple[Change, ...]
    left: tuple[str, ...] = ()


def history(book: Book, piece_id: str) -> History | Finding:
    """Everything that happened to a piece, whether it is still there or not."""
    named = id_of(piece_id)
    try:
        found = looked(book, lambda connection: _history(connection, named))
    except (ValueError, TypeError) as wrong:
        return damaged(book.name, f"the history of {named}: {wrong}")
    if isinstance(found, Finding):
        return found
    return found if found.changes else no_such(piece_id)


def _history(connection: "Connection", piece_id: str) -> History:
    from bickern.book.database.tables import CHANGE, PIECE

    rows = connection.execute(CHANGE.select().where(CHANGE.c.piece == piece_id).order_by(CHANGE.c.version)).mappings()
    left = PIECE.select().with_only_columns(PIECE.c.id).where(PIECE.c.of == piece_id).order_by(PIECE.c.number)
    return History(tuple(map(change_of, rows)), tuple(connection.execute(left).scalars()))


def change_of(row: Mapping[Any, Any]) -> Change:
    """A row of the history as a value."""
    fields, jobs, cuts = (json.loads(row[name]) for name in ("fields", "jobs", "cuts"))
    piece, version, at, who = row["piece"], row["version"], row["at"], row["who"]
    return Change(piece, version, at, who, row["what"], row["says"], dict(fields), tuple(jobs), tuple(cuts))
