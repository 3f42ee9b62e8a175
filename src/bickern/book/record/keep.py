"""Adds to the day book, and reads it: one transaction a record, and nothing is ever changed or taken out."""

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

from bickern.book.database.work import Book, changed, looked, moment
from bickern.book.record.form import body_of, record_of
from bickern.making.lessons.record import Record, Reset
from bickern.measure.finding import Finding

if TYPE_CHECKING:
    from sqlalchemy import Connection


@dataclass(frozen=True, slots=True)
class DayBook:
    """All that was kept, in order; `found`: records that could not be read."""

    records: tuple[Record, ...] = ()
    resets: tuple[Reset, ...] = ()
    found: tuple[Finding, ...] = ()

    def before(self, job: str, piece: str) -> int:
        """How many of a piece of a job were recorded so far, those that nothing is learnt from too."""
        mine = (r for r in self.records if (r.foresight.job, r.foresight.piece) == (job, piece))
        return sum(record.told.made for record in mine)


def keep(book: Book, record: Record) -> Record | Finding:
    """Writes one record; it comes back with its number and its hour."""
    kept = replace(record, when=record.when or moment())
    row = {
        "what": "record", "at": kept.when, "who": kept.who, "job": kept.foresight.job, "piece": kept.foresight.piece,
        "figure": "", "made": kept.told.made, "refused": kept.refused, "remark": kept.told.remark,
        "body": body_of(kept),
    }  # fmt: skip
    number = changed(book, lambda connection: _added(connection, row))
    return number if isinstance(number, Finding) else replace(kept, number=number)


def set_back(book: Book, reset: Reset) -> Reset | Finding:
    """Writes that a figure starts anew; it comes back with its number and its hour."""
    kept = replace(reset, when=reset.when or moment())
    row = dict.fromkeys(("job", "piece", "refused", "remark", "body"), "")
    row |= {"what": "reset", "at": kept.when, "who": kept.who, "figure": kept.figure}
    number = changed(book, lambda connection: _added(connection, {**row, "made": 0}))
    return number if isinstance(number, Finding) else replace(kept, number=number)


def day_book(book: Book) -> DayBook | Finding:
    """All records and resets, as of one moment."""
    from sqlalchemy import select

    from bickern.book.record.tables import DAY_BOOK

    rows = looked(book, lambda connection: connection.execute(select(DAY_BOOK).order_by(DAY_BOOK.c.number)).all())
    return rows if isinstance(rows, Finding) else _read(rows)


def _read(rows: Any) -> DayBook:
    read = [record_of(r.body, r.number, r.at, r.who, r.refused) for r in rows if r.what == "record"]
    resets = (Reset(r.figure, r.at, r.who, r.number) for r in rows if r.what == "reset")
    records = (one for one in read if isinstance(one, Record))
    return DayBook(tuple(records), tuple(resets), tuple(one for one in read if isinstance(one, Finding)))


def _added(connection: "Connection", row: dict[str, Any]) -> int:
    from bickern.book.record.tables import DAY_BOOK

    signs = {name: _signs(value) if isinstance(value, str) else value for name, value in row.items()}
    key = connection.execute(DAY_BOOK.insert().values(**signs)).inserted_primary_key
    assert key is not None, "a row that is written has a number"
    return int(key[0])


def _signs(text: str) -> str:
    """The text with a `?` for what is no sign at all: a byte of another spelling, or a nought."""
    return text.replace("\0", "?").encode("utf-8", "replace").decode("utf-8")
