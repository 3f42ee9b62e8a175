"""The day book on a terminal."""

from argparse import ArgumentParser, Namespace
from pathlib import Path
from typing import TYPE_CHECKING, Any

from bickern.cli.shelf import add_rack, add_shop, is_there

if TYPE_CHECKING:
    from bickern.desk.answer import Row
    from bickern.desk.day_page import Filled
    from bickern.desk.retold import Words
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
    record_.set_defaults(does=record)
    learned_: ArgumentParser = words.add_parser("learned", help="the shop's own figures: first guess, records, result")
    learned_.add_argument("--reset", metavar="FIGURE", help="let a figure start anew (`all`: every one)")
    learned_.add_argument("--json", action="store_true", help="the same as JSON")
    learned_.add_argument("--who", default=None, metavar="NAME", help="who sets it back; else who is at the machine")
    learned_.set_defaults(does=learned)
    for command in (record_, learned_):
        add_shop(command)
        add_rack(command, "the rack, beside which the day book lies")


def record(asked: Namespace) -> int:
    """Keep what really happened with a piece, learn from it, and reckon the rest; without figures: what can be told."""
    from bickern.desk.day_page import filled, form, page_of

    if not is_there(asked.job, asked.shop):
        return 2
    words = _words(asked)
    page = page_of(asked.job, asked.shop, asked.rack, write=words.anything)
    if page.value is None:
        return _refused(*page.findings)
    try:
        if not words.anything:
            return _form(form(page.value, asked.piece, words, asked.bar))
        return _filled(filled(page.value, asked.piece, words, asked.bar, asked.who))
    finally:
        page.value.close()


def _words(asked: Namespace) -> "Words":
    from bickern.desk.retold import Words

    single = {NAMES.get(n, n): v for n in SINGLE if (v := getattr(asked, n.replace("-", "_"))) is not None}
    return Words(single, asked.reached, asked.minutes_of, asked.made, asked.remark)


def _form(read: "Read[tuple[str, tuple[Row, ...]]]") -> int:
    """What can be told of it, and what was foreseen."""
    from bickern.cli.show import show_rows

    if read.value is None:
        return _refused(*read.findings)
    show_rows(*read.value)
    return 0


def _filled(read: "Read[Filled]") -> int:
    """What was kept, which figures moved, and what the rest of the lot takes now."""
    from bickern.cli.show import show_rows

    if read.value is None:
        return _refused(*read.findings)
    done = read.value
    for line in done.says:
        print(line)
    if done.taught:
        show_rows("What it taught", done.taught)
    if done.rest[1]:
        show_rows(*done.rest)
    return _refused(*done.findings, fine=0)


def learned(asked: Namespace) -> int:
    """Show the shop's own figures, with the first guess, how many records speak to each, and what came of it."""
    from bickern.cli.show import show_rows
    from bickern.desk.day_page import learnt
    from bickern.desk.keep_rows import HEADS

    if not is_there(asked.shop):
        return 2
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
