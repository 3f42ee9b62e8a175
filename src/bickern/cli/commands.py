"""The words that `bickern` understands. Desk modules are imported inside the commands: a cold start must be quick."""

from argparse import ArgumentParser, Namespace
from pathlib import Path
from typing import TYPE_CHECKING

from bickern.cli.cut import cut_words
from bickern.cli.open import OPEN, add_open
from bickern.cli.price import price_words
from bickern.cli.rack import rack_words
from bickern.cli.record import record_words
from bickern.cli.shelf import add_own, add_rack, add_shop, is_there
from bickern.cli.stock import stock_words

if TYPE_CHECKING:
    from bickern.desk.reckon import Reckoning

WHAT = "Know before you light the forge: from one job file to stock, mark-out, patterns and a shop sheet."
STARTS_FROM = "porch-lantern"
"""The example that `bickern new FILE` writes."""


def parser(*, asking: bool = True) -> ArgumentParser:
    """Everything that can be said; the questions only where one is asked, for they take a moment to gather."""
    from bickern import __version__

    top = ArgumentParser(prog="bickern", description=WHAT, allow_abbrev=False)
    top.add_argument("--version", action="version", version=f"bickern {__version__}")
    words = top.add_subparsers(title="commands", metavar="COMMAND", required=True)
    new_ = words.add_parser("new", help="start a job file from an example; without FILE: list the examples")
    new_.add_argument("file", nargs="?", type=Path, metavar="FILE", help="the file to write")
    new_.add_argument("--from", dest="example", default=STARTS_FROM, metavar="NAME", help="which example")
    new_.set_defaults(does=new)
    add_open(words.add_parser("open", help=OPEN))
    check_ = words.add_parser("check", help="find the faults of a job file, all at once")
    reckon_ = words.add_parser("reckon", help="reckon stock, cut lengths, patterns and joints")
    shows = reckon_.add_mutually_exclusive_group()
    shows.add_argument("--json", action="store_true", help="everything computed, as JSON")
    shows.add_argument("--all", action="store_true", help="what every other published rule says, too")
    fit_ = words.add_parser("fit", help="does it go together, in which order, and how far does it swing")
    fit_.add_argument("--json", action="store_true", help="the same as JSON")
    hang_ = words.add_parser("hang", help="how it hangs: off plumb, off level, and what would change it")
    hang_.add_argument("--json", action="store_true", help="the same as JSON")
    held = "held in the hand by the place that `hang:` names: that place level at 0, its free end raised by DEGREES"
    hang_.add_argument("--held", type=float, metavar="DEGREES", help=f"{held} (-90 to 90)")
    heats_ = words.add_parser(
        "heats", help="the order of work, one heat at a time: what is done, how hot, for how long"
    )
    heats_.add_argument("--json", action="store_true", help="the same as JSON")
    sheets_ = words.add_parser("sheets", help="print: shop sheet, patterns, mark-out and templates at 1:1, DXF, SVG")
    sheets_.add_argument("--out", type=Path, default=Path("out"), metavar="DIR", help="the folder to write into")
    sheets_.add_argument("--paper", type=str.lower, default="letter", help="letter, a4, legal or a3")
    sheets_.add_argument("--for", dest="audience", default="shop", metavar="WHOM", help="shop, class or customer")
    reads = ((check_, check), (reckon_, reckon), (fit_, fit), (hang_, hang), (heats_, heats), (sheets_, sheets))
    for command, does in reads:
        command.add_argument("job", type=Path, metavar="JOB", help="the job file (YAML)")
        command.set_defaults(does=does)
    for command in (check_, reckon_, fit_, hang_, heats_, sheets_):
        add_rack(command, "the rack that `bar: any` is chosen from")
        add_own(command)
    heats_.add_argument("piece", nargs="?", metavar="PIECE", help="one piece alone, by its name")
    ask = words.add_parser("ask", help="one-off questions at the anvil: ring, taper, cone, weight ...")
    if asking:
        from bickern.cli.asking import add_ask

        add_ask(ask)
    rules_ = words.add_parser("rules", help="list the published rules that a shop file can choose from")
    rules_.set_defaults(does=rules)
    for command in (*(command for command, _ in reads), rules_):
        add_shop(command)
    for more in (stock_words, cut_words, price_words, record_words, rack_words):
        more(words)
    words.add_parser("schema", help="print the JSON Schema of a job file").set_defaults(does=schema)
    return top


def new(asked: Namespace) -> int:
    """Start a job file from an example (without FILE: list the examples)."""
    from bickern.cli.show import show_findings, show_rows
    from bickern.desk.job.new import examples, write_new
    from bickern.measure.finding import Finding

    if asked.file is None:
        show_rows("Examples (bickern new FILE --from NAME)", [(e.name, e.title) for e in examples()])
        return 0
    written = write_new(asked.example, asked.file)
    if isinstance(written, Finding):
        show_findings([written])
        return 2
    print(f"{written} is ready. Next: bickern reckon {written}")
    return 0


