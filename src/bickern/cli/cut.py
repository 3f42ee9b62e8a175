"""What is cut from which bar and sheet of the rack, on a terminal."""

import sys
from argparse import ArgumentParser, Namespace
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Any

from bickern.cli.shelf import add_own, add_rack, add_shop, is_there

if TYPE_CHECKING:
    from bickern.desk.cut.cut import CutPlan
    from bickern.measure.finding import Finding

WHAT = "what to cut from which bar and sheet of the rack, for one or several jobs; --take writes it into the rack"


def cut_words(words: Any) -> None:
    """Adds what can be said to the words that `bickern` understands."""
    made: ArgumentParser = words.add_parser("cut", help=WHAT, description=f"Tells {WHAT}.")
    made.add_argument("jobs", nargs="+", type=Path, metavar="JOB", help="job files (YAML), planned together")
    add_rack(made)
    add_own(made)
    made.add_argument("--take", action="store_true", help="write the cuts and what is left over into the rack")
    made.add_argument("--who", default="", metavar="NAME", help="who takes it (else: who is at this machine)")
    made.add_argument("--out", type=Path, metavar="DIR", help="write the cut list and the nests into this folder")
    made.add_argument("--paper", type=str.lower, default="letter", help="letter, a4, legal or a3")
    add_shop(made)
    made.add_argument("--substitute", action="store_true", help="make what is short of other bars that would do")
    made.add_argument("--seed", type=int, default=1, metavar="N", help="another number lays sheets another way")
    made.add_argument("--json", action="store_true", help="the plan as JSON")
    made.set_defaults(does=cut)


def cut(asked: Namespace) -> int:
    """Show the plan bar by bar and sheet by sheet; take it, print it."""
    from bickern.cli.show import show_findings
    from bickern.desk.cut.cut import Limits, cut_plan
    from bickern.desk.cut.files import as_json
    from bickern.desk.cut.take import take_plan, with_drops
    from bickern.desk.sheets.sheets import wrong_words
    from bickern.measure.finding import Finding

    wrong = wrong_words(asked.paper, "shop")
    if wrong is not None:
        show_findings([wrong])
        return 2
    if not is_there(*asked.jobs, asked.shop):
        return 2
    with _stoppable() as keep_going, _progress() as report:
        limits = Limits(asked.seed, keep_going=keep_going, report=report)
        plan = cut_plan(asked.jobs, asked.rack, asked.shop, substitute=asked.substitute, own=asked.own, limits=limits)
    taken = take_plan(plan, asked.rack, asked.who) if asked.take else None
    if asked.json:
        print(as_json(plan, taken), end="")
    else:
        _show(plan)
        _show_taken(plan, taken)
    if asked.out is not None:
        _write(with_drops(plan, taken) if isinstance(taken, tuple) else plan, asked)
    return 1 if plan.stops or isinstance(taken, Finding) else 0


def _show(plan: "CutPlan") -> None:
    """Bar by bar, sheet by sheet, and what was found."""
    from bickern.cli.show import show_count, show_findings, show_rows
    from bickern.desk.cut.rows import tables

    for title, rows in tables(plan.copy) if plan.copy is not None else ():
        show_rows(title, rows)
        print()
    show_findings(plan.findings)
    show_count(plan.findings)


def _show_taken(plan: "CutPlan", taken: "tuple[str, ...] | Finding | None") -> None:
    """What was written into the rack and what to paint on the drops, or why nothing was."""
    from bickern.cli.show import show_findings, show_rows
    from bickern.desk.cut.take import drops_told, used_told
    from bickern.measure.finding import Finding

    if isinstance(taken, Finding):
        show_findings([taken])
    elif taken is not None:
        print()
        show_rows("Taken", [(says,) for says in (*used_told(plan), *drops_told(plan, taken))])


def _write(plan: "CutPlan", asked: Namespace) -> None:
    from bickern.cli.show import show_findings
    from bickern.desk.cut.files import files_of, not_at_full_size
    from bickern.desk.sheets.sheets import write_packet

    if not asked.json:
        show_findings(not_at_full_size(plan, asked.paper))
    for path in write_packet(files_of(plan, asked.paper), asked.out):
        print(path, file=sys.stderr if asked.json else sys.stdout)


@contextmanager
def _stoppable() -> Iterator[Callable[[], bool]]:
    """Ctrl-C stops the search and keeps the best plan so far; pressed again, it ends the command."""
    import signal

    pressed: list[int] = []

    def press(number: int, _: object) -> None:
        if pressed:
            raise KeyboardInterrupt
        pressed.append(number)

    try:
        before = signal.signal(signal.SIGINT, press)
    except ValueError:  # not in the main thread: nobody can press anything
        yield lambda: True
        return
    try:
        yield lambda: not pressed
    finally:
        signal.signal(signal.SIGINT, before)


@contextmanager
def _progress() -> Iterator[Callable[[str], None]]:
    """One line that tells how far it is, on a terminal that somebody looks at; none elsewhere."""
    if not sys.stderr.isatty():
        yield lambda says: None
        return

    def report(says: str) -> None:
        print(f"\r{says[:78]:<78}", end="", file=sys.stderr, flush=True)

    try:
        yield report
    finally:
        print(f"\r{'':<78}\r", end="", file=sys.stderr, flush=True)
