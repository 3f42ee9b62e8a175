"""Slips of the notation mended in the text itself, where it cannot be read yet or says another thing than it looks."""

import re
from collections.abc import Callable
from dataclasses import dataclass
from functools import partial

from bickern.book.forms import Takes
from bickern.book.job.spots import BREAK, line_end
from bickern.book.job.words import FORMS
from bickern.book.text import read_page
from bickern.measure.finding import Finding, stop
from bickern.measure.units.words import Read


@dataclass(frozen=True, slots=True)
class Fix:
    """What can be done about a finding: `says`, words for a button, and `does`, the text without the fault."""

    says: str
    does: Callable[[str], Read[str]]


def in_place(line: int, column: int, old: str, new: str) -> Callable[[str], Read[str]]:
    """Puts new letters in place of old ones at a line and column, if those still stand there."""

    def does(text: str) -> Read[str]:
        at = offset(text, line, column)
        if at is None or not text.startswith(old, at):
            return Read(None, (stop("no-such-place", "the text has changed there meanwhile", "look at it once more"),))
        return Read(text[:at] + new + text[at + len(old) :])

    return does


def offset(text: str, line: int, column: int) -> int | None:
    """Where a line and column (both from 1) stand in a text; a byte-order mark at its start takes no column."""
    start = 1 if text.startswith("\ufeff") else 0
    for _ in range(line - 1):
        found = BREAK.search(text, start)
        if found is None:
            return None
        start = found.end()
    return start + max(column - 1, 0)


def _reads(fix: Fix, text: str, name: str) -> bool:
    """Whether the text can be read once this is done, without that fault."""
    done = fix.does(text)
    if done.value is None:
        return False
    page = read_page(done.value, "")
    return page.top is not None and name not in [f.name for f in page.findings]


def _line(text: str, number: int) -> str:
    at = offset(text, number, 1)
    return "" if at is None else text[at : line_end(text, at)]


def comma(found: Finding, text: str) -> tuple[Fix, ...]:
    """`{over: 1,5 mm}`: the comma becomes a point."""
    said = re.match(r"`(\d+),(\d[^`]*)`", found.says)
    line = _line(text, found.where.line)
    if said is None:
        return ()
    old, new = f"{said[1]},{said[2]}", f"{said[1]}.{said[2]}"
    column = line.find(old) + 1
    if not column or line.count(old) != 1:
        return ()
    return (Fix(f"Write {new}", in_place(found.where.line, column, old, new)),)


def space(found: Finding, text: str) -> tuple[Fix, ...]:
    """`{over:4}`: a space behind the colon."""
    said = re.match(r"`([^`:]+):([^`]*)`", found.says)
    if said is None:
        return ()
    old, new = f"{said[1]}:{said[2]}", f"{said[1]}: {said[2]}"
    return (Fix(f"Write {new}", in_place(found.where.line, found.where.column, old, new)),)


def number_sign(found: Finding, text: str) -> tuple[Fix, ...]:
    """`screw: #10`: the sign goes, so that the number is read."""
    said = re.match(r"`#(\d\S*)` is a comment, so", found.says)
    line = _line(text, found.where.line)
    if said is None or line.count(f"#{said[1]}") != 1:
        return ()
    column = line.index(f"#{said[1]}") + 1
    return (Fix(f"Write {said[1]}", in_place(found.where.line, column, f"#{said[1]}", said[1])),)


def tabs(found: Finding, text: str) -> tuple[Fix, ...]:
    """Tabs that lines begin with become blanks, so many that the lines stand under one another."""
    for wide in (2, 4, 8, 1):
        fix = Fix("Put spaces in place of the tabs", partial(_spaces, wide=wide))
        if _reads(fix, text, "tab"):
            return (fix,)
    return ()


def _spaces(text: str, wide: int) -> Read[str]:
    return Read(re.sub(r"(?m)^[ \t]*\t[ \t]*", lambda m: m.group().replace("\t", " " * wide), text))


def quotes(found: Finding, text: str) -> tuple[Fix, ...]:
    """A value that begins with a sign of YAML's own is put in quotes."""
    line = _line(text, found.where.line)
    value = re.match(r"(?:[^\s#{\[\],]|[ ](?!#))+", line[found.where.column - 1 :])
    if value is None or '"' in value.group() or "\\" in value.group():
        return ()
    old = value.group().rstrip()
    old = old.rstrip("}") if "{" in line[: found.where.column] else old
    fix = Fix(f'Write "{old}", in quotes', in_place(found.where.line, found.where.column, old, f'"{old}"'))
    return (fix,) if _reads(fix, text, found.name) else ()


def second_colon(found: Finding, text: str) -> tuple[Fix, ...]:
    """`what for: Hang: it` is a text, in quotes; `seam: lap: 1/2` is a group, in braces."""
    line = _line(text, found.where.line)
    parts = re.match(r"(\s*(?:- +)?([a-z][a-z ]*): +)(([^:#'\"{}\[\]]+):( +[^#]*?|))(\s+#.*|\s*)\Z", line)
    if parts is None:
        return ()
    keys = [k for f in FORMS.values() for k in f.keys if k.word == parts[2]]
    column, old = len(parts[1]) + 1, parts[3]
    if keys and all(k.takes in (Takes.TEXT, Takes.TEXTS) for k in keys):
        new = f'"{old}"'
    elif keys and all(k.takes is Takes.GROUP and FORMS[k.form].key(parts[4]) for k in keys):
        new = f"{{{old}}}"
    else:
        return ()
    fix = Fix(f"Write {new}", in_place(found.where.line, column, old, new))
    return (fix,) if _reads(fix, text, "") else ()


def twice(found: Finding, text: str) -> tuple[Fix, ...]:
    """A word that stands twice on lines of its own: one of them goes."""
    said = re.match(r"`([^`]+)` stands twice here \(first on line (\d+)\)", found.says)
    if said is None:
        return ()
    lines = int(said[2]), found.where.line
    if lines[0] == lines[1] or not all(_alone(text, n, said[1]) for n in lines):
        return ()
    one, two = (_line(text, n).strip() for n in lines)
    if one == two:
        return (Fix(f"Take out line {lines[1]}, which says the same", _without_line(lines[1], two)),)
    return tuple(
        Fix(f"Take out line {n}: {said}", _without_line(n, said)) for n, said in zip(lines, (one, two), strict=True)
    )


def _alone(text: str, number: int, word: str) -> bool:
    """Whether a line holds that word and its one value, and nothing goes on below it."""
    line, below = _line(text, number), _line(text, number + 1)
    inner = len(below) - len(below.lstrip()) > len(line) - len(line.lstrip()) and below.strip()[:1] not in ("", "#")
    return re.match(rf"\s*{re.escape(word)}:\s+[^\s|>&{{\[\"'][^{{\[]*\Z", line) is not None and not inner


def _without_line(number: int, said: str) -> Callable[[str], Read[str]]:
    def does(text: str) -> Read[str]:
        at = offset(text, number, 1)
        if at is None or text[at : line_end(text, at)].strip() != said:
            return Read(None, (stop("no-such-place", "the text has changed there meanwhile", "look at it once more"),))
        after = offset(text, number + 1, 1)
        return Read(text[:at] + ("" if after is None else text[after:]))

    return does
