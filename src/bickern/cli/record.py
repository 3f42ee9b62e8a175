"""The day book on a terminal."""

import sys
from argparse import ArgumentParser, Namespace
from pathlib import Path
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from bickern.book.database.work import Book
    from bickern.book.job.asked import Job
    from bickern.making.lessons.record import Foresight
    from bickern.making.shop import Shop
    from bickern.measure.finding import Finding

SINGLE = {
    "stock": ("LENGTH", "bar cut for one piece"),
    "left": ("LENGTH", "what was left over of that bar"),
    "heats": ("NUMBER", "visits to the fire with one piece"),
    "minutes": ("MINUTES", "in all, of all that were made"),
    "blows": ("NUMBER", "hammer blows on one piece"),
    "weight-before": ("WEIGHT", "of one piece of stock, with lb, oz, kg or g"),
    "weight-after": ("WEIGHT", "of that piece, finished"),
    "collar": ("LENGTH", "bar in one collar that closed well"),
}
"""Options that hold one figure: what stands behind them, and what it is."""
NAMES = {"minutes": "seconds", "weight-before": "weighed_before", "weight-after": "weighed_after"}


def record_words(words: Any) -> None:
    """Adds what can be said to the words that `bickern` understands."""
    record_: ArgumentParser = words.add_parser("record", help="tell what really happened; the rest is reckoned again")
    record_.add_argument("job", type=Path, metavar="JOB", help="the job file (YAML)")
    record_.add_argument(
        "piece", nargs="?", metavar="PIECE", help="the piece; without it, the only one or the whole job"
    )
    for name, (behind, means) in SINGLE.items():
        record_.add_argument(f"--{name}", metavar=behind, help=means)
    record_.add_argument("--reached", action="append", default=[], metavar="NAME=SIZE", help="a size as it came out")
    more = "minutes of the hands at one operation, or `fire=MINUTES`"
    record_.add_argument("--minutes-of", action="append", default=[], metavar="NAME=MINUTES", help=more)
    record_.add_argument("--made", default="1", metavar="NUMBER", help="how many alike these figures are of (1)")
    record_.add_argument("--bar", metavar="SECTION", help="what it was really made from, as '1/2 sq'")
    record_.add_argument("--remark", default="", metavar="WORDS", help="anything else, kept as it is written")
    record_.add_argument("--who", default=None, metavar="NAME", help="whose record it is; else who is at the machine")
    record_.set_defaults(does=record)
    learned_: ArgumentParser = words.add_parser("learned", help="the shop's own figures: first guess, records, result")
    learned_.add_argument("--reset", metavar="FIGURE", help="let a figure start anew (`all`: every one)")
    learned_.add_argument("--json", action="store_true", help="the same as JSON")
    learned_.add_argument("--who", default=None, metavar="NAME", help="who sets it back; else who is at the machine")
    learned_.set_defaults(does=learned)
    for command in (record_, learned_):
        command.add_argument("--shop", type=Path, metavar="FILE", help="a shop file: this forge's own figures")
        place = "the rack's database, which holds the day book: a file, or postgresql://..."
        command.add_argument("--rack", metavar="FILE", help=place)


def record(asked: Namespace) -> int:
    """Keep what really happened with a piece, learn from it, and reckon the rest; without figures: what can be told."""
    from bickern.desk.rack import opened
    from bickern.desk.reckon import reckon_file
    from bickern.measure.finding import Finding

    if not _is_there(asked.job, asked.shop):
        return 2
    done = reckon_file(asked.job, asked.shop)
    if done.job is None or done.copy is None:
        return _refused(*done.findings)
    book = opened(asked.rack)
    if isinstance(book, Finding):
        return _refused(book)
    try:
        return _recorded(asked, done.job, done.copy.shop, book)
    finally:
        book.close()


def _recorded(asked: Namespace, job: "Job", shop: "Shop", book: "Book") -> int:
    from bickern.desk.keep import foresee, with_bar
    from bickern.measure.finding import Finding, stop
    from bickern.measure.units.read import read_count

    piece = asked.piece or (job.pieces[0].name if len(job.pieces) == 1 else "")
    made = read_count(asked.made)
    if made.value is None:
        return _refused(*made.findings)
    about = with_bar(job, piece, asked.bar) if asked.bar else job
    if isinstance(about, Finding):
        return _refused(about)
    if not piece and (asked.stock or asked.left or asked.reached or asked.weight_before or asked.weight_after):
        names = ", ".join(f"“{spec.name}”" for spec in job.pieces)
        return _refused(stop("which-piece", "this job has several pieces", f"say which one behind the job: {names}"))
    ahead = foresee(about, piece, shop, book, made.value)
    if isinstance(ahead, Finding):
        return _refused(ahead)
    return _told(asked, about, shop, book, ahead)


