"""A list of stock as cells: whatever signs stand between them, however its columns are spelled."""

import csv
import io
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from bickern.book.rack.columns import COLUMN_OF, COLUMNS
from bickern.measure.finding import Finding, Where, note, stop

MOST_ROWS = 20_000
"""Rows of one list: more is no rack of a small shop."""
LONGEST_CELL = 2_000_000
"""Signs of one cell: an outline of as many corners as a drawing may have is one."""
_UNIT_BEHIND = re.compile(r"(.*?)[\s(\[,]+(mm|cm|m|in|inch|inches|ft)[)\]]?")


@dataclass(frozen=True, slots=True)
class Line:
    """One row: the line of the file that it starts on, and its cells by column, without those that are empty."""

    number: int
    cells: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Cells:
    """All rows, and what was found on the way. `comma`: numbers may be written with a decimal comma."""

    lines: tuple[Line, ...]
    comma: bool
    findings: tuple[Finding, ...]


def cells_of(data: bytes, file: str) -> Cells:
    """The rows of a list; never raises, whatever the bytes are."""
    where = Where(file)
    text, found = _text(data, where)
    if not text.strip():
        return Cells(
            (), False, found or (stop("empty", "this list is empty", "its first line names the columns", where),)
        )
    between = _between(text)
    usual = csv.field_size_limit(LONGEST_CELL)
    try:
        rows = list(_rows(text, between))
    except csv.Error as wrong:
        return Cells((), False, (*found, stop("not-a-list", f"this is no list of cells ({wrong})", "", where)))
    finally:
        csv.field_size_limit(usual)
    if not rows:
        nothing = stop("empty", "this list is empty", "its first line names the columns", where)
        return Cells((), False, found or (nothing,))
    if len(rows) > MOST_ROWS + 1:
        says = f"this list has {len(rows) - 1} rows; {MOST_ROWS} are read at once"
        return Cells((), False, (*found, stop("too-many-rows", says, "is it the right file? else split it", where)))
    columns, more = _columns(rows[0][1], where)
    return Cells(tuple(_lines(rows[1:], columns)), between != ",", (*found, *more))


def _text(data: bytes, where: Where) -> tuple[str, tuple[Finding, ...]]:
    """Its characters: UTF-8, or UTF-16 as a spreadsheet writes it, or the signs of an old Windows machine."""
    if data[:2] in (b"\xff\xfe", b"\xfe\xff"):
        return _decoded(data, "utf-16", where)
    if b"\x00" in data:
        return "", (_no_text(where),)
    try:
        return data.decode("utf-8-sig"), ()
    except UnicodeDecodeError:
        says = "the signs of this list are not UTF-8: they are read as those of an old Windows machine"
        text, found = _decoded(data, "cp1252", where)
        return text, found or (note("old-signs", says, "look at letters with marks, and at fractions", where),)


def _decoded(data: bytes, as_what: str, where: Where) -> tuple[str, tuple[Finding, ...]]:
    try:
        return data.decode(as_what), ()
    except UnicodeDecodeError:
        return "", (_no_text(where),)


def _no_text(where: Where) -> Finding:
    return stop("not-text", "this is no list of stock: it is not text", "save it as CSV from the spreadsheet", where)


def _between(text: str) -> str:
    """What stands between cells: whichever of comma, semicolon and tab the first line has most of."""
    first = re.sub(r'"[^"]*"', "", next(iter(text.strip().splitlines()), ""))
    return max(",;\t", key=first.count)


def _rows(text: str, between: str) -> Iterator[tuple[int, list[str]]]:
    """Rows that hold anything, with the line that each starts on."""
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=between)
    line = 1
    for row in reader:
        if any(cell.strip() for cell in row):
            yield line, [cell.strip() for cell in row]
        line = reader.line_num + 1


def _columns(heads: list[str], where: Where) -> tuple[list[tuple[str, str]], tuple[Finding, ...]]:
    """The column that each head stands for ("": none), with the unit told in the head, and what is to be said."""
    named = [_column(head) for head in heads]
    found = []
    for head, (column, _) in zip(heads, named, strict=True):
        if head and not column:
            says = f"the column `{head[:40]}` is not known and not read"
            found.append(note("column-not-read", says, f"known: {', '.join(COLUMNS)}", where))
    twice = sorted({column for column, _ in named if column and [c for c, _ in named].count(column) > 1})
    found += [stop("column-twice", f"`{column}` is told in two columns", "keep one of them", where) for column in twice]
    if not {column for column, _ in named} & {"section", "size", "outline"}:
        says = "the first line names no column that tells what a piece is: `section` for bars, `size` for sheets"
        found.append(stop("no-columns", says, f"known columns: {', '.join(COLUMNS)}", where))
    return named, tuple(found)


def _column(head: str) -> tuple[str, str]:
    plain = " ".join(re.sub(r"[_\s]+", " ", head.casefold()).split()).rstrip(".:")
    if plain in COLUMN_OF:
        return COLUMN_OF[plain], ""
    behind = _UNIT_BEHIND.fullmatch(plain)
    return (COLUMN_OF.get(behind[1].strip(), ""), behind[2]) if behind else ("", "")


def _lines(rows: list[tuple[int, list[str]]], columns: list[tuple[str, str]]) -> Iterator[Line]:
    for number, row in rows:
        cells = {}
        for (column, unit), cell in zip(columns, row, strict=False):
            if column and cell:
                bare = unit and not re.search(r"[A-Za-z\"'”’]", cell.replace("x", "").replace("X", ""))
                cells[column] = f"{cell} {unit}" if bare else cell
        yield Line(number, cells)
