"""What stands in the day book, listed by number; and a slip, struck: it stays there, and counts for nothing."""

from collections.abc import Iterator
from dataclasses import dataclass

from bickern.book.database.work import Book
from bickern.book.job.asked import Job
from bickern.book.record.keep import DayBook, day_book, no_such_record
from bickern.book.record.keep import strike as struck_in
from bickern.desk.daybook.keep import Rest, rest_of
from bickern.making.lessons.learn import Lessons, lessons_of, own_of
from bickern.making.lessons.record import Record, Reset, Strike, Told
from bickern.making.shop import Shop
from bickern.measure.finding import Finding, stop
from bickern.measure.units.say import say_both, say_decimal, say_mass_both
from bickern.measure.units.words import Style

ListRow = tuple[str, str, str, str]
LIST_HEADS: ListRow = ("number", "when (UTC)", "of", "what was told")
"""Above the records as they are listed."""


@dataclass(frozen=True, slots=True)
class Struck:
    """A record that was struck (None: one that cannot be read), the figures before and after, and the rest of the lot.

    `rest`: what is still to be made, as it was reckoned with the record and as it is without (None: not known).
    """

    record: Record | None
    strike: Strike
    before: Lessons
    after: Lessons
    rest: Rest | None


def strike(
    number: int, shop: Shop, book: Book | None, job: Job | None = None, piece: str = "", who: str = "", why: str = ""
) -> Struck | Finding:
    """Strikes a record by its number; of no other `job`, and no other `piece`, where those are told.

    It stays in the book with the hour, and counts for nothing: not in what is learnt, nor in how many were made.
    """
    read = DayBook() if book is None else day_book(book)
    if isinstance(read, Finding) or book is None:
        return read if isinstance(read, Finding) else no_such_record(number)
    record = next((one for one in read.every if one.number == number), None)
    if record is not None and job is not None and not _is_of(record, job.title, piece):
        return _of_another(record)
    done = struck_in(book, number, who, why)
    if isinstance(done, Finding):
        return done
    left = [one for one in read.records if one.number != number]
    before, after = (lessons_of(records, read.resets, shop) for records in (read.records, left))
    return Struck(record, done, before, after, _rest(record, left, job, (own_of(shop, before), own_of(shop, after))))


def _rest(record: Record | None, left: list[Record], job: Job | None, shops: tuple[Shop, Shop]) -> Rest | None:
    """What is still to be made of the piece, now that those of the record are not counted any more."""
    if record is None or job is None or record.refused or job.piece(record.foresight.piece) is None:
        return None
    made = DayBook(tuple(left)).before(job.title, record.foresight.piece)
    return rest_of(job, record.foresight.piece, shops, record.foresight.make - made)


def _is_of(record: Record, job: str, piece: str) -> bool:
    return record.foresight.job == job and piece in ("", record.foresight.piece)


def _of_another(record: Record) -> Finding:
    of = f"“{record.foresight.piece}”, {record.foresight.job}" if record.foresight.piece else record.foresight.job
    way = "name the file of that job; where it is gone, or has another title now: `bickern learned --strike NUMBER`"
    return stop("record-of-another-job", f"record {record.number} is of {of}: it was not struck", way)


# ---- listed


def list_rows(read: DayBook, style: Style, job: str | None = None, piece: str = "") -> tuple[ListRow, ...]:
    """The records in order, of one job or (None) of all with what was set back; those that were struck say so."""
    records = [one for one in read.every if job is None or _is_of(one, job, piece)]
    rows = [(one.number, _record(one, style, whole=job is None)) for one in records]
    rows += [(one.number, _reset(one)) for one in read.resets if job is None]
    return tuple(row for _, row in sorted(rows))


def _record(record: Record, style: Style, *, whole: bool) -> ListRow:
    ahead = record.foresight
    name = f"“{ahead.piece}”" if ahead.piece else "the whole job"
    of = f"{name}, {ahead.job}" if whole else name
    return str(record.number), _when(record.when, record.who), of, "; ".join(_said(record, style))


def _reset(reset: Reset) -> ListRow:
    what = f"`{reset.figure}`" if reset.figure else "every figure"
    return str(reset.number), _when(reset.when, reset.who), what, "starts anew from here"


def _when(moment: str, who: str) -> str:
    return ", ".join(one for one in (moment[:16].replace("T", " "), who) if one)


def _said(record: Record, style: Style) -> Iterator[str]:
    if (strike := record.struck) is not None:
        why = f": {strike.because}" if strike.because else ""
        yield f"STRUCK ({_when(strike.when, strike.who)}){why}"
    elif record.refused:
        yield "nothing is learnt from it: more metal out than in"
    yield from told_says(record.told, style)


def _minutes(seconds: float, style: Style) -> str:
    """As it was told, and not to the round figure that a foresight is told by."""
    return f"{say_decimal(seconds / 60.0, 1, style)} min"


def told_says(told: Told, style: Style) -> Iterator[str]:
    """What was told, each figure in the shop's own way."""
    if told.made > 1:
        yield f"{told.made} made"
    lengths = (("stock", told.stock), ("left", told.left), ("collar", told.collar), *told.reached)
    yield from (f"{name} {say_both(length, style)}" for name, length in lengths if length is not None)
    weights = (("weight before", told.weighed_before), ("weight after", told.weighed_after))
    yield from (f"{name} {say_mass_both(mass, style)}" for name, mass in weights if mass is not None)
    counts = (("heats", told.heats), ("blows", told.blows))
    yield from (f"{name} {say_decimal(count, 1, style)}" for name, count in counts if count is not None)
    if told.seconds is not None:
        yield f"{_minutes(told.seconds, style)} in all"
    yield from (f"{name} {_minutes(seconds, style)}" for name, seconds in told.works)
    if told.remark:
        yield f"“{told.remark}”"
