"""One reading or one change of the rack: whole or not at all, and a fault of the database is a finding."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import TYPE_CHECKING, TypeVar

from bickern.book.database.engine import connected
from bickern.book.database.faults import finding_of, unsure
from bickern.measure.finding import Finding

if TYPE_CHECKING:
    from sqlalchemy import Connection, Engine

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Book:
    """An open database. `name`: as it may be shown, without a password; `found`: what is to be said of its opening.

    `file`: whether it is a file of its own, and not on a server.
    """

    engine: "Engine"
    name: str
    file: bool
    found: tuple[Finding, ...] = ()

    def close(self) -> None:
        """Lets go of it."""
        self.engine.dispose()


class _TakenBack(Exception):  # noqa: N818 - it is no error: it carries a finding out of a transaction
    def __init__(self, finding: Finding) -> None:
        self.finding = finding


def moment() -> str:
    """This moment in UTC, to the second (ISO 8601)."""
    return datetime.now(UTC).strftime("%Y-%m-%dT%H:%M:%SZ")


def looked(book: Book, look: "Callable[[Connection], T]") -> "T | Finding":
    """What `look` reads, all of it as of one moment."""
    return _done(book, look, changes=False)


def changed(book: Book, change: "Callable[[Connection], T | Finding]") -> "T | Finding":
    """Does a change in one transaction; where `change` returns a finding that stops, nothing of it has happened."""
    return _done(book, change, changes=True)


def _done(book: Book, work: "Callable[[Connection], T | Finding]", *, changes: bool) -> "T | Finding":
    from sqlalchemy.exc import DBAPIError

    sent = False
    try:
        with connected(book.engine, changes=changes) as connection, connection.begin():
            done = work(connection)
            if isinstance(done, Finding) and done.stops:
                raise _TakenBack(done)
            sent = changes  # from here on all is said to the database but the last word: that it is to stay
            return done
    except _TakenBack as back:
        return back.finding
    except DBAPIError as fault:
        return unsure(book.name) if sent and fault.connection_invalidated else finding_of(fault, book.name)
