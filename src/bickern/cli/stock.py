"""Which bars of the rack a piece can be made from, on a terminal."""

from argparse import ArgumentParser, Namespace
from pathlib import Path
from typing import Any

from bickern.cli.shelf import add_rack, add_shop, is_there


def stock_words(words: Any) -> None:
    """Adds what can be said to the words that `bickern` understands."""
    command: ArgumentParser = words.add_parser(
        "stock", help="what in the rack each piece can be made from: as it is, drawn down, near enough; what that costs"
    )
    command.add_argument("job", type=Path, metavar="JOB", help="the job file (YAML)")
    command.add_argument("piece", nargs="?", metavar="PIECE", help="one piece alone, by its name")
    add_rack(command)
    add_shop(command)
    command.add_argument("--all", action="store_true", help="every bar, and why not for those that cannot")
    command.set_defaults(does=stock)


def stock(asked: Namespace) -> int:
    """Show for each piece what in the rack it can be made from, the best first."""
    from bickern.cli.show import show_count, show_findings, show_rows
    from bickern.desk.stock.rows import stock_for
    from bickern.desk.stock.stock import MOST_COUNTED

    if not is_there(asked.job, asked.shop):
        return 2
    told = stock_for(asked.job, asked.piece, asked.rack, asked.shop, most=EVERY if asked.all else MOST_COUNTED)
    for title, rows, heads in told.tables(every=asked.all):
        show_rows(title, rows, heads)
        print()
    show_findings(told.findings)
    show_count(told.findings)
    return told.worth


EVERY = 1000
"""Kinds of bar that are counted where all are asked for."""
