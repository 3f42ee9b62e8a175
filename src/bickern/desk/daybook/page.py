"""A page of the day book as it is filled in: a job, the shop, the open book; what was foreseen, what is then told."""

from dataclasses import dataclass, replace
from pathlib import Path

from bickern.book.database.work import Book
from bickern.book.job.asked import Job
from bickern.book.record.keep import DayBook, day_book
from bickern.desk.answer import Row
from bickern.desk.asker import shop_at
from bickern.desk.daybook.keep import Kept, figures, foresee, record, reset, with_bar
from bickern.desk.daybook.listed import ListRow, Struck, list_rows, strike
from bickern.desk.daybook.retold import Words, told_of
from bickern.desk.daybook.rows import FigureRow, as_json, figure_rows, form_rows, moved_rows, rest_rows, what_they_are
from bickern.desk.rack.rack import me, opened
from bickern.desk.reckon import reckon_file
from bickern.desk.work.heats import no_such_piece
from bickern.making.lessons.record import Foresight
from bickern.making.shop import Shop
from bickern.measure.finding import Finding, Where, note, stop
from bickern.measure.units.words import Read

BEGUN = "`bickern record JOB` begins it; is --rack, or BICKERN_RACK, the one you mean?"
NO_WORDS = Words()


@dataclass(frozen=True, slots=True)
class Page:
    """A job in this shop, and the day book (None: nobody has begun one, and nothing is to be written)."""

    job: Job
    shop: Shop
    book: Book | None

    def close(self) -> None:
        """Lets go of the book."""
        if self.book is not None:
            self.book.close()


@dataclass(frozen=True, slots=True)
class Filled:
    """What was kept, in words: its first line, what it taught, what the rest takes (under a title), what was found."""

    says: tuple[str, ...]
    taught: tuple[Row, ...]
    rest: tuple[str, tuple[Row, ...]]
    findings: tuple[Finding, ...]


@dataclass(frozen=True, slots=True)
class Learnt:
    """Every figure in words, what they are, what was set aside; the same as JSON; what was found."""

    rows: tuple[FigureRow, ...]
    meanings: tuple[Row, ...]
    aside: tuple[str, ...]
    json: str
    findings: tuple[Finding, ...]


def page_of(job: Path, shop: Path | None, rack: str | None, *, write: bool) -> Read[Page]:
    """The page for a job file; only where something is to be written is a book begun that is not there."""
    done = reckon_file(job, shop)
    if done.job is None or done.copy is None:
        return Read(None, done.findings)
    book = _opened(rack, write=write)
    return Read(None, (book,)) if isinstance(book, Finding) else Read(Page(done.job, done.copy.shop, book))


def _opened(rack: str | None, *, write: bool) -> Book | Finding | None:
    book = opened(rack, make=write)
    return None if isinstance(book, Finding) and book.name == "no-rack" and not write else book


def form(page: Page, piece: str | None, words: Words, bar: str | None = None) -> Read[tuple[str, tuple[Row, ...]]]:
    """What can be told of a piece and what was foreseen, under its title."""
    read = _ahead(page, piece, words, bar)
    if read.value is None:
        return Read(None, read.findings)
    _, ahead = read.value
    return Read((f"What can be told of {_called(ahead)}, {ahead.job}", form_rows(ahead, page.shop.style)))


def filled(page: Page, piece: str | None, words: Words, bar: str | None = None, who: str | None = None) -> Read[Filled]:
    """Keeps what is told, and says what came of it; no value where it cannot be read, and then nothing is kept."""
    read = _ahead(page, piece, words, bar)
    if read.value is None or page.book is None:
        return Read(None, read.findings)
    made_so, ahead = read.value
    told = told_of(words, ahead, page.job.units or page.shop.style.first)
    if told.value is None:
        return Read(None, told.findings)
    kept = record(made_so.job, ahead, told.value, page.shop, page.book, me() if who is None else who)
    if isinstance(kept, Finding):
        return Read(None, (*told.findings, kept))
    return Read(_filled(kept, page.shop, told.findings))


def _filled(kept: Kept, shop: Shop, found: tuple[Finding, ...]) -> Filled:
    ahead = kept.record.foresight
    says = [f"Record {kept.record.number} is kept: {_called(ahead)}, {ahead.made} made, {ahead.job}."]
    taught = moved_rows(kept.before, kept.after, shop)
    if not taught and not kept.record.refused:
        says.append("It moved no figure of this shop by much.")
    if kept.aside:
        says.append(f"Set aside, for it is far off all that was recorded before: {', '.join(kept.aside)}.")
    rest = ("", ()) if kept.rest is None else (f"The other {kept.rest.rest}", rest_rows(kept.rest, shop.style))
    return Filled(tuple(says), taught, rest, (*found, *kept.findings))


def listed(page: Page, piece: str | None = None, words: Words = NO_WORDS) -> Read[tuple[str, tuple[ListRow, ...]]]:
    """The records of a job, or of one piece of it, by their numbers, under a title; nothing is told beside that."""
    wrong = _no_piece(page.job, piece)
    if wrong is None and words.anything:
        says = "what is told beside --list was not kept: records are listed by themselves"
        wrong = stop("listed-by-itself", says, "leave --list out to record it")
    if wrong is not None:
        return Read(None, (wrong,))
    read = DayBook() if page.book is None else day_book(page.book)
    if isinstance(read, Finding):
        return Read(None, (read,))
    rows = list_rows(read, page.shop.style, page.job.title, piece or "")
    title = f"Records of {page.job.title}" if rows else f"There is no record of {page.job.title} yet."
    return Read((title, rows), read.found)


