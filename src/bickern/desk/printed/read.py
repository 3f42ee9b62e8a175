"""The rows of a book of figures, from the text of a CSV file; whatever a spreadsheet makes of one is taken."""

import csv
import io
import re
from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import replace
from difflib import get_close_matches
from pathlib import Path
from typing import TypeVar

from bickern.desk.printed.cells import allowance, number, own_room, pi_of, unit_of
from bickern.desk.printed.rows import NEEDED, OTHERS, Printed
from bickern.measure.finding import Finding, Where, note, stop
from bickern.measure.units.scales import SCALES
from bickern.measure.units.text import shown
from bickern.measure.units.words import Read

T = TypeVar("T")
Book = tuple[tuple[Printed, ...], tuple[Finding, ...]]
"""The rows that could be read, and what was found on the way."""
Cells = dict[str, str]

COLUMNS = (*NEEDED, *OTHERS)
WORDS = ("topic", "where", "known", "note")
"""Columns by which no row means another thing."""
NEAR = 0.75
"""Likeness from which an unknown column is one of ours misspelt."""
_SEPARATORS = (",", ";", "\t")
_LEADING = re.compile(r"(?:\$\s*)?(?:bickern\s+)?ask(?:\s+|$)")
_DIGITS = re.compile(r"[0-9]{1,9}", re.ASCII)
_STRAIGHT = str.maketrans({**dict.fromkeys("“”„″", '"'), **dict.fromkeys("‘’‚′", "'")})


def read_book(path: Path) -> Book:
    """The rows of a book of figures from its file, and what cannot be read."""
    from bickern.book.files import read_file

    found = read_file(path)
    if isinstance(found, Finding):
        return (), (found,)
    try:
        text = found.decode("utf-8")
    except UnicodeDecodeError as fault:
        return (), (_not_plain(path.name, found.count(b"\n", 0, fault.start) + 1),)
    if "\0" in text:
        return (), (_not_plain(path.name, text.count("\n", 0, text.index("\0")) + 1),)
    return read_printed(text, path.name)


def _not_plain(file: str, line: int) -> Finding:
    says = "This is no plain text in UTF-8: a sign here cannot be read."
    return stop("no-csv", says, "Save it as UTF-8 (in a spreadsheet: CSV, UTF-8).", Where(file, line))


def read_printed(text: str, file: str) -> Book:
    """The rows of a book of figures, and what cannot be read."""
    whole = text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n")
    above, body = _below_remarks(whole)
    lines, fault = _lines(body, Where(file, above))
    if fault:
        return (), (fault,)
    if not lines:
        return (), _columns((), Where(file, 1))
    return _book(lines)


def _below_remarks(text: str) -> tuple[int, str]:
    """How many lines stand above the heading (empty ones, and remarks that begin with #), and the text from there."""
    lines = text.split("\n")
    above = next(
        (i for i, line in enumerate(lines) if line.strip(" ,;\t") and not line.lstrip(' "').startswith("#")), 0
    )
    return above, "\n".join(lines[above:])


def _lines(body: str, above: Where) -> tuple[list[tuple[list[str], Where]], Finding | None]:
    """Cells row by row, each with the line where it begins; the text stands below that line of the file."""
    reader = csv.reader(io.StringIO(body), delimiter=_separator(body), skipinitialspace=True)
    rows, begins = [], Where(above.file, above.line + 1)
    try:
        for cells in reader:
            rows.append((cells, begins))
            begins = Where(above.file, above.line + reader.line_num + 1)
    except csv.Error:
        says = "A cell here is too long: a quote was opened and not closed."
        return [], stop("open-quote", says, "Close the quote.", begins)
    return rows, None


def _separator(body: str) -> str:
    """The sign between columns: the one by which the heading has most known names."""
    heading = body.partition("\n")[0]
    return max(_SEPARATORS, key=lambda sign: sum(_folded(name) in COLUMNS for name in heading.split(sign)))


def _folded(name: str) -> str:
    return " ".join(name.replace('"', "").casefold().split())


def _book(lines: Sequence[tuple[list[str], Where]]) -> Book:
    heading, where = lines[0]
    names = [_folded(name) for name in heading]
    faults = _columns(names, where)
    if any(f.stops for f in faults):
        return (), faults
    reads = [_row(names, cells, place) for cells, place in lines[1:] if any(c.strip() for c in cells)]
    if not reads:
        faults = (*faults, stop("no-rows", "No row stands below the heading.", "Write a figure in each row.", where))
    return tuple(r.value for r in reads if r.value is not None), (*faults, *(f for r in reads for f in r.findings))