def check(asked: Namespace) -> int:
    """Find the faults of a job file, all at once, each with its line and what to try."""
    from bickern.cli.show import show_count, show_findings

    if not is_there(asked.job, asked.shop):
        return 2
    done = _reckoned(asked)
    show_findings(done.findings)
    show_count(done.findings)
    return 1 if done.stops else 0


def reckon(asked: Namespace) -> int:
    """Reckon stock, cut lengths, patterns and joints, as a readable table or as JSON."""

    if not is_there(asked.job, asked.shop):
        return 2
    done = _reckoned(asked)
    if asked.json:
        from bickern.desk.sheets.sheets import as_json
        from bickern.desk.whole.assemble import put_together
        from bickern.desk.work.heats import planned

        print(as_json(put_together(planned(done))), end="")
    else:
        from bickern.cli.table import show_reckoning

        show_reckoning(done, every_rule=asked.all)
    return 1 if done.stops else 0


def fit(asked: Namespace) -> int:
    """Show whether it goes together, in which order, and how far each joint swings."""
    from bickern.cli.table import show_fit
    from bickern.desk.sheets.sheets import FIT_KEYS, as_json
    from bickern.desk.whole.assemble import put_together

    if not is_there(asked.job, asked.shop):
        return 2
    done = put_together(_reckoned(asked))
    if asked.json:
        print(as_json(done, FIT_KEYS), end="")
    else:
        show_fit(done)
    return 1 if done.stops else 0


def hang(asked: Namespace) -> int:
    """Show how it hangs, and what would change it."""
    from bickern.cli.show import show_findings
    from bickern.cli.table import show_hang
    from bickern.desk.sheets.sheets import HANG_KEYS, as_json
    from bickern.desk.whole.assemble import hung, wrong_hold

    wrong = wrong_hold(asked.held)
    if wrong is not None:
        show_findings([wrong])
        return 2
    if not is_there(asked.job, asked.shop):
        return 2
    done = hung(_reckoned(asked), asked.held)
    if asked.json:
        print(as_json(done, HANG_KEYS), end="")
    else:
        show_hang(done)
    return 1 if done.stops else 0


def heats(asked: Namespace) -> int:
    """Show the order of work, heat by heat: of the whole job, or of one piece."""
    from bickern.cli.heats import show_heats
    from bickern.cli.show import show_findings
    from bickern.desk.reckon import Reckoning
    from bickern.desk.sheets.sheets import HEAT_KEYS, as_json
    from bickern.desk.work.heats import only, planned
    from bickern.measure.finding import Finding

    if not is_there(asked.job, asked.shop):
        return 2
    whole = planned(_reckoned(asked))
    done = whole if asked.piece is None else only(whole, asked.piece)
    if isinstance(done, Finding):
        print(as_json(Reckoning(None, None, (done,))), end="") if asked.json else show_findings([done])
        return 2
    if asked.json:
        print(as_json(done, HEAT_KEYS), end="")
    else:
        show_heats(done)
    return 1 if done.stops else 0


def sheets(asked: Namespace) -> int:
    """Print: the shop sheet, patterns, mark-out strips and templates at 1:1, DXF, SVG, CSV and JSON."""
    from bickern.cli.show import show_count, show_findings
    from bickern.desk.sheets.sheets import many_pages, packet_of, write_packet, wrong_words
    from bickern.desk.whole.assemble import for_packet
    from bickern.measure.finding import Finding

    wrong = wrong_words(asked.paper, asked.audience)
    if wrong is not None:
        show_findings([wrong])
        return 2
    if not is_there(asked.job, asked.shop):
        return 2
    done = for_packet(_reckoned(asked), asked.audience)
    files = packet_of(done, asked.paper, asked.audience)
    if isinstance(files, Finding):
        show_findings([*done.findings, files])
        return 1
    found = (*done.findings, *many_pages(done, asked.paper))
    show_findings([f for f in found if f.stops or f not in done.findings])
    show_count(found)
    for path in write_packet(files, asked.out):
        print(path)
    return 1 if done.stops else 0


def rules(asked: Namespace) -> int:
    """List the published rules that a shop file can choose from, each with its source."""
    from bickern.cli.show import show_findings, show_rows
    from bickern.desk.rules import rules_by_use

    if not is_there(asked.shop):
        return 2
    groups, findings = rules_by_use(asked.shop)
    for about, rows in groups:
        show_rows(about, rows)
        print()
    print("* what this shop follows")
    show_findings(findings)
    return 1 if any(f.stops for f in findings) else 0


def schema(_: Namespace) -> int:
    """Print the JSON Schema of a job file."""
    import json

    from bickern.desk.schema import job_schema

    print(json.dumps(job_schema(), indent=2, ensure_ascii=False))
    return 0


def _reckoned(asked: Namespace) -> "Reckoning":
    from bickern.desk.by_rack import reckoned_by

    return reckoned_by(asked.job, asked.shop, asked.rack, own=asked.own)
