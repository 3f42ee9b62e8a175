"""How findings and tables look on a terminal: plain words, two columns that wrap, nothing told by colour alone."""

import os
import re
import shutil
import sys
import textwrap
from collections.abc import Iterable, Sequence

from bickern.measure.finding import Finding, Weight

WORD = {Weight.STOP: "STOP", Weight.WARN: "look", Weight.NOTE: "note"}
"""What stands before a finding."""
WIDEST = 100
"""Columns that are used at most, and where no terminal is seen."""
NARROWEST = 40
_MARGIN = 6


def width() -> int:
    """Columns there are to write in."""
    return max(NARROWEST, min(WIDEST, shutil.get_terminal_size((WIDEST, 24)).columns))


def heading(text: str) -> str:
    """Bold where a terminal shows it and nobody asked for plain text (NO_COLOR)."""
    shown = sys.stdout.isatty() and "NO_COLOR" not in os.environ and os.environ.get("TERM") != "dumb"
    return f"\x1b[1m{text}\x1b[0m" if shown else text


def show_findings(findings: Iterable[Finding]) -> None:
    """One finding a block: weight and place, what is wrong, what to try."""
    for finding in findings:
        place, way = str(finding.where), f"try: {finding.try_this}" if finding.try_this else ""
        lines = [line for text in (finding.says, way) for line in _wrapped(_plain(text), width() - _MARGIN)]
        first, *more = ([_plain(place)] if place else []) + lines
        print(f"{WORD[finding.weight]}  {first}")
        for line in more:
            print(" " * _MARGIN + line)


def show_count(findings: Sequence[Finding]) -> None:
    """The closing line: how many of each weight."""
    counts = [(sum(f.weight is w for f in findings), WORD[w]) for w in (Weight.STOP, Weight.WARN, Weight.NOTE)]
    print(", ".join(f"{n} {word}" for n, word in counts if n) or "no findings")


def show_rows(title: str, rows: Iterable[Sequence[str]], heads: Sequence[str] = ()) -> None:
    """A plain table: a title, optional heads, rows of text; the last column wraps."""
    lines = [[_plain(cell) for cell in row] for row in (*((heads,) if heads else ()), *rows)]
    print(heading(_plain(title)))
    if not lines:
        return
    last = max(len(line) for line in lines) - 1
    wide = [max(len(line[i]) for line in lines if i < len(line)) for i in range(last)]
    if sum(wide) + 2 * (last + 1) > width() - _LEAST_LAST:
        if last > 2 and sum(wide) + 2 * (last + 1) <= width():
            _show_below(lines, wide)
        else:
            _show_stacked(lines[1:] if heads else lines)  # heads above one another would head nothing
        return
    for line in lines:
        _show_line(line, wide)


_LEAST_LAST = 24
"""Columns that the last cell of a row must at least have; else the cells stand below one another."""


def _show_line(line: Sequence[str], wide: Sequence[int]) -> None:
    before = "  ".join(cell.ljust(w) for cell, w in zip(line, wide, strict=False))
    before = f"  {before}  " if wide else "  "
    first, *more = _wrapped(line[len(wide)] if len(line) > len(wide) else "", width() - len(before)) or [""]
    print((before + first).rstrip())
    for rest in more:
        print(" " * len(before) + rest)


def _show_below(lines: Sequence[Sequence[str]], wide: Sequence[int]) -> None:
    """Narrow cells in their columns, and the last cell of each row on lines of its own below them."""
    for line in lines:
        print(("  " + "  ".join(cell.ljust(w) for cell, w in zip(line, wide, strict=False))).rstrip())
        for row in _wrapped(line[len(wide)] if len(line) > len(wide) else "", width() - _MARGIN):
            print(" " * _MARGIN + row)


def _show_stacked(lines: Sequence[Sequence[str]]) -> None:
    for line in lines:
        first, *more = [cell for cell in line if cell] or [""]
        for row in _wrapped(first, width() - 2):
            print(f"  {row}")
        for row in (row for cell in more for row in _wrapped(cell, width() - _MARGIN)):
            print(" " * _MARGIN + row)


def _wrapped(text: str, columns: int) -> list[str]:
    """Lines of at most so many columns; a size is not torn from its fraction or its unit."""
    held = re.sub(r"(?<=\d) (?=\d+/\d|in\b|mm\b)", "\xa0", text)
    return [line.replace("\xa0", " ") for line in textwrap.wrap(held, columns, break_on_hyphens=False)]


def _plain(text: str) -> str:
    """Text from a file with no sign that a terminal would obey."""
    return "".join(c if c.isprintable() else " " for c in text)