def _columns(names: Sequence[str], where: Where) -> tuple[Finding, ...]:
    """Faults of the heading: columns that are missing, there twice, or not known."""
    missing = [c for c in NEEDED if c not in names]
    twice = [c for c, n in Counter(names).items() if c and n > 1]
    unknown = [_unknown(c, names, where) for c in dict.fromkeys(names) if c and c not in COLUMNS]
    known = f"The heading names {', '.join(NEEDED)}; it may also have {', '.join(OTHERS)}."
    gone = [stop("columns-missing", f"{_are(missing)} missing.", known, where)] if missing else []
    doubled = [stop("column-twice", f"{_are(twice)} there twice.", "Keep one of them.", where)] if twice else []
    return (*gone, *doubled, *unknown)


def _are(names: Sequence[str]) -> str:
    """`The column a is`, `The columns a, b and c are`."""
    if len(names) == 1:
        return f"The column {names[0]} is"
    return f"The columns {', '.join(names[:-1])} and {names[-1]} are"


def _unknown(name: str, names: Sequence[str], where: Where) -> Finding:
    """A column that is not read: it stops where it looks like one of ours misspelt, for then rows mean other things."""
    near = get_close_matches(name, [c for c in COLUMNS if c not in names and c not in WORDS], 1, NEAR)
    says = f"The column {shown(name)} is not known."
    if near:
        return stop("no-such-column", says, f"Did you mean `{near[0]}`?", where)
    return note("no-such-column", f"{says} It is not read.", f"Known are {', '.join(COLUMNS)}.", where)


def _row(names: Sequence[str], told: Sequence[str], place: Where) -> Read[Printed]:
    cells = {name: cell.strip() for name, cell in zip(names, told, strict=False) if name}
    beyond = [c.strip() for i, c in enumerate(told) if c.strip() and (i >= len(names) or not names[i])]
    if beyond:
        says = f"{shown(beyond[0])} stands in no column: there are more cells than names in the heading."
        return Read(None, (stop("too-many-cells", says, "Put a cell that holds a comma in quotes.", place),))
    if any("\n" in cells.get(name, "") for name in NEEDED):
        says = "A cell here goes on over the end of the line: a quote was opened and not closed."
        return Read(None, (stop("open-quote", says, "Close the quote.", place),))
    return _printed({name: cells.get(name, "") for name in COLUMNS}, place)


def _printed(cells: Cells, place: Where) -> Read[Printed]:
    if torn := _torn(cells):
        return Read(None, tuple(_in_column("printed", f, place) for f in torn))
    unit, figure = _cell("unit", unit_of, cells, place), _cell("printed", number, cells, place)
    right, told = _if_said("right", number, cells, place), _if_said("within", allowance, cells, place)
    of_pi = _cell("pi", pi_of, cells, place)
    findings = (*unit.findings, *figure.findings, *right.findings, *told.findings, *of_pi.findings)
    aim = right.value or figure.value
    if any(f.stops for f in findings) or aim is None or unit.value is None or of_pi.value is None:
        return Read(None, findings)
    size, room = float(aim.value), told.value or own_room(aim)
    row = Printed(
        asked(cells["ask"]),
        *(cells["answer"], cells["printed"], unit.value),
        *(size - room.below, size + room.above),
        *(cells["topic"], cells["where"], cells["known"]),
        of_pi.value,
        size if right.value else None,
        cells["note"],
        place,
        room.bound,
        cells["within"],
        cells["right"],
    )
    return Read(row, findings)


def _torn(cells: Cells) -> tuple[Finding, ...]:
    """A number with a comma that stands without quotes: its second half has come into the next column."""
    halves = cells["printed"], cells["unit"]
    return (
        () if cells["unit"] in SCALES or not all(map(_DIGITS.fullmatch, halves)) else number(",".join(halves)).findings
    )


def asked(text: str) -> str:
    """Words behind `bickern ask`: what stands before them is left out, and quotes are made straight."""
    straight = text.translate(_STRAIGHT).strip()
    return straight[found.end() :] if (found := _LEADING.match(straight)) else straight


def _cell(name: str, reads: Callable[[str], Read[T]], cells: Cells, place: Where) -> Read[T]:
    """What stands in a cell; its faults name the column."""
    if not cells[name] and name in ("printed",):
        return Read(None, (stop("empty", f"The column `{name}` is empty here.", "Write what the book has.", place),))
    read = reads(cells[name])
    return Read(read.value, tuple(_in_column(name, f, place) for f in read.findings))


def _if_said(name: str, reads: Callable[[str], Read[T]], cells: Cells, place: Where) -> Read[T]:
    return _cell(name, reads, cells, place) if cells[name] else Read(None)


def _in_column(name: str, finding: Finding, place: Where) -> Finding:
    return replace(finding, says=f"In the column `{name}`: {finding.says}", where=place)
