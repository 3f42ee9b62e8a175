"""Adds to the day book, and reads it: one transaction a record, and nothing is ever changed or taken out.

A record that was a slip is struck: it stays in the book, marked, and counts for nothing.
"""

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

from bickern.book.database.work import Book, changed, looked, moment
from bickern.book.record.form import body_of, record_of
from bickern.making.lessons.record import Record, Reset, Strike
from bickern.measure.finding import Finding, stop

if TYPE_CHECKING:
    from sqlalchemy import Connection


@dataclass(frozen=True, slots=True)
class DayBook:
    """All that was kept, in order: the records that count, and those that were `struck`.

    `found`: records that could not be read, and were not struck.
    """

    records: tuple[Record, ...] = ()
    resets: tuple[Reset, ...] = ()
    found: tuple[Finding, ...] = ()
    struck: tuple[Record, ...] = ()

    @property
    def every(self) -> tuple[Record, ...]:
        """All records that can be read, struck or not, in order."""
        return tuple(sorted((*self.records, *self.struck), key=lambda record: record.number))

    def before(self, job: str, piece: str) -> int:
        """How many of a piece of a job were recorded so far, those that nothing is learnt from too, but none struck."""
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


def strike(book: Book, number: int, who: str = "", because: str = "") -> Strike | Finding:
    """Strikes a record: it stays as it is, marked with the hour, and counts for nothing from now on."""
    asked = Strike(number, moment(), who, because)
    return changed(book, lambda connection: _struck(connection, asked))


def _struck(connection: "Connection", asked: Strike) -> Strike | Finding:
    from sqlalchemy import select

    from bickern.book.record.tables import DAY_BOOK, STRUCK

    # on a server the row is held, so that of two who strike it at once the second sees what the first has done
    there = select(DAY_BOOK.c.what).where(DAY_BOOK.c.number == asked.number).with_for_update()
    what = connection.execute(there).scalar() if 0 < asked.number <= _LARGEST else None
    if what != "record":
        return no_such_record(asked.number, reset=what is not None)
    before = connection.execute(select(STRUCK).where(STRUCK.c.number == asked.number)).first()
    if before is not None:
        says = f"record {asked.number} was struck already ({before.at}{f', {before.who}' if before.who else ''})"
        return stop("record-struck-already", says, "it counts for nothing; there is no more to do")
    row = {"number": asked.number, "at": asked.when, "who": _signs(asked.who), "because": _signs(asked.because)}
    connection.execute(STRUCK.insert().values(**row))
    return asked


_LARGEST = 2**31 - 1
"""No number of a record is larger: that is what the column holds on a server."""


def no_such_record(number: int, *, reset: bool = False) -> Finding:
    """A number that no record has; `reset`: a figure that was set back has it."""
    other = ": with that number a figure was set back" if reset else ""
    says = f"there is no record {number} in the day book{other}"
    return stop("no-such-record", says, "`bickern record JOB --list` shows the records of a job with their numbers")


def day_book(book: Book) -> DayBook | Finding:
    """All records and resets, as of one moment."""
    from sqlalchemy import select

    from bickern.book.record.tables import DAY_BOOK, STRUCK

    rows = looked(
        book,
        lambda connection: (
            connection.execute(select(DAY_BOOK).order_by(DAY_BOOK.c.number)).all(),
            connection.execute(select(STRUCK)).all(),
        ),
    )
    return rows if isinstance(rows, Finding) else _read(*rows)


def _read(rows: Any, strikes: Any) -> DayBook:
    struck = {r.number: Strike(r.number, r.at, r.who, r.because) for r in strikes}
    read = [(r.number, record_of(r.body, r.number, r.at, r.who, r.refused)) for r in rows if r.what == "record"]
    resets = (Reset(r.figure, r.at, r.who, r.number) for r in rows if r.what == "reset")
    records = [one for _, one in read if isinstance(one, Record)]
    return DayBook(
        tuple(one for one in records if one.number not in struck),
        tuple(resets),
        tuple(one for number, one in read if isinstance(one, Finding) and number not in struck),
        tuple(replace(one, struck=struck[one.number]) for one in records if one.number in struck),
    )


def _added(connection: "Connection", row: dict[str, Any]) -> int:
    from bickern.book.record.tables import DAY_BOOK

    signs = {name: _signs(value) if isinstance(value, str) else value for name, value in row.items()}
    key = connection.execute(DAY_BOOK.insert().values(**signs)).inserted_primary_key
    assert key is not None, "a row that is written has a number"
    return int(key[0])


def _signs(text: str) -> str:
    """The text with a `?` for what is no sign at all: a byte of another spelling, or a nought."""
    return text.replace("\0", "?").encode("utf-8", "replace").decode("utf-8")
