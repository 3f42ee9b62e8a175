"""One value of a job file changed, or the file tidied, with every remark kept where it is."""

import re

from bickern.book.job.print import quoted
from bickern.book.text import Entry, Group, Items, Page, Value, Word, read_page
from bickern.measure.finding import stop
from bickern.measure.units.words import Read

_STEP = re.compile(r"\.?([^.\[\]]+)|\[(\d{1,6})\]")


def change(text: str, path: str, value: str | int | float | bool) -> Read[str]:
    """The text with the value at `path` put in (`pieces.arm.metal[2].over`, as findings say it); all else stays.

    A word that is not there yet is added to its group. Where the path leads nowhere, or the value cannot stand there,
    the text is not given and a finding says why.
    """
    page = read_page(text, "")
    if page.top is None:
        return Read(None, page.findings)
    said = ("yes" if value else "no") if isinstance(value, bool) else str(value)
    shift = len(text) - len(page.text)
    spot = _spot(page, path, said)
    if spot is None:
        return Read(None, (stop("no-such-place", f"there is nothing at `{path[:80]}` to change", "look at the path"),))
    start, end, new = spot
    changed = text[: start + shift] + new + text[end + shift :]
    held = _find(read_page(changed, "").top, _steps(path))
    if not isinstance(held, Word) or held.text != said:
        return Read(
            None,
            (stop("cannot-change", f"the value at `{path[:80]}` cannot be changed alone", "change it in the file"),),
        )
    return Read(changed)


def _steps(path: str) -> tuple[str | int, ...]:
    return tuple(int(number) if number else word for word, number in _STEP.findall(path))


def _find(value: Value | None, steps: tuple[str | int, ...]) -> Value | None:
    """The value that a path leads to."""
    for step in steps:
        if isinstance(value, Group) and isinstance(step, str):
            value = value.get(step)
        elif isinstance(value, Items) and isinstance(step, int) and 0 < step <= len(value.items):
            value = value.items[step - 1]
        else:
            return None
    return value


def _spot(page: Page, path: str, said: str) -> tuple[int, int, str] | None:
    """From where to where in the text, and what to put there."""
    steps = _steps(path)
    if not steps or page.top is None:
        return None
    value = _find(page.top, steps)
    if isinstance(value, Word):
        new = _fitting(said)
        return (
            value.start,
            value.end,
            f" {new}" if value.start == value.end and page.text[value.start - 1] != " " else new,
        )
    group, word = _find(page.top, steps[:-1]), steps[-1]
    if value is not None or not isinstance(group, Group) or not isinstance(word, str) or not group.entries:
        return None
    return _added(page, group, word, said)


def _added(page: Page, group: Group, word: str, said: str) -> tuple[int, int, str]:
    """A word put behind the last one of its group: in the same braces, or on a line of its own."""
    last = group.entries[-1]
    if group.flow:
        at = _end(last)
        return at, at, f", {quoted(word)}: {_fitting(said)}"
    first = group.entries[0].key
    margin = page.text[page.text.rfind("\n", 0, first.start) + 1 : first.start]
    line_end = page.text.find("\n", first.end)
    at = first.start if line_end < 0 or set(margin) - {" "} else page.text.rfind("\n", 0, first.start) + 1
    new = f"{quoted(word)}: {_fitting(said)}"
    return (
        at,
        at,
        f"{' ' * first_column(page.text, first)}{new}\n" if at != first.start else f"{new}\n{' ' * len(margin)}",
    )


def first_column(text: str, word: Word) -> int:
    """How many signs stand before a word on its line."""
    return word.start - (text.rfind("\n", 0, word.start) + 1)


def _end(entry: Entry) -> int:
    return max(entry.value.end, entry.key.end + 1)


def _fitting(said: str) -> str:
    return quoted(said) if said else '""'


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
