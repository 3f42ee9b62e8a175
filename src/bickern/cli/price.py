"""What a job should cost, on a terminal."""

import sys
from argparse import ArgumentParser, Namespace
from pathlib import Path
from typing import TYPE_CHECKING, Any

from bickern.cli.shelf import add_own, add_rack, add_shop, is_there

if TYPE_CHECKING:
    from bickern.desk.price.price import Pricing

WHAT = "what it costs and should sell for, by the shop's own prices, for several counts of sets"


def price_words(words: Any) -> None:
    """Adds what can be said to the words that `bickern` understands."""
    made: ArgumentParser = words.add_parser("price", help=WHAT, description=f"Tells {WHAT}.")
    made.add_argument("job", type=Path, metavar="JOB", help="the job file (YAML)")
    made.add_argument("--for", dest="counts", default="", metavar="1,6,24", help="how many sets (else the shop's)")
    add_shop(made)
    add_rack(made, "choose open bars, and price what the shop file tells no price for, by this rack")
    add_own(made)
    made.add_argument("--json", action="store_true", help="the same as JSON")
    made.add_argument("--out", type=Path, metavar="DIR", help="print the shop's price sheet and the customer's sheet")
    made.add_argument("--paper", type=str.lower, default="letter", help="letter, a4, legal or a3")
    made.set_defaults(does=price)


def price(asked: Namespace) -> int:
    """Show what it costs and should sell for; print it."""
    from bickern.cli.show import show_findings
    from bickern.desk.price.price import counts_of, priced_file
    from bickern.desk.sheets.sheets import wrong_words
    from bickern.measure.finding import Finding

    counts = counts_of(asked.counts)
    wrong = counts if isinstance(counts, Finding) else wrong_words(asked.paper, "customer")
    if wrong is not None:
        show_findings([wrong])
        return 2
    if not is_there(asked.job, asked.shop) or isinstance(counts, Finding):
        return 2
    done = priced_file(asked.job, counts, asked.shop, asked.rack, own=asked.own)
    _show(done, asked)
    if asked.out is not None and done.quotes:
        _write(done, asked)
    return 1 if done.stops else 0


def _show(done: "Pricing", asked: Namespace) -> None:
    from bickern.cli.show import show_count, show_findings, show_rows
    from bickern.desk.price.rows import as_json, tables

    if asked.json:
        print(as_json(done), end="")
        return
    for title, heads, rows in tables(done):
        show_rows(title, rows, heads)
        print()
    show_findings(done.findings)
    show_count(done.findings)


def _write(done: "Pricing", asked: Namespace) -> None:
    from bickern.desk.price.rows import files_of
    from bickern.desk.sheets.sheets import write_packet

    for path in write_packet(files_of(done, asked.paper), asked.out):
        print(path, file=sys.stderr if asked.json else sys.stdout)
