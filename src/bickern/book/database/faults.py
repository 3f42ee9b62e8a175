"""What a database complains of, in the smith's words: no exception of the library gets past this room."""

import sqlite3
from typing import TYPE_CHECKING

from bickern.measure.finding import Finding, stop

if TYPE_CHECKING:
    from sqlalchemy.exc import DBAPIError

_BUSY = (sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED, "55P03", "40001", "40P01", "57014")
_FULL = (sqlite3.SQLITE_FULL, sqlite3.SQLITE_IOERR, "53100", "53200", "54000")
_DENIED = (sqlite3.SQLITE_READONLY, sqlite3.SQLITE_PERM, sqlite3.SQLITE_AUTH, "42501", "25006", "28000", "28P01")
_OTHER_KIND = (sqlite3.SQLITE_NOTADB,)
_DAMAGED = (sqlite3.SQLITE_CORRUPT, "XX001", "XX002")
_CLOSED = (sqlite3.SQLITE_CANTOPEN,)
"""SQLite's result codes by their names; PostgreSQL's five signs as its manual lists them (from memory)."""


def finding_of(fault: "DBAPIError", name: str) -> Finding:
    """The finding for a fault of the database; `name`: the rack as it may be shown."""
    code = _code(fault)
    if code in _BUSY:
        says = f"the rack {name} is in use: somebody else has been writing into it all this while"
        return stop("rack-busy", says, "wait a moment and say it again: nothing was changed")
    if code in _FULL:
        says = f"the rack {name} cannot be written: the disk is full, or it has a fault"
        return stop("rack-disk-full", says, "make room on the disk and say it again: nothing was changed")
    if code in _DENIED:
        says = f"the rack {name} may only be looked at by you, or not even that"
        return stop("rack-not-yours", says, "ask whoever keeps it for leave to write, or name another with --rack")
    return _unopened(code, fault, name)


def _unopened(code: int | str, fault: "DBAPIError", name: str) -> Finding:
    if code in _OTHER_KIND:
        says = f"{name} is no rack: it is a file of another kind"
        return stop("not-a-rack", says, "look at its name; a list of stock is read with `bickern rack import FILE`")
    if code in _DAMAGED:
        return damaged(name)
    if code in _CLOSED:
        says = f"the rack {name} cannot be opened: there is no such folder, or it is closed to you"
        return stop("rack-not-opened", says, "look at the name and the folder")
    said = " ".join(str(fault.orig).split())[:200]
    says = f"the database of the rack {name} does not do it: {said}"
    return stop("rack-refuses", says, "is the server running, and are name, user and password right?")


def _code(fault: "DBAPIError") -> int | str:
    """SQLite's primary result code, or PostgreSQL's five signs."""
    number = getattr(fault.orig, "sqlite_errorcode", None)
    if isinstance(number, int):
        return number & 0xFF  # what is above tells the same more closely
    return str(getattr(fault.orig, "sqlstate", None) or "")


def no_driver(name: str) -> Finding:
    """PostgreSQL is asked for where nothing that speaks to it is installed."""
    says = f"the rack {name} is on PostgreSQL, and what speaks to it is not installed here"
    return stop("no-postgresql", says, "install it with `pip install 'bickern[postgresql]'`")


def unknown_place(name: str) -> Finding:
    """An address of no database that can be used; `name`: as it may be shown."""
    says = f"`{name}` is neither a file nor the address of a PostgreSQL database"
    return stop("unknown-rack-place", says, "write a file's name, or postgresql://user@server/database")


def not_there(name: str) -> Finding:
    """A rack that nobody has made yet."""
    says = f"there is no rack {name} yet"
    return stop("no-rack", says, "`bickern rack add` or `bickern rack import FILE` makes it")


def no_folder(name: str, why: str) -> Finding:
    """A rack whose folder is not there or cannot be made, or what is there is no file."""
    says = f"the rack {name} cannot be opened or made: {why}"
    return stop("rack-no-folder", says, "make the folder, or name another file with --rack")


def too_new(name: str, step: str) -> Finding:
    """A rack of a newer bickern: nothing is read, for it might be read wrongly."""
    says = f"the rack {name} was written by a newer bickern (its step {step[:40]} is not known here)"
    return stop("rack-too-new", says, "bring bickern up to date; the rack is left as it is")


def not_ours(name: str) -> Finding:
    """A database of another program."""
    says = f"{name} is a database of another program: it holds tables, and none of a rack"
    return stop("not-a-rack", says, "name another file, which need not be there yet")


def unsure(name: str) -> Finding:
    """A server that fell silent at the last word of a change: nobody can tell from here whether it was done."""
    says = f"the server of the rack {name} fell silent at the last moment: this was done whole, or not at all"
    return stop("rack-unsure", says, "look whether it is there (list, history, learned) before you say it again")


def damaged(name: str, why: str = "") -> Finding:
    """A rack in which something is written that cannot be."""
    says = f"the rack {name} is damaged: what is written in it does not hang together{f' ({why[:80]})' if why else ''}"
    return stop("rack-damaged", says, "take the last backup: name its file with --rack, and keep the damaged one")
