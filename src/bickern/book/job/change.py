"""One value of a job file changed, or the file tidied, with every remark kept where it is."""

import re

from bickern.book.job.edit import put
from bickern.book.text import Items, Value, Word, read_page
from bickern.measure.units.words import Read


def change(text: str, path: str, value: str | int | float | bool) -> Read[str]:
    """The text with the value at `path` put in (`pieces.arm.metal[2].over`, as findings say it); all else stays.

    A word that is not there yet is added to its group. Where the path leads nowhere, or the value cannot stand there,
    the text is not given and a finding says why.
    """
    return put(text, path, ("yes" if value else "no") if isinstance(value, bool) else str(value))


def rewrite(text: str) -> Read[str]:
    """The file tidied: no byte-order mark, plain line ends, no blanks behind values, one line end at the end.

    Remarks stay, and the job it says is the same. Blanks inside texts that run over several lines are not touched.
    """
    page = read_page(text, "")
    if page.top is None:
        return Read(None, page.findings)
    kept = _many_lines(page.top, page.text)
    plain = page.text.replace("\r\n", "\n").replace("\r", "\n")
    lines = [line if i in kept else line.rstrip(" \t") for i, line in enumerate(plain.split("\n"), 1)]
    return Read("\n".join(lines).rstrip("\n") + "\n")


def _many_lines(value: Value, text: str) -> frozenset[int]:
    """The lines of texts that run over more than one line."""
    if isinstance(value, Word):
        extra = len(re.findall(r"\r\n|\r|\n", text[value.start : value.end]))
        return frozenset(range(value.where.line, value.where.line + extra + 1)) if extra else frozenset()
    inner = value.items if isinstance(value, Items) else tuple(v for e in value.entries for v in (e.key, e.value))
    return frozenset(line for v in inner for line in _many_lines(v, text))
