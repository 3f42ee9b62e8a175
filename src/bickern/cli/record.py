"""The day book on a terminal."""

from argparse import ArgumentParser, Namespace
from pathlib import Path
from typing import TYPE_CHECKING, Any

from bickern.cli.shelf import add_rack, add_shop, is_there

if TYPE_CHECKING:
    from bickern.desk.answer import Row
    from bickern.desk.daybook.listed import ListRow
    from bickern.desk.daybook.page import Filled, Page
    from bickern.desk.daybook.retold import Words
    from bickern.measure.finding import Finding
    from bickern.measure.units.words import Read

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
    _looking_back(record_.add_mutually_exclusive_group(), "the records of this job")
    record_.set_defaults(does=record)
    learned_: ArgumentParser = words.add_parser("learned", help="the shop's own figures: first guess, records, result")
    either = learned_.add_mutually_exclusive_group()
    either.add_argument("--reset", metavar="FIGURE", help="let a figure start anew (`all`: every one)")
    _looking_back(either, "the whole day book")
    learned_.add_argument("--json", action="store_true", help="the same as JSON")
    learned_.add_argument("--who", default=None, metavar="NAME", help="who sets it back; else who is at the machine")
    learned_.set_defaults(does=learned)
    for command in (record_, learned_):
        add_shop(command)
        add_rack(command, "the rack, beside which the day book lies")


def _looking_back(words: Any, what: str) -> None:
    """Listing what was recorded, and striking a record that was a slip: both look back, and either stands alone."""
    words.add_argument("--list", action="store_true", help=f"{what}, with their numbers")
    slip = "strike a record that was a slip, by its number: it stays, marked, and counts for nothing"
    words.add_argument("--strike", type=int, metavar="NUMBER", help=slip)


def record(asked: Namespace) -> int:
    """Keep what really happened with a piece, learn from it, and reckon the rest; without figures: what can be told."""
    from bickern.desk.daybook.page import page_of

    if not is_there(asked.job, asked.shop):
        return 2
    words = _words(asked)
    back = asked.list or asked.strike is not None
    page = page_of(asked.job, asked.shop, asked.rack, write=words.anything and not back)
    if page.value is None:
        return _refused(*page.findings)
    try:
        return _on_page(page.value, words, asked)
    finally:
        page.value.close()


def _on_page(page: "Page", words: "Words", asked: Namespace) -> int:
    """What is done with the page of a job: listed, struck, filled in, or only looked at."""
    from bickern.desk.daybook.page import filled, form, listed, struck

    if asked.list:
        return _listed(listed(page, asked.piece, words))
    if asked.strike is not None:
        return _filled(struck(page, asked.strike, asked.piece, words, asked.who), "What it had taught, without it")
    if not words.anything:
        return _form(form(page, asked.piece, words, asked.bar))
    return _filled(filled(page, asked.piece, words, asked.bar, asked.who))


def _listed(read: "Read[tuple[str, tuple[ListRow, ...]]]") -> int:
    """The records with their numbers."""
    from bickern.cli.show import show_rows
    from bickern.desk.daybook.listed import LIST_HEADS

    if read.value is None:
        return _refused(*read.findings)
    title, rows = read.value
    show_rows(title, rows, LIST_HEADS if rows else ())
    return _refused(*read.findings, fine=0)


def _words(asked: Namespace) -> "Words":
    from bickern.desk.daybook.retold import Words

    single = {NAMES.get(n, n): v for n in SINGLE if (v := getattr(asked, n.replace("-", "_"))) is not None}
    return Words(single, asked.reached, asked.minutes_of, asked.made, asked.remark)


def _form(read: "Read[tuple[str, tuple[Row, ...]]]") -> int:
    """What can be told of it, and what was foreseen."""
    from bickern.cli.show import show_rows

    if read.value is None:
        return _refused(*read.findings)
    show_rows(*read.value)
    return 0


def _filled(read: "Read[Filled]", taught: str = "What it taught") -> int:
    """What was kept (or struck), which figures moved, and what the rest of the lot takes now."""
    from bickern.cli.show import show_rows

    if read.value is None:
        return _refused(*read.findings)
    done = read.value
    for line in done.says:
        print(line)
    if done.taught:
        show_rows(taught, done.taught)
    if done.rest[1]:
        show_rows(*done.rest)
    return _refused(*done.findings, fine=0)


def learned(asked: Namespace) -> int:
    """Show the shop's own figures, with the first guess, how many records speak to each, and what came of it."""
    from bickern.cli.show import show_rows
    from bickern.desk.daybook.page import every_record, learnt, strike_any
    from bickern.desk.daybook.rows import HEADS

    if not is_there(asked.shop):
        return 2
    if asked.list:
        return _listed(every_record(asked.shop, asked.rack))
    if asked.strike is not None:
        return _filled(strike_any(asked.strike, asked.shop, asked.rack, asked.who), "What it had taught, without it")
    read = learnt(asked.shop, asked.rack, asked.reset, asked.who)
    if read.value is None:
        return _refused(*read.findings)
    done = read.value
    if asked.json:
        print(done.json, end="")
        return 1 if any(f.stops for f in done.findings) else 0
    show_rows("What the day book has taught", done.rows, HEADS)
    print()
    show_rows("What they are", done.meanings)
    for line in done.aside:
        print(line)
    return _refused(*done.findings, fine=0)


def _refused(*found: "Finding", fine: int = 2) -> int:
    """Says what was found; the exit code: 1 where something stops, else `fine`."""
    from bickern.cli.show import show_count, show_findings

    show_findings(found)
    show_count(found)
    return 1 if any(f.stops for f in found) else fine