def _told(asked: Namespace, job: "Job", shop: "Shop", book: "Book", ahead: "Foresight") -> int:
    from bickern.cli.show import show_rows
    from bickern.desk.keep import record as keep
    from bickern.desk.keep_rows import form_rows
    from bickern.desk.rack import me
    from bickern.desk.retold import Words, told_of
    from bickern.measure.finding import Finding

    single = {NAMES.get(n, n): v for n in SINGLE if (v := getattr(asked, n.replace("-", "_"))) is not None}
    words = Words(single, asked.reached, asked.minutes_of, ahead.made, asked.remark)
    if not words.anything:
        about = f"“{ahead.piece}”" if ahead.piece else "the whole job"
        show_rows(f"What can be told of {about}, {ahead.job}", form_rows(ahead, shop.style))
        return 0
    told = told_of(words, ahead, job.units or shop.style.first)
    if told.value is None:
        return _refused(*told.findings)
    kept = keep(job, ahead.piece, shop, book, told.value, me() if asked.who is None else asked.who)
    return _refused(kept) if isinstance(kept, Finding) else _show(kept, shop, (*told.findings,))


def _show(kept: Any, shop: "Shop", found: "tuple[Finding, ...]") -> int:
    """What was kept, which figures moved, and what the rest of the lot takes now."""
    from bickern.cli.show import show_count, show_findings, show_rows
    from bickern.desk.keep_rows import moved_rows, rest_rows

    ahead = kept.record.foresight
    about = f"“{ahead.piece}”" if ahead.piece else "the whole job"
    print(f"Record {kept.record.number} is kept: {about}, {ahead.made} made, {ahead.job}.")
    moved = moved_rows(kept, shop)
    if moved:
        show_rows("What it taught", moved)
    elif not kept.record.refused:
        print("It moved no figure of this shop.")
    if kept.aside:
        print(f"Set aside, for it is far off all that was recorded before: {', '.join(kept.aside)}.")
    if kept.rest is not None:
        show_rows(f"The other {kept.rest.rest}", rest_rows(kept.rest, shop.style))
    findings = (*found, *kept.findings)
    show_findings(findings)
    show_count(findings)
    return 1 if any(f.stops for f in findings) else 0


def learned(asked: Namespace) -> int:
    """Show the shop's own figures, with the first guess, how many records speak to each, and what came of it."""
    from bickern.desk.asker import shop_at
    from bickern.desk.keep import reset
    from bickern.desk.rack import me, opened
    from bickern.measure.finding import Finding

    if not _is_there(asked.shop):
        return 2
    shop, found = shop_at(asked.shop)
    book = opened(asked.rack)
    if isinstance(book, Finding):
        return _refused(*found, book)
    try:
        if asked.reset is not None:
            done = reset(book, asked.reset, me() if asked.who is None else asked.who)
            if isinstance(done, Finding):
                return _refused(*found, done)
        return _shown(asked, shop, book, found)
    finally:
        book.close()


def _shown(asked: Namespace, shop: "Shop", book: "Book", found: "tuple[Finding, ...]") -> int:
    from bickern.cli.show import show_count, show_findings, show_rows
    from bickern.desk.keep import figures
    from bickern.desk.keep_rows import HEADS, as_json, figure_rows
    from bickern.measure.finding import Finding

    lessons = figures(shop, book)
    if isinstance(lessons, Finding):
        return _refused(*found, lessons)
    if asked.json:
        print(as_json(lessons), end="")
    else:
        show_rows("What the day book has taught", figure_rows(lessons, shop), HEADS)
        for number, kind, _ in lessons.aside:
            print(f"Record {number} is so far off all others that its {kind} is set aside.")
        show_findings(found)
        show_count(found)
    return 1 if any(f.stops for f in found) else 0


def _refused(*found: "Finding") -> int:
    """Says why nothing was done."""
    from bickern.cli.show import show_count, show_findings

    show_findings(found)
    show_count(found)
    return 1 if any(f.stops for f in found) else 2


def _is_there(*paths: Path | None) -> bool:
    missing = [path for path in paths if path is not None and not path.is_file()]
    for path in missing:
        print(f"bickern: there is no file {path}", file=sys.stderr)
    return not missing