def struck(
    page: Page, number: int, piece: str | None = None, words: Words = NO_WORDS, who: str | None = None
) -> Read[Filled]:
    """Strikes a record of this job, and says what came of it; a remark tells why. No value where nothing was struck."""
    wrong = _no_piece(page.job, piece)
    if wrong is None and (words.single or words.reached or words.works):
        says = f"record {number} was not struck, and nothing was kept: one is struck by itself"
        wrong = stop("struck-by-itself", says, "strike it first, with no figure beside it, then record it again")
    if wrong is not None:
        return Read(None, (wrong,))
    name = me() if who is None else who
    done = strike(number, page.shop, page.book, page.job, piece or "", name, words.plain_remark)
    return Read(None, (done,)) if isinstance(done, Finding) else Read(_struck(done, page.shop))


def _struck(done: Struck, shop: Shop) -> Filled:
    of = f", {_called(done.record.foresight)}, {done.record.foresight.job}" if done.record is not None else ""
    says = f"Record {done.strike.number}{of}, is struck: it stays in the day book, and counts for nothing any more."
    rest = ("", ()) if done.rest is None else (f"Still to be made: {done.rest.rest}", rest_rows(done.rest, shop.style))
    return Filled((says,), moved_rows(done.before, done.after, shop), rest, ())


def _no_piece(job: Job, piece: str | None) -> Finding | None:
    if not piece or job.piece(piece) is not None:
        return None
    return no_such_piece(piece, [spec.name for spec in job.pieces]).at(Where(job.file))


def every_record(shop_path: Path | None, rack: str | None) -> Read[tuple[str, tuple[ListRow, ...]]]:
    """The whole day book by its numbers, of all jobs, under a title."""
    shop, found = shop_at(shop_path)
    book = _opened(rack, write=False)
    if book is None:
        return Read(("The day book is empty.", ()), (*found, note("no-day-book", "there is no day book yet", BEGUN)))
    if isinstance(book, Finding):
        return Read(None, (*found, book))
    read = day_book(book)
    book.close()
    if isinstance(read, Finding):
        return Read(None, (*found, read))
    rows = list_rows(read, shop.style)
    return Read(("The day book" if rows else "The day book is empty.", rows), (*found, *read.found))


def strike_any(number: int, shop_path: Path | None, rack: str | None, who: str | None = None) -> Read[Filled]:
    """Strikes a record of whatever job, as of one whose file is gone."""
    shop, found = shop_at(shop_path)
    book = _opened(rack, write=False)
    if isinstance(book, Finding):
        return Read(None, (*found, book))
    done = strike(number, shop, book, who=me() if who is None else who)
    if book is not None:
        book.close()
    if isinstance(done, Finding):
        return Read(None, (*found, done))
    filled_in = _struck(done, shop)
    return Read(replace(filled_in, findings=found))


def learnt(shop_path: Path | None, rack: str | None, back: str | None = None, who: str | None = None) -> Read[Learnt]:
    """Every figure of this shop; `back`: one that is first set back, by its name."""
    shop, found = shop_at(shop_path)
    book = _opened(rack, write=back is not None)
    if isinstance(book, Finding):
        return Read(None, (*found, book))
    try:
        return _learnt(shop, book, back, me() if who is None else who, found)
    finally:
        if book is not None:
            book.close()


def _learnt(shop: Shop, book: Book | None, back: str | None, who: str, found: tuple[Finding, ...]) -> Read[Learnt]:
    done = reset(book, back, who) if back is not None and book is not None else None
    lessons = done if isinstance(done, Finding) else figures(shop, book)
    if isinstance(lessons, Finding):
        return Read(None, (*found, lessons))
    aside = (
        f"Record {number} is so far off all others that its {kind} is set aside." for number, kind, _ in lessons.aside
    )
    rows, meanings = figure_rows(lessons, shop), what_they_are(lessons)
    if book is None:
        found = (*found, note("no-day-book", "there is no day book yet: these are the first guesses", BEGUN))
    return Read(Learnt(rows, meanings, tuple(aside), as_json(lessons), found))


def _ahead(page: Page, piece: str | None, words: Words, bar: str | None) -> Read[tuple[Page, Foresight]]:
    """What was foreseen of a piece, and the page with the bar that it was really made from."""
    name = piece or (page.job.pieces[0].name if len(page.job.pieces) == 1 else "")
    if words.many.value is None:
        return Read(None, words.many.findings)
    job = with_bar(page.job, name, bar) if bar else page.job
    if isinstance(job, Finding):
        return Read(None, (job,))
    if not name and words.of_one_piece:
        names = ", ".join(f"“{spec.name}”" for spec in page.job.pieces)
        fault = stop("which-piece", "this job has several pieces", f"say which one behind the job: {names}")
        return Read(None, (fault,))
    ahead = foresee(job, name, page.shop, page.book, words.many.value)
    return Read(None, (ahead,)) if isinstance(ahead, Finding) else Read((replace(page, job=job), ahead))


def _called(ahead: Foresight) -> str:
    return f"“{ahead.piece}”" if ahead.piece else "the whole job"
