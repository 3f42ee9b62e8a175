"""The whole rack in an SQLite file of its own, which is used again by naming it with --rack."""

import os
import sqlite3
from contextlib import closing, suppress
from pathlib import Path
from typing import TYPE_CHECKING

from bickern.book.database.work import Book, looked
from bickern.measure.finding import Finding, stop

if TYPE_CHECKING:
    from sqlalchemy import Connection

_OF_SQLITE = ("-journal", "-wal", "-shm")
"""Ends of names that SQLite uses beside a database; a leftover journal is undone into it and taken away."""


def backup(book: Book, path: Path) -> Path | Finding:
    """Writes all of it, as of one moment, while others may go on working; a file that is there is never overwritten.

    From SQLite by its own online copy; from a server row by row into tables of the same form, the day book too.
    """
    beside = path.with_name(path.name + ".part")
    try:
        wrong = _wrong_name(path, beside)
        if wrong is not None:
            return wrong
        written = _from_file(book, beside) if book.file else _from_server(book, beside)
        return written if isinstance(written, Finding) else _named(beside, path)
    except OSError as fault:
        return _not_written(path, fault.strerror or str(fault))


def _wrong_name(path: Path, beside: Path) -> Finding | None:
    if path.name.endswith(_OF_SQLITE):
        says = f"{path.name} is a name that the database uses itself: what stands there it may take away"
        return stop("backup-name", says, "give another name")
    if not path.parent.is_dir():
        return stop("no-folder", f"there is no folder {path.parent}", "make it first")
    for one in (path, beside):
        if one.exists() or one.is_symlink():
            return _there(one)
    return None


def _there(path: Path) -> Finding:
    left = path.suffix == ".part"
    way = "it may be left of a backup that was cut short: take it away, or " if left else ""
    return stop("file-there", f"{path} is there already and stays as it is", f"{way}give another name")


def _named(beside: Path, path: Path) -> Path | Finding:
    """The finished copy under its name, written through to the disk; never over a file that came meanwhile."""
    try:
        path.hardlink_to(beside)
        beside.unlink()
    except FileExistsError:
        beside.unlink()
        return _there(path)
    except OSError:  # a disk that knows no second names
        beside.rename(path)
    with suppress(OSError):  # not every system lets a folder be opened
        folder = os.open(path.parent, os.O_RDONLY)
        try:
            os.fsync(folder)
        finally:
            os.close(folder)
    return path


def _from_file(book: Book, path: Path) -> Finding | None:
    def copy(connection: "Connection") -> Finding | None:
        there = connection.connection.driver_connection
        assert isinstance(there, sqlite3.Connection), "a file is SQLite"
        # read first: who is in the midst of a commit is waited for no longer than elsewhere, and not for ever
        connection.exec_driver_sql("SELECT count(*) FROM sqlite_master").all()
        try:
            with closing(sqlite3.connect(path)) as to:
                there.backup(to)
        except sqlite3.Error as fault:
            return _not_written(path, str(fault))
        return None

    return _or_nothing(path, looked(book, copy))


def _or_nothing(path: Path, written: Finding | None) -> Finding | None:
    """Of a copy that failed, nothing is left."""
    if written is not None:
        for left in (path, path.with_name(f"{path.name}-journal")):
            left.unlink(missing_ok=True)
    return written


def _from_server(book: Book, path: Path) -> Finding | None:
    """Every table of the newest step, copied in the order in which they hang on one another."""
    from bickern.book.database.open import open_book

    to = open_book(path)
    if isinstance(to, Finding):
        return _or_nothing(path, to)
    done = looked(book, lambda connection: _rows_over(connection, to))
    to.close()
    return _or_nothing(path, done)


def _rows_over(connection: "Connection", to: Book) -> Finding | None:
    from sqlalchemy import MetaData

    from bickern.book.database.age import TABLE
    from bickern.book.database.work import changed

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


def _not_written(path: Path, why: str) -> Finding:
    says = f"the backup cannot be written into {path} ({why})"
    return stop("backup-not-written", says, "is the disk full, or the folder closed to you? the rack is as it was")
