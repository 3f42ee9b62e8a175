"""Whether a rack hangs together: the file itself, each piece against its history, and the metal."""

from collections import defaultdict
from collections.abc import Iterator, Mapping
from contextlib import suppress
from typing import TYPE_CHECKING, Any

from bickern.book.database.work import Book, looked
from bickern.book.rack.history import Change, change_of
from bickern.book.rack.rows import COLUMNS, KEPT, piece_of
from bickern.book.rack.take import SLACK
from bickern.measure.finding import Finding, stop

if TYPE_CHECKING:
    from sqlalchemy import Connection

MOST = 50
"""Faults that are told of at once."""


def check(book: Book) -> tuple[Finding, ...]:
    """Everything that does not hang together; nothing is changed."""
    found = looked(book, lambda connection: tuple(_faults(connection, book.file)))
    return (found,) if isinstance(found, Finding) else found[:MOST]


def _faults(connection: "Connection", file: bool) -> Iterator[Finding]:
    yield from _file_faults(connection) if file else ()
    pieces, changes = _all(connection)
    for piece_id, row in pieces.items():
        yield from _against_history(row, changes.get(piece_id, []))
    yield from _unreadable(pieces)
    yield from _numbers_given(connection, pieces)
    yield from _more_out_than_in(pieces)


def _file_faults(connection: "Connection") -> Iterator[Finding]:
    """What SQLite itself finds wrong with its file."""
    said = [str(row[0]) for row in connection.exec_driver_sql("PRAGMA integrity_check")]
    lost = connection.exec_driver_sql("PRAGMA foreign_key_check").all()
    if said != ["ok"] or lost:
        says = f"the file itself is damaged: {'; '.join(said)[:200]}"
        yield stop("rack-file-damaged", says, "take the last backup, and keep this file")


def _all(connection: "Connection") -> tuple[dict[str, Mapping[Any, Any]], dict[str, list[Change]]]:
    from bickern.book.database.tables import CHANGE, PIECE

    rows = connection.execute(PIECE.select().order_by(PIECE.c.number)).mappings()
    pieces: dict[str, Mapping[Any, Any]] = {row["id"]: row for row in rows}
    changes: dict[str, list[Change]] = defaultdict(list)
    for row in connection.execute(CHANGE.select().order_by(CHANGE.c.version)).mappings():
        with suppress(ValueError, TypeError):  # one that cannot be read is missing, and is told of as such
            changes[row["piece"]].append(change_of(row))
    return pieces, changes


def _against_history(row: Mapping[Any, Any], changes: list[Change]) -> Iterator[Finding]:
    """The changes one after another must give the piece, one for each version."""
    told: dict[str, Any] = {}
    for change in changes:
        told |= change.fields
    apart = [name for name in KEPT if told.get(name, "?") != row[name]]
    if [change.version for change in changes] != list(range(1, row["version"] + 1)) or apart:
        says = f"{row['id']} is not what its history tells ({', '.join(apart) or 'a change is missing'})"
        yield stop("history-differs", says, "somebody wrote into the database by another way: look at the piece itself")


def _unreadable(pieces: Mapping[str, Mapping[Any, Any]]) -> Iterator[Finding]:
    for piece_id, row in pieces.items():
        try:
            piece_of([row[name] for name in COLUMNS])
        except (ValueError, TypeError, ArithmeticError) as wrong:
            says = f"{piece_id} cannot be read: {str(wrong)[:80]}"
            yield stop("stock-unreadable", says, "take the last backup, and keep this file")


def _numbers_given(connection: "Connection", pieces: Mapping[str, Mapping[Any, Any]]) -> Iterator[Finding]:
    from bickern.book.database.tables import COUNTER

    given = {row["kind"]: row["last"] for row in connection.execute(COUNTER.select()).mappings()}
    for kind in ("bar", "sheet"):
        highest = max((row["number"] for row in pieces.values() if row["kind"] == kind), default=0)
        if highest > given.get(kind, -1):
            says = f"a {kind} has the number {highest}, and only {given.get(kind, 0)} were given out"
            yield stop("number-given-twice", says, "take the last backup, and keep this file")


def _more_out_than_in(pieces: Mapping[str, Mapping[Any, Any]]) -> Iterator[Finding]:
    """What was left of a bar cannot be longer in all than the bar was."""
    out: dict[str, float] = defaultdict(float)
    for row in pieces.values():
        if row["of"] and row["kind"] == "bar":
            out[row["of"]] += row["length"]
    for piece_id, length in out.items():
        whole = pieces.get(piece_id)
        if whole is not None and length > whole["length"] * (1 + SLACK):
            yield stop(
                "more-left-than-there-was", f"more is left of {piece_id} than there was of it", "measure what is left"
            )
