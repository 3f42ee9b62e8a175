"""The rack on a terminal: what lies there, put in, looked for, changed, labelled, copied and checked."""

import sys
from argparse import SUPPRESS, ArgumentParser, Namespace
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from bickern.cli.shelf import add_rack, add_shop, is_there

if TYPE_CHECKING:
    from bickern.desk.rack.rack import Done, Keeper, Lying
    from bickern.measure.finding import Finding

WHAT = "what lies in the rack: add, list, find, import, change, move, remove, history, label, backup, check"
TOLD = {
    "steel": "what it is known to be, as S235JR",
    "coating": "what is on it: none, galvanised, painted",
    "place": "where it lies",
    "price": "what one like it costs to replace, whole",
    "remark": "anything else",
    "grain": "the way a sheet was rolled: along its first size, across it, or degrees",
}
"""What is told of any piece."""
QUOTES = 'put quotes round a section and a length that have blanks in them: bickern rack add "3/8 sq" "6 ft"'


def rack_words(words: Any) -> None:
    """Adds what can be said to the words that `bickern` understands."""
    rack: ArgumentParser = words.add_parser("rack", help=WHAT, description=f"Tells and keeps {WHAT}.")
    does = rack.add_subparsers(title="what to do", metavar="WHAT", required=True)
    _putting_words(does)
    _looking_words(does)
    _keeping_words(does)


def _word(does: Any, name: str, says: str, work: Any) -> ArgumentParser:
    made: ArgumentParser = does.add_parser(name, help=says, description=says[:1].upper() + says[1:] + ".")
    add_rack(made)
    add_shop(made)
    made.add_argument("--units", choices=("in", "mm"), help="what bare numbers mean; else as the shop file has it")
    made.set_defaults(does=work)
    return made


def _putting_words(does: Any) -> None:
    add_ = _word(does, "add", "put a bar in, or a sheet", add)
    add_.add_argument("section", nargs="?", metavar="SECTION", help="of a bar, as 3/8 sq or 1 x 1/4")
    add_.add_argument("length", nargs="?", metavar="LENGTH", help="of a bar, as 72 or 6 m")
    add_.add_argument("more", nargs="*", help=SUPPRESS)
    add_.add_argument("--sheet", metavar="THICKNESS", help="a sheet, as 18 ga or 1.5 mm")
    add_.add_argument("--size", metavar="SIZE", help="of a rectangular sheet, as 48 x 24")
    add_.add_argument("--outline", metavar="FILE", help="of an odd sheet: DXF or SVG")
    add_.add_argument("--count", metavar="N", help="so many alike")
    add_.add_argument("--offcut", action="store_const", const="yes", help="it is left of another piece")
    list_ = _word(does, "import", "put a whole list in (CSV), all of it or nothing", import_)
    list_.add_argument("file", type=Path, metavar="FILE", help="the list; its first line names the columns")
    list_.add_argument("--dry", action="store_true", help="only show what would be put in")
    change_ = _word(does, "change", "change what is told of one piece", change)
    change_.add_argument("id", metavar="ID", help="what is painted on it, as B12")
    change_.add_argument("--section", metavar="SECTION", help="its section, measured again")
    change_.add_argument("--length", metavar="LENGTH", help="its length, measured again")
    change_.add_argument("--thickness", metavar="THICKNESS", help="of a sheet, measured again")
    for word, says in TOLD.items():
        for command in (add_, change_):
            command.add_argument(f"--{word}", metavar=word.upper(), help=says)
    move_ = _word(does, "move", "say where a piece lies now", move)
    move_.add_argument("id", metavar="ID", help="what is painted on it, as B12")
    move_.add_argument("place", metavar="PLACE", help="where it lies now")
    remove_ = _word(does, "remove", "take pieces out; their history stays", remove)
    remove_.add_argument("ids", nargs="+", metavar="ID", help="what is painted on them")
    remove_.add_argument("--because", required=True, metavar="WHY", help="sold, lost, thrown away ...")
    for command in (add_, list_, change_, move_, remove_):
        command.add_argument("--who", default="", metavar="NAME", help="who does it (else: who is at this machine)")


