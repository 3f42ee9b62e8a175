"""The day book at the desk: what was foreseen, what really happened, and the shop's own figures from both."""

from dataclasses import dataclass, replace
from pathlib import Path

from bickern.book.database.work import Book
from bickern.book.job.asked import Job
from bickern.book.record.keep import day_book, keep, set_back
from bickern.desk.daybook.foresee import foreseen
from bickern.desk.rack.rack import in_book
from bickern.desk.reckon import Reckoning, reckon_job
from bickern.desk.work.heats import planned
from bickern.iron.section import Section, section_from
from bickern.making.heats.lots import lot_of
from bickern.making.lessons.figures import all_figures
from bickern.making.lessons.judge import findings_of
from bickern.making.lessons.kinds import AT
from bickern.making.lessons.learn import Lessons, lessons_of, own_of
from bickern.making.lessons.record import Foresight, Record, Reset, Told
from bickern.making.shop import Shop
from bickern.measure.finding import Finding, stop
from bickern.measure.units.read import read_section
from bickern.measure.units.words import Read
from bickern.parts.bar.result import BarResult
from bickern.parts.bar.tracks import BarSpec
from bickern.parts.ring.spec import RingResult


@dataclass(frozen=True, slots=True)
class Rest:
    """What the rest of a lot takes, before the record and after it: cut of each [m] (0: no bar), heats, seconds in all.

    `cut`, `heats`, `seconds` are (before, after); `rest`: how many are still to be made.
    """

    rest: int
    cut: tuple[float, float]
    heats: tuple[float, float]
    seconds: tuple[float, float]


@dataclass(frozen=True, slots=True)
class Kept:
    """A record as it was kept, the figures before and after it, and what the rest of the lot takes (None: no rest).

    `aside`: kinds of this record that are so far off all others that they were set aside.
    """

    record: Record
    before: Lessons
    after: Lessons
    rest: Rest | None
    findings: tuple[Finding, ...]
    aside: tuple[str, ...] = ()


def own_shop(shop: Shop, book: Book) -> Shop | Finding:
    """The shop with what its day book has taught it; without records the same shop, to the last digit.

    The figures of the shop file (or the house's own) are where the learning starts from.
    """
    read = day_book(book)
    return read if isinstance(read, Finding) else own_of(shop, lessons_of(read.records, read.resets, shop))


def own_shop_at(shop: Shop, where: str | Path | None = None) -> tuple[Shop, tuple[Finding, ...]]:
    """The same from the rack's database there; the shop as it was, and a finding, where there is none."""
    read = in_book(where, lambda book: (own_shop(shop, book), book.found))
    if isinstance(read, Finding):
        return shop, (read,)
    own, found = read
    return (shop, (*found, own)) if isinstance(own, Finding) else (own, found)


def figures(shop: Shop, book: Book | None) -> Lessons | Finding:
    """Every figure: what it was without records, how many speak to it, what it is now (None: no records)."""
    if book is None:
        return lessons_of((), (), shop)
    read = day_book(book)
    return read if isinstance(read, Finding) else lessons_of(read.records, read.resets, shop)


def reset(book: Book, name: str, who: str = "") -> Reset | Finding:
    """Sets a figure back ("all": every one): what was recorded before no longer speaks to it. The records stay."""
    key = figure_named(name)
    if key is None:
        return _no_such_figure(name)
    return set_back(book, Reset(key, who=who))


def figure_named(name: str) -> str | None:
    """The key of a figure by its name, or by an operation's ("taper"); "" for all; None where there is none."""
    plain = " ".join(name.split()).casefold()
    if plain == "all":
        return ""
    return next((key for key in (plain, f"{AT}{plain}") if key in all_figures()), None)


def _no_such_figure(name: str) -> Finding:
    from difflib import get_close_matches

    near = get_close_matches(name.casefold(), [key.removeprefix(AT) for key in all_figures()], 1)
    meant = f"did you mean “{near[0]}”? " if near else ""
    common = ", ".join(key for key in all_figures() if not key.startswith(AT))
    says = f"there is no figure “{name[:40]}” that is learnt"
    return stop("no-such-figure", says, f"{meant}they are {common}, the name of an operation, or all")


def foresee(job: Job, piece: str, shop: Shop, book: Book | None, made: int = 1) -> Foresight | Finding:
    """What is foreseen of `made` more copies of a piece by the shop's own figures as they are now; None: no records."""
    if book is None:
        return foreseen(job, piece, shop, made)
    read = day_book(book)
    if isinstance(read, Finding):
        return read
    own = own_of(shop, lessons_of(read.records, read.resets, shop))
    return foreseen(job, piece, own, made, read.before(job.title, piece))


def record(job: Job, ahead: Foresight, told: Told, shop: Shop, book: Book, who: str = "") -> Kept | Finding:
    """Keeps what really happened beside what was foreseen (`foresee`), learns from it, and reckons the rest again.

    A record with more metal out than in is kept too, marked: nothing that was told is lost, nothing is learnt of it.
    `shop`: by its file, as nothing had been learnt.
    """
    read = day_book(book)
    if isinstance(read, Finding):
        return read
    before = lessons_of(read.records, read.resets, shop)
    found = findings_of(Record(told, ahead), shop.style)
    refused = next((f.name for f in found if f.stops), "")
    kept = keep(book, Record(told, ahead, who=who, refused=refused))
    if isinstance(kept, Finding):
        return kept
    after = lessons_of((*read.records, kept), read.resets, shop)
    shops = (own_of(shop, before), own_of(shop, after))
    rest = None if refused else rest_of(job, ahead.piece, shops, ahead.make - ahead.before - told.made)
    aside = tuple(kind for number, kind, _ in after.aside if number == kept.number)
    return Kept(kept, before, after, rest, (*book.found, *read.found, *found), aside)


def rest_of(job: Job, piece: str, shops: tuple[Shop, Shop], rest: int) -> Rest | None:
    """What is still to be made, as it was reckoned and as it is now (`shops`: by the figures before, and now)."""
    if rest <= 0 or not piece:
        return None
    both = [_of_rest(planned(reckon_job(job, shop)), piece, rest, shop) for shop in shops]
    (cut, heats, seconds), (cut_now, heats_now, seconds_now) = both
    return Rest(rest, (cut, cut_now), (heats, heats_now), (seconds, seconds_now))


def _of_rest(done: Reckoning, piece: str, rest: int, shop: Shop) -> tuple[float, float, float]:
    copy = done.copy
    if copy is None or copy.plan is None:
        return 0.0, 0.0, 0.0
    made = next((p for p in copy.pieces if p.spec.name == piece), None)
    plan = next((p for p in copy.plan.pieces if p.piece == piece), None)
    cut = made.cut_this if isinstance(made, BarResult | RingResult) else 0.0
    if plan is None:
        return cut, 0.0, 0.0
    return cut, plan.heats.value, lot_of(rest, plan.spells, shop).seconds.value


def with_bar(job: Job, piece: str, bar: str) -> Job | Finding:
    """The job with a piece made from another bar, as it really was: `3/8 sq`."""
    spec = job.piece(piece)
    if not isinstance(spec, BarSpec):
        return stop("not-a-bar", f"“{piece[:40]}” is not forged from a bar that could be another", "leave --bar out")
    words = read_section(bar, job.units)
    section: Read[Section] = section_from(words.value) if words.value is not None else Read(None, words.findings)
    if section.value is None:
        return next(f for f in section.findings if f.stops)
    other = replace(spec, stock=section.value)
    return replace(job, pieces=tuple(other if p is spec else p for p in job.pieces))
