"""The whole rack in an SQLite file of its own, which is used again by naming it with --rack."""

import sqlite3
from pathlib import Path
from typing import TYPE_CHECKING

from bickern.book.database.work import Book, looked
from bickern.measure.finding import Finding, stop

if TYPE_CHECKING:
    from sqlalchemy import Connection


def backup(book: Book, path: Path) -> Path | Finding:
    """Writes all of it, as of one moment, while others may go on working; a file that is there is never overwritten.

    From SQLite by its own online copy; from a server row by row into tables of the same form, the day book too.
    """
    beside = path.with_name(path.name + ".part")
    if path.exists() or beside.exists():
        return stop("file-there", f"{path} is there already and stays as it is", "give another name")
    if not path.parent.is_dir():
        return stop("no-folder", f"there is no folder {path.parent}", "make it first")
    written = _from_file(book, beside) if book.file else _from_server(book, beside)
    if isinstance(written, Finding):
        beside.unlink(missing_ok=True)
        return written
    return beside.replace(path)


def _from_file(book: Book, path: Path) -> Finding | None:
    def copy(connection: "Connection") -> Finding | None:
        there = connection.connection.driver_connection
        assert isinstance(there, sqlite3.Connection), "a file is SQLite"
        try:
            with sqlite3.connect(path) as to:
                there.backup(to)
            to.close()
        except sqlite3.Error as fault:
            return _not_written(path, fault)
        return None

    # nothing is read first: a transaction of our own would keep the copy from being taken
    return looked(book, copy)


def _from_server(book: Book, path: Path) -> Finding | None:
    """Every table of the newest step, copied in the order in which they hang on one another."""
    from bickern.book.database.open import open_book

    to = open_book(path)
    if isinstance(to, Finding):
        return to
    done = looked(book, lambda connection: _rows_over(connection, to))
    to.close()
    return done


def _rows_over(connection: "Connection", to: Book) -> Finding | None:
    from sqlalchemy import MetaData

    from bickern.book.database.age import TABLE
    from bickern.book.database.work import changed

    connection.exec_driver_sql("SET TRANSACTION ISOLATION LEVEL REPEATABLE READ, READ ONLY")

    def write(there: "Connection") -> Finding | None:
        there.exec_driver_sql("PRAGMA defer_foreign_keys = ON")  # a drop may be copied before the bar that it is of
        tables = MetaData()
        tables.reflect(there)
        for table in (t for t in tables.sorted_tables if t.name != TABLE):
            there.execute(table.delete())
            rows = [dict(row) for row in connection.execute(table.select()).mappings()]
            if rows:
                there.execute(table.insert(), rows)
        return None

    return changed(to, write)


def _not_written(path: Path, fault: Exception) -> Finding:
    says = f"the backup cannot be written into {path} ({fault})"
    return stop("backup-not-written", says, "is the disk full, or the folder closed to you? the rack is as it was")