def _looking_words(does: Any) -> None:
    list_ = _word(does, "list", "show what lies there", list_rack)
    list_.add_argument("--section", metavar="SECTION", help="only bars of this section, or sheets of this thickness")
    find_ = _word(does, "find", "look for words: a section, a steel, a place, an id, a remark", find)
    find_.add_argument("words", nargs="+", metavar="WORDS", help="as 3/8 sq left wall")
    for command in (list_, find_):
        shows = command.add_mutually_exclusive_group()
        shows.add_argument("--json", action="store_true", help="as JSON")
        shows.add_argument("--csv", action="store_true", help="as a list that `import` reads again")
    history_ = _word(does, "history", "show what happened to one piece", history)
    history_.add_argument("id", metavar="ID", help="what is painted on it, as B12")


def _keeping_words(does: Any) -> None:
    label_ = _word(does, "label", "print labels to cut out (PDF)", label)
    label_.add_argument("ids", nargs="*", metavar="ID", help="for these alone; else for all")
    label_.add_argument("--out", type=Path, default=Path("labels.pdf"), metavar="FILE", help="the file to write")
    label_.add_argument("--paper", type=str.lower, default="letter", help="letter, a4, legal or a3")
    backup_ = _word(does, "backup", "copy the whole rack into a file of its own", backup)
    backup_.add_argument("file", type=Path, metavar="FILE", help="the file to write; used again with --rack FILE")
    _word(does, "check", "look whether the rack hangs together", check)


def _keeper(asked: Namespace) -> "Keeper | None":
    """Who does it, by the shop file that was named; None where there is no such file, or it stops."""
    from bickern.cli.show import show_findings
    from bickern.desk.rack.rack import keeper

    if not is_there(asked.shop):
        return None
    by = keeper(asked.rack, asked.shop, asked.units, getattr(asked, "who", ""))
    if any(f.stops for f in by.findings):
        show_findings(by.findings)
        return None
    return by


def add(asked: Namespace) -> int:
    """Put a bar in, or a sheet."""
    from bickern.desk.rack.rack import add_to_rack

    if asked.more:
        print(f"bickern: what is {asked.more[-1]}? {QUOTES}", file=sys.stderr)
        return 2
    by = _keeper(asked)
    if by is None:
        return 2
    cells = _cells(asked, (*TOLD, "section", "length", "size", "outline", "count", "offcut"))
    if asked.sheet is not None:
        cells |= {"kind": "sheet", "thickness": asked.sheet}
    return _shown("In the rack now; paint the id on", add_to_rack(by, cells), by)


def _cells(asked: Namespace, names: Sequence[str]) -> dict[str, str]:
    return {name: said for name in names if (said := getattr(asked, name)) is not None}


def import_(asked: Namespace) -> int:
    """Put a whole list in."""
    from bickern.desk.rack.rack import import_list

    by = _keeper(asked)
    if by is None:
        return 2
    title = "Would be put in" if asked.dry else "In the rack now; paint the ids on"
    return _shown(title, import_list(by, asked.file, dry=asked.dry), by, most=20)


def change(asked: Namespace) -> int:
    """Change what is told of one piece."""
    from bickern.desk.rack.rack import change_in_rack

    by = _keeper(asked)
    if by is None:
        return 2
    cells = _cells(asked, (*TOLD, "section", "length", "thickness"))
    if not cells:
        words = ", ".join(f"--{word}" for word in ("section", "length", "thickness", *TOLD))
        print(f"bickern: what is to be changed? say one of {words}", file=sys.stderr)
        return 2
    return _shown("As it is now", change_in_rack(by, asked.id, cells), by)


def move(asked: Namespace) -> int:
    """Say where a piece lies now."""
    from bickern.desk.rack.rack import move_in_rack

    by = _keeper(asked)
    return 2 if by is None else _shown("As it is now", move_in_rack(by, asked.id, asked.place), by)


def remove(asked: Namespace) -> int:
    """Take pieces out."""
    from bickern.desk.rack.rack import remove_from_rack

    by = _keeper(asked)
    return 2 if by is None else _shown("Taken out", remove_from_rack(by, asked.ids, asked.because), by)


def _shown(title: str, done: "Done", by: "Keeper", most: int = 1000) -> int:
    """What was done, and what was found."""
    from bickern.cli.show import show_findings

    if done.pieces:
        _show_pieces(f"{title}: {_counted(len(done.pieces))}", done.pieces[:most], by)
        if len(done.pieces) > most:
            print(f"  ... and {len(done.pieces) - most} more: bickern rack list")
    show_findings(done.findings)
    return 1 if done.stops else 0


def _counted(count: int) -> str:
    return f"{count} piece{'s' * (count != 1)}"


def _show_pieces(title: str, pieces: "Sequence[Lying]", by: "Keeper") -> None:
    """Bars, then sheets, each in a table of its own width."""
    from bickern.cli.show import show_rows
    from bickern.desk.rack.rows import HEADS, list_rows, of_kinds

    kinds = [some for some in of_kinds(pieces) if some]
    if not kinds:
        print(title)
    for number, some in enumerate(kinds):
        show_rows(title if number == 0 else "", list_rows(some, by.shop.style), HEADS)


def list_rack(asked: Namespace) -> int:
    """Show what lies there."""
    from bickern.desk.rack.find import of_section

    def some(pieces: "Sequence[Lying]", by: "Keeper") -> "Sequence[Lying] | Finding":
        return pieces if asked.section is None else of_section(pieces, asked.section, by)

    return _looked(asked, some, "The rack")


def find(asked: Namespace) -> int:
    """Look for words."""
    from bickern.desk.rack.find import found_in

    return _looked(asked, lambda pieces, by: found_in(pieces, asked.words, by), "Found")


def _looked(asked: Namespace, some: Any, title: str) -> int:
    from bickern.cli.show import show_findings
    from bickern.desk.rack.rack import as_list, rack_at
    from bickern.desk.rack.rows import in_order, rack_json
    from bickern.measure.finding import Finding

    by = _keeper(asked)
    if by is None:
        return 2
    rack, found = rack_at(asked.rack)
    chosen = some(in_order(rack), by)
    pieces = () if isinstance(chosen, Finding) else chosen
    found = (*found, chosen) if isinstance(chosen, Finding) else found
    if asked.json or asked.csv:
        print(rack_json(pieces, by.shop.style) if asked.json else as_list(pieces, by), end="")
        _show_aside(found)
    else:
        if not any(f.stops for f in found):
            _show_pieces(f"{title}: {_counted(len(pieces))}", pieces, by)
        show_findings((*by.findings, *found))
    return 1 if any(f.stops for f in found) else 0


def _show_aside(found: "Sequence[Finding]") -> None:
    """Findings where something else is read from the output."""
    for fault in found:
        print(f"bickern: {fault.says}", file=sys.stderr)


def history(asked: Namespace) -> int:
    """Show what happened to one piece."""
    from bickern.cli.show import show_findings, show_rows
    from bickern.desk.rack.rows import history_of, history_rows
    from bickern.measure.finding import Finding

    by = _keeper(asked)
    if by is None:
        return 2
    told = history_of(by, asked.id)
    if isinstance(told, Finding):
        show_findings([told])
        return 1
    show_rows(f"What happened to {asked.id.upper()}", history_rows(told, by.shop.style))
    return 0


def label(asked: Namespace) -> int:
    """Print labels to cut out."""
    from bickern.cli.show import show_findings
    from bickern.desk.rack.labels import chosen, labels_pdf
    from bickern.desk.rack.rack import rack_at
    from bickern.desk.sheets.sheets import write_packet
    from bickern.measure.finding import Finding

    by = _keeper(asked)
    if by is None:
        return 2
    rack, found = rack_at(asked.rack)
    pieces = chosen(rack, asked.ids) if not any(f.stops for f in found) else found[0]
    pdf = pieces if isinstance(pieces, Finding) else labels_pdf(pieces, by, asked.paper)
    if isinstance(pdf, Finding):
        show_findings([pdf])
        return 1
    for path in write_packet({asked.out.name: pdf}, asked.out.parent):
        print(path)
    return 0


def backup(asked: Namespace) -> int:
    """Copy the whole rack into a file of its own."""
    from bickern.cli.show import show_findings
    from bickern.desk.rack.rack import back_up
    from bickern.measure.finding import Finding

    by = _keeper(asked)
    if by is None:
        return 2
    done = back_up(by, asked.file)
    if isinstance(done, Finding):
        show_findings([done])
        return 1
    print(f"{done} holds the whole rack. To use it again: --rack {done}")
    return 0


def check(asked: Namespace) -> int:
    """Look whether the rack hangs together."""
    from bickern.cli.show import show_findings
    from bickern.desk.rack.rack import checked

    by = _keeper(asked)
    if by is None:
        return 2
    count, found = checked(by)
    show_findings(found)
    if not found:
        print(f"The rack hangs together: {_counted(count)}, each as its history tells.")
    return 1 if found else 0
